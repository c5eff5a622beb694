"""Rows of loads through which current runs one after the other, and ways past all loads."""

from collections.abc import Iterator

from circuitcheck.analysis.currents import Currents
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.series import Route, rows_through, sneaks_in_series
from circuitcheck.circuit.model import Terminal
from circuitcheck.circuit.wording import listed
from circuitcheck.ladder.drawn import Drawn, Series, in_series
from circuitcheck.ladder.feeds import core
from circuitcheck.ladder.networks import Networks
from circuitcheck.ladder.pruning import together
from circuitcheck.ladder.rungs import Rung, Way

NEGLIGIBLE_VOLTS = 1e-6


def routes_of(networks: Networks, number: int) -> tuple[Route, ...]:
    """The rows of loads through which current comes to a load where conductors alone do not feed it."""
    facts = networks.facts
    states = facts.feeding[number].open
    cases = Currents(facts, Setting()).of_load(number, states) if states else ()
    live = (case for case in cases if abs(case.volts.get(number, 0.0)) > NEGLIGIBLE_VOLTS)
    return tuple(dict.fromkeys(rows_through(facts.circuit, case, number).route for case in live))


def row_way(networks: Networks, route: Route, number: int, kind: str) -> Way:
    """A row of loads between two rails, with the conductors from each to the next. number: that which it is about."""
    loads, nets = networks.facts.circuit.loads, networks.facts.conduction.network.nets
    plus, hops, minus = route
    turns = [(loads[hop.load].a, loads[hop.load].b)[:: -1 if hop.backward else 1] for hop in hops]
    ends = [end for turn in turns for end in turn]
    parts: list[Drawn] = []
    at: Terminal = plus
    for hop, (enters, exits) in zip(hops, turns, strict=True):
        parts += [_stretch(networks, at, enters, ends), core(networks, hop.load, enters, exits)]
        at = exits
    parts.append(_stretch(networks, at, minus, ends))
    forward = any(not hop.backward for hop in hops if hop.load == number)
    left, right = (networks.rail_name(nets[end]) for end in (plus, minus))
    return Way(kind, left, in_series(*parts), right, forward)


def _stretch(networks: Networks, start: Terminal, end: Terminal, ends: list[Terminal]) -> Series:
    """Conductors from one load to the next, not over other loads' ends, and over no rail where that is possible.

    Over the rail of a supply that is off current may well go, if there is no other way.
    """
    without = {networks.net(one) for one in ends} - {networks.net(start), networks.net(end)}
    own = [rail for rail in (networks.rail_of(start), networks.rail_of(end)) if rail is not None]
    rails = networks.facts.conduction.network.rails - {*own}
    for avoided in (rails, *networks.avoided(*own), frozenset[int]()):
        found = networks.inside(start, end, avoided, without)
        if found is not None:
            return networks.drawn(found)
    return Series(())


def row_sneaks(networks: Networks) -> Iterator[tuple[Route, Rung]]:
    """A rung for each row of loads that works one with a drive of its own."""
    facts = networks.facts
    for sneak in sneaks_in_series(facts) if any(feeding.open for feeding in facts.feeding) else ():
        route = sneak.plus, sneak.hops, sneak.minus
        victim = sneak.victims[0].load
        told = [f"{facts.circuit.loads[one.load].name} {one.effect} ({one.volts:.2g} V)" for one in sneak.victims]
        passed = listed((facts.circuit.loads[hop.load].name for hop in sneak.hops), "and")
        words = f"{listed(told, 'and')}, by current through {passed} in a row"
        yield route, Rung("sneak", victim, (row_way(networks, route, victim, "sneak"),), words)


def short_rungs(networks: Networks) -> Iterator[Rung]:
    """A rung for each way in which conductors alone close a loop through supplies."""
    supplies = networks.facts.circuit.supplies
    told = set()
    for short in networks.facts.shorts:
        ways = [way for start, end in short.stretches if start != end for way in _past_all_loads(networks, start, end)]
        if ways and short.supplies not in told:
            told.add(short.supplies)
            names = listed((supplies[number].name for number in short.supplies), "and")
            yield Rung("short", None, tuple(dict.fromkeys(ways)), f"{names} shorted: no load lies between")


def _past_all_loads(networks: Networks, start: int, end: int) -> Iterator[Way]:
    for avoided in networks.avoided(start, end) or (frozenset[int](),):
        found = networks.from_rail(start, networks.rail_terminal(end), avoided, outward=True)
        if found is not None and together(found):
            yield Way("short", networks.rail_name(start), networks.drawn(found), networks.rail_name(end))
