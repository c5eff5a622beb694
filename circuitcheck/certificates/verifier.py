"""Confirms a certificate that `circuitcheck check --certificate FILE` wrote, knowing nothing of how it was found.

    python -m circuitcheck.certificates.verifier PLAN CERTIFICATE [FOLDER OF SHARED PARTS ...]

The tool's parser reads the plan into a circuit; all else that confirming takes is in this file.

A state gives each digit (switch, relay, axis, supply) a value. A set of states is a decision diagram (Bryant 1986),
which the certificate writes node by node: a digit, and for each of its values which set goes on.

*No supply is shorted.* Each pole of each relay is a digit of its own here. For each rail that current may come from
there is for each net the set of states in which conductors lead to it. Every set must be just what conductors bring:

    sets[rail] = all        sets[net] = union of  sets[tail] & closed  over the conductors from a tail to the net

or all states, where that would hang on too many digits. Sets that solve these equations hold every state in which
current gets there. None may close a loop through supplies while poles stand where their relays are; nor while they
don't, where a relay that moves is reached in operation.

*In operation.* What each relay wants and each motor does follows here from the circuit, case by case: a digit is given
values only where the answer hangs on it. The certificate gives the states reached, over some digits. They must be just
the beginnings and all that steps from them lead to; what is claimed must hold wherever things are at rest. A digit that
is left out may stand anyhow at any moment. That relays come to rest is followed move by move; or it is shown of all
relays at once, if operating never makes any of them want to release, or the other way round: then let all of one kind
move first, and after them the others. Volts must follow from conductors alone, and relays' times are not counted on;
where either is needed, there is no certificate. That an axis can be driven back is followed backward: somebody can work
the controls so that it is, in whatever order relays move. Where that takes too many digits, controls may park relays
that are far: they then stay released, and what leads back from wherever no other relay wants to move does so in the
whole.

An equation leaves nothing over, so a certificate that is not true is refused, whoever wrote it. A seal (SHA-256) shows
besides that none was changed after it was written, not even into another true one.
"""

import json
import sys
from collections.abc import Callable, Collection, Hashable, Iterable, Iterator
from fractions import Fraction
from functools import partial
from hashlib import sha256
from io import TextIOWrapper
from itertools import islice, product, zip_longest
from math import inf, prod
from pathlib import Path
from typing import Any, Final, NamedTuple

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.catalogue.relays import GUIDED
from circuitcheck.circuit.model import Axis, Circuit, Coil, Conductor, Load, Motor, Relay, Supply, Suppressor
from circuitcheck.plan.reading import read_plan
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.syntax import Acceptance

VERSION: Final = "circuitcheck certificate 2"
ALMOST: Final = 1e-9
TOGETHER: Final = 48
"""Digits on which the states in which conductors lead to a net may hang; of one with more it is not told when."""
MOST_NODES: Final = 1 << 21
MOST_BYTES: Final = 1 << 24
MOST_STEPS: Final = 1 << 19
"""Results that one entry may take, so that none takes longer than some seconds."""
MOST_TOGETHER: Final = 1 << 12
"""Combinations of digits, as far as they are known, among which it is still found out what hangs together."""
MOST_TURNS: Final = 64
"""Guesses at which diodes conduct."""
DROP: Final = Fraction(7, 10)
DIODE_OHMS: Final = Fraction(1, 100)
LEAK: Final = Fraction(1, 10**18)
"""A conducting diode's volts and ohms, and the siemens from each net to ground, so that each has volts at all."""
MOST_CASES: Final = 1 << 16
"""Cases of what one relay wants, or one motor does."""
NO_SHORT: Final = "no supply is shorted in any combination"
NO_SHORT_MOVING: Final = "no supply is shorted in any moment of a changeover"
BRAKED: Final = "is braked at every rest at which it is not driven"
NOT_THROWN: Final = "is braked or rests between its two directions"
STAYS_STILL: Final = "does not start by itself when power returns"
OBEYS: Final = "is driven at no rest at which {} is pressed"
WITHIN_ENDS: Final = "is at no rest driven on at or past an end"
FUSED: Final = "feeds no way past all fuses"
MATCHED: Final = "gets no volts from conductors alone but such as it is made for"
SUPPRESSED: Final = "has suppression straight across it, no diode of which conducts while it is fed"
TURNS_BACK: Final = "can be driven back from each end at which it rests"
FOUND: Final = "can be brought to a limit switch from wherever power finds it"
SETTLES: Final = "comes to rest after each change"
NO_PULSE: Final = "is driven in no moment of a changeover but a way in which the rest before or after drives it"
NOT_PUSHED: Final = "brings no supply above what it withstands by what it makes as it turns"
OWN_DRIVE: Final = "is worked through no other load if it has a drive of its own"
NO_LINK: Final = "carries current nowhere one way for one load and the other way for another"
CAN_BE_OFF: Final = "is off in some combination with all supplies on"
CAN_OPERATE: Final = "gets the volts at which it operates in some combination"
APART: Final = "has its ends apart in some combination"
FED: Final = "gets volts in some combination"
FED_OR_BRAKES: Final = "gets volts, or brakes a motor, in some combination"
ON_A_LOOP: Final = "is on a loop through a supply once all contacts are closed"
MATTERS: Final = "changes something in some combination with each contact that is wired at both ends"
OWN_NAMES: Final = "every part has a name of its own"
WIRED: Final = "every terminal that must have a wire has one"
FOUND_THERE: Final = "has {} accepted, which is found there"
MOST_SHARE: Final = 1.1
"""Of its rated volts that a coil may get (IEC 61810-1, operative range, class 1)."""
MOST_OHMS: Final = 20
"""Times its coil's ohms that a resistor across it may have (common practice, no source)."""
ANY_TIME: Final = (0.0, float("inf"))
"""The least and the greatest seconds of a relay's move of which no time is told."""
LEAST_SHARES: Final = {"motor": 0.02, "lamp": 0.05, "buzzer": 0.05, "solenoid": 0.05}
"""Of its rated volts from which on a load turns, glows, sounds or pulls (common practice, no source)."""
TWO_WAY_KINDS: Final = ("motor", "resistor")
"""Loads that may take current either way on purpose."""
MOST_LOOKED_AT: Final = 1 << 10
"""Cases among which one is looked for in which something is so."""
MOST_NEAR: Final = 12
"""Loads near a contact of which it is asked whether it changes anything for them."""
MUCH: Final = 1e-3
"""Volts that are no rounding."""
CALM: Final = ("operating makes no relay want to release", "releasing makes no relay want to operate")

SURELY: Final = -1
"""In place of a digit on which something hangs."""

Net = str
"""Terminals that are always joined both ways go by the name of the first of them."""
State = dict[int, int]
"""The values of digits, by their numbers."""
Set = int
"""A set of states, by its number among all sets of the circuit: 0 has no state, 1 has every one."""


class Refused(Exception):
    """Why a certificate does not hold, or cannot be followed."""


class TooLarge(Refused):
    """What would take too much time or memory."""


class Undecided(Exception):
    """An answer that hangs on a digit, by number, which the state does not give."""

    def __init__(self, digit: int) -> None:
        super().__init__(digit)
        self.digit = digit


# Sets


class Sets:
    """All sets of one circuit. Each is a node: a digit, and for each of its values the set that goes on; the highest
    digit stands on top. Equal nodes are one, so equal sets have one number."""

    def __init__(self, radices: tuple[int, ...]) -> None:
        self.radices = radices
        self.nodes: list[tuple[int, tuple[Set, ...]]] = [(-1, ()), (-1, ())]
        self._numbers: dict[tuple[int, tuple[Set, ...]], Set] = {}
        self._known: dict[Hashable, Set] = {}
        self._digits: dict[Set, frozenset[int]] = {0: frozenset(), 1: frozenset()}
        self._same: dict[frozenset[int], frozenset[int]] = {}

    def node(self, digit: int, onward: tuple[Set, ...]) -> Set:
        """The set that goes on so with each value of the digit."""
        if onward.count(onward[0]) == len(onward):
            return onward[0]
        if (digit, onward) not in self._numbers:
            if len(self.nodes) == MOST_NODES:
                raise TooLarge("its sets are too large")
            self._numbers[digit, onward] = len(self.nodes)
            self.nodes.append((digit, onward))
        return self._numbers[digit, onward]

    def where(self, digit: int | None, values: Collection[int]) -> Set:
        """The states in which a digit has one of the values; all for no digit."""
        return 1 if digit is None else self.node(digit, tuple(int(v in values) for v in range(self.radices[digit])))

    def both(self, one: Set, other: Set) -> Set:
        """The states that are in both."""
        if one > other:
            one, other = other, one
        if one <= 1 or one == other:
            return other if one else 0
        key = (one, other)
        if key not in self._known:
            digit = max(self.nodes[one][0], self.nodes[other][0])
            parts = zip(self._onward(one, digit), self._onward(other, digit), strict=True)
            self._know(key, self.node(digit, tuple(self.both(*pair) for pair in parts)))
        return self._known[key]

    def opposite(self, one: Set) -> Set:
        """All other states."""
        if one <= 1:
            return 1 - one
        if one not in self._known:
            digit, onward = self.nodes[one]
            self._know(one, self.node(digit, tuple(map(self.opposite, onward))))
        return self._known[one]

    def either(self, one: Set, other: Set) -> Set:
        """The states that are in one of them or in both."""
        return self.opposite(self.both(self.opposite(one), self.opposite(other)))

    def union(self, parts: Iterable[Set]) -> Set:
        """The states that are in any of them."""
        found = 0
        for part in parts:
            found = self.either(found, part)
        return found

    def without(self, one: Set, other: Set) -> Set:
        """The states that are in one and not in the other."""
        return self.both(one, self.opposite(other))

    def within(self, one: Set, digits: frozenset[int]) -> Set:
        """The states of which some are in the set, once all digits but these stand anyhow."""
        if self.digits(one) <= digits:
            return one
        key = (one, digits)
        if key not in self._known:
            digit, onward = self.nodes[one]
            parts = [self.within(part, digits) for part in onward]
            self._know(key, self.node(digit, tuple(parts)) if digit in digits else self.union(parts))
        return self._known[key]

    def given(self, one: Set, digit: int, value: int) -> Set:
        """The states that are in the set once the digit has this value."""
        top, onward = self.nodes[one]
        if top <= digit:
            return onward[value] if top == digit else one
        key = (one, digit, value)
        if key not in self._known:
            self._know(key, self.node(top, tuple(self.given(part, digit, value) for part in onward)))
        return self._known[key]

    def moved(self, one: Set, digit: int, end: int) -> Set:
        """The states of the set with the digit turned to this value."""
        anyhow = self.union(self.given(one, digit, value) for value in range(self.radices[digit]))
        return self.both(anyhow, self.where(digit, (end,)))

    def digits(self, one: Set) -> frozenset[int]:
        """What the set hangs on."""
        if one not in self._digits:
            digit, onward = self.nodes[one]
            found = frozenset((digit,)).union(*map(self.digits, onward))
            self._digits[one] = self._same.setdefault(found, found)
        return self._digits[one]

    def begin_anew(self) -> None:
        """Leaves as much room for what follows as there was for what came before."""
        self._known.clear()

    def _know(self, key: Hashable, found: Set) -> None:
        if len(self._known) == MOST_STEPS:
            raise TooLarge("it takes too many steps to follow")
        self._known[key] = found

    def _onward(self, one: Set, digit: int) -> tuple[Set, ...]:
        top, onward = self.nodes[one]
        return onward if top == digit else (one,) * self.radices[digit]


# The circuit, as it is looked at here


class Way(NamedTuple):
    """Current can pass from `tail` to `head`: always, or while `digit` has one of `values`; in a moment of a changeover
    while `pole`, where that is a pole of a relay, is on one of `sides`."""

    tail: Net
    head: Net
    digit: int | None
    values: frozenset[int]
    pole: int | None
    sides: frozenset[int]


class Pole(NamedTuple):
    """A pole of a relay as a digit of its own: on the released side (0), the operated side (1), or on its way (2): at
    both sides, if it is make-before-break, or at none."""

    digit: int
    relay: Relay


class Box(NamedTuple):
    """A circuit as the verifier looks at it. rails: the nets of each supply's + and −. leaving, arriving: the ways from
    and to each net. loads: at each net, the numbers of the loads there and the nets of their other ends. poles: by the
    terminal of each. names: of all digits, the poles' last. told: what has been found of relays and motors already."""

    circuit: Circuit
    net: dict[str, Net]
    rails: tuple[tuple[Net, Net], ...]
    leaving: dict[Net, list[Way]]
    arriving: dict[Net, list[Way]]
    loads: dict[Net, list[tuple[int, Net]]]
    poles: dict[str, Pole]
    names: list[str]
    sets: Sets
    told: dict[Hashable, dict[Any, Set]]

    @property
    def sources(self) -> list[Net]:
        """The rails that current may come from into a short."""
        found = {plus for plus, _ in self.rails}
        return sorted(found | ({minus for _, minus in self.rails} if len(self.rails) > 1 else set()))


