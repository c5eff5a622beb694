"""Loads that something drives by themselves, and that other loads in series feed besides, with volts enough to matter.

A load's own drive is what conductors, and resistors among them, lead to it from two rails. A load that is only ever fed
through another one has none: a lamp before a coil, two lamps in a row are meant so, or are wrong in another way.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.currents import CurrentCase, Currents
from circuitcheck.analysis.devices import DRIVEN_SHARE, GLOW_SHARE, LIT_SHARE, WEAK_SHARE, at_least
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import across
from circuitcheck.analysis.network import build_network
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.shortest_ways import Step, shortest_ways
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Circuit, Terminal

LEVELS = {
    "motor": (("is driven", DRIVEN_SHARE), ("turns weakly", WEAK_SHARE)),
    "lamp": (("is lit", LIT_SHARE), ("glows", GLOW_SHARE)),
    "buzzer": (("sounds", LIT_SHARE), ("sounds faintly", GLOW_SHARE)),
    "solenoid": (("pulls", LIT_SHARE), ("pulls weakly", GLOW_SHARE)),
}
"""What a load does from which share of its rated volts on, most first."""


class Hop(NamedTuple):
    """Current passes a load from its `a` to its `b`, or `backward`."""

    load: int
    backward: bool


class Victim(NamedTuple):
    """What a load does though it is fed through others: `effect` in words, at up to `volts`. against: current runs
    through it the other way than its own drive ever sends it."""

    load: int
    effect: str
    volts: float
    against: bool


class Sneak(NamedTuple):
    """In `states`, which operation reaches, current runs from `plus` to `minus` through all these loads, one after the
    other; that does something to `victims`. beside: loads on other rows that are as short."""

    plus: Terminal
    hops: tuple[Hop, ...]
    minus: Terminal
    victims: tuple[Victim, ...]
    states: States
    beside: tuple[int, ...]


Route = tuple[Terminal, tuple[Hop, ...], Terminal]


class Rows(NamedTuple):
    """route: one of the shortest rows of loads. every: the loads on any of them."""

    route: Route
    every: frozenset[int]


def sneaks_in_series(facts: Facts) -> tuple[Sneak, ...]:
    """Rows of the same loads once, whichever supply their current comes from."""
    found: dict[frozenset[int], dict[Route, list[tuple[Victim, States]]]] = {}
    flowing = Currents(facts, Setting())
    drive = _Drive(facts)
    for load in range(len(facts.circuit.loads)):
        if not facts.feeding[load].open:
            continue
        ahead, back = drive.of(load)
        if not facts.possible(ahead | back):
            continue
        for effect, states in _effects(facts, load):
            for case in flowing.of_load(load, states - ahead - back):
                against = not facts.possible(ahead if case.volts[load] > 0 else back)
                victim = Victim(load, effect, abs(case.volts[load]), against)
                rows = rows_through(facts.circuit, case, load)
                found.setdefault(rows.every, {}).setdefault(rows.route, []).append((victim, case.states))
    return tuple(_sneak(facts, every, routes) for every, routes in found.items())


def _sneak(facts: Facts, every: frozenset[int], routes: dict[Route, list[tuple[Victim, States]]]) -> Sneak:
    """Shown by one of the routes; the same effect on the same load told once, at the most volts."""
    most: dict[tuple[int, str], Victim] = {}
    for victim in (victim for told in routes.values() for victim, _ in told):
        key = (victim.load, victim.effect)
        most[key] = max(most.get(key, victim), victim, key=lambda one: one.volts)
    (plus, hops, minus), told = next(iter(routes.items()))
    states = union((states for _, states in told), facts.spaces.none()).tight()
    beside = tuple(sorted(every - {hop.load for hop in hops}))
    return Sneak(plus, hops, minus, tuple(most.values()), states, beside)


class _Drive:
    """Which loads are fed by conductors and resistors alone."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        circuit = facts.circuit
        bridges = [(load.a, load.b) for load in circuit.loads if load.kind == "resistor"]
        network = build_network(circuit, facts.spaces, bridges)
        self._conduction = Conduction(network, facts.spaces) if bridges else facts.conduction

    def of(self, number: int) -> tuple[States, States]:
        """The states in which a load is so fed: with its a positive, and with its b positive."""
        load, none = self._facts.circuit.loads[number], self._facts.spaces.none()
        return (
            union((across(self._conduction, one, load.a, load.b) for one in self._facts.differences), none),
            union((across(self._conduction, one, load.b, load.a) for one in self._facts.differences), none),
        )


def _effects(facts: Facts, number: int) -> Iterator[tuple[str, States]]:
    """What other loads make a load do, and in which states of operation: for lamps and motors those that last."""
    load, fed, open_states = facts.circuit.loads[number], facts.volts[number], facts.feeding[number].open
    for relay in facts.circuit.relays:
        for coil in relay.inputs:
            if coil.load == number:
                operates = union(at_least(fed, coil.operate_volts, facts.spaces), facts.spaces.none()) & open_states
                holds = union(at_least(fed, coil.release_volts, facts.spaces), facts.spaces.none()) & open_states
                held = (holds - operates) & facts.spaces.where(relay.digit, (1,))
                yield "operates", facts.reached(operates)
                yield "is held", facts.reached_at_rest(held)
    settled = facts.spaces.none()
    for effect, share in LEVELS.get(load.kind, ()):
        enough = union(at_least(fed, share * load.volts, facts.spaces), facts.spaces.none()) & open_states
        yield effect, facts.reached_at_rest(facts.possible(enough - settled))
        settled = settled | enough


def rows_through(circuit: Circuit, case: CurrentCase, load: int) -> Rows:
    """The ways that the case's current takes from a supply's + through a load to a supply's −, past as few others."""
    flow = tuple(_flow(circuit, case))
    own = next(step for step in flow if step.through is not None and step.through.load == load)
    others = tuple(step for step in flow if step is not own)
    # Current that one supply sends into another goes in at the other's + and comes out at its −.
    given = [(circuit.supplies[number], amps >= 0) for number, amps in case.delivered.items()]
    sources = [supply.plus if gives else supply.minus for supply, gives in given]
    before = shortest_ways(others, sources, (own.start,))
    after = shortest_ways(others, (own.end,), [supply.minus if gives else supply.plus for supply, gives in given])
    if before is None or after is None:
        raise LookupError("current that comes from no supply")
    way = (*before.way, own, *after.way)
    hops = tuple(step.through for step in way if step.through is not None)
    every = {hop.load for hop in (*before.every, *hops, *after.every)}
    return Rows((way[0].start, hops, way[-1].end), frozenset(every))


def _flow(circuit: Circuit, case: CurrentCase) -> Iterator[Step[Hop]]:
    """The steps that the case's current takes."""
    for number, amps in case.amps.items():
        conductor = circuit.conductors[number]
        yield Step(*((conductor.tail, conductor.head) if amps > 0 else (conductor.head, conductor.tail)), None)
    for number, volts in case.volts.items():
        load = circuit.loads[number]
        yield Step(*((load.a, load.b) if volts > 0 else (load.b, load.a)), Hop(number, volts <= 0))
