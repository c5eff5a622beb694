"""Where the sets of states and the judge of single states say different things of a circuit.

In states in which conductors join + and − of a supply that is off while another is on only shorts are compared: the
sets count no other way over both rails of one supply. Switched on, such a supply is shorted, which both see.
"""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.states import Spaces
from circuitcheck.circuit.model import Circuit
from tests.judge.one_state import State, bridges_a_supply_that_is_off, leads, view
from tests.judge.steps import Judge


def disagreements(circuit: Circuit, integers: int | None = None) -> Iterator[str]:
    """One line for each thing that the engine and the judge see differently, in the plan's words. integers: sets of
    more states than this are decision diagrams."""
    spaces = Spaces(tuple(digit.radix for digit in circuit.digits), integers)
    facts, judge = analyse(circuit, spaces), Judge(circuit)
    comparable = True
    for state in judge.every_state():
        if bridges_a_supply_that_is_off(circuit, state, view(circuit, state)):
            comparable = False
            if (dict(enumerate(state)) in facts.shorted) != judge.judged(state).shorted:
                yield f"{state}: shorted: {judge.judged(state).shorted}, says the judge"
            continue
        words = [f"{digit.name} {digit.value_name(value)}" for digit, value in zip(circuit.digits, state, strict=True)]
        for found in (*conduction_differs(facts, state), *devices_differ(facts, judge, state)):
            yield f"{', '.join(words)}: {found}"
    if comparable:
        yield from behaviour_differs(facts, judge)


def conduction_differs(facts: Facts, state: State) -> Iterator[str]:
    """From each net to each other, conductors lead or don't."""
    seen, values = view(facts.circuit, state), dict(enumerate(state))
    one_of_each = list({net: terminal for terminal, net in joined_terminals(facts.circuit).items()}.values())
    for start in one_of_each:
        for end in one_of_each:
            plainly = leads(seen, start, end)
            if (values in facts.conduction.leads(start, end)) != plainly:
                yield f"from {start} to {end} conductors {'lead' if plainly else 'do not lead'}, says the judge"


def devices_differ(facts: Facts, judge: Judge, state: State) -> Iterator[str]:
    """Shorted, or else what motors, lamps and relays do."""
    verdict, values = judge.judged(state), dict(enumerate(state))
    if (values in facts.shorted) != verdict.shorted:
        yield f"shorted: {verdict.shorted}, says the judge"
    if verdict.shorted:
        return
    for motor, does, word in zip(facts.circuit.motors, facts.motors, verdict.motors, strict=True):
        said = [name for name, states in does.named().items() if values in states]
        if said != [word]:
            yield f"{motor.name} {' and '.join(said)}; {word}, says the judge"
    for number, lamp in facts.lamps.items():
        said = [name for name, states in lamp._asdict().items() if values in states]
        if said != [verdict.lamps[number]]:
            yield f"{facts.circuit.loads[number].name} {' and '.join(said)}; {verdict.lamps[number]}, says the judge"
    moves = {
        (facts.circuit.relays[move.relay].digit, move.end, move.timed)
        for move in facts.relay_moves
        if values in move.wanted
    }
    if moves != set(verdict.wishes):
        yield f"relays want {sorted(moves)}; {sorted(verdict.wishes)}, says the judge"


def behaviour_differs(facts: Facts, judge: Judge) -> Iterator[str]:
    """At rest, settled, reached from power-up: over all digits at once."""
    behaviour = facts.behaviour(set(range(len(facts.circuit.digits))))
    reached = judge.reachable()
    for state in judge.every_state():
        number = behaviour.space.number(dict(enumerate(state)))
        shorted = judge.judged(state).shorted
        pairs = (
            ("at rest", not shorted and bool(behaviour.rest >> number & 1), judge.is_at_rest(state)),
            ("settled", bool(behaviour.settled >> number & 1), judge.is_settled(state)),
            ("reached", bool(behaviour.reached >> number & 1), state in reached),
        )
        for word, said, judged in pairs:
            if said != judged:
                yield f"{state}: {word} {said}; {judged}, says the judge"
