"""What is said of a fault, against what `check` finds in the text with the fault written into it by hand.

Both look at the same harm in their own ways:

    supply short     supply-short
    overtravel       limit-not-cutting, of an axis still driven on past its end
    brake lost       unbraked-stop
    limit trapped    trapped-at-limit
    a broken `require ES1 works after one fault`     emergency-stop, of a motor driven while it is pressed

Where they mean different things, and how the comparison is made fair:

    `check` takes a box that has had the fault from power-up on; here it also comes while things run. What only follows
    then is left out: a fault counts as far as its harm follows where it comes with all supplies off.
    `check` asks what is so, `faults` what is otherwise than in the sound box: what `check` finds in the plan without
    the fault is left out.
    A motor that a fault leaves dead, where the sound box drives it, is unbraked to the one and does nothing to the
    other; and an end from which it no longer drives is a trap to the one only.
    A changeover's milliseconds, limits without effect and faults on top of the fault are told by `check` alone; wrong
    or lasting motion, what does nothing and what nobody notices by `faults` alone. The judge looks at those.
"""

from collections.abc import Iterator

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.required import breaking_faults
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.analysis.resting import following
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, findings_of
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.syntax import Require, Word
from tests.analysis.faults.by_hand import EXAMPLES, circuit_of, in_wires, written_by_hand

Harm = tuple[str, ...]
"""A check and what it is about: the supply, the motor, the axis and its end, the emergency stop and the motor."""

CHECKS = {
    "supply-short": " joined ",
    "limit-not-cutting": " still drives ",
    "unbraked-stop": "",
    "trapped-at-limit": "",
    "emergency-stop": " is still driven while ",
}
"""What is compared, and the words of the findings that are meant."""

QUICK = ("right/cue_light", "right/gallery_lift", "right/lighthouse_shutter", "wrong/beam_case_reversed")
SLOW = tuple(
    name
    for folder in ("right", "wrong")
    for name in sorted(f"{folder}/{path.stem}" for path in (EXAMPLES / folder).glob("*.plan"))
    if name not in QUICK
)
HOIST = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
button START no
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
rung   PS.+, F1, ES1, ( START | K1.11-14 ), K1.A1-A2, PS.-
rung   F1.2, K1.24-21, M1, PS.-
wire   K1.22 PS.-
"""
"""An emergency stop that cuts a coil: a weld behind it defeats it."""


def told_by_check(circuit: Circuit) -> set[Harm]:
    """What `check` finds that operation reaches."""
    facts = analyse(circuit)
    registered = [one for one in all_checks() if one.check.name in CHECKS]
    found = (finding for one in registered for finding in findings_of(facts, one))
    return {_harm_of(circuit, one) for one in found if one.reached == "operation" and CHECKS[one.check] in one.what}


def _harm_of(circuit: Circuit, finding: Finding) -> Harm:
    if finding.check == "supply-short":
        return finding.check, " and ".join(finding.parts)
    if finding.check in ("limit-not-cutting", "trapped-at-limit"):
        axis = next(one for one in circuit.axes if one.name in finding.parts)
        after = finding.what.partition(" past " if finding.check == "limit-not-cutting" else " back from ")[2]
        return finding.check, axis.name, after.split()[0]
    return finding.check, *finding.parts[: 2 if finding.check == "emergency-stop" else 1]


def told_by_faults(circuit: Circuit, judge: Judge, fault: Fault) -> Iterator[tuple[Harm, Outcome]]:
    """The same of the verdict on a fault."""
    for one in judge.verdict(fault).outcomes:
        match one.consequence:
            case "supply short":
                yield ("supply-short", one.device), one
            case "overtravel":
                yield ("limit-not-cutting", one.axis, one.place), one
            case "brake lost":
                yield ("unbraked-stop", one.device), one
            case "limit trapped":
                yield ("trapped-at-limit", one.axis, one.place), one
    for part in circuit.parts.values():
        if part.kind == "estop":
            require = Require(Word(part.name, part.place), None, part.place)
            for breaking in breaking_faults(judge, [fault], require):
                for outcome in breaking.outcomes:
                    yield ("emergency-stop", part.name, outcome.device), outcome


def follows_from_power_up(outcome: Outcome) -> bool:
    """Does it also come about where the fault comes with all supplies off?"""
    joint = outcome.joint
    off = joint.begun
    for supply in joint.beside.circuit.supplies:
        off &= joint.space.where(supply.digit, (0,))
    return bool(following(joint.space, list(joint.steps), off) & outcome.states)


def disagreements(text: str) -> tuple[set[Harm], dict[str, tuple[set[Harm], set[Harm]]]]:
    """What both tell, and by fault what only `faults` tells and what only `check` does."""
    plan = in_wires(text)
    circuit = circuit_of(plan.text)
    judge, anyhow = Judge(circuit), told_by_check(circuit)
    agreed: set[Harm] = set()
    apart = {}
    for fault in single_faults(circuit):
        changed = written_by_hand(plan, circuit, fault)
        if changed is not None:
            told = {harm for harm, one in told_by_faults(circuit, judge, fault) if follows_from_power_up(one)}
            found = told_by_check(circuit_of(changed))
            dead = {one.device for one in judge.verdict(fault).outcomes if one.consequence == "does nothing"}
            excused = {("unbraked-stop", device) for device in dead} | anyhow
            excused |= {harm for harm in found if harm[0] == "trapped-at-limit"}
            agreed |= told & found
            if told - found or found - told - excused:
                apart[fault.called] = (told - found, found - told - excused)
    return agreed, apart


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_every_fault_of_every_example_is_found_by_check_in_its_text(name: str) -> None:
    """Neither tells of a harm that the other doesn't know."""
    assert disagreements((EXAMPLES / f"{name}.plan").read_text(encoding="utf-8"))[1] == {}


def test_check_finds_what_defeats_an_emergency_stop() -> None:
    """A welded contact and a relay that sticks, each written into the text as a wire; and the other harms with it."""
    agreed, apart = disagreements(HOIST)
    assert apart == {}
    assert {("emergency-stop", "ES1", "M1"), ("supply-short", "PS"), ("unbraked-stop", "M1")} <= agreed


def test_what_no_line_can_say_is_a_limit_that_moved_or_a_diode_within_a_relay() -> None:
    """Every other fault of every right example is written and compared."""
    unsaid = set()
    for path in sorted((EXAMPLES / "right").glob("*.plan")):
        plan = in_wires(path.read_text(encoding="utf-8"))
        circuit = circuit_of(plan.text)
        unsaid |= {one.kind for one in single_faults(circuit) if written_by_hand(plan, circuit, one) is None}
    assert unsaid == {"limit moved", "diode open"}
