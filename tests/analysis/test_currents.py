"""The real currents of a plan: what each conductor carries and what each load is left with."""

from collections.abc import Iterable

import pytest

from circuitcheck.analysis.currents import CurrentCase, Currents, currents
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from circuitcheck.analysis.states import States
from circuitcheck.analysis.worst_case import CasesTogether, Most
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_plan
from tests.benchmarks.currents import EXAMPLES, seconds
from tests.reference.asking import facts_of, state_of

METRE_OF_0_75, METRE_OF_1, METRE_OF_1_5 = 0.026, 0.0195, 0.0133
"""Ohms of stranded wire of so many mm2 (IEC 60228, class 5)."""

LAMPS = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    switch S1 S2 spst positions off on
    lamp   L1 12 V 24 ohm
    lamp   L2 12 V 12 ohm
    wire   PS.+ F1.1 : 1.5 mm2 10 m
    wire   F1.2 S1.com : 0.75 mm2 5 m
    wire   S1.on L1.1
    wire   F1.2 S2.com
    wire   S2.on L2.1
    wire   L1.2 PS.-
    wire   L2.2 PS.-
"""


def most_amps(cases: Iterable[CurrentCase], conductor: int, within: States) -> Most:
    """The most amps that a conductor carries in some of the states, either way. cases: of `Currents.of_all`."""
    every = [case for case in cases if conductor in case.amps]
    ahead = CasesTogether(every).most(lambda case: case.amps[conductor], within)
    back = CasesTogether(every).most(lambda case: -case.amps[conductor], within)
    return max(ahead, back, key=lambda one: one.amount)


def conductor(facts: Facts, tail: str, head: str) -> int:
    """The number of the conductor between two terminals."""
    ends = [{one.tail, one.head} for one in facts.circuit.conductors]
    return ends.index({tail, head})


def load(facts: Facts, name: str) -> int:
    """The number of a load."""
    return [one.name for one in facts.circuit.loads].index(name)


def in_state(facts: Facts, cases: tuple[CurrentCase, ...], **positions: str) -> CurrentCase:
    """The one case that holds in a state."""
    (case,) = (one for one in cases if state_of(facts, **positions) in one.states)
    return case


def test_a_lamp_gets_what_its_wires_leave_it() -> None:
    """10 m of 1.5 mm2 and 5 m of 0.75 mm2 in a row with 24 ohm, by Ohm's law."""
    facts = facts_of(LAMPS)
    case = in_state(facts, currents(facts, load(facts, "L1"), Setting()), S1="on")
    ohms = 10 * METRE_OF_1_5 + 5 * METRE_OF_0_75
    assert case.volts == {load(facts, "L1"): pytest.approx(12 * 24 / (24 + ohms), abs=1e-9)}
    for ends in (("PS.+", "F1.1"), ("F1.1", "F1.2"), ("S1.com", "S1.on"), ("S1.on", "L1.1"), ("PS.-", "L1.2")):
        assert abs(case.amps[conductor(facts, *ends)]) == pytest.approx(12 / (24 + ohms), abs=1e-9)
    assert case.delivered == {0: pytest.approx(12 / (24 + ohms), abs=1e-9)}


def test_a_wire_of_which_only_the_length_or_the_size_is_told_counts_as_ideal() -> None:
    """Its ohms need both."""
    facts = facts_of(LAMPS.replace("PS.+ F1.1 : 1.5 mm2 10 m", "PS.+ F1.1 : 10 m").replace("0.75 mm2 5 m", "0.75 mm2"))
    assert set(conductor_ohms(facts.circuit, Setting())) == {0.0}


def test_contacts_and_pins_have_the_ohms_that_their_parts_are_rated_at() -> None:
    """A relay's coil has its own, a fuse none."""
    facts = facts_of("""
        supply PS 12 V 10 A
        fuse   F1 5 A
        relay  K1 spdt coil 12 V 160 ohm contacts 16 A 30 V 30 mohm
        connector J1 1 ways 10 A 5 mohm
        rung   PS.+, F1, J1.p1-s1, K1.11-14, K1.A1-A2, PS.-
    """)
    ohms = zip(facts.circuit.conductors, conductor_ohms(facts.circuit, Setting()), strict=True)
    assert {(one.kind, value) for one, value in ohms} == {
        ("contact", 0.03), ("pin", 0.005), ("fuse", 0.0), ("wire", 0.0),
    }  # fmt: skip