def box_of(circuit: Circuit) -> Box:
    """Puts terminals that are always joined together, and takes every other conductor as one or two ways."""
    net = joined_by(circuit, (one for one in circuit.conductors if one.closed is None and not one.one_way))
    poles = poles_of(circuit)
    ways: list[Way] = []
    for one in circuit.conductors:
        ways += ways_of(one, net, poles)
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
    names = [*(digit.name for digit in circuit.digits), *poles]
    radices = (*(digit.radix for digit in circuit.digits), *(3 for _ in poles))
    return Box(circuit, net, rails, leaving, arriving, loads, poles, names, Sets(radices), {})


def ways_of(one: Conductor, net: dict[str, Net], poles: dict[str, Pole]) -> list[Way]:
    """How current can pass a conductor."""
    tail, head, pole = net[one.tail], net[one.head], poles.get(one.tail) if one.closed else None
    how = (one.closed.digit, one.closed.values) if one.closed else (None, frozenset[int]())
    apart = (pole.digit, sides(pole.relay, how[1])) if pole else how
    ends = [(tail, head)] if one.one_way else [(tail, head), (head, tail)]
    return [Way(*pair, *how, *apart) for pair in ends if tail != head]


def joined_by(circuit: Circuit, conductors: Iterable[Conductor]) -> dict[str, Net]:
    """The net of each terminal, as these conductors join them."""
    joined: dict[str, list[str]] = {}
    for one in conductors:
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
    return net


def poles_of(circuit: Circuit) -> dict[str, Pole]:
    """The poles of all relays, by the terminal of each that its contacts share."""
    relays = {relay.digit: relay for relay in circuit.relays}
    contacts = {
        one.tail: relays[one.closed.digit] for one in circuit.conductors if one.closed and one.closed.digit in relays
    }
    return {name: Pole(len(circuit.digits) + place, relay) for place, (name, relay) in enumerate(contacts.items())}


def sides(relay: Relay, values: Collection[int]) -> frozenset[int]:
    """On which sides of a pole a contact is closed that is closed with these values of the relay."""
    return frozenset((int(1 in values), *((2,) if relay.make_before_break else ())))


def claims_of(circuit: Circuit) -> list[str]:
    """All that a certificate of this circuit can be about."""
    return [claim for claims in claims_by_check(circuit).values() for claim in claims]


def claims_by_check(circuit: Circuit) -> dict[str, list[str]]:
    """The same, by the name of the check that says so where it finds nothing wrong."""
    supplies, motors, axes = circuit.supplies, circuit.motors, axes_with_ends(circuit)
    coils = [circuit.loads[coil.load] for coil in coils_of(circuit)]
    return {
        "supply-short": [NO_SHORT, NO_SHORT_MOVING] if supplies else [],
        "supply-without-fuse": [f"{supply.name} {FUSED}" for supply in supplies],
        "coil-volts-mismatch": [f"{coil.name} {MATCHED}" for coil in coils],
        "missing-flyback": [f"{load.name} {SUPPRESSED}" for load in circuit.loads if load.inductive],
        "unbraked-stop": [f"{motor.name} {BRAKED}" for motor in must_brake(circuit)],
        "plugged-motor": [f"{motor.name} {NOT_THROWN}" for motor in motors],
        "starts-by-itself": [f"{motor.name} {STAYS_STILL}" for motor in motors],
        "wrong-way-pulse": [f"{motor.name} {NO_PULSE}" for motor in motors],
        "overvolted-supply": [f"{motor.name} {NOT_PUSHED}" for motor in pushing_motors(circuit)],
        "emergency-stop": [f"{motor.name} {obeys}" for obeys in stops(circuit).values() for motor in motors],
        "limit-not-cutting": [f"{axis.name} {WITHIN_ENDS}" for axis in axes],
        "trapped-at-limit": [f"{axis.name} {TURNS_BACK}" for axis in axes],
        "lost-axis": [f"{axis.name} {FOUND}" for axis in axes_with_limits(circuit)],
        "never-settles": all_settle(circuit),
        "sneak-path": [
            *(f"{circuit.loads[number].name} {OWN_DRIVE}" for number in workable(circuit)),
            *(f"{part} {NO_LINK}" for part in switching(circuit)),
        ],
        **claims_of_combinations(circuit),
    }


def workable(circuit: Circuit) -> list[int]:
    """The loads that do something when they are fed."""
    coils = {coil.load for relay in circuit.relays for coil in relay.inputs}
    return [number for number, load in enumerate(circuit.loads) if number in coils or load.kind in LEAST_SHARES]


def switching(circuit: Circuit) -> list[str]:
    """The parts with contacts or diodes."""
    return list(dict.fromkeys(one.part for one in circuit.conductors if one.closed or one.one_way))


def must_brake(circuit: Circuit) -> list[Motor]:
    """The motors that the plan does not allow to coast."""
    return [motor for motor in circuit.motors if not motor.may_coast]


def stops(circuit: Circuit) -> dict[int, str]:
    """The digits of its emergency stops, each with what is claimed of motors there."""
    stopping = {name for name, part in circuit.parts.items() if part.kind == "estop"}
    return {number: OBEYS.format(one.name) for number, one in enumerate(circuit.digits) if one.name in stopping}


def electronic(circuit: Circuit) -> list[int]:
    """The supplies, by number, that the plan describes as taking no current back."""
    return [number for number, one in enumerate(circuit.supplies) if one.limit_amps or one.withstands_volts]


def pushing_motors(circuit: Circuit) -> list[Motor]:
    """The motors that could feed such a supply. What a second winding makes while the first is fed, no plan tells."""
    return [motor for motor in circuit.motors if electronic(circuit) and len(motor.windings) == 1]


def driven_axes(circuit: Circuit) -> list[Axis]:
    """The axes that some motor drives."""
    driven = {motor.axis for motor in circuit.motors}
    return [axis for number, axis in enumerate(circuit.axes) if number in driven]


def axes_with_ends(circuit: Circuit) -> list[Axis]:
    """Those of them that go to and fro."""
    return [axis for axis in driven_axes(circuit) if not axis.turning]


def axes_with_limits(circuit: Circuit) -> list[Axis]:
    """Those of them on which there are limit or cam switches."""
    return [axis for axis in driven_axes(circuit) if known_zones(circuit, axis)]


def known_zones(circuit: Circuit, axis: Axis) -> set[int]:
    """Where a limit or cam switch of an axis is pressed."""
    limits = (limit for limit in circuit.limits if circuit.axes[limit.axis] is axis)
    return {zone for limit in limits for zone in limit.zones}


# The certificate


def verify(circuit: Circuit, certificate: Any) -> list[str]:
    """What the certificate proves of the circuit. Raises Refused where anything in it is not as it must be."""
    fields(certificate, "version", "sets", "conduction", "calm", "operation", "without certificate", "seal")
    if certificate["version"] != VERSION:
        raise Refused(f"this is no {VERSION}")
    if certificate["seal"] != seal_of(certificate):
        raise Refused("it was changed after it was written: its seal doesn't fit")
    box, every, proved, moving = box_of(circuit), claims_of(circuit), as_written(circuit), 0
    reader = Reader(box, certificate["sets"])
    if certificate["conduction"] is not None:
        moving = confirm_no_short(box, reader.conduction(certificate["conduction"]))
        proved += proved_at_once(box, moving)
    elif certificate["calm"] is not None or certificate["operation"]:
        raise Refused("behaviour is followed only where no supply is ever shorted")
    if certificate["calm"] is not None:
        confirm_calm(box, certificate["calm"])
        proved += all_settle(circuit)
    for entry in listed(certificate["operation"]):
        operation = reader.operation(entry)
        confirm_operation(box, operation, certificate["calm"] is not None, moving)
        if not set(operation.claims).isdisjoint(proved):
            raise Refused("something is claimed twice")
        proved += operation.claims
    reader.refuse_what_is_left()
    left = [claim for claim in every if claim not in proved]
    if certificate["without certificate"] != left:
        raise Refused("what is claimed and what is left over are not all that can be claimed")
    return proved


def seal_of(certificate: dict[str, Any]) -> str:
    """SHA-256 over all but the seal itself."""
    written = json.dumps({name: value for name, value in certificate.items() if name != "seal"})
    return sha256(written.encode()).hexdigest()


class Operation(NamedTuple):
    """The states reached over some digits, and what is claimed to hold there. still: digits that stand still there,
    with their values: then it begins wherever no relay wants to move."""

    digits: frozenset[int]
    still: State
    reached: Set
    claims: list[str]


class Reader:
    """The sets of a certificate. Each is written as "S1 0 1 7": a digit, and for each of its values the number of the
    set that goes on: 0 for none, 1 for all states, 2 for the first that is written, and so on."""

    def __init__(self, box: Box, written: Any) -> None:
        self._box = box
        self._numbers = {name: number for number, name in enumerate(box.names)}
        self._sets: list[Set] = [0, 1]
        self._used = {0, 1}
        self._places = {"0": 0, "1": 1}
        for place, line in enumerate(listed(written), 2):
            self._sets.append(self._node(line))
            self._places[str(place)] = place

    def _node(self, line: Any) -> Set:
        nodes, many = self._box.sets.nodes, len(self._box.sets.nodes)
        name, *parts = str(line).split(" ")
        if name not in self._numbers or len(parts) != self._box.sets.radices[self._numbers[name]]:
            raise Refused("a set is written as a digit and the set that goes on with each of its values")
        digit = self._numbers[name]
        onward = tuple(self._set(self._places.get(part)) for part in parts)
        found = self._box.sets.node(digit, onward)
        if found != many or any(nodes[part][0] >= digit for part in onward):
            raise Refused("a set is written in one way only, the highest digit on top")
        return found

    def _set(self, number: Any) -> Set:
        if type(number) is not int or not 0 <= number < len(self._sets):
            raise Refused("a set is meant that is not written")
        self._used.add(number)
        return self._sets[number]

    def refuse_what_is_left(self) -> None:
        """Refuses sets that nothing uses."""
        if len(self._used) < len(self._sets):
            raise Refused("a set is written that nothing uses")

    def conduction(self, written: Any) -> dict[Net, dict[Net, Set]]:
        """For each rail that current may come from, the set of each net; a net that is never reached is left out."""
        fields(written, *self._box.sources)
        nets = set(self._box.net.values())
        for sets in written.values():
            if not isinstance(sets, dict) or list(sets) != sorted(set(sets) & nets):
                raise Refused("sets belong to nets, in order")
        return {source: {net: self._set(one) for net, one in sets.items()} for source, sets in written.items()}

    def operation(self, written: Any) -> Operation:
        """What is reached, over which digits, and what is claimed of it."""
        fields(written, "over", "still", "reached", "claims")
        digits, still = self._digits(listed(written["over"])), written["still"]
        if not isinstance(still, dict):
            raise Refused("what stands still is written with its values")
        values = {}
        for digit in self._digits(list(still)):
            one = self._box.circuit.digits[digit]
            if still[one.name] not in one.values:
                raise Refused(f"{one.name} stands still where it can't")
            values[digit] = one.values.index(still[one.name])
        return Operation(frozenset(digits), values, self._set(written["reached"]), listed(written["claims"]))

    def _digits(self, names: list[Any]) -> list[int]:
        found = [number for number, digit in enumerate(self._box.circuit.digits) if digit.name in names]
        if names != [self._box.names[digit] for digit in found]:
            raise Refused("digits are written in order, once each")
        return found


def fields(value: Any, *names: str) -> None:
    """Refuses what is not an object with just these fields."""
    if not isinstance(value, dict) or list(value) != list(names):
        raise Refused(f"an object should have just the fields {', '.join(names)}")


def listed(value: Any) -> list[Any]:
    """Refuses what is not a list of words or objects."""
    if not isinstance(value, list) or not all(isinstance(one, str | dict) for one in value):
        raise Refused("a list is missing")
    return value


# No supply is shorted


def confirm_no_short(box: Box, conduction: dict[Net, dict[Net, Set]]) -> Set:
    """Every set follows from the others, and while poles stand where their relays are no loop through supplies is
    closed. Gives the states in which one is closed while relays move."""
    for source, sets in conduction.items():
        for net in sorted({*box.net.values()}):
            if sets.get(net, 0) != brought(box, source, net, sets) or sets.get(net) == 0:
                raise Refused(f"current gets from {source} to {net} in other states")
    closed = 0
    for number, (plus, minus) in enumerate(box.rails):
        volts, on = box.circuit.supplies[number].volts, box.sets.where(box.circuit.supplies[number].digit, (1,))
        closed = box.sets.either(closed, loops(box, conduction, plus, minus, {number}, on, volts))
        closed = box.sets.either(closed, loops(box, conduction, minus, plus, {number}, on, -volts))
    if with_poles_placed(box, closed, lambda _: 0):
        raise Refused("conductors lead from one end of a supply to the other, or join supplies of different volts")
    return with_poles_placed(box, without_guided(box, closed), partial(may_move, box))


