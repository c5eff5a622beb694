"""Confirms a certificate that `circuitcheck check --certificate FILE` wrote, knowing nothing of how it was found.

    python -m circuitcheck.certificates.verifier PLAN CERTIFICATE [FOLDER OF SHARED PARTS ...]

The tool's parser reads the plan into a circuit; all else that confirming takes is in this file.

A state gives each digit (switch, relay, axis, supply) a value; a set over some digits is a number whose bit n stands
for the state whose values have the mixed-radix number n, the first digit turning quickest.

*No supply is shorted in any combination.* For each rail that current may come from, the certificate gives for each net
the states in which conductors lead there. Every set must be just what conductors bring:

    sets[rail] = all        sets[net] = union of  sets[tail] & closed  over the conductors from a tail to the net

Sets that solve these equations hold every state in which current gets there, so if none of them closes a loop through
supplies, there is none.

*In operation.* The certificate gives the states reached, over the digits that have a say. Taken one by one, they must
be just the beginnings and all that a step from one of them leads to; no relay may be left moving for ever (`settling`
holds the states from which 0, 1, 2 … moves lead to rest); what is claimed must hold wherever things are at rest.
A digit that is left out may stand anyhow: what it might change is never taken for sure. Volts must follow from
conductors alone, and relays' times are not counted on; where either is needed, there is no certificate.

An equation leaves nothing over, so a certificate changed in any one place is refused.
"""

import json
import sys
from collections.abc import Callable, Collection, Iterable, Iterator
from functools import partial
from itertools import product
from math import prod
from pathlib import Path
from typing import Any, Final, NamedTuple

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit, Coil, Digit, Motor, Relay
from circuitcheck.plan.reading import read_plan
from circuitcheck.plan.source import PlanError

VERSION: Final = "circuitcheck certificate 1"
WIDEST: Final = 1 << 22
ALMOST: Final = 1e-9
NO_SHORT: Final = "no supply is shorted in any combination"
BRAKED: Final = "is braked at every rest at which it is not driven"
WITHIN_ENDS: Final = "is at no rest driven on at or past an end"
SETTLES: Final = "comes to rest after each change"

Net = str
"""Terminals that are always joined both ways go by the name of the first of them."""
State = dict[int, int]
"""The values of digits, by their numbers."""


class Refused(Exception):
    """Why a certificate does not hold, or cannot be followed."""


class Set(NamedTuple):
    """A set of states over `digits`, ascending numbers of the circuit's digits."""

    digits: tuple[int, ...]
    bits: int


class Way(NamedTuple):
    """Current can pass from `tail` to `head`: always, or while `digit` has one of `values`."""

    tail: Net
    head: Net
    digit: int | None
    values: frozenset[int]


class Box(NamedTuple):
    """A circuit as the verifier looks at it. rails: the nets of each supply's + and −. leaving, arriving: the ways from
    and to each net. loads: at each net, the numbers of the loads there and the nets of their other ends."""

    circuit: Circuit
    net: dict[str, Net]
    ways: tuple[Way, ...]
    rails: tuple[tuple[Net, Net], ...]
    radices: tuple[int, ...]
    leaving: dict[Net, list[Way]]
    arriving: dict[Net, list[Way]]
    loads: dict[Net, list[tuple[int, Net]]]


def box_of(circuit: Circuit) -> Box:
    """Puts terminals that are always joined together, and takes every other conductor as one or two ways."""
    joined: dict[str, list[str]] = {}
    for one in circuit.conductors:
        if one.closed is None and not one.one_way:
            joined.setdefault(one.tail, []).append(one.head)
            joined.setdefault(one.head, []).append(one.tail)
    net: dict[str, Net] = {}
    for name in (terminal for part in circuit.parts.values() for terminal in part.terminals):
        waiting = [] if name in net else [name]
        while waiting:
            terminal = waiting.pop()
            if terminal not in net:
                net[terminal] = name
                waiting += joined.get(terminal, [])
    ways = []
    for one in circuit.conductors:
        digit, values = (one.closed.digit, one.closed.values) if one.closed else (None, frozenset[int]())
        if net[one.tail] != net[one.head]:
            ways.append(Way(net[one.tail], net[one.head], digit, values))
            ways += [] if one.one_way else [Way(net[one.head], net[one.tail], digit, values)]
    rails = tuple((net[one.plus], net[one.minus]) for one in circuit.supplies)
    leaving: dict[Net, list[Way]] = {}
    arriving: dict[Net, list[Way]] = {}
    for way in ways:
        leaving.setdefault(way.tail, []).append(way)
        arriving.setdefault(way.head, []).append(way)
    loads: dict[Net, list[tuple[int, Net]]] = {}
    for number, load in enumerate(circuit.loads):
        loads.setdefault(net[load.a], []).append((number, net[load.b]))
        loads.setdefault(net[load.b], []).append((number, net[load.a]))
    radices = tuple(digit.radix for digit in circuit.digits)
    return Box(circuit, net, tuple(ways), rails, radices, leaving, arriving, loads)


