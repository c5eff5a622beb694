"""The least cover, against trying every choice."""

from collections.abc import Iterator
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.bench import covering
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


def test_members_beyond_a_words_end_have_to_be_covered_too() -> None:
    """Each is in one set alone."""
    assert least_cover([1 << member for member in range(200)]) == (tuple(range(200)), 200)


def test_what_lies_apart_is_proved_without_the_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each of three members needs a set of its own, whatever else the sets have."""
    monkeypatch.delattr(covering, "_shortened")
    assert least_cover([0b0001, 0b0011, 0b0110, 0b1100, 0b1000]) == ((1, 3), 2)
    assert least_cover([0b010_001, 0b001_010, 0b100_100, 0b001_001]) == ((0, 1, 2), 3)


class Interrupted:
    """A solver that has come as far as to know that two are too few."""

    cost = 2

    def __init__(self, *asked: object, **options: object) -> None:
        """Whatever is asked."""

    def __enter__(self) -> "Interrupted":
        return self

    def __exit__(self, *error: object) -> None:
        """Nothing is left."""

    def interrupt(self) -> None:
        """It is."""

    def compute(self, expect_interrupt: bool) -> list[int] | None:
        """What is found until then."""
        return None if expect_interrupt else []


@pytest.fixture
def little_time() -> Iterator[None]:
    """The solver has none."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("pysat.examples.rc2.RC2", Interrupted)
        yield


@pytest.mark.usefixtures("little_time")
@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(1, 255), min_size=5, max_size=12))
def test_where_time_runs_out_a_cover_has_no_set_too_many(sets: list[int]) -> None:
    """Each of its sets has something that no other of them has."""
    cover, whole = least_cover(sets), joined(sets)
    assert joined([sets[number] for number in cover.chosen]) == whole
    for number in cover.chosen:
        assert joined([sets[other] for other in cover.chosen if other != number]) != whole


def joined(sets: list[int]) -> int:
    """All members of some sets."""
    whole = 0
    for one in sets:
        whole |= one
    return whole


@pytest.mark.usefixtures("little_time")
def test_where_time_runs_out_the_set_that_meets_most_is_taken_first_and_how_few_there_could_be_is_said() -> None:
    """Of the seven lines of the Fano plane and one more that has two points of each, that one."""
    lines = [(0, 1, 2), (0, 3, 4), (0, 5, 6), (1, 3, 5), (1, 4, 6), (2, 3, 6), (2, 4, 5), (0, 1, 3, 6)]
    cover = least_cover([sum(1 << point for point in line) for line in lines])
    assert cover.shortest
    assert cover == ((6, 7), 2)
    seven = least_cover([sum(1 << point for point in line) for line in lines[:7]])
    assert (len(seven.chosen), seven.at_least) == (3, 2)
    assert not seven.shortest
