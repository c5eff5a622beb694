"""What a page has to know of each state: which moves there are, what motors and lamps do, where current flows.

Everything is a set of the engine's, by its number in a Packing; None where it is too wide. The page knows no circuit:
it asks whether the state that it shows is in a set. What moves what, and when, is as in analysis/behaviour.py.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.devices import WEAK_SHARE, MotorStates, RelayMove
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.lit import Flow, Lit
from circuitcheck.analysis.motion.contact_times import ContactTimes, contact_times
from circuitcheck.analysis.states import States, TooWide, union
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.analysis.travel import driven
from circuitcheck.circuit.model import Axis, Relay
from circuitcheck.page.packed import Packing


class Word(NamedTuple):
    """The word for what a motor or a lamp does in these states."""

    word: str
    states: int | None


class RelayWish(NamedTuple):
    """A relay wants to go from `start` to `end` in the states `wanted`.

    timed: after its delay, in seconds, when all else has come to rest; else within least to greatest seconds, told by
    the plan or else usual ones.
    """

    start: int
    end: int
    wanted: int | None
    timed: bool
    least: float
    greatest: float
    told: bool


class RelayLookup(NamedTuple):
    """A relay's moves."""

    name: str
    digit: int
    wishes: tuple[RelayWish, ...]


class Cone(NamedTuple):
    """Digits that are judged together. endless: the states in which they are at rest though relays among them want to
    move, because those go round for ever."""

    digits: tuple[int, ...]
    endless: int | None


class Device(NamedTuple):
    """A motor, or the load of a lamp, buzzer or solenoid. kind: "motor", or the load's. Every state is in one of its
    words' sets."""

    name: str
    kind: str
    words: tuple[Word, ...]


class AxisWay(NamedTuple):
    """An axis goes from zone `start` to `end` in the states `driven`. direction: 1 toward its last place, else -1."""

    start: int
    end: int
    direction: int
    driven: int | None


class AxisLookup(NamedTuple):
    """An axis, with the names of the motors that drive it."""

    name: str
    digit: int
    motors: tuple[str, ...]
    ways: tuple[AxisWay, ...]


class ConductorLookup(NamedTuple):
    """digit, values: at which its contact is closed; None for what always is. See lit.py for what flows in any of some
    sets."""

    digit: int | None
    values: tuple[int, ...]
    fed: tuple[int | None, ...]
    braking: tuple[int | None, ...]
    shorting: tuple[int | None, ...]


class LoadLookup(NamedTuple):
    """The states in which a load is fed, if only weakly: forward with its `a` positive, or backward; and those in which
    it is a winding of a motor that is braked."""

    forward: int | None
    backward: int | None
    braking: int | None


class ShortLookup(NamedTuple):
    """A short of these supplies."""

    supplies: tuple[str, ...]
    states: int | None


class Lookups(NamedTuple):
    """All of it, each in the circuit's order."""

    relays: tuple[RelayLookup, ...]
    cones: tuple[Cone, ...]
    devices: tuple[Device, ...]
    axes: tuple[AxisLookup, ...]
    conductors: tuple[ConductorLookup, ...]
    loads: tuple[LoadLookup, ...]
    shorts: tuple[ShortLookup, ...]


def lookups_of(facts: Facts, packing: Packing) -> Lookups:
    """Every set that a page of this circuit looks into."""
    times = contact_times(facts.circuit)
    return Lookups(
        tuple(_relay(facts, packing, number, times[number]) for number in range(len(facts.circuit.relays))),
        tuple(_cones(facts, packing)),
        (*_motors(facts, packing), *_lamps(facts, packing)),
        tuple(_axis(facts, packing, number) for number in range(len(facts.circuit.axes))),
        tuple(_conductors(facts, packing)),
        tuple(_loads(facts, packing)),
        tuple(_shorts(facts, packing)),
    )


def _relay(facts: Facts, packing: Packing, number: int, times: ContactTimes) -> RelayLookup:
    relay = facts.circuit.relays[number]
    wishes = []
    for move in facts.moves[number]:
        if move.wanted:
            wanted, span = packing.number(move.wanted), _span(relay, times, move)
            wishes.append(RelayWish(move.start, move.end, wanted, move.timed, *span))
    return RelayLookup(relay.name, relay.digit, tuple(wishes))


def _span(relay: Relay, times: ContactTimes, move: RelayMove) -> tuple[float, float, bool]:
    if move.timed:
        delay = relay.seconds_at(move.start)
        return delay, delay, True
    return (*times.operate, times.operate_told) if move.end == 1 else (*times.release, times.release_told)


