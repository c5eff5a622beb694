"""What happens between two rests, as sets, against walking it move by move."""

from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.episodes import episodes_of, passed_unexplained, reversal, story_into
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import Story
from circuitcheck.analysis.states import Space, States
from circuitcheck.circuit.model import Circuit
from tests.judge.one_state import State
from tests.judge.sequels import after_all, moved
from tests.judge.steps import Judge
from tests.reference.asking import facts_of

BOX = """
    supply PS 12 V 10 A
    switch S1 spdt positions raise off lower
    switch S2 spdt positions calm storm
    relay  K1 K2 4pdt coil 12 V 160 ohm with diode
    relay  K3 no on-delay 1 s coil 12 V 160 ohm with diode
    rung   PS.+, S1.com-raise, K1.A1-A2, PS.-
    rung   PS.+, ( S1.lower | S2.com-storm | K2.11-14 ), K1.11-12, K2.A1-A2, PS.-
    rung   PS.+, K2.21-24, K3.A1-A2, PS.-
"""
SHORT = "    rung   PS.+, K1.21-24, K2.31-34, PS.-\n"
BOXES = (BOX.replace("S1.lower |", "S1.com-lower |"), BOX + SHORT)


class Walk:
    """All that happens in a box, one state after the other. onward: all that an episode comes to from each state."""

    def __init__(self, facts: Facts) -> None:
        self.circuit, self.judge = facts.circuit, Judge(facts.circuit)
        self.first = set(self.judge.beginnings())
        self.next = {state: self.judge.successors(state) for state in self.judge.reachable()}
        self.going = {state: self._going_on(state) for state in self.next}
        self.onward = {state: after_all({state}, self.going.__getitem__) for state in self.next}
        self.rests = {
            state
            for state in self.next
            if self.judge.is_proper(state) and self.judge.is_at_rest(state) and not self.judge.judged(state).shorted
        }

    def begun(self, states: set[State]) -> set[State]:
        """The states after a step that begins an episode at a rest: not of a hand that will pass off on its way."""
        return {
            there
            for state in states & self.rests
            for there in self.next[state] - self.going[state]
            if not passes_off(self.circuit, moved(state, there), there)
        }

    def _going_on(self, state: State) -> set[State]:
        """Relays that move, and hands that come from between two positions."""
        if self.judge.judged(state).shorted:
            return set()
        between = {number for number, digit in enumerate(self.circuit.digits) if state[number] >= len(digit.values)}
        hands = {there for there in self.next[state] if moved(state, there) in between}
        return {*self.judge.relays_moved(state), *hands}


def passes_off(circuit: Circuit, number: int, there: State) -> bool:
    """Of raise, off and lower: does the switch begin to go from the first to the last, or back?"""
    return circuit.digits[number].name == "S1" and there[number] == len(circuit.digits[number].values)


@lru_cache
def box(number: int) -> tuple[Facts, Walk]:
    """One of the boxes, as sets and to be walked through."""
    facts = facts_of(BOXES[number])
    return facts, Walk(facts)


def space_of_all(facts: Facts) -> Space:
    """The space of all digits."""
    return facts.spaces.of(range(len(facts.circuit.digits)))


def members(facts: Facts, states: States) -> set[State]:
    """The states of a set, one by one."""
    space = space_of_all(facts)
    bits = states.over(space)
    numbers = (number for number in range(space.size) if bits >> number & 1)
    return {tuple(space.values(number).values()) for number in numbers}


def set_of(facts: Facts, states: Iterable[State]) -> States:
    """The set of some states."""
    space = space_of_all(facts)
    return facts.spaces.over(space, sum(1 << space.number(dict(enumerate(state))) for state in states))


def sets_of(number: int) -> st.SearchStrategy[States]:
    """A few of a box's reached states, or where some digit stands so."""
    facts, walk = box(number)
    digits = facts.circuit.digits
    few = st.sets(st.sampled_from(sorted(walk.next)), min_size=1, max_size=12).map(lambda one: set_of(facts, one))
    plain = st.sampled_from([(digit, value) for digit, one in enumerate(digits) for value in range(one.radix)])
    full = facts.spaces.over(space_of_all(facts), space_of_all(facts).full)
    return few | plain.map(lambda one: facts.spaces.where(one[0], (one[1],)) & full)


def shortest(before: set[State], goal: set[State], barred: set[State], walk: Walk) -> int | None:
    """How many moves from a rest where an episode begins to the goal, with nothing barred on the way."""
    seen: set[State] = set()
    fresh, count = walk.begun(before) - barred, 1
    while fresh:
        if fresh & goal:
            return count
        seen |= fresh
        fresh = {there for state in fresh for there in walk.going[state]} - barred - seen
        count += 1
    return None


def states_of(story: Story, count: int) -> list[State]:
    """The story's states from the beginning on."""
    return [tuple(one[digit] for digit in range(count)) for one in (story.beginning, *(c.state for c in story.changes))]


def told_rightly(found: Story | None, walk: Walk, before: set[State], goal: set[State], barred: set[State]) -> None:
    """There is a story just where there is a way; it is one, and none is shorter within the episode."""
    count = shortest(before, goal, barred, walk)
    assert (found is None) == (count is None)
    if found is not None and count is not None:
        states = states_of(found, len(walk.circuit.digits))
        assert states[0] in walk.first
        assert all(there in walk.next[here] for here, there in pairwise(states))
        assert states[-1] in goal
        assert states[-1 - count] in before & walk.rests
        assert barred.isdisjoint(states[-count:])


BOTH = pytest.mark.parametrize("number", range(len(BOXES)))
UNHURRIED = [HealthCheck.too_slow, HealthCheck.function_scoped_fixture]


@BOTH
def test_episodes_are_those_of_a_walk_move_by_move(number: int) -> None:
    """What is passed, from where an episode may end so, the stories, and what is explained by where it ends."""
    facts, walk = box(number)

    @settings(max_examples=25, deadline=None)
    @given(sets_of(number), sets_of(number), sets_of(number))
    def holds(one: States, other: States, barred: States) -> None:
        before, after = members(facts, one), members(facts, other)
        episodes = episodes_of(facts, one, other)
        passed = {there for state in walk.begun(before) for there in walk.onward[state]}
        assert members(facts, episodes.passed(one)) == passed
        leading = {state for state, onward in walk.onward.items() if onward & after & walk.rests}
        assert members(facts, episodes.before(other)) == leading
        told_rightly(reversal(episodes, one, other, barred), walk, before, after & walk.rests, members(facts, barred))
        told_rightly(story_into(episodes, one, other), walk, before, after, set())
        staying = {state for state, onward in walk.onward.items() if onward <= before}
        explained = {state for state, onward in walk.onward.items() if onward & staying and not facts.shorted}
        others = {there for state in walk.begun(set(walk.next) - before) for there in walk.onward[state]}
        assert members(facts, passed_unexplained(facts, one)) == others - explained

    holds()
