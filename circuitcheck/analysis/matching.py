"""Which part of one circuit is which part of another: by name first, then by its place in the wiring.

What stays without a namesake is told apart step by step by what it is wired to (colour refinement: a part's colour is
its kind and the colours of all that it is soldered to, and theirs, and so on). Parts whose colours agree, alone on
either side, are one part under two names. A match is only what is supposed; whether both circuits behave alike is
worked out afterwards, whatever was supposed.
"""

from collections.abc import Hashable
from typing import Final, NamedTuple

from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.model import Circuit, PartInfo

JOINING: Final = frozenset({"splice", "strip", "port"})
"""Kinds that only hold wires together: what is wired to what doesn't depend on them."""

_FAMILIES: Final = {"estop": "button", "cam": "limit"}
_WIRES: Final = frozenset({"wire"})
_DEPTHS: Final = (8, 4, 2, 1)


class _Wiring(NamedTuple):
    """parts: what is fastened to each, as (mark, net). nets: what each net holds, as (part, mark)."""

    parts: dict[str, list[tuple[str, Hashable]]]
    nets: dict[Hashable, list[tuple[str, str]]]


def match_parts(old: Circuit, new: Circuit) -> dict[str, str]:
    """The new name of each part of `old` that is in `new` as well, under the same name or another."""
    matched = {
        name: name
        for name, part in old.parts.items()
        if name in new.parts and _family(part) == _family(new.parts[name])
    }
    wirings = (_wiring(old), _wiring(new))
    while len(matched) < min(len(old.parts), len(new.parts)):
        found = _found(old, new, wirings, matched)
        if not found:
            break
        matched.update(found)
    return {name: matched[name] for name in old.parts if name in matched}


def match_words(old: tuple[str, ...], new: tuple[str, ...]) -> dict[str, str]:
    """The new word of each old one: the same where it is there; the others in order, if there are as many."""
    matched = {word: word for word in old if word in new}
    left, right = [word for word in old if word not in new], [word for word in new if word not in old]
    if len(left) == len(right):
        matched.update(zip(left, right, strict=True))
    return matched


def _family(part: PartInfo) -> str:
    return _FAMILIES.get(part.kind, part.kind)


def _wiring(circuit: Circuit) -> _Wiring:
    """Axes hang together with what they press and what drives them as if soldered."""
    joined = joined_terminals(circuit, _WIRES)
    fastened: list[tuple[str, str, Hashable]] = [
        (part.name, mark, joined[terminal])
        for part in circuit.parts.values()
        for mark, terminal in zip(part.marks, part.terminals, strict=True)
    ]
    for number, axis in enumerate(circuit.axes):
        fastened.append((axis.name, "axis", ("axis", number)))
    for limit in circuit.limits:
        fastened.append((limit.name, f"pressed {sorted(limit.zones)}", ("axis", limit.axis)))
    for motor in circuit.motors:
        if motor.axis is not None:
            fastened.append((motor.name, "up" if motor.upward else "down", ("axis", motor.axis)))
    wiring = _Wiring({name: [] for name in circuit.parts}, {})
    for name, mark, net in fastened:
        wiring.parts[name].append((mark, net))
        if circuit.parts[name].kind not in JOINING:
            wiring.nets.setdefault(net, []).append((name, mark))
    return wiring


def _found(old: Circuit, new: Circuit, wirings: tuple[_Wiring, _Wiring], matched: dict[str, str]) -> dict[str, str]:
    """More matches: where colours agree, looked at as far around as possible; else one of several equal parts; else
    where most of a part's terminals are wired alike."""
    for depth in _DEPTHS:
        classes = _classes(old, new, wirings, matched, depth)
        alone = {left[0]: right[0] for left, right in classes if len(left) == len(right) == 1}
        if alone:
            return alone
        if depth == _DEPTHS[0]:
            equal = {left[0]: right[0] for left, right in classes if len(left) == len(right)}
            if equal:
                first = next(iter(equal))
                return {first: equal[first]}
    return _mostly_alike(old, new, wirings, matched)


def _classes(
    old: Circuit, new: Circuit, wirings: tuple[_Wiring, _Wiring], matched: dict[str, str], depth: int
) -> list[tuple[list[str], list[str]]]:
    """The parts without a match that have one colour, on either side."""
    left = _colours(old, wirings[0], {name: name for name in matched}, depth)
    right = _colours(new, wirings[1], {after: before for before, after in matched.items()}, depth)
    taken = set(matched.values())
    by_colour: dict[Hashable, tuple[list[str], list[str]]] = {}
    for name, colour in left.items():
        if name not in matched:
            by_colour.setdefault(colour, ([], []))[0].append(name)
    for name, colour in right.items():
        if name not in taken:
            by_colour.setdefault(colour, ([], []))[1].append(name)
    return list(by_colour.values())


def _colours(circuit: Circuit, wiring: _Wiring, known: dict[str, str], depth: int) -> dict[str, int]:
    """A number for each part. Hashes stand for the colours, so that those of two circuits compare; where two colours
    should have one hash, a wrong match is supposed and the comparison goes on from it."""
    colours = {
        name: hash(("known", known[name]) if name in known else (_family(part), part.marks))
        for name, part in circuit.parts.items()
    }
    for _ in range(depth):
        nets = {net: hash(tuple(sorted((colours[part], mark) for part, mark in on))) for net, on in wiring.nets.items()}
        colours = {
            name: colour
            if name in known
            else hash((colour, tuple((mark, nets.get(net)) for mark, net in wiring.parts[name])))
            for name, colour in colours.items()
        }
    return colours


def _mostly_alike(
    old: Circuit, new: Circuit, wirings: tuple[_Wiring, _Wiring], matched: dict[str, str]
) -> dict[str, str]:
    """The one pair of a kind of which more than half of the wired terminals lie on the same known terminals."""
    left = _neighbours(wirings[0], {name: name for name in matched})
    right = _neighbours(wirings[1], {after: before for before, after in matched.items()})
    taken = set(matched.values())
    best: dict[str, str] = {}
    most = 0.5
    for name, part in old.parts.items():
        for other, its in new.parts.items():
            if name in matched or other in taken or _family(part) != _family(its):
                continue
            marks = left[name].keys() | right[other].keys()
            same = sum(left[name].get(mark) == right[other].get(mark) for mark in marks)
            if marks and same / len(marks) > most:
                best, most = {name: other}, same / len(marks)
    return best


def _neighbours(wiring: _Wiring, known: dict[str, str]) -> dict[str, dict[str, frozenset[tuple[str, str]]]]:
    """For each part and mark, the terminals of known parts on its net; nets without any are left out."""
    found: dict[str, dict[str, frozenset[tuple[str, str]]]] = {}
    for name, ends in wiring.parts.items():
        around = {
            mark: frozenset(
                (known[part], at) for part, at in wiring.nets.get(net, ()) if part in known and part != name
            )
            for mark, net in ends
        }
        found[name] = {mark: terminals for mark, terminals in around.items() if terminals}
    return found
