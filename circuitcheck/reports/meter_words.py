"""What is read on a meter, as people type it and as a bench sheet prints it.

    160 ohm from K1.A1 to K1.A2          6.1 V at M1.+ M1.-
    no continuity from F1.1 to F1.2      12 V at L1
    ohms, F1.1 to F1.2: beeps            diode range, red on D1.anode, black on D1.cathode: open

Volts count from the first terminal, where the red lead is, to the second.
"""

import re
from math import inf
from typing import Final, NamedTuple

from circuitcheck.analysis.bench.readings import LEAST_VOLTS, OVERLOAD, PASSES, Point, Reading
from circuitcheck.analysis.bench.symptoms import Observation
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.circuit.wording import suggestion
from circuitcheck.reports.table_asking import Unanswerable

WORDS: Final[dict[str, Reading]] = {
    "no continuity": inf, "continuity": 0.0, "no beep": inf, "beeps": 0.0, "beep": 0.0, "open": inf, "ol": inf,
    "a diode's volts": PASSES, "diode": PASSES, "current limit": OVERLOAD, "limit": OVERLOAD,
}  # fmt: skip
NUMBER: Final = r"[+-]?\d+(?:\.\d+)?"
UNIT: Final = r"kohm|mohm|ohms?|kΩ|mΩ|Ω|mv\b|volts?|v\b"
FIGURE: Final = rf"(?:{NUMBER}\s*(?:to|\.\.)\s*)?{NUMBER}\s*(?:{UNIT})"
READING: Final = rf"(?P<reading>{FIGURE}|{'|'.join(WORDS)})"
END: Final = r"[^\s,;:()]+"
FIRST: Final = re.compile(
    rf"{READING}\s+(?:from|at|between|on|across|over)\s+(?P<red>{END})(?:\s*(?:,|to\b|and\b)?\s*(?P<black>{END}\.{END}))?",
    re.IGNORECASE,
)
LAST: Final = re.compile(
    rf"(?P<kind>ohms|diode range|volts)\s*,?\s*(?:red on\s+)?(?P<red>{END})\s*(?:,|to\b|and\b)\s*(?:black on\s+)?"
    rf"(?P<black>{END})\s*(?P<set>\([^)]*\))?\s*:\s*{READING}",
    re.IGNORECASE,
)
TIMES: Final = {"k": 1e3, "K": 1e3, "M": 1e6, "m": 1e-3}
"""By a unit's first letter, in which case counts: 1.2 Mohm is next to open, 1.2 mohm a wire."""

LEAKAGE_OHMS: Final = 1e6
"""What damp, dirt and fingers let through may be all that is read there. Common practice, no source."""


class Measured(NamedTuple):
    """readings: of a meter. rest: the text without them."""

    readings: tuple[Observation, ...]
    rest: str


def measured_in(circuit: Circuit, text: str) -> Measured:
    """The meter's readings in a text. Unanswerable where a terminal isn't known, or can't be touched."""
    found: list[Observation] = []

    def taken(match: re.Match[str]) -> str:
        said = match.groupdict()
        kind = _kind(said.get("kind") or "", said["reading"])
        red, black = _ends(circuit, said["red"], said["black"])
        point = Point(kind, f"{red} to {black}" if kind == "volts" else "", red, black)
        found.append(Observation(point, read_as(kind, said["reading"])))
        return f", {(said.get('set') or '').strip('()')}, "

    rest = FIRST.sub(taken, LAST.sub(taken, text))
    return Measured(tuple(found), rest)


def read_as(kind: str, text: str) -> frozenset[Reading]:
    """What a meter shows at a point of this kind, in words or as a figure with or without its unit, or a range of them;
    empty where it is not understood."""
    text = text.strip()
    if text.lower() in WORDS:
        return frozenset({WORDS[text.lower()]})
    figure = rf"(?:({NUMBER})\s*(?:to|\.\.)\s*)?({NUMBER})\s*({UNIT}|k?)"
    match = re.fullmatch(figure, text, re.IGNORECASE)
    if match is None:
        return frozenset()
    times = TIMES.get(match[3][:1], 1.0)
    figures = [times * float(one) for one in (match[1], match[2]) if one]
    # A supply in its current limit gives next to no volts.
    dead = kind == "volts" and any(abs(one) < LEAST_VOLTS for one in figures)
    leaks = kind != "volts" and any(one >= LEAKAGE_OHMS for one in figures)
    return frozenset([*figures, *([OVERLOAD] if dead else []), *([inf] if leaks else [])])


def _kind(said: str, reading: str) -> str:
    """Of the point, by what is said or else by the unit."""
    said, reading = said.lower(), reading.lower()
    if said == "volts" or re.search(r"\d\s*(mv|v(olts?)?)$", reading):
        return "volts"
    return "diode" if said == "diode range" or WORDS.get(reading) == PASSES else "ohms"


def _ends(circuit: Circuit, red: str, black: str | None) -> tuple[Terminal, Terminal]:
    """The two terminals: named in full, as K1.A1-A2, or as a load with two ends."""
    if black is None:
        load = next((one for one in circuit.loads if one.name == red), None)
        if load is not None:
            return load.a, load.b
        head, dash, mark = red.rpartition("-")
        if not dash or not mark:
            raise Unanswerable(f'"{red}" is one end; say both, like "12 V from {red} to PS.-".')
        red, black = head, f"{head.rpartition('.')[0]}.{mark}"
    if red == black:
        raise Unanswerable(f'both leads are on {red}; say two ends, like "12 V from {red} to PS.-".')
    touched = wired_terminals(circuit)
    for end in (red, black):
        if end not in touched:
            known = [one for part in circuit.parts.values() for one in part.terminals if one in touched]
            raise Unanswerable(f"no wired terminal {end} in {circuit.file}. {suggestion(end, known)}")
    return red, black
