"""Wires in a channel, against what their lines look like."""

from itertools import combinations, permutations

from hypothesis import given
from hypothesis import strategies as st

from circuitcheck.drawing.channels import Pin, Turn, crossings, is_straight, route_channel, span
from circuitcheck.drawing.columns import LEFT, RIGHT

STEP = 11.0
WIDTH = 1000.0


@st.composite
def turns(draw: st.DrawFn) -> dict[int, Turn]:
    """Wires whose pins have heights of their own, so that none need lie on another."""
    count = draw(st.integers(0, 5))
    heights = draw(st.permutations(range(2 * count)))
    sides = st.sampled_from([(LEFT, RIGHT), (RIGHT, LEFT), (LEFT, LEFT), (RIGHT, RIGHT)])
    found = {}
    for wire in range(count):
        one, other = draw(sides)
        found[wire] = (Pin(one, STEP * heights[2 * wire]), Pin(other, STEP * heights[2 * wire + 1]))
    return found


def lines(turned: dict[int, Turn], track: dict[int, float]) -> list[list[tuple[float, float]]]:
    """The wires as they are drawn."""
    found = []
    for wire, (one, other) in turned.items():
        edges = [0.0 if pin.side == LEFT else WIDTH for pin in (one, other)]
        x = track[wire]
        found.append([(edges[0], one.height), (x, one.height), (x, other.height), (edges[1], other.height)])
    return found


@given(turns())
def test_no_two_upright_pieces_share_a_track_where_both_reach(turned: dict[int, Turn]) -> None:
    """Each has a place in the channel."""
    channel = route_channel(turned)
    assert channel.clashing == []
    assert all(0 < x < channel.width for x in channel.track.values())
    for one, other in combinations(turned, 2):
        (top, bottom), (other_top, other_bottom) = span(turned[one]), span(turned[other])
        if top <= other_bottom and other_top <= bottom:
            assert channel.track[one] != channel.track[other]


@given(turns())
def test_wires_cross_as_seldom_as_in_any_order(turned: dict[int, Turn]) -> None:
    """Counted on the lines themselves, all orders of tracks tried."""
    found = crossings(lines(turned, route_channel(turned).track))
    orders = permutations(range(1, len(turned) + 1))
    assert found == min(crossings(lines(turned, dict(zip(turned, map(float, order), strict=True)))) for order in orders)


def test_a_wire_at_one_height_needs_no_track() -> None:
    """It runs straight across."""
    straight = (Pin(LEFT, 5.0), Pin(RIGHT, 5.0))
    assert is_straight(straight)
    assert route_channel({0: straight}).track == {}


def test_two_wires_that_change_heights_with_each_other_are_told() -> None:
    """In either order one would lie on the other."""
    swapped = {0: (Pin(LEFT, 0.0), Pin(RIGHT, 50.0)), 1: (Pin(LEFT, 50.0), Pin(RIGHT, 0.0))}
    assert len(route_channel(swapped).clashing) == 1
