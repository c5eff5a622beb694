"""When two circuits count as electrically the same."""

import pytest

from circuitcheck.analysis.faults.same_circuit import likeness
from tests.analysis.plans import circuit_of

PLAN = """
supply PS 12 V 10 A
button PB1 PB2 no
relay  K1 no no nc coil 12 V 160 ohm
diode  D1
strip  X1 2 ways
lamp   L1 12 V 20 ohm
lamp   L2 12 V 20 ohm
wire   PS.+ PB1.13
wire   PB1.14 K1.A1
wire   K1.A2 PS.-
wire   PS.+ K1.13
wire   K1.14 D1.anode
wire   D1.cathode L1.1
wire   L1.2 PS.-
wire   PS.+ L2.1
wire   L2.2 PS.-
"""


def are_alike(one: str, other: str) -> bool:
    """Do two plans come out the same?"""
    return likeness(circuit_of(one)) == likeness(circuit_of(other))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("wire   PS.+ K1.13", "wire   PB1.13 K1.13"),
        ("wire   L2.2 PS.-", "wire   L2.2 X1.1\nwire X1.1 PS.-"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire PS.+ K1.23"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire PS.+ K1.23\nwire K1.24 PB2.13"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire PS.+ K1.23\nwire PS.+ K1.24"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire X1.1 X1.2"),
    ],
)
def test_what_only_joins_otherwise_or_leads_nowhere_makes_no_other_circuit(old: str, new: str) -> None:
    """Another way of soldering, a contact or two of which the far end is bare, a contact that is bridged."""
    assert are_alike(PLAN, PLAN.replace(old, new))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("supply PS 12 V", "supply PS 24 V"),
        ("L1 12 V 20 ohm", "L1 12 V 30 ohm"),
        ("wire   PB1.14 K1.A1", "wire   PB2.14 K1.A1\nwire PB2.13 PS.+"),
        ("wire   PS.+ K1.13\nwire   K1.14 D1", "wire   PS.+ K1.31\nwire   K1.32 D1"),
        ("wire   K1.14 D1.anode\nwire   D1.cathode L1.1", "wire   K1.14 D1.cathode\nwire   D1.anode L1.1"),
        ("wire   K1.14 D1.anode\nwire   D1.cathode L1.1", "wire   K1.14 L1.1"),
        ("wire   L2.2 PS.-", "wire   L2.2 L1.1"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire PS.+ K1.23\nwire K1.24 D1.cathode"),
        ("wire   L2.2 PS.-", "wire   L2.2 PS.-\nwire K1.14 K1.23\nwire K1.24 PB2.13\nwire PB2.14 D1.cathode"),
    ],
)
def test_what_leads_otherwise_makes_another_circuit(old: str, new: str) -> None:
    """Volts, ohms, which contact, which way a diode points, what a load lies between, one way more."""
    assert not are_alike(PLAN, PLAN.replace(old, new))


def test_a_relay_that_nothing_moves_makes_another_circuit() -> None:
    """Though its coil and contacts are where they were."""
    circuit = circuit_of(PLAN)
    assert likeness(circuit) != likeness(circuit._replace(relays=()))
