"""What one file takes from another, and which files may be read at all."""

from pathlib import Path

import pytest

from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.plan.source import Problem
from tests.plan.told import problems_in

CUBE = "type cube12 relay spdt coil 12 V 90 ohm\n"


def write(folder: Path, files: dict[str, str]) -> Path:
    """Writes files and gives back the first."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return folder / next(iter(files))


def only_problem(folder: Path, files: dict[str, str], roots: tuple[Path, ...] = ()) -> Problem:
    (problem,) = problems_in(write(folder, files), roots)
    return problem


def test_a_used_file_gives_its_types_and_modules_and_those_it_uses(tmp_path: Path) -> None:
    """Paths lead from the file that they stand in."""
    plan = read_plan(write(tmp_path, {
        "jaw.plan": 'use "parts/relays.plan"\nrelay K1 as cube12',
        "parts/relays.plan": f'use "more/modules.plan"\n{CUBE}',
        "parts/more/modules.plan": "module Latch\nport a\nend",
    }))  # fmt: skip
    assert (list(plan.types), list(plan.modules), len(plan.statements)) == (["cube12"], ["Latch"], 1)
    assert [Path(source.file).name for source in plan.sources] == ["jaw.plan", "relays.plan", "modules.plan"]
    assert plan.types["cube12"].place.file == str(tmp_path / "parts/relays.plan")


def test_a_file_used_on_two_ways_is_read_once(tmp_path: Path) -> None:
    """Its types don't clash with themselves, whatever way is written to it."""
    plan = read_plan(write(tmp_path, {
        "jaw.plan": 'use "a.plan"\nuse "b.plan"\nuse "./parts/../c.plan"',
        "a.plan": 'use "c.plan"', "b.plan": 'use "c.plan"', "c.plan": CUBE, "parts/empty.plan": CUBE,
    }))  # fmt: skip
    assert len(plan.sources) == 4


def test_a_text_uses_files_beside_the_name_it_is_given(tmp_path: Path) -> None:
    """The named file itself need not exist."""
    write(tmp_path, {"relays.plan": CUBE})
    assert list(read_text(str(tmp_path / "new.plan"), 'use "relays.plan"').types) == ["cube12"]


@pytest.mark.parametrize(
    ("way", "what"),
    [
        ("/etc/passwd", "\"/etc/passwd\" doesn't start from this file's folder"),
        ("C:/parts.plan", "\"C:/parts.plan\" doesn't start from this file's folder"),
        ("~/parts.plan", "\"~/parts.plan\" doesn't start from this file's folder"),
        ("parts\\relays.plan", '"parts\\relays.plan" holds a backslash'),
        ("../secret.plan", '"../secret.plan" lies outside the folder of this plan'),
        ("parts/../../secret.plan", '"parts/../../secret.plan" lies outside the folder of this plan'),
        (" ", "a use of nothing"),
        ("jaw.plan", '"jaw.plan" uses itself'),
        ("parts", "parts is a folder"),
        ("latin.plan", "the byte FC is not UTF-8 in latin.plan, line 1, column 3"),
        ("relais.plan", "no file relais.plan"),
    ],
)
def test_a_way_that_must_not_or_cannot_be_followed_is_told_where_it_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, way: str, what: str
) -> None:
    """The path in quotes is the place."""
    write(tmp_path, {"secret.plan": CUBE, "props/parts/relays.plan": CUBE})
    (tmp_path / "props/latin.plan").write_bytes(b"# \xfc")
    monkeypatch.chdir(tmp_path / "props")
    Path("jaw.plan").write_text(f'use "{way}"')
    (problem,) = problems_in(Path("jaw.plan"))
    assert (problem.place.line, problem.what) == (1, what)
    assert problem.place.column in (1, 5)


def test_a_missing_file_has_the_nearest_plan_of_its_folder(tmp_path: Path) -> None:
    """Only names that end in .plan are offered."""
    files = {"jaw.plan": 'use "parts/relay.plan"', "parts/relays.plan": CUBE, "parts/relay.txt": ""}
    assert only_problem(tmp_path, files).help == "Nearest in that folder: relays.plan."


def test_a_link_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    """Symbolic links count by where they end, of files and of folders."""
    write(tmp_path, {"secret/relays.plan": CUBE, "props/jaw.plan": 'use "parts/relays.plan"\nuse "relays.plan"'})
    (tmp_path / "props/parts").symlink_to(tmp_path / "secret", target_is_directory=True)
    (tmp_path / "props/relays.plan").symlink_to(tmp_path / "secret/relays.plan")
    problems = problems_in(tmp_path / "props/jaw.plan")
    assert [problem.what for problem in problems] == [
        '"parts/relays.plan" lies outside the folder of this plan',
        '"relays.plan" lies outside the folder of this plan',
    ]


