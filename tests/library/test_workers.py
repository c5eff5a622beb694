"""Many plans in one run: in order, side by side, and none takes the others' results with it."""

import json
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.library import workers
from circuitcheck.library.asking import Asked
from circuitcheck.library.verdict import Outcome, Unexamined, Verdict
from circuitcheck.library.workers import examine_each, examine_one
from tests.interrupting import PACKAGE, interrupt, started
from tests.library.plans import RIGHT, WRONG, write


def outcomes(asked: list[Asked]) -> list[Outcome]:
    """In the order of what was asked."""
    return [outcome for _, outcome in sorted(examine_each(asked), key=lambda one: one[0])]


def test_side_by_side_gives_what_one_after_the_other_does() -> None:
    """Right and wrong plans, unreadable ones and missing ones."""
    names = [str(write(f"{number}.plan", text)) for number, text in enumerate((RIGHT, WRONG, "supply PS 12\n", RIGHT))]
    asked = [Asked(name) for name in (*names, "nowhere.plan")]

    def plain(outcome: Outcome) -> object:
        return outcome.error.problems if isinstance(outcome, Unexamined) else outcome._replace(seconds=0.0)

    assert list(map(plain, outcomes(asked))) == [plain(examine_one(one)) for one in asked]


def test_the_report_has_the_order_of_the_names_not_of_who_was_first(capsys: pytest.CaptureFixture[str]) -> None:
    """Two runs write the same bytes, but for the seconds."""
    for number in range(12):
        write(f"props/{number:02}.plan", RIGHT if number % 3 else WRONG)
    reports = []
    for _ in range(2):
        main(["check", "--no-cache", "--format", "json", "props"])
        report = json.loads(capsys.readouterr().out)
        reports.append([plan | {"seconds": 0} for plan in report["plans"]])
    assert reports[0] == reports[1]
    assert [Path(plan["file"]).stem for plan in reports[0]] == [f"{number:02}" for number in range(12)]


def test_a_plan_that_the_tool_stumbles_over_hides_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    """It has no verdict, and says why; a mistake of ours is never a clean plan."""

    def stumble(*_: object) -> None:
        raise RecursionError("too deep")

    monkeypatch.setattr("circuitcheck.examination.examine", stumble)
    outcome = examine_one(Asked(str(write("a.plan", RIGHT))))
    assert isinstance(outcome, Unexamined)
    assert "stumble over RecursionError: too deep" in outcome.error.problems[0].what


@pytest.mark.skipif(sys.platform == "win32", reason="processes are ended by a signal")
def test_a_process_that_is_killed_costs_only_the_plan_that_it_had(monkeypatch: pytest.MonkeyPatch) -> None:
    """The others are examined by another process, in order."""
    asked = [Asked(str(write(f"{number}.plan", RIGHT))) for number in range(6)]
    real = workers._Worker.give

    def deadly(worker: workers._Worker, number: int, one: Asked) -> None:
        if number in (1, 4):
            assert worker.process.pid
            os.kill(worker.process.pid, signal.SIGKILL)
        real(worker, number, one)

    monkeypatch.setattr(workers._Worker, "give", deadly)
    found = outcomes(asked)
    assert [isinstance(one, Verdict) for one in found] == [True, False, True, True, False, True]
    lost = found[1]
    assert isinstance(lost, Unexamined)
    assert lost.error.problems[0].what == "the process that examined 1.plan was ended from outside"


def test_a_piped_plan_is_read_among_others() -> None:
    """Only the first process has what is piped in."""
    write("a.plan", RIGHT)
    write("b.plan", RIGHT)
    command = [sys.executable, "-m", "circuitcheck", "check", "--format", "json", "a.plan", "-", "b.plan"]
    environment = os.environ | {"PYTHONPATH": str(PACKAGE)}
    done = subprocess.run(command, input=WRONG.encode(), capture_output=True, env=environment)
    found = [(plan["file"], len(plan["findings"])) for plan in json.loads(done.stdout)["plans"]]
    assert found == [("a.plan", 0), ("standard input", 1), ("b.plan", 0)]


def test_the_program_that_calls_is_not_run_again() -> None:
    """Each process is ours alone, also where the caller is a script that guards nothing, or is piped in."""
    for name in ("a", "b"):
        write(f"{name}.plan", RIGHT)
    program = (
        'print("begun")\nfrom circuitcheck.cli import main\nprint(main(["check", "--no-cache", "a.plan", "b.plan"]))\n'
    )
    script = write("script.py", program)
    environment = os.environ | {"PYTHONPATH": str(PACKAGE)}
    for arguments, piped in (([str(script)], b""), (["-"], program.encode())):
        done = subprocess.run([sys.executable, *arguments], input=piped, capture_output=True, env=environment)
        lines = done.stdout.decode().splitlines()
        assert (lines.count("begun"), lines[-1], done.returncode) == (1, "0", 0)


@pytest.mark.skipif(sys.platform == "win32", reason="processes are ended by a signal")
@pytest.mark.slow
def test_ctrl_c_ends_all_processes_without_a_word() -> None:
    """Exit status 2, no traceback; that the streams end says that no process has them open any more."""
    for number in range(2_000):
        write(f"props/{number}.plan", RIGHT)
    run = started("-m", "circuitcheck", "check", "--no-cache", "props")
    threading.Timer(1.0, interrupt, (run,)).start()
    out, errors = run.communicate(timeout=60)
    assert (run.returncode, out, errors) == (2, b"", b"")
