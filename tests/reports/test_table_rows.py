"""The truth table against a judge that goes through the combinations one by one."""

import pytest
from hypothesis import HealthCheck, assume, given, settings

from circuitcheck.reports.table_rows import ANY, RELAYS_BEFORE, Row
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.one_state import bridges_a_supply_that_is_off, view
from tests.judge.steps import Judge
from tests.profiles import examples
from tests.reports.table_judge import disagreements, rows_of

DRAWBRIDGE = """
supply PS 12 V 10 A
fuse   F1 7.5 A
switch S1 spdt positions raise lower
relay  K1 K2 dpdt coil 12 V 160 ohm with diode
axis   deck from bottom to top
limit  LS1 spdt on deck at top
limit  LS2 spdt on deck at bottom
motor  M1 12 V stall 18 A drives deck toward top
rung  PS.+, F1, S1.com
rung  S1.raise, LS1.com-nc, K1.A1-A2, PS.-
rung  S1.lower, LS2.com-nc, K1.A1
rung  S1.lower, K2.A1-A2, PS.-
rung  F1.2, K1.14
rung  PS.-, K1.12
rung  K1.11, K2.11
rung  PS.-, K2.21
rung  K2.12, M1.+, K2.24
rung  K2.14, M1.-, K2.22
"""
CURTAIN = """
supply PS 12 V 10 A
button PB1 no
button PB2 nc
relay K1 dpdt coil 12 V 160 ohm
motor M1 12 V stall 5 A
rung PS.+, PB2, ( PB1 | K1.11-14 ), K1.A1-A2, PS.-
rung PS.+, K1.24
rung K1.21, M1, PS.-
rung K1.22, PS.-
"""
BUZZING_JAW = """
supply PS 12 V 10 A
relay K1 dpdt coil 12 V 160 ohm
motor M1 M2 12 V stall 5 A
rung PS.+, K1.11-12, K1.A1-A2, PS.-
rung PS.+, K1.21-24, M1, PS.-
rung PS.+, M2, PS.-
"""
RACING_SHUTTER = """
supply PS 12 V 10 A
button PB1 no
relay K1 K2 dpdt coil 12 V 160 ohm
motor M1 12 V stall 5 A
rung PS.+, PB1, K2.11-12, K1.A1-A2, PS.-
rung PB1.14, K1.11-12, K2.A1-A2, PS.-
rung PS.+, K1.21-24, M1, PS.-
"""
LATCHED_LANTERN = """
supply PS 12 V 10 A
button PB1 PB2 no
relay K1 spdt latching coil 12 V 160 ohm
motor M1 12 V stall 5 A
rung PS.+, PB1, K1.A1-A2, PS.-
rung PS.+, PB2, K1.B1-B2, PS.-
rung PS.+, K1.11-14, M1, PS.-
"""
TIMED_LANTERN = """
supply PS 12 V 10 A
button PB1 no
relay K1 no one-shot 3 s coil 12 V 160 ohm
relay K2 spdt on-delay 2 s coil 12 V 160 ohm
motor M1 12 V stall 5 A
rung PS.+, PB1, K1.A1-A2, PS.-
rung PS.+, PB1.14, K2.A1-A2, PS.-
rung PS.+, K1.17-18, M1, PS.-
"""
CROSSED_JAW = """
supply PS 12 V 10 A
button PB1 no
relay K1 K2 spdt coil 12 V 160 ohm
motor M1 12 V stall 5 A
rung PS.+, PB1, K1.A1-A2, PS.-
rung PB1.14, K2.A1-A2, PS.-
rung PS.+, K1.11-14, K2.11-12, PS.-
rung K1.14, M1, PS.-
"""
PROPS = {
    "drawbridge": DRAWBRIDGE,
    "curtain": CURTAIN,
    "buzzing jaw": BUZZING_JAW,
    "racing shutter": RACING_SHUTTER,
    "latched lantern": LATCHED_LANTERN,
    "timed lantern": TIMED_LANTERN,
    "crossed jaw": CROSSED_JAW,
}


