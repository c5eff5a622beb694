"""What people say of a box that doesn't work, and of what they read on it: from words to symptoms and readings."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import OVERLOAD, Point, Reading
from circuitcheck.analysis.bench.settings import OFF, WITH, WITHOUT, Option, rest_of
from circuitcheck.analysis.bench.symptoms import Observation, Symptom
from circuitcheck.circuit.model import Circuit, Digit
from circuitcheck.circuit.wording import listed, suggestion
from circuitcheck.reports.bench_words import SEEN
from circuitcheck.reports.meter_words import measured_in, read_as
from circuitcheck.reports.table_asking import Unanswerable

Meant = Mapping[str, frozenset[Reading]]
"""By word what may be seen then."""


def _meant(**words: str) -> dict[str, frozenset[Reading]]:
    """By each of the words before the readings, which are given like "braked one way/weak"."""
    return {word: frozenset(readings.split("/")) for word, readings in words.items()}


NOT_DRIVEN: Final = f"braked/braked one way/coasting/weak/{OVERLOAD}"
MOTOR: Final = _meant(
    dead=NOT_DRIVEN, stands=NOT_DRIVEN, stopped=NOT_DRIVEN, turns="forward/reverse", runs="forward/reverse",
    forward="forward", reverse="reverse", braked="braked", stiff="braked", coasting="coasting/braked one way",
    coasts="coasting/braked one way", creeps="weak", hums="weak",
)  # fmt: skip
LAMP: Final = _meant(
    on="lit/on", lit="lit/on", off=f"dark/off/{OVERLOAD}", dark=f"dark/off/{OVERLOAD}", dim="glowing/weak",
    glows="glowing/weak",
)  # fmt: skip
RELAY: Final = _meant(
    operated="operated", on="operated", released=f"released/spent/pausing/{OVERLOAD}",
    off=f"released/spent/pausing/{OVERLOAD}", clicks="operated/spent",
)  # fmt: skip
FUSE: Final = _meant(blows=OVERLOAD, blown=OVERLOAD)
NOUNS: Final = ("lamp", "motor", "relay", "switch", "button", "limit", "supply", "fuse", "buzzer", "solenoid", "cam")

DISCONNECTED: Final = ("motor disconnected", "motors disconnected", "disconnected")
HELD: Final = {"hold": "pressed", "press": "pressed", "push": "operated", "tap": "pressed"}
"""What is meant where no position is named."""


def understood(circuit: Circuit, text: str) -> Symptom:
    """ "M1 dead when S1 raise, lamp L1 on", "160 ohm from K1.A1 to K1.A2". Unanswerable where a word of it isn't
    understood."""
    measured = measured_in(circuit, _in_one_word(text))
    given: dict[int, tuple[Option, ...]] = {}
    observed, disconnected, at_rest = [], False, False
    for phrase in re.split(r"[,;()]|\bwhen\b|\bwith\b", measured.rest):
        words = [word for word in phrase.split() if word not in ("is", "at")]
        if words[:1] and words[0] in NOUNS and len(words) > 1:
            words = words[1:]
        if not words:
            continue
        if " ".join(words) in DISCONNECTED:
            disconnected = True
        elif words[0] in ("everything", "all") and words[-1] == "rest":
            at_rest = True
        elif (seen := _observation(circuit, words)) is not None:
            observed.append(seen)
        else:
            given |= _narrowed(circuit, given, _setting(circuit, words))
    stage = _stage(text, measured.readings, observed, disconnected)
    if stage == OFF:
        _refuse_power(circuit, text, given)
    if at_rest or stage == OFF:
        given = _at_rest(circuit, stage, given, relays_only=not at_rest)
    return Symptom(tuple(sorted(given.items())), (*measured.readings, *observed), stage)


def _narrowed(
    circuit: Circuit, given: Mapping[int, tuple[Option, ...]], further: dict[int, tuple[Option, ...]]
) -> dict[int, tuple[Option, ...]]:
    """What is said of a digit, as far as it goes with what was said before: two limits of one axis tell more."""
    found = {number: tuple(one for one in options if one in given.get(number, options)) for number, options in
             further.items()}  # fmt: skip
    for number, options in found.items():
        if not options:
            raise Unanswerable(f"{circuit.digits[number].name} can't stand in two ways at once.")
    return found


def _stage(text: str, measured: Sequence[Observation], seen: Sequence[Observation], disconnected: bool) -> str:
    """What the bench was like: no power for an ohmmeter, no motor where that is said."""
    without_power = [one for one in measured if one.point.kind in ("ohms", "diode")]
    if not measured and not seen:
        raise Unanswerable(f'"{text}" tells of nothing that is seen. Write it like "M1 dead when S1 raise, L1 on".')
    if without_power and (seen or len(without_power) < len(measured)):
        raise Unanswerable(f'"{text}" tells of a box with its power both off and on. Make two of it: --seen, twice.')
    return OFF if without_power else WITHOUT if disconnected else WITH


def _refuse_power(circuit: Circuit, text: str, given: Mapping[int, tuple[Option, ...]]) -> None:
    """Ohms read with a supply on say nothing, and may harm the meter: common practice, no source."""
    on = [one.name for one in circuit.supplies if (0, False) not in given.get(one.digit, ((0, False),))]
    if on:
        raise Unanswerable(
            f'"{text}" tells of ohms that were read with {listed(on, "and")} on. Such a reading means nothing, and the '
            "meter may be damaged. Measure ohms again with the power off, or volts with it on."
        )


def _at_rest(
    circuit: Circuit, stage: str, given: dict[int, tuple[Option, ...]], relays_only: bool
) -> dict[int, tuple[Option, ...]]:
    """With what isn't told at rest: without power nobody pushes a relay who doesn't say so."""
    rest = enumerate(rest_of(circuit, stage).values)
    kinds = ("relay",) if relays_only else tuple({digit.kind for digit in circuit.digits})
    return {number: ((value, False),) for number, value in rest if circuit.digits[number].kind in kinds} | given


def _observation(circuit: Circuit, words: list[str]) -> Observation | None:
    """None where the first word names nothing that is looked at."""
    name, word = words[0], " ".join(words[1:])
    points = {point.name: point for point in points_of(circuit, WITH) if point.kind != "volts"}
    part = circuit.parts.get(name)
    if part is not None and part.kind == "fuse":
        return Observation(points_of(circuit, WITH)[0], _looked_up(FUSE, name, word))
    if name not in points:
        return None
    meant = {"motor": MOTOR, "lamp": LAMP, "relay": RELAY}[points[name].kind]
    return Observation(points[name], _looked_up(meant, name, word))


def _looked_up(meant: Meant, name: str, word: str) -> frozenset[Reading]:
    found = _readings(meant, word)
    if not found:
        raise Unanswerable(f'{name} is not seen "{word}". It can be {listed(meant, "or")}.')
    return found


def _readings(meant: Meant, word: str) -> frozenset[Reading]:
    """By one of the words that people have for it, or that a sheet has; empty where it is neither."""
    exact = frozenset[Reading]().union(*meant.values()) & {word}
    return meant.get(word, exact)


def _in_one_word(text: str) -> str:
    """A sheet's line and what it expects: "motor M1: stands, easy to turn by hand (coasting)" is M1 coasting."""
    for reading, words in sorted(SEEN.items(), key=lambda one: -len(one[1])):
        text = text.replace(f": {words}", f": {reading}")
    return re.sub(r"(?<!\bto )(?<!\bon )(?<!\S)([^\s:)]+):\s", r"\1 ", text)


