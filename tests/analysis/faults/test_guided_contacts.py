"""Force-guided contacts (EN 50205; IEC 61810-3): a welded one keeps the opposite ones of its relay from closing."""

from textwrap import dedent

import pytest

from circuitcheck.analysis.faults.consequences import worst
from circuitcheck.analysis.faults.fault import with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.checks.fault_words import remedy_for
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text
from tests.analysis.faults.by_hand import EXAMPLES, circuit_of

FEEDBACK = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    button GO no
    relay  K1 K2 no no nc {guided} coil 12 V 160 ohm with diode
    motor  M1 12 V stall 5 A may coast
    rung   PS.+, F1, GO, ( K1.31-32, K2.31-32 | K1.23-24 | K2.23-24 ), K1.A1-A2, PS.-
    rung   K1.A1, K2.A1-A2, PS.-
    rung   F1.2, K1.13-14, K2.13-14, M1, PS.-
"""
SINGLE = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    button GO no
    relay  K1 no no nc {guided} coil 12 V 160 ohm with diode
    lamp   L1 12 V 2 W
    motor  M1 12 V stall 5 A may coast
    rung   PS.+, F1, GO, K1.A1-A2, PS.-
    rung   F1.2, K1.13-14, M1, PS.-
"""


def built(text: str, guided: str = "force-guided") -> Circuit:
    """The circuit of a plan, its relays guided or not."""
    return build_circuit(read_text("a.plan", dedent(text.format(guided=guided))))


def told(circuit: Circuit, called: str) -> tuple[str, bool, str]:
    """The worst of a fault, whether it is noticed, and what is proposed."""
    fault = next(one for one in single_faults(circuit) if one.called == called)
    verdict = Judge(circuit).verdict(fault)
    found = worst(list(verdict.outcomes))
    return (
        found.consequence if found else "holds",
        bool(verdict.noticed_by),
        remedy_for(circuit, fault, found) if found else "",
    )


def test_a_weld_keeps_the_next_start_from_coming() -> None:
    """The other relay still stops the motor; the feedback contact, which can't close any more, shows the weld. With
    plain relays it would close, and nobody would notice."""
    assert told(built(FEEDBACK), "K1.13-14 welded")[:2] == ("does nothing", True)
    assert told(built(FEEDBACK, ""), "K1.13-14 welded")[:2] == ("holds", False)


def test_the_example_shows_each_weld_of_its_stop_at_the_next_start() -> None:
    """No weld keeps the drum going, and each is noticed; with plain relays some would be hidden."""
    text = (EXAMPLES / "right" / "sea_drum.plan").read_text(encoding="utf-8")
    welds = [f"K{relay}.{contact} welded" for relay in (1, 2) for contact in ("13-14", "23-24")]
    guided, plain = circuit_of(text), circuit_of(text.replace(" force-guided", ""))
    assert {told(guided, one)[:2] for one in welds} == {("does nothing", True)}
    assert ("holds", False) in {told(plain, one)[:2] for one in welds}


def test_a_welded_feedback_contact_keeps_the_others_open() -> None:
    """The reverse: a motor that is no longer driven."""
    circuit = built(FEEDBACK)
    fault = next(one for one in single_faults(circuit) if one.called == "K1.31-32 welded")
    assert {one.name for one in with_fault(circuit, fault).conductors if one.part == "K1" and one.closed} == set()
    assert told(circuit, "K1.31-32 welded")[0] == "does nothing"


def test_other_contacts_of_the_same_side_part_or_stick_with_the_armature() -> None:
    """The standard promises nothing of them, so both are supposed: the weld, and the relay stuck operated."""
    circuit = built(FEEDBACK)
    faults = {one.called: one for one in single_faults(circuit)}
    left = with_fault(circuit, faults["K1.13-14 welded"])
    assert [one.name for one in left.conductors if one.part == "K1" and one.closed] == ["K1.23-24"]
    assert "K1 stuck operated" in faults


def test_opposite_throws_are_never_closed_at_once() -> None:
    """That fault may be left out: ISO 13849-2 annex D, from memory."""
    text = "supply PS 12 V 10 A\nlamp L1 L2 12 V 2 W\nrelay K1 spdt {guided} coil 12 V 160 ohm with diode\n"
    text += "rung PS.+, K1.11-12, L1, PS.-\nrung K1.14, L2, PS.-\nrung PS.+, K1.A1-A2, PS.-\n"
    kinds = [{one.kind for one in single_faults(built(text, guided))} for guided in ("force-guided", "")]
    assert ["both throws closed" in one for one in kinds] == [False, True]


@pytest.mark.parametrize(
    ("plan", "guided", "proposed"),
    [
        (SINGLE, "", "take a force-guided relay for K1"),
        (SINGLE, "force-guided", "through a normally closed feedback contact of K1, which is force-guided"),
        (SINGLE + "    rung PS.+, K1.31-32, L1, PS.-\n", "force-guided", "in the feed of M1."),
    ],
)
def test_guided_contacts_and_feedback_are_proposed_only_where_they_are_missing(
    plan: str, guided: str, proposed: str
) -> None:
    """Of a relay that is guided and has its feedback only a second relay in series helps."""
    consequence, _, remedy = told(built(plan, guided), "K1.13-14 welded")
    assert consequence == "does not stop"
    assert remedy.endswith(proposed) or proposed in remedy
    assert ("force-guided" in remedy) == ("force-guided" in proposed)
