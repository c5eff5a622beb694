"""What is told of a part that is described otherwise than before."""

import pytest

from circuitcheck.analysis.changed_parts import changed_parts, changed_wires
from circuitcheck.analysis.matching import match_parts
from tests.analysis.plans import circuit_of


def changes(old: str, new: str) -> list[str]:
    """The details of every part that changed."""
    before, after = circuit_of(old), circuit_of(new)
    return [detail for part in changed_parts(before, after, match_parts(before, after)) for detail in part.details]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("fuse F1 5 A", "fuse F1 10 A", "5 A → 10 A"),
        ("strip X1 4 ways", "strip X1 6 ways", "ways 4 → 6"),
        ("motor M1 12 V free 40 rpm", "motor M1 12 V free 45 rpm", "free 40 rpm → 45 rpm"),
        ("motor M1 12 V stall 9 A 6 N m", "motor M1 12 V stall 9 A 8 N m", "stall 6 N m → 8 N m"),
        ("motor M1 12 V rotor 1 kg cm2", "motor M1 12 V rotor 2 kg cm2", "rotor 0.0001 kg m2 → 0.0002 kg m2"),
        ("axis a from b to c, drum 60 mm", "axis a from b to c, drum 70 mm", "drum 0.06 m → 0.07 m"),
    ],
)
def test_a_changed_figure_is_told_with_its_unit(old: str, new: str, told: str) -> None:
    """By what it is about, in SI units, whichever of several figures it is."""
    assert changes(old, new) == [told]


def test_a_coil_of_other_volts_is_told_though_its_resistance_stays() -> None:
    """Neither of two figures hides the other."""
    assert "coil 12 V → 6 V" in changes("relay K1 coil 12 V 90 ohm", "relay K1 coil 6 V 90 ohm")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("switch S1 spst positions off on", "switch S1 spst positions off run", ["positions off, on → off, run"]),
        ("axis a from b to c", "axis a from b to d", ["places b, c → b, d"]),
        ("limit LS1 nc on a at b", "limit LS1 nc on a at c", ["pressed a past b, b → a c, past c"]),
        ("motor M1 12 V", "motor M1 12 V drives a toward b", ["drives none → a down its places"]),
        ("lamp L1 12 V 2 W", 'lamp L1 12 V 2 W "cue"', ['label none → "cue"']),
        ("relay K1 no coil 12 V 90 ohm", "relay K1 no coil 12 V 90 ohm with diode", ["built in none → diode"]),
        (
            "relay K1 no coil 12 V 90 ohm operate 2..6 ms",
            "relay K1 no coil 12 V 90 ohm operate 3 ms release 1 ms",
            [
                "operates in 2 to 6 ms → 3 to 3 ms",
                "releases in none → 1 to 1 ms",
            ],
        ),
        (
            "relay K1 no coil 12 V 90 ohm operate 8 V release 2 V",
            "relay K1 no coil 12 V 90 ohm operate 9 V release 1 V",
            ["operates from 8 V → 9 V", "releases below 2 V → 1 V"],
        ),
    ],
)
def test_a_part_that_is_described_otherwise_is_told_by_what_changed_of_it(old: str, new: str, told: list[str]) -> None:
    """Of this part alone: another of its kind beside it stays as it was."""
    kind = old.split()[0]
    beside = {
        "switch": "switch S2 spst positions off high\n",
        "axis": "axis e from f to g\n",
        "limit": "axis a from b to c\nlimit LS2 nc on a at c\n",
        "motor": "axis a from b to c\nmotor M2 12 V drives a toward c\n",
        "lamp": "lamp L2 12 V 5 W\n",
        "relay": "relay K2 no coil 12 V 160 ohm operate 1 ms\n",
    }[kind]
    before, after = circuit_of(f"{beside}{old}\n"), circuit_of(f"{beside}{new}\n")
    name = old.split()[1]
    ((its_kind, one, other, found),) = changed_parts(before, after, match_parts(before, after))
    assert (its_kind, one, other) == (kind, name, name)
    assert found == tuple(told)  # A relay's ratings are told as the plan writes them as well.