def brought(box: Box, source: Net, net: Net, sets: dict[Net, Set]) -> Set:
    """In which states conductors lead from a source to a net, by the sets of all nets that they come from."""
    if net == source:
        return 1
    ways = (way for way in box.arriving.get(net, ()) if way.tail in sets)
    parts = {box.sets.both(sets[way.tail], box.sets.where(way.pole, way.sides)): None for way in ways}
    found = 0
    for part in sorted(parts, key=lambda part: len(box.sets.digits(part))):
        found = box.sets.either(found, part)
        if len(box.sets.digits(found)) > TOGETHER:
            return 1
    return found


def loops(
    box: Box, sets: dict[Net, dict[Net, Set]], at: Net, goal: Net, used: set[int], live: Set, volts: float
) -> Set:
    """Current has come to `at` in the states `live`, through supplies that raised it by `volts`: where can it go on to
    the goal, having been raised?"""
    onward = sets.get(at, {})
    found = box.sets.both(live, onward.get(goal, 0)) if volts > ALMOST else 0
    for number, (plus, minus) in enumerate(box.rails):
        if number not in used:
            supply = box.circuit.supplies[number]
            on = box.sets.both(live, box.sets.where(supply.digit, (1,)))
            for enter, leave, gain in ((minus, plus, supply.volts), (plus, minus, -supply.volts)):
                further = box.sets.both(on, onward.get(enter, 0))
                if further:
                    more = loops(box, sets, leave, goal, used | {number}, further, volts + gain)
                    found = box.sets.either(found, more)
    return found


def with_poles_placed(box: Box, states: Set, moving: Callable[[Relay], Set]) -> Set:
    """Those of the states in which each pole is on its relay's side, or its relay moves; over all other digits."""
    plain = frozenset(range(len(box.circuit.digits)))
    for pole in box.poles.values():
        if pole.digit in box.sets.digits(states):
            placed = moving(pole.relay)
            for value in range(len(box.circuit.digits[pole.relay.digit].values)):
                stands = box.sets.where(pole.relay.digit, (value,))
                placed = box.sets.either(placed, box.sets.both(stands, box.sets.where(pole.digit, (int(value == 1),))))
            states = box.sets.both(states, placed)
    return box.sets.within(states, plain)


def without_guided(box: Box, states: Set) -> Set:
    """Those of the states in which no force-guided relay has a contact closed that closes and another that opens
    (EN 50205, IEC 61810-3)."""
    contacts = {(way.pole, side) for ways in box.arriving.values() for way in ways for side in way.sides}
    poles = [one for one in box.poles.values() if GUIDED in box.circuit.parts[one.relay.name].features]
    for one, other in product(poles, poles):
        if one.relay == other.relay and one.digit != other.digit and {(one.digit, 1), (other.digit, 0)} <= contacts:
            together = box.sets.both(box.sets.where(one.digit, (1,)), box.sets.where(other.digit, (0,)))
            states = box.sets.without(states, together)
    return states


def may_move(box: Box, relay: Relay) -> Set:
    """The states in which a relay moves, at once or after a time, or in which what it wants does not follow."""
    return box.sets.union((wanted(box, relay).get(None, 0), *(states for _, states in wishes(box, relay))))


# What relays want and motors do


class Wish(NamedTuple):
    """A relay's digit wants to go from `start` to `end`; timed: once its time has run out."""

    digit: int
    start: int
    end: int
    timed: bool


def wanted(box: Box, relay: Relay) -> dict[tuple[Wish, ...] | None, Set]:
    """All that a relay may want together, each with the states in which it does; None where that does not follow."""
    return told(box, ("wants", relay.digit), partial(Moment.wishes, relay=relay))


def wishes(box: Box, relay: Relay) -> list[tuple[Wish, Set]]:
    """What a relay wants, each with the states in which it does."""
    return [(wish, states) for answer, states in wanted(box, relay).items() for wish in answer or ()]


def wants_to_move(box: Box, relay: Relay) -> Set:
    """The states in which a relay moves, timers aside."""
    return box.sets.union(states for wish, states in wishes(box, relay) if not wish.timed)


def drives(box: Box, motor: Motor) -> dict[int | None, Set]:
    """The states in which a motor drives its axis to higher zones (1) or to lower ones (-1)."""
    return told(box, ("drives", motor.windings), partial(Moment.direction, motor=motor))


def braked(box: Box, motor: Motor) -> Set:
    """The states in which a motor is surely braked."""
    return told(box, ("brakes", motor.windings), partial(Moment.is_braked, motor=motor)).get(True, 0)


def told(box: Box, key: Hashable, ask: "Callable[[Moment], Any]") -> dict[Any, Set]:
    """All answers to a question about a moment, each with the states in which it is the answer; None in those in which
    it does not follow."""
    if key not in box.told:
        found = box.told[key] = {}
        left: list[tuple[State, Set]] = [({}, 1)]
        for _ in range(MOST_CASES):
            if not left:
                return found
            state, states = left.pop()
            try:
                answer = ask(Moment(box, state))
            except Undecided as undecided:
                digit = undecided.digit
                for value in range(box.sets.radices[digit]):
                    part = box.sets.both(states, box.sets.where(digit, (value,)))
                    left.append(({**state, digit: value}, part))
                continue
            except Refused:
                answer = None
            found[answer] = box.sets.either(found.get(answer, 0), states)
        found.clear()
        found[None] = 1
    return box.told[key]


def gets(box: Box, number: int) -> "dict[Got | None, Set]":
    """All that a load may get, each with the states in which it does; None where not even that follows."""
    return told(box, ("gets", number), partial(Moment.gets, number=number))


class Got(NamedTuple):
    """The volts of a load, `a` positive (None: they don't follow); what they come over: "conductors" alone, "resistors"
    with these, or "others", which are loads."""

    volts: float | None
    over: str


class Crossing(NamedTuple):
    """Current might get to `net`, last of all over the unknown digit `last`, which has one of `values`, from the net
    `before`."""

    net: Net
    before: Net
    last: int | None
    values: frozenset[int]


class Branch(NamedTuple):
    """The volts between `tail` and `head`, less the drop, drive current through the ohms."""

    tail: Net
    head: Net
    ohms: Fraction
    drop: Fraction


def operating_point(levels: dict[Net, Fraction], loads: list[Branch], diodes: list[Branch]) -> dict[Net, Fraction]:
    """The volts of all nets between those at these levels. Diodes that don't agree with their volts are turned, the
    first of them each time (Murty 1974)."""
    conducting: set[Branch] = set()
    points = sorted({net for one in (*loads, *diodes) for net in one[:2]} - levels.keys())
    for _ in range(MOST_TURNS):
        volts = levels | kirchhoff(points, levels, [*loads, *conducting])
        more = {one: volts[one.tail] - volts[one.head] - DROP for one in diodes}
        wrong = [one for one in diodes if (more[one] < 0 if one in conducting else more[one] > 0)]
        if not wrong:
            return volts
        conducting ^= {wrong[0]}
    raise Refused("it takes too long to find out which diodes conduct")


def kirchhoff(points: list[Net], levels: dict[Net, Fraction], branches: list[Branch]) -> dict[Net, Fraction]:
    """The volts of these points: what comes to one over the branches goes on from there."""
    place = {net: number for number, net in enumerate(points)}
    rows = [[LEAK * (one == other) for other in points] + [Fraction(0)] for one in points]
    for tail, head, ohms, drop in branches:
        for here, there, more in ((tail, head, drop), (head, tail, -drop)):
            if here in place:
                row = rows[place[here]]
                row[place[here]] += 1 / ohms
                row[-1] += (levels.get(there, 0) + more) / ohms
                if there in place:
                    row[place[there]] -= 1 / ohms
    for number in range(len(points)):
        top = [one / rows[number][number] for one in rows[number]]
        rows = [
            top if other == number else [one - row[number] * more for one, more in zip(row, top, strict=True)]
            for other, row in enumerate(rows)
        ]
    return {net: row[-1] for net, row in zip(points, rows, strict=True)}


Held = tuple[Net, int | None]
"""A net, and the first unknown digit on the way there."""


