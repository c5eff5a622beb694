"""The two processes behind an editor: the server ends with its editor, and outlives a lost examination."""

import asyncio
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("pygls", reason="the editor extra is not installed")

from circuitcheck.editor.asking import Examine, Fix, Remedies, Tell
from circuitcheck.editor.examiner import Examiner
from tests.benchmarks.keystrokes import plan

pytestmark = pytest.mark.slow

LATCH = "supply PS 12 V 10 A\nfuse F1 3 A\nsolenoid Y1 12 V 12 ohm\nrung PS.+, F1, Y1, PS.-\n"


def examine(text: str) -> Examine:
    """The question about a plan that only the editor has."""
    return Examine("/plans/jaw.plan", {"/plans/jaw.plan": text}, ())


def test_a_question_that_nobody_waits_for_is_ended_and_the_next_is_answered() -> None:
    """The process is started anew; what it knew of the plan before is gone, and is not made up."""

    async def scene() -> None:
        examiner = Examiner()
        given_up = asyncio.ensure_future(examiner.examined(examine(plan())))
        await asyncio.sleep(0.5)
        given_up.cancel()
        await asyncio.wait({given_up})
        assert await examiner.told(Tell("/plans/jaw.plan", "Y1", False)) == ()
        found = await examiner.examined(examine(LATCH))
        assert {one.check for one in found.findings} >= {"missing-flyback"}
        assert await examiner.told(Tell("/plans/jaw.plan", "Y1", False)) == ("fed with PS on",)
        lines = tuple(LATCH.split("\n"))
        fixes = await examiner.remedies(Remedies("/plans/jaw.plan", lines, 3, 3))
        assert [one.title for one in fixes if isinstance(one, Fix)] == ["put a diode D1 across Y1, its cathode at Y1.1"]
        assert await examiner.remedies(Remedies("/plans/jaw.plan", lines, 1, 1)) == ()
        # What was typed since would be undone by a remedy for the text before.
        assert await examiner.remedies(Remedies("/plans/jaw.plan", (*lines, "#"), 3, 3)) == ()
        await examiner.stop()

    asyncio.run(scene())


def test_a_plan_that_cannot_be_understood_has_problems_and_no_findings() -> None:
    """What was known of it stays."""

    async def scene() -> None:
        examiner = Examiner()
        await examiner.examined(examine(LATCH))
        found = await examiner.examined(examine(LATCH + "rung PS.+, K9\n"))
        assert [one.what for one in found.problems] == ["no part K9"]
        assert found.findings == ()
        assert await examiner.told(Tell("/plans/jaw.plan", "Y1.2", True)) == (
            "never joined to PS.+", "always joined to PS.-",
        )  # fmt: skip
        await examiner.stop()

    asyncio.run(scene())


def test_the_server_ends_when_its_editor_is_gone(tmp_path: Path) -> None:
    """Its stdin is closed: no process is left behind."""
    command = [sys.executable, "-m", "circuitcheck", "languageserver"]
    server = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, cwd=tmp_path)
    assert server.stdin is not None
    server.stdin.close()
    server.wait(timeout=20)
