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

*In some combination.* What has to be so somewhere is looked for here, case by case, with all supplies on and every
switch at a position; a contact matters where holding it open changes a load's volts or a motor's brake. No way that
nobody drew is shown of each load (no other works it) and of each part with contacts or diodes (none carries current
both ways).

*In operation.* What each relay wants and each motor does follows here from the circuit, case by case: a digit is given
values only where the answer hangs on it. Volts follow from conductors; or, where loads hang together in series or
behind resistors, from Kirchhoff's laws, once all digits on which that hangs are decided. The certificate gives the
states reached, over some digits. They must be just the beginnings and all that steps from them lead to; what is claimed
must hold wherever things are at rest. A digit that is left out may stand anyhow at any moment. That relays come to rest
is followed move by move; or it is shown of all relays at once, if operating never makes any of them want to release, or
the other way round: then let all of one kind move first, and after them the others. Where the plan tells times of two
relays that hang on each other, these may forbid that order: there every order has to end. They come to the same rest in
any order if none takes away what another wants, or if all ends reached from a change have the relay alike. That
something goes on without end is followed as long as turns lead to turns; where none are left, no run comes back to
where it began.

That somebody can bring something about (an axis back from an end or home, the case of a promise) is followed backward,
in whatever order relays move, never from the states reached, which may hold each other up. Where that takes too many
digits, controls may park relays that are far: they then stay released, and what leads back from wherever no other relay
wants to move does so in the whole.

*In time.* Every order of relays counts, but in three claims. Of moments in a changeover and of races: what takes longer
than another does not come before it, unless it was wanted first. Of how far a motor turns on: all of the longest times,
one after another. For what contacts do on their way each pole is a digit of its own; a moment counts if relays that may
move can bring it about, and is explained if whatever order they move in ends at a rest that does the same.

*Promises.* A condition is worked out into the states in which it surely holds and those in which it may; `after` is
followed from wherever its case may begin, rest by rest.

*With one thing broken.* A relay that sticks is followed from wherever it was reached, and moves no more. A wire that
breaks to a contact takes the contact away, and all is followed anew; that shorts nothing new. A contact that is open at
an end anyway brings no other rest there.

*With one fault.* What a plan requires is looked for with each fault of the published lists, all else standing anyhow:
no motor may be driven there for good. A state counts unless relays surely move to where nothing leads back from; in one
in which the fault shorts a supply nothing moves.

An equation leaves nothing over, so a certificate that is not true is refused, whoever wrote it. A seal (SHA-256) shows
besides that none was changed after it was written, not even into another true one.
"""

import json
import sys
from collections.abc import Callable, Collection, Hashable, Iterable, Iterator
from fractions import Fraction
from functools import partial
from hashlib import sha256
from heapq import heappop, heappush
from io import TextIOWrapper
from itertools import islice, pairwise, product, zip_longest
from math import inf, log1p, pi, prod, radians
from pathlib import Path
from typing import Any, Final, NamedTuple

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.catalogue.relays import GUIDED
from circuitcheck.circuit.model import (
    Axis,
    Circuit,
    Closed,
    Coil,
    Conductor,
    Digit,
    Limit,
    Load,
    Motor,
    Relay,
    Supply,
    Suppressor,
)
from circuitcheck.plan.reading import read_plan
from circuitcheck.plan.source import PlanError
from circuitcheck.plan.syntax import Acceptance, Claim, Condition, Promise, Require

VERSION: Final = "circuitcheck certificate 3"
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
STAYS_PRESSED: Final = "stays pressed until it is reset"
OBEYS: Final = "is driven at no rest at which {} is pressed"
OBEYS_STUCK: Final = f"{OBEYS} with any one relay stuck"
OBEYS_BROKEN: Final = f"{OBEYS} with a wire broken to any one contact that it closes"
NOT_RESET: Final = "does not start by itself when {} is reset"
WITHIN_ENDS: Final = "is at no rest driven on at or past an end"
WITHIN_BROKEN: Final = f"{WITHIN_ENDS} with a wire broken to any one contact of a limit switch there"
HAS_A_SAY: Final = "has a say in what drives {}"
FUSED: Final = "feeds no way past all fuses"
MATCHED: Final = "gets no volts from conductors alone but such as it is made for"
SUPPRESSED: Final = "has suppression straight across it, no diode of which conducts while it is fed"
GETS_ENOUGH: Final = "gets the volts that it operates at, warm and behind all resistances that the plan tells"
STOPS_IN_TIME: Final = "stops within its overtravel or on its cam, once its switch has ended the drive"
TURNS_BACK: Final = "can be driven back from each end at which it rests"
FAULT: Final = "fault"
"""The kind of the digits that stand for what may fail."""
INSIDE: Final = "inside of parts"
"""Where the terminals lie that are thought of there."""
NEVER: Final = Closed(-1, frozenset())
"""When a contact is closed that never is."""
FOUND: Final = "can be brought to a limit switch from wherever power finds it"
SETTLES: Final = "comes to rest after each change"
OUTLASTS: Final = "{} works after one fault"
NEVER_PAST: Final = "one fault never drives {} past {}"
ALIKE: Final = "comes to the same rest, if to any, in whatever order relays move in their times"
STEADY: Final = "does not turn back and forth by itself"
GETS_THERE: Final = "can be brought to both its ends"
NOT_AGAIN: Final = "is not driven again and again onto a limit that it goes back off"
KEPT: Final = "the promise is kept: {}"
TESTED: Final = "the promise is put to the test: {}"
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
WEAK: Final = 0.02
"""Of its rated volts from which on a motor that is not driven doesn't coast either."""
LIT: Final = 0.5
"""Of its rated volts from which on a lamp is lit."""
GLOWS: Final = 0.05
"""Of its rated volts from which on it is not dark."""
MOST_OHMS: Final = 20
"""Times its coil's ohms that a resistor across it may have (common practice, no source)."""
ANY_TIME: Final = (0.0, float("inf"))
"""The least and the greatest seconds of a relay's move of which no time is told."""
LEAST_SHARES: Final = {"motor": 0.02, "lamp": 0.05, "buzzer": 0.05, "solenoid": 0.05}
"""Of its rated volts from which on a load turns, glows, sounds or pulls (common practice, no source)."""
TWO_WAY_KINDS: Final = ("motor", "resistor")
"""Loads that may take current either way on purpose."""
MOST_LOOKED_AT: Final = 1 << 9
"""Cases among which one is looked for in which something is so."""
MOST_IN_VAIN: Final = 1 << 12
"""Cases that are looked at in vain, over all that is looked for."""
MOST_NEAR: Final = 12
"""Loads near a contact of which it is asked whether it changes anything for them."""
MUCH: Final = 1e-3
"""Volts that are no rounding."""
CALM: Final = ("operating makes no relay want to release", "releasing makes no relay want to operate")

OHM_MM2_PER_METRE: Final = 0.02112
"""The most that stranded copper of any size has at 20 °C: 96 ohm/km at 0.22 mm2 (DIN VDE 0295, class 5; IEC 60228
allows of no size from 0.5 mm2 on as much)."""
PER_KELVIN: Final = 0.00393
"""By which the resistance of copper rises from 20 °C (IEC 60028)."""
BRUSHES: Final = (1.0, 1.5)
"""Speed and stall current of a two-speed motor at its brushes (mvwautotechniek.nl, permanent magnet, third brush)."""
MOST_FREE: Final = 0.5
"""Of its stall current that a motor takes free running."""
NOTHING: Final = (0.0, 0.0)
LONGEST_OPERATE: Final = 0.015
LONGEST_RELEASE: Final = 0.010
LONGEST_RELEASE_WITH_DIODE: Final = 0.030
"""Seconds where the plan tells none: Omron G2R (from memory), Panasonic automotive relays, three times as long with a
diode (Finder 99.01)."""
TRAVEL: Final = 0.005
"""Seconds that a contact takes at most from one side to the other (common practice, no source)."""

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


