"""What the README tells people to copy into their CI service, run as it stands there; and the hook of pre-commit."""

import json
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

ROOT = Path(__file__).parent.parent
PLAN = """\
plan Lantern "A lamp in the trapdoor"
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, L1, PS.-
"""
CHANGED = PLAN.replace("fuse   F1 5 A\n", "").replace("F1, PB1", "PB1")
CAUTION = "does not replace local electrical codes"


def workflow(name: str) -> dict[str, Any]:
    """A workflow of the README, by the name of the file that it belongs into."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (found,) = re.findall(rf"`{re.escape(name)}`:\n\n```yaml\n(.*?)^```", text, re.S | re.M)
    content: dict[str, Any] = yaml.safe_load(found)
    return content


def git(*words: str) -> str:
    """What git says, in the current folder, whoever's machine it is."""
    named = ["-c", "user.name=Stage", "-c", "user.email=stage@example.org", "-c", "core.hooksPath=/dev/null"]
    done = subprocess.run(["git", *named, *words], capture_output=True, text=True, check=True)
    return done.stdout.strip()


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """We are in a repository in which a branch took a lantern's fuse out of its way; gives where it branched off.

    circuitcheck is the present installation, and pip has nothing to do.
    """
    programs = tmp_path / "programs"
    programs.mkdir()
    module = f"PYTHONPATH={shlex.quote(str(ROOT))} exec {shlex.quote(sys.executable)} -m circuitcheck"
    for name, line in (("circuitcheck", f'{module} "$@"'), ("pip", 'echo "$@" >> "$PIP_LOG"')):
        (programs / name).write_text(f"#!/bin/sh\n{line}\n", encoding="utf-8")
        (programs / name).chmod(0o755)
    monkeypatch.setenv("PATH", f"{programs}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setenv("PIP_LOG", str(tmp_path / "pip.txt"))
    monkeypatch.setenv("CIRCUITCHECK", "git+https://example.org/circuitcheck")
    plans = tmp_path / "plans"
    (plans / "second act").mkdir(parents=True)
    monkeypatch.chdir(plans)
    git("init", "-q", "-b", "main")
    for name in ("lantern.plan", "second act/lantern.plan", "unchanged.plan"):
        Path(name).write_text(PLAN, encoding="utf-8")
    git("add", ".")
    git("commit", "-q", "-m", "Lanterns")
    git("update-ref", "refs/remotes/origin/main", "HEAD")
    git("checkout", "-q", "-b", "fuse")
    for name in ("lantern.plan", "second act/lantern.plan"):
        Path(name).write_text(CHANGED, encoding="utf-8")
    git("commit", "-q", "-a", "-m", "One part less")
    return git("rev-parse", "main")


def run(script: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """A script as both services run it: it ends at the first command that fails."""
    command = ["bash", "-eo", "pipefail", "-c", script]
    return subprocess.run(command, capture_output=True, text=True, env=os.environ | environment)


@pytest.mark.usefixtures("base")
def test_the_github_workflow_annotates_uploads_and_tells_what_a_change_does(tmp_path: Path) -> None:
    """Only the step that checks fails; the summary has its findings and each changed plan's comparison."""
    values = {"vars.CIRCUITCHECK": "git+https://example.org/circuitcheck", "github.base_ref": "main"}
    summary = tmp_path / "summary.md"
    failed, told = [], ""
    for step in workflow(".github/workflows/plans.yml")["jobs"]["plans"]["steps"]:
        if "run" in step:
            given = {
                name: re.sub(r"\$\{\{ (\S+) \}\}", lambda found: values[found[1]], value)
                for name, value in step.get("env", {}).items()
            }
            done = run(step["run"], GITHUB_STEP_SUMMARY=str(summary), **given)
            told += done.stdout
            failed += [step["run"]] if done.returncode else []
    assert [command.split()[:2] for command in failed] == [["circuitcheck", "check"]]
    assert "::warning file=lantern.plan,line=2,endLine=2,col=8,endColumn=10,title=supply-without-fuse::" in told
    text = summary.read_text(encoding="utf-8")
    assert text.count("supply-without-fuse") == 4 + 2
    assert text.count("The behaviour is the same") == 2
    assert "second act/lantern.plan" in text
    assert "unchanged.plan" not in text
    uploaded = json.loads(Path("circuitcheck.sarif").read_text(encoding="utf-8"))
    assert len(uploaded["runs"][0]["results"]) == 2
    assert (tmp_path / "pip.txt").read_text(encoding="utf-8").split() == ["install", values["vars.CIRCUITCHECK"]]


def test_the_github_workflow_uploads_the_file_that_it_has_written() -> None:
    """The name in the call and that in the step after it are one."""
    steps = workflow(".github/workflows/plans.yml")["jobs"]["plans"]["steps"]
    (named,) = [step["with"]["sarif_file"] for step in steps if "upload-sarif" in step.get("uses", "")]
    assert any(f"--format sarif={named} " in step.get("run", "") for step in steps)


def test_the_gitlab_workflow_writes_the_reports_that_it_names(base: str) -> None:
    """The job fails as `check` does, and leaves its reports and what the changes do."""
    job = workflow(".gitlab-ci.yml")["plans"]
    done = run("\n".join(job["script"]), CI_MERGE_REQUEST_DIFF_BASE_SHA=base)
    assert done.returncode == 1
    assert CAUTION in done.stdout.replace("\n", " ")
    reports = job["artifacts"]["reports"]
    entries = json.loads(Path(reports["codequality"]).read_text(encoding="utf-8"))
    assert [entry["location"]["path"] for entry in entries] == ["lantern.plan", "second act/lantern.plan"]
    assert Path(reports["junit"]).read_text(encoding="utf-8").count("<failure") == 2
    (changes,) = job["artifacts"]["paths"]
    assert Path(changes).read_text(encoding="utf-8").count("Findings that came") == 2


@pytest.mark.usefixtures("base")
@pytest.mark.slow
def test_the_gitlab_workflow_has_nothing_to_compare_outside_a_merge_request() -> None:
    """On the main branch plans are checked, and no change is told."""
    git("checkout", "-q", "main")
    done = run("\n".join(workflow(".gitlab-ci.yml")["plans"]["script"]))
    assert done.returncode == 0
    assert not Path("changes.md").exists()


@pytest.mark.usefixtures("base")
@pytest.mark.slow
def test_a_plan_that_cannot_be_read_keeps_no_other_from_being_compared() -> None:
    """What `check` says decides; the loop goes on with the next plan."""
    Path("lantern.plan").write_text("suply PS 12 V\n", encoding="utf-8")
    done = run("\n".join(workflow(".gitlab-ci.yml")["plans"]["script"]), CI_MERGE_REQUEST_DIFF_BASE_SHA="main")
    assert done.returncode == 2
    assert "second act/lantern.plan" in Path("changes.md").read_text(encoding="utf-8")


@pytest.mark.usefixtures("base")
def test_the_hook_of_pre_commit_is_told_the_plans_of_a_commit() -> None:
    """It is what pre-commit documents for a hook, and fails a commit with a line for each finding."""
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert hook["id"] == hook["name"] == "circuitcheck"
    assert hook["language"] == "python"
    assert hook["require_serial"] is True
    names = git("ls-files", "-z").split("\0")
    plans = [name for name in names if re.search(hook["files"], name)]
    assert len(plans) == 3
    done = run(f"{hook['entry']} {shlex.join(plans)}")
    assert done.returncode == 1
    assert [line.split(":")[:3] for line in done.stdout.splitlines()] == [
        ["lantern.plan", "2", "8"],
        ["second act/lantern.plan", "2", "8"],
    ]
