"""What happens between two rests.

An episode begins at a rest with one step that a hand, a motor, a timer or the supply makes, goes on with relays that
move and hand switches that pass between positions, and ends at the next rest: some milliseconds in all. Sets of states
are followed through it, all episodes at once, in the orders that relays' times leave.
"""

from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.course import at_every_clock, at_some_clock
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.resting import Step, following, leading_to, stepped
from circuitcheck.analysis.rounds import Rounds, joined
from circuitcheck.analysis.single_state import Story, story_through
from circuitcheck.analysis.states import Space, States
from circuitcheck.circuit.model import Circuit


class Episodes(NamedTuple):
    """beginning: the steps that begin an episode. going_on: those within one. rests: where they begin and end.

    A hand that passes a switch's open position on its way is taken to rest there. All are over the course of
    `behaviour`, which may have a clock.
    """

    facts: Facts
    behaviour: Behaviour
    beginning: list[Step]
    going_on: list[Step]
    rests: int

    @property
    def space(self) -> Space:
        """The space of the course."""
        return self.behaviour.course.steps.space

    def bits(self, states: States) -> int:
        """A set over the space of the course, whatever its clock reads."""
        return at_every_clock(self.space, self.behaviour.space, states.over(self.behaviour.space))

    def passed(self, start: States) -> States:
        """The states passed in episodes that begin at a rest in `start`."""
        begun = self.bits(start) & self.rests
        first = joined(stepped(self.space, begun, step) for step in self.beginning)
        return self._states(following(self.space, self.going_on, first))

    def before(self, end: States) -> States:
        """The states from which some order of moves ends the episode at a rest in `end`."""
        return self._states(leading_to(self.space, self.going_on, self.bits(end) & self.rests))

    def _states(self, bits: int) -> States:
        space = self.behaviour.space
        return self.facts.spaces.over(space, at_some_clock(space, bits & self.behaviour.course.reached))


def episodes_of(facts: Facts, *sets: States) -> Episodes:
    """The episodes of everything that has a say in the digits of these sets."""
    behaviour = facts.behaviour({digit for states in sets for digit in states.space.digits})
    steps = behaviour.course.steps
    leaving = [step for step in steps.others if step.start >= len(facts.circuit.digits[step.digit].values)]
    beginning = [step for step in steps.others if not _passes_off(facts.circuit, step)]
    proper = at_every_clock(steps.space, behaviour.space, behaviour.proper)
    rests = behaviour.course.reached & steps.rest & proper & ~steps.shorted
    return Episodes(facts, behaviour, beginning, [*steps.quick, *leaving], rests)


def reversal(episodes: Episodes, before: States, after: States, barred: States) -> Story | None:
    """A shortest story from power-up in which a rest in `before` is followed by one in `after`, with nothing `barred`
    on the way between; None where no episode leads so."""
    return _shortest(episodes, before, episodes.bits(after) & episodes.rests, episodes.bits(barred))


def passed_unexplained(loosened: Facts, usual: States) -> States:
    """The states passed in episodes that begin at a rest not in `usual`, but for those from which what is near can
    surely bring it about that the episode ends there, whatever all that is far from the question does.

    It does so by moves that don't hang on what is far, to where no move of anything leads out of `usual` again.
    """
    episodes = episodes_of(loosened, usual)
    if loosened.shorted:
        # A short far away would end the episode elsewhere.
        return episodes.passed(~usual)
    space, there = episodes.space, episodes.bits(usual)
    staying = there & ~leading_to(space, episodes.going_on, space.full ^ there)
    explained = leading_to(space, _sure(loosened, space, episodes.going_on), staying)
    return episodes.passed(~usual) - loosened.spaces.over(space, explained)


def _sure(loosened: Facts, space: Space, steps: list[Step]) -> list[Step]:
    """The steps where they can be taken whatever all that is far does."""
    found = []
    for step in steps:
        allowed = step.allowed
        for move in loosened.moves_of(frozenset({step.digit})):
            if (move.start, move.end) == (step.start, step.end):
                far = digits_of(move.wanted) - set(space.digits)
                allowed &= ~(~move.wanted).at_some(far).over(space)
        found.append(step._replace(allowed=allowed))
    return found


def story_into(episodes: Episodes, before: States, goal: States) -> Story | None:
    """A shortest story from power-up in which an episode that begins at a rest in `before` passes a state in `goal`."""
    return _shortest(episodes, before, episodes.bits(goal), 0)


def _shortest(episodes: Episodes, before: States, goal: int, barred: int) -> Story | None:
    steps = episodes.beginning
    rounds = [episodes.bits(before) & episodes.rests]
    seen = 0
    while rounds[-1] and not (len(rounds) > 1 and rounds[-1] & goal):
        fresh = joined(stepped(episodes.space, rounds[-1], step) for step in steps)
        rounds.append(fresh & ~barred & ~seen)
        seen |= rounds[-1]
        steps = episodes.going_on
    return _told(episodes.behaviour, rounds, goal) if rounds[-1] else None


def _told(behaviour: Behaviour, rounds: list[int], goal: int) -> Story:
    """The way through the rounds of an episode, and before it the way from power-up to where the episode begins."""
    course = behaviour.course
    met = rounds[-1] & goal
    state = (met & -met).bit_length() - 1
    within = behaviour._replace(course=course._replace(rounds=Rounds(rounds)))
    episode = story_through(within, state, len(rounds) - 1)
    state = within.course.origin(state, len(rounds) - 1)
    taken = next(number for number, reached in enumerate(course.rounds) if reached >> state & 1)
    first = story_through(behaviour, state, taken)
    return Story(first.beginning, first.changes + episode.changes)


def _passes_off(circuit: Circuit, step: Step) -> bool:
    """Does every move that this step of a switch begins pass the switch's open position, off?"""
    digit = circuit.digits[step.digit]
    if "off" not in digit.values:
        return False
    off = digit.values.index("off")
    ends = [step.end]
    if step.end >= len(digit.values):
        moves = digit.moments[step.end - len(digit.values)].moves
        ends = [end for start, end in moves if start == step.start]
    return all(min(step.start, end) < off < max(step.start, end) for end in ends)