class Shorted(Exception):
    """A supply is, in all states that are looked at: there nothing moves for good."""


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
    terminal of each. names: of all digits, the poles' last. told: what has been found of relays and motors already.
    broken: the same without a contact, by its number, as far as that has been asked for. loosened: contacts, by their
    numbers, that in the box `loose` are closed by a digit of their own, after all others, each with that digit.
    faults: the digits of what may fail, each with the place of its first fault: to sets all faults are the values of
    one digit, the last, so that no two come together."""

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
    broken: "dict[int, Box]"
    loosened: dict[int, int]
    loose: "Box | None"
    faults: dict[int, int]

    def where(self, digit: int, value: int) -> Set:
        """The states in which a digit has this value."""
        if digit not in self.faults:
            return self.sets.where(digit, (value,))
        first, fault = self.faults[digit], len(self.sets.radices) - 1
        if value:
            return self.sets.where(fault, (first + value - 1,))
        return self.sets.opposite(self.sets.where(fault, range(first, first + self.sets.radices[digit] - 1)))

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
    faults, count = {}, 1
    for number, digit in enumerate(circuit.digits):
        if digit.kind == FAULT:
            faults[number] = count
            count += digit.radix - 1
    radices = (*(digit.radix for digit in circuit.digits), *(3 for _ in poles))
    loosened = {number: len(radices) + place for place, number in enumerate(breakable(circuit))}
    sets = Sets((*radices, *(2 for _ in loosened), count))
    box = Box(circuit, net, rails, leaving, arriving, loads, poles, names, sets, {}, {}, loosened, None, faults)
    own = {number: Closed(digit, frozenset({1})) for number, digit in loosened.items()}
    return box._replace(loose=closing_otherwise(box, own)) if own else box


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


def rewired(box: Box, old: Iterable[Conductor], new: Iterable[Conductor]) -> Box:
    """The box with some conductors in place of others."""
    leaving, arriving = dict(box.leaving), dict(box.arriving)
    for one in old:
        for way in ways_of(one, box.net, box.poles):
            for ways, net in ((leaving, way.tail), (arriving, way.head)):
                ways[net] = list(ways[net])
                ways[net].remove(way)
    for one in new:
        for way in ways_of(one, box.net, box.poles):
            for ways, net in ((leaving, way.tail), (arriving, way.head)):
                ways[net] = [*ways[net], way]
    return box._replace(leaving=leaving, arriving=arriving, told={})


def closing_otherwise(box: Box, contacts: dict[int, Closed]) -> Box:
    """The box in which some contacts, by their numbers, are closed at these values of these digits."""
    old = [box.circuit.conductors[number] for number in contacts]
    return rewired(box, old, [one._replace(closed=closed) for one, closed in zip(old, contacts.values(), strict=True)])


def at_positions(box: Box, states: Set) -> Set:
    """Those of the states in which every switch on which they hang is at a position, not between two."""
    for digit in box.sets.digits(states):
        if digit < len(box.circuit.digits):
            states = box.sets.both(states, box.sets.where(digit, range(len(box.circuit.digits[digit].values))))
    return states


def with_broken(box: Box, number: int) -> Box:
    """The box with a wire broken to a contact. Relays that want the same with it closed as with it open, wherever its
    own digit stands, want that here."""
    if number not in box.broken:
        other = box.broken[number] = rewired(box, [box.circuit.conductors[number]], ())
        if box.loose and number in box.loosened:
            for relay in box.circuit.relays:
                answers = wanted(box.loose, relay)
                if None not in answers and box.loosened[number] not in all_digits(box.sets, answers.values()):
                    other.told["wants", relay.digit] = wanted(box, relay)
    return box.broken[number]


def all_digits(sets: Sets, states: Iterable[Set]) -> frozenset[int]:
    """What some sets hang on."""
    return frozenset[int]().union(*map(sets.digits, states))


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
        "starved-coil": [f"{circuit.loads[coil.load].name} {GETS_ENOUGH}" for _, coil in calling(circuit)],
        "missing-flyback": [f"{load.name} {SUPPRESSED}" for load in circuit.loads if load.inductive],
        "unbraked-stop": [f"{motor.name} {BRAKED}" for motor in must_brake(circuit)],
        "plugged-motor": [f"{motor.name} {NOT_THROWN}" for motor in motors],
        "starts-by-itself": [f"{motor.name} {STAYS_STILL}" for motor in motors],
        "wrong-way-pulse": [f"{motor.name} {NO_PULSE}" for motor in motors],
        "overvolted-supply": [f"{motor.name} {NOT_PUSHED}" for motor in pushing_motors(circuit)],
        "emergency-stop": [
            *(f"{circuit.digits[stop].name} {STAYS_PRESSED}" for stop in stops(circuit)),
            *(f"{motor.name} {claim}" for claims in stops(circuit).values() for claim in claims for motor in motors),
        ],
        "runs-past-limit": [f"{motor.name} {STOPS_IN_TIME}" for motor in motors_with_room(circuit)],
        "broken-requirement": [*requirements(circuit)],
        "sneak-path": [
            *(f"{circuit.loads[number].name} {OWN_DRIVE}" for number in workable(circuit)),
            *(f"{part} {NO_LINK}" for part in switching(circuit)),
        ],
        "limit-not-cutting": [
            *(says(circuit, limit) for limit in end_limits(circuit)),
            *(f"{axis.name} {WITHIN_ENDS}" for axis in axes),
            *(f"{axis.name} {WITHIN_BROKEN}" for axis in axes_with_contacts(circuit)),
        ],
        "chattering-limit": [f"{axis.name} {NOT_AGAIN}" for axis in axes_with_limits(circuit)],
        "hunting-axis": [
            *(f"{axis.name} {STEADY}" for axis in driven_axes(circuit)),
            *(f"{axis.name} {GETS_THERE}" for axis in axes),
        ],
        "trapped-at-limit": [f"{axis.name} {TURNS_BACK}" for axis in axes],
        "lost-axis": [f"{axis.name} {FOUND}" for axis in axes_with_limits(circuit)],
        "never-settles": all_settle(circuit),
        "order-dependent": all_alike(circuit),
        "broken-promise": all_promised(circuit),
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


def stops(circuit: Circuit) -> "dict[int, dict[str, Callable[[Course, Motor, int, Set], Set]]]":
    """The digits of its emergency stops, each with what is claimed of motors there, and what finds the states that
    break it."""
    found = {}
    for number, one in enumerate(circuit.digits):
        if one.name in circuit.parts and circuit.parts[one.name].kind == "estop":
            claims: dict[str, Callable[[Course, Motor, int, Set], Set]] = {OBEYS: disobeying, NOT_RESET: starting_anew}
            claims |= {OBEYS_STUCK: disobeying_stuck} if circuit.relays else {}
            claims |= {OBEYS_BROKEN: disobeying_broken} if closed_by(circuit, number) else {}
            found[number] = {claim.format(one.name): find for claim, find in claims.items()}
    return found


def closed_by(circuit: Circuit, stop: int) -> list[int]:
    """The contacts, by their numbers, that an emergency stop closes when it is pressed and that have wires."""
    contacts = contacts_by_part(circuit).get(circuit.digits[stop].name, {})
    return [number for number, closed in contacts.items() if 1 in closed.values]


def contacts_by_part(circuit: Circuit) -> dict[str, dict[int, Closed]]:
    """The contacts of each part that have a wire at both ends, by their numbers, with when they are closed."""
    wired = wire_ends(circuit)
    found: dict[str, dict[int, Closed]] = {}
    for number, one in enumerate(circuit.conductors):
        if one.closed and {one.tail, one.head} <= wired:
            found.setdefault(one.part, {})[number] = one.closed
    return found


def breakable(circuit: Circuit) -> list[int]:
    """The contacts, by their numbers, that a stop closes, or a limit switch, and that have a wire at both ends."""
    contacts = contacts_by_part(circuit)
    stopping = [number for stop in stops(circuit) for number in closed_by(circuit, stop)]
    limits = [(one.zones, contacts.get(one.name, {})) for one in circuit.limits]
    return stopping + [number for zones, those in limits for number, closed in those.items() if closed.values & zones]


def end_limits(circuit: Circuit) -> list[Limit]:
    """The limit switches at the ends of axes that go to and fro, but such as have no wire."""
    wired, axes = wire_ends(circuit), axes_with_ends(circuit)
    limits = (limit for limit in circuit.limits if circuit.axes[limit.axis] in axes)
    limits = (limit for limit in limits if not limit.zones.isdisjoint(circuit.axes[limit.axis].range))
    return [limit for limit in limits if not wired.isdisjoint(circuit.parts[limit.name].terminals)]


def says(circuit: Circuit, limit: Limit) -> str:
    """What is claimed of a limit switch."""
    return f"{limit.name} {HAS_A_SAY.format(circuit.axes[limit.axis].name)}"


def axes_with_contacts(circuit: Circuit) -> list[Axis]:
    """The axes with a limit switch at an end that has a wire at both ends of a contact."""
    contacts, limits = contacts_by_part(circuit), end_limits(circuit)
    axes = {limit.axis for limit in limits if limit.name in contacts}
    return [axis for number, axis in enumerate(circuit.axes) if number in axes]


def calling(circuit: Circuit) -> list[tuple[Relay, Coil]]:
    """The coils that move relays, each with its relay."""
    return [(relay, coil) for relay in circuit.relays for coil in (relay.coil, relay.reset) if coil]


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
    return {zone for limit in limits_of(circuit, axis) for zone in limit.zones}


def limits_of(circuit: Circuit, axis: Axis) -> list[Limit]:
    """The limit or cam switches of an axis."""
    return [limit for limit in circuit.limits if circuit.axes[limit.axis] is axis]


# The certificate


def verify(circuit: Circuit, certificate: Any) -> list[str]:
    """What the certificate proves of the circuit. Raises Refused where anything in it is not as it must be."""
    fields(certificate, "version", "sets", "conduction", "calm", "operation", "lasting", "without certificate", "seal")
    if certificate["version"] != VERSION:
        raise Refused(f"this is no {VERSION}")
    if certificate["seal"] != seal_of(certificate):
        raise Refused("it was changed after it was written: its seal doesn't fit")
    box, every, proved, moving = box_of(circuit), claims_of(circuit), as_written(circuit), 0
    reader = Reader(box, certificate["sets"])
    if certificate["conduction"] is not None:
        moving = confirm_no_short(box, reader.conduction(certificate["conduction"]))
        proved += proved_at_once(box, moving)
    elif certificate["calm"] is not None or certificate["operation"] or certificate["lasting"]:
        raise Refused("behaviour is followed only where no supply is ever shorted")
    if certificate["calm"] is not None:
        box.sets.begin_anew()
        confirm_calm(box, certificate["calm"])
        proved += all_settle(circuit)
    entries = []
    for entry in listed(certificate["operation"], dict):
        entries.append(reader.operation(entry))
        confirm_operation(box, entries[-1], certificate["calm"] is not None, moving)
        proved = with_more(proved, entries[-1].claims, every)
    if certificate["lasting"] is True:
        confirm_lasting(box, entries)
        proved = with_more(proved, all_alike(circuit), every)
    elif certificate["lasting"] is not False:
        raise Refused("what relays want lasts, or it doesn't")
    reader.refuse_what_is_left()
    left = [claim for claim in every if claim not in proved]
    if certificate["without certificate"] != left:
        raise Refused("what is claimed and what is left over are not all that can be claimed")
    return proved


def with_more(proved: list[str], claims: list[str], every: list[str]) -> list[str]:
    """All that is proved then. every: all that can be claimed, in order."""
    more = set(claims)
    if not more.isdisjoint(proved) or claims != [claim for claim in every if claim in more]:
        raise Refused("something is claimed twice, or not in order")
    return proved + claims


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
        for place, line in enumerate(listed(written, str), 2):
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
        digits, still = self._digits(listed(written["over"], str)), written["still"]
        if not isinstance(still, dict):
            raise Refused("what stands still is written with its values")
        values = {}
        for digit in self._digits(list(still)):
            one = self._box.circuit.digits[digit]
            if still[one.name] not in one.values:
                raise Refused(f"{one.name} stands still where it can't")
            values[digit] = one.values.index(still[one.name])
        return Operation(frozenset(digits), values, self._set(written["reached"]), listed(written["claims"], str))

    def _digits(self, names: list[Any]) -> list[int]:
        found = [number for number, digit in enumerate(self._box.circuit.digits) if digit.name in names]
        if names != [self._box.names[digit] for digit in found]:
            raise Refused("digits are written in order, once each")
        return found


def fields(value: Any, *names: str) -> None:
    """Refuses what is not an object with just these fields."""
    if not isinstance(value, dict) or list(value) != list(names):
        raise Refused(f"an object should have just the fields {', '.join(names)}")


def listed(value: Any, kind: type) -> list[Any]:
    """Refuses what is not a list of words (str), or of objects (dict)."""
    if not isinstance(value, list) or not all(isinstance(one, kind) for one in value):
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
    return brakes(box, motor).get(True, 0)


def brakes(box: Box, motor: Motor) -> dict[bool | None, Set]:
    """The states in which a motor is braked (True), and those in which it isn't."""
    return told(box, ("brakes", motor.windings), partial(Moment.is_braked, motor=motor))


def volts(box: Box, number: int) -> dict[float | None, Set]:
    """The volts that a load gets, each with the states in which it does."""
    return told(box, ("volts", number), partial(Moment.volts, number=number))


def told(box: Box, key: Hashable, ask: "Callable[[Moment], Any]") -> dict[Any, Set]:
    """All answers to a question about a moment, each with the states in which it is the answer; None in those in which
    it does not follow, 0 where a fault shorts a supply."""
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
                    part = box.sets.both(states, box.where(digit, value))
                    others = dict.fromkeys(box.faults, 0) if value and digit in box.faults else {}
                    left.append(({**others, **state, digit: value}, part))
                continue
            except Shorted:
                answer = 0 if box.faults else None
            except Refused:
                answer = None
            found[answer] = box.sets.either(found.get(answer, 0), states)
        found.clear()
        found[None] = 1
    return box.told[key]


def measured(links: list[tuple[Net, Net, float]]) -> dict[Net, tuple[Net, float]]:
    """The volts of the nets that links raise one above the other, each from the first of those that hang together."""
    levels: dict[Net, tuple[Net, float]] = {}
    for start, _, _ in links:
        waiting = [] if start in levels else [start]
        levels.setdefault(start, (start, 0.0))
        while waiting:
            here = waiting.pop()
            for low, high, gain in links:
                if low == here and high not in levels:
                    levels[high] = (start, levels[here][1] + gain)
                    waiting.append(high)
    return levels


def gets(box: Box, number: int) -> "dict[Got | None, Set]":
    """All that a load may get, each with the states in which it does; None where not even that follows."""
    return told(box, ("gets", number), partial(Moment.gets, number=number))


