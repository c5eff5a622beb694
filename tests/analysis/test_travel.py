"""How axes move at their ends and between them, in plans where that is plain."""

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.travel import (
    End,
    alone_changes_drive,
    back_and_forth,
    digits_of_drive,
    driven_outward,
    ends_of,
    ends_of_axis,
    is_ever_brought_to,
    may_rest_driven_outward,
    motors_of,
    trapped,
)
from tests.analysis.test_hands import where
from tests.analysis.test_homing import DECK, LOCKED, UP, facts_of
from tests.analysis.test_vicinity import following_at_most

BOTH_WAYS = """
supply PS 12 V 10 A
switch S1 dpdt positions raise off lower
axis   deck from bottom via middle to top
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, S1.com1
rung   S1.raise1, LS1, M1, S1.raise2
rung   S1.lower1, LS2, M1.-
rung   S1.lower2, M1.+
wire   S1.com2 PS.-
"""
TO_AND_FRO = """
supply PS 12 V 10 A
relay  K1 4pdt latching coil 12 V 160 ohm with diode
axis   deck from bottom to top
limit  LS1 no on deck at top
limit  LS2 no on deck at bottom
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, LS1, K1.A1-A2, PS.-
rung   PS.+, LS2, K1.B1-B2, PS.-
rung   PS.+, K1.11-12, M1, K1.21-22, PS.-
rung   PS.+, K1.31-34, M1.-
rung   M1.+, K1.41-44, PS.-
"""


BRAKED_AT_THE_TOP = """
supply PS 12 V 10 A
switch S1 spdt positions run brake
axis   deck from bottom via middle to top
limit  LS1 no on deck at top
motor  M1 12 V stall 5 A drives deck toward top
rung   PS.+, S1.run
rung   S1.com, M1, PS.-
rung   S1.brake, LS1, PS.-
"""


def ends(facts: Facts) -> tuple[End, End]:
    """Bottom and top."""
    bottom, top = ends_of(facts)
    return bottom, top


def test_a_driven_axis_has_two_ends_with_a_zone_past_each() -> None:
    """Outward is down at the first and up at the last; a wheel has none, nor has what nothing drives."""
    facts = facts_of(BOTH_WAYS)
    deck = next(digit for digit in facts.circuit.digits if digit.kind == "axis")
    bottom, top = ends(facts)
    assert [(one.place, one.direction) for one in (bottom, top)] == [("bottom", -1), ("top", 1)]
    assert [deck.values[zone] for zone in (bottom.past, bottom.zone, top.zone, top.past)] == [
        "past bottom", "bottom", "top", "past top",
    ]  # fmt: skip
    assert list(ends_of(facts_of(BOTH_WAYS.replace("rung   PS.+, S1.com1\n", "")))) == []
    only_up, only_down = (DECK.format(way=f"drives deck toward {end}") for end in ("top", "bottom"))
    assert len(list(ends_of(facts_of(only_up)))) == len(list(ends_of(facts_of(only_down)))) == 2
    wheel = (
        "supply PS 12 V 10 A\naxis wheel turning through park half\nmotor M1 12 V stall 5 A drives wheel toward half\n"
    )
    assert list(ends_of(facts_of(wheel + "rung PS.+, M1, PS.-"))) == []


def test_an_axis_is_driven_outward_at_an_end_where_nothing_cuts_its_drive() -> None:
    """At the end and past it, while the switch is on."""
    bare = facts_of(DECK.format(way=UP).replace("LS1, ", ""))
    bottom, top = ends(bare)
    on = where(bare, PS="on", S1="on")
    assert driven_outward(bare, top).same_as(on & (where(bare, deck="top") | where(bare, deck="past top")))
    assert not driven_outward(bare, bottom)
    assert [may_rest_driven_outward(bare, end) for end in (bottom, top)] == [False, True]
    cut = facts_of(BOTH_WAYS)
    assert [bool(driven_outward(cut, end)) for end in ends(cut)] == [False, False]
    assert [may_rest_driven_outward(cut, end) for end in ends(cut)] == [False, False]


