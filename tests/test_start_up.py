"""What a command loads: start-up time is a feature, and what is loaded is most of it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

PLAN = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions raise lower
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
rung   PS.+, F1, S1.com-raise, K1.A1-A2, PS.-
rung   F1.2, K1.11-14, M1, PS.-
wire   K1.12 PS.-
"""
ALLOWED = {
    "argparse",
    "gettext",
    "locale",
    "pathlib",
    "fnmatch",
    "ntpath",
    "urllib",
    "ipaddress",
    "getpass",
    "ast",
    "gc",
}
"""What the tool itself may load of the standard library, besides what lark brings along and compiled parts ("_locale").

Anything else costs every user its milliseconds at every run: load it where it is used, or add it here and say why.
"""
TEXT = "circuitcheck.reports.findings_text"
PROGRAM = """
import sys
{first}
before = set(sys.modules)
from circuitcheck.cli import main
try:
    main({arguments!r})
except SystemExit:
    pass
print()
print(*sorted(set(sys.modules) - before))
"""


def loaded(arguments: list[str], folder: Path, first: str = "") -> set[str]:
    """The modules that a command loads, besides those that `first` has loaded before."""
    program = PROGRAM.format(first=first, arguments=arguments)
    environment = os.environ | {"PYTHONPATH": str(Path(__file__).parent.parent)}
    command = [sys.executable, "-c", program]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a plan."""
    (tmp_path / "curtain.plan").write_text(PLAN, encoding="utf-8")
    return tmp_path


def test_a_check_into_a_pipe_loads_little_besides_lark(folder: Path) -> None:
    """Neither networkx nor rich, nor anything slow of the standard library."""
    modules = loaded(["check", "--no-cache", "curtain.plan"], folder, "import lark")
    assert "circuitcheck.checks.supply_short" in modules
    foreign = {name.split(".")[0] for name in modules} - {"circuitcheck", "encodings"}
    assert {name for name in foreign if not name.startswith("_")} <= ALLOWED


def test_a_plan_that_is_wide_loads_no_graph_library(folder: Path) -> None:
    """The drawbridge has pieces that are cut at single nets: that takes nothing from outside either."""
    drawbridge = Path(__file__).parent.parent / "examples" / "right" / "drawbridge.plan"
    modules = loaded(["check", "--no-cache", str(drawbridge)], folder, "import lark")
    assert "circuitcheck.analysis.buses" in modules
    assert "networkx" not in modules


def test_a_check_loads_nothing_of_the_tables_or_of_other_formats(folder: Path) -> None:
    """What one command or format needs, the others don't wait for."""
    modules = loaded(["check", "--no-cache", "curtain.plan"], folder, "import lark")
    others = {"circuitcheck.analysis.table", "circuitcheck.reports.findings_json", "circuitcheck.reports.explaining"}
    others |= {"circuitcheck.analysis.tracing", "circuitcheck.circuit.stories", "circuitcheck.reports.trace_asking"}
    assert modules & others == set()
    assert not any(name.startswith("circuitcheck.reports.findings_") for name in modules - {TEXT})
    assert not modules & {"circuitcheck.reports.notices", "junitparser"}
    assert not any(name.startswith("circuitcheck.analysis.motion") for name in modules)
    assert not any(name.startswith("circuitcheck.sizing") for name in modules)


def test_a_check_loads_nothing_of_real_currents_where_no_loads_meet(folder: Path) -> None:
    """Wires' resistances and the like are for plans that need them."""
    modules = loaded(["check", "curtain.plan"], folder, "import lark")
    assert (
        modules
        & {
            f"circuitcheck.analysis.{name}"
            for name in ("currents", "real_network", "regeneration", "series", "warm_coils")
        }
        == set()
    )


def test_a_plan_that_requires_nothing_of_a_faulty_box_loads_nothing_about_faults(folder: Path) -> None:
    """Whoever writes no `require` doesn't wait for what answers it."""
    faults = "circuitcheck.analysis.faults.verdicts"
    assert faults not in loaded(["check", "curtain.plan"], folder, "import lark")
    required = f"{PLAN}estop ES1 nc\nrequire ES1 works after one fault\n"
    (folder / "required.plan").write_text(required, encoding="utf-8")
    assert faults in loaded(["check", "required.plan"], folder, "import lark")


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"], ["check"]])
def test_help_comes_without_lark_and_without_the_engine(arguments: list[str], folder: Path) -> None:
    """Whoever asks what can be asked, or asks wrongly, is answered at once."""
    modules = loaded(arguments, folder)
    assert "lark" not in modules
    assert not any(name.startswith(("circuitcheck.analysis", "circuitcheck.checks")) for name in modules)


def test_an_explanation_reads_no_plan(folder: Path) -> None:
    """A check's page needs neither grammar nor parser."""
    assert "lark" not in loaded(["explain", "supply-short"], folder)


def test_a_verdict_that_is_kept_comes_without_lark_rich_and_the_engine(folder: Path) -> None:
    """Neither for one plan nor for several, clean or wrong, as text or as JSON."""
    (folder / "wrong.plan").write_text(PLAN.replace("K1.12 PS.-", "K1.12 PS.+"), encoding="utf-8")
    kept = ["check", "curtain.plan", "wrong.plan"]
    loaded(kept, folder)
    for arguments in (kept, kept[:2], [*kept, "--format", "json"]):
        modules = loaded(arguments, folder)
        assert {"lark", "rich", "tomllib", "subprocess", "multiprocessing"} & modules == set()
        assert not any(name.startswith(("circuitcheck.analysis", "circuitcheck.examination")) for name in modules)


def test_a_single_plan_starts_no_process(folder: Path) -> None:
    """What several plans need, one doesn't wait for."""
    assert {"multiprocessing", "subprocess", "tomllib"} & loaded(["check", "curtain.plan"], folder) == set()