class Got(NamedTuple):
    """The volts of a load, `a` positive (None: they don't follow); what they come over: "conductors" alone, "supplies"
    where these lead past a supply that is off, "resistors" with conductors, or "others", which are loads."""

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
        a, b = self._ends(number)
        if not more:
            return Got(volts, "conductors" if not volts or self._is_driven(a, b, "") else "supplies")
        over = "resistors" if self._is_driven(a, b, "resistor") else "others"
        try:
            return Got(self._solved(a, b), over)
        except Refused:
            return Got(None, over)

    def _is_driven(self, a: Net, b: Net, over: str) -> bool:
        """Do conductors, and loads of one kind, surely bring volts between two nets?"""
        pairs = ((a, b), (b, a)) if a != b else ()
        ways = ((self._drawn(high, True, over), self._drawn(low, False, over)) for high, low in pairs)
        return any(self._most(*way) > ALMOST for way in ways)

    def _drawn(self, start: Net, backward: bool, over: str) -> set[Net]:
        """Those of the rails of supplies that are on to which conductors, and loads of one kind, surely lead, or from
        which; over no more than one rail of a supply that is off."""
        found, rails = set[Net](), {net for pair in self.box.rails for net in pair} & self.levels.keys()
        pairs = zip(self.circuit.supplies, self.box.rails, strict=True)
        off = [pair for supply, pair in pairs if not self.state[supply.digit] and pair[0] != pair[1]]
        for shut in product(*off) if rails else ():
            come, waiting = {*shut}, [start] if start not in shut else []
            for here in waiting:
                fresh = self._reached(here, rails | come, backward) - come
                come |= fresh
                beside = (one for net in fresh - rails for one in self.box.loads.get(net, ()))
                waiting += [there for load, there in beside if self.circuit.loads[load].kind == over]
            found |= come & rails - {*shut}
        return found | {start} & rails

    def is_fed(self, number: int) -> bool:
        """Do conductors alone bring a load volts?"""
        a, b = self._ends(number)
        if self._is_driven(a, b, ""):
            return True
        for high, low in ((a, b), (b, a)) if a != b else ():
            # Raises Undecided where the answer hangs on a digit.
            highest, lowest = (self._held(net, {*self.levels}, net == high, None) for net in (high, low))
            self._is_brought(highest, list(lowest), 0.0)
        return False

    def idles(self, motor: Motor) -> str:
        """What a motor that is not driven does, by the name that plans have for it where they have one."""
        if self.is_braked(motor):
            return "braked"
        if any(abs(self.volts(one.load)) >= WEAK * motor.volts - ALMOST for one in motor.windings):
            return "weak"
        ways = [way for one in motor.windings for way in ((one.plus, one.minus), (one.minus, one.plus))]
        return "braked one way" if any(self.leads([way]) for way in ways) else "coasting"

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
                volts = self.volts(one.load, motor.volts / 4 - ALMOST)
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
        links = []
        for supply, (plus, minus) in zip(self.circuit.supplies, self.box.rails, strict=True):
            if self._value(supply.digit) == 1:
                links += [(minus, plus, supply.volts), (plus, minus, -supply.volts)]
        shut = {rail for rail, _, _ in links}
        ahead = {rail: self._reached(rail, shut - {rail}, False) for rail, _, _ in links}
        joined = {rail: nets & self._reached(rail, shut - {rail}, True) for rail, nets in ahead.items()}
        links += [(rail, other, 0.0) for rail, nets in joined.items() for other in sorted(nets & shut)]
        held = measured(links)
        if any(abs(held[low][1] + gain - held[high][1]) > ALMOST for low, high, gain in links):
            raise Shorted
        for rail, (first, level) in held.items():
            if any(held[other][0] == first and held[other][1] < level - ALMOST for other in ahead[rail] & shut):
                raise Shorted
        levels = dict(held)
        for rail, its in held.items():
            for net in joined[rail]:
                if levels.setdefault(net, its) != its:
                    raise Refused(f"{net} is held by two supplies")
        return levels

    def leads_to(self, start: Net) -> set[Net]:
        """Where conductors surely lead to, over rails too."""
        return self._reached(start, (), False)

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

    def volts(self, number: int, least: float = 0.0) -> float:
        """The volts of a load, `a` positive: by Kirchhoff's laws where other loads bring it more than conductors do; 0
        where these surely bring it less than the least that counts."""
        volts, more = self.fed(number)
        if more and self._most_over_others(number) < least:
            return 0.0
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
        if prod(self.box.sets.radices[digit] for digit in self.state.keys() - self.box.faults.keys()) > MOST_TOGETHER:
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

    def _most_over_others(self, number: int) -> float:
        """The most volts that a load may get over others: where conductors lead to an end of it from no net that is
        held, no more current comes there than these let through with all volts that there are (Kirchhoff)."""
        load, held = self.circuit.loads[number], [level for _, level in self.levels.values()]
        a, b, volts = self.box.net[load.a], self.box.net[load.b], max(held) - min(held)
        if len({rail for rail, _ in self.levels.values()}) > 1:
            return inf
        most = []
        for high, low in ((a, b), (b, a)):
            sides = []
            for end, backward, idle in ((high, True, min(held)), (low, False, max(held))):
                nets = {net for net, _ in self._walk([end], self.levels, backward)}
                others = {other for net in nets for other, _ in self.box.loads.get(net, ()) if other != number}
                passed = load.ohms * sum(1 / self.circuit.loads[other].ohms for other in sorted(others))
                is_held = any(abs(self.levels[net][1] - idle) > ALMOST for net in nets & self.levels.keys())
                sides.append(volts if is_held else volts * passed / (1 + passed))
            most.append(min(sides))
        return max(most)

    def _most(self, highs: set[Net], lows: set[Net]) -> float:
        """The most volts by which one of these nets is held above one of those; 0 where none is."""
        pairs = product(highs & self.levels.keys(), lows & self.levels.keys())
        return max((0.0, *(self._difference(high, low) for high, low in pairs)))

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
    staying = (box.circuit.digits[stop] for stop in stops(box.circuit))
    stays = [f"{stop.name} {STAYS_PRESSED}" for stop in staying if stop.springs_to is None]
    limits = [says(box.circuit, limit) for limit in end_limits(box.circuit) if has_a_say(box, limit)]
    supplied = no_short + supplies + matched + fed_enough(box) + suppressed(box)
    return supplied + own + one_way + in_some_combination(box) + stays + limits + proved_of_faults(box.circuit)


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
    alone = [one for one in gets(box, coil.load) if not one or one.over in ("conductors", "supplies")]
    fed = [abs(one.volts or 0.0) if one else inf for one in alone]
    return all(one <= ALMOST or coil.operate_volts - ALMOST <= one <= most + ALMOST for one in fed)


def suppressed(box: Box) -> list[str]:
    """What is claimed of the coils that have suppression. Diodes across coils are taken out to see what they would get:
    of two that stand opposite ways the one that conducts leaves nothing to see."""
    net, circuit = wired_nets(box.circuit), box.circuit
    across = {n: suppressors_across(circuit, net, load) for n, load in enumerate(circuit.loads) if load.inductive}
    ends = {(one.a, one.b) for those in across.values() for one in those if one.kind == "diode"}
    bare = rewired(box, (one for one in circuit.conductors if one.kind == "diode" and (one.tail, one.head) in ends), ())
    claims = []
    for number, those in across.items():
        load = circuit.loads[number]
        diodes = [one for one in those if one.kind == "diode"]
        strong = [one for one in those if one.kind != "resistor" or one.ohms <= MOST_OHMS * load.ohms]
        wrong = any(conducts(bare, number, net[one.a] == net[load.a]) for one in diodes)
        if len(strong) > len(diodes) or (diodes and not wrong):
            claims.append(f"{load.name} {SUPPRESSED}")
    return claims


def suppressors_across(circuit: Circuit, net: dict[str, Net], load: Load) -> list[Suppressor]:
    """What stands straight across a load."""
    ends = {net[load.a], net[load.b]}
    return [one for one in circuit.suppressors if {net[one.a], net[one.b]} == ends and len(ends) == 2]


def is_slowed(circuit: Circuit, net: dict[str, Net], relay: Relay) -> bool:
    """Does a plain diode stand straight across a relay's coil, which makes its release slower? net: as wires alone join
    terminals."""
    across = suppressors_across(circuit, net, circuit.loads[relay.coil.load])
    return relay.reset is None and any(one.kind == "diode" for one in across)


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
    own = ("conductors", "resistors")
    others = [(one, states) for one, states in gets(box, number).items() if not one or one.over not in own]

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


# What coils get, warm and behind wires


class Wiring(NamedTuple):
    """What the plan tells of resistances, terminal by terminal. warm: times that copper has its resistance at 20 °C.
    ohms: of each conductor. leaving, arriving: at each terminal the conductors, by number, that current may go on over,
    or come over, each with the terminal beyond. loads: at each terminal, by number, with the other end of each."""

    warm: float
    ohms: list[float]
    leaving: dict[str, list[tuple[int, str]]]
    arriving: dict[str, list[tuple[int, str]]]
    loads: dict[str, list[tuple[int, str]]]


def wiring_of(circuit: Circuit) -> Wiring:
    """As warm as the plan's ambient may be, 20 °C at least."""
    leaving: dict[str, list[tuple[int, str]]] = {}
    arriving: dict[str, list[tuple[int, str]]] = {}
    loads: dict[str, list[tuple[int, str]]] = {}
    for number, one in enumerate(circuit.conductors):
        for tail, head in ((one.tail, one.head), *(() if one.one_way else ((one.head, one.tail),))):
            leaving.setdefault(tail, []).append((number, head))
            arriving.setdefault(head, []).append((number, tail))
    for number, load in enumerate(circuit.loads):
        for here, there in ((load.a, load.b), (load.b, load.a)):
            loads.setdefault(here, []).append((number, there))
    return Wiring(warmth(circuit), ohms_of(circuit), leaving, arriving, loads)


def warmth(circuit: Circuit) -> float:
    """Times that copper has its resistance at 20 °C, at the plan's highest ambient."""
    ambient = circuit.conditions.ambient_celsius
    return 1 + PER_KELVIN * max(ambient[1] - 20, 0) if ambient else 1.0


def ohms_of(circuit: Circuit) -> list[float]:
    """The most that each conductor has; none where the plan doesn't tell."""
    wires, every = {one.conductor: one for one in circuit.wires}, circuit.conditions
    found = []
    for number, one in enumerate(circuit.conductors):
        if one.kind == "wire":
            wire = wires.get(number)
            area = (wire.area_mm2 if wire else 0) or every.area_mm2
            metres = (wire.metres if wire else 0) or every.metres
            found.append(OHM_MM2_PER_METRE * warmth(circuit) * metres / area if area else 0.0)
        else:
            ratings = circuit.parts[one.part].ratings if one.kind in ("contact", "pin") else {}
            found.append(ratings.get("contacts_ohms", ratings.get("ohms", 0.0)))
    return found


def fed_enough(box: Box) -> list[str]:
    """What is claimed of coils that get enough; all do where the plan tells of nothing that takes volts or warms."""
    wiring, circuit = wiring_of(box.circuit), box.circuit
    bare = wiring.warm == 1 and not any(wiring.ohms) and not any(one.internal_ohms for one in circuit.supplies)
    return [
        f"{circuit.loads[coil.load].name} {GETS_ENOUGH}"
        for relay, coil in calling(circuit)
        if bare or {*told(box, ("enough", coil.load), partial(gets_enough, wiring, relay, coil))} == {True}
    ]


def gets_enough(wiring: Wiring, relay: Relay, coil: Coil, moment: Moment) -> bool:
    """Does a coil that is to move its relay get what it needs from some supply? Looked at as it is, or with each value
    of a digit that works contacts at the load that takes the most."""
    box, state, needed = moment.box, moment.state, coil.operate_volts * wiring.warm
    if relay.digit not in state:
        raise Undecided(relay.digit)
    called = state[relay.digit] == int(coil == relay.reset)
    if not called or abs(moment.volts(coil.load)) < coil.operate_volts - ALMOST:
        return True
    most = min(box.circuit.loads, key=lambda load: load.ohms)
    near = {way.digit for end in (most.a, most.b) for way in box.leaving.get(box.net[end], ())}
    split = [
        [{**state, digit: value} for value in range(box.sets.radices[digit])]
        for digit in near
        if digit is not None and digit not in state
    ]
    feeds = [Feed(box, wiring, one) for one in box.circuit.supplies if state[one.digit] == 1]
    return any(
        all(any(feed.left_for(coil, one) >= needed for feed in feeds) for one in cases) for cases in [[state], *split]
    )


