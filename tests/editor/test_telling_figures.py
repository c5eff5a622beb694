"""What an editor tells of figures: what a wire carries, how far a motor turns on; and settings that it heeds."""

from pathlib import Path

from circuitcheck.editor.asking import Examine, Examined, Tell, TellWire
from circuitcheck.editor.examining import Examiner
from tests.library.plans import WRONG

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
DRAWBRIDGE = str(EXAMPLES / "right" / "drawbridge.plan")


def told(question: Tell | TellWire) -> str:
    """The answer of a process that has looked through the drawbridge."""
    examiner = Examiner()
    examined = examiner.answer(Examine(DRAWBRIDGE, {}, (str(EXAMPLES),)))
    assert isinstance(examined, Examined)
    assert examined.problems == ()
    return "\n".join(map(str, examiner.answer(question)))


def line_of(text: str) -> int:
    """The line of the drawbridge with these words."""
    lines = Path(DRAWBRIDGE).read_text("utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if text in line)


def test_a_wire_tells_what_it_carries_and_may_carry() -> None:
    """As `size` does; and nothing for a line that describes none."""
    text = told(TellWire(DRAWBRIDGE, line_of("1.5 mm2 red 0.3 m w1")))
    assert text.startswith("**w1 PS.+-F1.1** 1.5 mm² · runs ")
    assert "; may take " in text
    assert text.split("\n")[0].endswith(": fits")
    assert told(TellWire(DRAWBRIDGE, line_of("fuse   F1"))) == ""


def test_a_motor_tells_how_far_it_turns_on() -> None:
    """As `motion` does, the stops at limits first, with whether they fit."""
    text = told(Tell(DRAWBRIDGE, "M1", False))
    assert "M1 forward, deck toward top, turns on after\n- LS1, deck at top: " in text
    assert "(overtravel 30 mm: fits)" in text


def test_a_fuse_tells_what_it_carries() -> None:
    """Beside what it is."""
    assert told(Tell(DRAWBRIDGE, "F1", False)).startswith("**F1** 10 A blade · runs ")


def test_a_part_that_is_gone_meanwhile_has_no_answer() -> None:
    """It was renamed since the plan was looked through."""
    assert told(Tell(DRAWBRIDGE, "M9", False)) == ""


def test_settings_beside_a_plan_count_in_the_editor_too(tmp_path: Path) -> None:
    """Checks that are off, folders of shared parts; a slip in them is told in the plan."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "lamps.plan").write_text("type spot lamp 12 V 2 W\n")
    (tmp_path / "props").mkdir()
    plan = str(tmp_path / "props" / "gong.plan")
    texts = {plan: f'{WRONG}use "../parts/lamps.plan"\n'}

    def found() -> tuple[list[str], list[str]]:
        examined = Examiner().answer(Examine(plan, texts, ()))
        assert isinstance(examined, Examined)
        return [one.check for one in examined.findings], [one.what for one in examined.problems]

    assert len(found()[1]) == 1
    settings = tmp_path / "circuitcheck.toml"
    settings.write_text('library = ["parts"]\n')
    assert found() == (["unbraked-stop"], [])
    settings.write_text('library = ["parts"]\n[checks]\nunbraked-stop = false\n')
    assert found() == ([], [])
    settings.write_text('libary = ["parts"]\n')
    assert "no setting libary" in found()[1][-1]