class Moment:
    """What is so in the states that give digits these values. Ways over other digits may lead, and are never counted
    on; where an answer hangs on one, Undecided is raised."""

    def __init__(self, box: Box, state: State) -> None:
        self.box, self.circuit, self.state = box, box.circuit, state
        self.levels = self._levels()

    def wishes(self, relay: Relay) -> tuple[Wish, ...]:
        """What a relay wants."""
        return tuple(self._wishes(relay, self._value(relay.digit)))

    def direction(self, motor: Motor) -> int:
        """1 toward higher zones of its axis, -1 toward lower ones, 0 for not driven."""
        return self._drive(motor) if motor.upward else -self._drive(motor)

    def is_braked(self, motor: Motor) -> bool:
        """Are its brushes joined?"""
        return any(self.leads([(one.plus, one.minus), (one.minus, one.plus)]) for one in motor.windings)

    def brakes(self, motor: Motor) -> bool:
        """Is it braked, and not driven?"""
        return not self.direction(motor) and self.is_braked(motor)

    def leads(self, pairs: list[tuple[str, str]]) -> bool:
        """Do conductors lead from one terminal to the other of each pair, over no more than one rail of each supply?"""
        shuts = [set(shut) for shut in product(*(rails for rails in self.box.rails if rails[0] != rails[1]))]
        ways = [self._leads(self.box.net[start], self.box.net[end], shuts) for start, end in pairs]
        if None not in ways and any(way != SURELY for way in ways):
            raise Undecided(max(way for way in ways if way is not None))
        return None not in ways

    def gets(self, number: int) -> Got:
        """What a load gets, and over what: resistors count only where conductors alone don't decide."""
        volts, more = self.fed(number)
        if not more:
            return Got(volts, "conductors")
        a, b = self._ends(number)
        ways = [(self._over_resistors(high, True), self._over_resistors(low, False)) for high, low in ((a, b), (b, a))]
        over = "resistors" if any(self._most(*way) > ALMOST for way in ways) else "others"
        try:
            return Got(self._solved(a, b), over)
        except Refused:
            return Got(None, over)

    def _over_resistors(self, start: Net, backward: bool) -> set[Net]:
        """Where conductors and resistors surely lead to, or come from, up to what supplies hold."""
        found, waiting = set[Net](), [start]
        for here in waiting:
            fresh = self._reached(here, self.levels, backward) - found
            found |= fresh
            beside = (one for net in fresh - self.levels.keys() for one in self.box.loads.get(net, ()))
            waiting += [other for load, other in beside if self.circuit.loads[load].kind == "resistor"]
        return found

    def is_fed(self, number: int) -> bool:
        """Do conductors alone bring a load volts?"""
        a, b = self._ends(number)
        pairs = ((a, b), (b, a)) if a != b else ()
        for high, low in pairs:
            highs, lows = self._reached(high, self.levels, True), self._reached(low, self.levels, False)
            if self._most(highs, lows) > ALMOST:
                return True
        for high, low in pairs:
            # Raises Undecided where the answer hangs on a digit.
            highest, lowest = (self._held(net, {*self.levels}, net == high, None) for net in (high, low))
            self._is_brought(highest, list(lowest), 0.0)
        return False

    def is_raised(self, number: int, load: int, made: float) -> bool:
        """Might a motor that makes these volts (positive where `a` of its load is) bring a supply above what it
        withstands? Volts are added up from − of the supply to its +, over any load, past the motor and each other
        supply once at most."""
        plus, minus = self.box.rails[number]
        sources = list(self._sources(number, load, made)) if self._value(self.circuit.supplies[number].digit) else []
        waiting: list[tuple[Net, frozenset[int], float, int | None]] = [(minus, frozenset(), 0.0, None)]
        gained = {(minus, frozenset[int]()): 0.0}
        for here, passed, volts, last in waiting if sources else ():
            if here == plus and volts > withstood(self.circuit.supplies[number]):
                if last is not None:
                    raise Undecided(last)
                return True
            onward = [(other, passed, volts, last) for one, other in self.box.loads.get(here, ()) if one != load]
            for source, start, end, gain in sources:
                if start == here and source not in passed:
                    onward.append((end, passed | {source}, volts + gain, last))
            for way in self.box.leaving.get(here, ()):
                if way.digit is None or self.state.get(way.digit) in way.values:
                    onward.append((way.head, passed, volts, last))
                elif way.digit not in self.state:
                    onward.append((way.head, passed, volts, way.digit))
            for net, by, more, hangs in onward:
                if net != minus and more > gained.get((net, by), more - 1):
                    gained[net, by] = more
                    waiting.append((net, by, more, hangs))
        return False

    def _sources(self, number: int, load: int, made: float) -> Iterator[tuple[int, Net, Net, float]]:
        """A motor (-1) and all supplies that are on but this one, each from end to end with the volts that it adds."""
        a, b = (self.box.net[end] for end in (self.circuit.loads[load].a, self.circuit.loads[load].b))
        yield from ((-1, b, a, made), (-1, a, b, -made))
        for other, (plus, minus) in enumerate(self.box.rails):
            if other != number and self._value(self.circuit.supplies[other].digit):
                volts = self.circuit.supplies[other].volts
                # Back through one that takes none leads at most what leaks between its terminals.
                yield from (
                    (other, minus, plus, volts),
                    (other, plus, minus, 0.0 if other in electronic(self.circuit) else -volts),
                )

    def _value(self, digit: int) -> int:
        if digit not in self.state:
            raise Undecided(digit)
        return self.state[digit]

    def _leads(self, start: Net, end: Net, shuts: list[set[Net]]) -> int | None:
        """SURELY where conductors lead there, None where they don't, else a digit on which that hangs."""
        if start == end:
            return SURELY
        shuts = [shut for shut in shuts if not shut & {start, end}]
        if any(end in self._reached(start, shut, False) for shut in shuts):
            return SURELY
        ways = (one for shut in shuts for one in self._walk([start], shut, False))
        return next((digit for net, digit in ways if net == end), None)

    def _drive(self, motor: Motor) -> int:
        """1 forward, -1 reverse, 0 not driven: with at least a quarter of its rated volts. A winding that drives it
        forward decides, whatever the others get."""
        undecided = None
        reverse = False
        for one in motor.windings:
            try:
                volts = self.volts(one.load)
            except Refused as refused:
                undecided = refused
                continue
            if volts >= motor.volts / 4 - ALMOST:
                return 1
            reverse = reverse or -volts >= motor.volts / 4 - ALMOST
        if undecided:
            raise undecided
        return -1 if reverse else 0

    def _wishes(self, relay: Relay, value: int) -> Iterator[Wish]:
        """What a relay wants, standing at 0 released, 1 operated, 2 spent (one-shot) or pausing (pulse relay)."""
        wish, timed = partial(Wish, relay.digit, value), relay.function
        on, off = self._works(relay.coil)
        called, gone = self._works(relay.control) if relay.control else (on, off)
        if relay.reset is not None:
            reset, _ = self._works(relay.reset)
            if (on and not reset) if value == 0 else (reset and not on):
                yield wish(1 - value, False)
        elif value == 0:
            if on and called:
                yield wish(1, timed == "on-delay")
        elif timed == "one-shot":
            if off or (value == 2 and gone):
                yield wish(0, False)
            elif value == 1:
                yield wish(2, True)
        elif off or gone:
            yield wish(0, timed == "off-delay" and not (off and relay.control))
        elif timed == "pulse":
            yield wish(3 - value, True)

    def _works(self, coil: Coil) -> tuple[bool, bool]:
        """Are the volts enough to operate? Are they too few to hold?"""
        volts = abs(self.volts(coil.load))
        return volts >= coil.operate_volts - ALMOST, volts < coil.release_volts - ALMOST

    def _levels(self) -> dict[Net, tuple[Net, float]]:
        """The nets that supplies hold: those of a supply that is on, and what conductors surely join to such both ways.
        Each with the rail from which its volts count: two rails that no supplies link have no common measure."""
        levels: dict[Net, tuple[Net, float]] = {}
        links = []
        for supply, (plus, minus) in zip(self.circuit.supplies, self.box.rails, strict=True):
            if self._value(supply.digit) == 1:
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
        shut = {*levels}
        for rail, level in list(levels.items()):
            for net in self._reached(rail, shut - {rail}, False) & self._reached(rail, shut - {rail}, True):
                if net in levels and levels[net] != level:
                    raise Refused(f"{net} is held by two supplies")
                if net not in shut:
                    levels[net] = level
        return levels

    def _reached(self, start: Net, shut: Collection[Net], backward: bool) -> set[Net]:
        """Where conductors surely lead to, or come from. Nets that are shut are come to, but not gone on from."""
        found, waiting = {start}, [] if start in shut else [start]
        for here in waiting:
            for way in (self.box.arriving if backward else self.box.leaving).get(here, ()):
                there = way.tail if backward else way.head
                if there not in found and (way.digit is None or self.state.get(way.digit) in way.values):
                    found.add(there)
                    waiting += [] if there in shut else [there]
        return found

    def _walk(
        self, starts: Iterable[Net], shut: Collection[Net], backward: bool, but: int | None = None
    ) -> Iterator[tuple[Net, int | None]]:
        """Where conductors might lead to, or come from, the nearest first, each with the first unknown digit on the way
        there; with `but`, where current might, over all loads but this one. No digit lets current over two contacts in
        a row that need it at different values, nor does current go back to where it came from."""
        found: dict[Crossing, int | None] = {Crossing(start, start, None, frozenset()): None for start in starts}
        waiting = list(found)
        yield from ((begun.net, None) for begun in waiting)
        for here in waiting:
            onward = self._onward(here, backward)
            if but is not None:
                others = self.box.loads.get(here.net, ())
                onward += [here._replace(net=other) for load, other in others if load != but]
            for there in onward:
                if there not in found:
                    found[there] = there.last if found[here] is None else found[here]
                    waiting += [] if there.net in shut else [there]
                    yield there.net, found[there]

    def _onward(self, here: Crossing, backward: bool) -> list[Crossing]:
        """Over which conductors current might go on."""
        onward = []
        for way in (self.box.arriving if backward else self.box.leaving).get(here.net, ()):
            there = way.tail if backward else way.head
            if way.digit is None or self.state.get(way.digit) in way.values:
                onward.append(here._replace(net=there))
            elif way.digit == here.last and here.values & way.values:
                onward.append(here._replace(net=there, values=here.values & way.values))
            elif way.digit not in self.state and way.digit != here.last:
                onward.append(Crossing(there, here.net, way.digit, way.values))
        return [one for one in onward if one.net != here.before]

    def _ends(self, number: int) -> tuple[Net, Net]:
        load = self.circuit.loads[number]
        return self.box.net[load.a], self.box.net[load.b]

    def volts(self, number: int) -> float:
        """The volts of a load, `a` positive: by Kirchhoff's laws where other loads bring it more than conductors do."""
        volts, more = self.fed(number)
        return self._solved(*self._ends(number)) if more else volts

    def fed(self, number: int) -> tuple[float, bool]:
        """The volts that conductors bring a load, `a` positive; and can other loads bring it more?"""
        a, b = self._ends(number)
        if not self.levels or a == b:
            return 0.0, False
        if a in self.levels and b in self.levels:
            return self._difference(a, b), False
        if b in self._reached(a, self.levels, True) & self._reached(a, self.levels, False):
            return 0.0, False
        forward, reverse = (
            self._most(self._reached(high, self.levels, True), self._reached(low, self.levels, False))
            for high, low in ((a, b), (b, a))
        )
        more = self._gets_more(number, a, b, max(forward, reverse))
        return forward if forward >= reverse else -reverse, more

    def _gets_more(self, number: int, a: Net, b: Net, volts: float) -> bool:
        """Can other loads bring a load more volts than conductors do?"""
        least, most = (pick(level for _, level in self.levels.values()) for pick in (min, max))
        apart = len({rail for rail, _ in self.levels.values()}) > 1
        tops = {net for net, (_, level) in self.levels.items() if apart or level > least + volts + ALMOST}
        bottoms = {net for net, (_, level) in self.levels.items() if apart or level < most - volts - ALMOST}
        for high, low in ((a, b), (b, a)):
            if self._might_come(high, tops, True, number) and self._might_come(low, bottoms, False, number):
                highs = self._held(high, tops, True, number)
                if self._is_brought(highs, list(self._held(low, bottoms, False, number)), volts):
                    return True
        return False

    def _is_brought(self, highs: Iterable[Held], lows: list[Held], volts: float) -> bool:
        """Is some high net surely held above some low one by more volts?"""
        more = False
        for (above, first), (below, last) in ((one, other) for one in highs for other in lows):
            if self._might_differ(above, below, volts):
                more = True
                for digit in (first, last):
                    if digit is not None:
                        raise Undecided(digit)
        return more

    def _solved(self, a: Net, b: Net) -> float:
        """The volts between two nets by Kirchhoff's laws, with all that hangs together with them."""
        loose, ways = self._hanging_together({a, b} - self.levels.keys())
        # Nets that conductors join both ways, or supplies hold at one level, go by the name of one of them.
        at: dict[tuple[Net, float], Net] = {}
        name = {net: at.setdefault(level, net) for net, level in self.levels.items()}
        for net in loose:
            name[net] = min(self._reached(net, self.levels, True) & self._reached(net, self.levels, False))
        branches = []
        for number in sorted({number for net in loose for number, _ in self.box.loads.get(net, ())}):
            tail, head = self._ends(number)
            branches.append(Branch(name[tail], name[head], Fraction(self.circuit.loads[number].ohms), Fraction(0)))
        joined = {(name[way.tail], name[way.head]) for way in ways}
        one_way = sorted(pair for pair in joined if pair[0] != pair[1])
        diodes = [Branch(*pair, DIODE_OHMS, DROP) for pair in one_way]
        levels = {net: self.levels[net] for one in branches + diodes for net in one[:2] if net in self.levels}
        come, gone = ({levels[pair[end]] for pair in one_way if pair[end] in levels} for end in (0, 1))
        if len({rail for rail, _ in levels.values()}) > 1 or (come & gone and len(self.box.rails) > 1):
            raise Refused("loads hang together with rails of no common measure, or that diodes might join")
        volts = operating_point({net: Fraction(level) for net, (_, level) in levels.items()}, branches, diodes)
        return float(volts[name[a]] - volts[name[b]])

    def _hanging_together(self, begun: set[Net]) -> tuple[set[Net], list[Way]]:
        """All nets that hang together with these, none of which a supply holds, and the conductors there that lead."""
        if prod(self.box.sets.radices[digit] for digit in self.state) > MOST_TOGETHER:
            raise Refused("too much hangs together")
        found, waiting, ways = set(begun), list(begun), []
        for here in waiting:
            beyond = [other for _, other in self.box.loads.get(here, ())]
            for way in (*self.box.leaving.get(here, ()), *self.box.arriving.get(here, ())):
                if way.digit is None or self._value(way.digit) in way.values:
                    ways.append(way)
                    beyond += [way.tail, way.head]
            fresh = {*beyond} - found - self.levels.keys()
            found |= fresh
            waiting += fresh
        return found, ways

    def _held(self, start: Net, goals: set[Net], backward: bool, but: int | None) -> Iterator[Held]:
        """Those of the goals that current might get to, or come from."""
        ways = [(start, None)] if start in self.levels else self._walk([start], self.levels, backward, but)
        return (one for one in ways if one[0] in goals)

    def _might_come(self, start: Net, goals: set[Net], backward: bool, but: int) -> bool:
        """Might current get to one of the goals, or come from there? Looked for from both sides in turn: mostly there
        is little on one of them."""
        if start in self.levels:
            return start in goals
        ahead = self._walk([start], self.levels, backward, but)
        for (here, _), (there, _) in zip(ahead, self._walk(goals, self.levels, not backward, but), strict=False):
            if here in goals or there == start:
                return True
        return False

    def _most(self, highs: set[Net], lows: set[Net]) -> float:
        """The most volts by which one of these nets is held above one of those; 0 where none is."""
        pairs = product(highs & self.levels.keys(), lows & self.levels.keys())
        return max((self._difference(high, low) for high, low in pairs), default=0.0)

    def _might_differ(self, high: Net, low: Net, volts: float) -> bool:
        """May one net be held above the other by more volts? So may any two of supplies with no rail in common: what
        else joins these tells."""
        (rail, above), (other, below) = self.levels[high], self.levels[low]
        return rail != other or above - below > volts + ALMOST

    def _difference(self, high: Net, low: Net) -> float:
        (rail, above), (other, below) = self.levels[high], self.levels[low]
        if rail != other:
            raise Refused(f"{high} and {low} are held by supplies that have no rail in common")
        return above - below


def proved_at_once(box: Box, moving: Set) -> list[str]:
    """What is proved where no supply is shorted, whatever operation gets to. moving: where one is while relays move."""
    no_short = [NO_SHORT] if moving else [NO_SHORT, NO_SHORT_MOVING]
    supplies = [f"{supply.name} {FUSED}" for supply in box.circuit.supplies if is_fused(box.circuit, supply)]
    coils = coils_of(box.circuit)
    matched = [f"{box.circuit.loads[coil.load].name} {MATCHED}" for coil in coils if is_matched(box, coil)]
    own = [f"{box.circuit.loads[one].name} {OWN_DRIVE}" for one in workable(box.circuit) if not any(worked(box, one))]
    one_way = [f"{part} {NO_LINK}" for part in switching(box.circuit) if not links(box, part)]
    return no_short + supplies + matched + suppressed(box) + own + one_way + in_some_combination(box)