def _setting(circuit: Circuit, words: list[str]) -> dict[int, tuple[Option, ...]]:
    """What a control, an axis, a supply, a limit or a pushed relay stands at: "S1 raise", "tap START", "deck top", "LS1
    pressed", "push K1"."""
    tapped, done = words[0] == "tap" or words[-1] == "tapped", words[0]
    words = [word for word in words if word not in ("tap", "tapped", "hold", "press", "push", "left")]
    if len(words) == 1 and (tapped or done in HELD):
        words.append(HELD.get(done, "pressed"))
    name, word = words[0], " ".join(words[1:])
    limit = next((one for one in circuit.limits if one.name == name), None)
    if limit is not None:
        axis = circuit.axes[limit.axis]
        zones = range(axis.range[0], axis.range[1] + 1)
        return {axis.digit: tuple((zone, False) for zone in zones if (zone in limit.zones) == (word == "pressed"))}
    names = [digit.name for digit in circuit.digits]
    if name not in names:
        known = [*names, *(point.name for point in points_of(circuit, WITH)), *(one.name for one in circuit.limits)]
        raise Unanswerable(f"no part {name} in {circuit.file}. {suggestion(name, dict.fromkeys(known))}")
    number = names.index(name)
    return {number: ((_value(circuit.digits[number], word), tapped),)}


def _value(digit: Digit, word: str) -> int:
    if word not in digit.values:
        raise Unanswerable(f'{digit.name} has no position "{word}". {suggestion(word, digit.values)}')
    return digit.values.index(word)


def answers(point: Point, text: str) -> frozenset[Reading]:
    """What was read at a point, in words or as a number; empty where it is not understood."""
    if point.kind in ("motor", "lamp", "relay"):
        words = _in_one_word(f": {text.strip().lower()}").strip(": ")
        return _readings({"motor": MOTOR, "lamp": LAMP, "relay": RELAY}[point.kind], words)
    return read_as(point.kind, text)


def answer_words(point: Point) -> str:
    """What can be answered."""
    if point.kind == "ohms":
        return "beeps, open, or ohms"
    if point.kind == "diode":
        return "diode, beeps, open, or ohms"
    if point.kind == "volts":
        return "volts, or limit"
    return listed({"motor": MOTOR, "lamp": LAMP, "relay": RELAY}[point.kind], "or")