class Feed(NamedTuple):
    """A supply that is on. Volts are followed from its terminals over one way to a load and one back."""

    box: Box
    wiring: Wiring
    supply: Supply

    def left_for(self, coil: Coil, state: State) -> float:
        """The volts that a coil gets at least; -inf where it isn't sure that this supply feeds it. By Kirchhoff's law
        of volts they are what the terminals have less what is lost on the loop, whatever else is joined to it; so it
        gets least where the terminals have least."""
        load = self.box.circuit.loads[coil.load]
        volts, ohms, siemens = self.supply.volts, self.supply.internal_ohms, self.siemens(state, True, self.supply.plus)
        every = sum(one.volts for one in self.box.circuit.supplies)
        if every * siemens > (self.supply.limit_amps or inf):
            return -inf
        least = (volts - ohms * siemens * (every - volts)) / (1 + ohms * siemens)
        across = least + every - volts
        return least - min(
            self.lost(state, True, high, across) + self.lost(state, False, low, across)
            for high, low in ((load.a, load.b), (load.b, load.a))
        )

    def lost(self, state: State, high: bool, end: str, across: float) -> float:
        """The volts that are lost at most between + (high) or − and this end of a load, over the way of fewest ohms of
        those that surely lead there, a diode counting as one; inf where none does. across: what any load may get."""
        done = set[str]()
        waiting: list[tuple[float, str, tuple[tuple[int, str], ...]]] = [(0.0, end, ())]
        while waiting:
            ohms, here, way = heappop(waiting)
            if here == (self.supply.plus if high else self.supply.minus):
                return sum(self._drop(state, high, across, *one) for one in way)
            done.add(here)
            for number, there in (self.wiring.arriving if high else self.wiring.leaving).get(here, ()):
                one = self.box.circuit.conductors[number]
                if there not in done and (one.closed is None or state.get(one.closed.digit) in one.closed.values):
                    further = ohms + self.wiring.ohms[number] + one.one_way
                    heappush(waiting, (further, there, (*way, (number, here))))
        return inf

    def _drop(self, state: State, high: bool, across: float, number: int, end: str) -> float:
        """What is lost at most in a conductor, by number, whose end toward the load this is."""
        ohms, one_way = self.wiring.ohms[number], self.box.circuit.conductors[number].one_way
        amps = across * self.siemens(state, high, end, number) if ohms or one_way else 0.0
        return float(DROP) + float(DIODE_OHMS) * amps if one_way else ohms * amps

    def siemens(self, state: State, high: bool, end: str, over: int = -1) -> float:
        """Of all loads whose current may run between + and `end` over this conductor, by number, toward a coil; or over
        it from `end` on to −. Each part of that goes straight on to a load, or comes straight from one: without a short
        it can't go to the other rail, nor uphill to this one. Through other supplies it might go anywhere."""
        loads, found = self.box.circuit.loads, self._beyond(state, high, end, over)
        other = self.supply.minus if high else self.supply.plus
        rails = {rail for one in self.box.circuit.supplies if one != self.supply for rail in (one.plus, one.minus)}
        here = (one for one in found if self.box.net[one] != self.box.net[other])
        near = [one for terminal in here for one in self.wiring.loads.get(terminal, ())]
        taking = {load for load, far in near if far in found or self._leads_on(state, high, load, far)}
        return sum(1 / loads[one].ohms for one in (range(len(loads)) if rails & found else taking))

    def _leads_on(self, state: State, high: bool, load: int, far: str) -> bool:
        """May what comes over a load go on from its far end, to a supply or over another load?"""
        rails = {net for pair in self.box.rails for net in pair}
        if self.box.net[far] in rails:
            return True
        beyond = self._beyond(state, high, far)
        others = {number for here in beyond for number, _ in self.wiring.loads.get(here, ())} - {load}
        return bool(others) or any(self.box.net[here] in rails for here in beyond)

    def _beyond(self, state: State, high: bool, end: str, over: int = -1) -> set[str]:
        """Where conductors may lead on to from there, but for this one, or come from; up to the rails."""
        net, (rail, other) = self.box.net, (self.supply.plus, self.supply.minus)[:: 1 if high else -1]
        found, waiting = {end}, [end]
        for here in waiting:
            ways = (self.wiring.leaving if high else self.wiring.arriving).get(here, ())
            for number, there in ways if here == end or (here != rail and net[here] != net[other]) else ():
                closed = self.box.circuit.conductors[number].closed
                may_lead = closed is None or state.get(closed.digit, min(closed.values)) in closed.values
                if may_lead and number != over and there not in found:
                    found.add(there)
                    waiting.append(there)
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
    circuit, search = box.circuit, Search(box)
    fed = [search.find(partial(is_on, loads=[number], volts=MUCH)) for number in range(len(circuit.loads))]
    claims = [
        f"{name} {CAN_BE_OFF}"
        for name, (loads, volts) in on_from(circuit).items()
        if search.find(partial(is_off, loads=loads, volts=volts))
    ]
    claims += [
        f"{circuit.loads[coil.load].name} {CAN_OPERATE}"
        for coil in coils_of(circuit)
        if search.find(partial(is_on, loads=[coil.load], volts=coil.operate_volts))
    ]
    claims += [
        f"{load.name} {APART}"
        for load, gets_volts in zip(circuit.loads, fed, strict=True)
        if gets_volts or search.find(partial(is_apart, load=load))
    ]
    unfed = {one.part: one for one, got in zip(circuit.loads, fed, strict=True) if not got and not built_in(one)}
    for name, claim in living(circuit).items():
        if claim != ON_A_LOOP and (name not in unfed or is_braking(search, unfed[name])):
            claims.append(f"{name} {claim}")
    claims += [f"{name} {MATTERS}" for name in mattering(search, fed)]
    found = partial(is_found, box)
    return claims + [claim for claim, asked in accepting(circuit).items() if all(any(map(found, one)) for one in asked)]


class Search:
    """Looks for combinations in which something is surely so, and not for ever: what it is then not found for stays
    without certificate."""

    def __init__(self, box: Box) -> None:
        self.box = box
        self._left = MOST_IN_VAIN

    def find(self, ask: Callable[[Moment], bool], *given: State) -> State | None:
        """A case with all supplies on and every switch at a position in which it is so; None where none is found.
        given: digits from which on it is looked for, the likeliest last; none of them for anywhere."""
        left = [{supply.digit: 1 for supply in self.box.circuit.supplies} | one for one in given or [{}]]
        most = min(MOST_LOOKED_AT, self._left)
        for count in range(most):
            if not left:
                self._left -= count
                return None
            state = left.pop()
            try:
                if ask(Moment(self.box, state)):
                    return state
            except Undecided as undecided:
                positions = range(len(self.box.circuit.digits[undecided.digit].values))
                left += [{**state, undecided.digit: value} for value in positions]
            except Refused:
                continue
        self._left -= most
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


def is_braking(search: Search, load: Load) -> bool:
    """Is it a resistor on a loop, and put across a motor's brushes in some combination?"""
    circuit = search.box.circuit
    leading = any(search.find(partial(Moment.leads, pairs=pairs)) for pairs in braking(circuit, load))
    return leading and load.part in on_loops(circuit, {load.part})


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


def mattering(search: Search, fed: list[State | None]) -> list[str]:
    """The parts of which each contact with a wire at either end changes something in some combination. Those side by
    side that close together are held open together. fed: a case in which each load is."""
    net, contacts = search.box.net, wired_contacts(search.box.circuit)
    alike: dict[Hashable, list[Conductor]] = {}
    for one in contacts:
        ends = (net[one.tail], net[one.head])
        alike.setdefault((ends if one.one_way else frozenset(ends), one.closed), []).append(one)
    idle = {one.part for group in alike.values() if not do_matter(search, fed, group) for one in group}
    return [name for name in dict.fromkeys(one.part for one in contacts) if name not in idle]


