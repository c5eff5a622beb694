"""Races and relays that never rest, against the judge, who walks every order from every start of random plans."""

from textwrap import dedent
from unittest.mock import patch

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.settling import endless, races
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.judge.one_state import State
from tests.judge.replaying import replay
from tests.judge.steps import Judge
from tests.profiles import examples

CONTACTS = [(name, mark) for name in ("K1", "K2", "K3") for mark in ("13-14", "23-24", "31-32", "41-42")]


TIMES = ("", " operate 1..2 ms release 1 ms", " operate 4..6 ms release 2..3 ms", " operate 9 ms release 1..9 ms")


@st.composite
def relay_plans(draw: st.DrawFn, times: tuple[str, ...] = ("",)) -> str:
    """Two or three relays, each coil behind a button or two and random contacts of them all; a motor and a lamp."""
    relays = ["K1", "K2", "K3"][: draw(st.integers(2, 3))]
    own = [f"{name}.{mark}" for name, mark in CONTACTS if name in relays]
    item = st.sampled_from(["PB1.13-14", "PB2.11-12", *own])
    path = st.lists(item, min_size=1, max_size=3, unique=True).map(", ".join)
    lines = ["supply PS 12 V 10 A", "button PB1 no", "button PB2 nc", "motor M1 12 V stall 10 A", "lamp L1 12 V 2 W"]
    lines += [f"relay {name} no no nc nc coil 12 V 160 ohm{draw(st.sampled_from(times))}" for name in relays]
    for end in (*(f"{name}.A1-A2" for name in relays), "M1.+--", "L1.1-2"):
        one, other = draw(path), draw(path)
        lines.append(f"rung PS.+, ( {one} | {other} ), {end}, PS.-".replace("M1.+--", "M1"))
    return "\n".join(lines)


def starts_of(judge: Judge) -> set[State]:
    """Power-up, and what one change leads to that is no relay's move."""
    relays = {relay.digit for relay in judge.circuit.relays}
    found = set(judge.beginnings())
    for state in judge.reachable():
        for there in judge.successors(state):
            if any(state[digit] != there[digit] for digit in range(len(state)) if digit not in relays):
                found.add(there)
    return {state for state in found if judge.is_proper(state)}


def by_relays(judge: Judge, state: State) -> set[State]:
    """The state and all that relays alone lead to."""
    found, waiting = {state}, [state]
    while waiting:
        for there in judge.relays_moved(waiting.pop()):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found


def kinds_of(judge: Judge) -> set[str]:
    """Which of "short", "never", "several" some start leads to, in this order of precedence."""
    kinds = set()
    for start in starts_of(judge):
        followed = by_relays(judge, start)
        ends = [state for state in followed if judge.is_at_rest(state)]
        if any(judge.judged(state).shorted for state in followed):
            kinds.add("short")
        elif any(judge.relays_moved(state) for state in ends):
            kinds.add("never")
        elif len(ends) > 1:
            kinds.add("several")
    return kinds


def found_of(circuit: Circuit) -> set[str]:
    """What the sets of states find."""
    facts = analyse(circuit)
    return ({"never"} if list(endless(facts)) else set()) | ({"several"} if list(races(facts)) else set())