def is_fused(circuit: Circuit, supply: Supply) -> bool:
    """Leads every way from + to − through a fuse, over loads and other supplies too, with all contacts closed?"""
    steps = [(one.tail, one.head) for one in circuit.conductors if one.kind != "fuse"]
    steps += [(one.head, one.tail) for one in circuit.conductors if one.kind != "fuse" and not one.one_way]
    steps += [pair for load in circuit.loads for pair in ((load.a, load.b), (load.b, load.a))]
    steps += [(other.minus, other.plus) for other in circuit.supplies if other != supply]
    onward: dict[str, list[str]] = {}
    for start, end in steps:
        onward.setdefault(start, []).append(end)
    found, waiting = {supply.plus}, [supply.plus]
    for here in waiting:
        fresh = {*onward.get(here, ())} - found
        found |= fresh
        waiting += fresh
    return supply.minus not in found


def is_matched(box: Box, coil: Coil) -> bool:
    """Do conductors alone bring a coil nothing, or what it operates at and no more than it bears?"""
    most = MOST_SHARE * box.circuit.loads[coil.load].volts
    fed = [abs(one.volts or 0.0) if one else inf for one in gets(box, coil.load) if not one or one.over == "conductors"]
    return all(one <= ALMOST or coil.operate_volts - ALMOST <= one <= most + ALMOST for one in fed)


def suppressed(box: Box) -> list[str]:
    """What is claimed of the coils that have suppression."""
    net = wired_nets(box.circuit)
    claims = []
    for number, load in enumerate(box.circuit.loads):
        across = suppressors_across(box.circuit, net, load)
        diodes = [one for one in across if one.kind == "diode"]
        strong = [one for one in across if one.kind != "resistor" or one.ohms <= MOST_OHMS * load.ohms]
        wrong = any(conducts(box, number, net[one.a] == net[load.a]) for one in diodes)
        if load.inductive and (len(strong) > len(diodes) or (diodes and not wrong)):
            claims.append(f"{load.name} {SUPPRESSED}")
    return claims


def suppressors_across(circuit: Circuit, net: dict[str, Net], load: Load) -> list[Suppressor]:
    """What stands straight across a load."""
    ends = {net[load.a], net[load.b]}
    return [one for one in circuit.suppressors if {net[one.a], net[one.b]} == ends and len(ends) == 2]


def wired_nets(circuit: Circuit) -> dict[str, Net]:
    """The net of each terminal, as wires alone join them."""
    return joined_by(circuit, (one for one in circuit.conductors if one.kind == "wire"))


def conducts(box: Box, number: int, forward: bool) -> bool:
    """May a diode across a load conduct, which is in its direction from `a` to `b` (forward) or the other way?"""
    volts = [one.volts if one else None for one in gets(box, number)]
    return any(one is None or (one > ALMOST if forward else one < -ALMOST) for one in volts)


# Current that takes a way which nobody drew


def worked(box: Box, number: int) -> tuple[Set, Set]:
    """The states in which other loads work a load that may have a drive of its own: at once, and once at rest."""
    load = box.circuit.loads[number]
    if not may_be_driven(box, load):
        return 0, 0
    others = [(one, states) for one, states in gets(box, number).items() if not one or one.over == "others"]

    def at_least(least: float) -> Set:
        enough = least - ALMOST
        return box.sets.union(
            states for one, states in others if not one or one.volts is None or abs(one.volts) >= enough
        )

    at_once, at_rest = 0, at_least(LEAST_SHARES[load.kind] * load.volts) if load.kind in LEAST_SHARES else 0
    coils = [(relay.digit, coil) for relay in box.circuit.relays for coil in relay.inputs if coil.load == number]
    for digit, coil in coils:
        held = box.sets.both(at_least(coil.release_volts), box.sets.where(digit, (1,)))
        at_once = box.sets.either(at_once, at_least(coil.operate_volts))
        at_rest = box.sets.either(at_rest, held)
    return at_once, at_rest


def may_be_driven(box: Box, load: Load) -> bool:
    """Might conductors and resistors lead from a rail to a load, and from there to another, with contacts anyhow?"""
    rails, highest, lowest = rails_of(box)
    lead = partial(meets, box, over="resistor")
    return any(
        lead(box.net[high], rails - lowest, True, lowest) and lead(box.net[low], rails - highest, False, highest)
        for high, low in ((load.a, load.b), (load.b, load.a))
    )


def rails_of(box: Box) -> tuple[set[Net], set[Net], set[Net]]:
    """All rails; and where all supplies share their +, or their −, that one: no way comes from the one or goes to the
    other over both rails of a supply."""
    plus, minus = ({rails[end] for rails in box.rails} for end in (0, 1))
    highest, lowest = (one if len(one) == 1 else set[Net]() for one in (plus, minus))
    return plus | minus, highest, lowest


def meets(box: Box, start: Net, goals: Collection[Net], backward: bool, barred: Collection[Net], over: str) -> bool:
    """Might conductors, and loads of one kind, lead from a net to one of the goals, with contacts anyhow; or, backward,
    from one of the goals to the net?"""
    found, waiting = {start, *barred}, [start] if start not in barred else []
    for here in waiting:
        if here in goals:
            return True
        ways = (box.arriving if backward else box.leaving).get(here, ())
        beyond = {way.tail if backward else way.head for way in ways}
        beyond |= {there for load, there in box.loads.get(here, ()) if box.circuit.loads[load].kind == over}
        waiting += beyond - found
        found |= beyond
    return False


def switched(box: Box, part: str) -> list[tuple[Net, Net]]:
    """The nets between which a part has a contact or a diode."""
    conductors = (one for one in box.circuit.conductors if one.part == part and (one.closed or one.one_way))
    pairs = ((box.net[one.tail], box.net[one.head]) for one in conductors)
    return sorted({(min(pair), max(pair)) for pair in pairs if pair[0] != pair[1]})


def links(box: Box, part: str) -> list[tuple[Set, Set]]:
    """For each two nets between which a part may carry current both ways for loads that have it over no other way: in
    which states it does so the one way, and the other."""
    both_ways = [pair for pair in switched(box, part) if may_carry(box, *pair) and may_carry(box, *pair[::-1])]
    found = [(carries(box, *pair), carries(box, *pair[::-1])) for pair in both_ways]
    return [pair for pair in found if all(pair)]


def may_carry(box: Box, tail: Net, head: Net) -> bool:
    """Might current go from net to net for some load, with contacts anyhow?"""
    rails, highest, lowest = rails_of(box)
    ends = [
        (box.net[high], box.net[low])
        for load in box.circuit.loads
        if load.kind not in TWO_WAY_KINDS
        for high, low in ((load.a, load.b), (load.b, load.a))
    ]
    into = {high for high, low in ends if low not in highest} - highest
    out_of = {low for high, low in ends if high not in lowest} - lowest
    lead = partial(meets, box, over="")
    comes = lead(tail, rails - lowest, True, {head, *lowest}) and lead(head, into, False, {tail, *lowest})
    goes = lead(tail, out_of, True, {head, *highest}) and lead(head, rails - highest, False, {tail, *highest})
    return any(way.head == head for way in box.leaving.get(tail, ())) and (comes or goes)


def carries(box: Box, tail: Net, head: Net) -> Set:
    """The states in which a load that is only ever fed one way has its current only over the ways from net to net."""
    key = ("carries", tail, head)
    if key not in box.told:
        one_way, neither = without(box, head, tail), without(without(box, head, tail), tail, head)
        found = 0
        for number in one_way_loads(box):
            ask = partial(Moment.is_fed, number=number)
            fed, anyway = (told(one, ("is fed", number), ask) for one in (one_way, neither))
            may = box.sets.either(fed.get(True, 0), fed.get(None, 0))
            found = box.sets.either(found, box.sets.without(may, anyway.get(True, 0)))
        box.told[key] = {True: found}
    return box.told[key][True]


def without(box: Box, tail: Net, head: Net) -> Box:
    """The same with no way from net to net."""
    leaving = {**box.leaving, tail: [way for way in box.leaving.get(tail, ()) if way.head != head]}
    arriving = {**box.arriving, head: [way for way in box.arriving.get(head, ()) if way.tail != tail]}
    return box._replace(leaving=leaving, arriving=arriving, told={})


def one_way_loads(box: Box) -> list[int]:
    """All loads but motors, resistors and those that conductors surely feed both ways."""
    found = []
    for number, load in enumerate(box.circuit.loads):
        if load.kind not in TWO_WAY_KINDS:
            fed = [one.volts for one in gets(box, number) if one and one.volts and one.over == "conductors"]
            signs = {one > 0 for one in fed}
            if len(signs) < 2:
                found.append(number)
    return found


# In some combination


def claims_of_combinations(circuit: Circuit) -> dict[str, list[str]]:
    """What can be claimed of some combination of contacts, and of what the plan says, by the check that says so."""
    return {
        "load-always-on": [f"{name} {CAN_BE_OFF}" for name in on_from(circuit)],
        "relay-never-operates": [f"{circuit.loads[coil.load].name} {CAN_OPERATE}" for coil in coils_of(circuit)],
        "shorted-load": [f"{load.name} {APART}" for load in circuit.loads],
        "dead-part": [f"{name} {claim}" for name, claim in living(circuit).items()],
        "idle-contact": [f"{name} {MATTERS}" for name in dict.fromkeys(one.part for one in wired_contacts(circuit))],
        "duplicate-name": [OWN_NAMES],
        "unwired-terminal": [WIRED],
        "unused-acceptance": list(accepting(circuit)),
    }


def as_written(circuit: Circuit) -> list[str]:
    """What is proved by what the plan says, however current flows."""
    found = [claim for claim, wrong in ((OWN_NAMES, circuit.repeated), (WIRED, lacking(circuit))) if not wrong]
    on_a_loop = on_loops(circuit, {name for name, claim in living(circuit).items() if claim == ON_A_LOOP})
    return found + [f"{name} {ON_A_LOOP}" for name in on_a_loop]


def in_some_combination(box: Box) -> list[str]:
    """What is proved by a combination that is found here, where no supply is shorted in any."""
    circuit = box.circuit
    fed = [happens(box, partial(is_on, loads=[number], volts=MUCH)) for number in range(len(circuit.loads))]
    claims = [
        f"{name} {CAN_BE_OFF}"
        for name, (loads, volts) in on_from(circuit).items()
        if happens(box, partial(is_off, loads=loads, volts=volts))
    ]
    claims += [
        f"{circuit.loads[coil.load].name} {CAN_OPERATE}"
        for coil in coils_of(circuit)
        if happens(box, partial(is_on, loads=[coil.load], volts=coil.operate_volts))
    ]
    claims += [
        f"{load.name} {APART}"
        for load, gets_volts in zip(circuit.loads, fed, strict=True)
        if gets_volts or happens(box, partial(is_apart, load=load))
    ]
    unfed = {one.part: one for one, got in zip(circuit.loads, fed, strict=True) if not got and not built_in(one)}
    for name, claim in living(circuit).items():
        if claim != ON_A_LOOP and (name not in unfed or is_braking(box, unfed[name])):
            claims.append(f"{name} {claim}")
    claims += [f"{name} {MATTERS}" for name in mattering(box, fed)]
    found = partial(is_found, box)
    return claims + [claim for claim, asked in accepting(circuit).items() if all(any(map(found, one)) for one in asked)]


def happens(box: Box, ask: "Callable[[Moment], bool]", *given: State) -> State | None:
    """A case with all supplies on and every switch at a position in which it is surely so; None where none is found.
    given: digits from which on it is looked for, the likeliest last; none of them for anywhere."""
    left = [{supply.digit: 1 for supply in box.circuit.supplies} | one for one in given or [{}]]
    for _ in range(MOST_LOOKED_AT):
        if not left:
            return None
        state = left.pop()
        try:
            if ask(Moment(box, state)):
                return state
        except Undecided as undecided:
            positions = range(len(box.circuit.digits[undecided.digit].values))
            left += [{**state, undecided.digit: value} for value in positions]
        except Refused:
            continue
    return None


def on_from(circuit: Circuit) -> dict[str, tuple[list[int], float]]:
    """All that can be on, each with its loads and the volts from which on, across any of them, it is: a quarter of its
    rated ones for a motor, half for a lamp."""
    found = {motor.name: ([one.load for one in motor.windings], motor.volts / 4) for motor in circuit.motors}
    # A timing relay with an input of its own is meant to have its supply at all times.
    working = {relay.name: relay.control or relay.coil for relay in circuit.relays}
    found |= {name: ([coil.load], coil.operate_volts) for name, coil in working.items()}
    lamps = ((number, one) for number, one in enumerate(circuit.loads) if one.kind in ("lamp", "buzzer", "solenoid"))
    return found | {lamp.part: ([number], lamp.volts / 2) for number, lamp in lamps}


