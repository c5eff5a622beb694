"""The process that examines plans for the language server: `python -m circuitcheck.editor.examining`.

It is a process of its own so that an answer to a keystroke never waits for the analysis of what was typed before, and
so that an analysis that nobody waits for any more can be ended.
"""

import pickle
import sys
import time
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import BinaryIO

from circuitcheck.editor.asking import (
    HEAD,
    Answer,
    Elsewhere,
    Examine,
    Examined,
    Fix,
    Question,
    Remedies,
    Tell,
    TellWire,
    frame,
)
from circuitcheck.editor.drafts import Desk
from circuitcheck.editor.symbols import real_file
from circuitcheck.editor.telling import told_of_part, told_of_terminal
from circuitcheck.editor.telling_figures import told_of_fitting, told_of_stops, told_of_wire
from circuitcheck.examination import Examination, exactly, examine_plan
from circuitcheck.plan.source import PlanError, Problem, Source
from circuitcheck.plan.syntax import Plan
from circuitcheck.plan.text import whole_file
from circuitcheck.remedies.trying import PROPOSALS, proposed, tried
from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.sizing.sizing import Sizing, size_circuit


class Examiner:
    """Answers questions; keeps what it last found out of each plan."""

    def __init__(self) -> None:
        self._desk = Desk(())
        self._last: dict[str, Examination] = {}
        self._sizings: dict[str, Sizing] = {}

    def answer(self, question: Question) -> Answer:
        """The answer to one question."""
        if isinstance(question, Examine):
            return self._examine(question)
        known = self._last.get(question.file)
        if known is None:
            return ()
        if isinstance(question, Remedies):
            return self._remedies(known, question)
        try:
            return self._tell(known, question) if isinstance(question, Tell) else self._tell_wire(known, question)
        except PlanError:
            # What can't be worked out exactly is told by nobody.
            return ()

    def _examine(self, question: Examine) -> Examined:
        self._desk = Desk(tuple(map(Path, question.roots)))
        for file, text in question.texts.items():
            self._desk.put(file, text)
        try:
            settings = self._desk.settings_for(question.file)
            source = Source(question.file, self._desk.draft(question.file).source.lines)
            plan = self._plan(source)._replace(defaults=settings.defaults)
            examination = examine_plan(plan, time.perf_counter(), settings.off(question.file))
        except PlanError as error:
            return Examined((), error.problems)
        except LibraryAmiss as error:
            help = "The settings that lie beside the plan can't be followed."
            return Examined((), (Problem(whole_file(question.file), str(error), help),))
        self._last[question.file] = examination
        self._sizings.pop(question.file, None)
        return Examined(examination.findings, ())

    def _plan(self, source: Source) -> Plan:
        read = self._desk.read(source)
        if read.problems:
            raise PlanError(read.problems, read.plan.sources)
        return read.plan

    def _tell(self, known: Examination, question: Tell) -> tuple[str, ...]:
        if question.is_terminal:
            terminals = {one for part in known.circuit.parts.values() for one in part.terminals}
            return tuple(told_of_terminal(known.facts, question.name)) if question.name in terminals else ()
        part = known.circuit.parts.get(question.name)
        told = [*told_of_part(known.facts, question.name)]
        if part and part.kind == "motor":
            stops = exactly(known.plan, known.circuit, lambda: list(told_of_stops(known.facts, question.name)))
            told += ["\n".join(stops)] if stops else []
        if part and part.kind in ("fuse", "supply"):
            told += told_of_fitting(self._sizing(question.file, known), question.name)
        return tuple(told)

    def _tell_wire(self, known: Examination, question: TellWire) -> tuple[str, ...]:
        return tuple(told_of_wire(self._sizing(question.file, known), question.file, question.line))

    def _sizing(self, file: str, known: Examination) -> Sizing:
        if file not in self._sizings:
            self._sizings[file] = exactly(known.plan, known.circuit, lambda: size_circuit(known.facts))
        return self._sizings[file]

    def _remedies(self, known: Examination, question: Remedies) -> tuple[Fix | Elsewhere, ...]:
        if known.plan.sources[0].lines != question.lines:
            return ()
        lines = range(question.first, question.last + 1)
        read = partial(self._plan_of, known.plan.file)
        fixes = []
        for remedy in proposed(known):
            there = (place.line for place in remedy.finding.where if real_file(place.file) == real_file(question.file))
            outcome = tried(known, remedy, read) if any(line in lines for line in there) else None
            if outcome is not None:
                fixes.append(Fix(remedy.title, remedy.finding, outcome.text, outcome.changes))
        return (*fixes, *self._elsewhere(known, question, lines))

    def _elsewhere(self, known: Examination, question: Remedies, lines: range) -> Iterator[Elsewhere]:
        """They are shown at the first `use`."""
        uses = self._desk.draft(question.file).contents.uses
        if uses and uses[0].place.line in lines:
            own = real_file(question.file)
            for finding in known.findings:
                if finding.check in PROPOSALS and all(real_file(place.file) != own for place in finding.where):
                    yield Elsewhere(finding, finding.where[0].file)

    def _plan_of(self, file: str, text: str) -> Plan:
        """A plan with another text in its own file, all others as the editor has them."""
        return self._plan(Source(file, tuple(text.split("\n"))))


def serve(questions: BinaryIO, answers: BinaryIO) -> None:
    """Answers until there are no more questions."""
    examiner = Examiner()
    while True:
        head = questions.read(HEAD.size)
        if len(head) < HEAD.size:
            return
        question: Question = pickle.loads(questions.read(HEAD.unpack(head)[0]))
        answers.write(frame(examiner.answer(question)))
        answers.flush()


if __name__ == "__main__":
    serve(sys.stdin.buffer, sys.stdout.buffer)
