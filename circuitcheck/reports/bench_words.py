"""How a bench sheet words what to set, where to look and what to expect."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, NamedTuple

from circuitcheck.analysis.bench.readings import (
    BEEPS_BELOW,
    OVERLOAD,
    PASSES,
    UNSETTLED,
    Point,
    Reading,
    alike,
    is_open,
)
from circuitcheck.analysis.bench.settings import OFF, WITH, WITHOUT, Setting, Settings, set_apart
from circuitcheck.checks.narration import digit_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import listed

FIRST: Final = (
    "Before anything is measured: switch off, unplug every supply, and wait until its capacitors are empty.",
    "Detach the mechanism from the motor, or prop it so that nothing can fall or crush, until it is asked for.",
    "Under power use a supply with a current limit, set to little more than the coils and lamps take.",
    "Keep fingers, hair and cables away from whatever a motor may turn; somebody stands at the switch.",
)
"""Cautions that come before a sheet's first line."""

SEALED: Final = "Push relays with a finger; feed a sealed one from a battery on its coil, the coil's wires taken off."
BY_HAND: Final = "Press limits by hand."

METER: Final = (
    "Ohms: under 1 ohm counts as a beep; two readings count as different where they are more than 1 ohm and 30 % "
    "apart. Diode range: 1 mA from red to black. Volts count as different where more than 1 V and 30 % apart. A motor "
    "that brakes is stiff when turned by hand. (Common practice, no source.)"
)

SEEN: Final = {
    "forward": "turns forward",
    "reverse": "turns in reverse",
    "braked": "stands, stiff to turn by hand (braked)",
    "braked one way": "stands, stiff one way only",
    "coasting": "stands, easy to turn by hand (coasting)",
    "weak": "creeps or hums",
    "released": "is released",
    "operated": "is operated",
    "spent": "clicks in, then drops out",
    OVERLOAD: "nothing: the supply is in its current limit",
    UNSETTLED: "not the same every time",
    PASSES: "a diode's volts",
}


def stage_title(circuit: Circuit, stage: str) -> str:
    """Its name; a box without motors is just powered."""
    return stage if circuit.motors else stage.partition(",")[0]


def stage_words(circuit: Circuit, stage: str) -> str:
    """What the bench is like, in sentences."""
    by_hand = [BY_HAND] if circuit.limits else []
    if stage == OFF:
        connected = "Power off, supplies unplugged" + (", motors connected." if circuit.motors else ".")
        return " ".join([connected, *by_hand, *([SEALED] if circuit.relays else [])])
    if stage == WITHOUT:
        gone = ["Motors disconnected at their terminals."] if circuit.motors else []
        order = (
            "The supply current-limited. For each line: set everything, switch the supplies on, then tap if told to."
        )
        return " ".join([*gone, *by_hand, order])
    attached = "Motors connected, the mechanism attached and guarded, the supply current-limited."
    return f"{attached} For each line: bring everything to its place, switch the supplies on, look before it moves on."


def setting_words(circuit: Circuit, settings: Settings, setting: Setting) -> list[str]:
    """What has to be done from rest, a few words each; "everything at rest" where nothing has."""
    apart = set_apart(setting, settings.rest)
    held = [
        words
        for number, (value, tapped) in sorted(apart.items())
        if not tapped
        for words in _held(circuit, settings.stage, number, value)
    ]
    taps = [f"tap {circuit.digits[number].name}" for number, (_, tapped) in sorted(apart.items()) if tapped]
    return [*held, *taps] or ["everything at rest"]


def rest_words(circuit: Circuit, settings: Settings) -> list[str]:
    """How everything stands at rest; relays, which are let go, aside."""
    found: list[str] = []
    for number, value in enumerate(settings.rest.values):
        digit = circuit.digits[number]
        if digit.kind == "axis":
            found += (
                _limits(circuit, number, value) if settings.stage != WITH else [digit_words(circuit, number, value)]
            )
        elif digit.kind not in ("relay", "supply"):
            found.append(f"{digit.name} {digit.values[value]}")
    return found


def _held(circuit: Circuit, stage: str, number: int, value: int) -> Iterator[str]:
    digit = circuit.digits[number]
    if digit.kind == "axis" and stage != WITH:
        yield from _limits(circuit, number, value)
    elif digit.kind == "relay":
        yield f"push {digit.name}" if stage == OFF else f"{digit.name} left {digit.values[value]}"
    elif digit.kind == "control" and digit.springs_to is not None:
        yield f"hold {digit.name} {digit.values[value]}"
    else:
        yield digit_words(circuit, number, value)


def _limits(circuit: Circuit, number: int, zone: int) -> Iterator[str]:
    """How its limits stand with an axis in a zone."""
    axis = next(place for place, one in enumerate(circuit.axes) if one.digit == number)
    for limit in circuit.limits:
        if limit.axis == axis:
            yield f"{limit.name} {'pressed' if zone in limit.zones else 'free'}"


def point_words(point: Point) -> str:
    """Where to look, and with what."""
    if point.kind == "ohms":
        return f"ohms, {point.red} to {point.black}"
    if point.kind == "diode":
        return f"diode range, red on {point.red}, black on {point.black}"
    if point.kind == "volts":
        return f"volts, red on {point.red}, black on {point.black}"
    return {"relay": f"relay {point.name}", "lamp": point.name, "motor": f"motor {point.name}"}[point.kind]


def reading_words(point: Point, reading: Reading) -> str:
    """What is read or seen."""
    if isinstance(reading, str):
        return SEEN.get(reading, reading)
    if point.kind == "volts":
        return f"{reading:+.1f} V" if abs(reading) >= 0.05 else "0 V"
    if is_open(reading):
        return "open"
    return "beeps" if reading < BEEPS_BELOW else f"{_rounded(reading)} ohm"


def range_words(point: Point, readings: Sequence[Reading]) -> str:
    """The same of readings that can't be told apart, from low to high: "86 to 87.3 ohm"."""
    low, high = reading_words(point, readings[0]), reading_words(point, readings[-1])
    return high if low == high else f"{low.removesuffix(' ohm').removesuffix(' V')} to {high}"


class Proof(NamedTuple):
    """With these faults this is read."""

    reads: str
    faults: tuple[str, ...]


def proofs(point: Point, read: Iterable[tuple[str, Reading]]) -> tuple[Proof, ...]:
    """What faults, by their names, make a point read; together what can't be told apart."""
    pairs = list(read)
    found = []
    for group in alike(reading for _, reading in pairs):
        faults = tuple(name for name, reading in pairs if reading in group)
        found.append(Proof(range_words(point, group), faults))
    return tuple(found)


def _rounded(ohms: float) -> str:
    """Three figures, as a meter has them."""
    return f"{ohms:.3g}" if ohms < 1000 else f"{round(ohms, -int(f'{ohms:e}'.partition('e')[2]) + 2):.0f}"


def names_of(faults: list[str]) -> str:
    """ "A, B and C"."""
    return listed(faults, "and")