def test_parts_are_told_in_the_plans_order_and_those_that_are_new_last() -> None:
    """Gone, under another name, otherwise, and new; what stayed is not told."""
    before = "supply PS 12 V 1 A\nlamp L1 12 V 2 W\nfuse F1 1 A\nfuse F2 1 A\nfuse F3 1 A\nrung PS.+, F2, F3, PS.-\n"
    after = "button PB1 no\nsupply PS 12 V 1 A\nfuse F2 2 A\nfuse F4 1 A\nfuse F1 1 A\nrung PS.+, F2, F4, PS.-\n"
    old, new = circuit_of(before), circuit_of(after)
    assert changed_parts(old, new, match_parts(old, new)) == (
        ("lamp", "L1", "", ()),
        ("fuse", "F2", "F2", ("1 A → 2 A",)),
        ("fuse", "F3", "F4", ()),
        ("button", "", "PB1", ()),
    )


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("1 mm2 red 0.2 m", "1.5 mm2 red 0.2 m", ["1 mm2 → 1.5 mm2"]),
        ("1 mm2 red 0.2 m", "1 mm2 blue 0.3 m", ["length 0.2 m → 0.3 m", "colour red → blue"]),
        ("1 mm2 red 0.2 m", "1 mm2 red 0.2 m 105 °C", ["insulation none → 105 °C"]),
        ("1 mm2 red 0.2 m", "1 mm2 red 0.2 m", []),
    ],
)
def test_a_wire_that_is_soldered_otherwise_is_told_by_what_changed_of_it(old: str, new: str, told: list[str]) -> None:
    """Its ends are where they were."""
    plan = "supply PS 12 V 1 A\nfuse F1 1 A\nfuse F2 1 A\nwire PS.+ F2.1\nwire PS.+ F1.1 : "
    before, after = circuit_of(plan + old), circuit_of(plan + new)
    found = changed_wires(before, after, match_parts(before, after))
    assert [detail for wire in found.wires for detail in wire.details] == told
    assert found.same_joins


def test_a_wire_led_elsewhere_is_one_gone_and_one_come() -> None:
    """Two wires between the same ends are two; what they join is asked apart."""
    plan = "supply PS 12 V 1 A\nfuse F1 1 A\nfuse F2 1 A\nwire PS.+ F1.1\n"
    before, after = circuit_of(plan + "wire PS.+ F2.1"), circuit_of(plan + "wire PS.+ F1.1")
    found = changed_wires(before, after, match_parts(before, after))
    assert [(wire.old, wire.new) for wire in found.wires] == [("", "PS.+ to F1.1"), ("PS.+ to F2.1", "")]
    assert not found.same_joins


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("wire PS.+ F1.1", "wire PS.+ F2.1", False),
        ("wire PS.+ F1.1", "wire PS.+ F1.1\nwire F2.1 X1.1", True),
        ("rung PS.+, F1.1, F2.1", "rung PS.+, F2.1, F1.1", True),
        ("wire PS.+ F1.1\nwire F2.1 X1.1", "wire PS.+ F1.1\nwire F2.1 F1.2", False),
    ],
)
def test_wires_join_what_they_joined_if_each_terminal_has_the_same_others_with_it(
    old: str, new: str, same: bool
) -> None:
    """One that a wire leads nowhere from is joined to nothing, as without the wire."""
    plan = "supply PS 12 V 1 A\nfuse F1 1 A\nfuse F2 1 A\nstrip X1 2 ways\n"
    before, after = circuit_of(plan + old), circuit_of(plan + new)
    assert changed_wires(before, after, match_parts(before, after)).same_joins == same


def test_a_way_of_a_strip_is_as_good_as_another_to_join_what_they_join() -> None:
    """Strips and splices only hold wires together."""
    plan = "supply PS 12 V 1 A\nfuse F1 1 A\nstrip X1 2 ways\nrung PS.+, X1.{0}, F1.1\n"
    before, after = circuit_of(plan.format(1)), circuit_of(plan.format(2))
    found = changed_wires(before, after, match_parts(before, after))
    assert len(found.wires) == 4
    assert found.same_joins
