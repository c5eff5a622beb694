"""What would take the harm from a fault, by the part and by what becomes of it."""

from typing import cast

import pytest

from circuitcheck.analysis.faults.beside import Joint
from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.supposed import Change
from circuitcheck.checks.fault_words import outcome_words, remedy_for
from tests.analysis.plans import circuit_of

CIRCUIT = circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
relay  K1 spdt coil 12 V 160 ohm with diode
relay  K2 no nc force-guided coil 12 V 160 ohm with diode
relay  K3 no nc force-guided coil 12 V 160 ohm with diode
connector J1 1 ways
button PB1 no
outside OUT1 contact
axis   deck from bottom to top
axis   drum turning through park half
cam    CS1 nc on drum at park
limit  LS1 nc on deck at top
diode  D1
motor  M1 12 V stall 5 A drives deck toward top
rung   PS.+, F1, S1, D1, LS1, K1.11-14, M1, PS.-
rung   F1.2, K2.21-22, K1.A1-A2, PS.-
""")


@pytest.mark.parametrize(
    ("kind", "part", "consequence", "says"),
    [
        ("contact does not open", "K1", "supply short", "Put a fuse straight behind the + of the supply"),
        ("supply reversed", "PS", "unexpected motion", "Give PS a plug that fits one way only"),
        ("relay stuck operated", "K1", "does not stop", "take a force-guided relay for K1"),
        ("relay stuck operated", "K2", "does not stop", "Put a contact of a second relay in series with that of K2"),
        ("pins touching", "F1", "does not stop", "Leave a way free in F1"),
        ("wire to frame", "", "does not stop", "Switch on the side that isn't joined to the frame"),
        ("limit stuck free", "LS1", "overtravel", "Put a second limit at top a little beyond LS1"),
        (
            "contact does not open",
            "S1",
            "does not stop",
            "a second contact in series that S1 works apart from this one",
        ),
        ("diode shorted", "D1", "unexpected motion", "Put a second diode in series with that of D1"),
        ("fuse blown", "F1", "does not stop", "Let what fails by opening stop M1"),
        ("wire open", "", "brake lost", "No wire to M1 may be all that brakes it"),
        ("wire open", "", "does not stop", "only while what w1 feeds or works has done its part"),
        ("pin open", "J1", "brake lost", "No wire to M1 may be all that brakes it"),
        ("motor open", "M1", "brake lost", "No wire to M1 may be all that brakes it"),
        ("brush to case", "M1", "does not stop", "Switch on the side that isn't joined to the frame"),
        ("terminals touching", "K1", "does not stop", "Leave a way free in K1"),
        ("contact does not open", "PB1", "does not stop", "a second contact in series that PB1 works apart"),
        ("contact does not open", "OUT1", "does not stop", "a second contact in series that OUT1 works apart"),
        ("both throws closed", "K1", "does not stop", "take a force-guided relay for K1"),
        ("relay stuck released", "K1", "does not stop", "Let what fails by opening stop M1"),
        ("limit stuck free", "CS1", "overtravel", "Put a second limit at top a little beyond CS1"),
        (
            "contact does not open",
            "K3",
            "does not stop",
            "a normally closed feedback contact of K3, which is force-guided",
        ),
        ("contact does not close", "K1", "brake lost", "Lay a second contact beside the one that brakes M1"),
    ],
)
def test_a_remedy_fits_the_part_that_fails(kind: str, part: str, consequence: str, says: str) -> None:
    """No two kinds of parts are put right alike; its words hang on no states. Of a part, not of the contact in it."""
    outcome = Outcome(consequence, "M1", cast("Joint", None), 0, "deck", "top")
    fault = Fault(kind, part, "w1", "broken", Change())
    assert says in remedy_for(CIRCUIT, fault, outcome)


def test_a_guided_relay_that_has_a_feedback_contact_needs_no_other() -> None:
    """K2's opening contact is wired, K3's is not; a second relay helps both."""
    outcome = Outcome("does not stop", "M1", cast("Joint", None), 0)
    told = {
        name: remedy_for(CIRCUIT, Fault("contact does not open", name, name, "broken", Change()), outcome)
        for name in ("K2", "K3")
    }
    assert told["K2"] == "Put a contact of a second relay in series with that of K2 in the feed of M1."
    assert told["K3"].startswith("Put a contact of a second relay in series with that of K3 in the feed of M1; or lead")


def test_a_second_limit_is_put_where_the_first_one_is_if_that_is_known() -> None:
    """Else just beyond it."""
    fault = Fault("limit stuck free", "LS1", "LS1", "broken", Change())
    nowhere = remedy_for(CIRCUIT, fault, Outcome("overtravel", "M1", cast("Joint", None), 0, "deck", ""))
    assert nowhere.startswith("Put a second limit a little beyond LS1")


@pytest.mark.parametrize(
    ("consequence", "words"),
    [
        ("does not stop", "M1 is driven on where it should have stopped"),
        ("overtravel", "M1 drives deck on past top"),
        ("unexpected motion", "M1 is driven where it should stand, or the wrong way"),
        ("brake lost", "M1 is left open where it should brake"),
        ("supply short", "M1 is shorted"),
        ("limit trapped", "deck stays at top: nothing drives it back"),
        ("does nothing", "M1 stands still where it should run"),
    ],
)
def test_what_a_fault_leads_to_is_a_sentence(consequence: str, words: str) -> None:
    """Of the device, its axis and the place."""
    assert outcome_words(Outcome(consequence, "M1", cast("Joint", None), 0, "deck", "top")) == words