@pytest.mark.parametrize("prop", PROPS)
def test_each_combination_has_one_row_and_it_is_right(prop: str) -> None:
    """Rows share no combination, leave none out, and say of each what the judge says."""
    circuit = circuit_of(PROPS[prop])
    assert list(disagreements(circuit, rows_of(circuit))) == []


@settings(max_examples=examples(40), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plan_texts())
def test_any_small_plan_has_the_table_that_the_judge_gives(text: str) -> None:
    """The same for plans put together at random."""
    circuit = circuit_of(text)
    states = Judge(circuit).every_state()
    # Ways over both rails of a supply that is off are not counted; see tests/analysis/agreement.py.
    assume(not any(bridges_a_supply_that_is_off(circuit, state, view(circuit, state)) for state in states))
    assert list(disagreements(circuit, rows_of(circuit))) == []


def only_motor(rows: list[Row]) -> list[str]:
    """The one motor's word in each row."""
    return [word for row in rows for word in row.motors.values()]


def test_a_relay_that_breaks_its_own_coil_never_settles_and_says_so_of_its_motor_alone() -> None:
    """M1 goes on and off with the humming relay; M2, which it doesn't feed, is simply driven."""
    (off, on) = rows_of(circuit_of(BUZZING_JAW))
    assert on.given == {"PS": "on"}
    assert on.relays == {"K1": "-"}
    assert on.motors == {"M1": "never settles", "M2": "forward"}
    assert off.given == {"PS": "off"}


def test_two_relays_that_lock_each_other_out_are_order_dependent() -> None:
    """Which of the two is quicker decides whether the motor runs."""
    rows = rows_of(circuit_of(RACING_SHUTTER))
    (pressed,) = [row for row in rows if row.given.get("PB1") == "pressed" and "released" not in row.given.values()]
    assert pressed.motors == {"M1": "order-dependent"}


def test_a_short_that_relays_may_meet_on_their_way_is_told() -> None:
    """K1 before K2 joins + and - for a moment: the table says shorted, though both at rest are harmless."""
    rows = rows_of(circuit_of(CROSSED_JAW))
    assert "shorted" in only_motor(rows)


def test_a_relay_that_holds_itself_has_a_row_for_what_happened_before() -> None:
    """With both buttons released the curtain runs on if it ran before, and stands if it stood."""
    rows = rows_of(circuit_of(CURTAIN))
    resting = {"PS": "on", "PB1": "released", "PB2": "released"}
    told = {row.given[RELAYS_BEFORE]: row.motors["M1"] for row in rows if row.given | resting == row.given}
    assert told == {"released": "braked", "held": "forward"}


def test_where_the_power_is_off_nothing_else_matters() -> None:
    """All combinations without power share one row."""
    rows = rows_of(circuit_of(DRAWBRIDGE))
    (off,) = [row for row in rows if row.given["PS"] == "off"]
    assert off.given == {"PS": "off", "S1": ANY, "deck": ANY}


def test_a_filter_shows_the_same_rows_and_no_others() -> None:
    """With S1 at raise the drawbridge's table has just the rows for that."""
    circuit = circuit_of(DRAWBRIDGE)
    raised = rows_of(circuit, {1: (0,)})
    assert all(row.given["S1"] == "raise" for row in raised)
    powered = [row for row in raised if row.given["PS"] == "on"]
    assert powered == [row for row in rows_of(circuit) if row.given["S1"] == "raise"]


def test_a_motor_by_itself_has_only_the_inputs_that_it_depends_on() -> None:
    """Of a box with two buttons and two motors, M2's table asks for its own button only."""
    circuit = circuit_of(
        """
        supply PS 12 V 10 A
        button PB1 PB2 no
        motor M1 M2 12 V stall 5 A
        rung PS.+, PB1, M1, PS.-
        rung PS.+, PB2, M2, PS.-
        """
    )
    rows = rows_of(circuit, motors=(1,))
    assert {name for row in rows for name in row.given} == {"PS", "PB2"}
    assert {name for row in rows for name in row.motors} == {"M2"}
