"""The whole ladder: a rung for each load, then those that nobody meant.

Loads come in the order of the plan, since people look for a part where they wrote it.
"""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.series import Hop
from circuitcheck.ladder.back_through import Backward, backward_contacts
from circuitcheck.ladder.drawn import Passed, leaves
from circuitcheck.ladder.feeds import braked_ways, fed_ways, idle_way, relay_diodes
from circuitcheck.ladder.networks import Networks
from circuitcheck.ladder.rungs import Ladder, Rung
from circuitcheck.ladder.sneaks import routes_of, row_sneaks, row_way, short_rungs
from circuitcheck.ladder.wire_nets import JOINING

Hops = tuple[Hop, ...]


def ladder_of(facts: Facts) -> Ladder:
    """The rungs of a circuit. Raises what working out volts and behaviour may raise (see examination.exactly)."""
    networks = Networks(facts)
    braking = Networks(facts, relay_diodes(facts.circuit))
    rows = dict(row_sneaks(networks))
    contacts = backward_contacts(networks)
    rungs: list[Rung] = []
    for number in range(len(facts.circuit.loads)):
        rungs += _rungs_of(networks, braking, number, contacts.get(number, ()), {route[1] for route in rows})
    rungs += [*rows.values(), *short_rungs(networks)]
    shown = {
        leaf.conductor for rung in rungs for way in rung.ways for leaf in leaves(way.drawn) if isinstance(leaf, Passed)
    }
    idle = (
        number for number, one in enumerate(facts.circuit.conductors) if one.kind not in JOINING and number not in shown
    )
    return Ladder(tuple(rungs), tuple(idle))


def _rungs_of(
    networks: Networks, braking: Networks, number: int, contacts: tuple[Backward, ...], rows: set[Hops]
) -> Iterator[Rung]:
    """A load's own rung, and one for what feeds it back through a contact."""
    circuit = networks.facts.circuit
    ways = fed_ways(networks, number, contacts)
    meant = [way for way in ways if way.kind == "fed"]
    meant += [
        row_way(networks, route, number, "series")
        for route in routes_of(networks, number)
        if route[1] not in rows or not meant
    ]
    if circuit.loads[number].kind == "motor":
        meant += braked_ways(braking, number)
    yield Rung("load", number, tuple(meant or (idle_way(networks, number),)))
    sneaks = tuple(way for way in ways if way.kind == "sneak")
    if sneaks:
        passed = dict.fromkeys(circuit.conductors[one.contact.number].name for one in contacts)
        words = f"{circuit.loads[number].name} fed back through {' and '.join(passed)}"
        yield Rung("sneak", number, sneaks, words)
