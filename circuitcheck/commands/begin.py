"""`circuitcheck begin`: a first plan out of a few answers."""

import os
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, Command, WrongCall
from circuitcheck.commands.output import remark

if TYPE_CHECKING:
    from circuitcheck.beginning.answers import Question

ABOUT = f"""\
Asks a few questions and writes a plan to begin with: commented, with promises,
and such that `check` finds nothing wrong with it. Released relays brake the
motor, limits still let it be driven back, and what stays switched on doesn't
start anything when the power returns. The numbers in it (amperes, ohms, fuse)
are only usual ones: put in yours.

Answers that are given as options are not asked for. Where nobody can be asked
(no terminal) the usual ones are taken.

examples:
  circuitcheck begin drawbridge.plan
  circuitcheck begin --motors 1 --motion between --control held jaw.plan
  circuitcheck begin --control controller -       to see it first

exit status:
  0  the plan was written
  2  there is such a file already, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    from circuitcheck.beginning.answers import QUESTIONS

    parser.add_argument("plan", metavar="PLAN", help="the file to write, or - for the screen")
    for question in QUESTIONS:
        if question.choices:
            words = [choice.word for choice in question.choices]
            help = f"{question.asks} (usually {question.default})"
            parser.add_argument(f"--{question.name}", choices=words, help=help)
        else:
            parser.add_argument(f"--{question.name}", metavar="WORD", help=f"{question.asks}")


def _run(options: Namespace) -> int:
    import shlex

    from circuitcheck.beginning.answers import QUESTIONS, Answers
    from circuitcheck.beginning.composing import composed

    path = Path(options.plan)
    if not options.plan:
        raise WrongCall("the plan's file has no name; name one like drawbridge.plan")
    if options.plan != "-" and path.exists():
        raise WrongCall(f"{options.plan} is there already; name another file")
    ask = _asked if sys.stdin.isatty() else _usual
    answers = Answers(*(_answer(question, getattr(options, question.name), ask) for question in QUESTIONS))
    text = composed(answers)
    if options.plan == "-":
        sys.stdout.write(text)
    else:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
        named = options.plan if not options.plan.startswith("-") else os.path.join(".", options.plan)
        remark(f"{options.plan} is written. See what it does: circuitcheck table {shlex.quote(named)}")
    return CLEAN


def _answer(question: "Question", given: str | None, ask: "Callable[[Question], str]") -> str:
    if given is None:
        return ask(question)
    if not question.accepts(given):
        raise WrongCall(f'--{question.name} "{given}" is no name: a letter, then letters, digits and underscores')
    return given


def _usual(question: "Question") -> str:
    return question.default


def _asked(question: "Question") -> str:
    """Asks until there is an answer: the number of a choice or its word, nothing for the usual one."""
    words = [choice.word for choice in question.choices]
    while True:
        sys.stderr.write(f"\n{question.asks}\n")
        for number, choice in enumerate(question.choices, 1):
            sys.stderr.write(f"  {number}  {choice.word:<12}{choice.means}\n")
        sys.stderr.write(f"[{question.default}] ")
        sys.stderr.flush()
        line = sys.stdin.readline()
        if not line:
            raise WrongCall("the answers ended before the questions")
        answer = line.strip() or question.default
        if question.name not in ("volts", "motors") and answer.isdigit() and 1 <= int(answer) <= len(words):
            answer = words[int(answer) - 1]
        if question.accepts(answer):
            return answer
        sys.stderr.write(f'"{answer}" is no answer to that.\n')


COMMAND = Command("ask a few questions and write a plan to begin with", ABOUT, _add, _run)
