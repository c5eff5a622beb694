"""Which part of one plan is which part of another."""

import re
from pathlib import Path

import pytest

from circuitcheck.analysis.changed_parts import changed_parts, changed_wires
from circuitcheck.analysis.comparing import Comparison, compare_behaviour
from circuitcheck.analysis.matching import match_parts
from tests.analysis.plans import circuit_of

CURTAIN = """\
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions open close
relay  K1 dpdt coil 12 V 160 ohm with diode
relay  K2 dpdt coil 12 V 160 ohm with diode
axis   curtain from left to right
limit  LS1 nc on curtain at left
limit  LS2 nc on curtain at right
motor  M1 12 V stall 5 A drives curtain toward right
rung   PS.+, F1, S1.com
rung   S1.open, LS2.com-nc, K1.A1-A2, PS.-
rung   S1.close, LS1.com-nc, K2.A1-A2, PS.-
rung   F1.2, K1.14
rung   F1.2, K2.14
rung   K1.11, M1, K2.11
rung   K1.12, PS.-
rung   K2.12, PS.-
"""

EXAMPLES = Path(__file__).parent.parent.parent / "examples" / "right"


def matched(after: str) -> dict[str, str]:
    """The parts of the curtain that have another name in the changed plan."""
    return {old: new for old, new in match_parts(circuit_of(CURTAIN), circuit_of(after)).items() if old != new}


def compared(before: str, after: str) -> Comparison:
    """The verdict on two plans."""
    old, new = circuit_of(before), circuit_of(after)
    return compare_behaviour(old, new, match_parts(old, new))


def test_a_part_under_another_name_is_known_by_its_place_in_the_wiring() -> None:
    """Two equal relays are told apart by what they are wired to."""
    assert matched(CURTAIN.replace("K2", "KA").replace("K1", "K2")) == {"K1": "KA"}
    assert matched(CURTAIN.replace("K2", "KB").replace("K1", "KA")) == {"K1": "KA", "K2": "KB"}


def test_an_axis_under_another_name_is_known_by_its_limits_and_motors() -> None:
    """An axis has no terminals."""
    after = CURTAIN.replace("axis   curtain", "axis   drape").replace("on curtain", "on drape")
    after = after.replace("drives curtain", "drives drape")
    assert matched(after) == {"curtain": "drape"}
    assert compared(CURTAIN, after).everywhere


def test_a_part_is_known_though_one_of_its_wires_was_led_elsewhere() -> None:
    """Most of its terminals lie where they lay."""
    after = CURTAIN.replace("K2", "KA").replace("rung   KA.12, PS.-", "rung   KA.22, PS.-")
    assert matched(after) == {"K2": "KA"}


@pytest.mark.parametrize("name", ["drawbridge", "dragon_wing", "lantern_colours", "gallery_lift", "sea_drum"])
def test_all_parts_of_a_plan_under_other_names_are_known_by_their_places(name: str) -> None:
    """Whatever was left where it was is found again, axes included."""
    text = (EXAMPLES / f"{name}.plan").read_text(encoding="utf-8")
    old = circuit_of(text)
    new = circuit_of(re.sub(rf"\b({'|'.join(map(re.escape, old.parts))})\b", r"\1x", text))
    assert match_parts(old, new) == {part: f"{part}x" for part in old.parts}


def test_another_part_in_another_place_is_no_rename() -> None:
    """A lamp gone here and a lamp come there are two lamps."""
    before = CURTAIN + "lamp L1 12 V 2 W\nrung S1.open, L1, PS.-\n"
    after = CURTAIN + "lamp L2 12 V 2 W\nrung K1.24, L2, K2.24\n"
    assert "L1" not in match_parts(circuit_of(before), circuit_of(after))


def test_two_relays_that_exchange_their_names_do_something_else() -> None:
    """Names come first: K1 is K1, wherever it was put."""
    after = CURTAIN.replace("K2", "K0").replace("K1", "K2").replace("K0", "K1")
    assert matched(after) == {}
    assert {device.name for apart in compared(CURTAIN, after).apart for device in apart.devices} >= {"K1", "K2"}


@pytest.mark.parametrize(
    ("before", "after", "kind", "details"),
    [
        ("coil 12 V 160 ohm", "coil 12 V 120 ohm", "relay", "coil 160 ohm → 120 ohm"),
        ("fuse   F1 5 A", "fuse   F1 7.5 A", "fuse", "5 A → 7.5 A"),
        ("at left", "at right", "limit", "pressed curtain past left, left → curtain right, past right"),
        (
            "curtain toward right",
            "curtain toward left",
            "motor",
            "drives curtain up its places → curtain down its places",
        ),
        ("positions open close", "positions open close key", "switch", "form spdt → spdt key"),
    ],
)
def test_what_changed_of_a_part_is_told_with_what_it_was(before: str, after: str, kind: str, details: str) -> None:
    """Ratings, places, words: the old, then the new."""
    old, new = circuit_of(CURTAIN), circuit_of(CURTAIN.replace(before, after, 1))
    changes = changed_parts(old, new, match_parts(old, new))
    assert [(change.kind, change.details) for change in changes] == [(kind, (details,))]