def _cones(facts: Facts, packing: Packing) -> Iterator[Cone]:
    """Each group of digits once that hang together and have a relay among them."""
    relays = {relay.digit: number for number, relay in enumerate(facts.circuit.relays)}
    behaviours = {one.space.digits: one for one in (facts.behaviour((digit,)) for digit in relays)}
    for digits, behaviour in behaviours.items():
        moving = 0
        for number in (relays[digit] for digit in digits if digit in relays):
            for move in facts.moves[number]:
                if not move.timed:
                    moving |= move.wanted.over(behaviour.space)
        endless = facts.spaces.over(behaviour.space, behaviour.rest & moving) - facts.shorted
        yield Cone(digits, packing.number(endless))


def _motors(facts: Facts, packing: Packing) -> Iterator[Device]:
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        yield Device(motor.name, "motor", _motor_words(does, packing))


def _motor_words(does: MotorStates, packing: Packing) -> tuple[Word, ...]:
    """Behind a wide bus, two of them can't be told apart in all states at once."""
    try:
        return _words(does.named(), packing)
    except TooWide:
        words = {"forward": does.forward, "reverse": does.reverse, "braked": does.braked, "weak": does.weak}
        return _words(words | {"braked one way, or coasting": does.loose}, packing)


def _lamps(facts: Facts, packing: Packing) -> Iterator[Device]:
    for number, does in facts.lamps.items():
        load = facts.circuit.loads[number]
        lit, glowing, dark = ("lit", "glowing", "dark") if load.kind == "lamp" else ("on", "weak", "off")
        words = {lit: does.lit, glowing: does.glowing, dark: does.dark}
        yield Device(load.name, load.kind, _words(words, packing))


def _words(sets: dict[str, States], packing: Packing) -> tuple[Word, ...]:
    return tuple(Word(word, packing.number(states)) for word, states in sets.items() if states)


def _axis(facts: Facts, packing: Packing, number: int) -> AxisLookup:
    axis = facts.circuit.axes[number]
    motors = tuple(motor.name for motor in facts.circuit.motors if motor.axis == number)
    ways = []
    for direction in (1, -1):
        states = packing.number(driven(facts, number, direction))
        ways += [AxisWay(start, end, direction, states) for start, end in _zones(facts, axis, direction)]
    return AxisLookup(axis.name, axis.digit, motors, tuple(ways))


def _zones(facts: Facts, axis: Axis, direction: int) -> Iterator[tuple[int, int]]:
    """From each zone to the next; a turning axis goes on at its first zone after the last."""
    zones = len(facts.circuit.digits[axis.digit].values)
    for start in range(zones):
        end = (start + direction) % zones if axis.turning else start + direction
        if 0 <= end < zones and end != start:
            yield start, end


def _conductors(facts: Facts, packing: Packing) -> Iterator[ConductorLookup]:
    lit = _lit(facts)
    for number, conductor in enumerate(facts.circuit.conductors):
        digit = conductor.closed.digit if conductor.closed else None
        values = tuple(sorted(conductor.closed.values)) if conductor.closed else ()
        yield ConductorLookup(digit, values, *_flow(lit, number, packing))


def _lit(facts: Facts) -> Lit | None:
    """None where one rail feeds too much at once."""
    try:
        return Lit(facts)
    except (TooManyCases, TooWide):
        return None


def _flow(lit: Lit | None, number: int, packing: Packing) -> Iterator[tuple[int | None, ...]]:
    try:
        flow = lit[number] if lit is not None else None
    except (TooManyCases, TooWide):
        flow = None
    for kind in range(len(Flow._fields)):
        yield tuple(map(packing.number, flow[kind].sets)) if flow else (None,)


def _loads(facts: Facts, packing: Packing) -> Iterator[LoadLookup]:
    none, circuit = facts.spaces.none(), facts.circuit
    windings = {
        winding.load: does.braked
        for motor, does in zip(circuit.motors, facts.motors, strict=True)
        for winding in motor.windings
    }
    for number, load in enumerate(circuit.loads):
        enough = [one for one in facts.volts[number] if one.volts >= WEAK_SHARE * load.volts]
        forward, backward = union((one.forward for one in enough), none), union((one.backward for one in enough), none)
        states = (one - facts.shorted for one in (forward, backward, windings.get(number, none)))
        yield LoadLookup(*map(packing.number, states))


def _shorts(facts: Facts, packing: Packing) -> Iterator[ShortLookup]:
    for short in facts.shorts:
        names = tuple(facts.circuit.supplies[number].name for number in short.supplies)
        yield ShortLookup(names, packing.number(short.states))
