"""Which parts and wires of a plan changed: added, taken away, renamed, described or soldered otherwise."""

from collections import Counter
from collections.abc import Iterator
from itertools import chain
from typing import Final, NamedTuple

from circuitcheck.analysis.matching import JOINING, match_words
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit, PartInfo, Terminal

_UNITS: Final = {
    "amps": "A", "volts": "V", "ohms": "ohm", "watts": "W", "henries": "H", "degrees": "deg", "seconds": "s",
    "newton_metres": "N m", "metres": "m", "kg_m2": "kg m2", "rpm": "rpm", "ratio": ":1",
}  # fmt: skip
"""What names of ratings end with, longer ones before those that they end with themselves."""

_TOLD_OF_RELAYS: Final = frozenset({"operate_volts", "release_volts", "operate_seconds", "release_seconds"})
"""Ratings that are told as what they come to, as `operates from` and `operates in`."""


class PartChange(NamedTuple):
    """old, new: the part's names, "" where it isn't there. details: what of it changed, in words."""

    kind: str
    old: str
    new: str
    details: tuple[str, ...]


class WireChange(NamedTuple):
    """old, new: the wire's ends in either plan, "" where it isn't there. details: what of it changed, in words."""

    old: str
    new: str
    details: tuple[str, ...]


class WiringChanges(NamedTuple):
    """same_joins: the terminals that both plans have are joined as before, whatever wires do it."""

    wires: tuple[WireChange, ...]
    same_joins: bool


def changed_parts(old: Circuit, new: Circuit, parts: dict[str, str]) -> tuple[PartChange, ...]:
    """Every part that is not as before. parts: from match_parts."""
    kept = set(parts.values())
    found = []
    for name, part in old.parts.items():
        if name not in parts:
            found.append(PartChange(part.kind, name, "", ()))
            continue
        other = new.parts[parts[name]]
        details = tuple(_differing(_described(old, part), _described(new, other)))
        if details or name != other.name:
            found.append(PartChange(other.kind, name, other.name, details))
    return (*found, *(PartChange(part.kind, "", name, ()) for name, part in new.parts.items() if name not in kept))


def _differing(before: dict[str, str], after: dict[str, str]) -> Iterator[str]:
    for name in dict.fromkeys(chain(before, after)):
        left, right = before.get(name, "none"), after.get(name, "none")
        if left != right:
            yield f"{_about(name)} {left} → {right}".strip()


def _described(circuit: Circuit, part: PartInfo) -> dict[str, str]:
    """Everything that the plan says of a part, by what it is about; ratings by their names."""
    words = {"kind": part.kind, "form": " ".join(part.features), "label": f'"{part.label}"' if part.label else ""}
    for name in (one for one in part.ratings if one not in _TOLD_OF_RELAYS):
        words[name] = f"{part.ratings[name]:g} {_UNITS.get(_unit(name), '')}".strip()
    built_in = [one.kind for one in circuit.suppressors if one.part == part.name and one.built_in]
    words["built in"] = ", ".join(built_in)
    for digit in circuit.digits:
        if digit.name == part.name and digit.kind == "control":
            words["positions"] = ", ".join(digit.values)
    for axis in circuit.axes:
        if axis.name == part.name:
            words["places"] = ", ".join(axis.places)
    for limit in circuit.limits:
        if limit.name == part.name:
            zones = circuit.digits[circuit.axes[limit.axis].digit].values
            words["pressed"] = (
                f"{circuit.axes[limit.axis].name} {', '.join(zones[zone] for zone in sorted(limit.zones))}"
            )
    for motor in circuit.motors:
        if motor.name == part.name and motor.axis is not None:
            words["drives"] = f"{circuit.axes[motor.axis].name} {'up' if motor.upward else 'down'} its places"
    for relay in circuit.relays:
        if relay.name == part.name:
            words["operates from"], words["releases below"] = (
                f"{relay.coil.operate_volts:g} V",
                f"{relay.coil.release_volts:g} V",
            )
            words["operates in"], words["releases in"] = (
                _milliseconds(relay.operate_seconds),
                _milliseconds(relay.release_seconds),
            )
    return {label: text for label, text in words.items() if text}


