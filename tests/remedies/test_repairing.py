"""Remedies: each is tried, none changes what the prop does unasked, and the text shows what was meant."""

from functools import partial
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.examination import examine, examine_plan
from circuitcheck.plan.reading import read_text
from circuitcheck.remedies.repairing import Offer, repaired, text_after
from circuitcheck.remedies.trying import PROPOSALS

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
LATCH = """\
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
solenoid Y1 12 V 12 ohm
"""
JAW = """\
supply PS 12 V 10 A
fuse   F1 10 A
button PB1 spdt
relay  K1 spdt 30 A coil 12 V 90 ohm with diode
relay  K2 spdt 30 A coil 12 V 90 ohm with diode
axis   jaw from shut to open
limit  LS1 {form} on jaw at open
limit  LS2 nc on jaw at shut
motor  M1 12 V stall 18 A drives jaw toward open
rung   PS.+, F1, PB1.11
rung   PB1.14, {way}, K1.A1-A2, PS.-
rung   PB1.12, LS2.com-nc, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
wire   K1.12 PS.-
wire   K2.12 PS.-
"""


read = partial(read_text, "a.plan")


def offers_for(text: str, *wanted: int) -> tuple[Offer, ...]:
    """The remedies for a plan's text; wanted: those that are made though they change something."""
    return repaired(examine_plan(read(text), 0.0), read, frozenset(wanted))


def after(text: str, *wanted: int) -> str:
    """The text with all that is made."""
    return text_after(examine_plan(read(text), 0.0), offers_for(text, *wanted))


def difference(old: str, new: str) -> list[str]:
    """Lines that only one has, with - or + before them."""
    before, behind = old.splitlines(), new.splitlines()
    return [f"-{one}" for one in before if one not in behind] + [f"+{one}" for one in behind if one not in before]


def test_a_bare_coil_gets_a_diode_with_its_cathode_at_the_positive_end() -> None:
    """Described below the coil's part, wired below the last rung of it; nothing of the behaviour changes."""
    text = LATCH + "rung   PS.+, F1, PB1, Y1.2-1, PS.-\nlamp L1 12 V 2 W\nrung F1.2, L1, PS.-\n"
    offer, *others = offers_for(text)
    assert others == []
    assert offer.made
    assert offer.tried.remedy.title == "put a diode D1 across Y1, its cathode at Y1.2"
    lines = offer.tried.text.splitlines()
    assert lines[4] == 'diode  D1 "across Y1"'
    assert lines[6] == "rung   Y1.1, D1, Y1.2"


def test_several_coils_get_diodes_of_different_names() -> None:
    """Each is tried on the plan as the one before left it; D1 is taken already."""
    text = LATCH + (
        "solenoid Y2 12 V 12 ohm\ndiode  D1\nlamp   L1 12 V 2 W\n"
        "rung   PS.+, F1, PB1, Y1, PS.-\nrung   F1.2, Y2, PS.-\nrung   PB1.14, D1, L1, PS.-\n"
    )
    assert difference(text, after(text)) == [
        '+diode  D2 "across Y1"',
        '+diode  D3 "across Y2"',
        "+rung   Y1.2, D2, Y1.1",
        "+rung   Y2.2, D3, Y2.1",
    ]


def test_a_coil_fed_with_both_polarities_gets_a_varistor() -> None:
    """A diode would conduct whenever it is fed the other way."""
    text = """\
supply PS 12 V 10 A
fuse   F1 3 A
switch S1 dpdt positions pull off push
solenoid Y1 12 V 12 ohm
rung   PS.+, F1, S1.pull1
rung   F1.2, S1.push2
rung   PS.-, S1.push1
rung   PS.-, S1.pull2
rung   S1.com1, Y1, S1.com2
"""
    assert difference(text, after(text)) == ['+suppressor V1 varistor "across Y1"', "+rung   Y1.2, V1, Y1.1"]


@pytest.mark.parametrize(
    ("wired", "changed"),
    [
        ("rung   Y1.1, D1, Y1.2", ["-rung   Y1.1, D1, Y1.2", "+rung   Y1.2, D1, Y1.1"]),
        ("rung   Y1.1, D1.anode-cathode, Y1.2",
         ["-rung   Y1.1, D1.anode-cathode, Y1.2", "+rung   Y1.2, D1.anode-cathode, Y1.1"]),
        ("wire   Y1.1 D1.anode\nwire   Y1.2 D1.cathode",
         ["-wire   Y1.1 D1.anode", "-wire   Y1.2 D1.cathode", "+wire   Y1.1 D1.cathode", "+wire   Y1.2 D1.anode"]),
        ("rung   PB1.14, Y1.1, D1, Y1.2",
         ["-rung   PB1.14, Y1.1, D1, Y1.2", "+rung   PB1.14, Y1.1, D1.cathode-anode, Y1.2"]),
        ("rung   Y1.2, D1.cathode-anode, Y1.1, PB1.14",
         ["-rung   Y1.2, D1.cathode-anode, Y1.1, PB1.14", "+rung   Y1.2, D1, Y1.1, PB1.14"]),
    ],
)  # fmt: skip
def test_a_reversed_diode_is_turned_round_wherever_it_is_wired(wired: str, changed: list[str]) -> None:
    """It shorts the supply as it is, so that turning it round changes something, and has to be asked for."""
    text = LATCH + f"diode  D1\nrung   PS.+, F1, PB1, Y1, PS.-\n{wired}\n"
    assert [(one.made, one.tried.changes) for one in offers_for(text)] == [(False, "whether a supply is shorted")]
    assert after(text) == text
    assert difference(text, after(text, 1)) == changed


