"""What people say of a box that doesn't work, and of what they read on it: from words to symptoms and readings."""

import re
from collections.abc import Mapping
from math import inf
from typing import Final

from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import OVERLOAD, PASSES, Point, Reading
from circuitcheck.analysis.bench.settings import WITH, Option
from circuitcheck.analysis.bench.symptoms import Observation, Symptom
from circuitcheck.circuit.model import Circuit, Digit
from circuitcheck.circuit.wording import listed, suggestion
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


def understood(circuit: Circuit, text: str) -> Symptom:
    """ "M1 dead when S1 raise, lamp L1 on". Unanswerable where a word of it isn't understood."""
    given: dict[int, tuple[Option, ...]] = {}
    observed = []
    for phrase in re.split(r",|\bwhen\b", text):
        words = [word for word in phrase.split() if word not in ("is", "at")]
        if words[:1] and words[0] in NOUNS:
            words = words[1:]
        if not words:
            continue
        seen = _observation(circuit, words)
        if seen is not None:
            observed.append(seen)
        else:
            given |= _setting(circuit, words)
    if not observed:
        raise Unanswerable(f'"{text}" tells of nothing that is seen. Write it like "M1 dead when S1 raise, L1 on".')
    return Symptom(tuple(sorted(given.items())), tuple(observed))


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
    if word not in meant:
        raise Unanswerable(f'{name} is not seen "{word}". It can be {listed(meant, "or")}.')
    return meant[word]


def _setting(circuit: Circuit, words: list[str]) -> dict[int, tuple[Option, ...]]:
    """What a control, an axis, a supply or a limit stands at: "S1 raise", "tap START", "deck top", "LS1 pressed"."""
    tapped = words[0] == "tap" or words[-1] == "tapped"
    words = [word for word in words if word not in ("tap", "tapped", "hold", "press")] + ["pressed"] * (
        tapped or words[0] in ("hold", "press")
    )
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
    text = text.strip().lower()
    if point.kind in ("motor", "lamp", "relay"):
        return {"motor": MOTOR, "lamp": LAMP, "relay": RELAY}[point.kind].get(text, frozenset())
    words: dict[str, Reading] = {"open": inf, "ol": inf, "beeps": 0.0, "beep": 0.0, "diode": PASSES, "limit": OVERLOAD}
    if text in words:
        return frozenset({words[text]})
    number = re.fullmatch(r"([+-]?\d+(?:\.\d+)?)\s*(k?)\s*(?:ohm|v)?", text)
    return frozenset({float(number[1]) * (1000 if number[2] else 1)}) if number else frozenset()


def answer_words(point: Point) -> str:
    """What can be answered."""
    if point.kind == "ohms":
        return "beeps, open, or ohms"
    if point.kind == "diode":
        return "diode, beeps, open, or ohms"
    if point.kind == "volts":
        return "volts, or limit"
    return listed({"motor": MOTOR, "lamp": LAMP, "relay": RELAY}[point.kind], "or")
