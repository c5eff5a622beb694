"""What is told while something takes its time."""

import time
from io import StringIO

import pytest

from circuitcheck.reports import progress
from circuitcheck.reports.progress import Counting, Progress


class Screen(StringIO):
    """A stream that says it is a terminal, so that what moves is drawn on it."""

    def isatty(self) -> bool:
        """It is one."""
        return True


def wait_for(screen: Screen, word: str) -> None:
    """Until the word stands on the screen; ten seconds at most."""
    end = time.monotonic() + 10
    while word not in screen.getvalue():
        assert time.monotonic() < end, screen.getvalue()
        time.sleep(0.02)


@pytest.fixture
def _soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits a second."""
    monkeypatch.setattr(progress, "SILENT_SECONDS", 0.01)
    monkeypatch.setenv("TERM", "xterm")


def test_what_ends_within_a_second_tells_nothing() -> None:
    """Neither what is done nor how much."""
    screen = Screen()
    with Progress(screen) as tell, Counting(screen) as count:
        tell("reading")
        count("curtain.plan", 1, 2)
    assert screen.getvalue() == ""


@pytest.mark.usefixtures("_soon")
def test_what_is_done_is_told_from_then_on() -> None:
    """Once it is shown, it goes with what is told."""
    screen = Screen()
    with Progress(screen) as tell:
        tell("reading [red]drawbridge.plan[/red]")
        wait_for(screen, "[red]drawbridge.plan")
        tell("supposing K1 stuck")
        wait_for(screen, "supposing K1 stuck")


@pytest.mark.usefixtures("_soon")
def test_a_bar_tells_how_many_plans_are_done() -> None:
    """With the last of them by name."""
    screen = Screen()
    with Counting(screen) as tell:
        tell("curtain.plan", 1, 40)
        wait_for(screen, "1/40")
        tell("[lantern].plan", 31, 40)
        wait_for(screen, "31/40")
        wait_for(screen, "[lantern].plan")