def test_a_diode_built_into_a_relay_is_turned_by_changing_its_wires_over() -> None:
    """The relay is as it is: A1 has to be the positive end."""
    text = """\
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
relay  K1 spdt coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, K1.A2-A1, PS.-
rung   F1.2, K1.11-14, L1, PS.-
"""
    assert difference(text, after(text, 1)) == [
        "-rung   PS.+, F1, PB1, K1.A2-A1, PS.-",
        "+rung   PS.+, F1, PB1, K1.A1-A2, PS.-",
    ]


def test_a_coil_in_a_module_of_the_plan_gets_its_diode_there() -> None:
    """Once, though the module is fitted twice; names are those of the module's inside, and it stays set in."""
    text = """\
module Latch
  port   plus minus
  solenoid Y1 12 V 12 ohm
  rung   plus, Y1, minus
end

supply PS 12 V 10 A
fuse   F1 5 A
button PB1 PB2 no
fit    R1 Latch : plus PB1.14, minus PS.-
fit    R2 Latch : plus PB2.14, minus PS.-
rung   PS.+, F1, PB1.13
rung   F1.2, PB2.13
"""
    changed = after(text)
    assert difference(text, changed) == ['+  diode  D1 "across Y1"', "+  rung   Y1.2, D1, Y1.1"]
    assert examine_plan(read(changed), 0.0).findings == ()


@pytest.mark.parametrize(
    ("form", "way", "changed"),
    [
        ("spdt", "LS1.com-no",
         ["-rung   PB1.14, LS1.com-no, K1.A1-A2, PS.-", "+rung   PB1.14, LS1.com-nc, K1.A1-A2, PS.-"]),
        ("no", "LS1.com-no", [
            "-limit  LS1 no on jaw at open", "-rung   PB1.14, LS1.com-no, K1.A1-A2, PS.-",
            "+limit  LS1 nc on jaw at open", "+rung   PB1.14, LS1.com-nc, K1.A1-A2, PS.-",
        ]),
        ("no", "LS1", ["-limit  LS1 no on jaw at open", "+limit  LS1 nc on jaw at open"]),
    ],
)  # fmt: skip
def test_a_limit_is_moved_to_its_normally_closed_contact(form: str, way: str, changed: list[str]) -> None:
    """In series with the drive, where it has to open. The jaw moves otherwise then: it has to be asked for."""
    text = JAW.format(form=form, way=way)
    (offer,) = offers_for(text)
    assert not offer.made
    assert "what M1 does" in offer.tried.changes
    assert after(text) == text
    assert difference(text, after(text, 1)) == changed


def test_a_remedy_that_puts_nothing_right_is_not_offered() -> None:
    """A limit that pulls in a relay to stop the jaw: on its other contact it would stop it everywhere else."""
    plan = EXAMPLES / "wrong" / "jaw_limit_must_close.plan"
    assert repaired(examine(plan), partial(read_text, str(plan)), frozenset()) == ()


@pytest.mark.parametrize("plan", sorted((EXAMPLES / "wrong").glob("*.plan")), ids=lambda path: path.stem)
def test_no_repaired_example_has_a_finding_that_it_had_not_before(plan: Path) -> None:
    """And where something was made there are fewer of them."""
    roots = (EXAMPLES / "parts",)
    before = examine(plan, roots)
    offers = repaired(before, partial(read_text, str(plan), roots=roots), frozenset())
    text = text_after(before, offers)
    behind = examine_plan(read_text(str(plan), text, roots), 0.0)
    known = {(one.check, one.parts) for one in before.findings}
    assert [one for one in behind.findings if one.severity != "note" and (one.check, one.parts) not in known] == []
    assert len(behind.findings) == len(before.findings) - sum(offer.made for offer in offers)


def test_what_is_put_below_a_rung_that_goes_on_is_set_in_as_its_beginning_is() -> None:
    """Lines that go on may be set in by their writer as far as they like."""
    text = LATCH + "rung   PS.+, F1,\n         PB1, Y1, PS.-\n"
    assert difference(text, after(text)) == ['+diode  D1 "across Y1"', "+rung   Y1.2, D1, Y1.1"]


def test_every_check_that_has_remedies_exists() -> None:
    """A check that is renamed takes its remedies along."""
    from circuitcheck.checks.registry import all_checks

    assert set(PROPOSALS) <= {one.check.name for one in all_checks()}


def test_the_command_writes_only_what_it_may(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """1 while something is open, 0 when all is made; what changes the behaviour only by its number."""
    plan = tmp_path / "latch.plan"
    text = LATCH + "solenoid Y2 12 V 12 ohm\ndiode  D1\nrung   PS.+, F1, PB1, Y1, PS.-\nrung   Y1.1, D1, Y1.2\n"
    text += "button PB2 no\nrung   F1.2, PB2, Y2, PS.-\n"
    plan.write_text(text)
    assert main(["repair", str(plan)]) == 1
    assert plan.read_text() == text
    assert main(["repair", "--write", str(plan)]) == 1
    assert difference(text, plan.read_text()) == ['+diode  D2 "across Y2"', "+rung   Y2.2, D2, Y2.1"]
    assert main(["repair", "--write", "--take", "1", str(plan)]) == 0
    assert "rung   Y1.2, D1, Y1.1" in plan.read_text()
    assert main(["repair", str(plan)]) == 0
    assert main(["repair", "--take", "1", str(plan)]) == 2
    assert "there is no remedy 1" in capsys.readouterr().err
