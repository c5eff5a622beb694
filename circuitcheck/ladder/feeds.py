"""The ways by which conductors alone feed a load, brake a motor, or would feed a load that nothing ever feeds."""

from collections.abc import Iterator

from circuitcheck.analysis.network import Net
from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.ladder.back_through import Backward, Side, sides
from circuitcheck.ladder.drawn import Drawn, Passed, Point, Series, Taking, in_parallel, in_series, leaves, turned
from circuitcheck.ladder.networks import Networks, Rail
from circuitcheck.ladder.pruning import Between, together
from circuitcheck.ladder.rungs import OPEN, Way


def fed_ways(networks: Networks, number: int, contacts: tuple[Backward, ...] = ()) -> tuple[Way, ...]:
    """Each polarity, from each pair of rails with volts between them, in which contacts let the load be fed.

    contacts: those that feed it the wrong way; what goes through them is told apart, as a sneak.
    """
    load = networks.facts.circuit.loads[number]
    found = []
    for forward in (True, False):
        enters, exits = (load.a, load.b) if forward else (load.b, load.a)
        # What shorts a motor is told as a loop of its own.
        alone = load.kind == "motor"
        middle = Taking(number, enters, exits) if alone else core(networks, number, enters, exits)
        for high, low in dict.fromkeys((one.high, one.low) for one in networks.facts.differences):
            rails = networks.rail_name(high), networks.rail_name(low)
            outs = [one for whole in out_of(networks, low, exits, enters) for one in sides(networks, whole, contacts)]
            for whole in into(networks, high, enters, exits) if outs else ():
                for one in sides(networks, whole, contacts):
                    for other in outs:
                        pair = _at_once(networks, one, other)
                        if pair:
                            drawn = in_series(_drawn(networks, pair[0]), middle, _drawn(networks, pair[1]))
                            kind = "fed" if one.back is other.back is None else "sneak"
                            found.append(Way(kind, rails[0], drawn, rails[1], forward))
    return tuple(dict.fromkeys(found))


def _at_once(networks: Networks, one: Side, other: Side) -> tuple[Side, Side] | None:
    """Two sides of a load as far as both can conduct at once; None where they never do."""
    if not together(*one.chain, *other.chain):
        return None
    if len(one.chain) > 1 or len(other.chain) > 1:
        return one, other
    before, after = one.chain[0], other.chain[0]
    after = networks.pruned(after.branches, after.start, after.end, before.leads) or after
    before = networks.pruned(before.branches, before.start, before.end, after.leads) or before
    return Side((before,), None), Side((after,), None)


def _drawn(networks: Networks, side: Side) -> Series:
    return in_series(*map(networks.drawn, side.chain))


def into(networks: Networks, rail: Rail, enters: Terminal, exits: Terminal) -> tuple[Between, ...]:
    """From a rail to a load's end, not by way of its other end."""
    return _between(networks, rail, enters, exits, outward=True)


def out_of(networks: Networks, rail: Rail, exits: Terminal, enters: Terminal) -> tuple[Between, ...]:
    """From a load's end to a rail, likewise."""
    return _between(networks, rail, exits, enters, outward=False)


def _between(networks: Networks, rail: Rail, end: Terminal, other: Terminal, *, outward: bool) -> tuple[Between, ...]:
    without = _besides(networks, rail, other)
    found = (networks.from_rail(rail, end, one, without, outward=outward) for one in networks.avoided(rail))
    return tuple(dict.fromkeys(one for one in found if one is not None))


def _besides(networks: Networks, rail: Rail, other: Terminal) -> set[Net]:
    """The net of a load's other end, which a way doesn't pass, unless the rail begins there."""
    return {networks.net(other)} - {networks.source(rail)}


def core(networks: Networks, number: int, left: Terminal, right: Terminal) -> Drawn:
    """The load itself, with what lies straight across it: a diode for its spike, a contact that bridges it."""
    nets = networks.net(left), networks.net(right)
    conductors = networks.facts.circuit.conductors
    across = []
    for branch in networks.across(*nets):
        tail, head = conductors[branch.number].tail, conductors[branch.number].head
        across.append(Passed(branch.number, *((tail, head) if branch.tail == nets[0] else (head, tail))))
    return in_parallel(Taking(number, left, right), *across)


