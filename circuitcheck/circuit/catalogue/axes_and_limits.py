"""Axes, cut into zones, and the switches that they press.

    linear   deck from bottom to top       past bottom | bottom | between bottom and top | top | past top
    turning  wheel through park half       park | between park and half | half | between half and park

A limit switch at a place is pressed in that place's zone, and beyond it where the place is an end of a linear axis: a
cam that has pressed it doesn't let go by going on.
"""

from itertools import pairwise

from circuitcheck.circuit.catalogue.attributes import CONTACT, Shape
from circuitcheck.circuit.catalogue.contacts import (
    CONTACT_RATINGS,
    all_marks,
    contact_conductors,
    lettered_poles,
    spare_marks,
)
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, refuse
from circuitcheck.circuit.model import Axis, Digit, Limit
from circuitcheck.circuit.wording import MOST_COMPARED, shortened, suggestion
from circuitcheck.plan.syntax import Word


def read_axis(name: str, places: tuple[str, ...], turning: bool, digit: int) -> tuple[Axis, Digit]:
    """The axis and its digit, whose values are the zones. How far it goes and what it moves isn't filled in yet."""
    zones = _turning_zones(places) if turning else _linear_zones(places)
    within = (0, len(zones) - 1) if turning else (1, len(zones) - 2)
    return Axis(name, digit, places, turning, within, 0.0), Digit(name, "axis", zones)


def _linear_zones(places: tuple[str, ...]) -> tuple[str, ...]:
    between = (f"between {low} and {high}" for low, high in pairwise(places))
    inner = [zone for pair in zip(places, between, strict=False) for zone in pair]
    return (f"past {places[0]}", *inner, places[-1], f"past {places[-1]}")


def _turning_zones(places: tuple[str, ...]) -> tuple[str, ...]:
    if len(places) == 1:
        return (places[0], f"away from {places[0]}")
    following = (*places[1:], places[0])
    return tuple(
        zone for low, high in zip(places, following, strict=True) for zone in (low, f"between {low} and {high}")
    )


def place_zone(axis: Axis, place: str) -> int:
    """The zone of a declared place."""
    return 2 * axis.places.index(place) + (not axis.turning)


def find_axis(part: Described, word: Word) -> tuple[int, Axis]:
    """The axis that a part names, within its own module, with its number in the circuit."""
    found = part.axes.get(part.scope + word.text)
    if found is None:
        known = [name.removeprefix(part.scope) for name in part.axes if name.startswith(part.scope)]
        near = suggestion(word.text, known) if len(known) <= MOST_COMPARED else f"There is {shortened(known)}."
        raise refuse(word.place, f"no axis {word.text}", near)
    return found


def read_limit(part: Described) -> Pieces:
    """Contacts marked com nc no, worked by the axis."""
    poles = lettered_poles(part.given.keywords)
    axis_word, *place_words = part.given.words["on"]
    number, axis = find_axis(part, axis_word)
    for word in place_words:
        if word.text not in axis.places:
            raise refuse(word.place, f"no place {word.text} on {axis_word.text}", suggestion(word.text, axis.places))
    pressed = _pressed_zones(axis, place_words[0].text, place_words[-1].text)
    zones = 2 * len(axis.places) + (not axis.turning)
    released = frozenset(range(zones)) - pressed
    return Pieces(
        part.info(all_marks(poles), spare_marks(poles)),
        conductors=contact_conductors(part, poles, axis.digit, released, pressed),
        limits=(Limit(part.name, number, pressed),),
    )


def _pressed_zones(axis: Axis, start: str, end: str) -> frozenset[int]:
    """From start to end; on a turning axis in the order in which the places are listed, round past the last."""
    first, last = place_zone(axis, start), place_zone(axis, end)
    if axis.turning:
        count = 2 * len(axis.places)
        return frozenset((first + step) % count for step in range((last - first) % count + 1))
    first, last = min(first, last), max(first, last)
    lowest, highest = axis.range
    return frozenset(range(first - (first == lowest), last + (last == highest) + 1))


LIMIT_FORMS = ("spdt", "dpdt", "no", "nc")
TAKES = dict.fromkeys(LIMIT_FORMS, CONTACT) | {"on": Shape(words=(2, 3), required=True), "": CONTACT_RATINGS}
CAM_TAKES = TAKES | {"": Shape((*CONTACT_RATINGS.dimensions, "degrees"))}
"""Degrees: how far the motor's output shaft turns while the cam keeps its switch pressed."""

KINDS = {
    "limit": Kind("limit switch", "limit LS1 spdt on deck at top", TAKES, read_limit, LIMIT_FORMS, needs_form=True),
    "cam": Kind("cam switch", "cam CS1 spdt on wheel at park", CAM_TAKES, read_limit, LIMIT_FORMS, needs_form=True),
}
