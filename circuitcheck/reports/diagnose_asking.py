"""From what is seen of a faulty box to its diagnosis, in words."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.bench.candidates import Boxes
from circuitcheck.analysis.bench.settings import STAGES, WITH
from circuitcheck.analysis.bench.symptoms import Explained, explain
from circuitcheck.analysis.bench.telling import Question, most_telling
from circuitcheck.analysis.doing import Tell, nobody
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.checks.narration import digit_words
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.plan.syntax import Plan
from circuitcheck.reports.bench_words import (
    Proof,
    point_words,
    proofs,
    rest_words,
    setting_words,
    stage_title,
    stage_words,
)
from circuitcheck.reports.diagnose_words import answers, understood


class NextReading(NamedTuple):
    """What to read next, in words. outcomes: what may be read, and the faults that are left then."""

    stage: str
    do: str
    rest: tuple[str, ...]
    set: tuple[str, ...]
    look: str
    outcomes: tuple[Proof, ...]
    question: Question


class Diagnosis(NamedTuple):
    """name, title: the plan's. seen: what was told, in the words it was told in; read: what was read since.

    faults: what may be the cause, the likeliest first; pairs of them where no single one explains it. sound: how a
    sound box may show the same, a setting for each thing seen. next: None where no reading tells the faults apart.
    """

    file: str
    name: str
    title: str
    seen: tuple[str, ...]
    read: tuple[str, ...]
    faults: tuple[Fault, ...]
    pairs: bool
    tried_pairs: int
    sound: tuple[str, ...]
    next: NextReading | None


class Case(NamedTuple):
    """A diagnosis under way: what is known, and what can still be asked."""

    plan: Plan
    explained: Explained
    diagnosis: Diagnosis


def begun(path: Path, roots: tuple[Path, ...], seen: Sequence[str], tell: Tell = nobody) -> Case:
    """The faults that explain what is seen. Unanswerable where that isn't understood; PlanError as for any plan."""
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    symptoms = [understood(circuit, text) for text in seen]
    boxes = Boxes(circuit, single_faults(circuit))
    explained = exactly(plan, circuit, lambda: explain(boxes, symptoms, tell))
    name, title = name_and_title(circuit)
    found = explained.boxes.faults
    sound = tuple(_sound(circuit, explained))
    diagnosis = Diagnosis(
        plan.file, name, title, tuple(seen), (), found, explained.pairs, explained.tried, sound, None
    )  # fmt: skip
    return _asking(Case(plan, explained, diagnosis))


def answered(case: Case, text: str) -> Case | None:
    """The case once the next reading is known; None where the answer isn't understood, or fits none of the faults."""
    following = case.diagnosis.next
    if following is None:
        return None
    question = following.question
    left = sorted({number for answer in answers(question.point, text) for number in question.left(answer)})
    if not left:
        return None
    boxes = case.explained.boxes
    kept = Boxes(boxes.circuit, [boxes.faults[number] for number in left])
    read = (*case.diagnosis.read, f"{following.look} ({', '.join(following.set)}): {text.strip()}")
    diagnosis = case.diagnosis._replace(read=read, faults=kept.faults)
    return _asking(case._replace(explained=case.explained._replace(boxes=kept), diagnosis=diagnosis))


def _asking(case: Case) -> Case:
    """With the next reading. What pairs do to a meter's reading is not looked at, so they are asked for under power."""
    boxes = case.explained.boxes
    stages = (WITH,) if case.explained.pairs else STAGES if boxes.circuit.motors else STAGES[:2]
    if len(boxes.faults) < 2:
        return case._replace(diagnosis=case.diagnosis._replace(next=None))
    question = exactly(case.plan, boxes.circuit, lambda: most_telling(boxes, stages))
    following = _in_words(boxes, question) if question else None
    return case._replace(diagnosis=case.diagnosis._replace(next=following))


def _in_words(boxes: Boxes, question: Question) -> NextReading:
    circuit, stage = boxes.circuit, question.settings.stage
    names = (fault.called for fault in boxes.faults)
    return NextReading(
        stage_title(circuit, stage),
        stage_words(circuit, stage),
        tuple(rest_words(circuit, question.settings)),
        tuple(setting_words(circuit, question.settings, question.setting)),
        point_words(question.point),
        proofs(question.point, zip(names, question.readings, strict=True)),
        question,
    )


def _sound(circuit: Circuit, explained: Explained) -> Iterable[str]:
    """How a sound box stands that shows the same."""
    for setting in explained.sound:
        values = enumerate(setting.values)
        named = [
            digit_words(circuit, number, value) for number, value in values if circuit.digits[number].kind != "relay"
        ]
        taps = [f"{circuit.digits[number].name} tapped" for number, _ in setting.tapped]
        yield ", ".join([*named, *taps])
