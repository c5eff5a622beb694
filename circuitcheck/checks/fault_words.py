"""What a fault leads to, in a sentence, and what would keep it from doing so."""

from typing import Final

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.once_broken import broken_at_rest
from circuitcheck.analysis.sequels import Sequel
from circuitcheck.analysis.states import States
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.checks.narration import FAULT
from circuitcheck.circuit.catalogue.relays import GUIDED
from circuitcheck.circuit.model import Circuit, Conductor

HOLDS: Final = "still stops, brakes and limits"
WELDING: Final = ("relay stuck operated", "contact does not open", "both throws closed")
"""Of a relay, what a second contact or a guided one helps against."""
TOUCHING: Final = ("pins touching", "terminals touching")
UNDECIDED: Final = "not judged: it needs more combinations at once than can be counted"


def after_opening(facts: Facts, broken: Facts, states: States, contact: Conductor) -> Sequel:
    """How it comes to states of a box in which a contact has opened for good (once_broken.py): while all rests, where
    that leads to all of them."""
    behaviour = broken_at_rest(facts, broken, states.space.digits)
    if states.over(behaviour.space) & ~behaviour.reached:
        behaviour = broken.behaviour(states.space.digits)
    return Sequel(behaviour, f"{FAULT}{contact.name} open")


def outcome_words(outcome: Outcome) -> str:
    """ "M1 drives deck on past top", with no full stop."""
    device, axis, place = outcome.device, outcome.axis, outcome.place
    return {
        "does not stop": f"{device} is driven on where it should have stopped",
        "overtravel": f"{device} drives {axis} on past {place}",
        "unexpected motion": f"{device} is driven where it should stand, or the wrong way",
        "brake lost": f"{device} is left open where it should brake",
        "supply short": f"{device} is shorted",
        "limit trapped": f"{axis} stays at {place}: nothing drives it back",
        "does nothing": f"{device} stands still where it should run",
    }[outcome.consequence]


def remedy_for(circuit: Circuit, fault: Fault, outcome: Outcome) -> str:
    """A change of the wiring or of a part that would take the harm from the fault."""
    device, part = outcome.device, fault.part or fault.subject
    if outcome.consequence == "supply short":
        return "Put a fuse straight behind the + of the supply, small enough for the thinnest wire behind it."
    if outcome.consequence == "brake lost":
        return _brake(fault, device)
    if fault.kind == "supply reversed":
        return f"Give {part} a plug that fits one way only, or lead its feed through a diode behind the fuse."
    kind = circuit.parts[fault.part].kind if fault.part else "wire"
    if kind == "relay" and fault.kind in WELDING:
        return _second_relay(circuit, part, device)
    if fault.kind in TOUCHING:
        return f"Leave a way free in {part} between what must not meet, or lead one of them elsewhere."
    if fault.kind in ("wire to frame", "brush to case"):
        return "Switch on the side that isn't joined to the frame, so that a touch blows the fuse and starts nothing."
    if kind in ("limit", "cam"):
        return _second_limit(part, outcome)
    if kind in ("switch", "button", "outside"):
        return (
            f"Lead the feed through a second contact in series that {part} works apart from this one, or through an "
            "emergency stop within reach."
        )
    if fault.kind.startswith("diode"):
        return f"Put a second diode in series with that of {part}, or use a contact of its own instead of it."
    return (
        f"Let what fails by opening stop {device}: lead the feed of the drive through a further contact that is closed "
        f"only while what {part} feeds or works has done its part."
    )


def _second_relay(circuit: Circuit, part: str, device: str) -> str:
    """Another contact, or a feedback contact that guided contacts make honest, where there isn't one yet."""
    series = f"Put a contact of a second relay in series with that of {part} in the feed of {device}"
    feedback = "so that a weld keeps the next start from coming."
    if GUIDED not in circuit.parts[part].features:
        return (
            f"{series}; or take a force-guided relay for {part} and lead the start through its normally closed "
            f"feedback contact, {feedback}"
        )
    wired = wired_terminals(circuit)
    at_rest = [one for one in circuit.conductors if one.part == part and one.closed and 0 in one.closed.values]
    if any({one.tail, one.head} <= wired for one in at_rest):
        return f"{series}."
    return (
        f"{series}; or lead the start through a normally closed feedback contact of {part}, which is force-guided, "
        f"{feedback}"
    )


def _brake(fault: Fault, device: str) -> str:
    if fault.kind in ("motor open", "wire open", "pin open"):
        return (
            f"No wire to {device} may be all that brakes it: lay a second one beside it, or where a load pulls on "
            f"{device} add a spring-applied brake or a gear that doesn't run back."
        )
    return f"Lay a second contact beside the one that brakes {device}, worked by another relay."


def _second_limit(part: str, outcome: Outcome) -> str:
    where = f" at {outcome.place}" if outcome.place else ""
    return (
        f"Put a second limit{where} a little beyond {part}, in the other leg of the drive: in the motor's own lead if "
        f"{part} stands in a coil's, so that no one switch or relay is all that stops {outcome.device}."
    )
