"""What the process behind an editor answers, asked within this one."""

import io
import pickle
from pathlib import Path

from circuitcheck.editor.asking import HEAD, Elsewhere, Examine, Examined, Fix, Remedies, Tell, TellWire, frame
from circuitcheck.editor.examining import Examiner, serve

FILE = "/plans/jaw.plan"
LATCH = "supply PS 12 V 10 A\nfuse F1 3 A\nsolenoid Y1 12 V 12 ohm\nrung PS.+, F1, Y1, PS.-\n"
LINES = tuple(LATCH.split("\n"))


def examine(text: str, file: str = FILE) -> Examine:
    """The question about a plan that only the editor has."""
    return Examine(file, {file: text}, ())


def examined(text: str) -> Examiner:
    """Who has just looked through a plan."""
    examiner = Examiner()
    assert isinstance(examiner.answer(examine(text)), Examined)
    return examiner


def test_nothing_is_told_of_a_plan_that_was_never_looked_through() -> None:
    """Neither of its parts nor of its wires, and no remedy."""
    examiner = Examiner()
    questions = (Tell(FILE, "Y1", False), TellWire(FILE, 4), Remedies(FILE, LINES, 3, 3))
    assert [examiner.answer(question) for question in questions] == [(), (), ()]


def test_parts_terminals_and_fuses_are_told_of_the_last_text_that_could_be_read() -> None:
    """A text with a problem has its problems, and leaves what was known."""
    examiner = examined(LATCH)
    answer = examiner.answer(examine(LATCH + "rung PS.+, K9\n"))
    assert isinstance(answer, Examined)
    assert [one.what for one in answer.problems] == ["no part K9"]
    assert examiner.answer(Tell(FILE, "Y1", False)) == ("fed with PS on",)
    assert examiner.answer(Tell(FILE, "Y1.2", True)) == ("never joined to PS.+", "always joined to PS.-")
    assert examiner.answer(Tell(FILE, "Y1.9", True)) == ()
    assert any("carries" in str(one) or "runs" in str(one) for one in examiner.answer(Tell(FILE, "F1", False)))


def test_a_remedy_is_offered_on_the_lines_of_its_finding_and_for_no_later_text() -> None:
    """What was typed since would be undone by a remedy for the text before."""
    examiner = examined(LATCH)
    fixes = examiner.answer(Remedies(FILE, LINES, 3, 3))
    titles = [one.title for one in fixes if isinstance(one, Fix)]
    assert titles == ["put a diode D1 across Y1, its cathode at Y1.1"]
    assert examiner.answer(Remedies(FILE, LINES, 1, 1)) == ()
    assert examiner.answer(Remedies(FILE, (*LINES, "#"), 3, 3)) == ()


def test_what_lies_in_another_file_is_shown_at_its_use_and_left_alone(tmp_path: Path) -> None:
    """Other plans may use it."""
    parts = "module Drop\nport a b\nsolenoid Y1 12 V 12 ohm\nrung a, Y1, b\nend\n"
    plan = 'use "parts.plan"\nsupply PS 12 V 10 A\nfuse F1 3 A\nfit D Drop : a F1.2, b PS.-\nrung PS.+, F1.1\n'
    names = [str(tmp_path / name) for name in ("jaw.plan", "parts.plan")]
    examiner = Examiner()
    examiner.answer(Examine(names[0], dict(zip(names, (plan, parts), strict=True)), ()))
    shown = examiner.answer(Remedies(names[0], tuple(plan.split("\n")), 1, 1))
    found = [(one.finding.check, Path(one.file).name) for one in shown if isinstance(one, Elsewhere)]
    assert found == [("missing-flyback", "parts.plan")]


def test_settings_that_cannot_be_followed_are_a_problem_of_the_plan(tmp_path: Path) -> None:
    """It is told at the plan, since that is what is open."""
    (tmp_path / "circuitcheck.toml").write_text("roots = 7\n", encoding="utf-8")
    answer = Examiner().answer(examine(LATCH, str(tmp_path / "jaw.plan")))
    assert isinstance(answer, Examined)
    assert [one.help for one in answer.problems] == ["The settings that lie beside the plan can't be followed."]


def test_questions_are_answered_until_there_are_no_more() -> None:
    """One frame for each, in their order."""
    answers = io.BytesIO()
    serve(io.BytesIO(frame(examine(LATCH)) + frame(Tell(FILE, "Y1", False))), answers)
    sent, found = answers.getvalue(), []
    while sent:
        end = HEAD.size + HEAD.unpack(sent[: HEAD.size])[0]
        found.append(pickle.loads(sent[HEAD.size : end]))
        sent = sent[end:]
    assert isinstance(found[0], Examined)
    assert found[1:] == [("fed with PS on",)]
