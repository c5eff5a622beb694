"""The least cover, against trying every choice."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from circuitcheck.analysis.bench.covering import least_cover


def fewest(sets: list[int]) -> int:
    """How many sets a least cover has: one is found by trying all choices of one, of two, of three."""
    whole = 0
    for one in sets:
        whole |= one
    for count in range(len(sets) + 1):
        for chosen in combinations(sets, count):
            union = 0
            for one in chosen:
                union |= one
            if union == whole:
                return count
    raise AssertionError("all sets together cover themselves")


@given(st.lists(st.integers(0, 255), max_size=9))
def test_a_cover_is_whole_and_no_cover_is_shorter(sets: list[int]) -> None:
    """And it is said to be the shortest."""
    cover, whole, union = least_cover(sets), 0, 0
    for one in sets:
        whole |= one
    for number in cover.chosen:
        union |= sets[number]
    assert union == whole
    assert len(cover.chosen) == cover.at_least == fewest(sets)


def test_sets_of_a_projective_plane_need_the_solver() -> None:
    """The seven lines of the Fano plane: every two meet, so no two points lie apart; three lines cover it."""
    lines = [(0, 1, 2), (0, 3, 4), (0, 5, 6), (1, 3, 5), (1, 4, 6), (2, 3, 6), (2, 4, 5)]
    cover = least_cover([sum(1 << point for point in line) for line in lines])
    assert (len(cover.chosen), cover.at_least) == (3, 3)


def test_of_equal_sets_the_first_is_taken() -> None:
    """That whose setting is nearest to rest."""
    assert least_cover([0b01, 0b10, 0b01, 0b10]).chosen == (0, 1)


@given(st.lists(st.integers(0, 255), max_size=9), st.integers(1, 40))
def test_a_cover_is_the_same_however_far_its_members_lie_apart(sets: list[int], apart: int) -> None:
    """Members are kept 64 to a word."""
    spread = [sum(1 << apart * member for member in range(8) if one >> member & 1) for one in sets]
    assert least_cover(spread) == least_cover(sets)
