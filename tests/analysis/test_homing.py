"""Axes that get to a known place or not, and limits that let theirs start again, in plans where that is plain."""

import pytest

from circuitcheck.analysis.chattering import chatter
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.homing import has_known_places, lost
from circuitcheck.checks.registry import all_checks, run_checks
from tests.analysis.plans import circuit_of
from tests.analysis.test_hands import where
from tests.analysis.test_vicinity import following_at_most
from tests.judge.replaying import replay
from tests.judge.sequels import chatters
from tests.judge.steps import Judge

LEAF = """
axis  leaf from left to right
limit LS9 nc on leaf at left
"""
DECK = """
supply PS 12 V 10 A
switch S1 spst positions off on
axis   deck from bottom to top
limit  LS1 nc on deck at top
motor  M1 12 V stall 5 A {way} may coast
rung   PS.+, S1, LS1, M1, PS.-
"""
UP, DOWN = "drives deck toward top", "drives deck toward bottom"


def facts_of(text: str) -> Facts:
    """All that is known of a plan."""
    return analyse(circuit_of(text))


def test_an_axis_has_known_places_where_it_is_driven_and_has_a_limit_of_its_own() -> None:
    """Either way; another axis' limit tells nothing of it."""
    assert has_known_places(facts_of(DECK.format(way=UP)), 0)
    assert has_known_places(facts_of(DECK.format(way=DOWN)), 0)
    assert not has_known_places(facts_of(DECK.format(way=UP).replace("PS.+, S1, ", "")), 0)
    others = LEAF + DECK.format(way=UP).replace("on deck at top", "on leaf at right")
    assert not has_known_places(facts_of(others), 1)


def test_an_axis_is_lost_where_it_is_only_driven_away_from_its_limit() -> None:
    """Whatever limits another axis has; toward the limit it never is."""
    assert not lost(facts_of(LEAF + DECK.format(way=UP)), 1)
    away = facts_of(LEAF + DECK.format(way=DOWN))
    below = where(away, deck="bottom") | where(away, deck="between bottom and top")
    assert lost(away, 1).same_as(below)


LOCKED = """
supply PS 12 V 10 A
switch S1 S2 spst positions off on
relay  K1 K2 dpdt coil 12 V 160 ohm with diode
axis   deck from bottom to top
limit  LS1 nc on deck at top
motor  M1 12 V stall 5 A drives deck toward {end} may coast
rung   PS.+, S1, LS1, K2.11-12, K1.A1-A2, PS.-
rung   PS.+, S2, K1.11-12, K2.A1-A2, PS.-
rung   PS.+, K1.21-24, M1, PS.-
"""


def test_an_axis_that_gets_home_with_other_relays_parked_is_not_lost() -> None:
    """Where there is too much to follow it whole; one that doesn't is looked at whole all the same."""
    with following_at_most(40):
        up, down = (facts_of(LOCKED.format(end=end)) for end in ("top", "bottom"))
        assert up.is_wide({next(axis.digit for axis in up.circuit.axes)})
        assert lost(up, 0).same_as(up.spaces.none())
        assert lost(down, 0) & where(down, deck="bottom")


def test_a_limit_that_an_axis_springs_off_starts_it_again_and_again() -> None:
    """Just below the top the motor has current again, while the switch stays on."""
    facts = facts_of(DECK.format(way=UP).replace("bottom to top", "bottom to top, springs back"))
    (found,) = chatter(facts, 0)
    assert found.limit.name == "LS1"
    zone = next(digit for digit in facts.circuit.digits if digit.name == "deck")
    between = next(value for value in zone.values if value.startswith("between"))
    assert found.states.same_as(where(facts, PS="on", S1="on", deck=between))


def test_a_limit_holds_an_axis_that_is_braked_on_it_but_not_one_that_coasts() -> None:
    """Nobody says that it springs back: then a brake holds it."""
    braked = """
        supply PS 12 V 10 A
        switch S1 spst positions off on
        axis   deck from bottom to top
        limit  LS1 spdt on deck at top
        motor  M1 12 V stall 5 A drives deck toward top
        rung   PS.+, S1, LS1.nc-com, M1, PS.-
        wire   LS1.no PS.-
    """
    assert list(chatter(facts_of(braked), 0)) == []
    assert len(list(chatter(facts_of(braked.replace("wire   LS1.no PS.-", "")), 0))) == 1
    turned = braked.replace("wire   LS1.no PS.-", "").replace("toward top", "toward bottom")
    assert list(chatter(facts_of(turned), 0)) == []


def starting_again(text: str) -> list[str]:
    """Where the axis is driven onto its limit again."""
    facts = facts_of(text)
    number = next(number for number, digit in enumerate(facts.circuit.digits) if digit.kind == "axis")
    digit = facts.circuit.digits[number]
    found = [
        [word for value, word in enumerate(digit.values) if one.states & facts.spaces.where(number, (value,))]
        for one in chatter(facts, 0)
    ]
    return [word for words in found for word in words]


