"""When findings are shown as somebody types: a moment after the last keystroke, never those of a text that is past."""

import asyncio
from collections.abc import Callable, Coroutine

import pytest

pytest.importorskip("pygls", reason="the editor extra is not installed")

from circuitcheck.checks.check import Finding
from circuitcheck.editor import publishing
from circuitcheck.editor.asking import Examine, Examined
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.examining import Examiner
from circuitcheck.editor.publishing import Publisher
from circuitcheck.plan.source import Problem

JAW, PARTS = "/plans/jaw.plan", "/plans/parts.plan"
LATCH = "supply PS 12 V 10 A\nfuse F1 3 A\nbutton PB1 no\nsolenoid Y1 12 V 12 ohm\nrung PS.+, F1, PB1, Y1, PS.-\n"

Shown = tuple[str, tuple[str, ...], tuple[str, ...], bool]
"""A file, what its problems are, which checks found something, and whether that is of this very text."""


class Slow:
    """Who examines, and takes `seconds` for it. asked: the texts so far, and whether somebody waited for the answer."""

    def __init__(self, seconds: float) -> None:
        self.seconds, self.examiner = seconds, Examiner()
        self.asked: list[tuple[str, bool]] = []

    async def examined(self, question: Examine) -> Examined:
        """What is found, unless nobody waits for it any more."""
        text = question.texts[question.file]
        try:
            await asyncio.sleep(self.seconds)
        except asyncio.CancelledError:
            self.asked.append((text, False))
            raise
        self.asked.append((text, True))
        answer = self.examiner.answer(question)
        assert isinstance(answer, Examined)
        return answer


class Scene:
    """A desk with one who looks after it. shown: all that was published."""

    def __init__(self, seconds: float) -> None:
        self.desk, self.slow = Desk(()), Slow(seconds)
        self.shown: list[Shown] = []
        # Slow stands in for an examiner: it has no more of one than a publisher asks for.
        self.publisher = Publisher(self.desk, self.slow, self._publish)  # type: ignore[arg-type]

    def _publish(
        self, draft: Draft, problems: tuple[Problem, ...], findings: tuple[Finding, ...], current: bool
    ) -> None:
        told = tuple(one.what for one in problems), tuple(one.check for one in findings)
        self.shown.append((draft.file, *told, current))

    def type(self, file: str, text: str) -> None:
        """The file has this text from now on."""
        self.desk.put(file, text)
        self.publisher.changed(file)

    async def until(self, count: int) -> None:
        """As many things have been shown; fails after ten seconds."""
        async with asyncio.timeout(10):
            while len(self.shown) < count:
                await asyncio.sleep(0.005)


@pytest.fixture(autouse=True)
def _quickly(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits long."""
    monkeypatch.setattr(publishing, "PAUSE", 0.02)
    monkeypatch.setattr(publishing, "PATIENCE", 0.02)


def play(scene: Callable[[Scene], Coroutine[None, None, None]], seconds: float = 0.0) -> Scene:
    """The scene, once it was played."""

    async def played() -> Scene:
        one = Scene(seconds)
        await scene(one)
        return one

    return asyncio.run(played())


def test_only_the_text_after_the_last_keystroke_is_examined() -> None:
    """What was typed within the pause before it counts for nothing."""

    async def typed(one: Scene) -> None:
        for text in ("s", "sup", LATCH):
            one.type(JAW, text)
        await one.until(1)

    one = play(typed)
    assert one.shown == [(JAW, (), ("missing-flyback",), True)]
    assert one.slow.asked == [(LATCH, True)]


def test_a_text_with_a_problem_keeps_the_findings_of_the_one_before() -> None:
    """A half-written line isn't examined, and findings are told to be of a text before; one without parts has none."""

    async def typed(one: Scene) -> None:
        one.type(JAW, LATCH)
        await one.until(1)
        one.type(JAW, LATCH + "rung PS.+,\n")
        await one.until(2)
        one.type(JAW, LATCH + "rung PS.+, K9\n")
        await one.until(3)
        one.type(JAW, "type latch solenoid 12 V 12 ohm\n")
        await one.until(4)

    one = play(typed)
    (_, half_written, kept, current), unknown, empty = one.shown[1:]
    assert (len(half_written), kept, current) == (1, ("missing-flyback",), False)
    assert unknown == (JAW, ("no part K9",), ("missing-flyback",), True)
    assert empty == (JAW, (), (), False)
    assert [text for text, _ in one.slow.asked] == [LATCH, LATCH + "rung PS.+, K9\n"]


def test_an_examination_that_the_text_has_left_behind_is_given_up() -> None:
    """The text that was typed meanwhile has its own turn."""

    async def typed(one: Scene) -> None:
        one.type(JAW, LATCH)
        await asyncio.sleep(0.1)
        one.type(JAW, LATCH + "# the jaw\n")
        await one.until(1)

    one = play(typed, seconds=0.3)
    assert one.slow.asked == [(LATCH, False), (LATCH + "# the jaw\n", True)]
    assert one.shown == [(JAW, (), ("missing-flyback",), True)]


def test_a_plan_is_looked_at_again_when_a_file_that_it_uses_changes() -> None:
    """A plan that uses nothing of it is left alone."""

    async def typed(one: Scene) -> None:
        one.type(PARTS, "type latch solenoid 12 V 12 ohm\n")
        one.type(JAW, 'use "parts.plan"\n')
        one.type("/plans/other.plan", "# alone\n")
        await one.until(3)
        one.type(PARTS, "type latch solenoid 12 V 12\n")
        await one.until(5)

    assert {file for file, *_ in play(typed).shown[3:]} == {PARTS, JAW}


def test_of_a_file_that_is_closed_nothing_more_is_told() -> None:
    """Neither what was found before nor what was to be looked at."""

    async def typed(one: Scene) -> None:
        one.type(JAW, LATCH)
        await one.until(1)
        assert one.publisher.findings(JAW)
        one.type(JAW, LATCH + "# shut\n")
        one.publisher.closed(JAW)
        await asyncio.sleep(0.1)
        one.publisher.closed("/plans/never_open.plan")
        assert one.publisher.findings(JAW) == ()

    assert len(play(typed).shown) == 1