@settings(
    max_examples=examples(12),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(relay_plans())
def test_there_is_a_race_or_an_endless_round_just_where_the_judge_walks_into_one(text: str) -> None:
    """Told of relays by themselves, so what hides behind a short or a round elsewhere may be told all the same."""
    circuit = circuit_of(text)
    kinds = kinds_of(Judge(circuit))
    found = found_of(circuit)
    assert kinds - {"short"} <= found
    if "short" not in kinds and ("never" not in kinds or "several" in kinds):
        assert found == kinds


@settings(
    max_examples=examples(12),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(relay_plans(TIMES))
def test_every_story_of_a_race_or_an_endless_round_is_walked_by_the_judge(text: str) -> None:
    """From power-up to the change, then each order to the end that is told of it, all within the relays' times."""
    circuit = circuit_of(text)
    checks = tuple(one for one in all_checks() if one.check.name in ("order-dependent", "never-settles"))
    findings = run_checks(analyse(circuit), checks)
    assume(findings)
    assert [replay(circuit, finding) for finding in findings] == [""] * len(findings)


LOCKED_OUT = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 K2 dpdt coil 12 V 160 ohm with diode
    relay  K3 no coil 12 V 160 ohm with diode
    rung   PS.+, PB1, K1.11-12, K2.A1-A2, PS.-
    rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
"""
"""Of K1 and K2 whoever operates first locks the other out."""


def test_a_race_in_which_some_order_shorts_is_told_as_a_short_alone() -> None:
    """K3, if it is the quickest, joins the rails before K1 or K2 opens that way."""
    shorting = LOCKED_OUT + "rung PB1.14, K3.A1-A2, PS.-\nrung PB1.14, K3.13-14, K1.21-22, K2.21-22, PS.-\n"
    assert [race.name for race in races(analyse(circuit_of(dedent(LOCKED_OUT))))] == ["K1"]
    assert not list(races(analyse(circuit_of(dedent(shorting)))))


PILOT = "relay K4 no coil 12 V 160 ohm with diode\nrung K1.24, K4.A1-A2, PS.-\nrung PS.+, K1.21\n"
LAMP = "lamp L1 12 V 2 W\nrung PB1.14, K2.21-24, L1, PS.-\n"
MOTOR = "motor M1 12 V stall 3 A\nrung PB1.14, K1.21-24, M1, PS.-\n"
OTHERS = """
    relay  K5 K6 spdt coil 12 V 160 ohm with diode
    rung   PB1.14, K5.11-12, K6.A1-A2, PS.-
    rung   PB1.14, K6.11-12, K5.A1-A2, PS.-
"""


@pytest.mark.parametrize(
    ("more", "names"),
    [(PILOT, ["K1"]), (LAMP, ["L1"]), (LAMP + MOTOR, ["M1"]), (OTHERS, ["K1", "K5"]), (LAMP + OTHERS, ["L1", "K5"])],
)
def test_a_race_is_told_once_of_what_it_matters_to_most(more: str, names: list[str]) -> None:
    """A motor before a lamp before the relays themselves; not again of what follows one that races."""
    facts = analyse(circuit_of(dedent(LOCKED_OUT) + more))
    assert [race.name for race in races(facts)] == names


BUZZING = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 dpdt coil 12 V 160 ohm
    rung   PS.+, PB1, K1.11-12, K1.A1-A2, PS.-
"""


@pytest.mark.parametrize(
    ("more", "names"),
    [
        ("", ["K1"]),
        ("relay K2 no coil 12 V 160 ohm\nrung PS.+, K1.21-24, K2.A1-A2, PS.-\n", ["K1"]),
        ("relay K2 spdt coil 12 V 160 ohm\nrung PB1.14, K2.11-12, K2.A1-A2, PS.-\n", ["K1", "K2"]),
        ("rung PB1.14, K1.21-24, PS.-\n", []),
    ],
)
def test_relays_that_never_settle_are_told_once_for_each_group(more: str, names: list[str]) -> None:
    """Not a relay that follows one, nor what ends in a short."""
    assert [one.name for one in endless(analyse(circuit_of(dedent(BUZZING) + more)))] == names
    with patch("circuitcheck.analysis.facts.FOLLOWED", 2):
        wide = analyse(circuit_of(dedent(BUZZING) + more))
        assert wide.is_wide(relay.digit for relay in wide.circuit.relays)
        assert [one.name for one in endless(wide)] == names


def test_a_race_is_told_of_a_relay_that_ends_up_otherwise() -> None:
    """K3 stands first in the plan and hangs together with the two that race, but operates in any case."""
    facts = analyse(
        circuit_of("""
            supply PS 12 V 10 A
            button PB1 no
            relay  K3 K1 K2 dpdt coil 12 V 160 ohm
            rung   PS.+, PB1, ( K1.21-22 | K2.21-22 ), K3.A1-A2, PS.-
            rung   PS.+, K3.11-14, K1.11-12, K2.A1-A2, PS.-
            rung   PS.+, K3.21-24, K2.11-12, K1.A1-A2, PS.-
        """)
    )
    (race,) = races(facts)
    assert race.name == "K1"
    assert race.starts