def test_an_axis_starts_again_in_the_zone_just_beside_its_limit() -> None:
    """Only on the side from which it is driven onto it."""
    deck = DECK.replace("bottom to top", "bottom via middle to top").replace("at top", "at middle")
    assert starting_again(deck.format(way=UP)) == ["between bottom and middle"]
    assert starting_again(deck.format(way=DOWN)) == ["between middle and top"]


def test_a_wheel_coasts_off_its_cam_to_either_side() -> None:
    """It turns round to it again, whichever zones come first in the plan."""
    wheel = """
        supply PS 12 V 10 A
        switch S1 spst positions off on
        axis   wheel turning through park half
        cam    CS1 nc on wheel at park
        motor  M1 12 V stall 5 A drives wheel toward half may coast
        rung   PS.+, S1, CS1, M1, PS.-
    """
    assert starting_again(wheel) == ["between half and park", "between park and half"]
    assert starting_again(wheel.replace("park half", "half park").replace("toward half", "toward park")) == [
        "between half and park", "between park and half",
    ]  # fmt: skip


def test_each_axis_is_held_by_its_own_motor_s_brake() -> None:
    """Another motor is braked all the time."""
    other = "motor M2 12 V stall 5 A\nwire M2.+ PS.-\nwire M2.- PS.-\n"
    assert len(list(chatter(facts_of(other + DECK.format(way=UP)), 0))) == 1


SPRINGING = DECK.replace("bottom to top", "bottom to top, springs back").format(way=UP)


@pytest.mark.parametrize(
    ("feed", "again"),
    [
        ("switch S2 spst positions off on\nrung PS.+, S2, S1.com", True),
        ("button PB1 no\nrung PS.+, PB1, S1.com", False),
        ("relay K1 no no coil 12 V 160 ohm\nrung PS.+, K1.13-14, K1.A1-A2, PS.-\nrung PS.+, K1.23-24, S1.com", False),
    ],
)
def test_a_limit_starts_its_axis_again_only_in_operation_with_no_hand_on_a_control(feed: str, again: bool) -> None:
    """Not while a button is pressed, nor while a relay holds itself in that nothing else operates."""
    plan = SPRINGING.replace("rung   PS.+, S1, LS1", f"{feed}\nrung S1.on, LS1")
    assert bool(list(chatter(facts_of(plan), 0))) == again


BACK_FROM_WHERE_IT_NEVER_WAS = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 K2 no no coil 12 V 160 ohm {times} with diode
axis   deck from bottom to top, springs back
limit  LS1 LS2 LS3 spdt on deck at top
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, F1, ( LS1.com-no | K1.13-14 ), K1.A1-A2, PS.-
rung   F1.2, ( K1.23-24, LS2.com-nc | K2.13-14 ), K2.A1-A2, PS.-
rung   F1.2, LS3.com-nc, ( PB1 | K2.23-24 ), M1, PS.-
"""
SHUTTLE = """
supply PS 12 V 10 A
fuse   F1 5 A
relay  K1 dpdt latching coil 12 V 160 ohm {times} with diode
axis   deck from bottom to top, springs back
limit  LT1 LT2 spdt on deck at top
limit  LB1 LB2 spdt on deck at bottom
motor  M1 12 V stall 5 A drives deck toward top may coast
rung   PS.+, F1, LT1.com-no, K1.A1-A2, PS.-
rung   F1.2, LB1.com-no, K1.B1-B2, PS.-
rung   F1.2, LT2.com-nc, LB2.com-nc, K1.12-11, M1, K1.21-22, PS.-
wire   LB2.nc K1.24
wire   K1.14 PS.-
"""


@pytest.mark.parametrize("times", ["", "operate 5..9 ms"])
@pytest.mark.parametrize(
    ("plan", "limits"),
    [(BACK_FROM_WHERE_IT_NEVER_WAS, ["LS1", "LS2", "LS3"]), (SHUTTLE, ["LT1", "LT2", "LB1", "LB2"])],
)
def test_an_axis_may_go_back_to_where_operation_never_is_and_off_several_limits_in_turn(
    plan: str, limits: list[str], times: str
) -> None:
    """K1 and K2 seal themselves in while the deck springs back for the first time, and drive it on ever after; a
    latching relay sends it to and fro. The judge can follow the steps that are told."""
    circuit = circuit_of(plan.format(times=times))
    facts, judge = analyse(circuit), Judge(circuit)
    assert [one.limit.name for one in chatter(facts, 0)] == limits
    assert {name for name, _ in chatters(judge, judge.reachable(), circuit.axes[0], [0])} == {*limits}
    told = run_checks(facts, tuple(one for one in all_checks() if one.check.name == "chattering-limit"))
    assert [replay(circuit, one) for one in told] == [""] * len(limits)
