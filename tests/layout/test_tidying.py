"""Tidying: one layout, reached at once, that says the same and keeps every comment."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.circuit.building import build_circuit
from circuitcheck.cli import main
from circuitcheck.layout import tidying
from circuitcheck.layout.tidying import MeaningChanged, comments_of, tidied
from circuitcheck.plan.placeless import without_places
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError, Source
from circuitcheck.plan.text import source_of_text
from tests.analysis.plans import plan_texts
from tests.profiles import examples
from tests.test_start_up import loaded

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
PLANS = sorted(EXAMPLES.rglob("*.plan"))

UNTIDY = """\

# The jaw


plan  DragonJaw   "Opens"   # by hand
# Shared parts
use "relays.plan"
type a relay spdt coil 12V 90ohm
type  long_name lamp 12V 2W #bright
module  M

# Inside
port a   b #c
 rung a, ( b|c ),   # one

   # deep
   d   # last
never M1 driven when not( S1 raise or   (L1 lit))
axis deck from a to b,70 °
end
supply PS 12V 10A
fit R1 M: a   X.1,
b  Y.1
wire A B
wire Abc.1   B.1  :  red 1.5mm2
wire B C: blue
type d lamp 6V 1W
"""
TIDY = """\
# The jaw

plan DragonJaw "Opens"  # by hand

# Shared parts
use "relays.plan"

type a         relay spdt coil 12 V 90 ohm
type long_name lamp  12 V 2 W  #bright

module M
  # Inside
  port   a b            #c
  rung   a, ( b | c ),  # one
         # deep
         d              # last
  never  M1 driven when not (S1 raise or (L1 lit))
  axis   deck from a to b, 70°
end

supply PS 12 V 10 A
fit    R1 M : a X.1,
       b Y.1
wire   A     B
wire   Abc.1 B.1 : red 1.5 mm2
wire   B     C   : blue
type   d lamp 6 V 1 W
"""


def source(text: str) -> Source:
    """The text as a file that was read."""
    found = source_of_text("jaw.plan", text)
    assert isinstance(found, Source)
    return found


def tidy(text: str) -> str:
    """The text in the one layout."""
    return tidied(source(text))


def test_the_layout_in_one_picture() -> None:
    """Columns, blocks, spacing, modules, lines that go on, and comments."""
    assert tidy(UNTIDY) == TIDY


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_every_example_finds_its_layout_again_and_says_the_same(path: Path) -> None:
    """With all columns lost; the circuit is equal up to places; every comment is there, in order."""
    tidied_text = path.read_text(encoding="utf-8")
    text = re.sub(r"(?m)^ +| {2,}", " ", tidied_text)
    once = tidy(text)
    assert once == tidied_text
    assert comments_of(source(once)) == [line[line.index("#") :].rstrip() for line in text.splitlines() if "#" in line]
    if "parts" not in path.parts:
        before, after = (build_circuit(read_text(str(path), one, (EXAMPLES / "parts",))) for one in (text, once))
        assert without_places(before) == without_places(after)


def test_the_examples_are_laid_out(capsys: pytest.CaptureFixture[str]) -> None:
    """`tidy --check examples`, as a library's CI would ask."""
    assert main(["tidy", "--check", str(EXAMPLES)]) == 0, capsys.readouterr().out


@st.composite
def disordered(draw: st.DrawFn) -> str:
    """A random plan with random blanks, comments and blank lines thrown in."""
    lines = []
    for line in draw(plan_texts()).split("\n"):
        words = line.split(" ")
        gaps = [draw(st.sampled_from((" ", "  ", "\t", "\u2003"))) for _ in words]
        lines += draw(st.sampled_from(([], [], [], [""], ["", " "], ["# a note"], ["", "  #! a mark  "])))
        end = draw(st.sampled_from(("", "", "  ", "# end", "   #  two  words ")))
        lines.append("".join(word + gap for word, gap in zip(words, gaps, strict=True)) + end)
    return "\n".join(lines)


@settings(max_examples=examples(25))
@given(disordered())
def test_any_plan_is_laid_out_once_and_says_the_same(text: str) -> None:
    """The same for random plans: idempotent, the circuit equal up to places, comments kept in order."""
    once = tidy(text)
    assert tidy(once) == once
    assert comments_of(source(once)) == [line[line.index("#") :].strip() for line in text.split("\n") if "#" in line]
    before, after = (build_circuit(read_text("a.plan", one)) for one in (text, once))
    assert without_places(before) == without_places(after)


def test_a_layout_that_would_say_something_else_is_never_given(monkeypatch: pytest.MonkeyPatch) -> None:
    """The proof is made each time, whatever lays out the lines."""
    monkeypatch.setattr(tidying, "in_columns", lambda rows: [row.comment or " ".join(row.cells) for row in rows][:-1])
    with pytest.raises(MeaningChanged):
        tidy("fuse F1 5 A\nfuse F2 5 A")


def test_a_plan_that_cannot_be_read_is_left_alone(tmp_path: Path) -> None:
    """Its problems are told instead."""
    plan = tmp_path / "jaw.plan"
    plan.write_text("fuse  F1 5 A\nlamp")
    with pytest.raises(PlanError):
        tidy(plan.read_text())
    assert main(["tidy", str(plan)]) == 2
    assert plan.read_text() == "fuse  F1 5 A\nlamp"


def test_check_writes_nothing_and_tells_by_its_exit_status(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """1 where a plan would change, 0 once it was tidied."""
    plan = tmp_path / "jaw.plan"
    plan.write_text("fuse  F1 5A\n")
    assert main(["tidy", "--check", str(tmp_path)]) == 1
    assert plan.read_text() == "fuse  F1 5A\n"
    assert main(["tidy", str(plan)]) == 0
    assert plan.read_text() == "fuse   F1 5 A\n"
    assert main(["tidy", "--check", str(tmp_path)]) == 0
    assert capsys.readouterr().out == f"{plan}: would change\n{plan}: laid out anew\n"


def test_a_file_keeps_its_kind_of_line_end(tmp_path: Path) -> None:
    """Carriage returns that an editor put there stay; one text in, one text out."""
    plan = tmp_path / "jaw.plan"
    plan.write_bytes(b"fuse  F1 5A\r\nfuse F2 5 A\r\n")
    main(["tidy", str(plan)])
    assert plan.read_bytes() == b"fuse   F1 5 A\r\nfuse   F2 5 A\r\n"


def test_laying_out_loads_no_engine(tmp_path: Path) -> None:
    """Nothing has to be understood for it, so nobody waits for what understands."""
    (tmp_path / "jaw.plan").write_text("fuse  F1 5A\n")
    modules = loaded(["tidy", "jaw.plan"], tmp_path)
    assert not any(name.startswith(("circuitcheck.analysis", "circuitcheck.checks")) for name in modules)
