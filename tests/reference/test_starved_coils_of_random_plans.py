"""What is found of starved coils, against nodal analysis of the whole circuit in each state (real_volts.py)."""

from collections.abc import Iterator
from math import prod

from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.devices import coil_operates
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.margins import could_starve
from circuitcheck.analysis.warm_coils import Starved, starved_coils
from circuitcheck.checks import starved_coil
from circuitcheck.circuit.model import Circuit, Coil, Relay
from tests.analysis.plans import circuit_of
from tests.certificates.plans_with_figures import plans_with_ohms
from tests.certificates.real_volts import celsius, needed_volts, real_volts
from tests.certificates.seen import Seen
from tests.judge.one_state import State, bridges_a_supply_that_is_off, view
from tests.profiles import examples

MOST_STATES = 300
SLACK = 1e-3
"""In volts: nodal analysis lets each net leak a microampere per volt."""


def coils_of(circuit: Circuit) -> Iterator[tuple[Relay, Coil]]:
    """Each coil that moves a relay, with its relay."""
    for relay in circuit.relays:
        yield from ((relay, coil) for coil in (relay.coil, relay.reset) if coil is not None)


def called(seen: Seen, facts: Facts, relay: Relay, coil: Coil) -> list[State]:
    """Where operation comes to, every switch at a position, and the coil is to move its relay (test_devices.py)."""
    operates = coil_operates(coil, facts.volts, facts.spaces)
    return [
        state
        for state in seen.reached
        if seen.judge.is_proper(state)
        and state[relay.digit] == int(coil == relay.reset)
        and dict(enumerate(state)) in operates
    ]


def volts_left(seen: Seen, state: State, load: int) -> float:
    """The volts of a load where all others draw that have volts while wires are ideal: what else a wire's loss drives
    through a load, from one place of a line to another, is left out, as the check's limits say."""
    volts = seen.judge.judged(state).volts
    drawing = [number for number, value in enumerate(volts) if abs(value) > 1e-6]
    loads = tuple(seen.circuit.loads[number] for number in drawing)
    return abs(real_volts(seen.circuit._replace(loads=loads), state)[drawing.index(load)])


def assert_told(seen: Seen, states: list[State], coil: Coil, found: Starved | None) -> None:
    """A coil that gets too little is found; what is said of others is no less than they take."""
    circuit = seen.circuit
    needed = needed_volts(circuit, coil.operate_volts)
    # Way round through a supply that is off counts as none; the judge has it for its own volts only.
    plain = [state for state in states if not bridges_a_supply_that_is_off(circuit, state, view(circuit, state))]
    least = min((volts_left(seen, state, coil.load) for state in plain), default=needed)
    if found is None:
        assert least >= needed - SLACK
    elif found.alone >= found.needed:
        assert found.volts <= least + SLACK
    elif len({one.volts for one in circuit.supplies}) == 1:
        # Between supplies of several volts other loads may add some, which isn't counted.
        whole = [abs(real_volts(circuit, state)[coil.load]) for state in states]
        assert min(*whole, *(volts_left(seen, state, coil.load) for state in states)) <= needed + SLACK


def joins_rails(facts: Facts) -> bool:
    """Does a contact lie between two places that supplies hold? It counts as open."""
    nets, rails = facts.conduction.network.nets, facts.conduction.network.rails
    contacts = (one for one in facts.circuit.conductors if one.closed is not None)
    return any({nets[one.tail], nets[one.head]} <= rails for one in contacts)


def leads_both_ways(facts: Facts) -> bool:
    """Do two diodes lead between the same two places, opposite ways? They count as a wire."""
    nets = facts.conduction.network.nets
    diodes = {(nets[one.tail], nets[one.head]) for one in facts.circuit.conductors if one.one_way}
    return any((head, tail) in diodes for tail, head in diodes)


@settings(max_examples=examples(150), suppress_health_check=list(HealthCheck), deadline=None)
@given(plans_with_ohms())
def test_every_coil_that_gets_too_little_is_found_and_none_that_gets_enough_alone(text: str) -> None:
    """In each state of a random plan, whatever else draws; and the quick bound settles none of those."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) > MOST_STATES:
        return
    facts = analyse(circuit)
    if joins_rails(facts) or leads_both_ways(facts):
        return
    found = {one.coil.load: one for one in starved_coils(facts, celsius(circuit))}
    assert not found or could_starve(facts, celsius(circuit))
    assert len(list(starved_coil.find(facts))) == len(found)
    seen = Seen(circuit)
    for relay, coil in coils_of(circuit):
        assert_told(seen, called(seen, facts, relay, coil), coil, found.get(coil.load))
