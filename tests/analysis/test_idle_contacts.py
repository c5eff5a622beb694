"""Contacts that never matter, held against the plain definition: analyse the whole circuit again with them open."""

import pytest
from hypothesis import given, settings

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.idle import idle_contacts
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.circuit.model import Circuit, Closed
from tests.analysis.plans import circuit_of, plan_texts


def contacts_of(circuit: Circuit) -> list[int]:
    """Every contact's index."""
    return [number for number, one in enumerate(circuit.conductors) if one.kind == "contact"]


def idle_in(text: str) -> list[str]:
    """The names of the contacts of a plan that never matter."""
    circuit = circuit_of(text)
    found = idle_contacts(analyse(circuit), contacts_of(circuit))
    return sorted(circuit.conductors[number].name for one in found for number in one.conductors)


def held_open(circuit: Circuit, gone: tuple[int, ...]) -> Facts:
    """What holds when these contacts never close."""
    return analyse(
        circuit._replace(
            conductors=tuple(
                one._replace(closed=Closed(one.closed.digit, frozenset())) if one.closed and number in gone else one
                for number, one in enumerate(circuit.conductors)
            )
        )
    )


def volts_differ(one: tuple[Fed, ...], other: tuple[Fed, ...], none: States) -> bool:
    """Whether a load's volts differ by more than a millivolt somewhere."""
    for volts in {fed.volts for fed in (*one, *other)}:
        near = [[fed for fed in group if abs(fed.volts - volts) < 1e-3] for group in (one, other)]
        forward = [union((fed.forward for fed in group), none) for group in near]
        backward = [union((fed.backward for fed in group), none) for group in near]
        if not (forward[0].same_as(forward[1]) and backward[0].same_as(backward[1])):
            return True
    return False


def changes_anything(before: Facts, after: Facts) -> bool:
    """The definition: some load's volts, some motor's states or the shorts are not as before."""
    none = before.spaces.none()
    motors = zip(before.motors, after.motors, strict=True)
    return (
        not before.shorted.same_as(after.shorted)
        or any(volts_differ(was, now, none) for was, now in zip(before.volts, after.volts, strict=True))
        or any(
            not (was - before.shorted).same_as(now - before.shorted)
            for motor, other in motors
            for was, now in zip(motor.named().values(), other.named().values(), strict=True)
        )
    )


BOX = """supply PS 12 V 10 A
fuse F1 3 A
button PB1 no
lamp L1 12 V 2 W
"""
"""A lantern's box to wire contacts into."""


def test_a_contact_in_the_only_way_to_a_lamp_matters() -> None:
    """Held open, the lamp stays dark."""
    assert idle_in(BOX + "rung PS.+, F1, PB1, L1, PS.-") == []


def test_a_contact_that_a_wire_leads_past_is_idle() -> None:
    """Both its ends are always joined."""
    assert idle_in(BOX + "rung PS.+, F1, PB1, L1, PS.-\nwire PB1.13 PB1.14") == ["PB1.13-14"]


def test_two_poles_side_by_side_are_held_open_together() -> None:
    """Each could be spared alone; they share the current."""
    text = BOX + "button PB2 dpdt\nrung PS.+, F1, ( PB2.14-11 | PB2.24-21 ), L1, PS.-\nrung F1.2, PB1, L1.1"
    assert idle_in(text) == ["PB2.11-12", "PB2.21-22"]
    assert idle_in(text.replace("PB2.24-21", "PB2.21-24")) == ["PB2.11-12", "PB2.21-22"]


def test_a_contact_beside_a_longer_way_that_closes_with_it_is_idle() -> None:
    """PB2 closes both its contacts at once, so the one in series with PB1 adds nothing."""
    text = BOX + "button PB2 no no\nrung PS.+, F1, PB2.13-14, L1, PS.-\nrung F1.2, PB1, PB2.23-24, L1.1"
    assert idle_in(text) == ["PB1.13-14", "PB2.23-24"]


