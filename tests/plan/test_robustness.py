"""Whatever is written, reading it ends soon, with a plan or with problems."""

import subprocess
import sys
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.words import EXAMPLES
from circuitcheck.reports.problems import problems_text
from tests.plan.told import problems_of

LINES = [line for word, line in EXAMPLES.items() if word != "use"]
PIECES = [*'(),|:"#\n .-+–\r\0', "12", "V", "K1", "..", "end", "not"]

whole_lines = st.lists(st.sampled_from(LINES), max_size=8)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A believable plan with a few stretches of it replaced."""
    text = "\n".join(draw(whole_lines))
    for _ in range(draw(st.integers(0, 4))):
        start = draw(st.integers(0, len(text)))
        replacement = draw(st.one_of(st.sampled_from(PIECES), st.sampled_from(LINES), st.text(max_size=3)))
        text = text[:start] + replacement + text[start + draw(st.integers(0, 5)) :]
    return text


def refusal(text: str) -> PlanError | None:
    """Why the text is no plan, None if it is one."""
    try:
        read_text("jaw.plan", text)
    except PlanError as error:
        return error
    return None


@settings(max_examples=200, deadline=None)
@given(st.one_of(mutated(), st.text(max_size=60)))
def test_any_text_gives_a_plan_or_problems_within_it(text: str) -> None:
    """Nothing but PlanError is raised; every problem stands inside the text and can be laid out."""
    error = refusal(text)
    for problem in error.problems if error else ():
        assert problem.place.end_line >= problem.place.line >= 1
        for source in error.sources if error else ():
            assert 1 <= problem.place.column <= len(source.lines[problem.place.line - 1]) + 1
        assert problem.what
        assert problem.help.strip()
    # A printed problem never breaks the screen: it can be written and holds no signs that a screen acts upon.
    assert error is None or all(line.isprintable() for line in problems_text(error, 80).split("\n"))


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("rung A, " + "(" * 200_000, "brackets more than 50 deep"),
        ("rung A, " + "(" * 51 + "B | C" + ")" * 51 + "\nfuse F1 5 A", "brackets more than 50 deep"),
        ("rung " + "()" * 40_000, "`)` where"),
        ("(" * 1_900_000, "brackets more than 50 deep"),
        (")" * 90_000, "no statement begins with `)`"),
        ("rung A, B" + ")" * 90_000, "a closing bracket that was never opened"),
        ("never " + "not " * 20_000, "`not` where"),
        ("x" * 90_000, "no statement begins with `xxxx"),
        ("lamp L1 " + "1" * 90_000, "a number of more than 12 digits"),
        ("wire " + "a." * 40_000, "`.` where"),
        ("wire K1." + "a-" * 40_000, "the passage"),
        ("x" * 1_900_000, "a statement of more than 100,000 signs"),
        ("lamp" + " a" * 900_000, "a statement of more than 100,000 signs"),
        ("rung A" + ",\n B" * 300_000, "a statement of more than 100,000 signs"),
        ("lamp L1 12 V\n" * 20_001, "more than 20,000 statements in all"),
        ("lamp\n" * 20_001, "more than 20,000 statements in all"),
    ],
)
def test_what_is_much_too_much_is_refused_soon(text: str, what: str) -> None:
    """Long lines and deep brackets end in a short message, not in waiting or in running out of stack."""
    start = time.perf_counter()
    problems = problems_of(text)
    assert time.perf_counter() - start < 5
    assert problems[0].what.startswith(what)
    assert all(len(problem.what) < 200 for problem in problems)


def test_a_list_of_names_as_long_as_any_is_read_soon() -> None:
    """Each of them is held against the words that it may have been meant for."""
    begun = time.process_time()
    assert problems_of("lamp L1 " + " ".join(f"{letter}quelch" for letter in "abdefghij" * 1_300)) == ()
    assert time.process_time() - begun < 10


def test_fifty_brackets_deep_is_read() -> None:
    """The limit itself is allowed."""
    assert problems_of("rung A, " + "(B | " * 50 + "C" + ")" * 50) == ()
    assert problems_of("never " + "not (" * 50 + "M1 driven" + ")" * 50) == ()


def test_a_flat_statement_may_be_as_long_as_any() -> None:
    """A long rung needs no stack."""
    assert problems_of("rung " + ", ".join(["(A | B)"] * 11_000)) == ()


def test_a_file_of_nothing_but_faults_is_given_up_after_a_thousand() -> None:
    """Nobody reads more, and it may not be a plan at all."""
    problems = problems_of("lamp\n" * 5_000)
    assert len(problems) == 1_001
    assert problems[-1].what == "more than 1,000 problems: reading ends here"


def test_importing_the_reader_does_not_import_the_parser() -> None:
    """An answer from a cache of results needs no parser, and must not pay for it."""
    late = {"lark", "dataclasses", "inspect", "logging"}
    code = "import sys; there = set(sys.modules); import circuitcheck.plan.reading; "
    code += f"print(({late} & {{*sys.modules}}) - there)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"
