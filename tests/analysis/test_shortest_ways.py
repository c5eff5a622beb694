"""The shortest ways between terminals, against trying every way that passes no terminal twice."""

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.shortest_ways import Step, Ways, shortest_ways
from tests.profiles import examples

TERMINALS = ("F1.1", "F1.2", "S1.com", "S1.on", "L1.1")

networks = st.lists(
    st.builds(
        Step[int], st.sampled_from(TERMINALS), st.sampled_from(TERMINALS), st.sampled_from((None, None, 1, 2, 3, 4))
    ),
    max_size=10,
)
some_terminals = st.lists(st.sampled_from(TERMINALS), max_size=2, unique=True)


def every_way(
    steps: list[Step[int]], passed: tuple[Step[int], ...], start: str, ends: list[str]
) -> Iterator[tuple[Step[int], ...]]:
    """All ways from a terminal on that pass none twice."""
    here = passed[-1].end if passed else start
    if here in ends:
        yield passed
    for step in steps:
        if step.start == here and step.end not in {start, *(one.end for one in passed)}:
            yield from every_way(steps, (*passed, step), start, ends)


def things_passed(way: tuple[Step[int], ...]) -> list[int]:
    """In order; no wires."""
    return [step.through for step in way if step.through is not None]


@settings(max_examples=examples(20), deadline=None)
@given(networks, some_terminals, some_terminals)
def test_the_shortest_ways_are_those_of_all_that_pass_the_fewest_things(
    steps: list[Step[int]], starts: list[str], ends: list[str]
) -> None:
    """All that any of them passes is told; the one way told has as few wires as any of them."""
    ways = [way for start in starts for way in every_way(steps, (), start, ends)]
    found = shortest_ways(steps, starts, ends)
    if not ways:
        assert found is None
        return
    fewest = min(len(things_passed(way)) for way in ways)
    best = [way for way in ways if len(things_passed(way)) == fewest]
    passed = {id(step) for way in best for step in way}
    assert found is not None
    assert found.every == tuple(one.through for one in steps if id(one) in passed and one.through is not None)
    assert found.way in best
    assert len(found.way) == min(map(len, best))


def test_a_terminal_that_is_a_start_and_an_end_needs_no_way() -> None:
    """Nothing is passed, though something could be."""
    steps = [Step("F1.1", "F1.2", 1), Step("F1.2", "F1.1", 1)]
    assert shortest_ways(steps, ["F1.1", "F1.2"], ["F1.2"]) == Ways((), ())
