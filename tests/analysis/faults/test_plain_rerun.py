"""What a fault does, against the plan with the fault written into it by hand, analysed as any other plan.

A broken wire is a line less, a welded contact a wire across it, a blown fuse a part less, a limit that is stuck free a
wire across its contact. Where the faulty box comes to from power-up by itself must be the same on both ways, state by
state: what each motor does, where a supply is shorted, which states operation reaches.
"""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.faults.beside import Beside, roomy_spaces
from circuitcheck.analysis.faults.consequences import Outcome, outcomes
from circuitcheck.analysis.faults.fault import with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.noticing import noticed_by
from circuitcheck.analysis.faults.shortest import shortest_story
from circuitcheck.analysis.faults.verdicts import Judge
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_plan
from tests.analysis.faults.by_hand import EXAMPLES, circuit_of
from tests.benchmarks.faults import boxes


def text_of(name: str) -> str:
    """An example's text."""
    return (EXAMPLES / f"{name}.plan").read_text(encoding="utf-8")


def without(line: str) -> Callable[[str], str]:
    """The text without the one line of these words."""

    def changed(text: str) -> str:
        lines = text.splitlines(keepends=True)
        left = [one for one in lines if one.split() != line.split()]
        assert len(left) == len(lines) - 1, line
        return "".join(left)

    return changed


def with_line(line: str, old: str = "", new: str = "") -> Callable[[str], str]:
    """The text with a line more, and words in it replaced."""

    def changed(text: str) -> str:
        assert old in text
        return f"{text.replace(old, new) if old else text}\n{line}\n"

    return changed


BY_HAND = [
    ("right/touring_drawbridge", "the wire K1.12 to PS.- open", without("wire   K1.12 PS.-  : 14 AWG black 0.2 m")),
    ("right/touring_drawbridge", "the wire F1.2 to K1.14 open", without("wire   F1.2 K1.14  : 14 AWG red 0.2 m")),
    ("right/touring_drawbridge", "J1.p1 touches J1.p2", with_line("wire J1.p1 J1.p2")),
    ("right/touring_drawbridge", "LS1.com-nc welded", with_line("wire LS1.com LS1.nc")),
    ("right/touring_drawbridge", "LS1 stuck free", with_line("wire LS1.com LS1.nc")),
    ("right/touring_drawbridge", "K1.11-12-14 all joined", with_line("rung K1.12, K1.11, K1.14")),
    ("right/touring_drawbridge", "the coil K1.A1-A2 shorted", with_line("wire K1.A1 K1.A2")),
    ("right/touring_drawbridge", "F1 blown", without("wire PS.+ F1.1 : 14 AWG red 0.2 m")),
    ("right/touring_drawbridge", "M1 shorted", with_line("wire M1.+ M1.-")),
    ("right/touring_drawbridge", "K1.11-14 open", without("wire   F1.2 K1.14  : 14 AWG red 0.2 m")),
    ("right/touring_drawbridge", "PS reversed", lambda text: swapped(text, "PS.+", "PS.-")),
    ("right/storm_beam", "the wire K2.12 to M1.low touches the frame", with_line("wire M1.low M1.case")),
    ("right/storm_beam", "M1.high touches its case", with_line("wire M1.high M1.case")),
    ("right/storm_beam", "K2.11-14 open", without("wire   K2.14 M1.high : 1.5 mm2 yellow 1.5 m")),
    ("right/drawbridge", "D1 shorted", with_line("wire D1.anode D1.cathode")),
    ("right/drawbridge", "V1 shorted", with_line("wire V1.1 V1.2")),
    ("right/drawbridge", "the wire K3.24 to S1.com open", without("wire   K3.24  S1.com : 1 mm2 red 0.2 m w4")),
    ("right/curtain", "STOP.11-12 welded", with_line("wire STOP.11 STOP.12")),
    ("right/curtain", "the wire ES1.12 to K1.14 open", without("wire   ES1.12 K1.14 : 1.5 mm2 red 0.3 m")),
]


def swapped(text: str, one: str, other: str) -> str:
    """The text with two words changed for one another."""
    return text.replace(one, "\0").replace(other, one).replace("\0", other)


def picture(facts: Facts) -> tuple[list[list[tuple[tuple[int, ...], int]]], tuple[tuple[int, ...], int], int]:
    """What every motor does, where a supply is shorted, and all that operation reaches."""
    motors = [[(one.space.digits, one.bits) for one in does.named().values()] for does in facts.motors]
    whole = facts.behaviour(range(len(facts.circuit.digits)))
    return motors, (facts.shorted.space.digits, facts.shorted.bits), whole.reached