def claims_of(circuit: Circuit) -> list[str]:
    """All that a certificate of this circuit can be about."""
    driven = {motor.axis for motor in circuit.motors}
    axes = [axis.name for number, axis in enumerate(circuit.axes) if number in driven and not axis.turning]
    return [
        *([NO_SHORT] if circuit.supplies else []),
        *(f"{motor.name} {BRAKED}" for motor in must_brake(circuit)),
        *(f"{name} {WITHIN_ENDS}" for name in axes),
        *(f"{relay.name} {SETTLES}" for relay in circuit.relays),
    ]


def must_brake(circuit: Circuit) -> list[Motor]:
    """The motors that the plan does not allow to coast."""
    return [motor for motor in circuit.motors if not motor.may_coast]


def verify(circuit: Circuit, certificate: Any) -> list[str]:
    """What the certificate proves of the circuit. Raises Refused where anything in it is not as it must be."""
    fields(certificate, "version", "conduction", "operation", "without certificate")
    if certificate["version"] != VERSION:
        raise Refused(f"this is no {VERSION}")
    box, proved = box_of(circuit), []
    if certificate["conduction"] is not None:
        confirm_no_short(box, certificate["conduction"])
        proved.append(NO_SHORT)
    every, firsts = claims_of(circuit), []
    for entry in listed(certificate["operation"]):
        claims = confirm_operation(box, entry, NO_SHORT in proved)
        firsts.append(every.index(claims[0]))
        proved += claims
    if firsts != sorted(firsts):
        raise Refused("what is proved of operation is not written in order")
    left = [claim for claim in every if claim not in proved]
    if len(set(proved)) < len(proved) or certificate["without certificate"] != left:
        raise Refused("what is claimed and what is left over are not all that can be claimed, once each")
    return proved


def fields(value: Any, *names: str) -> None:
    """Refuses what is not an object with just these fields."""
    if not isinstance(value, dict) or list(value) != list(names):
        raise Refused(f"an object should have just the fields {', '.join(names)}")


def listed(value: Any) -> list[Any]:
    """Refuses what is not a list."""
    if not isinstance(value, list):
        raise Refused("a list is missing")
    return value


# Sets


def read_set(box: Box, written: Any) -> Set:
    """A set as it is written: "S1 K1 | 5", digits in the circuit's order and the number of the set in base 16."""
    names = [digit.name for digit in box.circuit.digits]
    listed, _, number = str(written).rpartition("| ")
    try:
        digits, bits = tuple(names.index(name) for name in listed.split()), int(number, 16)
    except ValueError:
        raise Refused("a set is written as its digits, a bar and a number") from None
    if list(digits) != sorted(set(digits)) or write_set(box, Set(digits, bits)) != written:
        raise Refused("a set is written in one way only")
    size = prod(box.radices[digit] for digit in digits)
    if size > WIDEST or bits >> size:
        raise Refused("a set is larger than its digits allow")
    return Set(digits, bits)


def write_set(box: Box, one: Set) -> str:
    """The set as `read_set` reads it."""
    return "".join(f"{box.circuit.digits[digit].name} " for digit in one.digits) + f"| {one.bits:x}"


def over(box: Box, one: Set, digits: Iterable[int]) -> Set:
    """The same set over more digits: each that it lacks gets all its values, beside each other."""
    every = tuple(sorted({*one.digits, *digits}))
    if prod(box.radices[digit] for digit in every) > WIDEST:
        raise Refused("a set depends on too many digits at once")
    signs = f"{one.bits:0{prod(box.radices[digit] for digit in one.digits)}b}"[::-1]
    stride = 1
    for digit in every:
        radix = box.radices[digit]
        if digit not in one.digits:
            signs = "".join(signs[start : start + stride] * radix for start in range(0, len(signs), stride))
        stride *= radix
    return Set(every, int(signs[::-1], 2))


def both(box: Box, one: Set, other: Set) -> Set:
    """The states that are in both."""
    one, other = over(box, one, other.digits), over(box, other, one.digits)
    return Set(one.digits, one.bits & other.bits)