def relay_diodes(circuit: Circuit) -> frozenset[int]:
    """The diodes that relays have across their coils, by conductor: what brakes a motor only through one of them, while
    contacts happen to lead there, is nothing to count on."""
    conductors = enumerate(circuit.conductors)
    return frozenset(
        number for number, one in conductors if one.kind == "diode" and circuit.parts[one.part].kind == "relay"
    )


def braked_ways(networks: Networks, number: int) -> tuple[Way, ...]:
    """The loops over which a motor's winding is shorted on itself. One that conducts both ways is told once.

    networks: those without relays' diodes.
    """
    load = networks.facts.circuit.loads[number]
    found: dict[frozenset[int], Way] = {}
    for forward in (True, False):
        left, right = (load.a, load.b) if forward else (load.b, load.a)
        for back, over in _backs(networks, right, left):
            loop = in_series(in_parallel(Taking(number, left, right), turned(back)))
            passed = frozenset(leaf.conductor for leaf in leaves(back) if isinstance(leaf, Passed))
            found.setdefault(passed, Way("braked", "", loop, "", forward, over))
    return tuple(found.values())


def _backs(networks: Networks, start: Terminal, end: Terminal) -> Iterator[tuple[Series, str]]:
    """From one brush to the other: over no rail, and over each (told by its name)."""
    ends = networks.rail_of(start), networks.rail_of(end)
    own = {*ends}
    if ends[0] != ends[1] and ends in networks.facts.conduction.network.opposite:
        # What joins a supply's rails is a short, whatever stands across them.
        return
    rails = frozenset(rail for rail in networks.facts.conduction.network.rails if rail not in own)
    plain = networks.inside(start, end, rails)
    if plain is not None and together(plain):
        yield networks.drawn(plain), " ".join(networks.rails_in(plain))
    for rail in sorted(rails):
        for there in out_of(networks, rail, start, end):
            for back in into(networks, rail, end, start):
                drawn = _over(networks, rail, there, back) if together(there, back) else None
                if drawn is not None:
                    yield drawn, networks.rail_name(rail)


def _over(networks: Networks, rail: Rail, there: Between, back: Between) -> Series | None:
    """To a rail and back. Where both go through the same fuse they meet before it; where they go through the same
    contact, they meet before it too, and what they do there has been told."""
    out, again = [*networks.drawn(there).parts], [*networks.drawn(back).parts]
    point = Point(networks.rail_name(rail), networks.rail_terminal(rail))
    if not (out and again and out[-1] == turned(again[0])):
        return in_series(*out, point, *again)
    while out and again and out[-1] == turned(again[0]):
        same = out.pop()
        again.pop(0)
        if not isinstance(same, Passed) or networks.facts.circuit.conductors[same.conductor].kind != "fuse":
            return None
    return in_series(*out, *again)


def idle_way(networks: Networks, number: int) -> Way:
    """What a load hangs on that nothing ever feeds: whatever lies between its ends and rails, conducting or not."""
    load = networks.facts.circuit.loads[number]
    nets = networks.facts.conduction.network.nets
    plus = list(dict.fromkeys(nets[one.plus] for one in networks.facts.circuit.supplies))
    minus = list(dict.fromkeys(nets[one.minus] for one in networks.facts.circuit.supplies))
    ways = []
    for forward in (True, False):
        enters, exits = (load.a, load.b) if forward else (load.b, load.a)
        left, before = _hanging(networks, plus + minus, enters, exits)
        right, after = _hanging(networks, minus + plus, exits, enters)
        drawn = in_series(before, core(networks, number, enters, exits), turned(after))
        names = [networks.rail_name(rail) if rail is not None else OPEN for rail in (left, right)]
        ways.append(((left in plus) + (right in minus), Way("idle", names[0], drawn, names[1], forward)))
    return max(ways, key=lambda one: one[0])[1]


def _hanging(networks: Networks, rails: list[Rail], end: Terminal, other: Terminal) -> tuple[Rail | None, Series]:
    for rail in rails:
        for avoided in networks.avoided(rail):
            found = networks.structure(rail, end, avoided, _besides(networks, rail, other))
            if found is not None:
                return rail, networks.drawn(found)
    return None, Series(())
