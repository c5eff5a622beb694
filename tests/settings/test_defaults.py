"""Defaults of a library: what plans take that don't say, what goes before them, and that reports tell of it."""

import json
from pathlib import Path

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.cli import main
from circuitcheck.examination import read_input
from circuitcheck.library.asking import plans_asked
from circuitcheck.library.cache import Cache
from circuitcheck.library.checking import check_all
from circuitcheck.library.verdict import Verdict
from tests.library.plans import RIGHT, write
from tests.settings.test_settings import refused

WARM_COIL = """\
supply PS 10 V
fuse   F1 5 A
button PB1 no
relay  K1 spdt coil 10 V 160 ohm operate 8.5 V with diode
lamp   L1 10 V 2 W
wire   PS.+ F1.1 : 0.22 mm2 20 m
rung   F1.2, PB1, K1.A1-A2, PS.-
rung   F1.2, K1.11-14, L1, PS.-
"""
"""Its relay operates at 20 °C, and no longer with copper at 80 °C and a supply of 10 ohm."""


def circuit_of(text: str) -> Circuit:
    """The circuit of this plan, beside the settings of the test."""
    return build_circuit(read_input(write("a.plan", text)))


def test_a_supply_takes_what_it_does_not_say() -> None:
    """Figure by figure: what the plan or the part's type says goes first."""
    write("circuitcheck.toml", '[defaults]\nsupply = "12 V 10 A internal 50 mohm limit 12 A"\n')
    plan = "type brick supply 24 V 5 A\nsupply PS internal 80 mohm\nsupply PT as brick limit 6 A\n"
    first, second = circuit_of(plan).supplies
    assert (first.volts, first.amps, first.internal_ohms, first.limit_amps) == (12, 10, 0.08, 12)
    assert (second.volts, second.amps, second.internal_ohms, second.limit_amps) == (24, 5, 0.05, 6)


def test_the_ambient_counts_where_no_conditions_tell_one() -> None:
    """With other conditions, or without any; not where the plan has its own."""
    write("circuitcheck.toml", '[defaults]\nambient = "-5..35 °C"\n')
    assert circuit_of(RIGHT).conditions.ambient_celsius == (-5, 35)
    assert circuit_of(RIGHT + "conditions bundled 3 wires\n").conditions.ambient_celsius == (-5, 35)
    assert circuit_of(RIGHT + "conditions ambient 0..20 °C\n").conditions.ambient_celsius == (0, 20)


def test_a_plan_without_settings_takes_nothing() -> None:
    """No figure is guessed."""
    circuit = circuit_of(RIGHT)
    assert (circuit.conditions.ambient_celsius, circuit.defaulted) == (None, ())


def test_check_judges_by_the_defaults_and_tells_them(capsys: pytest.CaptureFixture[str]) -> None:
    """A coil that gets its volts when cold, and not on a hot day from a soft supply."""
    write("a.plan", WARM_COIL)
    assert main(["check", "a.plan"]) == 0
    write("circuitcheck.toml", '[defaults]\nambient = "5..80 °C"\nsupply = "internal 10 ohm"\n')
    capsys.readouterr()
    assert main(["check", "a.plan"]) == 1
    told = capsys.readouterr().out
    assert "starved-coil" in told
    assert "by default  conditions: ambient 5..80 °C (from circuitcheck.toml)" in told
    assert "by default  PS: internal 10 ohm (from circuitcheck.toml)" in told
    main(["check", "--format", "json", "a.plan"])
    (plan,) = json.loads(capsys.readouterr().out)["plans"]
    assert plan["defaults"][1] == "PS: internal 10 ohm (from circuitcheck.toml)"


def test_other_defaults_have_the_plan_examined_anew() -> None:
    """What is kept belongs to the plan with just these defaults."""
    write("a.plan", WARM_COIL)

    def found() -> list[str]:
        (outcome,) = check_all(plans_asked(["a.plan"]), Cache(Path(".cache")), lambda *_: None)
        assert isinstance(outcome, Verdict)
        return [finding.check for finding in outcome.findings]

    assert found() == []
    write("circuitcheck.toml", '[defaults]\nambient = "5..80 °C"\nsupply = "internal 10 ohm"\n')
    assert found() == found() == ["starved-coil"]
    write("circuitcheck.toml", '[defaults]\nambient = "5..20 °C"\n')
    assert found() == found() == []


@pytest.mark.parametrize(("table", "sizes"), [("IEC 60204-1", "0.75 mm²"), ("33 CFR 183.425", "18 AWG")])
def test_sizes_are_proposed_from_the_table_that_is_named(
    table: str, sizes: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A group that buys wire by one system isn't told sizes of the other; how a gauge is written still decides."""
    write("a.plan", RIGHT.replace("L1 12 V 2 W", "L1 12 V 48 W"))
    main(["size", "a.plan"])
    assert "take 0.75 mm² or 18 AWG or thicker" in capsys.readouterr().out
    write("circuitcheck.toml", f'[defaults]\ntable = "{table}"\n')
    main(["size", "a.plan"])
    told = capsys.readouterr().out
    assert f"take {sizes} or thicker" in told
    assert f"table {table} (circuitcheck.toml, settings)" in " ".join(told.split())


def test_motion_takes_the_defaults_and_tells_them(capsys: pytest.CaptureFixture[str]) -> None:
    """As one of the things that are taken for granted."""
    write("a.plan", (Path(__file__).parents[2] / "examples/right/lighthouse_shutter.plan").read_text("utf-8"))
    write("circuitcheck.toml", '[defaults]\nsupply = "internal 50 mohm"\n')
    main(["motion", "a.plan"])
    assert "internal 50 mohm (from circuitcheck.toml)" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ambiant = 3", "no default defaults.ambiant. Nearest: ambient."),
        ("ambient = 3", "defaults.ambient is 3 where a text is expected"),
        ('ambient = "warm"', "defaults.ambient is 'warm' where a temperature like \"5..35 °C\" is expected"),
        ('ambient = "5..900 °C"', "circuitcheck.toml: defaults.ambient: "),
        ('supply = "10"', "defaults.supply is '10' where what a supply says"),
        ('supply = ""', "defaults.supply is '' where what a supply says"),
        ('supply = "inside 50 mohm"', "circuitcheck.toml: defaults.supply: "),
        ('supply = "10 Amps"', "circuitcheck.toml: defaults.supply: "),
        ('table = "IEC"', "defaults.table is 'IEC' where one of IEC 60204-1, 33 CFR 183.425 is expected"),
    ],
)
def test_a_slip_in_defaults_is_told_with_its_key(text: str, told: str) -> None:
    """In the words that a plan's own slip would be told in."""
    assert told in refused(f"[defaults]\n{text}\n")
