"""Terminal marks against EN 50005.

Source: EN 50005 as told by Weidmueller (rcmkit catalogue, p. 399) and by electrotechnical-officer.com ("standard
terminal markings"): A1 A2 coil, .1 .2 normally closed, .3 .4 normally open, .1 .2 .4 changeover with .1 common, .5 .6
and .7 .8 for timed contacts; the first digit numbers the contact.
"""

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text

EN_50005 = [
    ("relay K1 spdt coil 12 V 160 ohm", "A1 A2 11 12 14"),
    ("relay K1 dpdt coil 12 V 160 ohm", "A1 A2 11 12 14 21 22 24"),
    ("relay K1 3pdt coil 12 V 160 ohm", "A1 A2 11 12 14 21 22 24 31 32 34"),
    ("relay K1 4pdt coil 12 V 160 ohm", "A1 A2 11 12 14 21 22 24 31 32 34 41 42 44"),
    ("relay K1 no no nc coil 12 V 160 ohm", "A1 A2 13 14 23 24 31 32"),
    ("relay K1 spdt on-delay 3 s coil 12 V 160 ohm", "A1 A2 15 16 18"),
    ("relay K1 dpdt off-delay 3 s coil 12 V 160 ohm", "A1 A2 15 16 18 25 26 28"),
    ("relay K1 no nc one-shot 3 s coil 12 V 160 ohm", "A1 A2 17 18 25 26"),
    ("button PB1 no", "13 14"),
    ("button PB1 nc", "11 12"),
    ("button PB1 spdt", "11 12 14"),
    ("button PB1 nc no", "11 12 23 24"),
    ("estop ES1 nc nc", "11 12 21 22"),
]


@pytest.mark.parametrize(("statement", "marks"), EN_50005)
def test_marks_of_coils_and_contacts_follow_en_50005(statement: str, marks: str) -> None:
    """A part's terminals bear the standard's marks, in the standard's order."""
    (part,) = build_circuit(read_text("prop.plan", statement)).parts.values()
    assert " ".join(part.marks) == marks


@pytest.mark.parametrize("statement", [statement for statement, _ in EN_50005])
def test_the_last_digit_of_a_mark_says_what_the_contact_does(statement: str) -> None:
    """.2 and .6 are joined to the common while nothing works the contact, .4 and .8 while it is worked."""
    for contact in build_circuit(read_text("prop.plan", statement)).conductors:
        assert contact.closed is not None
        closed_at_rest = 0 in contact.closed.values
        assert closed_at_rest == (contact.head[-1] in "26")
        assert contact.tail[-2] == contact.head[-2], "both marks have the number of the same contact"


def test_a_built_in_diode_has_its_cathode_at_a1() -> None:
    """Standard polarity: + to A1, the diode's cathode at A1 (Finder 99.01 module, laird-tek.com 99-01-9-024-90)."""
    circuit = build_circuit(read_text("prop.plan", "relay K1 coil 12 V 160 ohm with diode"))
    (diode,) = circuit.conductors
    assert (diode.tail, diode.head, diode.one_way) == ("K1.A2", "K1.A1", True)
