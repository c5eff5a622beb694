"""Circuits changed in a way that changes no verdict: what the laws of test_laws.py are about."""

from collections.abc import Callable
from random import Random
from typing import Any

from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit, Closed, Conductor, PartInfo


def with_terminals(value: Any, other: Callable[[str], str]) -> Any:
    """Whatever it is made of, with every name put through `other`."""
    if isinstance(value, str):
        return other(value)
    if isinstance(value, tuple):
        parts = [with_terminals(part, other) for part in value]
        return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    if isinstance(value, frozenset):
        return frozenset(with_terminals(part, other) for part in value)
    if isinstance(value, dict):
        return {with_terminals(key, other): with_terminals(part, other) for key, part in value.items()}
    return value


def renamed(circuit: Circuit, names: dict[str, str]) -> Circuit:
    """Every part under another name; `names` has one for each."""

    def other(text: str) -> str:
        part = text
        while part and part not in names:
            part = part.rpartition(".")[0]
        return names[part] + text[len(part) :] if part else text

    kept = circuit._replace(file="", conditions=type(circuit.conditions)())
    changed: Circuit = with_terminals(kept, other)
    return changed._replace(file=circuit.file, conditions=circuit.conditions, parts=_kinds_kept(circuit, changed))


def _kinds_kept(before: Circuit, after: Circuit) -> dict[str, PartInfo]:
    """A part may be named like a word of the catalogue."""
    pairs = zip(before.parts.values(), after.parts.items(), strict=True)
    return {name: new._replace(kind=old.kind, marks=old.marks, ratings=old.ratings) for old, (name, new) in pairs}


def wires_turned(circuit: Circuit) -> Circuit:
    """Every wire with its ends swapped."""
    return circuit._replace(
        conductors=tuple(
            one._replace(tail=one.head, head=one.tail) if one.kind == "wire" else one for one in circuit.conductors
        )
    )


def wires_split(circuit: Circuit, which: Random) -> Circuit:
    """Some wires led over a splice of their own, halfway."""
    conductors, parts = list(circuit.conductors), dict(circuit.parts)
    wires = {info.conductor: info for info in circuit.wires}
    for number, one in enumerate(circuit.conductors):
        if one.kind == "wire" and which.random() < 0.5:
            name = f"SPLIT{number}"
            parts[name] = PartInfo(name, "splice", "", ("",), frozenset(), {}, one.place)
            conductors[number] = one._replace(head=name)
            conductors.append(one._replace(tail=name))
            info = wires.get(number, WireInfo(number, 0.0, 0.0, "", ""))
            half = (info.metres or circuit.conditions.metres) / 2
            wires[number] = info._replace(metres=half)
            wires[len(conductors) - 1] = info._replace(conductor=len(conductors) - 1, metres=half)
    return circuit._replace(conductors=tuple(conductors), parts=parts, wires=tuple(wires.values()))


def mirrored(circuit: Circuit) -> Circuit:
    """Every axis counted from its other end: what was its bottom is its top. Without promises, which name places."""
    last = {axis.digit: len(circuit.digits[axis.digit].values) - 1 for axis in circuit.axes}

    def zones(digit: int, values: frozenset[int]) -> frozenset[int]:
        return frozenset(last[digit] - value for value in values) if digit in last else values

    def contact(one: Conductor) -> Conductor:
        closed = one.closed and Closed(one.closed.digit, zones(*one.closed))
        return one._replace(closed=closed)

    return circuit._replace(
        promises=(),
        requirements=(),
        digits=tuple(
            digit._replace(values=digit.values[::-1]) if number in last else digit
            for number, digit in enumerate(circuit.digits)
        ),
        conductors=tuple(contact(one) for one in circuit.conductors),
        axes=tuple(
            axis._replace(
                places=axis.places[::-1], range=(last[axis.digit] - axis.range[1], last[axis.digit] - axis.range[0])
            )
            for axis in circuit.axes
        ),
        limits=tuple(one._replace(zones=zones(circuit.axes[one.axis].digit, one.zones)) for one in circuit.limits),
        motors=tuple(one._replace(upward=not one.upward) if one.axis is not None else one for one in circuit.motors),
    )


def poles_exchanged(circuit: Circuit) -> Circuit:
    """+ and − of every supply exchanged, and what minds the direction of current turned: diodes, motors' brushes."""
    brushes = {winding.load for motor in circuit.motors for winding in motor.windings}
    return circuit._replace(
        supplies=tuple(one._replace(plus=one.minus, minus=one.plus) for one in circuit.supplies),
        conductors=tuple(
            one._replace(tail=one.head, head=one.tail) if one.one_way else one for one in circuit.conductors
        ),
        loads=tuple(
            one._replace(a=one.b, b=one.a) if number in brushes else one for number, one in enumerate(circuit.loads)
        ),
        motors=tuple(
            one._replace(windings=tuple(w._replace(plus=w.minus, minus=w.plus) for w in one.windings))
            for one in circuit.motors
        ),
        suppressors=tuple(
            one._replace(a=one.b, b=one.a) if one.kind == "diode" else one for one in circuit.suppressors
        ),
    )
