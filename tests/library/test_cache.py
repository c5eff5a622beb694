"""Verdicts that are kept: used where nothing has changed, and nowhere else, whatever happens to their files."""

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.library import workers
from circuitcheck.library.asking import Asked, plans_asked
from circuitcheck.library.cache import Cache, tool_itself
from circuitcheck.library.checking import check_all
from circuitcheck.library.inputs import InputsReader
from circuitcheck.library.verdict import Outcome, Verdict
from tests.library.plans import RIGHT, WRONG, write

PACKAGE = Path(__file__).parent.parent.parent
SPOT = "type spot lamp 12 V 2 W\n"
USING = 'use "parts/lamps.plan"\n' + RIGHT.replace("lamp L1 12 V 2 W", "lamp L1 as spot")


def check(*names: str) -> list[Outcome]:
    """These plans, with the cache of the test."""
    return check_all(plans_asked(names), Cache(Path(".cache")), lambda *_: None)


@contextmanager
def examined(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """The files that are examined meanwhile, and not taken from the cache."""
    files: list[str] = []
    real = workers.examine_each

    def counting(asked: list[Asked], *hear: Callable[[Asked, str], None]) -> Iterator[tuple[int, Outcome]]:
        files.extend(one.file for one in asked)
        return real(asked, *hear)

    with monkeypatch.context() as patched:
        patched.setattr(workers, "examine_each", counting)
        yield files


def without_sources(outcome: Outcome) -> Outcome:
    """Where nothing was found there is nothing to show, so the lines aren't read again."""
    return outcome._replace(sources=()) if isinstance(outcome, Verdict) else outcome


def kept() -> list[Path]:
    """The files of the cache."""
    return sorted(Path(".cache/verdicts").iterdir())


def test_what_comes_from_the_cache_is_what_was_put_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """Findings and sources too; nothing is examined."""
    write("a.plan", WRONG)
    first = check("a.plan")
    with examined(monkeypatch) as files:
        assert check("a.plan") == first
    assert files == []


def test_a_verdict_on_more_combinations_than_a_screen_could_hold_comes_from_the_cache_too() -> None:
    """Their number has three hundred digits."""
    write("a.plan", "\n".join(["supply PS 12 V 10 A", *(f"button PB{number} no" for number in range(1_000))]))
    first = check("a.plan")
    assert [one.combinations for one in first if isinstance(one, Verdict)] == [2**1001]
    assert check("a.plan") == first


CHANGES: dict[str, Callable[[], object]] = {
    "the plan": lambda: write("a.plan", USING + "lamp L2 12 V 2 W\n"),
    "a comment in the plan": lambda: write("a.plan", USING + "# more\n"),
    "a file that it uses": lambda: write("parts/lamps.plan", SPOT + "# more\n"),
    "a file that this one uses": lambda: write("parts/more.plan", "type x lamp 6 V 2 W\n"),
    "the settings": lambda: write("circuitcheck.toml", "[checks]\nidle-contact = false\n"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_of_anything_that_counts_has_the_plan_examined_anew(
    change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Going back to what was is answered from the cache again, whenever that was saved."""
    write("parts/more.plan", "type x lamp 12 V 2 W\n")
    write("parts/lamps.plan", SPOT + 'use "more.plan"\n')
    write("a.plan", USING)
    check("a.plan")
    before = {path: path.read_bytes() for path in Path().rglob("*.plan")}
    CHANGES[change]()
    with examined(monkeypatch) as files:
        changed = check("a.plan")
        again = check("a.plan")
    assert files == ["a.plan"]
    assert [without_sources(one) for one in changed] == [without_sources(one) for one in again]
    for path, content in before.items():
        path.write_bytes(content)
    Path("circuitcheck.toml").unlink(missing_ok=True)
    with examined(monkeypatch) as files:
        check("a.plan")
    assert files == []


def test_a_plan_is_the_same_however_its_name_begins(monkeypatch: pytest.MonkeyPatch) -> None:
    """Plans of the folder . are kept too."""
    write("props/a.plan", RIGHT)
    check("props/a.plan")
    with examined(monkeypatch) as files:
        check("./props/a.plan", ".")
    assert files == []


def test_time_stamps_decide_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither a newer stamp on the same bytes nor an old stamp on others."""
    path = write("a.plan", RIGHT)
    check("a.plan")
    os.utime(path, (2_000_000_000, 2_000_000_000))
    stamps = path.stat()
    with examined(monkeypatch) as files:
        check("a.plan")
        path.write_text(RIGHT.replace("L1", "L2"), encoding="utf-8")
        os.utime(path, ns=(stamps.st_atime_ns, stamps.st_mtime_ns))
        check("a.plan")
    assert files == ["a.plan"]


def test_a_used_file_that_is_gone_or_led_elsewhere_is_noticed(tmp_path_factory: pytest.TempPathFactory) -> None:
    """The verdict on what was is none on what is."""
    write("parts/lamps.plan", SPOT)
    write("a.plan", USING)
    assert isinstance(check("a.plan")[0], Verdict)
    Path("parts/lamps.plan").unlink()
    assert not isinstance(check("a.plan")[0], Verdict)
    outside = tmp_path_factory.mktemp("outside") / "lamps.plan"
    outside.write_text(SPOT, encoding="utf-8")
    Path("parts/lamps.plan").symlink_to(outside)
    assert not isinstance(check("a.plan")[0], Verdict)


def test_another_version_of_the_tool_has_verdicts_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """A verdict is one of the tool that gave it, and of each of its files."""
    write("a.plan", RIGHT)
    check("a.plan")
    monkeypatch.setattr("circuitcheck.library.cache.tool_itself", lambda: "another")
    with examined(monkeypatch) as files:
        check("a.plan")
    assert files == ["a.plan"]


def test_what_stands_for_the_tool_changes_with_any_of_its_files(monkeypatch: pytest.MonkeyPatch) -> None:
    """Grammar, catalogue and checks included."""
    package = Path("package")
    write("package/checks/a.py", "1\n")
    write("package/reports/b.py", "1\n")
    monkeypatch.setattr("circuitcheck.library.cache._PACKAGE", str(package))
    before = tool_itself()
    write("package/reports/b.py", "2\n")
    assert tool_itself() == before
    write("package/checks/a.py", "2\n")
    assert tool_itself() != before


DAMAGES: dict[str, Callable[[bytes], bytes]] = {
    "cut": lambda content: content[: len(content) // 2],
    "emptied": lambda _: b"",
    "cut to its checksum": lambda content: content[:65],
    "changed": lambda content: content.replace(b'"findings":[', b'"findings":[]+['),
    "without its finding": lambda content: content[: content.index(b'"findings":[')] + b'"findings":[]}}',
    "zeroes": lambda content: bytes(len(content)),
    "of another plan": lambda _: kept()[-1].read_bytes(),
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_file_is_no_verdict(damage: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The plan is examined anew, and the file is whole again afterwards."""
    write("a.plan", WRONG)
    first = check("a.plan")
    (own,) = kept()
    write("b.plan", RIGHT)
    check("b.plan")
    other = next(path for path in kept() if path != own)
    whole = own.read_bytes()
    damaged = other.read_bytes() if damage == "of another plan" else DAMAGES[damage](whole)
    own.write_bytes(damaged)
    with examined(monkeypatch) as files:
        (again,) = check("a.plan")
        check("a.plan")
    assert files == ["a.plan"]
    assert isinstance(again, Verdict)
    assert [again._replace(seconds=0.0)] == [one._replace(seconds=0.0) for one in first if isinstance(one, Verdict)]


def test_a_folder_that_cannot_be_used_is_as_if_there_were_none(capsys: pytest.CaptureFixture[str]) -> None:
    """Not a word about it; the result is the same."""
    write("a.plan", WRONG)
    shutil.rmtree(".cache")
    write(".cache", "a file where the folder should be")
    assert isinstance(check("a.plan")[0], Verdict)
    assert isinstance(check("a.plan")[0], Verdict)
    assert capsys.readouterr().err == ""


def test_no_cache_neither_reads_nor_writes(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`--no-cache`."""
    write("a.plan", RIGHT)
    assert main(["check", "--no-cache", "a.plan"]) == 0
    assert not (folder / ".cache/circuitcheck/verdicts").exists()
    assert main(["check", "a.plan"]) == 0
    with examined(monkeypatch) as files:
        assert main(["check", "--no-cache", "a.plan"]) == 0
    assert files == ["a.plan"]


def test_a_plan_that_is_saved_while_it_is_examined_is_not_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """The verdict is on the new text, the name would be of the old one."""
    write("a.plan", WRONG)
    real = workers.examine_each

    def saving(asked: list[Asked], *hear: Callable[[Asked, str], None]) -> Iterator[tuple[int, Outcome]]:
        write("a.plan", RIGHT)
        return real(asked, *hear)

    with monkeypatch.context() as patched:
        patched.setattr(workers, "examine_each", saving)
        check("a.plan")
    write("a.plan", WRONG)
    (outcome,) = check("a.plan")
    assert isinstance(outcome, Verdict)
    assert outcome.findings


def test_problems_are_not_kept() -> None:
    """What is near a missing file may change without the plan."""
    write("a.plan", 'use "lamps.plan"\n' + RIGHT)
    check("a.plan")
    assert not Path(".cache/verdicts").exists()


def test_old_verdicts_are_taken_away_where_there_are_too_many(monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder doesn't grow for ever."""
    monkeypatch.setattr("circuitcheck.library.cache.MOST_KEPT", 8)
    for number in range(9):
        write("a.plan", f"{RIGHT}# {number}\n")
        check("a.plan")
    assert len(kept()) == 6


def test_every_use_that_the_reader_follows_is_among_the_inputs() -> None:
    """However it is written."""
    lines = ['use "a b.plan"', '\tuse\t"c.plan" # so', 'use   "d.plan"\r', "# use", '  use "sub/../e.plan"']
    for name in ("a b", "c", "d", "e"):
        write(f"{name}.plan", f"type t{name[0]} lamp 12 V 2 W\n")
    Path("sub").mkdir()
    path = write("all.plan", "\n".join(lines) + "\n" + RIGHT)
    inputs = InputsReader("").inputs_of(Asked(str(path)))
    verdict = workers.examine_one(Asked(str(path)))
    assert inputs is not None
    assert isinstance(verdict, Verdict)
    assert inputs.sources == verdict.sources
    assert len(verdict.sources) == 5


def start(*arguments: str) -> subprocess.Popen[bytes]:
    """The command as a process of its own."""
    command = [sys.executable, "-m", "circuitcheck", *arguments]
    environment = os.environ | {"PYTHONPATH": str(PACKAGE)}
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment)


def findings_in(report: bytes) -> list[tuple[str, list[str]]]:
    """Each plan's file, and the words of its findings."""
    plans = json.loads(report)["plans"]
    return [(plan["file"], [finding["what"] for finding in plan["findings"]]) for plan in plans]


@pytest.mark.slow
def test_two_runs_at_once_give_what_one_gives() -> None:
    """And so does a third that finds what both have kept."""
    for number in range(40):
        write(f"props/{number:02}.plan", (RIGHT if number % 2 else WRONG) + f"# {number}\n")
    arguments = ("check", "--format", "json", "props")
    alone = findings_in(start(*arguments, "--no-cache").communicate()[0])
    both = [start(*arguments) for _ in range(2)]
    assert [findings_in(run.communicate()[0]) for run in both] == [alone, alone]
    assert findings_in(start(*arguments).communicate()[0]) == alone


@pytest.mark.skipif(sys.platform == "win32", reason="processes are ended by a signal")
@pytest.mark.slow
def test_a_run_that_is_killed_in_the_middle_leaves_no_wrong_verdict() -> None:
    """Killed again and again, at other moments, the runs after it give the right findings."""
    for number in range(40):
        write(f"props/{number:02}.plan", (RIGHT if number % 2 else WRONG) + f"# {number}\n")
    arguments = ("check", "--format", "json", "props")
    right = findings_in(start(*arguments, "--no-cache").communicate()[0])
    for tenths in range(2, 12):
        run = start(*arguments)
        time.sleep(tenths / 10)
        run.send_signal(signal.SIGKILL)
        run.communicate()
    assert findings_in(start(*arguments).communicate()[0]) == right
    assert findings_in(start(*arguments).communicate()[0]) == right
