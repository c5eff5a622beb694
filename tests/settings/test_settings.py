"""Settings beside plans: where they are found, what they say, and how slips in them are told."""

from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.library.asking import plans_asked
from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.settings.finding import SettingsFinder
from tests.library.plans import RIGHT, WRONG, write


def refused(text: str, file: str = "circuitcheck.toml") -> str:
    """What is told of these settings."""
    write(file, text)
    with pytest.raises(LibraryAmiss) as told:
        SettingsFinder().settings_for("a.plan")
    return str(told.value)


def test_the_nearest_settings_hold_alone() -> None:
    """Those of the plan's own folder; what lies above is not read as well."""
    write("circuitcheck.toml", 'fail-on = "error"\n[checks]\nidle-contact = false\n')
    write("old/pyproject.toml", '[tool.circuitcheck]\nfail-on = "note"\n')
    (near,) = plans_asked(["old/deep/a.plan"])
    (above,) = plans_asked(["new/a.plan"])
    assert (near.failing, near.off) == (("error", "warning", "note"), ())
    assert (above.failing, above.off) == (("error",), ("idle-contact",))


def test_a_pyproject_without_our_table_is_passed_by() -> None:
    """The search goes on upward."""
    write("circuitcheck.toml", 'fail-on = "error"\n')
    write("props/pyproject.toml", "[project]\nname = nothing that we have to understand\n")
    assert SettingsFinder().settings_for("props/a.plan").fail_on == "error"


def test_nothing_is_read_above_the_repository() -> None:
    """What lies outside has no say in it."""
    write("circuitcheck.toml", 'fail-on = "error"\n')
    Path("inner/.git").mkdir(parents=True)
    assert SettingsFinder().settings_for("inner/a.plan").fail_on == ""


def test_checks_are_on_or_off_by_path_and_the_last_word_holds() -> None:
    """A pattern fits paths from the settings' folder; a folder stands for all within it."""
    write(
        "circuitcheck.toml",
        '[checks]\nidle-contact = false\n[paths."old"]\ndead-part = false\n'
        '[paths."old/*lamp*.plan"]\nidle-contact = true\ndead-part = true\n',
    )
    asked = plans_asked(["a.plan", "old/door.plan", "old/red/lamps.plan", "older/a.plan"])
    assert [one.off for one in asked] == [("idle-contact",), ("dead-part", "idle-contact"), (), ("idle-contact",)]


def test_a_check_that_is_off_finds_nothing_and_claims_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """It is not among what was proved either."""
    write("gong.plan", WRONG)
    assert main(["check", "gong.plan"]) == 1
    write("circuitcheck.toml", "[checks]\nunbraked-stop = false\n")
    capsys.readouterr()
    assert main(["check", "gong.plan"]) == 0
    assert "unbraked-stop" not in capsys.readouterr().out


def test_the_failing_severity_of_the_call_goes_before_that_of_the_settings() -> None:
    """`--fail-on` is nearer to whoever asks."""
    write("circuitcheck.toml", 'fail-on = "error"\n')
    write("lamps.plan", RIGHT + "lamp L2 12 V 2 W\n")
    assert main(["check", "lamps.plan"]) == 0
    assert main(["check", "--fail-on", "warning", "lamps.plan"]) == 1


def test_shared_folders_are_named_from_where_the_settings_lie() -> None:
    """For every command that reads plans."""
    write("parts/lamps.plan", "type spot lamp 12 V 2 W\n")
    write("props/a.plan", 'use "../parts/lamps.plan"\n' + RIGHT.replace("lamp L1 12 V 2 W", "lamp L1 as spot"))
    assert main(["check", "props/a.plan"]) == 2
    write("circuitcheck.toml", 'library = ["parts"]\n')
    assert main(["check", "props/a.plan"]) == 0
    assert main(["table", "props/a.plan"]) == 0


def test_settings_cannot_open_folders_outside_their_repository(tmp_path_factory: pytest.TempPathFactory) -> None:
    """A plan from somebody else would else bring its own leave to read everything."""
    outside = tmp_path_factory.mktemp("outside")
    assert "a folder of this repository" in refused(f"library = ['{outside}']\n")
    assert "a folder of this repository" in refused('library = [".."]\n')


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('fail-onn = "error"\n', "circuitcheck.toml: no setting fail-onn. Nearest: fail-on."),
        ('fail-on = "never"\n', "fail-on is 'never' where one of error, warning, note is expected"),
        ("fail-on = 3\n", "fail-on is 3 where one of error, warning, note is expected"),
        ("checks = 3\n", "checks is 3 where a table is expected"),
        ("[checks]\nidle-contacts = false\n", "no check checks.idle-contacts. Nearest: idle-contact."),
        ('[checks]\nidle-contact = "off"\n', "checks.idle-contact is 'off' where true or false is expected"),
        ('[paths."old"]\nidle-kontact = true\n', 'no check paths."old".idle-kontact. Nearest: idle-contact.'),
        ("[paths]\nold = 1\n", 'paths."old" is 1 where a table is expected'),
        ('library = "parts"\n', "library is 'parts' where a list of texts is expected"),
        ("library = [1]\n", "library is [1] where a list of texts is expected"),
        ('library = ["nowhere"]\n', "library is 'nowhere' where a folder that is there is expected"),
        ("fail-on = \n", "circuitcheck.toml is no TOML: "),
    ],
)
def test_a_slip_in_settings_is_told_with_file_and_key(text: str, told: str) -> None:
    """What stands there, what is expected, and the nearest known word."""
    assert told in refused(text)


def test_a_slip_in_a_pyproject_is_told_with_the_whole_key() -> None:
    """As it would be written in one line."""
    told = refused("[tool.circuitcheck]\nfail-om = 1\n", "pyproject.toml")
    assert told.startswith("pyproject.toml: no setting tool.circuitcheck.fail-om. Nearest: fail-on.")
    told = refused("[tool]\ncircuitcheck = 1\n", "pyproject.toml")
    assert told == "pyproject.toml: tool.circuitcheck is 1 where a table is expected"


def test_wrong_settings_end_the_call_with_2(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is checked by settings that may mean something else."""
    write("a.plan", RIGHT)
    write("circuitcheck.toml", "fale-on = 1\n")
    assert main(["check", "a.plan"]) == 2
    assert capsys.readouterr().err == "circuitcheck: circuitcheck.toml: no setting fale-on. Nearest: fail-on.\n"


def test_without_a_repository_only_the_folder_of_the_settings_may_be_opened(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """Nothing says how far up a box of plans goes."""
    folder = tmp_path_factory.mktemp("alone")
    (folder / "plans" / "parts").mkdir(parents=True)
    for library, allowed in (("parts", True), ("..", False)):
        settings = folder / "plans" / "circuitcheck.toml"
        settings.write_text(f'library = ["{library}"]\n', encoding="utf-8")
        plan = str(folder / "plans" / "a.plan")
        if allowed:
            assert SettingsFinder().settings_for(plan).roots == (folder / "plans" / "parts",)
        else:
            with pytest.raises(LibraryAmiss, match="a folder of this repository"):
                SettingsFinder().settings_for(plan)