def is_on(moment: Moment, loads: list[int], volts: float) -> bool:
    """Has one of the loads so many volts?"""
    return any(abs(moment.volts(load)) >= volts - ALMOST for load in loads)


def is_off(moment: Moment, loads: list[int], volts: float) -> bool:
    """Has none of them?"""
    return not is_on(moment, loads, volts)


def is_apart(moment: Moment, load: Load) -> bool:
    """Are its ends not joined?"""
    return not moment.leads([(load.a, load.b), (load.b, load.a)])


def coils_of(circuit: Circuit) -> list[Coil]:
    """All coils and inputs of relays."""
    return [coil for relay in circuit.relays for coil in relay.inputs]


def living(circuit: Circuit) -> dict[str, str]:
    """The parts with a wire that current is to flow through, each with what is claimed of it."""
    found = {one.part: ON_A_LOOP for one in circuit.conductors} | {one.name: ON_A_LOOP for one in circuit.supplies}
    found |= {one.part: FED_OR_BRAKES if one.kind == "resistor" else FED for one in circuit.loads if not built_in(one)}
    ends = wire_ends(circuit)
    return {name: found[name] for name, one in circuit.parts.items() if name in found and ends & {*one.terminals}}


def built_in(load: Load) -> bool:
    """Is it the resistor across a relay's coil, inside of it?"""
    return load.kind == "resistor" and load.name != load.part


def braking(circuit: Circuit, load: Load) -> list[list[tuple[str, str]]]:
    """From where to where conductors lead while a resistor is put across a motor's brushes, in each way that it can."""
    windings = [one for motor in circuit.motors for one in motor.windings if load.kind == "resistor"]
    ends = ((load.a, load.b), (load.b, load.a))
    return [[(one.plus, high), (low, one.minus)] for one in windings for high, low in ends]


def is_braking(box: Box, load: Load) -> bool:
    """Is it a resistor on a loop, and put across a motor's brushes in some combination?"""
    ways = braking(box.circuit, load)
    leading = any(happens(box, partial(Moment.leads, pairs=pairs)) for pairs in ways)
    return leading and load.part in on_loops(box.circuit, {load.part})


def on_loops(circuit: Circuit, asked: set[str]) -> set[str]:
    """Of which of the parts that are asked about something is on a loop through a supply that meets no terminal twice,
    once all contacts are closed."""
    branches = [(one.name, one.plus, one.minus) for one in circuit.supplies]
    branches += [(one.part, one.a, one.b) for one in circuit.loads]
    branches += [(one.part, one.tail, one.head) for one in circuit.conductors]
    beside: dict[str, list[str]] = {}
    for _, one, other in branches:
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    found: set[str] = set()
    for supply, *rails in branches[: len(circuit.supplies)]:
        for name, *ends in branches:
            if name != supply and asked & {name, supply} - found and is_loop(beside, ends, rails):
                found |= {name, supply}
    return found & asked


def is_loop(beside: dict[str, list[str]], ends: list[str], rails: list[str]) -> bool:
    """Do two ways with no terminal in common lead from these ends to these rails? That is so where no single one is on
    all ways (Menger 1927)."""
    first = way_between(beside, ends, rails, "")
    return bool(first) and all(way_between(beside, ends, rails, but) for but in first)


def way_between(beside: dict[str, list[str]], starts: list[str], goals: list[str], but: str) -> list[str]:
    """A shortest way, terminal by terminal, past one of them; none where there is none."""
    came: dict[str, str] = {start: "" for start in starts if start != but}
    waiting = list(came)
    for here in waiting:
        if here in goals:
            way = [here]
            while came[way[-1]]:
                way.append(came[way[-1]])
            return way
        fresh = [there for there in beside[here] if there != but and there not in came]
        came |= dict.fromkeys(fresh, here)
        waiting += dict.fromkeys(fresh)
    return []


def wire_ends(circuit: Circuit) -> set[str]:
    """The terminals at which a wire ends."""
    return {end for one in circuit.conductors if one.kind == "wire" for end in (one.tail, one.head)}


def lacking(circuit: Circuit) -> set[str]:
    """The parts that lack a wire: at a terminal that has to have one, or altogether."""
    ends = wire_ends(circuit)
    bare = {name: {*part.terminals} - ends for name, part in circuit.parts.items()}
    return {
        name
        for name, part in circuit.parts.items()
        if bare[name] - part.optional or (part.terminals and bare[name] == {*part.terminals})
    }


def wired_contacts(circuit: Circuit) -> list[Conductor]:
    """The contacts with a wire at either end."""
    ends = wire_ends(circuit)
    return [one for one in circuit.conductors if one.kind == "contact" and {one.tail, one.head} <= ends]


def mattering(box: Box, fed: list[State | None]) -> list[str]:
    """The parts of which each contact with a wire at either end changes something in some combination. Those side by
    side that close together are held open together. fed: a case in which each load is."""
    contacts = wired_contacts(box.circuit)
    alike: dict[Hashable, list[Conductor]] = {}
    for one in contacts:
        ends = (box.net[one.tail], box.net[one.head])
        alike.setdefault((ends if one.one_way else frozenset(ends), one.closed), []).append(one)
    idle = {one.part for group in alike.values() if not do_matter(box, fed, group) for one in group}
    return [name for name in dict.fromkeys(one.part for one in contacts) if name not in idle]


def do_matter(box: Box, fed: list[State | None], contacts: list[Conductor]) -> bool:
    """Does it change the volts of a load near these contacts, or how a motor there stops, when they are held open?"""
    leaving, arriving = dict(box.leaving), dict(box.arriving)
    for way in (way for one in contacts for way in ways_of(one, box.net, box.poles)):
        for ways, net in ((leaving, way.tail), (arriving, way.head)):
            ways[net] = list(ways[net])
            ways[net].remove(way)
    held_open = box._replace(leaving=leaving, arriving=arriving, told={})
    digit, values = contacts[0].closed or (-1, ())
    closed = [{digit: value} for value in values if value < len(box.circuit.digits[digit].values)]
    return any(
        happens(box, partial(differs, held_open, load), *closed, *((fed[load] or {}) | one for one in closed))
        for load in near(box, contacts[0])
    )


def near(box: Box, contact: Conductor) -> Iterable[int]:
    """Some loads that current may get to over a contact with no rail on the way, the nearest first, from either end in
    turn: first from where fewer ways lead on. None where always joined are the two ends."""
    ends = sorted({box.net[contact.tail], box.net[contact.head]}, key=lambda net: (len(box.leaving.get(net, ())), net))
    shut = {*ends, *(net for rails in box.rails for net in rails)}
    sides = [beyond(box, end, shut) for end in ends if len(ends) == 2 and all(end not in rails for rails in box.rails)]
    return dict.fromkeys(islice((one for pair in zip_longest(*sides) for one in pair if one is not None), MOST_NEAR))


def beyond(box: Box, start: Net, shut: set[Net]) -> Iterator[int]:
    """The loads that conductors may lead to from there, or from which, the nearest first."""
    found, waiting = {start, *shut}, [start]
    for here in waiting:
        yield from (number for number, _ in box.loads.get(here, ()))
        beside = [way.head for way in box.leaving.get(here, ())] + [way.tail for way in box.arriving.get(here, ())]
        fresh = dict.fromkeys(net for net in beside if net not in found)
        found.update(fresh)
        waiting += fresh


def differs(held_open: Box, load: int, moment: Moment) -> bool:
    """Gets a load other volts with the contacts held open, or is it a motor that is braked, or a resistor that brakes
    one, there or here alone?"""
    volts, then = moment.volts(load), Moment(held_open, moment.state)
    if abs(volts - then.volts(load)) > MUCH:
        return True
    motors = [one for one in moment.circuit.motors if any(winding.load == load for winding in one.windings)]
    ways = braking(moment.circuit, moment.circuit.loads[load])
    return any(moment.brakes(motor) != then.brakes(motor) for motor in motors) or any(
        moment.leads(pairs) != then.leads(pairs) for pairs in ways
    )


def accepting(circuit: Circuit) -> dict[str, list[list[Acceptance]]]:
    """What is claimed of what the plan accepts, with the statements that say so; one in a module is there for each fit
    of that module."""
    fits: dict[Hashable, list[Acceptance]] = {}
    for one in circuit.acceptances:
        fits.setdefault(one.place, []).append(one)
    claims: dict[str, list[list[Acceptance]]] = {}
    for alike in fits.values():
        claims.setdefault(f"{alike[0].part.text} {FOUND_THERE.format(alike[0].check.text)}", []).append(alike)
    return claims


def is_found(box: Box, accepted: Acceptance) -> bool:
    """Does the check surely find what is accepted? Of most checks that cannot be told here."""
    circuit, part = box.circuit, accepted.part.text
    found: dict[str, Callable[[], bool]] = {
        "load-always-on": lambda: part in on_from(circuit) and is_always_on(box, *on_from(circuit)[part]),
        "supply-without-fuse": lambda: any(one.name == part and not is_fused(circuit, one) for one in circuit.supplies),
        "missing-flyback": lambda: part in unsuppressed(circuit),
        "unwired-terminal": lambda: part in lacking(circuit),
        "duplicate-name": lambda: part in [one.name for one in circuit.repeated],
    }
    return found.get(accepted.check.text, lambda: False)()


def unsuppressed(circuit: Circuit) -> set[str]:
    """The parts with a coil across which stands nothing at all."""
    net = wired_nets(circuit)
    return {one.part for one in circuit.loads if one.inductive and not suppressors_across(circuit, net, one)}


def is_always_on(box: Box, loads: list[int], volts: float) -> bool:
    """Has some of the loads surely so many volts in all combinations with all supplies on?"""
    answers = [told(box, ("volts", load), partial(Moment.volts, number=load)) for load in loads]
    on = [states for one in answers for got, states in one.items() if got is not None and abs(got) >= volts - ALMOST]
    off = box.sets.opposite(box.sets.union(on))
    for supply in box.circuit.supplies:
        off = box.sets.both(off, box.sets.where(supply.digit, (1,)))
    for digit in box.sets.digits(off):
        off = box.sets.both(off, box.sets.where(digit, range(len(box.circuit.digits[digit].values))))
    return off == 0


# In operation


def all_settle(circuit: Circuit) -> list[str]:
    """What is proved of relays where they are calm."""
    return [f"{relay.name} {SETTLES}" for relay in circuit.relays]


def confirm_calm(box: Box, which: Any) -> None:
    """No move of a relay of the one kind ever brings about that a relay wants to make one of the other kind."""
    box.sets.begin_anew()
    if which not in CALM:
        raise Refused("relays come to rest in another way than those that are known here")
    if any(wanted(box, relay).get(None) for relay in box.circuit.relays):
        raise Refused("what relays want does not follow from conductors alone")
    all_wishes = [one for relay in box.circuit.relays for one in wishes(box, relay) if not one[0].timed]
    rising, falling = ([one for one in all_wishes if (one[0].end > one[0].start) == up] for up in (True, False))
    first, others = (rising, falling) if which == CALM[0] else (falling, rising)
    for wish, states in first:
        for _, later in others:
            if wish.digit in box.sets.digits(later) and brings_about(box, wish, states, later):
                raise Refused(f"it does not hold that {which}")


def brings_about(box: Box, wish: Wish, states: Set, later: Set) -> bool:
    """Does following the wish lead into these later states from outside of them?"""
    before, moving = (box.sets.given(one, wish.digit, wish.start) for one in (later, states))
    return box.sets.without(box.sets.both(moving, box.sets.given(later, wish.digit, wish.end)), before) != 0


def confirm_operation(box: Box, operation: Operation, calm: bool, moving: Set) -> None:
    """The states reached are closed under all that can happen, relays come to rest, and claims hold."""
    box.sets.begin_anew()
    course, reached = Course(box, operation.digits, operation.still), operation.reached
    if operation.still:
        confirm_parked(box, operation.still, calm)
    led_to = box.sets.either(course.begun(), course.stepped(reached, course.steps))
    if led_to != reached or box.sets.both(reached, course.untold()):
        raise Refused("the states reached are not those that steps lead to from where it begins")
    if not calm:
        course.confirm_settling(reached)
    claims, wanted = broken(course, calm, moving), operation.claims
    if not wanted or wanted != [claim for claim in claims if claim in wanted]:
        raise Refused("what is claimed cannot be claimed over these digits, or is not written in order")
    for claim in wanted:
        if claims[claim](reached):
            raise Refused(f"it does not hold that {claim}")


def confirm_parked(box: Box, still: State, calm: bool) -> None:
    """Controls at these values keep all relays released that stand still, and release them wherever they are."""
    relays = [relay for relay in box.circuit.relays if relay.digit in still]
    controls = {digit: value for digit, value in still.items() if box.circuit.digits[digit].kind == "control"}
    if not calm or len(relays) + len(controls) < len(still) or any(still[relay.digit] for relay in relays):
        raise Refused("only released relays can be parked, by controls, where all relays come to rest")
    for relay in relays:
        operated = range(1, box.sets.radices[relay.digit])
        releasing = 0
        for wish, states in wishes(box, relay):
            for digit, value in controls.items():
                states = box.sets.given(states, digit, value)
            if wish.start == 0 and states:
                raise Refused(f"{relay.name} may operate while it is told to stand still")
            releasing = box.sets.either(releasing, 0 if wish.end or wish.timed else states)
        if relay.reset is not None or releasing != box.sets.where(relay.digit, operated):
            raise Refused(f"{relay.name} is not always released by the controls that are told to park it")


