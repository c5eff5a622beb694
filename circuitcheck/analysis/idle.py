"""Contacts that never matter: held open, all loads, motors and shorts are as before in every state.

The whole analysis with one contact taken away, for each contact, would answer it and cost too much. What a contact can
change is near it: the pieces that loads tie to its own, without a rail between, and the loads at them. So

    1  conduction is asked again in those pieces only: from rails to loads, between rails, across motors. Nearly every
       contact turns out to matter here.
    2  where that is all as before and loads in series leave volts open, those loads' volts are solved with the contact
       and without it.

A contact that changes what joins two rails is taken to matter, and so is one that changes which of several supplies
reaches a load. Contacts side by side that close in the same states are held open together.
"""

from collections.abc import Iterable, Iterator
from itertools import accumulate
from math import prod
from typing import NamedTuple

from circuitcheck.analysis.conduction import DENSE, Conduction, widened
from circuitcheck.analysis.devices import motor_states
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.feeding import Fed
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.likeness import of_each
from circuitcheck.analysis.network import Net, Piece, Way, with_pieces
from circuitcheck.analysis.operating_point import volts_where_open
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Closed


class Surroundings(NamedTuple):
    """Pieces that loads tie together, by their number in the network, and those loads by their index."""

    pieces: tuple[int, ...]
    loads: tuple[int, ...]


class IdleContacts(NamedTuple):
    """Conductors, by index, that do nothing even together, and the loads near them."""

    conductors: tuple[int, ...]
    loads: tuple[int, ...]


def idle_contacts(facts: Facts, contacts: Iterable[int]) -> Iterator[IdleContacts]:
    """Those of the contacts (indices of Circuit.conductors) that never matter. TooManyCases as in analyse."""
    network = facts.conduction.network
    home = {(way.tail, way.head): number for number, piece in enumerate(network.pieces) for way in piece.ways}
    around_piece = {number: one for one in _all_surroundings(facts) for number in one.pieces}
    beside = _conductors_between(facts)
    before: dict[Surroundings, Conduction] = {}
    between: dict[frozenset[Net], _Between] = {}

    def doing_nothing(alike: tuple[int, ...]) -> Iterator[IdleContacts]:
        first = facts.circuit.conductors[alike[0]]
        ends = network.nets[first.tail], network.nets[first.head]
        if ends[0] == ends[1]:
            yield IdleContacts(alike, ())
            return
        around = around_piece[home[ends]]
        if around not in before:
            before[around] = _within(
                facts, {number: _laid_out(facts, network.pieces[number]) for number in around.pieces}
            )
        changed = dict(zip(around.pieces, before[around].network.pieces, strict=False))
        nets = frozenset(ends)
        if nets not in between:
            between[nets] = _Between(facts, ends, beside[nets])
        left = {way: between[nets].without(alike, way) for way in (ends, ends[::-1])}
        # Ways straight from rail to rail are a piece for each direction.
        for number in {home[way] for way in left if way in home}:
            changed[number] = _with_ways(changed[number], left)
        loads = _likely_first(facts, around.loads, first.closed)
        if not _matters(facts, loads, before[around], _within(facts, changed)):
            yield IdleContacts(alike, around.loads)

    kin = facts.likeness.of
    yield from of_each(_side_by_side(facts, contacts), lambda alike: kin["conductor", alike[0]], doing_nothing)


def _all_surroundings(facts: Facts) -> list[Surroundings]:
    """Every piece in exactly one. Only held rails part: at others loads meet, and supplies stand in series."""
    circuit, network = facts.circuit, facts.conduction.network
    held = facts.regions.borders
    pieces = [piece.nets.union(*((way.tail, way.head) for way in piece.ways)) for piece in network.pieces]
    loads = [frozenset(_ends(facts, load)) for load in range(len(circuit.loads))]
    # What joins two held rails directly has nothing near it, and both its directions are one question.
    tied = [nets - held or nets for nets in pieces] + [nets - held for nets in loads]
    sources = [frozenset((network.nets[one.plus], network.nets[one.minus])) - held for one in circuit.supplies]
    group: dict[Net | frozenset[Net], set[Net | frozenset[Net]]] = {}
    for nets in (*tied, *sources):
        members = {nets} if nets <= held else set(nets)
        merged = set().union(*(group.get(one, {one}) for one in members))
        group.update(dict.fromkeys(merged, merged))
    near: dict[int, tuple[list[int], list[int]]] = {id(members): ([], []) for members in group.values()}
    for place, nets in enumerate(tied):
        if nets:
            own_pieces, own_loads = near[id(group[nets if nets <= held else next(iter(nets))])]
            if place < len(pieces):
                own_pieces.append(place)
            else:
                own_loads.append(place - len(pieces))
    return [Surroundings(tuple(own_pieces), tuple(own_loads)) for own_pieces, own_loads in near.values()]


