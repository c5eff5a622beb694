"""A library divided over several jobs, and their reports as one."""

import json
from pathlib import Path

import pytest

from circuitcheck.cli import main
from tests.library.plans import RIGHT, WRONG, write


@pytest.fixture(scope="module")
def verdicts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What is kept of the plans, so that each is examined once for all these tests."""
    return tmp_path_factory.mktemp("verdicts")


@pytest.fixture(autouse=True)
def library(verdicts: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven plans, of which one can't be read and two are wrong in the same way, without a name of their own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(verdicts))
    monkeypatch.setenv("LOCALAPPDATA", str(verdicts))
    nameless = WRONG.partition("\n")[2]
    texts = [RIGHT, WRONG, nameless, "supply PS 12\n", RIGHT, nameless, RIGHT]
    for number, text in enumerate(texts):
        write(f"props/{number}.plan", text)


def shards(of: int) -> list[str]:
    """The reports of so many jobs."""
    files = [f"{number}.json" for number in range(1, of + 1)]
    for number, file in enumerate(files, 1):
        main(["check", "--shard", f"{number}/{of}", "--format", f"json={file}", "props"])
    return files


def without_times(text: str) -> object:
    """A JSON report in which nothing differs from run to run."""
    report = json.loads(text)
    return report | {"plans": [plan | {"seconds": 0} for plan in report["plans"]]}


@pytest.mark.parametrize("of", [1, 3, 9])
def test_joined_shards_are_the_report_of_the_whole(of: int, capsys: pytest.CaptureFixture[str]) -> None:
    """In every format, with the same exit status, and fingerprints that no two findings share."""
    assert main(["check", "props"]) == 2
    whole = capsys.readouterr()
    main(["check", "--format", "json", "props"])
    whole_json = capsys.readouterr().out
    files = shards(of)
    capsys.readouterr()
    assert main(["join", *reversed(files)]) == 2
    joined = capsys.readouterr()
    assert (joined.out, joined.err) == (whole.out, whole.err)
    main(["join", *files, "--format", "json"])
    joined_json = capsys.readouterr().out
    assert without_times(joined_json) == without_times(whole_json)


def test_every_plan_is_in_one_shard() -> None:
    """None is left out, none is checked twice."""
    reports = [json.loads(Path(file).read_text(encoding="utf-8")) for file in shards(3)]
    files = [plan["file"] for report in reports for plan in report["plans"]]
    files += [problem["plan"] for report in reports for problem in report.get("problems", [])]
    assert sorted(Path(file).stem for file in files) == ["0", "1", "2", "3", "4", "5", "6"]


def test_a_baseline_is_met_over_the_whole_library() -> None:
    """Two findings that are alike in two shards are two."""
    Path("props/3.plan").unlink()
    assert main(["check", "props", "--write-baseline", "old.json"]) == 0
    assert main(["join", *shards(2), "--baseline", "old.json"]) == 0
    write("props/7.plan", WRONG.partition("\n")[2])
    assert main(["join", *shards(2), "--baseline", "old.json"]) == 1


def test_a_missing_shard_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """A job that got lost must not look like plans without findings."""
    files = shards(3)
    capsys.readouterr()
    assert main(["join", files[0], files[2]]) == 2
    assert capsys.readouterr() == ("", "circuitcheck: of 3 shards 2 is missing\n")
    assert main(["join", files[0], files[0], files[1]]) == 2
    assert "are not the shards of one run" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"schema": "circuitcheck/1", "plans": [{}]}'])
def test_what_is_no_report_is_told(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    """With its name."""
    write("1.json", text)
    assert main(["join", "1.json"]) == 2
    assert capsys.readouterr().err.startswith("circuitcheck: 1.json is no ")


@pytest.mark.parametrize("part", ["0/2", "3/2", "1", "1/", "a/b", "-1/2", "1/0"])
def test_a_part_that_makes_no_sense_is_a_wrong_call(part: str) -> None:
    """Numbers count from 1 up to how many there are."""
    with pytest.raises(SystemExit) as ended:
        main(["check", f"--shard={part}", "props"])
    assert ended.value.code == 2


@pytest.mark.parametrize(
    ("place", "odd"),
    [
        (("plans", 1, "findings", 0, "path"), [1]),
        (("plans", 1, "findings", 0, "where", 0, "line"), "1"),
        (("plans", 1, "findings", 0, "severity"), "fatal"),
        (("plans", 1, "findings", 0, "example"), []),
        (("plans", 1, "combinations"), True),
        (("plans", 1, "seconds"), None),
        (("plans",), {}),
        (("problems", 0, "plan"), None),
        (("shard", "of"), 10**9),
        (("shard",), [1, 1]),
    ],
)
def test_a_report_that_somebody_has_changed_is_told(
    place: tuple[str | int, ...], odd: object, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever stands where something else should."""
    (file,) = shards(1)
    report = json.loads(Path(file).read_text(encoding="utf-8"))
    *way, last = place
    inside = report
    for step in way:
        inside = inside[step]
    inside[last] = odd
    Path(file).write_text(json.dumps(report), encoding="utf-8")
    capsys.readouterr()
    assert main(["join", file]) == 2
    assert capsys.readouterr().err == f"circuitcheck: {file} is no report of this version of circuitcheck\n"


def test_brackets_without_end_are_no_json(capsys: pytest.CaptureFixture[str]) -> None:
    """Neither as a report nor as a baseline."""
    Path("deep.json").write_text("[" * 100_000, encoding="utf-8")
    assert main(["join", "deep.json"]) == 2
    assert main(["check", "--baseline", "deep.json", "props"]) == 2
    told = capsys.readouterr().err
    assert told.startswith("circuitcheck: deep.json is no JSON\n")
    assert "deep.json is no baseline" in told