@pytest.mark.parametrize(("name", "called", "by_hand"), BY_HAND, ids=lambda one: one if isinstance(one, str) else "")
def test_a_fault_is_the_same_as_its_change_written_by_hand(
    name: str, called: str, by_hand: Callable[[str], str]
) -> None:
    """Motors, shorts and reached states of the faulty circuit are those of the changed text."""
    circuit = circuit_of(text_of(name))
    fault = next(one for one in single_faults(circuit) if one.called == called)
    assert picture(analyse(with_fault(circuit, fault))) == picture(analyse(circuit_of(by_hand(text_of(name)))))


def checks_broken(text: str) -> set[str]:
    """The checks that find an error or a warning."""
    facts = analyse(circuit_of(text))
    return {one.check for one in run_checks(facts, all_checks()) if one.severity != "note"}


@pytest.mark.parametrize(
    ("called", "by_hand", "consequence", "check"),
    [
        ("LS1 stuck free", with_line("wire LS1.com LS1.nc"), "overtravel", "limit-not-cutting"),
        ("K1.11-12-14 all joined", with_line("rung K1.12, K1.11, K1.14"), "supply short", "supply-short"),
        ("the wire K1.12 to PS.- open", without("wire   K1.12 PS.-  : 14 AWG black 0.2 m"), "brake lost",
         "unbraked-stop"),
    ],
)  # fmt: skip
def test_check_finds_in_the_changed_plan_what_the_fault_leads_to(
    called: str, by_hand: Callable[[str], str], consequence: str, check: str
) -> None:
    """The check of the same harm is silent on the sound plan and speaks of the one with the fault written in."""
    text = text_of("right/touring_drawbridge")
    circuit = circuit_of(text)
    fault = next(one for one in single_faults(circuit) if one.called == called)
    assert consequence in {one.consequence for one in Judge(circuit).verdict(fault).outcomes}
    assert check not in checks_broken(text)
    assert check in checks_broken(by_hand(text))


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("right/*.plan")), ids=lambda path: path.stem)
def test_small_boxes_give_the_verdicts_of_the_whole(path: Path) -> None:
    """A fault looked at with its own part of the box, and with all of it: the same consequences, the same notice."""
    circuit = build_circuit(read_plan(path, (EXAMPLES,)))
    judge, spaces = Judge(circuit), roomy_spaces(circuit)
    sound = analyse(circuit, spaces)
    for fault in single_faults(circuit)[::5]:
        verdict = judge.verdict(fault)
        beside = Beside(sound, analyse(with_fault(circuit, fault), spaces), fault)
        assert [one[:2] for one in verdict.outcomes] == [one[:2] for one in outcomes(beside)]
        assert set(verdict.noticed_by) == set(noticed_by(beside))


@pytest.mark.parametrize("name", ["gallery_lift", "sea_drum", pytest.param("drawbridge", marks=pytest.mark.slow)])
def test_sets_as_diagrams_give_the_verdicts_of_integers(name: str) -> None:
    """The same consequences, the same notice, stories as short; without times, which diagrams don't follow."""
    circuit = circuit_of(re.sub(r" (operate|release) [\d.]+ ms", "", text_of(f"right/{name}")))
    judge, spaces = Judge(circuit), roomy_spaces(circuit, 64)
    sound = analyse(circuit, spaces)
    for fault in single_faults(circuit)[::7]:
        verdict = judge.verdict(fault)
        beside = Beside(sound, analyse(with_fault(circuit, fault), spaces), fault)
        found = list(outcomes(beside))
        assert [one[:2] for one in verdict.outcomes] == [one[:2] for one in found]
        assert set(verdict.noticed_by) == set(noticed_by(beside))
        for one, other in zip(verdict.outcomes, found, strict=True):
            assert steps_of(one) == steps_of(other), fault.called


def steps_of(outcome: Outcome) -> int:
    """How many its shortest story has."""
    story = shortest_story(outcome.joint, outcome.states, outcome.begun)
    return len(story.before.changes) + len(story.after)


def test_a_supply_reversed_before_many_drives_behind_one_stop_is_judged() -> None:
    """All coils' diodes conduct then, so each contact of each drive has a say in whether it shorts the supply."""
    circuit = boxes(4, behind_stop=True)
    fault = next(one for one in single_faults(circuit) if one.called == "PS reversed")
    verdict = Judge(circuit).verdict(fault)
    assert not verdict.undecided
    assert [(one.consequence, one.device) for one in verdict.outcomes] == [("supply short", "PS")]
    assert verdict.noticed_by == ("PS",)