def test_an_axis_that_can_only_go_one_way_is_trapped_where_that_ends() -> None:
    """It gets there, and nothing brings it back; one with a way back is not trapped, whether that is seen from near or
    whole."""
    one_way = facts_of(DECK.format(way=UP))
    bottom, top = ends(one_way)
    assert trapped(one_way, top).same_as(where(one_way, deck="top"))
    assert not trapped(one_way, bottom)
    assert [is_ever_brought_to(one_way, end) for end in (bottom, top)] == [False, True]
    both = facts_of(BOTH_WAYS)
    assert all(trapped(both, end).same_as(both.spaces.none()) for end in ends(both))
    assert [is_ever_brought_to(both, end) for end in ends(both)] == [True, True]
    with following_at_most(40):
        wide = facts_of(LOCKED.format(end="top"))
        bottom, top = ends(wide)
        assert trapped(wide, bottom).same_as(wide.spaces.none())
        assert trapped(wide, top) & where(wide, deck="top")
        assert [is_ever_brought_to(wide, end) for end in (bottom, top)] == [False, True]


def test_a_limit_has_a_plain_say_in_the_drive_where_it_alone_changes_before_the_end() -> None:
    """Not one that is bridged, and not plainly one of two. A brake is part of the drive,
    and so is a relay's coil."""

    def has_say(text: str) -> bool:
        facts = facts_of(text)
        return alone_changes_drive(facts, ends(facts)[1], facts.circuit.limits[0])

    assert has_say(BOTH_WAYS)
    assert not has_say(BOTH_WAYS + "wire LS1.com LS1.nc\n")
    assert not has_say(BOTH_WAYS + "limit LS3 no on deck at top\n")
    assert has_say(BOTH_WAYS + "limit LS3 no on deck at middle\n")
    assert has_say(BRAKED_AT_THE_TOP)
    assert has_say(LOCKED.format(end="top"))
    assert has_say(BOTH_WAYS + "axis leaf from left to right\nlimit LS3 no on leaf at right\n")


def test_an_axis_goes_to_and_fro_where_each_end_turns_it_round() -> None:
    """A latching relay for the direction, set at the top and reset at the bottom: with power on, it rises again and
    again."""
    facts = facts_of(TO_AND_FRO)
    below = where(facts, deck="bottom") | where(facts, deck="between bottom and top")
    assert back_and_forth(facts, 0).same_as(below & where(facts, PS="on", K1="released"))
    assert back_and_forth(facts_of(BOTH_WAYS), 0).same_as(facts.spaces.none())
    assert not back_and_forth(facts_of(TO_AND_FRO.replace("PS.+, LS2, ", "")), 0)
    never = TO_AND_FRO.replace("PS.+, K1.", "K2.14, K1.")
    never += "relay K2 no no coil 12 V 160 ohm\nrung PS.+, K2.13-14\nrung PS.+, K2.23-24, K2.A1-A2, PS.-\n"
    assert not back_and_forth(facts_of(never), 0)
    with following_at_most(40):
        wide = facts_of(LOCKED.format(end="top"))
        assert wide.is_wide(digits_of_drive(wide, 0))
        assert back_and_forth(wide, 0).same_as(wide.spaces.none())


TWO_DECKS = """
supply PS 12 V 10 A
switch S1 S2 spst positions off on
relay  K1 no no coil 12 V 160 ohm
axis   deck from bottom to top
axis   leaf from left to right
motor  M1 12 V stall 5 A drives deck toward top may coast
motor  M2 12 V stall 5 A drives deck toward bottom may coast
motor  M3 12 V stall 5 A drives leaf toward right may coast
rung   PS.+, S1, M1, PS.-
rung   PS.+, S2, M2, PS.-
rung   PS.+, K1.13-14, M3, PS.-
rung   PS.+, K1.23-24, K1.A1-A2, PS.-
"""


def test_both_ways_of_an_axis_and_all_its_motors_count() -> None:
    """S1 has a say in the way up and S2 in the way down; M3 is another axis' motor, and never runs, since
    nothing brings in the relay that would hold itself."""
    facts = facts_of(TWO_DECKS)
    names = [digit.name for digit in facts.circuit.digits]
    assert {names[digit] for digit in digits_of_drive(facts, 0)} == {"PS", "S1", "S2", "deck"}
    assert {names[digit] for digit in digits_of_drive(facts, 1)} == {"PS", "K1", "leaf"}
    assert [motors_of(facts, axis) for axis in (0, 1)] == [("M1", "M2"), ("M3",)]
    left, right = ends_of_axis(facts, 1)
    assert [is_ever_brought_to(facts, end) for end in (left, right)] == [False, False]


def test_an_axis_that_is_driven_on_past_its_end_is_trapped_there() -> None:
    """What drives it outward at the end is no way back."""
    bare = facts_of(DECK.format(way=UP).replace("LS1, ", ""))
    _, top = ends(bare)
    assert trapped(bare, top).same_as(where(bare, deck="top") | where(bare, deck="past top"))