def do_matter(search: Search, fed: list[State | None], contacts: list[Conductor]) -> bool:
    """Does it change the volts of a load near these contacts, or how a motor there stops, when they are held open?"""
    box = search.box
    held_open = rewired(box, contacts, ())
    digit, values = contacts[0].closed or (-1, ())
    ask = partial(differs, held_open, contacts[0])
    closed = [{digit: value} for value in values if value < len(box.circuit.digits[digit].values)]
    return any(
        search.find(partial(ask, load), *closed, *((fed[load] or {}) | one for one in closed))
        for load in near(box, contacts[0])
        if fed[load] or braking(box.circuit, box.circuit.loads[load])
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


def differs(held_open: Box, contact: Conductor, load: int, moment: Moment) -> bool:
    """Gets a load other volts with this contact, and those beside it, held open, or is it a motor that is braked, or a
    resistor that brakes one, there or here alone?"""
    volts, then = moment.volts(load), Moment(held_open, moment.state)
    other, ends = then.volts(load), [held_open.net[contact.tail], held_open.net[contact.head]]
    # A ring of diodes that it closes counts as joined both ways; but the diodes still take their volts.
    ring = any(end in then.leads_to(start) for start, end in (ends, ends[::-1]))
    if abs(volts - other) > (max(abs(volts), abs(other)) / 2 if ring else MUCH):
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
    return at_positions(box, off) == 0


# In operation


def all_settle(circuit: Circuit) -> list[str]:
    """What is proved of relays where they are calm."""
    return [f"{relay.name} {SETTLES}" for relay in circuit.relays]


def confirm_calm(box: Box, which: Any) -> None:
    """No move of a relay of the one kind ever brings about that a relay wants to make one of the other kind."""
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
    if are_timed_together(box):
        raise Refused("relays' times may leave none of the orders in which they come to rest")


def are_timed_together(box: Box) -> bool:
    """Do two relays hang on each other of both of which the plan tells times? These may rule out the orders in which
    they come to rest; else the others can wait for a relay, or go before it."""
    timed = {digit for (digit, _), seconds in move_seconds(box.circuit).items() if seconds != ANY_TIME}
    relays = box.circuit.relays if len(timed) > 1 else ()
    hang = {one.digit: all_digits(box.sets, wanted(box, one).values()) - {one.digit} for one in relays}
    onward: dict[int, set[int]] = {}
    for digit in timed & hang.keys():
        waiting = [digit]
        found = onward[digit] = set()
        for here in waiting:
            fresh = (hang[here] & hang.keys()) - found
            found |= fresh
            waiting += fresh
    return any(one != other and one in onward[other] for one in onward for other in onward[one] & onward.keys())


def all_alike(circuit: Circuit) -> list[str]:
    """What is proved of relays where what they want lasts."""
    return [f"{relay.name} {ALIKE}" for relay in circuit.relays]


def confirm_lasting(box: Box, entries: Iterable[Operation]) -> None:
    """In no state reached, with every switch at a position, does a relay's move take away what another one wants. So of
    two that want to move either may go first, and the other still goes, to the same state: in whatever order all go,
    they come to the same rest, if to any."""
    box.sets.begin_anew()
    moves = [one for relay in box.circuit.relays for one in wishes(box, relay) if not one[0].timed]
    if any(wanted(box, relay).get(None) for relay in box.circuit.relays):
        raise Refused("what relays want does not follow from conductors alone")
    for wish, states in moves:
        for other, wanting in moves:
            if wish != other and wish.digit in box.sets.digits(wanting):
                after = box.sets.given(wanting, wish.digit, wish.end)
                taken = box.sets.without(box.sets.both(states, wanting), after)
                if taken and not is_ruled_out(box, taken, entries):
                    raise Refused(f"{box.names[other.digit]} may want to move and then no longer, unmoved")


def is_ruled_out(box: Box, states: Set, entries: Iterable[Operation]) -> bool:
    """Are none of the states reached, by any of these entries, with every switch at a position?"""
    digits = box.sets.digits(states)
    states = at_positions(box, states)
    for entry in entries:
        if states and not entry.still:
            states = box.sets.both(states, box.sets.within(entry.reached, digits))
    return not states


def is_calm(box: Box) -> bool:
    """Does either hold, so that relays come to rest from wherever they are?"""

    def holds(which: str) -> bool:
        try:
            confirm_calm(box, which)
        except Refused:
            return False
        return True

    if "calm" not in box.told:
        box.told["calm"] = {any(map(holds, CALM)): 1}
    return True in box.told["calm"]


def brings_about(box: Box, wish: Wish, states: Set, later: Set) -> bool:
    """Does following the wish lead into these later states from outside of them?"""
    before, moving = (box.sets.given(one, wish.digit, wish.start) for one in (later, states))
    return box.sets.without(box.sets.both(moving, box.sets.given(later, wish.digit, wish.end)), before) != 0


def confirm_operation(box: Box, operation: Operation, calm: bool, moving: Set) -> None:
    """What is reached is all that is, and claims hold there."""
    course = confirm_reached(box, operation, calm)
    claims, wanted = broken(course, calm, moving), operation.claims
    if not wanted or not claims.keys() >= {*wanted}:
        raise Refused("what is claimed cannot be claimed over these digits")
    for claim in wanted:
        if not holds(course, claims[claim], operation.reached):
            raise Refused(f"it does not hold that {claim}")


def holds(course: "Course", find: Callable[[Set], Set], reached: Set) -> bool:
    """Is none of the states reached among those that break a claim? Each claim may take as many steps as it takes to
    follow what is reached: it is made but once."""
    course.sets.begin_anew()
    return not find(reached)


def confirm_reached(box: Box, operation: Operation, calm: bool) -> "Course":
    """The states reached are closed under all that can happen, and relays come to rest."""
    box.sets.begin_anew()
    course, reached = Course(box, operation.digits, operation.still), operation.reached
    if operation.still:
        confirm_parked(box, operation.still, calm)
    led_to = box.sets.either(course.begun(), course.stepped(reached, course.steps))
    if led_to != reached:
        raise Refused("the states reached are not those that steps lead to from where it begins")
    course.confirm_known(reached, calm)
    return course


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

    rest: the states in which each relay may want nothing, timers aside, and no switch is between positions. stuck: the
    digit of a relay among them that never moves, -1 for none.
    """

    def __init__(self, box: Box, digits: frozenset[int], still: State, stuck: int = -1) -> None:
        if not {supply.digit for supply in box.circuit.supplies} <= digits or not digits.isdisjoint(still):
            raise Refused("behaviour is followed over all supplies at least, and over none that stands still")
        self.box, self.sets, self.digits, self.still = box, box.sets, digits, still
        self.relays = [relay for relay in box.circuit.relays if relay.digit in self.digits - {stuck}]
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
        self.alone = [step for step in self.steps if not step.by_hand]
        self.moves = [step for step in self.alone if step.quick]

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

    def may_end(self, step: Step) -> list[int]:
        """Where a hand may be going that begins a move so."""
        digit = self.box.circuit.digits[step.digit]
        moment = digit.moments[step.end - len(digit.values)].moves if step.end >= len(digit.values) else ()
        return [end for start, end in moment if start == step.start] or [step.end]

    def passes_off(self, step: Step) -> bool:
        """Does a hand pass a switch's open position, whichever move it begins so? It is taken to rest there."""
        digit = self.box.circuit.digits[step.digit]
        off = digit.values.index("off") if "off" in digit.values else -1
        return all(min(step.start, end) < off < max(step.start, end) for end in self.may_end(step))

    def hands_off(self, but: Collection[int] = ()) -> Set:
        """The states in which every control that springs back has done so, but these."""
        found = 1
        for digit in self.digits.difference(but):
            springs_to = self.box.circuit.digits[digit].springs_to
            found = found if springs_to is None else self.sets.both(found, self.sets.where(digit, (springs_to,)))
        return found

    def untold(self) -> Set:
        """The states in which it doesn't follow from conductors alone what moves."""
        return self.sets.union(self.seen(answers.get(None, 0)) for answers in self._answers())

    def is_closed(self) -> bool:
        """Has nothing but these digits a say in what moves, once parked relays stand still?"""
        return self.settles_alone() and self._is_inside(drives(self.box, motor) for motor, _ in self.motors)

    def settles_alone(self) -> bool:
        """Has nothing but these digits a say in what relays do, while axes may stand anyhow?"""
        return self._is_inside(wanted(self.box, relay) for relay in self.relays)

    def _is_inside(self, all_answers: Iterable[dict[Any, Set]]) -> bool:
        relays = [relay.digit for relay in self.box.circuit.relays if relay.digit in self.still]
        for states in (states for answers in all_answers for states in answers.values()):
            for relay in relays:
                states = self.sets.given(states, relay, 0)
            if not self.sets.digits(states) <= self.digits:
                return False
        return True

    def confirm_known(self, reached: Set, calm: bool) -> None:
        """In every state that is reached it follows what moves, and relays come to rest."""
        if self.sets.both(reached, self.untold()):
            raise Refused("what is reached does not follow from conductors alone")
        if not calm:
            self.confirm_settling(reached)

    def confirm_settling(self, reached: Set) -> None:
        """From every state that is reached some moves of relays lead to one in which none moves; all, where times of
        relays may leave any of them."""
        if not self.settles_alone():
            raise Refused("relays are told to come to rest of which not all is followed")
        endless, left = 0, reached if are_timed_together(self.box) else 0
        while left != endless:
            endless, left = left, self.sets.both(left, self.led_from(left, self.moves))
        if endless or self.sets.without(
            reached, self.settling_in(self.sets.both(reached, self.standing()), self.moves)
        ):
            raise Refused("relays may go on for ever")

    def settling_in(self, goal: Set, moves: list[Step]) -> Set:
        """The states from which some of these moves of relays lead to one of the goal while all else stands still."""
        return leading(self.sets, goal, moves)

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
        *_, led = self.led_to_by_and_by(goal, but)
        return led

    def led_to_by_and_by(self, goal: Set, but: int) -> Iterator[Set]:
        """The same as far as none, one, two … steps lead."""
        moving = [step for step in self.steps if step.digit != but]
        led, grown = -1, goal
        while led != grown:
            yield grown
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
        (NO_PULSE, pulsed, circuit.motors),
        (NOT_PUSHED, pushing, pushing_motors(circuit)),
    ):
        claims |= {f"{motor.name} {claim}": partial(find, course, motor) for motor in motors}
    supplies = {supply.digit for supply in circuit.supplies}
    claims |= {f"{motor.name} {STAYS_STILL}": partial(starting, course, motor, supplies) for motor in circuit.motors}
    for stop, asked in stops(circuit).items():
        for claim, ask in asked.items() if stop in course.digits else ():
            claims |= {f"{motor.name} {claim}": partial(ask, course, motor, stop) for motor in circuit.motors}
    for number in workable(circuit):
        claims[f"{circuit.loads[number].name} {OWN_DRIVE}"] = partial(through_others, course, number)
    claims |= {f"{part} {NO_LINK}": partial(carrying_both_ways, course, part) for part in switching(circuit)}
    axes, with_limits = axes_with_ends(circuit), axes_with_limits(circuit)
    closed, back = course.is_closed(), dict[str, Callable[[Set], Set]]()
    stopping = [motor for motor in motors_with_room(circuit) if closed and (motor, motor.axis) in course.motors]
    claims |= {f"{motor.name} {STOPS_IN_TIME}": partial(running_on, course, motor) for motor in stopping}
    for claim, led, among, found in (
        (WITHIN_ENDS, driven_on, axes, claims),
        (WITHIN_BROKEN, driven_on_broken, axes_with_contacts(circuit), claims),
        (NOT_AGAIN, partial(chattering, calm), with_limits, claims),
        (STEADY, hunting, driven_axes(circuit), claims),
        (GETS_THERE, kept_away, axes, back if closed else {}),
        (TURNS_BACK, trapped, axes, back if closed else {}),
        (FOUND, lost, with_limits, back if closed else {}),
    ):
        found |= {f"{axis.name} {claim}": partial(led, course, axis) for axis in among if axis.digit in course.digits}
    if course.still:
        return back | put_to_test(course, closed)
    for relay in () if calm else course.relays:
        back[f"{relay.name} {SETTLES}"] = lambda _: 0
    for relay in course.relays if course.settles_alone() else ():
        back[f"{relay.name} {ALIKE}"] = partial(racing, course, relay)
    return claims | back | promised(course, closed) | put_to_test(course, closed)


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


def starting(course: Course, motor: Motor, supplies: set[int], reached: Set) -> Set:
    """The states at rest in which a motor may be driven that stood still while not all of these supplies were on, once
    one of them returns, or more do, with hands off what springs back."""
    return starting_after(course, motor, supplies, 1, reached)


def starting_anew(course: Course, motor: Motor, stop: int, reached: Set) -> Set:
    """The same with an emergency stop that was pressed, once it is reset."""
    return starting_after(course, motor, {stop}, 0, reached)


def starting_after(course: Course, motor: Motor, turned: set[int], value: int, reached: Set) -> Set:
    """The same with digits not all of which were at a value, once some of them are turned to it, or spring back: one
    after the other, or several before anything else moves."""
    sets, done = course.sets, 1
    for digit in turned:
        done = sets.both(done, sets.where(digit, (value,)))
    before = sets.both(sets.both(reached, course.rest), course.hands_off(turned))
    still = sets.both(sets.without(before, done), course.seen(sets.opposite(course.drives(motor))))
    turning = [
        step._replace(states=sets.where(step.digit, (step.start,)))
        for step in course.steps
        if step.digit in turned and value in course.may_end(step)
    ]
    steps = [*turning, *(step for step in course.steps if not step.by_hand)]
    after = course.following(course.stepped(still, turning), steps)
    return sets.both(sets.both(after, course.rest), course.may_be_driven(motor))


def disobeying(course: Course, motor: Motor, stop: int, reached: Set) -> Set:
    """The states at rest in which a motor may be driven while an emergency stop is pressed."""
    return course.sets.both(course.sets.both(reached, course.rest), driven_against(course, motor, stop))


def driven_against(course: Course, motor: Motor, stop: int) -> Set:
    """All states in which a motor may be driven while an emergency stop is pressed."""
    return course.sets.both(course.sets.where(stop, (1,)), course.may_be_driven(motor))


