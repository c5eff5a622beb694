"""The outputs of a comparison, and the command as it is called."""

import json
from itertools import combinations_with_replacement
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from circuitcheck.cli import main
from circuitcheck.reports.compare_asking import compared
from circuitcheck.reports.compare_formats import compare_json, compare_markdown
from circuitcheck.reports.compare_text import compare_lines
from circuitcheck.reports.styled import plain_text
from tests.reports.goldens import CURTAIN, UNSEALED

ROOT = Path(__file__).parent.parent.parent
SCHEMA = ROOT / "circuitcheck" / "reports" / "compare.schema.json"
PLANS = sorted((ROOT / "examples").glob("*/*drawbridge*.plan"))
TIMER = "supply PS 12 V 1 A\nfuse F1 5 A\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\nlamp L1 12 V 2 W\n"
TIMER += "rung PS.+, F1, K1.A1-A2, PS.-\nrung F1.2, K1.15-18, L1, PS.-\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with plans that differ and a slip."""
    monkeypatch.chdir(tmp_path)
    plans = {
        "curtain": CURTAIN,
        "unsealed": UNSEALED,
        "renamed": CURTAIN.replace("K1", "KA"),
        "slip": "relay K1 spdt coil 12\n",
        "timer": TIMER,
        "slower": TIMER.replace("3 s", "30 s"),
    }
    for name, text in plans.items():
        Path(f"{name}.plan").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("old", "new", "status"),
    [
        ("curtain", "curtain", 0),
        ("curtain", "renamed", 0),
        ("curtain", "unsealed", 1),
        ("unsealed", "curtain", 1),
        ("timer", "slower", 1),
        ("curtain", "slip", 2),
        ("slip", "curtain", 2),
        ("nothing", "curtain", 2),
    ],
)
def test_the_exit_status_tells_whether_the_behaviour_is_the_same(old: str, new: str, status: int) -> None:
    """0: the same; 1: it differs; 2: one of the plans can't be read."""
    assert main(["compare", f"{old}.plan", f"{new}.plan"]) == status


@pytest.mark.parametrize("arguments", [[], ["curtain.plan"], ["curtain.plan", "renamed.plan", "--format", "csv"]])
def test_a_wrong_call_ends_with_2(arguments: list[str]) -> None:
    """Two plans are needed, and a format that there is."""
    with pytest.raises(SystemExit) as ended:
        main(["compare", *arguments])
    assert ended.value.code == 2


def test_what_cannot_be_decided_is_said_so(capsys: pytest.CaptureFixture[str]) -> None:
    """Two boxes of fifteen relays that all hang together have too many combinations: no verdict, status 2."""
    text = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, F1, PB1.13\n"
    text += "".join(f"relay K{n} dpdt coil 12 V 160 ohm\nrung PB1.14, K{n}.A1-A2, PS.-\n" for n in range(15))
    chain = ", ".join(f"K{n}.11-14" for n in range(15))
    Path("wide.plan").write_text(f"{text}rung F1.2, {chain}, L1, PS.-\n", encoding="utf-8")
    Path("wider.plan").write_text(f"{text}rung F1.2, {chain}, L1, PS.-\nwire K3.11 K3.14\n", encoding="utf-8")
    assert main(["compare", "wide.plan", "wider.plan"]) == 2
    assert "No verdict is given" in capsys.readouterr().err


@pytest.mark.parametrize("width", [40, 60, 80, 140])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    """Rows become sentences where a table has no room."""
    text = plain_text(compare_lines(compared("curtain.plan", "unsealed.plan", ()), width))
    assert [line for line in text.splitlines() if len(line) > width] == []


def test_json_keeps_what_its_schema_promises() -> None:
    """For every two of the drawbridges among the examples, and for timers."""
    validator = Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
    Draft202012Validator.check_schema(validator.schema)
    pairs = [*combinations_with_replacement(map(str, PLANS[::2]), 2), ("timer.plan", "slower.plan")]
    for old, new in pairs:
        found = json.loads(compare_json(compared(old, new, (ROOT / "examples",))))
        validator.validate(found)
        assert found["same"] == (old == new)


def test_every_output_for_reading_has_the_caution_and_none_says_that_anything_is_safe() -> None:
    """JSON has it in its schema."""
    found = compared("curtain.plan", "unsealed.plan", ())
    for text in (plain_text(compare_lines(found, 200)), compare_markdown(found), SCHEMA.read_text(encoding="utf-8")):
        assert "does not replace local electrical codes" in text
        assert "safe" not in text.lower()
