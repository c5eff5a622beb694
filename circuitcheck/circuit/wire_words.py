"""What stands behind a wire's colon: gauge, length, what its insulation stands, colour and number, in any order."""

from circuitcheck.circuit.figures import Conditions, WireInfo
from circuitcheck.circuit.surroundings import insulation_amiss, length_amiss
from circuitcheck.circuit.units import measure, noun, written
from circuitcheck.circuit.wording import suggestion
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Wire

COLOURS = (
    "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink", "turquoise",
    "silver", "gold", "purple", "gray", "clear",
)  # fmt: skip
"""The names of IEC 60757, and a few that wire is sold by. Two of them with a stroke between name a striped wire."""


def read_wire_words(wire: Wire, conductor: int, conditions: Conditions, problems: list[Problem]) -> WireInfo:
    """Judges what is said of a wire; zeros and "" for what isn't."""
    measures = _measures(wire, conditions, problems)
    words = _words(wire, problems)
    area, metres, celsius = (measures.get(dimension, 0.0) for dimension in ("mm2", "metres", "celsius"))
    return WireInfo(conductor, area, metres, words.get("colour", ""), words.get("number", ""), celsius)


def _measures(wire: Wire, conditions: Conditions, problems: list[Problem]) -> dict[str, float]:
    """The wire's quantities by dimension, each once."""
    measures: dict[str, float] = {}
    for quantity in wire.quantities:
        found = measure(quantity)
        if isinstance(found, Problem):
            problems.append(found)
        elif found.dimension not in ("mm2", "metres", "celsius"):
            what = f"{written(quantity)} where a gauge, a length or what the insulation stands (°C) is expected"
            problems.append(Problem(quantity.place, what, "Write e.g. `: 1.5 mm2 red 0.4 m 105 °C`, or `18 AWG`."))
        elif found.dimension in measures:
            what = f"{noun(found.dimension)} is given twice: {written(quantity)}"
            problems.append(Problem(quantity.place, what, "Keep one of them."))
        elif found.low != found.high:
            what = f"the range {written(quantity)} where one value is expected"
            problems.append(Problem(quantity.place, what, "Write one number."))
        else:
            measures[found.dimension] = found.high
            if found.dimension == "celsius":
                problems.extend(insulation_amiss(found.high, conditions, quantity.place))
            elif found.dimension == "metres":
                problems.extend(length_amiss(found))
    return measures


def _words(wire: Wire, problems: list[Problem]) -> dict[str, str]:
    """The wire's colour and its number; a number is a word with a digit in it."""
    found: dict[str, str] = {}
    for word in wire.words:
        is_colour = all(part in COLOURS for part in word.text.split("/"))
        if not is_colour and not any(letter.isdigit() for letter in word.text):
            help = f"{suggestion(word.text, COLOURS)} A wire's number has a digit in it, like w12."
            problems.append(Problem(word.place, f"no colour {word.text}", help))
            continue
        which = "colour" if is_colour else "number"
        if which in found:
            what = f"a second {which} for one wire: {word.text}"
            help = f"The {which} {found[which]} is given already; keep one of them."
            problems.append(Problem(word.place, what, help))
        found.setdefault(which, word.text)
    return found
