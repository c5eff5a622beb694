"""Plans as they stood in a git revision, and everything that can keep them from being read."""

import subprocess
from pathlib import Path

import pytest

from circuitcheck.plan.revisions import in_revision, read_revision
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.syntax import Plan

PARTS = "type cube relay spdt coil 12 V 160 ohm\n"
PLAN = 'use "parts/relays.plan"\nsupply PS 12 V 10 A\nrelay K1 as cube\nrung PS.+, K1.A1-A2, PS.-\n'


def git(*arguments: str) -> None:
    """Works the repository in the current folder."""
    names = ["-c", "user.name=Puppeteer", "-c", "user.email=puppeteer@theatre.example"]
    subprocess.run(["git", *names, *arguments], check=True, capture_output=True)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with one revision, changed since: the plan, and what it uses."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", str(tmp_path / "none"))
    Path("plans/parts").mkdir(parents=True)
    Path("plans/parts/relays.plan").write_text(PARTS, encoding="utf-8")
    Path("plans/jaw.plan").write_text(PLAN, encoding="utf-8")
    git("init", "-q", ".")
    git("add", "-A")
    git("commit", "-q", "-m", "The jaw")
    Path("plans/parts/relays.plan").write_text(PARTS.replace("160", "90"), encoding="utf-8")
    Path("plans/jaw.plan").write_text(PLAN.replace("K1", "K2"), encoding="utf-8")
    return tmp_path


def read(text: str, roots: tuple[Path, ...] = ()) -> Plan:
    """The plan that some words mean."""
    meant = in_revision(text)
    assert meant is not None
    return read_revision(meant, roots)


def refusal(text: str) -> str:
    """What is told instead of a plan."""
    with pytest.raises(PlanError) as raised:
        read(text)
    return f"{raised.value.problems[0].what}. {raised.value.problems[0].help}"


def test_plan_and_used_files_are_those_of_the_revision() -> None:
    """What was changed since doesn't matter."""
    plan = read("HEAD:plans/jaw.plan")
    assert ["\n".join(source.lines) for source in plan.sources] == [PLAN, PARTS]
    assert plan.file == "HEAD:plans/jaw.plan"


def test_a_path_may_begin_at_the_current_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    """With ./ as git has it."""
    monkeypatch.chdir("plans")
    assert read("HEAD:./jaw.plan").types.keys() == {"cube"}
    assert "HEAD:./jaw.plan" in refusal("HEAD:jaw.plan")


def test_a_folder_of_shared_parts_in_the_repository_is_that_of_the_revision() -> None:
    """A plan beside the folder that it uses."""
    Path("props").mkdir()
    Path("props/jaw.plan").write_text(PLAN.replace("parts/", "../plans/parts/"), encoding="utf-8")
    git("add", "props/jaw.plan")
    git("commit", "-q", "-m", "A prop of its own")
    assert "160" in read("HEAD:props/jaw.plan", (Path("plans"),)).sources[1].lines[0]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("HEAD~7:plans/jaw.plan", "no revision HEAD~7"),
        ("nowhere:plans/jaw.plan", "no revision nowhere"),
        ("HEAD:plans/jew.plan", "Nearest: plans/jaw.plan"),
        ("HEAD:jaw.plan", "Nearest: plans/jaw.plan"),
        ("HEAD:plans", "no file plans"),
        ("HEAD:../../jaw.plan", "no file"),
    ],
)
def test_what_is_not_there_is_told_with_what_is(text: str, told: str) -> None:
    """No revision, no file in it."""
    assert told in refusal(text)


def test_a_used_file_that_the_revision_lacks_is_told_where_it_is_used() -> None:
    """As it is for files."""
    Path("plans/jaw.plan").write_text('use "parts/motors.plan"\n' + PLAN, encoding="utf-8")
    git("commit", "-q", "-a", "-m", "More parts")
    assert "parts/motors.plan" in refusal("HEAD:plans/jaw.plan")


def test_without_a_repository_or_without_git_it_is_said_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both are clear to somebody who never heard of git's own messages."""
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "none"))
    assert "no git repository here" in refusal("HEAD:plans/jaw.plan")
    monkeypatch.setenv("PATH", "")
    assert "install it" in refusal("HEAD:plans/jaw.plan")


@pytest.mark.parametrize("text", ["plans/jaw.plan", "C:jaw.plan", "-x:jaw.plan", "HEAD:", ":jaw.plan", "-"])
def test_other_names_are_files(text: str) -> None:
    """A path on a drive too."""
    assert in_revision(text) is None
