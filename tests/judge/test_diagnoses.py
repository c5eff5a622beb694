"""Diagnoses against the judge: it builds the box with each fault, tells what it sees of it and reads what it is asked.

No answer comes from the engine, and the true fault has to be among those that are left, from the first to the last.
"""

from pathlib import Path

import pytest

from circuitcheck.analysis.bench.candidates import Boxes
from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.settings import STAGES, WITH, Setting, settings_of
from circuitcheck.analysis.bench.symptoms import Observation, Symptom, explain
from circuitcheck.analysis.bench.telling import Question, most_telling
from circuitcheck.analysis.doing import nobody
from circuitcheck.analysis.faults.fault import both_at_once
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan
from tests.judge.bench import FAR, Reader, differ
from tests.judge.test_bench import QUICK, SLOW

EXAMPLES = Path(__file__).parents[2] / "examples"
MOST_QUESTIONS = 12
"""More would be worse than looking at every wire."""
PARTLY_TOLD = 2
"""Every so many faults is told of with half of the controls left out."""


def example(name: str) -> Circuit:
    """One of the plans for people."""
    return build_circuit(read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES,)))


def symptom(circuit: Circuit, reader: Reader, called: str, told: int) -> Symptom | None:
    """The first thing that somebody sees of a fault who tries one setting after the other; None where nothing is."""
    for setting in settings_of(circuit, WITH).all:
        for point in points_of(circuit, WITH):
            sound = reader.reading("", setting, point, WITH)
            faulty = reader.reading(called, setting, point, WITH)
            if differ(sound, faulty) and sound != "current limit":
                given = [one for n, one in enumerate(given_by(circuit, setting)) if n % told == 0]
                return Symptom(tuple(given), (Observation(point, frozenset({faulty})),))
    return None


def given_by(circuit: Circuit, setting: Setting) -> list[tuple[int, tuple[tuple[int, bool], ...]]]:
    """How all controls, supplies and axes stand."""
    tapped = dict(setting.tapped)
    return [
        (number, ((tapped.get(number, value), number in tapped),))
        for number, value in enumerate(setting.values)
        if circuit.digits[number].kind != "relay"
    ]


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_the_true_fault_is_among_the_answers(name: str) -> None:
    """For every fault of which anything is seen, told in full or with half of the controls left out."""
    circuit = example(name)
    boxes, reader, missed, tried = Boxes(circuit, single_faults(circuit)), Reader(circuit), [], 0
    for number, fault in enumerate(boxes.faults):
        seen = symptom(circuit, reader, fault.called, 1 + number % PARTLY_TOLD)
        if seen is not None:
            tried += 1
            answers = explain(boxes, (seen,), nobody)
            if answers.pairs or fault not in answers.boxes.faults:
                missed.append(fault.called)
    assert missed == []
    assert tried > len(boxes.faults) / 2


@pytest.mark.parametrize("name", ["cue_light", "lighthouse_shutter", "trapdoor_lantern",
                                  pytest.param("drawbridge", marks=pytest.mark.slow)])  # fmt: skip
def test_reading_after_reading_the_true_fault_stays(name: str) -> None:
    """With all faults to begin with, the judge's answers leave the true one, and at the end only what reads alike."""
    circuit = example(name)
    every, reader, wrong = Boxes(circuit, single_faults(circuit)), Reader(circuit), []
    asked: dict[tuple[str, ...], Question | None] = {}
    for fault in every.faults[::3]:
        boxes, count = every, 0
        while fault in boxes.faults:
            names = tuple(one.called for one in boxes.faults)
            if names not in asked:
                asked[names] = most_telling(boxes)
            question = asked[names]
            if question is None:
                break
            answer = reader.reading(fault.called, question.setting, question.point, question.settings.stage)
            left = question.left(float("inf") if answer == FAR else answer)
            assert len(left) < len(boxes.faults)
            boxes, count = Boxes(circuit, [boxes.faults[number] for number in left]), count + 1
        if fault not in boxes.faults or count > MOST_QUESTIONS:
            wrong.append((fault.called, count))
    assert wrong == []


def test_a_reading_that_tells_nothing_apart_is_not_asked_for() -> None:
    """Wires in series, of which no end between can be touched, are one to every meter; then there is no question."""
    circuit = example("lantern_colours")
    boxes = Boxes(circuit, [one for one in single_faults(circuit) if one.called in ("D1 open", "D2 open")])
    assert most_telling(boxes, STAGES[:1]) is None


def test_two_faults_are_found_where_no_single_one_explains_both_symptoms() -> None:
    """Both lamps of the cue light are out, each for its own reason."""
    circuit = example("lighthouse_two_supplies")
    faults = {one.called: one for one in single_faults(circuit)}
    both = both_at_once(faults["L1 open"], faults["M1 open"])
    boxes = Boxes(circuit, tuple(faults.values()))
    pair = Boxes(circuit, [both]).powered(0, WITH)
    symptoms = []
    for name in ("L1", "M1"):
        point = next(one for one in points_of(circuit, WITH) if one.name == name)
        for setting in settings_of(circuit, WITH).all:
            if pair.seen(setting)[point] != boxes.powered(None, WITH).seen(setting)[point]:
                observed = Observation(point, frozenset({pair.seen(setting)[point]}))
                symptoms.append(Symptom(tuple(given_by(circuit, setting)), (observed,)))
                break
    answers = explain(boxes, symptoms, nobody)
    assert answers.pairs
    assert both.change in [one.change for one in answers.boxes.faults] or any(
        {"L1 open", "M1 open"} == set(one.called.split(" and ")) for one in answers.boxes.faults
    )