class Step(NamedTuple):
    """A digit can go from `start` to `end` in these states. by_hand: somebody moves it, who may as well leave it.
    quick: it waits for no rest."""

    digit: int
    start: int
    end: int
    states: Set
    by_hand: bool
    quick: bool


class Course:
    """What some digits do together, while some others stand still and all the rest may stand anyhow at any moment.

    rest: the states in which each relay may want nothing, timers aside, and no switch is between positions.
    """

    def __init__(self, box: Box, digits: frozenset[int], still: State) -> None:
        if not {supply.digit for supply in box.circuit.supplies} <= digits or not digits.isdisjoint(still):
            raise Refused("behaviour is followed over all supplies at least, and over none that stands still")
        self.box, self.sets, self.digits, self.still = box, box.sets, digits, still
        self.relays = [relay for relay in box.circuit.relays if relay.digit in self.digits]
        self.motors = [
            (motor, motor.axis)
            for motor in box.circuit.motors
            if motor.axis is not None and box.circuit.axes[motor.axis].digit in self.digits
        ]
        self.proper = self.rest = 1
        for digit in self.digits:
            positions = self.sets.where(digit, range(len(box.circuit.digits[digit].values)))
            self.proper = self.sets.both(self.proper, positions)
        self.rest = self.proper
        for relay in self.relays:
            self.rest = self.sets.both(self.rest, self.seen(self.sets.opposite(wants_to_move(box, relay))))
        self.steps = [*self._relay_steps(), *self._axis_steps(), *self._hand_steps()]

    def seen(self, states: Set) -> Set:
        """The states over these digits that may be among those."""
        for digit, value in self.still.items():
            states = self.sets.given(states, digit, value)
        return self.sets.within(states, self.digits)

    def begun(self) -> Set:
        """Where it begins: at power-up, or with relays parked wherever no other relay wants to move."""
        return self.standing() if self.still else self.beginning()

    def beginning(self) -> Set:
        """Power-up: relays released but latching ones, which remember; axes within their range; all else anyhow."""
        found = self.proper
        for relay in self.relays:
            if relay.function != "latching":
                found = self.sets.both(found, self.sets.where(relay.digit, (0,)))
        for axis in self.box.circuit.axes:
            if axis.digit in self.digits:
                zones = range(axis.range[0], axis.range[1] + 1)
                found = self.sets.both(found, self.sets.where(axis.digit, zones))
        return found

    def standing(self) -> Set:
        """All states in which no relay wants to move, timers aside."""
        found = 1
        for relay in self.relays:
            found = self.sets.without(found, self.seen(wants_to_move(self.box, relay)))
        return found

    def drives(self, motor: Motor) -> Set:
        """The states of the whole in which a motor is surely driven, either way."""
        ways = drives(self.box, motor)
        return self.sets.either(ways.get(1, 0), ways.get(-1, 0))

    def surely(self, states: Set) -> Set:
        """The states over these digits that are among those, whatever all others do."""
        return self.sets.opposite(self.seen(self.sets.opposite(states)))

    def held(self, motor: Motor) -> Set:
        """The states over these digits in which a motor is surely braked."""
        # One winding may be shut by what feeds the other.
        return self.surely(self.sets.both(braked(self.box, motor), drives(self.box, motor).get(0, 0)))

    def may_drive(self, motor: Motor, direction: int) -> Set:
        """The states over these digits in which a motor may be driven that way."""
        ways = drives(self.box, motor)
        return self.seen(self.sets.either(ways.get(direction, 0), ways.get(None, 0)))

    def may_be_driven(self, motor: Motor) -> Set:
        """The same, either way."""
        return self.sets.either(self.may_drive(motor, 1), self.may_drive(motor, -1))

    def passes_off(self, step: Step) -> bool:
        """Does a hand pass a switch's open position, whichever move it begins so? It is taken to rest there."""
        digit = self.box.circuit.digits[step.digit]
        moment = digit.moments[step.end - len(digit.values)].moves if step.end >= len(digit.values) else ()
        ends = [end for start, end in moment if start == step.start] or [step.end]
        off = digit.values.index("off") if "off" in digit.values else -1
        return all(min(step.start, end) < off < max(step.start, end) for end in ends)

    def untold(self) -> Set:
        """The states in which it doesn't follow from conductors alone what moves."""
        return self.sets.union(self.seen(answers.get(None, 0)) for answers in self._answers())

    def is_closed(self) -> bool:
        """Has nothing but these digits a say in what moves, once parked relays stand still?"""
        relays = [relay.digit for relay in self.box.circuit.relays if relay.digit in self.still]
        for states in (states for answers in self._answers() for states in answers.values()):
            for relay in relays:
                states = self.sets.given(states, relay, 0)
            if not self.sets.digits(states) <= self.digits:
                return False
        return True

    def confirm_settling(self, reached: Set) -> None:
        """From every state that is reached some moves of relays lead to one in which none moves."""
        if not self.is_closed():
            raise Refused("relays are told to come to rest of which not all is followed")
        moves = [one for relay in self.relays for one in wishes(self.box, relay) if not one[0].timed]
        home, grown = -1, self.sets.both(reached, self.standing())
        while home != grown:
            home = grown
            for wish, states in moves:
                grown = self.sets.either(grown, self.sets.both(states, self.sets.given(home, wish.digit, wish.end)))
        if self.sets.without(reached, home):
            raise Refused("relays may go on for ever")

    def stepped(self, states: Set, steps: Iterable[Step]) -> Set:
        """All that one of some steps leads to."""
        return self.sets.union(
            self.sets.moved(self.sets.both(states, step.states), step.digit, step.end) for step in steps
        )

    def following(self, begun: Set, steps: list[Step], barred: Set = 0) -> Set:
        """These states and all that some steps lead to from them, with nothing barred on the way."""
        found, fresh = begun, begun
        while fresh:
            onward = self.sets.without(self.stepped(fresh, steps), barred)
            fresh = self.sets.without(onward, found)
            found = self.sets.either(found, fresh)
        return found

    def led_from(self, states: Set, steps: list[Step]) -> Set:
        """The states from which one of some steps may lead into these."""
        return self.sets.union(self.sets.both(one.states, self.sets.given(states, one.digit, one.end)) for one in steps)

    def may_move(self, steps: list[Step], relay: Relay) -> Set:
        """The states in which one of these steps of a relay can be made; of one that is not followed, any."""
        own = (step.states for step in steps if step.digit == relay.digit)
        return self.sets.union(own) if relay.digit in self.digits else may_move(self.box, relay)

    def surely_led_to(self, goal: Set, but: int) -> Set:
        """The states from which somebody can work the controls so that one of the goal is come to, in whatever order
        relays move, timers run out and axes move. but: the digit of one that stands still meanwhile, -1 for none."""
        moving = [step for step in self.steps if step.digit != but]
        led, grown = -1, goal
        while led != grown:
            led = grown
            goes = wrong = can = 0
            for step in moving:
                into = self.sets.both(step.states, self.sets.given(led, step.digit, step.end))
                if step.by_hand:
                    can = self.sets.either(can, into)
                else:
                    goes = self.sets.either(goes, into)
                    wrong = self.sets.either(wrong, self.sets.without(step.states, into))
            # A hand that is on the way between two positions has to go on, whatever relays do.
            more = self.sets.both(self.sets.either(goes, can), self.sets.either(self.proper, can))
            grown = self.sets.either(led, self.sets.without(more, wrong))
        return led

    def _answers(self) -> list[dict[Any, Set]]:
        answers = [wanted(self.box, one) for one in self.relays]
        return answers + [drives(self.box, motor) for motor, _ in self.motors]

    def _relay_steps(self) -> Iterator[Step]:
        for relay in self.relays:
            for wish, states in wishes(self.box, relay):
                states = self.sets.both(self.seen(states), self.rest if wish.timed else 1)
                yield Step(relay.digit, wish.start, wish.end, states, False, not wish.timed)

    def _axis_steps(self) -> Iterator[Step]:
        """One zone at a time to where the motor drives."""
        for motor, number in self.motors:
            axis = self.box.circuit.axes[number]
            zones = len(self.box.circuit.digits[axis.digit].values)
            for direction, zone in product((1, -1), range(zones)):
                onward = zone + direction
                onward = onward % zones if axis.turning else min(max(onward, 0), zones - 1)
                driven = self.seen(drives(self.box, motor).get(direction, 0))
                if onward != zone:
                    states = self.sets.both(driven, self.sets.where(axis.digit, (zone,)))
                    yield Step(axis.digit, zone, onward, self.sets.both(self.rest, states), False, False)

    def _hand_steps(self) -> Iterator[Step]:
        """From a position to each other one at rest, by way of the moment between them where there is one; on from
        there at any time."""
        for number in sorted(self.digits):
            digit = self.box.circuit.digits[number]
            positions = range(len(digit.values)) if digit.kind in ("control", "outside", "supply") else ()
            for start, end in product(positions, positions):
                ways = [place for place, one in enumerate(digit.moments, len(positions)) if (start, end) in one.moves]
                states = self.sets.both(self.rest, self.sets.where(number, (start,)))
                for onward in (ways or [end]) if start != end else ():
                    yield Step(number, start, onward, states, True, False)
            for place, moment in enumerate(digit.moments, len(positions)):
                for _, end in moment.moves:
                    yield Step(number, place, end, self.sets.where(number, (place,)), True, True)


def broken(course: Course, calm: bool, moving: Set) -> dict[str, Callable[[Set], Set]]:
    """The claims that can be made over these digits, each with those of the states reached that break it. That relays
    come to rest has been shown of all of them already. moving: where a supply is shorted while relays move."""
    claims: dict[str, Callable[[Set], Set]] = {}
    circuit = course.box.circuit
    if moving:
        claims[NO_SHORT_MOVING] = partial(course.sets.both, course.seen(moving))
    for claim, find, motors in (
        (BRAKED, coasting, must_brake(circuit)),
        (NOT_THROWN, thrown, circuit.motors),
        (STAYS_STILL, starting, circuit.motors),
        (NO_PULSE, pulsed, circuit.motors),
        (NOT_PUSHED, pushing, pushing_motors(circuit)),
    ):
        claims |= {f"{motor.name} {claim}": partial(find, course, motor) for motor in motors}
    for stop, obeys in stops(circuit).items():
        if stop in course.digits:
            claims |= {f"{motor.name} {obeys}": partial(disobeying, course, motor, stop) for motor in circuit.motors}
    axes = [axis for axis in axes_with_ends(circuit) if axis.digit in course.digits]
    claims |= {f"{axis.name} {WITHIN_ENDS}": partial(driven_on, course, axis) for axis in axes}
    for number in workable(circuit):
        claims[f"{circuit.loads[number].name} {OWN_DRIVE}"] = partial(through_others, course, number)
    claims |= {f"{part} {NO_LINK}": partial(carrying_both_ways, course, part) for part in switching(circuit)}
    back: dict[str, Callable[[Set], Set]] = {}
    closed = course.is_closed()
    for claim, ask, among in ((TURNS_BACK, trapped, axes), (FOUND, lost, axes_with_limits(circuit))):
        for axis in among:
            if closed and axis.digit in course.digits:
                back[f"{axis.name} {claim}"] = partial(ask, course, axis)
    if course.still:
        return back
    for relay in () if calm else course.relays:
        back[f"{relay.name} {SETTLES}"] = lambda _: 0
    return claims | back


def coasting(course: Course, motor: Motor, reached: Set) -> Set:
    """The states at rest in which a motor may be neither driven nor braked."""
    held = course.sets.either(course.drives(motor), braked(course.box, motor))
    return course.sets.both(course.sets.both(reached, course.rest), course.seen(course.sets.opposite(held)))


def thrown(course: Course, motor: Motor, reached: Set) -> Set:
    """The states at rest in which a motor may be driven one way, to which one step, and what relays do then, lead from
    a rest at which it is driven the other way, with no brake in between."""
    sets, found, barred = course.sets, 0, course.held(motor)
    beginning = [step for step in course.steps if not step.quick and not course.passes_off(step)]
    going_on = [step for step in course.steps if step.quick]
    rests = sets.both(reached, course.rest)
    for before, after in ((1, -1), (-1, 1)):
        begun = sets.both(rests, course.may_drive(motor, before))
        # What moves first may be none of these digits, and bring about what they do then.
        first = sets.without(sets.either(begun, course.stepped(begun, beginning)), barred)
        passed = course.following(first, going_on, barred)
        found = sets.either(found, sets.both(passed, sets.both(course.rest, course.may_drive(motor, after))))
    return found