def without(box: Box, one: Set, other: Set) -> Set:
    """The states that are in one and not in the other."""
    one, other = over(box, one, other.digits), over(box, other, one.digits)
    left = one.bits & ~other.bits
    return Set(one.digits, left) if left else Set((), 0)


def where(digit: int | None, values: Iterable[int]) -> Set:
    """The states in which a digit has one of the values; all for no digit."""
    return Set((), 1) if digit is None else Set((digit,), sum(1 << value for value in set(values)))


def depends_on(box: Box, one: Set, digit: int) -> bool:
    """Does the value of this digit of the set's own matter to it?"""
    at_first = both(box, one, where(digit, [0]))
    stride = prod(box.radices[other] for other in one.digits if other < digit)
    return one.bits != sum(at_first.bits << value * stride for value in range(box.radices[digit]))


# No supply is shorted


def confirm_no_short(box: Box, conduction: Any) -> None:
    """Every set follows from the others, and no loop through supplies is closed in any state."""
    sources = {plus for plus, _ in box.rails}
    if len(box.rails) > 1:
        sources |= {minus for _, minus in box.rails}
    fields(conduction, *sorted(sources))
    sets = {source: read_sets(box, conduction[source]) for source in sorted(sources)}
    for source, found in sets.items():
        confirm_equations(box, source, found)
    for number, (plus, minus) in enumerate(box.rails):
        volts = box.circuit.supplies[number].volts
        refuse_loops(box, sets, plus, minus, {number}, where(box.circuit.supplies[number].digit, [1]), volts)
        refuse_loops(box, sets, minus, plus, {number}, where(box.circuit.supplies[number].digit, [1]), -volts)


def read_sets(box: Box, written: Any) -> dict[Net, Set]:
    """The sets of nets; a net that is never reached is left out."""
    if not isinstance(written, dict) or list(written) != sorted(set(written) & set(box.net.values())):
        raise Refused("sets belong to nets, in order")
    found = {}
    for net, value in written.items():
        one = found[net] = read_set(box, value)
        if not one.bits or any(not depends_on(box, one, digit) for digit in one.digits):
            raise Refused(f"the set of {net} is not written as short as can be")
    return found


def confirm_equations(box: Box, source: Net, sets: dict[Net, Set]) -> None:
    """The set of each net is the union of what conductors bring; that of the source is everything."""
    nothing, everything = Set((), 0), Set((), 1)
    brought: dict[Net, list[Set]] = {source: [everything]}
    for way in box.ways:
        if way.tail in sets:
            brought.setdefault(way.head, []).append(both(box, sets[way.tail], where(way.digit, way.values)))
    for net in brought.keys() | sets.keys():
        left = given = sets.get(net, nothing)
        for one in sorted(brought.get(net, [])):
            if without(box, one, given).bits:
                raise Refused(f"current gets from {source} to {net} in more states")
            left = without(box, left, one)
        if left.bits:
            raise Refused(f"current does not get from {source} to {net} in all of the states")


def refuse_loops(
    box: Box, sets: dict[Net, dict[Net, Set]], at: Net, goal: Net, used: set[int], live: Set, volts: float
) -> None:
    """Current has come to `at` in the states `live`, through supplies that raised it by `volts`: can it go round?"""
    onward = sets.get(at, {})
    if volts > ALMOST and both(box, live, onward.get(goal, Set((), 0))).bits:
        raise Refused(f"conductors lead from {at} to {goal}")
    for number, (plus, minus) in enumerate(box.rails):
        if number not in used:
            supply = box.circuit.supplies[number]
            on = both(box, live, where(supply.digit, [1]))
            for enter, leave, gain in ((minus, plus, supply.volts), (plus, minus, -supply.volts)):
                further = both(box, on, onward.get(enter, Set((), 0)))
                if further.bits:
                    refuse_loops(box, sets, leave, goal, used | {number}, further, volts + gain)


# In operation


