"""From evidence to findings: what every finding has, worked out once.

Reached in operation before in some combination; the fewest steps before more; an example that names only the digits
that matter.
"""

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.orders import first_start
from circuitcheck.analysis.settling import Unsettled
from circuitcheck.analysis.single_state import State, contacts_on, current_path, first_reached, story_to
from circuitcheck.analysis.states import States
from circuitcheck.checks.check import Check, Evidence, Finding
from circuitcheck.checks.narration import example_words, state_words, story_words
from circuitcheck.checks.orders_told import told_orders

SEVERITIES = ("error", "warning", "note")


def complete(facts: Facts, check: Check, evidence: Evidence) -> Finding | None:
    """The finding that evidence amounts to; None where its states are empty, or only passed between positions."""
    severity = evidence.severity or check.severity
    finding = Finding(
        check=check.name,
        severity=severity,
        reached=evidence.reached or "operation",
        what=evidence.what,
        parts=evidence.parts,
        where=evidence.places,
        example={},
        path=(),
        steps=(),
        seen=0,
        of=0,
        why=evidence.why or check.why,
        remedy=evidence.remedy or check.remedy,
    )
    if evidence.unsettled is not None:
        return _unsettled(facts, evidence.unsettled, finding)
    if evidence.states is None:
        return finding
    return _with_states(evidence.within or facts, evidence, evidence.states, finding)


def _with_states(facts: Facts, evidence: Evidence, states: States, finding: Finding) -> Finding | None:
    possible = facts.possible(states)
    reached = facts.reached_at_rest(possible) if evidence.lasting else facts.reached(possible)
    if reached:
        state = _first_state(facts, reached)
        finding = _in_operation(facts, reached, finding)
    elif possible:
        state = _lowest_state(facts, possible)
        finding = _in_combination(facts, possible, finding)
    else:
        return None
    path = [
        terminal
        for start, end in evidence.way
        for terminal in current_path(facts.circuit, state, start, end, evidence.through)
    ]
    shown = smallest_example(facts, possible, {digit: state[digit] for digit in possible.space.digits})
    shown.update({digit: state[digit] for digit in contacts_on(facts.circuit, state, path)})
    return finding._replace(
        what=finding.what.replace("{state}", state_words(facts.circuit, shown)),
        example=example_words(facts.circuit, shown),
        path=tuple(path),
    )


def _unsettled(facts: Facts, found: Unsettled, finding: Finding) -> Finding:
    """The steps lead to the change after which it is open what happens; the orders go on from there."""
    behaviour = found.behaviour
    start, story = first_start(found)
    everywhere = facts.spaces.over(behaviour.space, found.over(found.everywhere))
    shown = smallest_example(facts, everywhere, behaviour.space.values(start % behaviour.space.size))
    return finding._replace(
        what=finding.what.replace("{state}", state_words(facts.circuit, shown)),
        example=example_words(facts.circuit, shown),
        steps=story_words(facts.circuit, story),
        orders=told_orders(facts.circuit, found, start),
        seen=(found.over(found.starts) & behaviour.proper).bit_count(),
        of=(behaviour.reached & behaviour.proper).bit_count(),
    )


def _in_operation(facts: Facts, reached: States, finding: Finding) -> Finding:
    behaviour = facts.behaviour(reached.space.digits)
    bits = reached.over(behaviour.space)
    state, rounds = first_reached(behaviour, bits)
    return finding._replace(
        steps=story_words(facts.circuit, story_to(behaviour, state, rounds)),
        seen=bits.bit_count(),
        of=(behaviour.reached & behaviour.proper).bit_count(),
    )


def _in_combination(facts: Facts, possible: States, finding: Finding) -> Finding:
    """Operation does not get there: a note, whatever the check's own severity."""
    combinations, inside = 1, 1
    for number, digit in enumerate(facts.circuit.digits):
        combinations *= len(digit.values)
        if number in possible.space.digits:
            inside *= len(digit.values)
    return finding._replace(
        severity="note",
        reached="combination",
        seen=possible.bits.bit_count() * combinations // inside,
        of=combinations,
    )


def _first_state(facts: Facts, reached: States) -> State:
    """The state that takes the fewest steps; digits that play no part stand at their first value."""
    behaviour = facts.behaviour(reached.space.digits)
    state, _ = first_reached(behaviour, reached.over(behaviour.space))
    return dict.fromkeys(range(len(facts.circuit.digits)), 0) | behaviour.space.values(state)


def _lowest_state(facts: Facts, states: States) -> State:
    number = (states.bits & -states.bits).bit_length() - 1
    return dict.fromkeys(range(len(facts.circuit.digits)), 0) | states.space.values(number)


def smallest_example(facts: Facts, states: States, state: State) -> State:
    """As few of the state's digits as it takes: whatever the others are (of their positions), it is in the set.

    Digits are let go one after the other, so none that is left can go alone.
    """
    shown = dict(state)
    for digit in states.space.digits:
        positions = range(len(facts.circuit.digits[digit].values))
        between = facts.spaces.where(digit, range(len(positions), facts.circuit.digits[digit].radix))
        always = ~(~(states | between)).turned(digit)
        if shown in always:
            states = always
            del shown[digit]
    return shown