def test_a_contact_across_a_resistor_in_series_matters() -> None:
    """No conductor joins the lamp to both rails with it or without it, but the volts differ."""
    text = BOX + "resistor R1 R2 10 ohm\nrung PS.+, F1, R2, ( R1 | PB1 ), L1, PS.-"
    assert idle_in(text) == []


def test_a_contact_that_only_brakes_a_motor_matters() -> None:
    """The motor's volts are the same with it and without, but not how it stops."""
    text = BOX + "motor M1 12 V stall 5 A\nbutton PB2 spdt\nrung PS.+, F1, PB2.14-11, M1, PS.-\nwire PB2.12 PS.-"
    assert "PB2.11-12" not in idle_in(text)


BESIDE = """supply PS 12 V 10 A
diode D1
button PB1 PB2 no
lamp L1 12 V 2 W
motor M1 12 V stall 5 A
"""
"""A diode to put contacts beside."""


@pytest.mark.parametrize("load", ["L1", "M1"])
def test_a_contact_beside_a_diode_is_idle_only_where_the_diode_passes(load: str) -> None:
    """However many contacts are there, and whatever they feed."""
    beside = BESIDE + "rung PS.+, ( {} | PB2 | PB1 ), {}, PS.-"
    assert idle_in(beside.format("D1.anode-cathode", load)) == ["PB1.13-14", "PB2.13-14"]
    assert idle_in(beside.format("D1.cathode-anode", load)) == []
    behind = BESIDE + "rung PS.+, {}, ( PB1 | PB2 | {} ), PS.-"
    assert idle_in(behind.format(load, "D1.anode-cathode")) == ["PB1.13-14", "PB2.13-14"]
    assert idle_in(behind.format(load, "D1.cathode-anode")) == []


def test_an_output_that_passes_current_one_way_only_matters_or_not_as_a_contact_does() -> None:
    """It sinks the lamp's current; with a wire past it, it is idle."""
    text = BOX + "outside OUT1 sinking\nrung PS.+, F1, PB1, L1, OUT1.out-com, PS.-"
    assert idle_in(text) == []
    assert idle_in(text + "\nwire OUT1.out OUT1.com") == ["OUT1.out-com"]


@settings(max_examples=60, deadline=None)
@given(plan_texts())
def test_a_contact_is_idle_only_where_the_whole_analysis_without_it_is_the_same(text: str) -> None:
    """And always there, but for what joins rails: a second way to a short isn't idle, nor what joins two supplies."""
    circuit = circuit_of(text)
    try:
        before = analyse(circuit)
        idle = {number for one in idle_contacts(before, contacts_of(circuit)) for number in one.conductors}
    except TooManyCases:
        return
    for number in contacts_of(circuit):
        changed = changes_anything(before, held_open(circuit, (number,)))
        if number in idle:
            assert not changed or _has_twin(circuit, number, idle), circuit.conductors[number].name
        elif len(circuit.supplies) == 1 and not before.shorted:
            assert changed, circuit.conductors[number].name


def _has_twin(circuit: Circuit, number: int, idle: set[int]) -> bool:
    closed = circuit.conductors[number].closed
    return any(circuit.conductors[other].closed == closed for other in idle - {number})


@pytest.mark.parametrize(("ohms", "idle"), [("30", ["PB2.13-14"]), ("40", [])])
def test_a_contact_across_a_bridge_is_idle_exactly_if_the_bridge_is_balanced(ohms: str, idle: list[str]) -> None:
    """Between points of equal volts no current flows (Wheatstone)."""
    text = f"""
supply PS 12 V 10 A
button PB1 PB2 no
resistor R1 R2 R3 30 ohm
resistor R4 {ohms} ohm
rung PS.+, PB1, R1, R2, PS.-
rung PB1.14, R3, R4, PS.-
rung R1.2, PB2, R3.2
"""
    assert idle_in(text) == idle
