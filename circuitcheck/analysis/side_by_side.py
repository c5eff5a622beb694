"""Two circuits over one list of digits, as if one pair of hands worked both boxes.

What both have is one digit: a switch, an axis, a supply, an outside contact. Then a set of states of one circuit can be
laid upon a set of states of the other. Positions are taken for the same by their names; of two axes the one with more
places gives the zones. What only one circuit has is a digit that the other doesn't depend on.
"""

from typing import NamedTuple

from circuitcheck.analysis.matching import match_words
from circuitcheck.circuit.model import Axis, Circuit, Closed, Digit, Limit, Moment

Placed = tuple[int, tuple[int | None, ...]]
"""Where a circuit's digit went: its new number, and for each of the new digit's values its own, None for none."""


class SideBySide(NamedTuple):
    """Both circuits have the same `digits`. relays: (old's number, new's number) of those that both have."""

    old: Circuit
    new: Circuit
    relays: tuple[tuple[int, int], ...]


def side_by_side(old: Circuit, new: Circuit, parts: dict[str, str], relays_together: bool) -> SideBySide:
    """The circuits laid side by side. parts: from match_parts.

    relays_together: a relay that both have is one digit too, so that what contacts do can be compared position by
    position; else each circuit's relays move for themselves.
    """
    digits: list[Digit] = []
    places: tuple[dict[int, Placed], dict[int, Placed]] = ({}, {})
    numbers = {digit.name: number for number, digit in enumerate(new.digits)}
    for number, digit in enumerate(old.digits):
        other = numbers.get(parts.get(digit.name, ""))
        if other is None or (digit.kind == "relay" and not relays_together):
            continue
        joined = _joined(old, new, digit, new.digits[other])
        if joined is not None:
            one, left, right = joined
            places[0][number], places[1][other] = (len(digits), left), (len(digits), right)
            digits.append(one)
    for circuit, placed in zip((old, new), places, strict=True):
        for number, digit in enumerate(circuit.digits):
            if number not in placed:
                placed[number] = len(digits), tuple(range(digit.radix))
                digits.append(digit)
    names = {relay.name: number for number, relay in enumerate(new.relays)}
    both = tuple(
        (number, names[parts[relay.name]]) for number, relay in enumerate(old.relays) if parts.get(relay.name) in names
    )
    return SideBySide(_moved(old, tuple(digits), places[0]), _moved(new, tuple(digits), places[1]), both)


Joined = tuple[Digit, tuple[int | None, ...], tuple[int | None, ...]]
"""A digit for two, and for each of its values that of either."""


def _joined(old: Circuit, new: Circuit, left: Digit, right: Digit) -> Joined | None:
    if left.kind != right.kind:
        return None
    if left.kind == "axis":
        axes = [
            next(one for one in circuit.axes if one.name == digit.name)
            for circuit, digit in ((old, left), (new, right))
        ]
        return _joined_axis(axes[0], axes[1], left, right)
    if left.kind in ("relay", "supply") and left.values != right.values:
        return None
    return _joined_control(left, right)


def _joined_control(left: Digit, right: Digit) -> Joined:
    """The positions of either, then the moments that either passes on the way."""
    words = match_words(left.values, right.values)
    pairs: list[tuple[int | None, int | None]] = [
        (number, right.values.index(words[word]) if word in words else None) for number, word in enumerate(left.values)
    ]
    pairs += [(None, number) for number, word in enumerate(right.values) if word not in words.values()]
    values = tuple(_value_name(left, right, pair) for pair in pairs)
    moments: dict[tuple[int | None, int | None], set[tuple[int, int]]] = {}
    for start, before in enumerate(pairs):
        for end, after in enumerate(pairs):
            passed = _passed(left, before[0], after[0]), _passed(right, before[1], after[1])
            if start != end and passed != (None, None):
                # A switch that changes at once stays where it was while the other is between its positions.
                between = (
                    (passed[0] if passed[0] is not None else before[0]),
                    (passed[1] if passed[1] is not None else before[1]),
                )
                moments.setdefault(between, set()).add((start, end))
    digit = Digit(
        left.name, left.kind, values, tuple(_moment(left, right, pair, moves) for pair, moves in moments.items())
    )
    every = (*pairs, *moments)
    return digit, tuple(pair[0] for pair in every), tuple(pair[1] for pair in every)


def _moment(left: Digit, right: Digit, pair: tuple[int | None, int | None], moves: set[tuple[int, int]]) -> Moment:
    passes_left = pair[0] is not None and pair[0] >= len(left.values)
    name = left.value_name(pair[0]) if passes_left and pair[0] is not None else right.value_name(pair[1] or 0)
    return Moment(name, frozenset(moves))


def _value_name(left: Digit, right: Digit, pair: tuple[int | None, int | None]) -> str:
    return left.values[pair[0]] if pair[0] is not None else right.values[pair[1] or 0]


def _passed(digit: Digit, start: int | None, end: int | None) -> int | None:
    """The moment on the way between two of a digit's positions, if there is one."""
    for number, moment in enumerate(digit.moments, len(digit.values)):
        if (start, end) in moment.moves:
            return number
    return None


def _joined_axis(old: Axis, new: Axis, left: Digit, right: Digit) -> Joined | None:
    if old.turning != new.turning:
        return None
    if len(old.places) == len(new.places):
        same = tuple(range(len(left.values)))
        return left, same, same
    finer, coarser, zones = (old, new, left) if len(old.places) > len(new.places) else (new, old, right)
    if old.turning or tuple(place for place in finer.places if place in coarser.places) != coarser.places:
        return None
    if finer.places[0] != coarser.places[0] or finer.places[-1] != coarser.places[-1]:
        return None
    fine, coarse = tuple(range(len(zones.values))), _zones_within(finer, coarser)
    return (left, fine, coarse) if finer is old else (right._replace(name=left.name), coarse, fine)


def _zones_within(finer: Axis, coarser: Axis) -> tuple[int, ...]:
    """For each zone of the axis with more places, that of the other in which it lies."""
    zone, found = 0, [0]
    for number, place in enumerate(finer.places):
        at_place = place in coarser.places
        zone = 2 * coarser.places.index(place) + 1 if at_place else zone
        found.append(zone)
        if number < len(finer.places) - 1:
            zone += at_place
            found.append(zone)
    return (*found, 2 * len(coarser.places))


def _moved(circuit: Circuit, digits: tuple[Digit, ...], places: dict[int, Placed]) -> Circuit:
    """The circuit with its digits where they were put."""

    def values(digit: int, own: frozenset[int]) -> frozenset[int]:
        return frozenset(value for value, mine in enumerate(places[digit][1]) if mine in own)

    def limit(one: Limit) -> Limit:
        return one._replace(zones=values(circuit.axes[one.axis].digit, one.zones))

    def axis(one: Axis) -> Axis:
        number = places[one.digit][0]
        zones = len(digits[number].values)
        return one._replace(digit=number, range=(0, zones - 1) if one.turning else (1, zones - 2))

    def closed(one: Closed) -> Closed:
        return Closed(places[one.digit][0], values(one.digit, one.values))

    return circuit._replace(
        digits=digits,
        conductors=tuple(one._replace(closed=closed(one.closed)) if one.closed else one for one in circuit.conductors),
        supplies=tuple(one._replace(digit=places[one.digit][0]) for one in circuit.supplies),
        relays=tuple(one._replace(digit=places[one.digit][0]) for one in circuit.relays),
        limits=tuple(map(limit, circuit.limits)),
        axes=tuple(map(axis, circuit.axes)),
    )
