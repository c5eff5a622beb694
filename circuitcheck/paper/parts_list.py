"""What has to be bought: parts counted up by what they are, and what they must stand where the plan doesn't say."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.part_words import part_words
from circuitcheck.sizing.sized import NOT_DECLARED, TOO_SMALL
from circuitcheck.sizing.sizing import Sizing


class Item(NamedTuple):
    """Parts that are alike, by name. labels: what the plan calls each besides, "" where it doesn't. must_carry: the
    most amperes that the contacts, pins or diode of any of them see, where the plan's rating is missing or too small; 0
    for none."""

    what: str
    names: tuple[str, ...]
    labels: tuple[str, ...]
    must_carry: float


def parts_list(circuit: Circuit, sizing: Sizing | None) -> tuple[Item, ...]:
    """Everything but wires, in the plan's order. An axis is built, not bought. sizing: None where it has no answer."""
    alike: dict[str, list[str]] = {}
    for info in circuit.parts.values():
        if info.kind != "axis":
            alike.setdefault(part_words(circuit, info), []).append(info.name)
    needed = _needed(sizing) if sizing else {}
    return tuple(
        Item(what, tuple(names), tuple(circuit.parts[name].label for name in names),
             max(needed.get(name, 0.0) for name in names))
        for what, names in alike.items()
    )  # fmt: skip


def _needed(sizing: Sizing) -> dict[str, float]:
    """The amperes that sizing asks of a part, by its name; a contact's name is its part's with its marks."""
    found: dict[str, float] = {}
    for one in sizing.parts:
        if one.kind in ("contacts", "pins", "diode") and one.verdict in (NOT_DECLARED, TOO_SMALL):
            part = one.name if one.name in sizing.circuit.parts else one.name.rpartition(".")[0]
            found[part] = one.needs
    return found
