"""From evidence to findings: what every finding has, worked out once.

Reached in operation before in some combination; the fewest steps before more; an example that names only the digits
that matter.
"""

from circuitcheck.analysis.changeover import Travelling, place_poles
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.orders import first_start
from circuitcheck.analysis.sequels import Sequel, story_of
from circuitcheck.analysis.settling import Unsettled
from circuitcheck.analysis.single_state import State, Story, contacts_on, current_path, first_reached, story_to
from circuitcheck.analysis.states import States
from circuitcheck.checks.check import Check, Evidence, Finding
from circuitcheck.checks.narration import example_words, state_words, story_words
from circuitcheck.checks.orders_told import told_orders
from circuitcheck.circuit.model import Terminal


def complete(facts: Facts, check: Check, evidence: Evidence) -> Finding | None:
    """The finding that evidence amounts to; None where its states are empty, or only passed between positions."""
    severity = evidence.severity or check.severity
    finding = Finding(
        check=check.name,
        severity=severity,
        reached=evidence.reached or "operation",
        what=evidence.what,
        parts=evidence.parts,
        where=evidence.places or tuple(facts.circuit.parts[name].place for name in evidence.parts),
        example={},
        path=(),
        steps=(),
        seen=0,
        of=0,
        why=evidence.why or check.why,
        remedy=evidence.remedy or check.remedy,
    )
    if evidence.unsettled is not None:
        return _unsettled(evidence.unsettled, finding)
    if evidence.travelling is not None:
        return _while_travelling(evidence.travelling, evidence, finding)
    if evidence.story is not None:
        finding = _as_told(facts, evidence.story, finding)
    if evidence.example is not None:
        return finding._replace(steps=evidence.told, example=example_words(facts.circuit, evidence.example))
    if evidence.states is None:
        return finding
    if evidence.sequel is not None:
        return _after_event(facts, evidence.states, evidence.sequel, finding)
    return _with_states(facts, evidence, evidence.states, finding)


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
    named = {digit: state[digit] for digit in possible.space.digits}
    return _shown(facts, finding, state, smallest_example(facts, possible, named), _path(facts, evidence, state))


def _as_told(facts: Facts, story: Story, finding: Finding) -> Finding:
    last = story.changes[-1].state if story.changes else story.beginning
    return finding._replace(
        steps=story_words(facts.circuit, story), example=example_words(facts.circuit, last), seen=1, of=1
    )


def _path(facts: Facts, evidence: Evidence, state: State) -> tuple[Terminal, ...]:
    return tuple(
        terminal
        for start, end in evidence.way
        for terminal in current_path(facts.circuit, state, start, end, evidence.through)
    )


def _shown(facts: Facts, finding: Finding, state: State, shown: State, path: tuple[Terminal, ...]) -> Finding:
    """The finding with its example in words; digits whose contacts the path goes over are named too."""
    shown = shown | {digit: state[digit] for digit in contacts_on(facts.circuit, state, path)}
    return finding._replace(
        what=finding.what.replace("{state}", state_words(facts.circuit, shown)),
        example=example_words(facts.circuit, shown),
        path=path,
    )


def _while_travelling(travelling: Travelling, evidence: Evidence, finding: Finding) -> Finding:
    """The story ends where the contacts begin to travel; the example names where they are."""
    facts = travelling.apart.base
    behaviour = facts.behaviour(travelling.states.space.digits)
    bits = travelling.states.over(behaviour.space) & behaviour.reached
    story = evidence.story or story_to(behaviour, *first_reached(behaviour, bits))
    last = story.changes[-1].state if story.changes else story.beginning
    state = _usual_state(facts) | last
    state = place_poles(travelling, state)
    apart = travelling.apart.facts
    path = _path(apart, evidence, state)
    named = {digit: state[digit] for digit in travelling.bad.space.digits}
    finding = _shown(apart, finding, state, smallest_example(apart, travelling.bad, named), path)
    names = [facts.circuit.relays[relay].name for relay in travelling.relays]
    travel = (f"{' and '.join(names)} on the way",) if names else ()
    steps = (*story_words(facts.circuit, story.beside(facts.still)), *travel)
    return _counted(facts, finding._replace(reached="changeover", steps=steps), bits, behaviour.reached)


def _counted(facts: Facts, finding: Finding, seen: int, of: int) -> Finding:
    """In how many states (bits over one space) it is seen; not where digits stand still, since others are left out."""
    return finding if facts.still else finding._replace(seen=seen.bit_count(), of=of.bit_count())


def _unsettled(found: Unsettled, finding: Finding) -> Finding:
    """The steps lead to the change after which it is open what happens; the orders go on from there."""
    facts, behaviour = found.facts, found.behaviour
    start, story = first_start(found)
    everywhere = facts.spaces.over(behaviour.space, found.over(found.everywhere))
    shown = facts.still | smallest_example(facts, everywhere, behaviour.space.values(start % behaviour.space.size))
    told = finding._replace(
        what=finding.what.replace("{state}", state_words(facts.circuit, shown)),
        example=example_words(facts.circuit, shown),
        steps=story_words(facts.circuit, story.beside(facts.still)),
        orders=told_orders(facts.circuit, found, start),
    )
    starts = found.over(found.starts) & behaviour.proper
    return _counted(facts, told, starts, behaviour.reached & behaviour.proper)


def _after_event(facts: Facts, states: States, sequel: Sequel, finding: Finding) -> Finding:
    """The story leads to the event, and from it on to the state. What is so is given by the states themselves."""
    after = sequel.behaviour
    bits = states.over(after.space)
    before, afterwards = story_of(facts.behaviour(after.space.digits), after, bits)
    last = afterwards.changes[-1].state if afterwards.changes else afterwards.beginning
    incident = (sequel.incident,) if sequel.incident else ()
    shown = smallest_example(facts, states, last)
    return finding._replace(
        what=finding.what.replace("{state}", state_words(facts.circuit, shown)),
        example=example_words(facts.circuit, shown),
        steps=(*story_words(facts.circuit, before), *incident, *story_words(facts.circuit, afterwards)[1:]),
        seen=bits.bit_count(),
        of=(after.reached & after.proper).bit_count(),
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
    return _usual_state(facts) | behaviour.space.values(state)


def _usual_state(facts: Facts) -> State:
    """Digits that play no part stand at their first value, axes at their first place."""
    first = {axis.digit: axis.range[0] for axis in facts.circuit.axes}
    return dict.fromkeys(range(len(facts.circuit.digits)), 0) | first | facts.still


def _lowest_state(facts: Facts, states: States) -> State:
    number = (states.bits & -states.bits).bit_length() - 1
    return _usual_state(facts) | states.space.values(number)


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
