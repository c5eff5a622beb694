"""What of a box hangs together, so that a fault is looked at with its own part of the box and no more.

Nets that conductors or loads join hang together, and so do a relay's coil and its contacts, an axis' motors and its
limits, and the poles of one switch. A rail that its supply holds parts what it feeds. So a box with ten motors on one
fuse is ten small boxes; a fault concerns those that it touches, and those that it cuts off from a rail.
"""

from collections.abc import Hashable
from typing import Final

from circuitcheck.analysis.held_buses import HeldBuses
from circuitcheck.analysis.network import Net, build_network
from circuitcheck.analysis.regions import find_regions
from circuitcheck.analysis.states import Spaces
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit, Coil, Conductor, Motor, Relay, Terminal

Key = Hashable
"""A net, a digit, a load or a conductor, as ("net", 3)."""

Groups = frozenset[Key]
"""Some of the small boxes, each by one of its keys."""

FED_ALWAYS: Final = (None, False)
"""The closed and one_way of a conductor that joins two terminals for good."""


class Together:
    """The small boxes of one circuit."""

    def __init__(self, circuit: Circuit, spaces: Spaces) -> None:
        self.circuit = circuit
        network = build_network(circuit, spaces)
        self._nets = network.nets
        self._held = find_regions(circuit, network, HeldBuses(frozenset(), {})).held
        self._above: dict[Key, Key] = {}
        self._at: dict[Terminal, list[Key]] = {}
        self._join_all()
        self.all: Groups = frozenset(map(self._group, list(self._above)))

    def concerned(self, change: Change) -> Groups:
        """The small boxes that a change touches."""
        if change.lost or change.reversed:
            return self.all
        found: set[Key] = set()
        for number in change.opened | change.always:
            found |= self._at_conductor(self.circuit.conductors[number], change.opened)
        for one, other in change.joined:
            nets = {self._nets[one], self._nets[other]}
            if len(nets) == 2 and nets <= self._held:
                return self.all
            found |= {self._group(("net", net)) for net in nets - self._held}
        found |= {self._group(("load", number)) for number in change.broken}
        found |= {self._group(("digit", digit)) for digit, _ in change.stuck}
        axes = [self.circuit.axes[self.circuit.limits[limit].axis] for limit, _ in change.pressed]
        found |= {self._group(("digit", axis.digit)) for axis in axes}
        return frozenset(found)

    def within(self, changed: Circuit, groups: Groups) -> Circuit:
        """The part of a circuit (this one, or this one changed) that lies in some small boxes, with all supplies.

        Digits and axes keep their numbers; there are just fewer things that depend on them.
        """
        loads = [number for number in range(len(changed.loads)) if self._group(("load", number)) in groups]
        place = {number: position for position, number in enumerate(loads)}
        kept = [number for number, one in enumerate(changed.conductors) if self._lies_in(one, groups)]
        conductors = tuple(changed.conductors[number] for number in kept)
        relays = tuple(_with_load(relay, place) for relay in changed.relays if relay.coil.load in place)
        motors = tuple(_motor(one, place) for one in changed.motors if one.windings[0].load in place)
        names = {changed.loads[number].part for number in loads} | {one.name for one in changed.supplies}
        names |= {one.part for one in conductors}
        return changed._replace(
            parts={name: info for name, info in changed.parts.items() if name in names},
            conductors=conductors,
            wires=_wires_among(changed, kept),
            loads=tuple(changed.loads[number] for number in loads),
            relays=relays,
            motors=motors,
            limits=tuple(one for one in changed.limits if one.name in names),
            promises=(),
        )

    def _join_all(self) -> None:
        for number, load in enumerate(self.circuit.loads):
            self._join(("load", number), (load.a, load.b))
        for one in self.circuit.conductors:
            if (one.closed, one.one_way) != FED_ALWAYS:
                self._join(("conductor", one.tail, one.head), (one.tail, one.head))
                if one.closed:
                    self._unite(("conductor", one.tail, one.head), ("digit", one.closed.digit))
        for relay in self.circuit.relays:
            for coil in relay.inputs:
                self._unite(("load", coil.load), ("digit", relay.digit))
        for motor in self.circuit.motors:
            for winding in motor.windings:
                self._unite(("load", winding.load), ("load", motor.windings[0].load))
            if motor.axis is not None:
                self._unite(("load", motor.windings[0].load), ("digit", self.circuit.axes[motor.axis].digit))

    def _join(self, key: Key, ends: tuple[Terminal, Terminal]) -> None:
        self._unite(key, key)
        for end in ends:
            self._at.setdefault(end, []).append(key)
            if self._nets[end] not in self._held:
                self._unite(key, ("net", self._nets[end]))

    def _group(self, key: Key) -> Key:
        while (above := self._above.setdefault(key, key)) != key:
            self._above[key] = self._above[above]
            key = above
        return key

    def _unite(self, one: Key, other: Key) -> None:
        self._above[self._group(one)] = self._group(other)

    def _at_conductor(self, one: Conductor, opened: frozenset[int]) -> set[Key]:
        if (one.closed, one.one_way) != FED_ALWAYS:
            return {self._group(("conductor", one.tail, one.head))}
        net = self._nets[one.tail]
        if net not in self._held:
            return {self._group(("net", net))}
        return self._cut_off(net, one, opened)

    def _cut_off(self, net: Net, gone: Conductor, opened: frozenset[int]) -> set[Key]:
        """What loses its rail with a wire of the rail; all there is, where two supplies are parted."""
        sources = {end for supply in self.circuit.supplies for end in (supply.plus, supply.minus)}
        sides = [self._side(net, end, opened) for end in (gone.tail, gone.head)]
        if gone.head in sides[0]:
            return set()
        if all(side & sources for side in sides):
            return set(self.all)
        lost = next(side for side in sides if not side & sources)
        return {self._group(key) for end in lost for key in self._at.get(end, ())}

    def _side(self, net: Net, start: Terminal, opened: frozenset[int]) -> set[Terminal]:
        beside: dict[Terminal, list[Terminal]] = {}
        for number, one in enumerate(self.circuit.conductors):
            if number not in opened and (one.closed, one.one_way) == FED_ALWAYS and self._nets[one.tail] == net:
                beside.setdefault(one.tail, []).append(one.head)
                beside.setdefault(one.head, []).append(one.tail)
        side, edge = {start}, [start]
        while edge:
            for end in beside.get(edge.pop(), ()):
                if end not in side:
                    side.add(end)
                    edge.append(end)
        return side

    def _lies_in(self, one: Conductor, groups: Groups) -> bool:
        if one.kind == "touch":
            return True
        key = ("conductor", one.tail, one.head)
        if key in self._above:
            return self._group(key) in groups
        net = self._nets[one.tail]
        return net in self._held or self._group(("net", net)) in groups


def _wires_among(circuit: Circuit, conductors: list[int]) -> tuple[WireInfo, ...]:
    """What is said of the wires of which only these conductors are left."""
    place = {number: position for position, number in enumerate(conductors)}
    return tuple(one._replace(conductor=place[one.conductor]) for one in circuit.wires if one.conductor in place)


def _with_load(relay: Relay, place: dict[int, int]) -> Relay:
    def moved(coil: Coil | None) -> Coil | None:
        return coil and coil._replace(load=place[coil.load])

    return relay._replace(
        coil=relay.coil._replace(load=place[relay.coil.load]), reset=moved(relay.reset), control=moved(relay.control)
    )


def _motor(motor: Motor, place: dict[int, int]) -> Motor:
    windings = tuple(one._replace(load=place[one.load]) for one in motor.windings)
    return motor._replace(windings=windings)
