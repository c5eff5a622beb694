"""Only the plans that a change touches."""

import shutil
import subprocess
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.library.asking import plans_asked
from circuitcheck.library.changes import changes_since, touched
from tests.library.plans import RIGHT, write

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="there is no git")


def git(*arguments: str) -> None:
    """One call of git."""
    identity = ("-c", "user.name=A", "-c", "user.email=a@b.example", "-c", "commit.gpgsign=false")
    subprocess.run(["git", *identity, *arguments], check=True, capture_output=True)


@pytest.fixture(autouse=True)
def repository(folder: Path) -> None:
    """Two plans that use a shared file, which uses another, and one that doesn't; all committed."""
    (folder / ".git").rmdir()
    git("init", "-q")
    write("parts/more.plan", "type dim lamp 12 V 1 W\n")
    write("parts/lamps.plan", 'type spot lamp 12 V 2 W\nuse "more.plan"\n')
    using = 'use "../parts/lamps.plan"\n' + RIGHT.replace("lamp L1 12 V 2 W", "lamp L1 as spot")
    for name, text in (("a", using), ("b", using), ("c", RIGHT)):
        write(f"props/{name}.plan", text)
    write(".gitignore", ".cache\n")
    git("add", "-A")
    git("commit", "-q", "-m", "first")


def names() -> list[str]:
    """The plans of props/ that what changed since the commit touches."""
    return [Path(one.file).stem for one in touched(plans_asked(["props"]), changes_since("HEAD"))]


def append(name: str) -> None:
    """A comment at the end of a file."""
    with open(name, "a", encoding="utf-8") as file:
        file.write("# more\n")


def test_nothing_is_touched_where_nothing_has_changed() -> None:
    """Not even where files were written anew."""
    write("props/c.plan", RIGHT)
    assert names() == []


def test_a_change_touches_the_plan_itself_and_all_that_use_the_file() -> None:
    """Also through a file between them."""
    append("props/c.plan")
    assert names() == ["c"]
    append("parts/more.plan")
    assert names() == ["a", "b", "c"]


def test_what_is_committed_since_counts_as_well() -> None:
    """The revision is compared with the files as they are now."""
    append("parts/more.plan")
    git("commit", "-q", "-a", "-m", "second")
    assert names() == []
    assert [Path(one.file).stem for one in touched(plans_asked(["props"]), changes_since("HEAD~1"))] == ["a", "b"]


def test_new_renamed_and_deleted_files_count() -> None:
    """A plan whose shared file is gone is touched: it can't be read any more."""
    write("props/d.plan", RIGHT)
    git("mv", "props/c.plan", "props/e.plan")
    assert names() == ["d", "e"]
    Path("parts/more.plan").unlink()
    assert names() == ["a", "b", "d", "e"]


def test_settings_touch_all_plans_below_them() -> None:
    """A check that was turned on may find something in each."""
    write("circuitcheck.toml", 'fail-on = "error"\n')
    assert names() == ["a", "b", "c"]
    Path("circuitcheck.toml").unlink()
    write("parts/circuitcheck.toml", 'fail-on = "error"\n')
    assert names() == []


def test_the_findings_are_those_of_the_whole_run(capsys: pytest.CaptureFixture[str]) -> None:
    """Only of fewer plans; and it is said of how many."""
    append("props/c.plan")
    assert main(["check", "--changed-since", "HEAD", "props"]) == 0
    told = capsys.readouterr()
    assert told.err == "1 of 3 plans are touched by what changed since HEAD.\n"
    assert "c.plan: nothing wrong found" in told.out


@pytest.mark.parametrize(
    ("revision", "told"),
    [("nowhere", "git knows no revision nowhere here"), ("--output=x", "git knows no revision --output=x here")],
)
def test_an_unknown_revision_has_every_plan_checked(
    revision: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A shallow clone lacks revisions; leaving plans out would look like nothing found."""
    assert main(["check", f"--changed-since={revision}", "--library", "parts", "props"]) == 0
    told_all = capsys.readouterr()
    assert told_all.err == f"{told}, so every plan is checked.\n"
    assert "3 plans: nothing wrong found." in told_all.out


def test_without_git_every_plan_is_checked(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """And it is said why."""
    monkeypatch.setenv("PATH", "")
    assert main(["check", "--changed-since", "HEAD", "--library", "parts", "props"]) == 0
    assert capsys.readouterr().err == "there is no git repository here, or no git, so every plan is checked.\n"


def test_from_within_a_folder_the_whole_repository_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    """A new shared file beside the folder too."""
    append("parts/more.plan")
    monkeypatch.chdir("props")
    assert [Path(one.file).stem for one in touched(plans_asked(["."]), changes_since("HEAD"))] == ["a", "b"]
