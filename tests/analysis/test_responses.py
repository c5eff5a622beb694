"""What is promised within a time, against the judge that waits for one timer after the other."""

import math
from collections.abc import Iterable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.responses import begins_to_hold, late_answer
from tests.analysis.boxes import boxes
from tests.analysis.plans import circuit_of
from tests.analysis.test_hands import where
from tests.judge.one_state import State
from tests.judge.sequels import after_all, is_driven, moved
from tests.judge.steps import Judge, with_value
from tests.profiles import examples

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


class Waiting:
    """How long it can take, at most, until motor 0 stands still while nothing is touched and no axis moves."""

    def __init__(self, judge: Judge) -> None:
        self.judge = judge
        self.relays = {relay.digit: relay for relay in judge.circuit.relays}

    def longest(self, states: Iterable[State], passed: tuple[State, ...] = ()) -> float:
        """From any of these states on; without end where a rest comes back."""
        rests = {one for one in after_all(states, self.settling) if self.is_rest(one)}
        return max((self.from_rest(rest, passed) for rest in rests), default=0.0)

    def from_rest(self, rest: State, passed: tuple[State, ...]) -> float:
        """Nothing where the motor stands still; else the shortest timer's time, and then whatever takes longest."""
        if not is_driven(self.judge, rest, 0):
            return 0.0
        timed = [wish for wish in self.judge.judged(rest).wishes if wish.timed]
        if not timed or rest in passed:
            return math.inf
        following = [with_value(rest, wish.digit, wish.end) for wish in timed]
        return min(self.relays[wish.digit].seconds_at(rest[wish.digit]) for wish in timed) + self.longest(
            following, (*passed, rest)
        )

    def settling(self, state: State) -> list[State]:
        """Relays that move, and hand switches that come out of the moment between two positions."""
        if self.judge.is_proper(state):
            return self.judge.relays_moved(state)
        digits = self.judge.circuit.digits
        relays = {relay.digit for relay in self.judge.circuit.relays}
        onward = self.judge.successors(state)
        return [
            one for one in onward
            if (digit := moved(state, one)) in relays or state[digit] >= len(digits[digit].values)
        ]  # fmt: skip

    def is_rest(self, state: State) -> bool:
        """At a position, with no relay about to move."""
        return self.judge.is_proper(state) and self.judge.is_at_rest(state)


@settings(max_examples=examples(20), deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(boxes(), st.sampled_from((0.0, 1.0, 2.0, 5.0)), st.data())
def test_an_answer_is_late_where_the_judge_waits_longer(text: str, seconds: float, data: st.DataObject) -> None:
    """From every way in which a digit comes to a value, in operation or with power-up."""
    circuit = circuit_of(text)
    facts, judge = analyse(circuit), Judge(circuit)
    digit = data.draw(st.integers(0, len(circuit.digits) - 1))
    value = data.draw(st.integers(0, len(circuit.digits[digit].values) - 1))
    reached = judge.reachable()
    begun = {there for here in reached if here[digit] != value for there in judge.successors(here)}
    begun = {one for one in begun if one[digit] == value} | {one for one in judge.beginnings() if one[digit] == value}
    late = late_answer(facts, facts.spaces.where(digit, (value,)), ~facts.motors[0].driven, seconds)
    assert (late is not None) == (Waiting(judge).longest(begun) > seconds), (text, digit, value)


def test_an_answer_that_comes_just_in_time_is_not_late() -> None:
    """A relay that lets go after two seconds stops the motor within two seconds, and not within less."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
button PB1 no
relay  K1 no off-delay 2 s coil 12 V 160 ohm
motor  M1 12 V stall 4 A
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, K1.17-18, M1, PS.-
""")
    )
    button = next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == "PB1")
    released, stopped = facts.spaces.where(button, (0,)), ~facts.motors[0].driven
    assert late_answer(facts, released, stopped, 2.0) is None
    late = late_answer(facts, released, stopped, 1.9)
    assert late is not None
    assert (late.seconds, late.summed) == (2.0, False)


HELD_ON = """
supply PS 12 V 10 A
button PB1 no
relay  K1 no off-delay 0.5 s coil 12 V 160 ohm
relay  K2 no off-delay 3 s coil 12 V 160 ohm
motor  M1 M2 M3 12 V stall 4 A
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, K1.17-18, K2.A1-A2, PS.-
rung   PS.+, K1.17-18, M1, PS.-
rung   PS.+, K2.17-18, M2, PS.-
rung   PS.+, M3, PS.-
"""


@pytest.mark.parametrize(
    ("motor", "within", "late"),
    [(0, 0.5, None), (0, 0.4, (0.5, False)), (1, 3.5, None), (1, 3.4, (3.5, True)), (2, 9.0, (None, False))],
)
def test_an_answer_waits_for_timers_one_after_the_other(
    motor: int, within: float, late: tuple[float | None, bool] | None
) -> None:
    """Two times add up, and what nothing ends never comes; nothing begins where it holds already."""
    facts = analyse(circuit_of(HELD_ON))
    button = next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == "PB1")
    released, stopped = facts.spaces.where(button, (0,)), ~facts.motors[motor].driven
    found = late_answer(facts, released, stopped, within)
    assert (found and (found.seconds, found.summed)) == late
    assert begins_to_hold(facts, released)
    assert not begins_to_hold(facts, facts.spaces.none())


def test_a_switch_comes_out_of_the_moment_in_which_its_leaving_a_position_begins() -> None:
    """At the next one a relay that it left operated has the motor driven for as long as it stays there."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
switch S1 spdt positions raise lower
relay  K1 no no coil 12 V 160 ohm
motor  M1 12 V stall 4 A
rung   PS.+, S1.com
rung   PS.+, ( S1.com-lower | K1.13-14 ), K1.A1-A2, PS.-
rung   S1.raise, K1.23-24, M1, PS.-
""")
    )
    switch = next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == "S1")
    late = late_answer(facts, ~facts.spaces.where(switch, (1,)), ~facts.motors[0].driven, 9.0)
    assert late is not None
    assert late.seconds is None


def test_a_condition_comes_to_hold_by_what_leads_into_it() -> None:
    """Of the one state in which a relay is in with power and its switch on, all ways in come from outside."""
    facts = analyse(
        circuit_of("""
supply PS 12 V 10 A
switch S1 spst positions off on
relay  K1 no coil 12 V 160 ohm
rung   PS.+, S1, K1.A1-A2, PS.-
""")
    )
    assert begins_to_hold(facts, where(facts, PS="on", S1="on", K1="operated"))
