"""How much flows: over all states that operation reaches, none of them sampled."""

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.sizing import greatest
from circuitcheck.sizing.draws import find_draws
from tests.sizing.sized_plans import AROUND, STIFF, one, sizes

LAMPS = STIFF + AROUND + "fuse F1 10 A\nlamp L1 12 V 12 W\nlamp L2 12 V 24 W\n"
MOTOR = STIFF + AROUND + "fuse F1 15 A\n"


def test_loads_that_may_be_on_at_once_add_up() -> None:
    """Two switches, each with its lamp: 1 A and 2 A; cold, ten times that for a moment."""
    found = sizes(
        LAMPS + "switch S1 S2 spst positions off on\nwire PS.+ F1.1 : w1\n"
        "rung F1.2, S1, L1, PS.-\nrung F1.2, S2, L2, PS.-\n"
    )
    currents = one(found, "w1").currents
    assert [amount.amount for amount in currents] == pytest.approx([3, 30, 3])
    assert currents.exact


def test_loads_that_one_switch_chooses_between_do_not() -> None:
    """The greater of them counts, with a state in which it is on."""
    found = sizes(
        LAMPS + "switch S1 spdt positions left right\nwire PS.+ F1.1 : w1\n"
        "rung F1.2, S1.com-left, L1, PS.-\nrung S1.right, L2, PS.-\n"
    )
    running = one(found, "w1").currents.running
    assert running.amount == pytest.approx(2)
    assert running.state == {0: 1, 1: 1}


def test_what_operation_never_reaches_does_not_count() -> None:
    """The second lamp hangs on two relays of which each cuts the other's coil."""
    found = sizes(
        LAMPS + "switch S1 spdt positions left right\nrelay K1 K2 3pdt coil 12 V 160 ohm with diode\n"
        "wire PS.+ F1.1 : w1\nrung F1.2, K1.21-24, L1, PS.-\nrung F1.2, K1.11-14, K2.11-14, L2, PS.-\n"
        "rung F1.2, S1.com-left, K2.31-32, K1.A1-A2, PS.-\nrung S1.right, K1.31-32, K2.A1-A2, PS.-\n"
    )
    assert one(found, "w1").currents.running.amount == pytest.approx(1 + 12 / 160)


def test_a_motor_draws_its_stall_current_when_it_starts_and_when_something_holds_it() -> None:
    """Running, a quarter of it stands in where the plan tells no torque, and is told as taken."""
    found = sizes(MOTOR + "switch S1 spst positions off on\nmotor M1 12 V stall 8 A\nwire PS.+ F1.1 : w1\n"
                  "rung F1.2, S1, M1, PS.-\n")  # fmt: skip
    assert [amount.amount for amount in one(found, "w1").currents] == pytest.approx([2, 8, 8])
    assert any("a quarter of its stall current" in assumed.taken for assumed in found.assumptions)


def test_a_motor_s_running_current_follows_from_its_torque() -> None:
    """1 A free, 9 A stalled at 4 N m: 1 N m of friction and gravity take 1 + 8/4 = 3 A."""
    found = sizes(
        MOTOR + "switch S1 spst positions off on\naxis deck from bottom to top, friction 0.25 N m, gravity 0.75 N m\n"
        "motor M1 12 V stall 9 A 4 N m free 1 A 20 rpm drives deck toward top\n"
        "wire PS.+ F1.1 : w1\nrung F1.2, S1, M1, PS.-\n"
    )
    assert one(found, "w1").currents.running.amount == pytest.approx(3)
    assert not any("it runs at" in assumed.taken for assumed in found.assumptions)


def test_one_motor_at_a_time_is_held_fast() -> None:
    """Two motors of 8 A: both start at once, but one fault holds one of them: 8 A and the other's running 2 A."""
    found = sizes(
        MOTOR + "switch S1 spst positions off on\nmotor M1 M2 12 V stall 8 A\nwire PS.+ F1.1 : w1\n"
        "rung F1.2, S1, M1, PS.-\nrung S1.on, M2, PS.-\n"
    )
    assert [amount.amount for amount in one(found, "w1").currents] == pytest.approx([4, 16, 10])


def test_a_supply_s_limit_cuts_what_starts() -> None:
    """But not what a braked motor sends round, which comes from no supply."""
    found = sizes(
        "supply PS 12 V 5 A limit 6 A\n" + AROUND + "fuse F1 5 A\nrelay K1 spdt coil 12 V 160 ohm with diode\n"
        "switch S1 spst positions off on\nmotor M1 12 V stall 18 A\nwire K1.14 F1.2 : w1\nwire K1.12 PS.- : w2\n"
        "wire PS.+ F1.1\nrung F1.2, S1, K1.A1-A2, PS.-\nrung K1.11, M1, PS.-\n"
    )
    assert one(found, "w1").currents.starting.amount == pytest.approx(6)
    assert one(found, "w2").currents.starting.amount == pytest.approx(18)


def test_a_motor_thrown_into_reverse_draws_twice_its_stall_current() -> None:
    """A two-position switch in its leads throws it; one with an off position between does not."""
    text = MOTOR + (
        "switch S1 dpdt positions open {}close\nswitch S2 spst positions off on\nmotor M1 12 V stall 5 A may coast\n"
        "wire PS.+ F1.1 : w1\nrung F1.2, S2, ( S1.open1 | S1.close2 )\nrung PS.-, ( S1.close1 | S1.open2 )\n"
        "rung S1.com1, M1, S1.com2\n"
    )
    assert one(sizes(text.format("")), "w1").currents.starting.amount == pytest.approx(10)
    assert one(sizes(text.format("off ")), "w1").currents.starting.amount == pytest.approx(5)


def test_loads_in_series_count_with_what_flows_through_both() -> None:
    """A 12 V lamp of 12 ohm behind 12 ohm: half an ampere, solved, through wire, fuse and resistor."""
    found = sizes(
        STIFF + AROUND + "fuse F1 2 A\nresistor R1 12 ohm 5 W\nlamp L1 12 V 12 W\nswitch S1 spst positions off on\n"
        "wire PS.+ F1.1 : w1\nrung F1.2, S1, R1, L1, PS.-\n"
    )
    assert one(found, "w1").currents.running.amount == pytest.approx(0.5, rel=0.01)
    assert one(found, "R1").needs == pytest.approx(0.5**2 * 12, rel=0.01)


def test_loads_too_wide_to_be_asked_about_together_give_an_upper_bound_that_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What each of them reaches by itself, without a state."""
    monkeypatch.setattr(greatest, "NARROW", 1)
    found = sizes(
        LAMPS + "switch S1 S2 spst positions off on\nwire PS.+ F1.1 : w1\n"
        "rung F1.2, S1, L1, PS.-\nrung F1.2, S2, L2, PS.-\n"
    )
    running = one(found, "w1").currents.running
    assert (running.exact, running.state) == (False, None)
    assert running.amount == pytest.approx(3)


def test_a_motor_that_says_nothing_of_itself_is_asked_for_its_stall_current() -> None:
    """What stands in for it is told with what to write."""
    text = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nmotor M1 12 V\nrung PS.+, F1, PB1, M1, PS.-\n"
    draws = find_draws(analyse(build_circuit(read_text("prop.plan", text))))
    assert any("stall" in assumed.write and "10 A" in assumed.taken for assumed in draws.assumptions)
