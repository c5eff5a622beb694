"""Turns of phrase that several messages share."""

from collections.abc import Iterable
from pathlib import Path

from circuitcheck.circuit.model import Circuit, PartInfo
from circuitcheck.plan.nearest import nearest

FORMS = ("spst", "dpst", "spdt", "dpdt", "3pdt", "4pdt")


def listed(items: Iterable[str], conjunction: str) -> str:
    """ "volts, amps and `stall`"."""
    all_items = list(items)
    if len(all_items) < 2:
        return "".join(all_items)
    return f"{', '.join(all_items[:-1])} {conjunction} {all_items[-1]}"


def suggestion(word: str, known: Iterable[str]) -> str:
    """The nearest known names, at most four; where none is near, what there is."""
    names = list(known)
    near = nearest(word, names)
    if near:
        return f"Nearest: {', '.join(near)}."
    if not names:
        return "There is none yet."
    return f"There is {shortened(names)}."


def shortened(names: list[str]) -> str:
    """The names with blanks between, those after the twelfth only counted."""
    shown = " ".join(names[:12])
    return shown if len(names) <= 12 else f"{shown} and {len(names) - 12} more"


def name_and_title(circuit: Circuit) -> tuple[str, str]:
    """What the plan calls itself, else its file; and the same with what it says that it is."""
    name = circuit.name or Path(circuit.file).stem
    return name, f"{name}: {circuit.label}" if circuit.label else name


def sentence(text: str) -> str:
    """The text with a capital first letter, the others as they are."""
    return text[:1].upper() + text[1:]


def article(noun: str) -> str:
    """ "a relay", "an estop", "an spdt switch"."""
    return f"{'an' if noun.startswith(('a', 'e', 'i', 'o', 'u', 'spst', 'spdt')) else 'a'} {noun}"


def description(info: PartInfo) -> str:
    """ "K1 is a dpdt relay with A1 A2 11 12 14"."""
    form = next((word for word in info.features if word in FORMS), "")
    kind = "outside contact" if info.kind == "outside" else info.kind
    marks = shortened([mark for mark in info.marks if mark])
    return f"{info.name} is {article(f'{form} {kind}'.strip())}" + (f" with {marks}" if marks else "")
