"""Whether pressing something takes the drive from a motor: at once, after a time, or never; and with a relay stuck."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resting import resting_states
from circuitcheck.analysis.sequels import Sequel
from circuitcheck.analysis.states import States


class StillDriven(NamedTuple):
    """Reached states at rest in which a motor is driven although it should not be. `lasting`: no timer ever ends it;
    `passing`: one does."""

    lasting: States
    passing: States


class Stuck(NamedTuple):
    """A relay (by number) that sticks at `value`, the states in which a motor is driven for good because of it, and how
    it comes to that."""

    relay: int
    value: int
    states: States
    sequel: Sequel


def still_driven(facts: Facts, motor: int, stopping: States) -> StillDriven:
    """How a motor is driven in states in which it should have been stopped (an emergency stop is pressed)."""
    wrong = _wrong(facts, motor, stopping)
    if not wrong:
        return StillDriven(wrong, wrong)
    behaviour = facts.behaviour(wrong.space.digits)
    lasting, passing = _driven_in(facts, behaviour, wrong)
    return StillDriven(facts.spaces.over(behaviour.space, lasting), facts.spaces.over(behaviour.space, passing))


def driven_when_stuck(facts: Facts, motor: int, stopping: States) -> Iterator[Stuck]:
    """Each relay, and where it sticks, that keeps a motor driven for good in states in which it should have stopped.

    A relay that has a say in it, directly or by other relays, sticks anywhere that operation brings it to. Where no
    combination at all drives the motor, nothing has to be searched: no fault of a relay can.
    """
    wrong = _wrong(facts, motor, stopping)
    if not wrong:
        return
    concerned = facts.behaviour(wrong.space.digits).space.digits
    for number, relay in enumerate(facts.circuit.relays):
        for value in range(2) if relay.digit in concerned else ():
            if not wrong & facts.spaces.where(relay.digit, (value,)):
                continue
            held = facts.stuck(number, value, wrong.space.digits)
            lasting, _ = _driven_in(facts, held, wrong)
            if lasting:
                word = "operated" if value else "released"
                sequel = Sequel(held, f"{relay.name} sticks {word}")
                yield Stuck(number, value, facts.spaces.over(held.space, lasting), sequel)


def _wrong(facts: Facts, motor: int, stopping: States) -> States:
    return ((facts.motors[motor].driven & stopping) - facts.shorted).tight()


def _driven_in(facts: Facts, behaviour: Behaviour, wrong: States) -> tuple[int, int]:
    """Of the wrong states reached at rest: those that relays and timers never leave for good, and the others."""
    space, course = behaviour.space, behaviour.course
    bits = at_every_clock(course.steps.space, space, wrong.over(space) & behaviour.proper)
    bits &= course.reached & course.steps.rest
    if not bits:
        return 0, 0
    relays = [step for step in course.steps.all if facts.circuit.digits[step.digit].kind == "relay"]
    ends = resting_states(course.steps.space, relays, 0)
    return at_some_clock(space, bits & ends), at_some_clock(space, bits & ~ends)
