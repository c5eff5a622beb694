"""The stories of examples/: each says what it shows and in which plan, and shows it."""

import re
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.reports.trace_asking import Told, asked_trace
from circuitcheck.reports.trace_words import moves_words, remarks_words

EXAMPLES = Path(__file__).parent.parent / "examples"
STORIES = sorted((EXAMPLES / "stories").iterdir())
HEAD = re.compile(r"# Shows: \S.*\.\n# Plan: (\S+\.plan)\n")


def plan_of(story: Path) -> Path:
    """The plan that a story is about."""
    head = HEAD.match(story.read_text(encoding="utf-8"))
    assert head, f"{story.name} doesn't say in its first lines what it shows, and in which plan"
    return EXAMPLES / head[1]


def told(name: str) -> Told:
    """The trace of a story."""
    story = EXAMPLES / "stories" / f"{name}.story"
    return asked_trace(plan_of(story), (EXAMPLES / "parts",), story, (), ())


def steps_of(trace: Told) -> list[str]:
    """What moves, step by step."""
    return [moves_words(trace, number) for number in range(len(trace.shown))]


@pytest.mark.parametrize("story", STORIES, ids=lambda path: path.stem)
def test_a_story_is_walked_to_its_end(story: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """As people would call it."""
    assert main(["trace", str(plan_of(story)), "--library", str(EXAMPLES / "parts"), "--story", str(story)]) == 0
    assert "step" in capsys.readouterr().out


def test_the_deck_is_braked_by_a_power_failure_on_its_way_until_somebody_presses_start() -> None:
    """It stops between its ends, once the relays have let go, stays there, and then gets to the bottom."""
    trace = told("drawbridge_raise_and_fail")
    steps = steps_of(trace)
    assert "deck moves to top" in steps
    assert trace.shown[steps.index("PS is switched on")].motors == {"M1": "braked"}
    assert steps[-2:] == ["deck moves to bottom", "K1 releases"]


def test_the_trapdoor_falls_only_if_its_button_is_held() -> None:
    """The latch is on in one step: after the timer's, until the button is let go."""
    trace = told("trapdoor_warned_in_time")
    on = [step for step, shown in zip(steps_of(trace), trace.shown, strict=True) if shown.lamps["Y1"] == "on"]
    assert on == ["K1 operates"]


def test_the_deck_without_steering_diodes_goes_down_first_and_hunts() -> None:
    """Told to raise, it moves to the bottom, and the last step says that this goes on."""
    trace = told("drawbridge_hunts")
    moves = [step for step in steps_of(trace) if step.startswith("deck")]
    assert moves == ["deck moves to bottom", "deck moves between bottom and top"]
    assert any("repeats for ever" in remark for remark in remarks_words(trace, len(trace.shown) - 1))