def test_a_supply_delivers_the_same_whichever_end_of_a_wire_is_told_first() -> None:
    """A wire has no direction."""
    facts = facts_of(LAMPS.replace("PS.+ F1.1", "F1.1 PS.+").replace("wire   L1.2 PS.-", "wire   PS.- L1.2"))
    (case,) = currents(facts, load(facts, "L1"), Setting())
    assert case.delivered[0] == pytest.approx(12 / (24 + 10 * METRE_OF_1_5 + 5 * METRE_OF_0_75))


def test_hot_wires_take_more() -> None:
    """IEC 60028: 0.393 % more for each kelvin above 20 °C."""
    facts = facts_of(LAMPS)
    case = in_state(facts, currents(facts, load(facts, "L1"), Setting(wire_celsius=70)), S1="on")
    ohms = (10 * METRE_OF_1_5 + 5 * METRE_OF_0_75) * (1 + 0.00393 * 50)
    assert case.volts[load(facts, "L1")] == pytest.approx(12 * 24 / (24 + ohms), abs=1e-9)


def test_a_shared_wire_carries_what_both_lamps_draw_together() -> None:
    """Each lamp is a network of its own on the held rail; in what they share their currents add up."""
    facts = facts_of(LAMPS)
    cases = list(Currents(facts, Setting()).of_all())
    assert len(cases) == 2
    feed = conductor(facts, "PS.+", "F1.1")
    most = most_amps(cases, feed, facts.spaces.all())
    assert most.amount == pytest.approx(sum(abs(case.amps[feed]) for case in cases))
    assert state_of(facts, S1="on", S2="on") in most.states
    alone = most_amps(cases, feed, ~facts.spaces.where(1, (1,)))
    assert alone.amount < most.amount


def test_currents_of_two_that_never_meet_do_not_add_up() -> None:
    """A changeover feeds one lamp or the other: the wire to it carries the larger of the two."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 spdt positions one other
        lamp   L1 12 V 24 ohm
        lamp   L2 12 V 12 ohm
        rung   PS.+, S1.com-one, L1, PS.-
        rung   S1.other, L2, PS.-
    """)
    most = most_amps(Currents(facts, Setting()).of_all(), conductor(facts, "PS.+", "S1.com"), facts.spaces.all())
    assert most.amount == pytest.approx(1.0)
    assert state_of(facts, S1="one") not in most.states


def test_two_contacts_side_by_side_share_the_current() -> None:
    """With no resistance said they count as alike."""
    facts = facts_of("""
        supply PS 12 V 10 A
        switch S1 S2 spst positions off on
        lamp   L1 12 V 12 ohm
        rung   PS.+, ( S1.com-on | S2.com-on ), L1, PS.-
    """)
    cases = currents(facts, 0, Setting())
    both = in_state(facts, cases, S1="on", S2="on")
    assert both.amps[conductor(facts, "S1.com", "S1.on")] == pytest.approx(0.5)
    one = in_state(facts, cases, S1="on")
    assert one.amps[conductor(facts, "S1.com", "S1.on")] == pytest.approx(1.0)


MOTOR = """
    supply PS 12 V 20 A
    switch S1 dpdt positions open off close
    motor  M1 12 V stall 12 A
    wire   PS.+ S1.open1 : 1 mm2 5 m
    wire   PS.- S1.open2 : 1 mm2 5 m
    wire   S1.open1 S1.close2
    wire   S1.open2 S1.close1
    rung   S1.com1, M1, S1.com2
"""


def test_a_motor_standing_draws_what_its_winding_and_wires_let_through() -> None:
    """12 V over 1 ohm and 10 m of 1 mm2, in either direction."""
    facts = facts_of(MOTOR)
    amps = 12 / (1 + 10 * METRE_OF_1)
    for position, sign in (("open", 1), ("close", -1)):
        case = in_state(facts, currents(facts, 0, Setting()), S1=position)
        assert case.volts[0] == pytest.approx(sign * amps)
        assert case.amps[conductor(facts, "PS.+", "S1.open1")] == pytest.approx(amps)


