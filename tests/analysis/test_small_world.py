"""Every tiny circuit: a supply, a switch, a relay, one inner net, and two or three more things in all places.

A fault that no small circuit shows is rare; one that random plans miss may hide in a corner that nobody draws.
"""

from collections.abc import Iterator
from itertools import combinations_with_replacement, islice

import pytest

from circuitcheck.circuit.model import (
    Circuit,
    Closed,
    Coil,
    Conductor,
    Digit,
    Load,
    Motor,
    PartInfo,
    Relay,
    Supply,
    Winding,
)
from circuitcheck.plan.source import Place
from tests.analysis.agreement import disagreements

PLUS, MINUS, INNER = "PS.+", "PS.-", "X"
SWITCH, RELAY, SUPPLY = 0, 1, 2
DIGITS = (
    Digit("S1", "control", ("off", "on")),
    Digit("K1", "relay", ("released", "operated")),
    Digit("PS", "supply", ("off", "on")),
)
NOWHERE = Place("", 1, 1, 1, 1)
PLACES = ((PLUS, INNER), (INNER, MINUS), (PLUS, MINUS))
KINDS = ("S1 no", "S1 nc", "K1 no", "K1 nc", "diode", "diode reversed", "lamp", "motor")

Element = tuple[str, tuple[str, str]]


def tiny_circuits(count: int) -> Iterator[tuple[tuple[Element, ...], Circuit]]:
    """The relay's coil in each place, with each choice of `count` further elements."""
    elements = [(kind, place) for kind in KINDS for place in PLACES]
    for coil in PLACES:
        for chosen in combinations_with_replacement(elements, count):
            whole = (("coil", coil), *chosen)
            yield whole, tiny_circuit(whole)


def tiny_circuit(elements: tuple[Element, ...]) -> Circuit:
    """The circuit of these elements; the first is the relay's coil."""
    conductors: list[Conductor] = []
    loads: list[Load] = []
    motors: list[Motor] = []
    for kind, (a, b) in elements:
        if kind in ("coil", "lamp", "motor"):
            name = "K1" if kind == "coil" else f"{kind}{len(loads)}"
            loads.append(Load(name, name, kind, a, b, 12.0, 100.0, False, False, NOWHERE))
            if kind == "motor":
                motors.append(Motor(name, (Winding(a, b, len(loads) - 1),), 12.0, False, None, True))
        else:
            conductors.append(tiny_conductor(kind, a, b))
    parts = {
        name: PartInfo(name, "", "", marks, frozenset(), {}, NOWHERE)
        for name, marks in (("PS", ("+", "-")), ("X", ("",)), ("S1", ()), ("K1", ()))
    }
    relay = Relay("K1", RELAY, "plain", Coil(0, 7.0, 1.2), None, 0.0, None, None)
    supply = Supply("PS", PLUS, MINUS, 12.0, 10.0, SUPPLY)
    movers = (supply,), (relay,), tuple(motors)
    return Circuit("", "", "", parts, DIGITS, tuple(conductors), (), tuple(loads), *movers, (), (), (), ())


def tiny_conductor(kind: str, a: str, b: str) -> Conductor:
    """A contact of the switch or the relay, or a diode."""
    if kind.startswith("diode"):
        tail, head = (b, a) if kind == "diode reversed" else (a, b)
        return Conductor(tail, head, "diode", "D1", NOWHERE, None, True)
    part, form = kind.split()
    closed = Closed(SWITCH if part == "S1" else RELAY, frozenset({int(form == "no")}))
    return Conductor(a, b, "contact", part, NOWHERE, closed)


def differing(count: int) -> list[str]:
    """The tiny circuits of which the engine and the judge say different things, with what they say."""
    found = []
    for elements, circuit in tiny_circuits(count):
        found += [f"{elements}: {one}" for one in islice(disagreements(circuit), 1)]
    return found


@pytest.mark.parametrize("count", [0, 1, 2, pytest.param(3, marks=pytest.mark.slow)])
def test_every_tiny_circuit_is_as_the_judge_sees_it(count: int) -> None:
    """In all states of all circuits with this many things beside the coil nothing is seen differently."""
    assert differing(count)[:3] == []
