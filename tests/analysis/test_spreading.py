"""What is met from one junction onward, against a walk of each state by itself."""

from typing import NamedTuple

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.spreading import Beside, leads, reached, spread
from circuitcheck.analysis.states import Spaces, States

JUNCTIONS = range(-1, 3)
SPACES = Spaces((2, 3))
EVERY = [{0: one, 1: other} for one in range(2) for other in range(3)]


class Asked(NamedTuple):
    """Conductors as (tail, head, the states in which they are closed), and what is asked of them."""

    conductors: list[tuple[int, int, States]]
    borders: frozenset[int]
    source: int
    within: States
    without: int | None
    avoided: int | None

    @property
    def onward(self) -> Beside:
        """The ways on from each junction."""
        found: Beside = {}
        for number, (tail, head, closed) in enumerate(self.conductors):
            found.setdefault(tail, []).append((number, head, closed))
        return found

    def walked(self, state: dict[int, int]) -> set[int]:
        """The junctions that are met in one state, by the definition."""
        met, growing = {self.source}, True
        while growing:
            on_from = {one for one in met if one == self.source or one not in self.borders}
            more = {
                head
                for number, (tail, head, closed) in enumerate(self.conductors)
                if tail in on_from and number != self.without and head != self.avoided and state in closed
            }
            met, growing = met | more, not more <= met
        return met


@st.composite
def questions(draw: st.DrawFn) -> Asked:
    """Some conductors between few junctions, of which the one below nothing is a border."""
    junctions = st.sampled_from(JUNCTIONS)
    space = SPACES.of((0, 1))
    sets = st.integers(1, space.full).map(lambda bits: SPACES.over(space, bits))
    conductors = draw(st.lists(st.tuples(junctions, junctions, sets), min_size=4, max_size=12))
    source = draw(st.sampled_from([tail for tail, _, _ in conductors]))
    without = draw(st.none() | st.integers(0, len(conductors) - 1))
    avoided = draw(st.none() | junctions.filter(lambda one: one != source))
    return Asked(conductors, frozenset((-1,)), source, draw(sets), without, avoided)


@settings(max_examples=40)
@given(questions())
def test_a_junction_is_met_in_just_the_states_in_which_a_walk_comes_to_it(asked: Asked) -> None:
    """Each state is told once of each junction, and those of a walk that leaves nothing out by `reached`."""
    told: dict[tuple[int, int], int] = {}
    for junction, states in spread(asked.onward, *asked[1:]):
        for number, state in enumerate(EVERY):
            told[junction, number] = told.get((junction, number), 0) + (state in states)
    freely = asked._replace(without=None, avoided=None)
    met = reached(asked.onward, asked.borders, asked.source, asked.within)
    for number, state in enumerate(EVERY):
        walked = asked.walked(state) if state in asked.within else set()
        assert {one for one in JUNCTIONS if told.get((one, number))} == walked
        walked = freely.walked(state) if state in asked.within else set()
        assert {one for one, states in met.items() if state in states} == walked
    assert max(told.values()) == 1


@settings(max_examples=40)
@given(questions(), st.sets(st.sampled_from(JUNCTIONS), max_size=2))
def test_a_junction_leads_to_a_goal_in_the_states_in_which_a_walk_comes_to_one(asked: Asked, goals: set[int]) -> None:
    """Among the states that are asked about."""
    states = leads(asked.onward, asked.borders, asked.source, goals, *asked[3:])
    assert [state in states for state in EVERY] == [
        state in asked.within and bool(asked.walked(state) & goals) for state in EVERY
    ]
