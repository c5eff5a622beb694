"""What follows of an event, as sets, against the judge that follows it one state after the other."""

from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.chattering import chatter
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.homing import has_known_places, lost
from circuitcheck.analysis.sequels import starts_after
from circuitcheck.analysis.states import States
from circuitcheck.analysis.stopping import driven_when_stuck, still_driven
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.model import Circuit
from tests.analysis.boxes import boxes
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_hands import where
from tests.judge import sequels
from tests.judge.one_state import State, bridges_a_supply_that_is_off, view
from tests.judge.replaying import replay
from tests.judge.steps import Judge
from tests.profiles import examples

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


def disagreements(circuit: Circuit) -> Iterator[str]:
    """Each thing that the sets and the judge see differently. Nothing is said of plans with a short, which ends stories
    beside the question too, or with a supply that is bridged (see agreement.py)."""
    facts, judge = analyse(circuit), Judge(circuit)
    reached = judge.reachable()
    every = list(judge.every_state())
    if any(
        judge.judged(state).shorted or bridges_a_supply_that_is_off(circuit, state, view(circuit, state))
        for state in every
    ):
        return
    yield from starting_differs(facts, judge, reached)
    yield from stopping_differs(facts, judge, reached)
    yield from axes_differ(facts, judge, reached)


def starting_differs(facts: Facts, judge: Judge, reached: set[State]) -> Iterator[str]:
    """After power returns, and after each control is let go or turned back to its first position."""
    supplies = frozenset(supply.digit for supply in facts.circuit.supplies)
    controls = [number for number, digit in enumerate(facts.circuit.digits) if digit.kind == "control"]
    for motor in range(len(facts.circuit.motors)):
        for digits, value in ((supplies, 1), *((frozenset({control}), 0) for control in controls)):
            found = starts_after(facts, motor, digits, value)
            judged = sequels.starts(judge, reached, motor, digits, value)
            yield from differing(f"motor {motor}, {digits} to {value}", found and found.states, judged)


def stopping_differs(facts: Facts, judge: Judge, reached: set[State]) -> Iterator[str]:
    """With each control at its second position, and with each relay stuck besides."""
    for digit in (number for number, one in enumerate(facts.circuit.digits) if one.kind == "control"):
        stopping = facts.spaces.where(digit, (1,))
        for motor in range(len(facts.circuit.motors)):
            judged = sequels.driven_for_good(judge, reached, motor, digit, 1)
            found = still_driven(facts, motor, stopping)
            yield from differing(f"motor {motor}, {digit} pressed", found.lasting, judged)
            concerned = facts.behaviour((facts.motors[motor].driven & stopping).tight().space.digits).space.digits
            stuck = {(one.relay, one.value): one.states for one in driven_when_stuck(facts, motor, stopping)}
            for relay in range(len(facts.circuit.relays)):
                for value in (0, 1):
                    held, then = sequels.with_stuck(judge, reached, relay, value)
                    judged = sequels.driven_for_good(held, then, motor, digit, 1)
                    # A relay that has no say in the motor is not looked at again.
                    if facts.circuit.relays[relay].digit in concerned:
                        name = f"motor {motor}, {digit} pressed, relay {relay} stuck at {value}"
                        yield from differing(name, stuck.get((relay, value)), judged)


def axes_differ(facts: Facts, judge: Judge, reached: set[State]) -> Iterator[str]:
    """From where an axis gets home, and which of its limits chatter."""
    for number, axis in enumerate(facts.circuit.axes):
        if has_known_places(facts, number):
            yield from differing(f"{axis.name} lost", lost(facts, number), sequels.lost(judge, axis))
        motors = [index for index, motor in enumerate(facts.circuit.motors) if motor.axis == number]
        judged = {name for name, _ in sequels.chatters(judge, reached, axis, motors)}
        found = {one.limit.name for one in chatter(facts, number)}
        if found != judged:
            yield f"{axis.name} chatters on {found}; {judged}, says the judge"


def differing(name: str, found: States | None, judged: set[State]) -> Iterator[str]:
    """Whether the judged states are those of the set, each told by the digits that the set stands over."""
    if not found:
        if judged:
            yield f"{name}: none; {judged}, says the judge"
        return
    digits = found.space.digits
    numbers = {found.space.number({digit: state[digit] for digit in digits}) for state in judged}
    if found.bits != sum(1 << number for number in numbers):
        yield f"{name}: {found.bits:b} of {digits}; {sorted(numbers)}, says the judge"


