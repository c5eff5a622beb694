"""What is looked at of two boxes together, and what apart."""

from circuitcheck.analysis.both_boxes import BothBoxes
from circuitcheck.analysis.matching import match_parts
from circuitcheck.analysis.side_by_side import side_by_side
from tests.analysis.plans import circuit_of

TWO_PROPS = """
supply PS 12 V 10 A
switch S1 S2 spst positions off on
relay  K2 no coil 12 V 160 ohm
axis   deck from low to high
axis   jaw from shut to open
lamp   L1 L2 12 V 2 W
motor  M1 12 V stall 5 A drives deck toward high
motor  M2 12 V stall 5 A drives jaw toward open
rung   PS.+, S1.com-on, L1, PS.-
rung   S1.on, M1, PS.-
rung   PS.+, S2.com-on, K2.A1-A2, PS.-
rung   PS.+, K2.13-14, L2, PS.-
rung   K2.14, M2, PS.-
limit  LS1 no on deck at high
limit  LS2 no on deck at low
lamp   L3 L4 12 V 2 W
rung   PS.+, LS1, L3, PS.-
rung   PS.+, LS2, L4, PS.-
"""


def boxes(before: str, after: str, relays_together: bool) -> BothBoxes:
    """Two plans side by side."""
    old, new = circuit_of(before), circuit_of(after)
    parts = match_parts(old, new)
    return BothBoxes(side_by_side(old, new, parts, relays_together=relays_together), parts)


def test_a_device_is_looked_at_with_the_relays_and_axes_that_hang_on_no_more_than_it_does() -> None:
    """The lamp and the axis behind one switch are one question; the other prop has nothing to do with it."""
    both = boxes(TWO_PROPS, TWO_PROPS, relays_together=False)
    assert [one.name for one in both.game(("L1",))[1]] == ["L1", "deck"]
    assert {one.name for one in both.game(("L2",))[1]} == {"L2", "K2", "jaw"}
    assert {one.name for one in both.game(("L3",))[1]} == {"L3", "deck"}


def test_an_axis_that_stands_elsewhere_in_the_plan_moves_as_before() -> None:
    """Where both boxes drive it."""
    axes = "axis   deck from low to high\n", "axis   jaw from shut to open\n"
    swapped = TWO_PROPS.replace("".join(axes), "".join(reversed(axes)))
    games = [boxes(TWO_PROPS, new, relays_together=False).game(("L3",))[0] for new in (TWO_PROPS, swapped)]
    assert games[0].moves == games[1].moves


def test_devices_that_share_nothing_but_inputs_are_groups_of_their_own() -> None:
    """A relay or an axis ties together what hangs on it."""
    both = boxes(TWO_PROPS, TWO_PROPS, relays_together=False)
    groups = both.groups(frozenset(("L1", "M1", "L2", "M2", "L3", "L4")))
    assert sorted(sorted(group) for group in groups) == [["L1"], ["L2", "M2"], ["L3", "L4"], ["M1"]]


def test_what_hangs_on_a_relay_that_moves_otherwise_is_in_doubt() -> None:
    """Nothing is where both boxes are one; a timer in its place puts all in doubt that follows it."""
    assert not boxes(TWO_PROPS, TWO_PROPS, relays_together=True).doubtful()
    other = TWO_PROPS.replace("rung   PS.+, S2.com-on, K2", "rung   S1.on, S2.com-on, K2")
    assert boxes(TWO_PROPS, other, relays_together=True).doubtful() == {"K2", "L2", "M2", "jaw"}
    timed = TWO_PROPS.replace("K2 no coil", "K2 no off-delay 2 s coil").replace("K2.13-14", "K2.17-18")
    timed = timed.replace("K2.14", "K2.18")
    assert {"L2", "M2"} <= boxes(TWO_PROPS, timed, relays_together=True).doubtful()


def test_what_an_axis_presses_is_in_doubt_where_the_axis_goes_otherwise() -> None:
    """The deck is driven with the other prop; its own lamps follow it, and nothing else does."""
    other = TWO_PROPS.replace("rung   S1.on, M1", "rung   S2.on, M1")
    assert boxes(TWO_PROPS, other, relays_together=True).doubtful() == {"M1", "deck", "L3", "L4"}
    both = boxes(TWO_PROPS, other, relays_together=False)
    names = [both.laid.old.digits[digit].name for digit in both.game(("L3",))[0].space.digits]
    assert sorted(names) == ["PS", "S1", "S2", "deck"]


def test_each_relay_has_its_counterpart_only_where_neither_box_has_one_more() -> None:
    """In the old box or in the new."""
    more = TWO_PROPS + "relay K9 no coil 12 V 160 ohm\n"
    assert boxes(TWO_PROPS, TWO_PROPS, relays_together=True).no_relay_alone
    assert not boxes(TWO_PROPS, more, relays_together=True).no_relay_alone
    assert not boxes(more, TWO_PROPS, relays_together=True).no_relay_alone