def confirm_operation(box: Box, entry: Any, never_shorted: bool) -> list[str]:
    """The states reached are closed under all that can happen, relays come to rest, and claims hold at every rest."""
    fields(entry, "reached", "settling", "claims")
    reached = read_set(box, entry["reached"])
    digits = reached.digits
    if not never_shorted or not {supply.digit for supply in box.circuit.supplies} <= set(digits):
        raise Refused("behaviour is followed only where no supply is ever shorted, over all supplies at least")
    moments = {state: Moment(box, dict(zip(digits, state, strict=True))) for state in states_in(box, reached)}
    led_to = set(beginnings(box.circuit, digits))
    for state, moment in moments.items():
        led_to |= {changed(digits, state, digit, value) for digit, value in moment.steps()}
    if led_to != moments.keys():
        raise Refused("the states reached are not those that steps lead to from power-up")
    confirm_settling(box, digits, moments, [read_set(box, one) for one in listed(entry["settling"])])
    rests = [moment for moment in moments.values() if moment.is_rest()]
    claims = claims_over(box.circuit, digits)
    if not entry["claims"] or entry["claims"] != [claim for claim in claims if claim in listed(entry["claims"])]:
        raise Refused("what is claimed cannot be claimed over these digits, or is not written in order")
    for claim in entry["claims"]:
        if not all(claims[claim](moment) for moment in rests):
            raise Refused(f"it does not hold that {claim}")
    return list(entry["claims"])


def states_in(box: Box, one: Set) -> list[tuple[int, ...]]:
    """The states of a set, each as the values of its digits."""
    values = product(*(range(box.radices[digit]) for digit in reversed(one.digits)))
    return [state[::-1] for sign, state in zip(f"{one.bits:b}"[::-1], values, strict=False) if sign == "1"]


def changed(digits: tuple[int, ...], state: tuple[int, ...], digit: int, value: int) -> tuple[int, ...]:
    """The state with one digit at another value."""
    return tuple(value if one == digit else old for one, old in zip(digits, state, strict=True))