def _ends(facts: Facts, load: int) -> tuple[Net, Net]:
    one, nets = facts.circuit.loads[load], facts.conduction.network.nets
    return nets[one.a], nets[one.b]


def _side_by_side(facts: Facts, contacts: Iterable[int]) -> list[tuple[int, ...]]:
    groups: dict[object, list[int]] = {}
    for number in contacts:
        one, nets = facts.circuit.conductors[number], facts.conduction.network.nets
        ends = (nets[one.tail], nets[one.head])
        groups.setdefault((ends if one.one_way else frozenset(ends), one.closed), []).append(number)
    return [tuple(group) for group in groups.values()]


def _within(facts: Facts, pieces: dict[int, Piece]) -> Conduction:
    """Conduction in these pieces alone, with buses held as they are in the whole circuit."""
    kept = (*pieces.values(), *_holding(facts, pieces))
    return Conduction(with_pieces(facts.conduction.network, kept), facts.spaces)


def _holding(facts: Facts, pieces: dict[int, Piece]) -> Iterator[Piece]:
    """What other pieces bring from rails to the buses that these pieces touch, and back."""
    buses = facts.regions.buses
    touched = {net for piece in pieces.values() for way in piece.ways for net in (way.tail, way.head)} & buses.nets
    for rail, nets in buses.at.items():
        for source in nets:
            for bus in sorted(touched & {one.net for one in nets} - {source.net}):
                for ends, way in (((source.net, bus), (rail, bus)), ((bus, source.net), (bus, rail))):
                    for number, states in facts.conduction.joins_by_piece(*ends).items():
                        held = states & source.held
                        if number not in pieces and held:
                            yield Piece(frozenset(), (Way(*way, held),), held.space.digits)


def _laid_out(facts: Facts, piece: Piece) -> Piece:
    """The piece with all its sets over one space, so that they need not be brought there for each contact anew."""
    if prod(facts.spaces.radices[digit] for digit in piece.digits) > DENSE:
        return piece
    return piece._replace(ways=tuple(widened(piece.ways, facts.spaces, piece.digits)[0]))


class _Between:
    """The conductors between two nets, in order, with what the first and the last so many of them close together: to
    leave out one of very many costs no more than of few."""

    def __init__(self, facts: Facts, ends: tuple[Net, Net], conductors: list[int]) -> None:
        self._spaces = facts.spaces
        self._conductors = conductors
        self._closing = {way: [self._closed(facts, one, way) for one in conductors] for way in (ends, ends[::-1])}
        self._first = {way: self._summed(sets) for way, sets in self._closing.items()}
        self._last = {way: self._summed(sets[::-1]) for way, sets in self._closing.items()}

    def without(self, left_out: tuple[int, ...], way: tuple[Net, Net]) -> States:
        """In which states the others lead this way."""
        places = sorted(self._conductors.index(one) for one in left_out)
        between = (place for place in range(places[0], places[-1]) if place not in places)
        others = union((self._closing[way][place] for place in between), self._spaces.none())
        return self._first[way][places[0]] | others | self._last[way][len(self._conductors) - 1 - places[-1]]

    def _closed(self, facts: Facts, number: int, way: tuple[Net, Net]) -> States:
        one, nets = facts.circuit.conductors[number], facts.conduction.network.nets
        if one.one_way and (nets[one.tail], nets[one.head]) != way:
            return self._spaces.none()
        return self._spaces.all() if one.closed is None else self._spaces.where(one.closed.digit, one.closed.values)

    def _summed(self, sets: list[States]) -> list[States]:
        return list(accumulate(sets, lambda some, one: some | one, initial=self._spaces.none()))


def _conductors_between(facts: Facts) -> dict[frozenset[Net], list[int]]:
    nets = facts.conduction.network.nets
    found: dict[frozenset[Net], list[int]] = {}
    for number, one in enumerate(facts.circuit.conductors):
        found.setdefault(frozenset((nets[one.tail], nets[one.head])), []).append(number)
    return found