def starting(course: Course, motor: Motor, reached: Set) -> Set:
    """The states at rest in which a motor may be driven that stood still while power was off, once all supplies return
    with hands off what springs back."""
    sets, before, on = course.sets, course.sets.both(reached, course.rest), 1
    supplies = {supply.digit for supply in course.box.circuit.supplies}
    for digit in course.digits:
        springs_to = course.box.circuit.digits[digit].springs_to
        before = before if springs_to is None else sets.both(before, sets.where(digit, (springs_to,)))
        on = sets.both(on, sets.where(digit, (1,))) if digit in supplies else on
    still = sets.both(sets.without(before, on), course.seen(sets.opposite(course.drives(motor))))
    steps = [one for one in course.steps if not one.by_hand or (one.digit in supplies and one.end == 1)]
    after = sets.both(course.following(still, steps), sets.both(course.rest, on))
    return sets.both(after, course.may_be_driven(motor))


def disobeying(course: Course, motor: Motor, stop: int, reached: Set) -> Set:
    """The states at rest in which a motor may be driven while an emergency stop is pressed."""
    pressed = course.sets.both(course.rest, course.sets.where(stop, (1,)))
    return course.sets.both(course.sets.both(reached, pressed), course.may_be_driven(motor))


def driven_on(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at rest in which an axis may be driven on outward, at or past an end."""
    found = 0
    for direction, past in ends(course.box, axis):
        driven = course.sets.either(driven_to(course.box, axis, direction), driven_to(course.box, axis, None))
        found = course.sets.either(found, course.sets.both(past, course.seen(driven)))
    return course.sets.both(course.sets.both(reached, course.rest), found)


def through_others(course: Course, number: int, reached: Set) -> Set:
    """The states in which other loads may work a load that may have a drive of its own."""
    at_once, at_rest = worked(course.box, number)
    found = course.sets.either(course.seen(at_once), course.sets.both(course.rest, course.seen(at_rest)))
    return course.sets.both(reached, found)


def carrying_both_ways(course: Course, part: str, reached: Set) -> Set:
    """The states at rest in which a part may carry current one way, where it may carry some the other way in others."""
    found, rests = 0, course.sets.both(reached, course.rest)
    for pair in links(course.box, part):
        here, there = (course.sets.both(rests, course.seen(states)) for states in pair)
        found = course.sets.either(found, here if there else 0)
    return found


def trapped(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at rest, at or past an end, from which no working of the controls surely drives the axis back."""
    found = 0
    for direction, past in ends(course.box, axis):
        here = course.sets.both(past, course.rest)
        back = course.sets.both(here, course.seen(driven_to(course.box, axis, -direction)))
        found = course.sets.either(found, course.sets.without(here, course.surely_led_to(back, axis.digit)))
    return course.sets.both(reached, found)


def lost(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at which operation begins from which no working of the controls surely brings the axis to where one of
    its limit switches is pressed."""
    known = course.sets.where(axis.digit, known_zones(course.box.circuit, axis))
    return course.sets.without(course.sets.both(reached, course.begun()), course.surely_led_to(known, -1))


def ends(box: Box, axis: Axis) -> list[tuple[int, Set]]:
    """Outward at each end of an axis, with the states in which it is at or past it."""
    zones, (first, last) = len(box.circuit.digits[axis.digit].values), axis.range
    return [
        (1, box.sets.where(axis.digit, range(last, zones))),
        (-1, box.sets.where(axis.digit, range(first + 1))),
    ]


def driven_to(box: Box, axis: Axis, direction: int | None) -> Set:
    """The states in which some motor drives the axis in a direction; None: in which that does not follow."""
    motors = (one for one in box.circuit.motors if one.axis is not None and box.circuit.axes[one.axis] is axis)
    return box.sets.union(drives(box, motor).get(direction, 0) for motor in motors)


# In moments of a changeover, and while a motor turns


def pulsed(course: Course, motor: Motor, reached: Set) -> Set:
    """The rests from which relays may come to move so that some position of their poles may drive a motor a way in
    which it is not driven at that rest, nor surely at the next, once any of these relays has moved."""
    sets, found = course.sets, 0
    rests, steps = sets.both(reached, course.rest), in_time(course)
    others = [step for step in course.steps if not step.quick]
    for direction, driven in driven_apart(course.box, motor).items():
        usual = course.surely(drives(course.box, motor).get(direction, 0))
        ending = surely_ending(course, steps, usual)
        astray = [
            step._replace(states=sets.without(step.states, sets.given(ending, step.digit, step.end))) for step in steps
        ]
        moments = course.seen(with_poles_placed(course.box, driven, partial(course.may_move, [*others, *astray])))
        passed, grown = -1, sets.without(moments, ending)
        while passed != grown:
            passed, grown = grown, sets.either(grown, course.led_from(grown, steps))
        # What moves first may be none of these digits, and bring about what they do then.
        beginning = [step for step in others if not course.passes_off(step)]
        begun = sets.either(passed, course.led_from(passed, beginning))
        found = sets.either(found, sets.both(sets.without(rests, usual), begun))
    return found


def driven_apart(box: Box, motor: Motor) -> dict[int, Set]:
    """For each direction, the states in which a motor may be driven that way, each pole of each relay for itself."""
    key = ("apart", motor.windings)
    if key not in box.told:
        apart = box._replace(leaving=by_poles(box.leaving), arriving=by_poles(box.arriving), told={})
        ways = drives(apart, motor)
        either = (box.sets.either(ways.get(direction, 0), ways.get(None, 0)) for direction in (1, -1))
        box.told[key] = dict(zip((1, -1), (without_guided(box, states) for states in either), strict=True))
    return box.told[key]


def by_poles(ways: dict[Net, list[Way]]) -> dict[Net, list[Way]]:
    """The same ways, each closed as the pole of its relay stands."""
    return {net: [way._replace(digit=way.pole, values=way.sides) for way in ones] for net, ones in ways.items()}


def surely_ending(course: Course, steps: list[Step], usual: Set) -> Set:
    """The states from which these steps of relays, in whatever order, lead to rest where it is as usual. A hand that is
    between two positions goes on to the one that leads there."""
    sets = course.sets
    ending, grown = -1, 0
    moving = sets.without(course.proper, course.rest)
    while ending != grown:
        ending, wrong, can = grown, 0, sets.either(moving, sets.both(course.rest, usual))
        for step in steps:
            into = sets.both(step.states, sets.given(ending, step.digit, step.end))
            if step.by_hand:
                can = sets.either(can, into)
            else:
                wrong = sets.either(wrong, sets.without(step.states, into))
        grown = sets.without(can, wrong)
    return ending


def in_time(course: Course) -> list[Step]:
    """The quick steps, less what relays' times exclude: a relay that takes longer than another does not move before it,
    unless it was the first to want to."""
    sets, seconds = course.sets, move_seconds(course.box.circuit)
    wanting = [one for relay in course.relays for one in wishes(course.box, relay) if not one[0].timed]
    earlier = [(seconds[wish.digit, wish.end][1], course.surely(states)) for wish, states in wanting]
    found, quick = list[Step](), [step for step in course.steps if step.quick]
    for step in quick:
        left, (least, _) = step.states, seconds.get((step.digit, step.end), ANY_TIME)
        for states in (states for most, states in earlier if most + ALMOST < least):
            near = sets.digits(step.states) | sets.digits(states)
            changing = [one for one in quick if one.digit in near]
            begun = course.stepped(sets.without(step.states, states), changing)
            if not sets.both(begun, sets.both(step.states, states)):
                left = sets.without(left, states)
        found.append(step._replace(states=left))
    return found


def move_seconds(circuit: Circuit) -> dict[tuple[int, int], tuple[float, float]]:
    """The least and the greatest time of each relay's move, by its digit and where that ends. A diode straight across
    its coil makes releasing slower."""
    net = joined_by(circuit, (one for one in circuit.conductors if one.kind == "wire"))
    diodes = [{net[one.a], net[one.b]} for one in circuit.suppressors if one.kind == "diode"]
    found = {}
    for relay in circuit.relays:
        coil = circuit.loads[relay.coil.load]
        slowed = relay.reset is None and {net[coil.a], net[coil.b]} in diodes
        released = relay.release_with_diode_seconds if slowed else relay.release_seconds
        found[relay.digit, 1] = relay.operate_seconds or ANY_TIME
        found[relay.digit, 0] = released or ANY_TIME
    return found


def pushing(course: Course, motor: Motor, reached: Set) -> Set:
    """The states at rest in which a motor that still turns from a drive, unbraked since, may bring a supply above what
    it withstands; all states reached where the weight of its load may turn it."""
    box, sets, found = course.box, course.sets, 0
    if turned_by_weight(box.circuit, motor):
        return reached
    steps = [step for step in course.steps if not course.passes_off(step)]
    for states, raised in raising(box, motor):
        driven = sets.both(sets.both(reached, course.rest), course.seen(states))
        turning = course.following(driven, steps, course.held(motor))
        found = sets.either(found, sets.both(sets.both(turning, course.rest), course.seen(raised)))
    return found


def raising(box: Box, motor: Motor) -> list[tuple[Set, Set]]:
    """The states in which some volts drive a motor, with those in which it may then bring a supply above what it
    withstands; nothing of what never does."""
    load = motor.windings[0].load
    answers = told(box, ("volts", load), partial(Moment.volts, number=load)).items()
    pairs = [(states, may_raise(box, motor, volts)) for volts, states in answers]
    return [pair for pair in pairs if pair[1]]


def may_raise(box: Box, motor: Motor, volts: float | None) -> Set:
    """The states in which a motor that was driven with these volts, None for any, may bring a supply above what it
    withstands. It makes what drove it, less what it loses running free."""
    circuit, load, found = box.circuit, motor.windings[0].load, 0
    total = sum(supply.volts for supply in circuit.supplies)
    lost = motor.figures.free_amps[0] * circuit.loads[load].ohms if motor.figures.free_amps else 0.0
    # Where any volts may drive it, the least and the most are the worst: they may add to others or be taken from them.
    quarter = motor.volts / 4
    for drive in (total, quarter, -quarter, -total) if volts is None else (volts,):
        made = drive - lost if drive > 0 else drive + lost
        for number in electronic(circuit) if abs(drive) >= quarter - ALMOST else ():
            ask = partial(Moment.is_raised, number=number, load=load, made=made)
            # Nothing brings a supply above what all others and the motor give together.
            if abs(made) + total - circuit.supplies[number].volts > withstood(circuit.supplies[number]):
                answers = told(box, ("raised", number, load, made), ask)
                found = box.sets.union((found, answers.get(True, 0), answers.get(None, 0)))
    return found


def withstood(supply: Supply) -> float:
    """The volts that may come to stand at a supply's terminals."""
    return (supply.withstands_volts or supply.volts) + ALMOST


def turned_by_weight(circuit: Circuit, motor: Motor) -> bool:
    """Does the weight of its load, less friction, make a motor give more than it takes running free?"""
    if motor.axis is None or circuit.axes[motor.axis].turning:
        return False
    figures, axis, nothing = motor.figures, circuit.axes[motor.axis].figures, (0.0, 0.0)
    if not (axis.gravity_newton_metres and figures.stall_newton_metres and figures.stall_amps):
        return False
    pull = axis.gravity_newton_metres[1] - (axis.friction_newton_metres or nothing)[0]
    return pull * figures.stall_amps[1] / figures.stall_newton_metres[0] > (figures.free_amps or nothing)[0]


def main(arguments: list[str]) -> int:
    """Tells what a certificate proves; exit status 1 where it is refused, 2 where none is named."""
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    if len(arguments) < 2:
        print("name a plan, its certificate, and the folders of shared parts", file=sys.stderr)
        return 2
    plan, certificate, *roots = arguments
    try:
        circuit = build_circuit(read_plan(Path(plan), tuple(Path(root) for root in roots)))
        proved = verify(circuit, read_certificate(Path(certificate)))
    except PlanError as error:
        print(f"refused: {plan} is not understood: {error.problems[0].what}")
        return 1
    except (Refused, RecursionError, MemoryError) as error:
        print(f"refused: {error if isinstance(error, Refused) else 'it goes too deep, or is too large'}")
        return 1
    for claim in claims_of(circuit):
        print(f"{'confirmed' if claim in proved else 'no certificate'}: {claim}")
    return 0


def read_certificate(file: Path) -> Any:
    """What is written in the file."""
    try:
        with file.open("rb") as stream:
            written = stream.read(MOST_BYTES + 1)
        if len(written) > MOST_BYTES:
            raise TooLarge(f"{file} is too large")
        return json.loads(written)
    except OSError as error:
        raise Refused(f"{file} can't be read: {error.strerror}") from error
    except ValueError as error:
        raise Refused(f"{file} is no JSON: {error}") from error


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
