"""What is seen of two circuits: in which states each motor, lamp and common relay does what, in either.

A motor or lamp that only one circuit has counts as standing still or dark in the other. A relay that only one has is
not seen. All sets stand over the digits of SideBySide.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.devices import DRIVEN_SHARE, at_least
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.states import States, union
from circuitcheck.analysis.travel import driven

Cells = dict[str, States]
"""In which states a device does what, in a word; words exclude each other and leave no state out."""

STANDING = "not driven"
SUPPLIES = "supplies"


class Seen(NamedTuple):
    """kind: "motor", "lamp", "buzzer", "solenoid", "relay", "axis" or "supply". name: in old, else in new."""

    name: str
    kind: str
    old: Cells
    new: Cells

    @property
    def digits(self) -> frozenset[int]:
        """What it depends on in either circuit."""
        return digits_of(*self.old.values(), *self.new.values())

    @property
    def same(self) -> bool:
        """Does it do the same in every state?"""
        nothing = next(iter(self.old.values())).spaces.none()
        words = self.old.keys() | self.new.keys()
        return all(self.old.get(word, nothing).same_as(self.new.get(word, nothing)) for word in words)


def seen_devices(
    old: Facts, new: Facts, parts: dict[str, str], relays: tuple[tuple[int, int], ...]
) -> tuple[Seen, ...]:
    """Everything that is seen, in old's order, then what only new has. parts: from match_parts; relays: by numbers."""
    seen = [*_pairs(_motors(old), _motors(new), parts), *_pairs(_lamps(old), _lamps(new), parts)]
    for left, right in relays:
        name = old.circuit.relays[left].name
        seen.append(Seen(name, "relay", _positions(old, left), _positions(new, right)))
    seen += _pairs(_axes(old), _axes(new), parts)
    shorted = Seen(SUPPLIES, "supply", _yes_or_no(old.shorted, "shorted"), _yes_or_no(new.shorted, "shorted"))
    return (*seen, shorted) if old.shorted or new.shorted else tuple(seen)


Named = dict[str, tuple[str, Cells]]
"""By name the kind of a device and what it does."""


def _pairs(old: Named, new: Named, parts: dict[str, str]) -> Iterable[Seen]:
    taken = set()
    for name, (kind, cells) in old.items():
        other = parts.get(name, "")
        taken.add(other)
        yield Seen(name, kind, cells, new[other][1]) if other in new else Seen(name, kind, _coarse(cells), _idle(cells))
    for name, (kind, cells) in new.items():
        if name not in taken:
            yield Seen(name, kind, _idle(cells), _coarse(cells))


_IDLE = ("braked", "braked one way", "coasting", "weak")


def _coarse(cells: Cells) -> Cells:
    """All that a motor does without being driven is one. (A buzzer may be weak as well.)"""
    if "coasting" not in cells:
        return cells
    idle = union((states for word, states in cells.items() if word in _IDLE), next(iter(cells.values())).spaces.none())
    return {word: states for word, states in cells.items() if word not in _IDLE} | {STANDING: idle}


def _idle(cells: Cells) -> Cells:
    """What a device that isn't there does."""
    everywhere = next(iter(cells.values())).spaces.all()
    return {next(word for word in (STANDING, "dark", "off", "stands") if word in _coarse(cells)): everywhere}


def _motors(facts: Facts) -> Named:
    found: Named = {}
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        cells = does.named()
        if len(motor.windings) > 1:
            enough = at_least(facts.volts[motor.windings[1].load], DRIVEN_SHARE * motor.volts, facts.spaces)
            for word in ("forward", "reverse"):
                fast = cells[word] & union(enough, facts.spaces.none())
                cells[word], cells[f"{word} fast"] = (cells[word] - fast).tight(), fast.tight()
        found[motor.name] = "motor", cells
    return found


def _lamps(facts: Facts) -> Named:
    found: Named = {}
    for number, does in facts.lamps.items():
        load = facts.circuit.loads[number]
        words = ("lit", "glows", "dark") if load.kind == "lamp" else ("on", "weak", "off")
        found[load.part] = load.kind, dict(zip(words, does, strict=True))
    return found


def _positions(facts: Facts, relay: int) -> Cells:
    digit = facts.circuit.relays[relay].digit
    words = facts.circuit.digits[digit].values
    return {word: facts.spaces.where(digit, (value,)) for value, word in enumerate(words)}


def _axes(facts: Facts) -> Named:
    """Where motors drive each axis; one that none drives is not seen to move."""
    found: Named = {}
    for number, axis in enumerate(facts.circuit.axes):
        up, down = driven(facts, number, 1), driven(facts, number, -1)
        toward = (axis.places[-1], axis.places[0])
        words = ("turns on", "turns back") if axis.turning else tuple(f"goes toward {place}" for place in toward)
        found[axis.name] = (
            "axis",
            {
                words[0]: up - down,
                words[1]: down - up,
                "is pulled both ways": up & down,
                "stands": ~(up | down),
            },
        )
    return found


def _yes_or_no(states: States, word: str) -> Cells:
    return {word: states, f"not {word}": ~states}