def test_wires_that_join_the_same_terminals_another_way_change_nothing() -> None:
    """From K1 to PS.- over K2 is as good as straight."""
    old = circuit_of(CURTAIN)
    new = circuit_of(CURTAIN.replace("rung   K1.12, PS.-", "rung   K1.12, K2.12"))
    changes = changed_wires(old, new, match_parts(old, new))
    assert [(change.old, change.new) for change in changes.wires] == [("K1.12 to PS.-", ""), ("", "K1.12 to K2.12")]
    assert changes.same_joins


def test_another_position_of_a_switch_is_a_difference_whatever_it_does() -> None:
    """The other box can't be worked alike."""
    positions = compared(CURTAIN, CURTAIN.replace("positions open close", "positions open off close")).positions
    assert [tuple(one) for one in positions] == [("S1", "off", "new")]


def test_positions_in_another_order_or_under_other_names_are_the_same() -> None:
    """What a position does is what counts."""
    assert compared(CURTAIN, CURTAIN.replace("open close", "close open")).everywhere
    renamed = CURTAIN.replace("open close", "apart shut").replace("S1.open", "S1.apart").replace("S1.close", "S1.shut")
    assert compared(CURTAIN, renamed).everywhere


def test_a_place_on_an_axis_that_nothing_asks_for_changes_nothing() -> None:
    """The zones of either are matched by their places."""
    assert compared(CURTAIN, CURTAIN.replace("from left to right", "from left via middle to right")).everywhere


def test_a_relay_more_that_nothing_shows_of_changes_nothing() -> None:
    """It isn't looked at, only what it does."""
    after = CURTAIN.replace("rung   F1.2, K1.14\n", "rung   F1.2, K3.11-12, K1.14\nrelay  K3 spdt coil 12 V 160 ohm\n")
    comparison = compared(CURTAIN, after + "rung K3.A1, K3.A2\n")
    assert comparison.same
    assert not comparison.everywhere


def test_an_interlock_that_no_operation_needs_is_told_as_out_of_reach() -> None:
    """One switch never feeds both relays, so nobody sees the interlock but with a finger on an armature."""
    after = CURTAIN.replace("rung   F1.2, K1.14\n", "rung   F1.2, K2.22-21, K1.14\n").replace("S1 spdt", "S1 spdt")
    comparison = compared(CURTAIN, after)
    assert comparison.same
    assert comparison.unreached == ("M1",)


def test_a_timer_with_another_delay_does_something_else() -> None:
    """What is seen in the end is the same, but not when."""
    before = "supply PS 12 V 1 A\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\nlamp L1 12 V 2 W\nfuse F1 5 A\n"
    before += "rung PS.+, F1, K1.A1-A2, PS.-\nrung F1.2, K1.15-18, L1, PS.-\n"
    delays = compared(before, before.replace("3 s", "5 s")).delays
    assert [tuple(one) for one in delays] == [("K1", 3.0, 5.0)]


def test_what_behaves_alike_in_every_combination_has_the_same_delays_positions_and_relays() -> None:
    """A spare relay that nothing hangs on stands anyhow in one box, and nowhere in the other."""
    before = "supply PS 12 V 1 A\nswitch S1 spst positions off on\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\n"
    before += "lamp L1 12 V 2 W\nrung PS.+, S1.com-on, K1.A1-A2, PS.-\nrung PS.+, K1.15-18, L1, PS.-\n"
    assert compared(before, before).everywhere
    longer = before.replace("3 s", "5 s"), before.replace("off on", "off on far").replace("spst", "spdt")
    for after in (*longer, before + "relay K9 spdt coil 12 V 160 ohm\n"):
        for comparison in (compared(before, after), compared(after, before)):
            assert not comparison.apart
            assert not comparison.everywhere


def test_a_motor_that_only_one_has_counts_as_standing_in_the_other() -> None:
    """One that is never driven makes no difference."""
    assert compared(CURTAIN, CURTAIN + "motor M2 12 V stall 5 A\nrung PS.-, M2, PS.-\n").same
    assert not compared(CURTAIN, CURTAIN + "motor M2 12 V stall 5 A\nrung S1.open, M2, PS.-\n").same


def test_a_lamp_or_buzzer_that_only_one_has_counts_as_off_in_the_other() -> None:
    """One that never gets a volt makes no difference."""
    for part in ("lamp L9", "buzzer L9"):
        more = CURTAIN + f"{part} 12 V 50 ohm\n"
        never, sometimes = more + "rung PS.-, L9, PS.-\n", more + "rung S1.open, L9, PS.-\n"
        assert compared(CURTAIN, never).same
        assert compared(never, CURTAIN).same
        assert not compared(CURTAIN, sometimes).same