def test_a_motor_turning_draws_the_amps_that_it_is_said_to() -> None:
    """And stands at what the wires leave it, forward and back."""
    facts = facts_of(MOTOR)
    cases = currents(facts, 0, Setting(turning={0: 2.0}))
    assert in_state(facts, cases, S1="open").volts[0] == pytest.approx(12 - 2 * 10 * METRE_OF_1)
    assert in_state(facts, cases, S1="close").volts[0] == pytest.approx(-12 + 2 * 10 * METRE_OF_1)
    assert in_state(facts, cases, S1="close").delivered[0] == pytest.approx(2.0)


def test_a_motor_that_gets_too_little_to_turn_stands() -> None:
    """Fed through a lamp it can't draw its running current: the winding alone counts."""
    facts = facts_of("""
        supply PS 12 V 20 A
        lamp   L1 12 V 24 ohm
        motor  M1 12 V stall 12 A
        rung   PS.+, L1, M1, PS.-
    """)
    motor = load(facts, "M1")
    (case,) = currents(facts, motor, Setting(turning={motor: 2.0}))
    assert case.volts[motor] == pytest.approx(12 / 25)


def test_a_supply_sags_by_its_resistance_and_gives_no_more_than_its_limit() -> None:
    """0.5 ohm inside and 1 ohm outside: 8 A; with a limit of 5 A: 5 A, and 5 V are left."""
    facts = facts_of("""
        supply PS 12 V 20 A
        motor  M1 12 V stall 12 A
        rung   PS.+, M1, PS.-
    """)
    for limit, amps in ((0.0, 8.0), (20.0, 8.0), (5.0, 5.0)):
        supply = facts.circuit.supplies[0]._replace(internal_ohms=0.5, limit_amps=limit)
        changed = Facts(facts.circuit._replace(supplies=(supply,)), facts.conduction)
        (case,) = currents(changed, 0, Setting())
        assert case.delivered[0] == pytest.approx(amps, abs=1e-4)
        assert case.at_supply[0] == pytest.approx(amps, abs=1e-4)


def test_in_every_state_the_currents_of_all_cases_add_up_without_counting_any_twice() -> None:
    """Two lamps and a motor behind an emergency stop, one of them over a diode: three networks on one held bus."""
    facts = facts_of("""
        supply PS 12 V 20 A
        estop  ES1 nc
        button START no
        switch S1 spst positions off on
        diode  D1
        lamp   L1 12 V 12 ohm
        lamp   L2 12 V 12 ohm
        lamp   L3 12 V 12 ohm
        rung   PS.+, ES1, START, L1, PS.-
        rung   START.14, S1.com-on, D1, L2, PS.-
        rung   START.14, L3, PS.-
    """)
    cases = list(Currents(facts, Setting()).of_all())
    for positions, amps in (({}, 2.0), ({"S1": "on"}, 2 + 11.3 / 12.01)):
        state = state_of(facts, START="pressed", **positions)
        total = sum(case.delivered[0] for case in cases if state in case.states)
        assert total == pytest.approx(amps)


@pytest.mark.parametrize("motor", ["", "motor M1 12 V stall 10 A\nrung PS1.+, M1, PS2.-"])
def test_a_load_that_carries_nothing_hides_no_other(motor: str) -> None:
    """Of supplies in series all loads hang together, whether the upper one is on or off; a motor with both brushes at
    one net comes first, and tells nothing."""
    facts = facts_of(
        """
        supply PS1 PS2 12 V 10 A internal 1000 mohm
        wire   PS2.- PS1.+
        {motor}
        relay  K1 no coil 12 V 159 ohm
        rung   PS1.+, K1.A1-A2, PS1.-
    """.replace("{motor}", motor)
    )
    cases = list(Currents(facts, Setting()).of_all())
    assert [case.volts[load(facts, "K1")] for case in cases] == [pytest.approx(12 * 159 / 160)] * 2
    on = [state_of(facts, PS1="on", PS2=upper) for upper in ("on", "off")]
    assert [sum(state in case.states for case in cases) for state in on] == [1, 1]


def test_all_operating_points_of_the_largest_example_take_less_than_a_third_of_a_second() -> None:
    """So that sizing answers at once. Measured: 0.06 s."""
    path = max((EXAMPLES / "right").glob("*.plan"), key=lambda one: len(one.read_text(encoding="utf-8").splitlines()))
    took, cases = seconds(analyse(build_circuit(read_plan(path, (EXAMPLES / "parts",)))))
    assert cases
    assert took < 0.3