def test_a_link_that_leads_to_itself_is_told(tmp_path: Path) -> None:
    """Newer systems of Python follow it to nothing, older ones refuse it."""
    (tmp_path / "loop.plan").symlink_to(tmp_path / "loop.plan")
    problem = only_problem(tmp_path, {"jaw.plan": 'use "loop.plan"'})
    assert "leads nowhere" in problem.what or "no file" in problem.what or "can't be read" in problem.what


def test_a_declared_folder_of_shared_parts_may_be_used(tmp_path: Path) -> None:
    """Only the folders that were declared, not their neighbours."""
    top = write(tmp_path, {
        "props/jaw.plan": 'use "../shared/relays.plan"', "shared/relays.plan": 'use "../other/more.plan"',
        "other/more.plan": CUBE,
    })  # fmt: skip
    (problem,) = problems_in(top, (tmp_path / "shared",))
    assert problem.what == '"../other/more.plan" lies outside the folder of this plan'
    assert problems_in(top, (tmp_path / "shared", tmp_path / "other")) == ()


def test_files_that_use_each_other_are_told_with_the_way_round(tmp_path: Path) -> None:
    """Every `use` on the way round is shown."""
    problem = only_problem(tmp_path, {
        "jaw.plan": 'use "a.plan"', "a.plan": f'{CUBE}use "b.plan"', "b.plan": 'use "c.plan"',
        "c.plan": '\nuse "a.plan"',
    })  # fmt: skip
    assert problem.what == '"a.plan" is used by a file that it uses itself'
    assert (Path(problem.place.file).name, problem.place.line) == ("c.plan", 2)
    assert [(Path(place.file).name, place.line) for place, _ in problem.also] == [("a.plan", 2), ("b.plan", 1)]


@pytest.mark.parametrize(
    ("used", "what", "line"),
    [
        ("plan Parts\n" + CUBE, "a title in a file that is used", 1),
        (CUBE + "fuse F1 5 A\nwire F1.1 F1.2\nrung A, B", "a fuse and 2 more in a file that is used", 2),
        ("expect M1 braked", "a promise in a file that is used", 1),
        ("conditions ambient 5 °C", "conditions in a file that is used", 1),
    ],
)
def test_a_used_file_holds_nothing_of_its_own(tmp_path: Path, used: str, what: str, line: int) -> None:
    """It would be lost without a word otherwise. The place of the use is shown as well."""
    problem = only_problem(tmp_path, {"jaw.plan": 'use "parts.plan"', "parts.plan": used})
    assert (problem.what, problem.place.line) == (what, line)
    assert [(Path(place.file).name, sentence) for place, sentence in problem.also] == [("jaw.plan", "It is used here.")]


def test_names_of_two_files_may_not_clash(tmp_path: Path) -> None:
    """Both places are told, each in its file."""
    problem = only_problem(tmp_path, {"jaw.plan": f'use "a.plan"\n{CUBE}', "a.plan": CUBE})
    assert problem.what == "a second type named cube12"
    assert (Path(problem.place.file).name, Path(problem.also[0][0].file).name) == ("a.plan", "jaw.plan")


def test_the_problems_of_all_files_are_told_in_one_run(tmp_path: Path) -> None:
    """File by file as they were read, and by line within a file."""
    problems = problems_in(write(tmp_path, {
        "jaw.plan": 'use "a.plan"\nrely K1\nuse "b.plan"', "a.plan": "type x relais\ntype y lamp 0,5 A",
        "b.plan": "end",
    }))  # fmt: skip
    assert [(Path(one.place.file).name, one.place.line) for one in problems] == [
        ("jaw.plan", 2), ("a.plan", 1), ("a.plan", 2), ("b.plan", 1),
    ]  # fmt: skip


def test_files_may_use_files_twenty_deep_and_two_hundred_in_all(tmp_path: Path) -> None:
    """What goes further is refused at the `use` that does."""
    chain = {f"{number}.plan": f'use "{number + 1}.plan"' for number in range(22)} | {"22.plan": CUBE}
    assert only_problem(tmp_path, chain).what == "files that use files, more than 20 deep"
    wide = {"top.plan": "\n".join(f'use "w{number}.plan"' for number in range(200))}
    wide |= {f"w{number}.plan": f"type t{number} relay" for number in range(200)}
    problem = only_problem(tmp_path, wide)
    assert (problem.what, problem.place.line) == ("more than 200 files in one plan", 200)