def driven_on(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at rest in which an axis may be driven on outward, at or past an end."""
    found = course.sets.union(driven_past(course, axis, direction) for direction in (1, -1))
    return course.sets.both(course.sets.both(reached, course.rest), found)


def driven_past(course: Course, axis: Axis, direction: int) -> Set:
    """All states in which an axis may be driven on outward that way, at or past its end."""
    past = dict(ends(course.box, axis))[direction]
    driven = course.sets.either(driven_to(course.box, axis, direction), driven_to(course.box, axis, None))
    return course.sets.both(past, course.seen(driven))


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


# How far motors turn on


def motors_with_room(circuit: Circuit) -> list[Motor]:
    """The motors of which the plan tells how far they turn on, and how much room there is for it."""
    axes = ((motor, circuit.axes[motor.axis]) for motor in circuit.motors if motor.axis is not None)
    return [motor for motor, axis in axes if has_figures(motor, axis) and has_room(circuit, axis)]


def has_figures(motor: Motor, axis: Axis) -> bool:
    """Does the plan tell what was measured, or all that the equations need?"""
    told_of = motor.figures
    measured = told_of.free_rpm and (told_of.coasts_degrees or told_of.brakes_degrees)
    return bool(measured) or None not in (*told_of[:3], *told_of[4:6], axis.figures.inertia_kg_m2)


def has_room(circuit: Circuit, axis: Axis) -> bool:
    """Does the plan tell any?"""
    zones = range(len(circuit.digits[axis.digit].values))
    return any(room_behind(circuit, axis, *step) is not None for step in product(zones, zones))


def room_behind(circuit: Circuit, axis: Axis, start: int, end: int) -> float | None:
    """The least radians of its motor's shaft that an axis has behind the switches that this step presses: to its hard
    stop, or until a cam lets go. None where it presses none, or none is told."""
    limits = (one for one in circuit.limits if circuit.axes[one.axis] is axis)
    pressed = [circuit.parts[one.name].ratings for one in limits if end in one.zones and start not in one.zones]
    degrees, metres, drum = axis.figures[-3:]
    if axis.turning:
        widths = [ratings["degrees"] for ratings in pressed if "degrees" in ratings]
        return radians(min(widths)) if pressed and len(widths) == len(pressed) else None
    if not pressed or end != axis.range[end > start]:
        return None
    return radians(degrees[0]) if degrees else metres[0] / (drum[1] / 2) if metres and drum else None


def turned_on(circuit: Circuit, motor: Motor, seconds: float) -> tuple[float, float]:
    """The most radians by which a motor turns on that is driven for so long and then braked; and then left open. inf
    where the plan doesn't tell. What was measured at free speed grows with the square of the speed."""
    free, brakes, coasts = motor.figures.free_rpm, motor.figures.brakes_degrees, motor.figures.coasts_degrees
    brushes = BRUSHES[: len(motor.windings)]
    reckoned = [reckoned_on(circuit, motor, brush, seconds) for brush in brushes]
    braked, left_open = (max(one[place] for one in reckoned) for place in (0, 1))
    if free:
        driven, squared = max(brushes) * free[1] * pi / 30 * seconds, max(brushes) ** 2
        braked = driven + squared * radians(brakes[1]) if brakes else braked
        left_open = driven + squared * radians(max(coasts[1], brakes[1] if brakes else 0.0)) if coasts else left_open
    return braked, left_open


def reckoned_on(circuit: Circuit, motor: Motor, brush: float, seconds: float) -> tuple[float, float]:
    """The same by the equations of an armature, V = I R + K w and torque = K I at the shaft (rice.edu/~jdw 242_lab5;
    stalled and free running: hscscience.com.au year 12 module 6 lesson 17). While friction holds the weight, K w never
    exceeds V. Then dw/dt = -T / J, and -T / J - w K2 / J R with the armature shorted; both integrated to standstill."""
    assert motor.axis is not None
    load, (stalled, amps, rpm, _, rotor, gear) = circuit.axes[motor.axis].figures, motor.figures[:6]
    if not (stalled and amps and rpm and rotor and gear and load.inertia_kg_m2) or amps[1] > MOST_FREE * stalled[0]:
        return inf, inf
    stall, free = stalled[0] * brush, rpm[1] * brush * pi / 30
    constant = motor.volts * (1 - amps[1] / stall) / free
    friction = motor.volts * (1 - amps[0] / stall) * amps[0] / free + (load.friction_newton_metres or NOTHING)[0]
    torque = friction - max(map(abs, load.gravity_newton_metres or NOTHING))
    inertia = rotor[1] * gear[1] ** 2 + load.inertia_kg_m2[1]
    speed, ohms = sum(one.volts for one in circuit.supplies) / constant, motor.volts / stall + sum(ohms_of(circuit))
    slowing, drag = torque / inertia, constant**2 / ohms / inertia
    if slowing <= 0:
        return inf, inf
    braked = speed / drag - slowing / drag**2 * log1p(speed * drag / slowing)
    return speed * seconds + braked, speed * seconds + speed**2 / (2 * slowing)


def running_on(course: Course, motor: Motor, reached: Set) -> Set:
    """The states at rest in which a motor is driven that may turn on further than there is room, or may get a few volts
    still, once its axis has gone on to press a switch and relays have come to rest. Driven the other way it stops
    sooner than braked; driven on, it has not been stopped by this switch."""
    sets, box, found = course.sets, course.box, 0
    for step, room in pressing(course, motor):
        begun = sets.both(sets.both(reached, step.states), course.may_be_driven(motor))
        seconds, rests = relays_go_on(course, course.stepped(begun, [step]))
        idle = sets.both(rests, course.seen(sets.opposite(course.drives(motor))))
        fed, left_open = (
            sets.both(idle, course.seen(sets.opposite(one))) for one in (unfed(box, motor), braked(box, motor))
        )
        if fed or turned_on(box.circuit, motor, seconds + TRAVEL)[left_open != 0] > room:
            found = sets.either(found, begun)
    return found


def pressing(course: Course, motor: Motor) -> Iterator[tuple[Step, float]]:
    """The steps by which a motor's axis comes to press a switch behind which room is told, each with the room."""
    assert motor.axis is not None
    axis = course.box.circuit.axes[motor.axis]
    for step in course.steps:
        room = room_behind(course.box.circuit, axis, step.start, step.end) if step.digit == axis.digit else None
        if room is not None:
            yield step, room


def unfed(box: Box, motor: Motor) -> Set:
    """The states in which surely no winding of a motor gets any volts."""
    found = 1
    for number in (one.load for one in motor.windings):
        nothing = (states for one, states in gets(box, number).items() if one and one.volts == 0)
        found = box.sets.both(found, box.sets.union(nothing))
    return found


def relays_go_on(course: Course, here: Set) -> tuple[float, Set]:
    """How long relays take at most from these states until they rest, in whatever order, and where; inf where they may
    go on for long. Of all that want to move, one has moved once the longest of their times is over."""
    moves = [step for step in course.steps if step.quick and not step.by_hand]
    seconds, rests = 0.0, 0
    for _ in range(2 * len(moves) + 1):
        rests = course.sets.either(rests, course.sets.both(here, course.rest))
        going = [step for step in moves if course.sets.both(here, step.states)]
        if not going:
            return seconds, rests
        seconds += max(longest(course.box.circuit, step) for step in going)
        here = course.stepped(here, going)
    return inf, rests


def longest(circuit: Circuit, step: Step) -> float:
    """The most seconds that a relay takes for a move."""
    relay = next(one for one in circuit.relays if one.digit == step.digit)
    if step.end == 1:
        return relay.operate_seconds[1] if relay.operate_seconds else LONGEST_OPERATE
    slowed = is_slowed(circuit, wired_nets(circuit), relay)
    times = relay.release_with_diode_seconds if slowed else relay.release_seconds
    return times[1] if times else LONGEST_RELEASE_WITH_DIODE if slowed else LONGEST_RELEASE


def kept_away(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at which operation begins, if there is an end to which no working of the controls surely has the axis
    driven from inside: from none of these states, or not from all where relays are parked, as it may begin in any."""
    sets, found, (first, last) = course.sets, 0, axis.range
    begun = sets.both(reached, course.begun())
    for direction, zone in ((1, last - 1), (-1, first + 1)):
        driven = sets.both(course.rest, course.seen(driven_to(course.box, axis, direction)))
        led_to = course.led_to_by_and_by(sets.both(driven, sets.where(axis.digit, (zone,))), -1)
        if not any(not sets.without(begun, one) if course.still else sets.both(begun, one) for one in led_to):
            found = begun
    return found


def hunting(course: Course, axis: Axis, reached: Set) -> Set:
    """The states reached to which drives up and down in turn lead without end, with all controls left alone."""
    turns = []
    for direction in (1, -1):
        driven = course.sets.both(reached, course.seen(driven_to(course.box, axis, direction)))
        moving = [step for step in course.alone if step.digit == axis.digit]
        turns.append([step._replace(states=course.sets.both(step.states, driven)) for step in moving])
    return recurring(course, *turns)


def recurring(course: Course, *turns: list[Step]) -> Set:
    """The states to which these steps, some of each list in turn, lead without end, with what moves by itself after
    each. There are none where no run of them comes back to where it began."""
    left, before = 1, -1
    while left != before:
        before = left
        for steps in turns:
            left = course.following(course.stepped(left, steps), course.alone)
    return left


def chattering(calm: bool, course: Course, axis: Axis, reached: Set) -> Set:
    """The states to which it leads without end that the axis goes back off a limit from a rest at which nothing holds
    it, and is driven onto it again, with hands off what springs back and all other controls left alone."""
    sets, box = course.sets, course.box
    held = [driven_to(box, axis, direction) for direction in (1, -1)]
    held += [] if axis.springs_back else [braked(box, motor) for motor in motors_of(box.circuit, axis)]
    loose = sets.both(sets.both(course.rest, course.hands_off()), course.seen(sets.opposite(sets.union(held))))
    backs = [
        Step(axis.digit, zone, beside, sets.both(loose, sets.where(axis.digit, (zone,))), False, False)
        for zone, beside in ways_off(box.circuit, axis)
    ]
    # Going back may lead to where operation does not, and from there back again.
    after = course.following(course.stepped(reached, backs), [*course.alone, *backs])
    if not calm:
        course.confirm_settling(after)
    again = [back._replace(states=sets.both(back.states, after)) for back in backs]
    return sets.either(sets.both(after, course.untold()), recurring(course, again))


def ways_off(circuit: Circuit, axis: Axis) -> set[tuple[int, int]]:
    """The zones in which some limit of an axis is pressed, each with one beside it, of its range, in which that is
    not."""
    first, last = axis.range
    found = set()
    for limit in circuit.limits:
        for zone, way in product(limit.zones if circuit.axes[limit.axis] is axis else (), (1, -1)):
            beside = (zone + way) % (last + 1) if axis.turning else zone + way
            if first <= beside <= last and beside not in limit.zones:
                found.add((zone, beside))
    return found


def racing(course: Course, relay: Relay, reached: Set) -> Set:
    """The states after one change, with no switch between positions, from which relays come to several rests that
    differ in how this one stands, in orders that their times leave."""
    sets, once, apart = course.sets, 0, 0
    moves = [step for step in in_time(course) if not step.by_hand]
    changes = [step for step in course.steps if step.by_hand or not step.quick]
    starts = sets.both(course.proper, sets.either(course.begun(), course.stepped(reached, changes)))
    rests = sets.both(reached, course.standing())
    for value in range(sets.radices[relay.digit]):
        led = course.settling_in(sets.both(rests, sets.where(relay.digit, (value,))), moves)
        apart = sets.either(apart, sets.both(once, led))
        once = sets.either(once, led)
    return sets.both(starts, apart)


def ends(box: Box, axis: Axis) -> list[tuple[int, Set]]:
    """Outward at each end of an axis, with the states in which it is at or past it."""
    zones, (first, last) = len(box.circuit.digits[axis.digit].values), axis.range
    return [
        (1, box.sets.where(axis.digit, range(last, zones))),
        (-1, box.sets.where(axis.digit, range(first + 1))),
    ]


def driven_to(box: Box, axis: Axis, direction: int | None) -> Set:
    """The states in which some motor drives the axis in a direction; None: in which that does not follow."""
    return box.sets.union(drives(box, motor).get(direction, 0) for motor in motors_of(box.circuit, axis))


def motors_of(circuit: Circuit, axis: Axis) -> list[Motor]:
    """Those that drive an axis."""
    return [one for one in circuit.motors if one.axis is not None and circuit.axes[one.axis] is axis]


# Promises


def all_promised(circuit: Circuit) -> list[str]:
    """What is claimed of the promises of a plan: that they are kept, and that somebody can bring about the case for
    which they are made."""
    said = promises(circuit)
    return [KEPT.format(one) for one in said] + [TESTED.format(words) for words, one in said.items() if has_case(one)]


def promises(circuit: Circuit) -> dict[str, Promise]:
    """A plan's promises, by their words: those that say the same are one."""
    return {promise_words(promise): promise for promise in circuit.promises}


def promise_words(promise: Promise) -> str:
    """A promise as the plan says it, with names in full."""
    said, when = condition_words(promise.condition), promise.when and condition_words(promise.when)
    if promise.keyword == "after":
        within = f"{str(promise.within.high).removesuffix('.0')} s" if promise.within else "settling"
        return f"after {when} within {within} {said}"
    return f"{promise.keyword} {said} when {when}" if when else f"{promise.keyword} {said}"


def condition_words(condition: Condition) -> str:
    """A condition as the plan says it, with brackets where and and or meet: no two read alike."""
    if isinstance(condition, Claim):
        words = (condition.subject.text, "" if condition.verb == "is" else condition.verb, condition.value.text)
        return " ".join(word for word in words if word)
    parts = []
    for one in condition.operands:
        said = condition_words(one)
        parts.append(said if isinstance(one, Claim) or one.operator == "not" else f"({said})")
    return f"not {parts[0]}" if condition.operator == "not" else f" {condition.operator} ".join(parts)


def is_of_restart(promise: Promise) -> bool:
    """Is it `never M1 starts when power returns`?"""
    return isinstance(promise.condition, Claim) and promise.condition.verb == "starts"


def has_case(promise: Promise) -> bool:
    """Is it made for a case that has to come about? Power returns anyhow."""
    return promise.when is not None and not is_of_restart(promise)


def promised(course: Course, closed: bool) -> dict[str, Callable[[Set], Set]]:
    """The promises that may be kept, each with what breaks it. closed: nothing but these digits has a say in them."""
    claims: dict[str, Callable[[Set], Set]] = {}
    for words, promise in promises(course.box.circuit).items():
        if is_of_restart(promise):
            find = partial(starting, course, *restart_of(course.box.circuit, promise))
        elif promise.keyword == "after":
            find = partial(late, course, promise, closed)
        else:
            find = partial(breaking, course, promise)
        claims[KEPT.format(words)] = find
    return claims


def put_to_test(course: Course, closed: bool) -> dict[str, Callable[[Set], Set]]:
    """The promises that may be put to the test: all that have a case, over digits in which nothing else has a say."""
    tested = {TESTED.format(words): one for words, one in promises(course.box.circuit).items() if has_case(one)}
    return {claim: partial(untested, course, promise) for claim, promise in tested.items() if closed}


def restart_of(circuit: Circuit, promise: Promise) -> tuple[Motor, set[int]]:
    """Which motor is never to start, and the digits of the supplies that return: all, where it names none."""
    motor, supply = (one.subject.text for one in (promise.condition, promise.when) if isinstance(one, Claim))
    digits = {one.name: one.digit for one in circuit.supplies}
    returning = {digits[supply]} if supply in digits else {*digits.values()}
    return next(one for one in circuit.motors if one.name == motor), returning


def breaking(course: Course, promise: Promise, reached: Set) -> Set:
    """The states, at rest but for `always`, in which what is promised may not be so. While a switch is between two
    positions nothing is promised."""
    sets, kept = course.sets, truth(course.box, promise.condition)
    asked = truth(course.box, promise.when).maybe if promise.when else 1
    wrong = sets.both(asked, kept.maybe if promise.keyword == "never" else sets.opposite(kept.surely))
    wrong = at_positions(course.box, wrong)
    lasting = course.proper if promise.keyword == "always" else course.rest
    return sets.both(sets.both(reached, lasting), course.seen(wrong))


def untested(course: Course, promise: Promise, reached: Set) -> Set:
    """All states reached, if there is none of power-up (relays that are parked are released there as well) from which
    somebody can surely bring the case of a promise about: at a rest; for `always` while relays move, too; for `after`
    at any moment."""
    sets, case = course.sets, truth(course.box, promise.when).surely if promise.when else 1
    counting = {"always": course.proper, "after": 1}.get(promise.keyword, course.rest)
    goal = sets.without(sets.both(reached, counting), course.seen(sets.opposite(case)))
    begun = sets.both(reached, course.beginning())
    return 0 if any(sets.both(begun, led) for led in course.led_to_by_and_by(goal, -1)) else reached


def late(course: Course, promise: Promise, closed: bool, reached: Set) -> Set:
    """The rests that outlast the time of an `after` promise without its answer, from wherever its case may come to
    hold, while no hand and no axis moves. closed: it is known which timers run."""
    sets = course.sets
    case, answer = (truth(course.box, one) for one in (promise.when, promise.condition) if one)
    outside = sets.both(reached, course.seen(sets.opposite(case.surely)))
    # What brings the case about may be none of these digits.
    begun = sets.union((outside, course.stepped(outside, course.steps), course.begun()))
    missing = sets.both(course.rest, course.seen(sets.opposite(answer.surely)))
    relays = {relay.digit: relay for relay in course.relays if closed}
    timed = [step for step in course.steps if step.digit in relays and not step.quick]
    timers = [(relays[step.digit].seconds_at(step.start), step) for step in timed]
    most = promise.within.high if promise.within else 0.0
    return outlasting(course, sets.both(begun, course.seen(case.maybe)), missing, timers, most)


def outlasting(course: Course, begun: Set, missing: Set, timers: list[tuple[float, Step]], most: float) -> Set:
    """The rests among those that miss something which last beyond some seconds: each as long as the shortest timer that
    runs there, and along a chain of them times add up. All, where there are too many to add up."""
    sets, quick = course.sets, [step for step in course.steps if step.quick]
    waiting = {0.0: begun}
    for _ in range(MOST_CASES):
        if not waiting:
            return 0
        passed = min(waiting)
        rests = sets.both(course.following(waiting.pop(passed), quick), missing)
        for delay in sorted({seconds for seconds, _ in timers}):
            ending = sets.both(rests, sets.union(step.states for seconds, step in timers if seconds == delay))
            over = round(passed + delay, 6)
            if ending and over > most:
                return ending
            onward = course.stepped(ending, (step for _, step in timers))
            waiting |= {over: sets.either(waiting.get(over, 0), onward)} if onward else {}
            rests = sets.without(rests, ending)
        if rests:
            return rests
    return missing


class Truth(NamedTuple):
    """The states of the whole in which something surely is so, and those in which it may be: more, where it does not
    follow."""

    surely: Set
    maybe: Set


def truth(box: Box, condition: Condition) -> Truth:
    """When a condition holds."""
    if isinstance(condition, Claim):
        return stated(box, condition) if condition.verb == "is" else placed(box, condition)
    found, *others = (truth(box, one) for one in condition.operands)
    if condition.operator == "not":
        return Truth(box.sets.opposite(found.maybe), box.sets.opposite(found.surely))
    for one in others:
        found = Truth(*map(box.sets.both if condition.operator == "and" else box.sets.either, found, one))
    return found


def placed(box: Box, claim: Claim) -> Truth:
    """When an axis is at a place or past it; or stops there: is not past it, nor driven on. Past its first place is
    before it."""
    axis = next(one for one in box.circuit.axes if one.name == claim.subject.text)
    zones, first = box.circuit.digits[axis.digit].values, claim.value.text == axis.places[0]
    zone = zones.index(claim.value.text)
    at = box.sets.where(axis.digit, (zone,))
    if claim.verb == "at":
        return Truth(at, at)
    beyond = range(zone) if first else range(zone + 1, len(zones))
    past = box.sets.where(axis.digit, () if axis.turning else beyond)
    if claim.verb == "past":
        return Truth(past, past)
    on = box.sets.either(past, box.sets.both(at, driven_to(box, axis, -1 if first else 1)))
    may = box.sets.either(on, box.sets.both(at, driven_to(box, axis, None)))
    return Truth(box.sets.opposite(may), box.sets.opposite(on))


def stated(box: Box, claim: Claim) -> Truth:
    """When a part is what is said of it."""
    name, word, circuit = claim.subject.text, claim.value.text, box.circuit
    for motor in circuit.motors:
        if motor.name == name:
            return does(box, motor, word)
    for number, load in enumerate(circuit.loads):
        if load.part == name and load.kind in ("lamp", "buzzer", "solenoid"):
            answers = told(box, ("volts", number), partial(Moment.volts, number=number))
            return answered(box, answers, partial(shines, rated=load.volts, word=word))
    for limit in circuit.limits:
        if limit.name == name:
            pressed = box.sets.where(circuit.axes[limit.axis].digit, limit.zones)
            found = pressed if word == "pressed" else box.sets.opposite(pressed)
            return Truth(found, found)
    number, digit = next((number, digit) for number, digit in enumerate(circuit.digits) if digit.name == name)
    found = box.sets.where(number, (digit.values.index(word),))
    return Truth(found, found)


def does(box: Box, motor: Motor, word: str) -> Truth:
    """When a motor does what is said of it."""
    if word == "shorted":
        return Truth(0, 0)
    ahead = 1 if motor.upward else -1
    ways = {"forward": (ahead,), "reverse": (-ahead,), "driven": (1, -1)}.get(word, (0,))
    found = answered(box, drives(box, motor), lambda way: way in ways)
    if word in ("braked", "weak", "coasting"):
        key, ask = ("brakes", Moment.is_braked) if word == "braked" else ("idles", Moment.idles)
        held = told(box, (key, motor.windings), partial(ask, motor=motor))
        found = Truth(*map(box.sets.both, found, answered(box, held, lambda answer: answer in (True, word))))
    return found


def shines(volts: float, rated: float, word: str) -> bool:
    """Is a lamp, buzzer or solenoid with so many volts what is said of it?"""
    lit, glows = (abs(volts) >= share * rated - ALMOST for share in (LIT, GLOWS))
    return {"lit": lit, "on": lit, "off": not lit, "dark": not glows}.get(word, glows and not lit)


def answered(box: Box, answers: dict[Any, Set], fits: Callable[[Any], bool]) -> Truth:
    """When the answer to a question is one that fits."""
    surely = box.sets.union(states for answer, states in answers.items() if answer is not None and fits(answer))
    return Truth(surely, box.sets.either(surely, answers.get(None, 0)))


# With one thing broken


def come_to(course: Course, begun: Set, wrong: Set) -> Set:
    """The states at rest, of these that are wrong, that what is followed comes to from where it begins."""
    if not wrong:
        return 0
    reached = course.following(begun, course.steps)
    course.confirm_known(reached, not course.is_closed() and is_calm(course.box))
    return course.sets.both(course.sets.both(reached, course.rest), wrong)


def disobeying_stuck(course: Course, motor: Motor, stop: int, reached: Set) -> Set:
    """The states at rest in which a motor may be driven while an emergency stop is pressed, with any one relay stuck
    where operation brings it. One that is not followed may stand anyhow in any case."""
    sets, found, wrong = course.sets, disobeying(course, motor, stop, reached), driven_against(course, motor, stop)
    for relay in course.relays if wrong else ():
        stuck, placed = Course(course.box, course.digits, {}, relay.digit), sets.where(relay.digit, (0, 1))
        found = sets.either(found, come_to(stuck, sets.both(placed, reached), sets.both(placed, wrong)))
    return found


def disobeying_broken(course: Course, motor: Motor, stop: int, reached: Set) -> Set:
    """The states at rest in which a motor may be driven while an emergency stop is pressed, with a wire that breaks in
    operation, to a contact that it closes."""
    found = 0
    for number in closed_by(course.box.circuit, stop):
        other = Course(with_broken(course.box, number), course.digits, {})
        found = course.sets.either(found, come_to(other, reached, driven_against(other, motor, stop)))
    return found


def driven_on_broken(course: Course, axis: Axis, reached: Set) -> Set:
    """The states at rest in which an axis may be driven on outward, at or past an end, with a wire that breaks in
    operation, to a contact of a limit switch there."""
    sets, contacts, found = course.sets, contacts_by_part(course.box.circuit), 0
    for direction, past in ends(course.box, axis):
        at_rest = sets.both(course.rest, driven_past(course, axis, direction))
        limits = (one for one in limits_of(course.box.circuit, axis) if axis.range[direction > 0] in one.zones)
        for number, closed in (pair for limit in limits for pair in contacts.get(limit.name, {}).items()):
            # One that is open there anyway changes no rest there, if all relays come to rest from wherever they are.
            if at_rest or sets.both(past, sets.where(*closed)) or not is_calm(course.box):
                other = Course(with_broken(course.box, number), course.digits, {})
                found = sets.either(found, come_to(other, reached, driven_past(other, axis, direction)))
    return found


def has_a_say(box: Box, limit: Limit) -> bool:
    """Would the drive of its axis, or what a relay wants that has a say in that, differ in some combination, were a
    limit switch to stand the other way?"""
    circuit, digit = box.circuit, box.circuit.axes[limit.axis].digit
    every = frozenset(range(len(circuit.digits[digit].values)))
    contacts = {number: one.closed for number, one in enumerate(circuit.conductors) if one.part == limit.name}
    turned = {number: Closed(digit, every - closed.values) for number, closed in contacts.items() if closed}
    other = closing_otherwise(box, turned)
    relays = {relay.digit: relay for relay in circuit.relays}
    asked: list[Callable[[Box], dict[Any, Set]]] = []
    for motor in circuit.motors:
        if motor.axis == limit.axis:
            asked += [partial(volts, number=winding.load) for winding in motor.windings]
            asked.append(partial(brakes, motor=motor))
    for ask in asked:
        if None not in ask(box):
            concerned = sorted(all_digits(box.sets, ask(box).values()) & relays.keys())
            asked += [partial(wanted, relay=relays.pop(one)) for one in concerned]
    asked.sort(key=lambda ask: digit not in all_digits(box.sets, ask(box).values()))
    return any(differ(box.sets, ask(box), ask(other)) for ask in asked)


def differ(sets: Sets, one: dict[Any, Set], other: dict[Any, Set]) -> bool:
    """Is in some state the one answer surely not the other?"""
    pairs = product(one.items(), other.items())
    return any(are_apart(mine, its) and sets.both(states, others) for (mine, states), (its, others) in pairs)


def are_apart(one: Any, other: Any) -> bool:
    """Are these two answers, both known, not the same?"""
    if one is None or other is None:
        return False
    return abs(one - other) > ALMOST if isinstance(one, float) else bool(one != other)


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
    """The least and the greatest time of each relay's move, by its digit and where that ends."""
    net, found = wired_nets(circuit), {}
    for relay in circuit.relays:
        slowed = is_slowed(circuit, net, relay)
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


# With one fault


def leading(sets: Sets, goal: Set, moves: list[Step]) -> Set:
    """The states from which some of these moves lead to one of the goal."""
    led, grown = -1, goal
    while led != grown:
        led = grown
        for move in moves:
            grown = sets.either(grown, sets.both(move.states, sets.given(led, move.digit, move.end)))
    return led


def requirements(circuit: Circuit) -> dict[str, Require]:
    """What the plan requires of the box with one fault in it."""
    return {
        NEVER_PAST.format(one.subject.text, one.past.text) if one.past else OUTLASTS.format(one.subject.text): one
        for one in circuit.requirements
    }


def proved_of_faults(circuit: Circuit) -> list[str]:
    """The requirements that no single fault breaks, in whatever state it comes."""
    faulty = with_faults(circuit) if circuit.requirements else circuit
    return [claim for claim, one in requirements(circuit).items() if outlasts(faulty, one)]


def outlasts(faulty: Circuit, requirement: Require) -> bool:
    """Is what is required so with each fault that is thought of in the circuit?"""
    try:
        return not any(states for _, states in driven_with_a_fault(faulty, requirement))
    except (TooLarge, RecursionError):
        return False


def driven_with_a_fault(faulty: Circuit, requirement: Require) -> Iterator[tuple[Box, Set]]:
    """The states in which a motor may be driven for good that must not be: any while the emergency stop is pressed;
    outward one of the axis that is at or past that end. With each fault all else may stand anyhow, whatever brought
    that about: so it may come at any moment."""
    name, end = requirement.subject.text, requirement.past and requirement.past.text
    digit = next(number for number, one in enumerate(faulty.digits) if one.name == name)
    driving, places = [(motor, way) for motor in faulty.motors for way in (1, -1)], [1]
    for number, axis in enumerate(faulty.axes):
        if axis.name == name:
            outward, (first, last) = 1 if end == axis.places[-1] else -1, axis.range
            driving = [(motor, outward) for motor in faulty.motors if motor.axis == number]
            places = [*range(last, len(faulty.digits[digit].values))] if outward == 1 else [*range(first + 1)]
    for box in (box_of(standing_at(faulty, digit, value)) for value in places):
        for motor, way in driving:
            yield box, for_good(box, perhaps_driven(box, motor, way))


def standing_at(circuit: Circuit, digit: int, value: int) -> Circuit:
    """The circuit with the contacts of a digit as they are at one of its values."""
    others = [one for one in circuit.conductors if one.closed is None or one.closed.digit != digit]
    closed = [one for one in circuit.conductors if one.closed and one.closed.digit == digit]
    here = (one._replace(closed=None) for one in closed if one.closed and value in one.closed.values)
    return circuit._replace(conductors=(*others, *here))


def perhaps_driven(box: Box, motor: Motor, direction: int) -> Set:
    """The states in which a motor may be driven that way, no switch being between positions."""
    ways = drives(box, motor)
    return at_positions(box, box.sets.either(ways.get(direction, 0), ways.get(None, 0)))


def for_good(box: Box, states: Set) -> Set:
    """Those of the states in which relays may stay, or to which they may come back again and again. Few relays have to
    be followed to see of most states that they don't: first those that have to stand just so while all is sound."""
    sets, followed = box.sets, list[Relay]()
    while states:
        states = coming_back(box, states, followed)
        wants = (wants for relay in followed for wants in wanted(box, relay).values())
        asked = sets.digits(states).union(*map(sets.digits, wants))
        others = [relay for relay in box.circuit.relays if relay.digit in asked and relay not in followed]
        if not others:
            break
        sound = sets.given(states, len(sets.radices) - 1, 0)
        followed.append(min(others, key=partial(places_of, sets, sound)))
    return states


def places_of(sets: Sets, states: Set, relay: Relay) -> int:
    """At how many of its values a relay stands in some of the states."""
    return sum(sets.given(states, relay.digit, value) != 0 for value in range(sets.radices[relay.digit]))


def coming_back(box: Box, states: Set, followed: list[Relay]) -> Set:
    """Those of the states to which moves of these relays may lead back from wherever they lead, as all other relays
    stand anyhow at any moment."""
    sets = box.sets
    kept = frozenset(range(len(sets.radices))) - {one.digit for one in box.circuit.relays if one not in followed}
    surely, perhaps = list[Step](), list[Step]()
    for relay, stuck in zip(box.circuit.relays, box.faults, strict=False):
        for wish, found in wishes(box, relay) if relay in followed else ():
            moving = sets.both(found, box.where(stuck, 0))
            whatever_others_do = sets.opposite(sets.within(sets.opposite(moving), kept))
            surely.append(Step(relay.digit, wish.start, wish.end, whatever_others_do, False, True))
            perhaps.append(Step(relay.digit, wish.start, wish.end, sets.within(moving, kept), False, True))
        for start, end in product(range(sets.radices[relay.digit]), repeat=2) if relay in followed else ():
            unclear = sets.within(sets.both(wanted(box, relay).get(None, 0), box.where(relay.digit, start)), kept)
            perhaps.append(Step(relay.digit, start, end, unclear, False, True))
    never_back = sets.opposite(leading(sets, sets.within(states, kept), perhaps))
    return sets.without(states, leading(sets, never_back, surely))


Fault = dict[int, Closed | None]
"""When some conductors, by their numbers, are closed once it is there; None for always."""


def with_faults(circuit: Circuit) -> Circuit:
    """The circuit with a digit for each thing that may fail: 0 while it is sound, else one of its faults (ISO 13849-2
    annex D, from memory, and common practice). Relays come first: one that is stuck does not move. A switch that is
    stuck needs no digit, as it may stand anyhow."""
    leads = [(load.a, f"{INSIDE}.{number}") for number, load in enumerate(circuit.loads)]
    conductors = [*circuit.conductors, *joints(circuit, leads, None), *joints(circuit, touching(circuit), NEVER)]
    things: list[list[Fault]] = [[{}] for _ in circuit.relays]
    for number, one in enumerate(conductors):
        if one.closed in (None, NEVER) and one.kind != "bond":
            things.append([{number: None if one.closed else NEVER}])
    for place, (plus, minus) in enumerate((supply.plus, supply.minus) for supply in circuit.supplies):
        above, below, right = f"{INSIDE}.+{place}", f"{INSIDE}.-{place}", len(conductors)
        conductors += joints(circuit, [(above, plus), (below, minus)], None)
        conductors += joints(circuit, [(plus, minus), (above, minus), (below, plus)], NEVER)
        off: Fault = {right: NEVER, right + 1: NEVER}
        # Lost, it still lets current through, as one of no volts; else it is connected the wrong way round.
        things.append([{**off, right + 2: None}, {**off, right + 3: None, right + 4: None}])
    return failing(behind_leads(circuit), conductors, [*things, *contact_faults(circuit)])


def joints(circuit: Circuit, pairs: Iterable[tuple[str, str]], closed: Closed | None) -> list[Conductor]:
    """What joins terminals, wherever they are."""
    place = next(iter(circuit.parts.values())).place
    return [Conductor(*pair, "", "", place, closed) for pair in pairs]


def behind_leads(circuit: Circuit) -> Circuit:
    """The circuit with its loads and supplies between terminals of their own, inside."""
    loads = [one._replace(a=f"{INSIDE}.{number}") for number, one in enumerate(circuit.loads)]
    motors = [
        motor._replace(windings=tuple(one._replace(plus=loads[one.load].a) for one in motor.windings))
        for motor in circuit.motors
    ]
    supplies = [
        one._replace(plus=f"{INSIDE}.+{number}", minus=f"{INSIDE}.-{number}")
        for number, one in enumerate(circuit.supplies)
    ]
    return circuit._replace(loads=tuple(loads), motors=tuple(motors), supplies=tuple(supplies))


def failing(circuit: Circuit, conductors: list[Conductor], things: list[list[Fault]]) -> Circuit:
    """The circuit with these conductors, each of which may be closed at other times as things fail."""
    thing_of = {number: place for place, faults in enumerate(things) for fault in faults for number in fault}
    found: list[Conductor] = []
    for number, one in enumerate(conductors):
        place = thing_of.get(number, 0)
        hows = [one.closed, *(fault.get(number, one.closed) for fault in things[place])]
        found += closed_in_turn(one, f"{INSIDE}.{number}", len(circuit.digits) + place, hows)
    digits = [Digit(f"{FAULT} {place}", FAULT, ("none", *map(str, faults))) for place, faults in enumerate(things)]
    ends = [end for one in found for end in (one.tail, one.head) if end.startswith(INSIDE)]
    marks = tuple(dict.fromkeys(end.removeprefix(f"{INSIDE}.") for end in ends))
    inside = next(iter(circuit.parts.values()))._replace(name=INSIDE, marks=marks)
    return circuit._replace(
        parts={**circuit.parts, INSIDE: inside}, digits=(*circuit.digits, *digits), conductors=tuple(found)
    )


def closed_in_turn(one: Conductor, between: str, digit: int, hows: list[Closed | None]) -> list[Conductor]:
    """A conductor that is closed in another way with each value of a digit, as ways side by side."""
    found: list[Conductor] = []
    for how in dict.fromkeys(hows):
        here = Closed(digit, frozenset(value for value, other in enumerate(hows) if other == how))
        middle = f"{between} {len(found)}"
        if hows.count(how) == len(hows):
            found.append(one)
        elif how is None:
            found.append(one._replace(closed=here))
        elif how != NEVER:
            found += [one._replace(head=middle, closed=how), one._replace(tail=middle, closed=here)]
    return found


def touching(circuit: Circuit) -> list[tuple[str, str]]:
    """What may touch that should not: the ends of a load or suppressor (as each diode is one), neighbours on a strip or
    in a connector, a brush and its case, a wire and the frame."""
    net = joined_by(circuit, (one for one in circuit.conductors if one.closed is None and not one.one_way))
    cases = {part.name: [end for end in part.terminals if end.endswith(".case")] for part in circuit.parts.values()}
    frame = [end for part in circuit.parts.values() if part.kind == "motor" for end in cases[part.name]][:1]
    pairs = [(load.a, load.b) for load in circuit.loads] + [(one.a, one.b) for one in circuit.suppressors]
    for part in circuit.parts.values():
        if part.kind in ("strip", "connector"):
            pairs += pairwise(part.terminals[:: 2 if part.kind == "connector" else 1])
        if part.kind == "motor":
            pairs += product(part.terminals, cases[part.name] or frame)
    pairs += product((one.tail for one in circuit.conductors if one.kind == "wire"), frame)
    found = {frozenset((net[one], net[other])): (one, other) for one, other in pairs}
    return [pair for nets, pair in found.items() if len(nets) == 2]


def contact_faults(circuit: Circuit) -> Iterator[list[Fault]]:
    """Of each part that has contacts: one does not close, or does not open, as those of an emergency stop always do;
    both throws of a relay are closed, which guided ones never are; a limit switch sticks, has moved or is torn off."""
    for name, own in contacts_by_part(circuit).items():
        part, guided = circuit.parts[name], GUIDED in circuit.parts[name].features
        faults: list[Fault] = [{number: NEVER} for number in own]
        for number in own if part.kind != "estop" else ():
            throws = [one for one in own if circuit.conductors[one].tail == circuit.conductors[number].tail]
            gone = [*throws, *(one for one in own if guided and not own[one].values & own[number].values)]
            faults.append({**dict.fromkeys(gone, NEVER), number: None})
            if part.kind == "relay" and not guided and number != throws[0]:
                faults.append(dict.fromkeys(throws, None))
        limits = (limit for limit in circuit.limits if limit.name == name)
        yield faults + [fault for limit in limits for fault in limit_faults(circuit, limit, own)]


def limit_faults(circuit: Circuit, limit: Limit, own: dict[int, Closed]) -> Iterator[Fault]:
    """It is torn off, stuck pressed or free, or moved by a zone, but pressed past an end at which it was."""
    axis = circuit.axes[limit.axis]
    zones = range(len(circuit.digits[axis.digit].values))
    yield dict.fromkeys(own, NEVER)
    spots = [set(zones), set[int]()]
    for step in (1, -1):
        moved = {zone + step for zone in limit.zones}
        beyond = limit.zones & {zones[0], zones[-1]}
        spots.append({zone % len(zones) for zone in moved} if axis.turning else moved & {*zones} | beyond)
    for spot in spots:
        there = {True: Closed(axis.digit, frozenset(spot)), False: Closed(axis.digit, frozenset(zones) - spot)}
        yield {number: there[closed.values == limit.zones] for number, closed in own.items()}


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
