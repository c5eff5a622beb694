"""What can be set on a box on the bench: its controls, limits, relays and supplies, by hand.

Everything begins as the box lies there: controls at rest, the axis at its first place, relays let go. A setting is told
by what is set apart from that; the less, the better.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, islice, product
from types import MappingProxyType
from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning

OFF: Final = "power off"
WITHOUT: Final = "powered, motors disconnected"
WITH: Final = "powered, motors connected"
STAGES: Final = (OFF, WITHOUT, WITH)
"""In the order in which a box is tested."""

MOST_SETTINGS: Final = 512
"""Of so many settings, those nearest to rest, readings are chosen."""


Option = tuple[int, bool]
"""A value, and whether it is only tapped."""


class Setting(NamedTuple):
    """values: of each digit; before power comes, where there is any. tapped: controls that spring back, pressed for a
    moment after that; their values are at rest."""

    values: tuple[int, ...]
    tapped: tuple[tuple[int, int], ...] = ()


class Settings(NamedTuple):
    """Those that are looked at in one stage, from rest on. complete: they are all there are."""

    stage: str
    rest: Setting
    all: tuple[Setting, ...]
    complete: bool


def settings_of(
    circuit: Circuit,
    stage: str,
    given: Mapping[int, Sequence[Option]] = MappingProxyType({}),
    most: int = MOST_SETTINGS,
) -> Settings:
    """The settings of a stage, nearest to rest first. given: what some digits may be, and rest at the first of it."""
    rest = rest_of(circuit, stage)
    every = {digit: list(_options(circuit, digit, stage)) for digit in range(len(circuit.digits))}
    for digit, allowed in given.items():
        rest, every[digit] = _resting_at(rest, digit, allowed[0]), list(allowed[1:])
    options = {digit: values for digit, values in every.items() if values}
    found = list(islice(_from_rest(rest, options), most + 1))
    return Settings(stage, rest, tuple(found[:most]), len(found) <= most)


def rest_of(circuit: Circuit, stage: str) -> Setting:
    """Controls at rest: where they spring to, at "off" where there is one. Supplies are off only in the first stage."""
    values = usual_beginning(circuit)
    for number, digit in enumerate(circuit.digits):
        if digit.kind == "supply":
            values[number] = int(stage != OFF)
        elif digit.springs_to is not None:
            values[number] = digit.springs_to
        elif digit.kind == "control" and "off" in digit.values:
            values[number] = digit.values.index("off")
    return Setting(tuple(values[number] for number in range(len(circuit.digits))))


def _resting_at(rest: Setting, digit: int, option: Option) -> Setting:
    value, tapped = option
    if tapped:
        return rest._replace(tapped=(*rest.tapped, (digit, value)))
    return rest._replace(values=(*rest.values[:digit], value, *rest.values[digit + 1 :]))


def set_apart(setting: Setting, rest: Setting) -> dict[int, Option]:
    """What a setting sets otherwise than at rest, by digit."""
    held = enumerate(zip(setting.values, rest.values, strict=True))
    apart = {number: (value, False) for number, (value, usual) in held if value != usual}
    return apart | {number: (value, True) for number, value in setting.tapped}


def _from_rest(rest: Setting, options: dict[int, list[Option]]) -> Iterator[Setting]:
    for count in range(len(options) + 1):
        for digits in combinations(options, count):
            for chosen in product(*(options[digit] for digit in digits)):
                values, tapped = list(rest.values), list(rest.tapped)
                for digit, (value, only_tapped) in zip(digits, chosen, strict=True):
                    if only_tapped:
                        tapped.append((digit, value))
                    else:
                        values[digit] = value
                yield Setting(tuple(values), tuple(tapped))


def _options(circuit: Circuit, number: int, stage: str) -> Iterator[Option]:
    """The values that a digit can be given apart from rest."""
    digit, usual = circuit.digits[number], rest_of(circuit, stage).values[number]
    if digit.kind in ("control", "outside"):
        others = [value for value in range(len(digit.values)) if value != usual]
        yield from ((value, False) for value in others)
        if digit.springs_to is not None and stage != OFF:
            yield from ((value, True) for value in others)
    elif digit.kind == "relay":
        latching = any(relay.digit == number and relay.function == "latching" for relay in circuit.relays)
        if stage == OFF or latching:
            yield 1, False
    elif digit.kind == "axis":
        yield from ((zone, False) for zone in _zones(circuit, number, usual, stage != WITH))


def _zones(circuit: Circuit, number: int, usual: int, by_hand: bool) -> Iterator[int]:
    """The places of an axis within its range. Where limits are worked by hand, one of those that press the same."""
    axis, place = next((one, place) for place, one in enumerate(circuit.axes) if one.digit == number)
    known = {_pressed(circuit, place, usual)} if by_hand else set()
    for zone in range(axis.range[0], axis.range[1] + 1):
        pressed = _pressed(circuit, place, zone)
        if zone != usual and not (by_hand and pressed in known):
            known.add(pressed)
            yield zone


def _pressed(circuit: Circuit, axis: int, zone: int) -> frozenset[str]:
    return frozenset(limit.name for limit in circuit.limits if limit.axis == axis and zone in limit.zones)