def beginnings(circuit: Circuit, digits: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Power-up: relays released but latching ones, which remember; axes within their range; all else anyhow."""
    values = {digit: range(len(circuit.digits[digit].values)) for digit in digits}
    values |= {relay.digit: range(1) for relay in circuit.relays if relay.function != "latching"}
    values |= {axis.digit: range(axis.range[0], axis.range[1] + 1) for axis in circuit.axes}
    return product(*(values[digit] for digit in digits))


def confirm_settling(
    box: Box, digits: tuple[int, ...], moments: "dict[tuple[int, ...], Moment]", layers: list[Set]
) -> None:
    """The first layer is at a standstill; from each state of another one move leads to the layer before, and no fewer
    moves to rest; each state has its layer."""
    before, seen = set[tuple[int, ...]](), set[tuple[int, ...]]()
    for number, layer in enumerate(layers):
        expected = set()
        for state in moments.keys() - seen:
            moves = [changed(digits, state, one.digit, one.end) for one in moments[state].wishes if not one.timed]
            if before.intersection(moves) if number else not moves:
                expected.add(state)
        if not expected or layer.digits != digits or expected != set(states_in(box, layer)):
            raise Refused("relays do not come to rest as is told")
        before, seen = expected, seen | expected
    if seen != moments.keys():
        raise Refused("relays may go on for ever")


def claims_over(circuit: Circuit, digits: tuple[int, ...]) -> "dict[str, Callable[[Moment], bool]]":
    """The claims that can be made over these digits, each with what must hold at every rest. That relays come to rest
    has been shown of all of them already."""
    claims: dict[str, Callable[[Moment], bool]] = {}
    for motor in must_brake(circuit):
        claims[f"{motor.name} {BRAKED}"] = partial(Moment.is_driven_or_braked, motor=motor)
    for number, axis in enumerate(circuit.axes):
        if axis.digit in digits and not axis.turning:
            claims[f"{axis.name} {WITHIN_ENDS}"] = partial(Moment.stays_within, axis=number)
    for relay in circuit.relays:
        if relay.digit in digits:
            claims[f"{relay.name} {SETTLES}"] = lambda _: True
    return claims


class Wish(NamedTuple):
    """A relay's digit wants to go to `end`; timed: once its time has run out."""

    digit: int
    end: int
    timed: bool


class Moment:
    """What is so in one state. Ways over digits that the state does not give may lead, and are never counted on."""

    def __init__(self, box: Box, state: State) -> None:
        self.box, self.circuit, self.state = box, box.circuit, state
        self.known: dict[int, float] = {}
        self.levels = self._levels()
        self.wishes = [wish for relay in self.circuit.relays if relay.digit in state for wish in self._wishes(relay)]

    def is_rest(self) -> bool:
        """Does no relay move but timers, and is no switch between its positions?"""
        at_positions = all(value < len(self.circuit.digits[digit].values) for digit, value in self.state.items())
        return at_positions and all(wish.timed for wish in self.wishes)

    def steps(self) -> Iterator[tuple[int, int]]:
        """The digits that can move next, each with where to."""
        resting = self.is_rest()
        yield from ((wish.digit, wish.end) for wish in self.wishes if resting or not wish.timed)
        for number, value in self.state.items():
            digit = self.circuit.digits[number]
            if value >= len(digit.values):
                yield from ((number, end) for _, end in digit.moments[value - len(digit.values)].moves)
            elif resting and digit.kind in ("control", "outside", "supply"):
                yield from ((number, end) for end in self._next_values(digit, value))
        for motor in self.circuit.motors if resting else ():
            axis = None if motor.axis is None else self.circuit.axes[motor.axis]
            if axis and axis.digit in self.state:
                zones = len(self.circuit.digits[axis.digit].values)
                zone = self.state[axis.digit] + self._direction(motor)
                zone = zone % zones if axis.turning else min(max(zone, 0), zones - 1)
                if zone != self.state[axis.digit]:
                    yield axis.digit, zone

    @staticmethod
    def _next_values(digit: Digit, value: int) -> Iterator[int]:
        """By way of the moment on the way to a position where there is one, else straight there."""
        for end in range(len(digit.values)):
            ways = [place for place, one in enumerate(digit.moments, len(digit.values)) if (value, end) in one.moves]
            yield from (ways or [end]) if end != value else ()

    def stays_within(self, axis: int) -> bool:
        """Is the axis not driven outward, if it is at or past an end?"""
        zone, (first, last) = self.state[self.circuit.axes[axis].digit], self.circuit.axes[axis].range
        ways = [self._direction(motor) for motor in self.circuit.motors if motor.axis == axis]
        return not (zone >= last and 1 in ways) and not (zone <= first and -1 in ways)

    def is_driven_or_braked(self, motor: Motor) -> bool:
        """Driven, or its brushes joined in both directions of current, over no more than one rail of each supply."""
        if self._drive(motor):
            return True
        shuts = [set(shut) for shut in product(*(rails for rails in self.box.rails if rails[0] != rails[1]))]
        ends = [(self.box.net[one.plus], self.box.net[one.minus]) for one in motor.windings]
        return any(all(self._leads(*way, shuts) for way in ((a, b), (b, a))) for a, b in ends)

    def _leads(self, start: Net, end: Net, shuts: list[set[Net]]) -> bool:
        return start == end or any(
            end in self._reached(start, shut, False) for shut in shuts if not shut & {start, end}
        )

    def _direction(self, motor: Motor) -> int:
        """1 toward higher zones of its axis, -1 toward lower ones, 0 for not driven."""
        return self._drive(motor) if motor.upward else -self._drive(motor)

    def _drive(self, motor: Motor) -> int:
        """1 forward, -1 reverse, 0 not driven: with at least a quarter of its rated volts. A winding that drives it
        forward decides, whatever the others get."""
        undecided = None
        reverse = False
        for one in motor.windings:
            try:
                volts = self._volts(one.load)
            except Refused as refused:
                undecided = refused
                continue
            if volts >= motor.volts / 4 - ALMOST:
                return 1
            reverse = reverse or -volts >= motor.volts / 4 - ALMOST
        if undecided:
            raise undecided
        return -1 if reverse else 0

    def _wishes(self, relay: Relay) -> Iterator[Wish]:
        """What a relay wants, standing at 0 released, 1 operated, 2 spent (one-shot) or pausing (pulse relay)."""
        value, timed = self.state[relay.digit], relay.function
        on, off = self._works(relay.coil)
        called, gone = self._works(relay.control) if relay.control else (on, off)
        if relay.reset is not None:
            reset, _ = self._works(relay.reset)
            if (on and not reset) if value == 0 else (reset and not on):
                yield Wish(relay.digit, 1 - value, False)
        elif value == 0:
            if on and called:
                yield Wish(relay.digit, 1, timed == "on-delay")
        elif timed == "one-shot":
            if off or (value == 2 and gone):
                yield Wish(relay.digit, 0, False)
            elif value == 1:
                yield Wish(relay.digit, 2, True)
        elif off or gone:
            yield Wish(relay.digit, 0, timed == "off-delay" and not (off and relay.control))
        elif timed == "pulse":
            yield Wish(relay.digit, 3 - value, True)

    def _works(self, coil: Coil) -> tuple[bool, bool]:
        """Are the volts enough to operate? Are they too few to hold?"""
        volts = abs(self._volts(coil.load))
        return volts >= coil.operate_volts - ALMOST, volts < coil.release_volts - ALMOST

    def _levels(self) -> dict[Net, tuple[Net, float]]:
        """The nets that supplies hold: those of a supply that is on, and what conductors surely join to such both ways.
        Each with the rail from which its volts count: two rails that no supplies link have no common measure."""
        levels: dict[Net, tuple[Net, float]] = {}
        links = []
        for supply, (plus, minus) in zip(self.circuit.supplies, self.box.rails, strict=True):
            if self.state[supply.digit] == 1:
                links += [(minus, plus, supply.volts), (plus, minus, -supply.volts)]
        for start, _, _ in links:
            waiting = [] if start in levels else [start]
            levels.setdefault(start, (start, 0.0))
            while waiting:
                here = waiting.pop()
                for low, high, gain in links:
                    if low == here and high not in levels:
                        levels[high] = (start, levels[here][1] + gain)
                        waiting.append(high)
        shut = {net for rails in self.box.rails for net in rails}
        for rail, level in list(levels.items()):
            for net in self._reached(rail, shut - {rail}, False) & self._reached(rail, shut - {rail}, True):
                if net in levels and levels[net] != level:
                    raise Refused(f"{net} is held by two supplies")
                if net not in shut:
                    levels[net] = level
        return levels

    def _reached(self, start: Net, shut: Collection[Net], backward: bool, but: int | None = None) -> set[Net]:
        """Where conductors surely lead to, or come from; with `but`, where current might, over all loads but this one
        and over whatever is not known to be open. Nets that are shut are come to, but not gone on from."""
        found, waiting = {start}, [] if start in shut else [start]
        while waiting:
            here = waiting.pop()
            ways = (self.box.arriving if backward else self.box.leaving).get(here, ())
            onward = [way.tail if backward else way.head for way in ways if self._conducts(way, but is not None)]
            if but is not None:
                onward += [other for load, other in self.box.loads.get(here, ()) if load != but]
            for there in onward:
                if there not in found:
                    found.add(there)
                    if there not in shut:
                        waiting.append(there)
        return found

    def _conducts(self, way: Way, if_unknown: bool) -> bool:
        if way.digit is None:
            return True
        return self.state[way.digit] in way.values if way.digit in self.state else if_unknown

    def _volts(self, load: int) -> float:
        """The volts of a load, `a` positive. Raises Refused where they do not follow from conductors alone."""
        if load not in self.known:
            self.known[load] = self._volts_between(load)
        return self.known[load]

    def _volts_between(self, number: int) -> float:
        load = self.circuit.loads[number]
        a, b = self.box.net[load.a], self.box.net[load.b]
        if not self.levels or a == b:
            return 0.0
        if a in self.levels and b in self.levels:
            return self._difference(a, b)
        held = {*self.levels, *(net for rails in self.box.rails for net in rails)}
        if b in self._reached(a, held, True) & self._reached(a, held, False):
            return 0.0
        forward, reverse = (
            self._most(self._reached(high, held, True), self._reached(low, held, False))
            for high, low in ((a, b), (b, a))
        )
        most = max(
            self._most(self._reached(high, self.levels, True, number), self._reached(low, self.levels, False, number))
            for high, low in ((a, b), (b, a))
        )
        if most > max(forward, reverse) + ALMOST:
            raise Refused(f"what {load.name} gets does not follow from conductors alone")
        return forward if forward >= reverse else -reverse

    def _most(self, highs: set[Net], lows: set[Net]) -> float:
        """The most volts by which one of these nets is held above one of those; 0 where none is."""
        pairs = product(highs & self.levels.keys(), lows & self.levels.keys())
        return max((self._difference(high, low) for high, low in pairs), default=0.0)

    def _difference(self, high: Net, low: Net) -> float:
        (rail, above), (other, below) = self.levels[high], self.levels[low]
        if rail != other:
            raise Refused(f"{high} and {low} are held by supplies that have no rail in common")
        return above - below


def main(arguments: list[str]) -> int:
    """Tells what a certificate proves; exit status 1 where it is refused."""
    plan, certificate, *roots = arguments
    try:
        circuit = build_circuit(read_plan(Path(plan), tuple(Path(root) for root in roots)))
        proved = verify(circuit, json.loads(Path(certificate).read_text(encoding="utf-8")))
    except (Refused, PlanError, ValueError, OSError, RecursionError) as error:
        print(f"refused: {error}")
        return 1
    for claim in claims_of(circuit):
        print(f"{'confirmed' if claim in proved else 'no certificate'}: {claim}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
