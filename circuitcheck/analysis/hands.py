"""What a hand has to do to bring something about, and what follows when it does something else meanwhile."""

from collections.abc import Iterable

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_every_clock, at_some_clock, follow
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import Step, following, leading_to, resting_states
from circuitcheck.analysis.sequels import behaviour_of, then, turns
from circuitcheck.analysis.single_state import Story, first_reached, story_to
from circuitcheck.analysis.states import States

OFF, ON = 0, 1


def story_by_hand(facts: Facts, states: States) -> Story | None:
    """The shortest story to one of these states, at rest, from a prop that has just been switched on: relays released,
    hands off what springs back, switches at off where they have such a position, axes anywhere in their range.

    It begins where nothing comes of itself, if there is such a beginning; switches are set before buttons are pressed,
    where that is all the same. None where operation doesn't get there.
    """
    behaviour = facts.behaviour(states.space.digits)
    space, course = behaviour.space, behaviour.course
    wide = course.steps.space
    wanted = states.over(space) & behaviour.rest & behaviour.proper
    alone = [step for step in course.steps.all if facts.circuit.digits[step.digit].kind in ("relay", "axis")]
    beginning = course.rounds[0] & at_every_clock(wide, space, _just_switched_on(facts, behaviour))
    by_itself = leading_to(wide, alone, at_every_clock(wide, space, wanted))
    # A story is told from its end, and of several steps that may be the last the first one is taken.
    others = sorted(course.steps.others, key=lambda step: _stays(facts, step.digit))
    steps = course.steps._replace(others=tuple(others))
    from_rest = behaviour_of(behaviour, follow(steps, beginning & ~by_itself or beginning))
    try:
        return story_to(from_rest, *first_reached(from_rest, wanted))
    except LookupError:
        return None


def _stays(facts: Facts, digit: int) -> bool:
    """Is it a control that stays as it was set?"""
    return facts.circuit.digits[digit].kind == "control" and facts.circuit.digits[digit].springs_to is None


def _just_switched_on(facts: Facts, behaviour: Behaviour) -> int:
    space, beginning = behaviour.space, behaviour.space.full
    for number in space.digits:
        digit = facts.circuit.digits[number]
        if digit.kind == "supply":
            beginning &= space.where(number, (ON,))
        elif digit.kind == "outside":
            beginning &= space.where(number, (OFF,))
        elif digit.kind == "control":
            at_rest = digit.springs_to
            if at_rest is None and not {"off", "released"}.isdisjoint(digit.values):
                at_rest = next(value for value, word in enumerate(digit.values) if word in ("off", "released"))
            beginning &= space.where(number, range(len(digit.values)) if at_rest is None else (at_rest,))
    return beginning


def after_turning(facts: Facts, before: States, digit: int, value: int, asked: Iterable[int]) -> States:
    """Where relays and timers come to rest for good when, in any of these states of operation at rest, a control or a
    supply is turned to a value and nothing else is touched; axes stand still meanwhile. asked: digits to be told of
    besides. No state where nothing can be turned so."""
    behaviour = facts.behaviour({*before.space.digits, digit, *asked})
    here, relays = _at_rest_in(behaviour, before), _relay_steps(facts, behaviour)
    turning = [one for one in behaviour.course.steps.all if one.digit == digit and turns(facts.circuit, one, value)]
    after = then(behaviour, here, turning, relays)
    ended = _for_good(facts, behaviour, after.course.reached, relays)
    return ended & facts.spaces.where(digit, (value,))


def after_waiting(facts: Facts, before: States, asked: Iterable[int]) -> States:
    """Where timers come to rest for good when nothing at all is touched; axes stand still meanwhile."""
    behaviour = facts.behaviour({*before.space.digits, *asked})
    relays = _relay_steps(facts, behaviour)
    reached = following(behaviour.course.steps.space, relays, _at_rest_in(behaviour, before))
    return _for_good(facts, behaviour, reached, relays)


def lasting(facts: Facts, states: States) -> States:
    """Those of the states that operation stays in for longer than a contact's way: at rest, or in an endless round."""
    behaviour = facts.behaviour(states.space.digits)
    rounds = _for_good(facts, behaviour, behaviour.course.reached, _relay_steps(facts, behaviour))
    return facts.reached_at_rest(states) | (states & rounds)


def _at_rest_in(behaviour: Behaviour, states: States) -> int:
    """The states of operation at rest that belong to the set, in the behaviour's course."""
    space, course = behaviour.space, behaviour.course
    wide = at_every_clock(course.steps.space, space, states.over(space) & behaviour.proper)
    return course.reached & course.steps.rest & wide


def _relay_steps(facts: Facts, behaviour: Behaviour) -> list[Step]:
    return [one for one in behaviour.course.steps.all if facts.circuit.digits[one.digit].kind == "relay"]


def _for_good(facts: Facts, behaviour: Behaviour, reached: int, relays: list[Step]) -> States:
    """Those of the states that neither relays nor timers ever leave."""
    space, steps = behaviour.space, behaviour.course.steps
    ends = reached & resting_states(steps.space, relays, steps.shorted)
    return facts.spaces.over(space, at_some_clock(space, ends) & behaviour.proper)