def test_a_short_is_a_difference_though_nothing_else_differs() -> None:
    """Whichever of the two boxes has it; alike in both it is none."""
    before = "supply PS 12 V 5 A\nswitch S1 spdt positions near off far\nwire PS.+ S1.com\n"
    after = before + "wire S1.far PS.-\n"
    assert compared(after, after).everywhere
    for old, new, words in ((before, after, ("not shorted", "shorted")), (after, before, ("shorted", "not shorted"))):
        (apart,) = compared(old, new).apart
        (device,) = apart.devices
        assert (device.name, set(device.words)) == ("supplies", {words})


def test_a_motor_that_turns_at_another_speed_does_something_else() -> None:
    """Its high brush or its low one; either way it is driven forward."""
    plan = (
        "supply PS 12 V 9 A\nbutton PB1 no\nmotor M1 two-speed 12 V stall 5 A\nrung PS.+, PB1, M1.{}\nrung M1.-, PS.-\n"
    )
    (apart,) = compared(plan.format("low"), plan.format("high")).apart
    (device,) = apart.devices
    assert set(device.words) == {("forward", "forward fast")}


def test_an_axis_is_seen_to_go_toward_its_last_place_or_its_first() -> None:
    """Whatever lies between them."""
    before = CURTAIN.replace("from left to right", "from left via middle to right")
    after = before.replace("drives curtain toward right", "drives curtain toward left")
    differing = {device.name: set(device.words) for apart in compared(before, after).apart for device in apart.devices}
    assert {word for pair in differing["curtain"] for word in pair} == {"goes toward right", "goes toward left"}


def test_an_axis_that_only_one_has_goes_where_that_one_drives_it() -> None:
    """A lamp that needs the deck low first and high then is seen in the box with the deck."""
    before = """
supply PS 12 V 10 A
switch S1 spst positions off on
relay  K1 no no coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
motor  M1 12 V stall 5 A
rung   PS.+, S1, M1, PS.-
rung   S1.on, K1.13-14, K1.A1-A2, PS.-
"""
    after = (
        before.replace("stall 5 A", "stall 5 A drives deck toward high")
        + """
axis   deck from low to high
limit  LS1 no on deck at low
limit  LS2 no on deck at high
rung   S1.on, LS1, K1.A1
rung   S1.on, LS2, K1.23-24, L1, PS.-
"""
    )
    dark = before + "rung PS.-, L1, PS.-\n"
    assert not compared(dark, after).same
    assert not compared(after, dark).same


LATCH = """
supply PS 12 V 5 A
button PB1 PB2 no
relay  K1 no no latching coil 12 V 160 ohm
lamp   L1 12 V 2 W
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, PB2, K1.B1-B2, PS.-
"""
STRAIGHT = LATCH + "rung PS.+, K1.13-14, L1, PS.-\n"


def test_a_latching_relay_that_both_have_stands_alike_in_both_when_they_are_switched_on() -> None:
    """A lamp over a relay that follows the latching one is lit as if it hung on that one itself."""
    over_another = (
        LATCH + "relay K2 no coil 12 V 160 ohm\nrung PS.+, K1.23-24, K2.A1-A2, PS.-\nrung PS.+, K2.13-14, L1, PS.-\n"
    )
    comparison = compared(STRAIGHT, over_another)
    assert comparison.same
    assert not comparison.everywhere


def test_a_latching_relay_that_only_one_has_may_stand_anyhow_when_it_is_switched_on() -> None:
    """A plain relay that seals itself in has let go by then, so the lamps differ before anything is pressed."""
    sealed = STRAIGHT.replace("no no latching", "no no").replace(
        "PS.+, PB1, K1.A1", "PS.+, ( PB1 | PB2, K1.23-24 ), K1.A1"
    )
    sealed = sealed.replace("rung   PS.+, PB2, K1.B1-B2, PS.-\n", "").replace("PB1 PB2 no", "PB1 no\nbutton PB2 nc")
    (apart,) = compared(STRAIGHT, sealed).apart
    assert not apart.parting.happenings
    assert {device.name: set(device.words) for device in apart.devices}["L1"] >= {("lit", "dark")}


def test_what_a_relay_would_do_that_nothing_ever_operates_makes_no_difference() -> None:
    """It begins released, and only its own contact would hold it."""
    held = (
        "supply PS 12 V 5 A\nrelay K1 no no coil 12 V 160 ohm\nlamp L1 12 V 2 W\nrung PS.+, K1.13-14, K1.A1-A2, PS.-\n"
    )
    comparison = compared(held + "rung PS.+, K1.23-24, L1, PS.-\n", held + "rung PS.-, L1, PS.-\n")
    assert comparison.same
    assert comparison.unreached == ("L1",)


def test_a_timer_that_waits_before_it_operates_is_not_one_that_waits_before_it_releases() -> None:
    """Coil, contact and seconds are the same."""
    before = "supply PS 12 V 1 A\nbutton PB1 no\nrelay K1 no on-delay 3 s coil 12 V 160 ohm\nlamp L1 12 V 2 W\n"
    before += "rung PS.+, PB1, K1.A1-A2, PS.-\nrung PS.+, K1.17-18, L1, PS.-\n"
    comparison = compared(before, before.replace("on-delay", "off-delay"))
    assert not comparison.delays
    assert "L1" in {device.name for apart in comparison.apart for device in apart.devices}
