"""Beginning a plan: whatever is answered, nothing is found that is wrong with it."""

import io
import sys
from functools import cache
from itertools import product
from pathlib import Path

import pytest

from circuitcheck.beginning.answers import QUESTIONS, Answers
from circuitcheck.beginning.composing import composed
from circuitcheck.cli import main
from circuitcheck.examination import Examination, examine_plan
from circuitcheck.layout.tidying import tidied
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import Source

EVERY = [Answers("Prop", *words) for words in product(*([one.word for one in ask.choices] for ask in QUESTIONS[1:]))]
FEW = [one for one in EVERY if one.volts == "12" and one.motors == "1"]


def named(answers: Answers) -> str:
    """The answers, as the name of a test."""
    return "-".join(answers[1:])


@cache
def examined(answers: Answers) -> Examination:
    """The plan that follows from the answers, examined."""
    return examine_plan(read_text("prop.plan", composed(answers)), 0.0)


def assert_right(answers: Answers) -> None:
    """Nothing above a note, every promise put to the test and kept; in the one layout, with a comment."""
    text = composed(answers)
    examination = examined(answers)
    assert [(one.check, one.what) for one in examination.findings if one.severity != "note"] == []
    assert len(examination.circuit.promises) >= 2 * int(answers.motors)
    assert {motor.name for motor in examination.circuit.motors} == {f"M{n + 1}" for n in range(int(answers.motors))}
    assert tidied(Source("prop.plan", tuple(text.splitlines()))) == text
    assert text.startswith("# Prop: begun")


@pytest.mark.parametrize("answers", FEW, ids=named)
def test_a_plan_for_one_motor_is_right_whatever_is_answered(answers: Answers) -> None:
    """Nothing above a note."""
    assert_right(answers)


@pytest.mark.slow
@pytest.mark.parametrize("answers", [one for one in EVERY if one not in FEW], ids=named)
def test_every_plan_is_right_whatever_is_answered(answers: Answers) -> None:
    """Two motors, and the other voltage."""
    assert_right(answers)


@pytest.mark.parametrize("answers", FEW, ids=named)
def test_the_motor_can_be_made_to_run(answers: Answers) -> None:
    """A plan that does nothing would be right too: in operation the motor is driven, both ways if it has them."""
    facts = examined(answers).facts
    (motor,) = facts.motors
    assert facts.reached_at_rest(motor.forward)
    assert bool(facts.reached_at_rest(motor.reverse)) == (answers.motion == "between")


def test_answers_given_as_options_are_not_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With nobody to ask, all others are the usual ones; a file that is there is left alone."""
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    plan = tmp_path / "jaw.plan"
    assert main(["begin", "--name", "Jaw", "--control", "switch", "--estop", "no", str(plan)]) == 0
    assert plan.read_text() == composed(Answers("Jaw", "12", "1", "between", "switch", "no"))
    assert main(["check", str(plan)]) == 0
    assert main(["begin", str(plan)]) == 2
    assert main(["begin", "--name", "two words", "-"]) == 2


def test_questions_are_asked_until_there_is_an_answer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A number or a word chooses, nothing takes the usual one."""

    class Screen(io.StringIO):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(sys, "stdin", Screen("3rd\nJaw\n\n2\nrunning\n9\n3\nno\n"))
    assert main(["begin", "-"]) == 0
    told = capsys.readouterr()
    assert told.out == composed(Answers("Jaw", "12", "2", "running", "buttons", "no"))
    assert '"3rd" is no answer to that.' in told.err
    assert '"9" is no answer to that.' in told.err
    monkeypatch.setattr(sys, "stdin", Screen("Jaw\n"))
    assert main(["begin", "-"]) == 2
