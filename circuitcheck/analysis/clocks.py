"""Relays whose operate and release times are given: which orders the times leave, exactly.

A relay whose coil begins to want a move makes it after a time within its range, if it goes on wanting it; without a
range it may take any time. Two relays that may move at the very same moment may do so in either order.

What can follow then hangs not only on the state but on how long the waiting relays may still take. So the space gets
one more digit, the clock: value c of a state is the c-th thing known of the times left there (see time_left.py), and 0
is that all its relays began to wait just now. Over that wider space every step is a mask and a shift again, and all
that is asked of steps (what follows, what leads where, where it rests) is asked as it is without times.

    quick       relays, each within its time
    anytime     a hand switch arrives from between two positions: waiting goes on for whoever still waits
    at rest     controls, axes, supplies, timers: where nobody waits, or where relays go round for ever
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from circuitcheck.analysis.resting import Step, resting_states, stepped
from circuitcheck.analysis.rounds import joined
from circuitcheck.analysis.space import Space
from circuitcheck.analysis.time_left import (
    Known,
    Range,
    extended,
    just_begun,
    of_these,
    once_first_moves,
    some_time_later,
)

Waiting = tuple[int, ...]
"""The quick steps that are wanted, by their numbers."""


MOST_STEPS: Final = 2_500
"""Steps that are told apart by the times left; relays that drift against each other would have no end of them."""


MOST_BITS: Final = 1 << 31
"""Bits that the sets told apart may have together: 256 MB."""


class TooManyTimes(Exception):
    """More has to be known of the times left than can be told apart."""


class Clocked(NamedTuple):
    """Steps over `space`, which has the clock as its last digit; bits over it that have it at 0 have all just begun."""

    space: Space
    quick: tuple[Step, ...]
    anytime: tuple[Step, ...]
    at_rest: tuple[Step, ...]


class _Moment(NamedTuple):
    """The states in which these wait, with what is known of their times left."""

    waiting: Waiting
    known: Known


def clocked(
    space: Space, quick: list[Step], ranges: list[Range], anytime: list[Step], at_rest: list[Step], beginning: int,
    shorted: int,
) -> Clocked:  # fmt: skip
    """The steps that times leave, from `beginning` on. ranges: of each quick step. at_rest: allowed wherever it may be
    at rest; what is left of them is allowed where it is. Raises TooWide, TooManyTimes."""
    course = _Course(space, quick, ranges, anytime, at_rest)
    course.begin(beginning)
    settled = -1
    while settled != course.size:
        settled = course.size
        found = course.result()
        for moment, bits in course.resting(found, shorted):
            course.move_on(moment, bits, at_rest, len(quick) + len(anytime))
        course.run()
    return course.result()


class _Course:
    """All moments that are met, each with its states, and the steps between them."""

    def __init__(
        self, space: Space, quick: list[Step], ranges: list[Range], anytime: list[Step], at_rest: list[Step]
    ) -> None:
        self._space = space
        self._quick = quick
        self._ranges = ranges
        self._anytime = anytime
        self._at_rest = at_rest
        self._met: dict[_Moment, int] = {}
        self._numbers: dict[Waiting, dict[Known, int]] = {}
        self._taken: dict[tuple[int, int, int], int] = {}
        self._ahead: dict[_Moment, int] = {}
        self._most_sets = MOST_BITS // space.size

    @property
    def size(self) -> int:
        """How much is met: nothing more can follow where that doesn't grow."""
        return sum(bits.bit_count() for bits in self._met.values())

    def begin(self, states: int) -> None:
        """All that wait in these states begin to wait now."""
        for waiting, bits in self._by_waiting(states):
            self._meet(_Moment(waiting, self._just_begun(waiting)), bits)
        self.run()

    def run(self) -> None:
        """Follows relays, and switches that arrive, as far as they lead."""
        while self._ahead:
            # The longest waiting first: meanwhile more states have come together there.
            moment = next(iter(self._ahead))
            bits = self._ahead.pop(moment)
            for place, number in enumerate(moment.waiting, 1):
                left = once_first_moves(moment.known, place)
                if left is not None:
                    others = tuple(one for one in moment.waiting if one != number)
                    self._take(moment, bits, number, self._quick[number], others, left)
            self.move_on(moment, bits, self._anytime, len(self._quick))
            if not moment.waiting:
                self.move_on(moment, bits, self._at_rest, len(self._quick) + len(self._anytime))

    def move_on(self, moment: _Moment, bits: int, steps: Sequence[Step], first_number: int) -> None:
        """Something else than a relay moves, after any while."""
        later = some_time_later(moment.known)
        for number, step in enumerate(steps, first_number):
            self._take(moment, bits, number, step, moment.waiting, later)

    def result(self) -> Clocked:
        """The steps over the space with the clock, as far as they are known."""
        radix = max(map(len, self._numbers.values()), default=1)
        space = Space((*self._space.digits, 1 + max(self._space.digits, default=0)), (*self._space.radices, radix))
        all_steps = [*self._quick, *self._anytime, *self._at_rest]
        steps: list[list[Step]] = [[], [], []]
        firsts = (len(self._quick), len(self._quick) + len(self._anytime))
        for (number, before, after), bits in self._taken.items():
            clock = (after - before) * self._space.size
            step = all_steps[number]._replace(allowed=bits << before * self._space.size, clock=clock)
            steps[(number >= firsts[0]) + (number >= firsts[1])].append(step)
        return Clocked(space, *map(tuple, steps))

    def resting(self, found: Clocked, shorted: int) -> Iterator[tuple[_Moment, int]]:
        """The moments in which relays go round for ever, with their states."""
        stopped = joined(shorted << clock * self._space.size for clock in range(found.space.radices[-1]))
        rest = resting_states(found.space, list(found.quick), stopped)
        for moment, bits in tuple(self._met.items()):
            going_round = bits & rest >> self._number(moment) * self._space.size
            if moment.waiting and going_round:
                yield moment, going_round

    def _take(self, moment: _Moment, bits: int, number: int, step: Step, waiting: Waiting, left: Known) -> None:
        """The step, after which `left` is known of those that were waiting; those that still wait go on."""
        if not bits & step.allowed:
            return
        for after, arrived in self._by_waiting(stepped(self._space, bits, step)):
            going_on = tuple(place for place, one in enumerate(waiting, 1) if one in after)
            order = [waiting[place - 1] for place in going_on]
            new = [one for one in after if one not in order]
            known = extended(of_these(left, going_on), tuple(self._ranges[one] for one in new))
            order += new
            then = _Moment(after, of_these(known, tuple(order.index(one) + 1 for one in after)))
            self._meet(then, arrived)
            back = Step(step.digit, step.end, step.start, self._space.full)
            key = (number, self._number(moment), self._number(then))
            if len(self._taken) > min(MOST_STEPS, self._most_sets):
                raise TooManyTimes
            self._taken[key] = self._taken.get(key, 0) | stepped(self._space, arrived, back)

    def _meet(self, moment: _Moment, bits: int) -> None:
        before = self._met.get(moment, 0)
        if bits & ~before:
            self._number(moment)
            self._met[moment] = before | bits
            self._ahead[moment] = self._ahead.get(moment, 0) | (bits & ~before)

    def _number(self, moment: _Moment) -> int:
        numbers = self._numbers.get(moment.waiting)
        if numbers is None:
            numbers = self._numbers[moment.waiting] = {self._just_begun(moment.waiting): 0}
        return numbers.setdefault(moment.known, len(numbers))

    def _just_begun(self, waiting: Waiting) -> Known:
        return just_begun([self._ranges[number] for number in waiting])

    def _by_waiting(self, states: int) -> Iterator[tuple[Waiting, int]]:
        """The states by which relays want to move in them. TooManyTimes where those sets would fill the memory."""
        parts: list[tuple[Waiting, int]] = [((), states)] if states else []
        for number, step in enumerate(self._quick):
            divided = []
            for waiting, bits in parts:
                wanted = bits & step.allowed
                divided += [((*waiting, number), wanted)] if wanted else []
                divided += [(waiting, bits ^ wanted)] if bits ^ wanted else []
            parts = divided
            if len(parts) > self._most_sets:
                raise TooManyTimes
        yield from parts