@settings(max_examples=examples(40), deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(plan_texts())
def test_what_follows_of_an_event_is_as_the_judge_sees_it(text: str) -> None:
    """Starts, stops, stuck relays, ways home and chatter on random plans."""
    assert list(disagreements(circuit_of(text))) == [], text


@settings(max_examples=examples(8), deadline=None, derandomize=True, suppress_health_check=UNHURRIED)
@given(boxes())
def test_what_follows_in_a_box_with_an_emergency_stop_is_as_the_judge_sees_it(text: str) -> None:
    """Two relays, an axis and its limits, fed over contacts in random order."""
    assert list(disagreements(circuit_of(text))) == [], text


@pytest.mark.slow
@settings(max_examples=1_500, deadline=None, suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=200, most_parts=10))
def test_what_follows_of_an_event_is_as_the_judge_sees_it_on_larger_plans(text: str) -> None:
    """The same on plans of up to ten parts."""
    assert list(disagreements(circuit_of(text))) == [], text


LATCHED = """
supply PS 12 V 10 A
button PB1 PB2 no
relay  K2 K1 no latching coil 12 V 160 ohm with diode
motor  M1 12 V stall 3 A
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, PB2, K2.13-14, K1.B1-B2, PS.-
rung   PS.+, K1.13-14, M1, PS.-
"""
SWITCHED = """
supply PS 12 V 10 A
switch S1 spst positions off on
relay  K1 no latching coil 12 V 160 ohm with diode
motor  M1 12 V stall 3 A
rung   PS.+, S1, M1, PS.-
rung   M1.+, K1.A1-A2, PS.-
"""


@pytest.mark.parametrize(
    ("plan", "driven", "remembering"), [(LATCHED, {"K1": "operated"}, ["K1"]), (SWITCHED, {"S1": "on"}, [])]
)
def test_of_latching_relays_only_those_are_told_that_decide_whether_a_motor_starts(
    plan: str, driven: dict[str, str], remembering: list[str]
) -> None:
    """Not one that has a say in those, nor where a switch decides; buttons have been let go."""
    facts = analyse(circuit_of(plan))
    names = [digit.name for digit in facts.circuit.digits]
    starts = starts_after(facts, 0, frozenset({names.index("PS")}), 1)
    assert starts is not None
    assert [facts.circuit.relays[number].name for number in starts.remembering] == remembering
    released = {name: "released" for name in names if name.startswith("PB")}
    begun = where(facts, PS="on", **driven, **released)
    assert starts.states
    assert not starts.states - begun


TWO_SUPPLIES = """
supply PS PS2 12 V 10 A
fuse   F1 F2 5 A
relay  K1 K2 nc coil 12 V 160 ohm {out} with diode
relay  K3 K4 no no coil 12 V 160 ohm {seal} with diode
motor  M1 12 V stall 5 A may coast
wire   PS2.- PS.-
rung   PS.+, F1, K1.A1-A2, PS.-
rung   PS2.+, F2, K2.A1-A2, PS2.-
rung   F2.2, K4.A1-A2, PS2.-
rung   F1.2, ( K1.11-12, K2.11-12, K4.13-14 | K3.13-14 ), K3.A1-A2, PS.-
rung   F1.2, K3.23-24, M1, PS.-
"""


@pytest.mark.parametrize(
    ("out", "seal", "when", "starts"),
    [
        ("", "", "power", True),
        ("operate 20..30 ms", "operate 2..5 ms", "power", True),
        ("operate 2..5 ms", "operate 20..30 ms", "power", False),
        ("", "", "PS", False),
        ("", "", "PS2", False),
    ],
)
def test_power_may_return_to_two_supplies_before_any_relay_has_moved(
    out: str, seal: str, when: str, starts: bool
) -> None:
    """One after the other, K1 or K2 keeps K3 out; at once, K4 and K3 may be quicker than both, if their times allow."""
    plan = TWO_SUPPLIES.format(out=out, seal=seal)
    circuit = circuit_of(f"{plan}never M1 starts when {when} returns\n")
    promised = tuple(one for one in all_checks() if one.check.name == "broken-promise")
    told = run_checks(analyse(circuit), promised)
    assert [replay(circuit, one) for one in told] == [""] * starts


@pytest.mark.parametrize("seal", ["", "operate 2..5 ms"])
def test_power_that_returns_at_once_is_as_the_judge_sees_it(seal: str) -> None:
    """Whether or not times are told apart."""
    circuit = circuit_of(TWO_SUPPLIES.format(out="", seal=seal))
    judge = Judge(circuit)
    assert list(starting_differs(analyse(circuit), judge, judge.reachable())) == []
