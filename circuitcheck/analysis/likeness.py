"""What a box has several of: modules that are the same but for their names.

Take away what all share, the rails and buses, and a box falls apart into modules: parts, nets and digits that hang
together. Number what each module has in the plan's order. Where two modules come out equal, the box with the two
swapped is the same box. So whatever is true of the one is true of the other, however much of the rest it depends on,
and a question that finds nothing of the one need not be asked of the other.

What this leaves out: modules with the same parts in another order are not seen to be alike. Of wires only counts that
they join a terminal to its net: a question about which wires, their lengths, or names can't be shared. A question about
two things stays the same only while the other one stands still (`other` of `of_each`).
"""

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import NamedTuple, TypeVar

from circuitcheck.analysis.network import Net, Network
from circuitcheck.analysis.wired import wired_terminals
from circuitcheck.circuit.model import Circuit, Coil, PartInfo, Relay, Terminal

Kin = tuple[int, int]
"""Which module a thing is in, the same number for all that are alike, and its place there."""

Point = tuple[str, Hashable]
"""Where things hang together: a net, digit, load or axis by number, a part by name, as ("net", 3)."""


class Thing(NamedTuple):
    """Something at some points of the circuit. traits: all that tells it from others of other names.

    It is number `number` of its kind.
    """

    kind: str
    number: int
    traits: Hashable
    points: tuple[Point, ...]


Asked = TypeVar("Asked")
Found = TypeVar("Found")


def of_each(
    asked: Iterable[Asked], kin: Callable[[Asked], Hashable], ask: Callable[[Asked], Iterator[Found]]
) -> Iterator[Found]:
    """What `ask` finds of each. Where it finds nothing of one, nothing is asked of its kin."""
    faultless: set[Hashable] = set()
    for one in asked:
        if kin(one) in faultless:
            continue
        found = False
        for each in ask(one):
            found = True
            yield each
        if not found:
            faultless.add(kin(one))


class Likeness(NamedTuple):
    """For each thing of a circuit what it is akin to: two of the same kin can be swapped, together with their modules.

    of: by kind ("conductor", "load", "relay", "motor", "axis") and number. at: by point, but for those that all share.
    """

    of: dict[tuple[str, int], Kin]
    at: dict[Point, Kin]

    def of_each(self, kind: str, ask: Callable[[int], Iterator[Found]], other: Point | None = None) -> Iterator[Found]:
        """What `ask` finds of each thing of a kind, by number. Where it finds nothing, it isn't asked of the kin.

        other: what the question is about besides; where that has kin of its own, it is asked of each thing.
        """
        numbers = sorted(number for what, number in self.of if what == kind)
        if other is None or self._is_unlike_all(other):
            return of_each(numbers, lambda number: self.of[kind, number], ask)
        return of_each(numbers, lambda number: number, ask)

    def _is_unlike_all(self, point: Point) -> bool:
        """Does a point stay what it is, whichever modules are swapped?"""
        return point not in self.at or list(self.at.values()).count(self.at[point]) == 1


def find_likeness(circuit: Circuit, network: Network) -> Likeness:
    """What is alike in a circuit whose network is cut at the nets that all share."""
    shared: set[Point] = {("net", net) for net in network.borders}
    shared |= {("digit", supply.digit) for supply in circuit.supplies}
    things = tuple(_things(circuit, network.nets))
    kinds: dict[Hashable, int] = {}
    of: dict[tuple[str, int], Kin] = {}
    at: dict[Point, Kin] = {}
    for module in _modules(things, shared):
        places: dict[Point, int] = {}
        described = []
        for thing in module:
            points = (point if point in shared else places.setdefault(point, len(places)) for point in thing.points)
            described.append((thing.kind, thing.traits, tuple(points)))
        kind = kinds.setdefault(tuple(described), len(kinds))
        of |= {(thing.kind, thing.number): (kind, place) for place, thing in enumerate(module)}
        at |= {point: (kind, place) for point, place in places.items()}
    return Likeness(of, at)


def _modules(things: Iterable[Thing], shared: set[Point]) -> Iterator[list[Thing]]:
    """The things that hang together by points which not all share, each module in the order of its things."""
    above: dict[Point, Point] = {}

    def top(point: Point) -> Point:
        while (higher := above.setdefault(point, point)) != point:
            above[point] = point = above[higher]
        return point

    own = [(thing, [point for point in thing.points if point not in shared]) for thing in things]
    for _, points in own:
        for point in points[1:]:
            above[top(point)] = top(points[0])
    found: dict[Point, list[Thing]] = {}
    for thing, points in own:
        if points:
            found.setdefault(top(points[0]), []).append(thing)
    yield from found.values()


def _things(circuit: Circuit, nets: dict[Terminal, Net]) -> Iterator[Thing]:
    """All that a circuit is made of, but wires, which are in its nets."""
    wired = wired_terminals(circuit)

    def at(*terminals: Terminal) -> tuple[Point, ...]:
        return tuple(("net", nets[terminal]) for terminal in terminals)

    for number, digit in enumerate(circuit.digits):
        yield Thing("digit", number, digit[1:], (("digit", number),))
    for number, info in enumerate(circuit.parts.values()):
        yield Thing("part", number, _traits(info, wired), (("part", info.name), *at(*info.terminals)))
    for number, one in enumerate(circuit.conductors):
        if one.kind != "wire":
            closing = (one.kind, one.one_way, one.closed and one.closed.values)
            moved_by = (("digit", one.closed.digit),) if one.closed else ()
            yield Thing("conductor", number, closing, (("part", one.part), *at(one.tail, one.head), *moved_by))
    for number, load in enumerate(circuit.loads):
        traits = (load.kind, load.volts, load.ohms, load.assumed, load.inductive)
        yield Thing("load", number, traits, (("load", number), ("part", load.part), *at(load.a, load.b)))
    for number, suppressor in enumerate(circuit.suppressors):
        ends = (("part", suppressor.part), *at(suppressor.a, suppressor.b))
        yield Thing("suppressor", number, suppressor._replace(part="", a="", b=""), ends)
    yield from _moving(circuit)


def _moving(circuit: Circuit) -> Iterator[Thing]:
    for number, relay in enumerate(circuit.relays):
        coils = (("load", coil.load) for coil in relay.inputs)
        yield Thing("relay", number, _nameless(relay), (("digit", relay.digit), ("part", relay.name), *coils))
    for number, axis in enumerate(circuit.axes):
        points: tuple[Point, ...] = (("axis", number), ("digit", axis.digit), ("part", axis.name))
        yield Thing("axis", number, axis._replace(name="", digit=0), points)
    for number, motor in enumerate(circuit.motors):
        windings = (("load", winding.load) for winding in motor.windings)
        along = () if motor.axis is None else (("axis", motor.axis),)
        nameless = motor._replace(name="", windings=(), axis=None)
        yield Thing("motor", number, nameless, (("part", motor.name), *windings, *along))
    for number, limit in enumerate(circuit.limits):
        yield Thing("limit", number, limit.zones, (("part", limit.name), ("axis", limit.axis)))


def _traits(info: PartInfo, wired: frozenset[str]) -> Hashable:
    ends = tuple((terminal in wired, terminal in info.optional) for terminal in info.terminals)
    return info.kind, info.marks, ends, tuple(info.ratings.items()), info.features


def _nameless(relay: Relay) -> Relay:
    def placeless(coil: Coil | None) -> Coil | None:
        return coil and coil._replace(load=0)

    own = relay.coil._replace(load=0)
    return relay._replace(name="", digit=0, coil=own, reset=placeless(relay.reset), control=placeless(relay.control))