def _unit(name: str) -> str:
    """ "volts" for coil_volts, "" for what isn't measured."""
    return next((unit for unit in _UNITS if name == unit or name.endswith(f"_{unit}")), "")


def _about(name: str) -> str:
    """ "coil" for coil_volts, "" for amps, "ways" for ways."""
    return name.removesuffix(_unit(name)).replace("_", " ").strip()


def _milliseconds(seconds: tuple[float, float] | None) -> str:
    return "" if seconds is None else f"{1000 * seconds[0]:g} to {1000 * seconds[1]:g} ms"


def changed_wires(old: Circuit, new: Circuit, parts: dict[str, str]) -> WiringChanges:
    """Every wire that is not as before."""
    names = _terminal_names(old, new, parts)
    before, after = _wires(old, {}), _wires(new, names)
    found = []
    for ends in dict.fromkeys(chain(before, after)):
        left, right = before.get(ends, []), after.get(ends, [])
        for number in range(max(len(left), len(right))):
            one, other = left[number : number + 1], right[number : number + 1]
            details = tuple(_differing(_soldered(one[0][1]), _soldered(other[0][1]))) if one and other else ()
            if details or not (one and other):
                found.append(WireChange(one[0][0] if one else "", other[0][0] if other else "", details))
    return WiringChanges(tuple(found), _joins(old, {}, new, names) == _joins(new, names, old, {}))


Ends = frozenset[Terminal]


def _terminal_names(old: Circuit, new: Circuit, parts: dict[str, str]) -> dict[Terminal, Terminal]:
    """Of each of new's terminals the name that old knows it by; one that old lacks gets a name of its own."""
    names = {terminal: f"new {terminal}" for part in new.parts.values() for terminal in part.terminals}
    for name, other in parts.items():
        before, after = old.parts[name], new.parts[other]
        marks = match_words(before.marks, after.marks)
        for mark, terminal in zip(before.marks, before.terminals, strict=True):
            if mark in marks:
                names[after.terminals[after.marks.index(marks[mark])]] = terminal
    return names


def _wires(circuit: Circuit, names: dict[Terminal, Terminal]) -> dict[Ends, list[tuple[str, WireInfo]]]:
    found: dict[Ends, list[tuple[str, WireInfo]]] = {}
    for wire in circuit.wires:
        conductor = circuit.conductors[wire.conductor]
        ends = frozenset(names.get(end, end) for end in (conductor.tail, conductor.head))
        found.setdefault(ends, []).append((f"{conductor.tail} to {conductor.head}", wire))
    return found


def _soldered(wire: WireInfo) -> dict[str, str]:
    words = {
        "": f"{wire.area_mm2:g} mm2" if wire.area_mm2 else "",
        "length": f"{wire.metres:g} m" if wire.metres else "",
        "insulation": f"{wire.insulation_celsius:g} °C" if wire.insulation_celsius else "",
        "colour": wire.colour,
        "number": wire.number,
    }
    return {label: text for label, text in words.items() if text}


def _joins(
    circuit: Circuit, names: dict[Terminal, Terminal], other: Circuit, others: dict[Terminal, Terminal]
) -> Counter[Ends]:
    """How wires group the terminals that both circuits have, splices and the like left out."""
    common = {
        others.get(end, end) for part in other.parts.values() if part.kind not in JOINING for end in part.terminals
    }
    groups: dict[int, set[Terminal]] = {}
    for terminal, net in joined_terminals(circuit, frozenset({"wire"})).items():
        name = names.get(terminal, terminal)
        if name in common:
            groups.setdefault(net, set()).add(name)
    return Counter(frozenset(group) for group in groups.values() if len(group) > 1)