def _with_ways(piece: Piece, ways: dict[tuple[Net, Net], States]) -> Piece:
    """The piece with these ways closed in other states."""
    kept = [way for way in piece.ways if (way.tail, way.head) not in ways]
    changed = dict.fromkeys(way[:2] for way in piece.ways if (way.tail, way.head) in ways)
    return piece._replace(ways=(*kept, *(Way(*ends, ways[ends]) for ends in changed)))


def _matters(facts: Facts, loads: list[int], before: Conduction, after: Conduction) -> bool:
    if any(_fed_otherwise(facts, load, before, after) for load in loads):
        return True
    if _stops_otherwise(facts, loads, before, after):
        return True
    none = facts.spaces.none()
    for pair in _rail_pairs(facts):
        if union(before.joins(*pair), none) - union(after.joins(*pair), none):
            return True
    return any(_volts_differ(facts, loads, load, before, after) for load in loads)


def _rail_pairs(facts: Facts) -> set[tuple[Net, Net]]:
    """Where conduction between rails and buses changes anything: from a supply's + to its −, from supply to supply, and
    whatever reaches a bus."""
    network = facts.conduction.network
    borders = network.rails | facts.regions.buses.nets
    others = {(a, b) for a in borders for b in borders if a != b} - network.opposite
    return others | {(network.nets[supply.plus], network.nets[supply.minus]) for supply in facts.circuit.supplies}


def _likely_first(facts: Facts, loads: tuple[int, ...], closed: Closed | None) -> list[int]:
    """The loads, those first whose volts depend on what moves the contact: they show soonest that it matters."""
    digit = closed.digit if closed else -1

    def unlikely(load: int) -> bool:
        return all(digit not in digits_of(fed.forward, fed.backward) for fed in facts.volts[load])

    return sorted(loads, key=unlikely)


def _fed_otherwise(facts: Facts, load: int, before: Conduction, after: Conduction) -> bool:
    """Is there a state in which the load is no longer joined to two rails?

    A shorted one counts as well: when the short is gone, the contact will matter.
    """
    a, b = _ends(facts, load)
    for difference in facts.differences:
        for above, below in ((a, b), (b, a)):
            was = before.leads_between(difference.high, above)
            was = before.leads_between(below, difference.low, was & difference.live) if was else was
            if was and was - after.leads_between(difference.high, above):
                return True
            if was and was - after.leads_between(below, difference.low, was):
                return True
    return False


def _stops_otherwise(facts: Facts, loads: list[int], before: Conduction, after: Conduction) -> bool:
    """Is one of the motors among these loads braked in fewer states, fed as before?"""
    motors = [one for one in facts.circuit.motors if any(winding.load in loads for winding in one.windings)]
    return any(
        not was.named()[word].same_as(now)
        for motor in motors
        for was, later in [[motor_states(motor, facts.volts, one) for one in (before, after)]]
        for word, now in later.named().items()
    )


def _volts_differ(facts: Facts, loads: list[int], load: int, before: Conduction, after: Conduction) -> bool:
    """Do the volts of a load differ where conduction leaves them open, or joined its ends and no longer does?"""
    a, b = _ends(facts, load)
    joined, still_joined = (one.leads_between(a, b) & one.leads_between(b, a) for one in (before, after))
    open_states = (facts.feeding[load].open | (joined - still_joined)) - facts.shorted
    if not open_states:
        return False
    circuit = facts.circuit._replace(loads=tuple(facts.circuit.loads[number] for number in loads))
    number = loads.index(load)
    was, now = (volts_where_open(circuit, one, number, open_states) for one in (before, after))
    return not _same_volts(was, now, facts.spaces.none())


def _same_volts(was: tuple[Fed, ...], now: tuple[Fed, ...], none: States) -> bool:
    """Microvolts are the solver's own rounding."""
    for volts in {fed.volts for fed in (*was, *now)}:
        near = [[fed for fed in group if abs(fed.volts - volts) < 1e-5] for group in (was, now)]
        forward = [union((fed.forward for fed in group), none) for group in near]
        backward = [union((fed.backward for fed in group), none) for group in near]
        if not (forward[0].same_as(forward[1]) and backward[0].same_as(backward[1])):
            return False
    return True
