"""Wires: those written as such, those between neighbours in a rung, and those that join a module's ports."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from circuitcheck.circuit.figures import Conditions, WireInfo
from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.model import Conductor, Terminal
from circuitcheck.circuit.resolving import Names, Pair, passage, terminal
from circuitcheck.circuit.wire_words import read_wire_words
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Fit, Fork, Rung, Wire, Word


class End(NamedTuple):
    """A terminal where a rung's item begins or stops, and where the plan says so."""

    terminal: Terminal
    place: Place


class Stretch(NamedTuple):
    """A piece of a rung: where current can come in, and where it leaves."""

    entries: tuple[End, ...]
    exits: tuple[End, ...]


def join_wires(flat: list[Scoped], names: Names, first: int, conditions: Conditions,
               problems: list[Problem]) -> tuple[list[Conductor], list[WireInfo]]:  # fmt: skip
    """Every wire as a conductor, with what is known of it; `first` is the first one's number in the circuit.

    Rungs that share a stretch draw the same wire twice, and a `wire` line may tell the colour of one that a rung draws:
    a rung adds a wire only between terminals that no other joins yet.
    """
    wires: list[Conductor] = []
    infos: list[WireInfo] = []
    rungs: list[Conductor] = []
    for scope, statement in flat:
        if isinstance(statement, Wire):
            wire = _written_wire(statement, scope, names, problems)
            info = read_wire_words(statement, first + len(wires), conditions, problems)
            if wire:
                wires.append(wire)
                infos.append(info)
        elif isinstance(statement, Fit):
            joins = _port_wires(statement, scope, names, problems)
            infos.extend(WireInfo(first + len(wires) + number, 0.0, 0.0, "", "") for number in range(len(joins)))
            wires.extend(joins)
        elif isinstance(statement, Rung):
            rungs.extend(_rung_wires(statement, scope, names, problems))
    joined = {frozenset((wire.tail, wire.head)) for wire in wires}
    for wire in _new_ones(rungs, joined):
        infos.append(WireInfo(first + len(wires), 0.0, 0.0, "", ""))
        wires.append(wire)
    return wires, infos


def _new_ones(rungs: list[Conductor], joined: set[Pair]) -> Iterator[Conductor]:
    for wire in rungs:
        pair = frozenset((wire.tail, wire.head))
        if pair not in joined:
            joined.add(pair)
            yield wire


def _wire(tail: End, head: End, place: Place, problems: list[Problem]) -> Conductor | None:
    if tail.terminal == head.terminal:
        problems.append(Problem(place, f"a wire from {tail.terminal} to itself", "Name two different terminals."))
        return None
    return Conductor(tail.terminal, head.terminal, "wire", "", place)


def _written_wire(wire: Wire, scope: str, names: Names, problems: list[Problem]) -> Conductor | None:
    tail, head = (terminal(end, scope, names, problems) for end in wire.ends)
    if tail is None or head is None:
        return None
    return _wire(End(tail, wire.ends[0].place), End(head, wire.ends[1].place), wire.place, problems)


def _port_wires(fit: Fit, scope: str, names: Names, problems: list[Problem]) -> list[Conductor]:
    found = []
    for port, outer in fit.joins:
        inner = f"{scope}{fit.name.text}.{port.text}"
        end = terminal(outer, scope, names, problems)
        if end is not None and inner in names.parts:
            place = _spanning(port.place, outer.place)
            found.append(_wire(End(inner, port.place), End(end, outer.place), place, problems))
    return [wire for wire in found if wire]


def _rung_wires(rung: Rung, scope: str, names: Names, problems: list[Problem]) -> list[Conductor]:
    if len(rung.items) < 2:
        problems.append(Problem(rung.place, "a rung with a single item", "A rung joins two items at least."))
    found: list[Conductor | None] = []
    stretch = _series(rung.items, scope, names, problems, found)
    # Branches at a rung's very end have no neighbour that would join them to one another.
    for ends in (stretch.entries, stretch.exits) if stretch else ():
        found.extend(_meet(ends[:1], ends[1:], problems))
    return [wire for wire in found if wire]


def _series(items: tuple[Word | Fork, ...], scope: str, names: Names, problems: list[Problem],
            found: list[Conductor | None]) -> Stretch | None:  # fmt: skip
    """Joins neighbours, adding their wires to `found`; None where an item at either end wasn't understood."""
    stretches = [_item(item, scope, names, problems, found) for item in items]
    for before, after in pairwise(stretches):
        if before and after:
            found.extend(_meet(before.exits, after.entries, problems))
    first, last = stretches[0], stretches[-1]
    return Stretch(first.entries, last.exits) if first and last else None


def _item(item: Word | Fork, scope: str, names: Names, problems: list[Problem],
          found: list[Conductor | None]) -> Stretch | None:  # fmt: skip
    if isinstance(item, Word):
        way = passage(item, scope, names, problems)
        return Stretch((End(way[0], item.place),), (End(way[1], item.place),)) if way else None
    branches = [_series(branch, scope, names, problems, found) for branch in item.branches]
    known = [branch for branch in branches if branch]
    entries = tuple(end for branch in known for end in branch.entries)
    exits = tuple(end for branch in known for end in branch.exits)
    return Stretch(entries, exits) if known else None


def _meet(left: tuple[End, ...], right: tuple[End, ...], problems: list[Problem]) -> Iterator[Conductor | None]:
    """Wires that make one of all these ends: as many as needed, not one for each pair."""
    if left and right:
        pairs = [(left[0], end) for end in right] + [(end, right[0]) for end in left[1:]]
        for tail, head in pairs:
            yield _wire(tail, head, _spanning(tail.place, head.place), problems)


def _spanning(one: Place, other: Place) -> Place:
    first, last = sorted((one, other))
    return Place(first.file, first.line, first.column, last.end_line, last.end_column)
