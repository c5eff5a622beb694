"""What a check is, and what it hands over.

A check says only which parts, which states, which way and which words. What is the same for all (the smallest example,
how it is reached, the steps from power-up, the count, the places) is worked out once, in findings.py.
"""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from circuitcheck.plan.source import Place

# Findings are read back from the cache without the engine that made them, so none of it is loaded with their types.
if TYPE_CHECKING:
    from circuitcheck.analysis.changeover import Travelling
    from circuitcheck.analysis.facts import Facts
    from circuitcheck.analysis.sequels import Sequel
    from circuitcheck.analysis.settling import Unsettled
    from circuitcheck.analysis.single_state import State, Story
    from circuitcheck.analysis.states import States
    from circuitcheck.circuit.model import Terminal

SEVERITIES = ("error", "warning", "note")


class Example(NamedTuple):
    """A plan for a page and for a test. Lines marked `#! check-name` are where that check must find something."""

    title: str
    plan: str


class Evidence(NamedTuple):
    """One thing that a check found.

    what: one sentence with no full stop, in the plan's own words; "{state}" in it stands for the example.
    parts: the names of the parts involved, the most telling first. places: in the text, the first is the one
    shown; none for those of the parts.
    states: in which it is so; None for what is wrong whatever the state (a terminal with no wire).
    lasting: count only states that last until a hand or a motor moves something, not those passed in between.
    way: where the current runs, as stretches from terminal to terminal; through: loads that it passes.
    severity, why, remedy: where this one differs from the check's own.
    reached: where the check knows it ("fault"); else it is worked out from the states.
    unsettled: where the order of relays' moves decides, or relays never rest; it brings its own states.
    story: how it comes about, where the check knows it; else a shortest one to `states`. told: the same in words, where
    the check tells it itself, with the `example` that it ends in.
    travelling: where it is so only during a changeover; it brings its own states.
    sequel: where it is so only in what follows of an event; the steps then lead through that event.
    """

    what: str
    parts: tuple[str, ...]
    states: "States | None" = None
    lasting: bool = False
    way: "tuple[tuple[Terminal, Terminal], ...]" = ()
    through: tuple[int, ...] = ()
    places: tuple[Place, ...] = ()
    severity: str = ""
    why: str = ""
    remedy: str = ""
    reached: str = ""
    story: "Story | None" = None
    unsettled: "Unsettled | None" = None
    travelling: "Travelling | None" = None
    sequel: "Sequel | None" = None
    told: tuple[str, ...] = ()
    example: "State | None" = None


class Check(NamedTuple):
    """The page of a check, for `explain` and every report; its examples are tests.

    finds, why, how, remedy, limits: whole sentences. proves: what holds where the check finds nothing.
    severity: "error", "warning" or "note".
    wrong: each must give exactly the marked findings; right: none of this check, each a near miss.
    """

    name: str
    severity: str
    finds: str
    proves: str
    why: str
    how: str
    remedy: str
    limits: str
    wrong: tuple[Example, ...]
    right: tuple[Example, ...]


Find = Callable[["Facts"], Iterator[Evidence]]


class Telling(NamedTuple):
    """One of the orders in which relays may move once the steps are taken.

    quicker: the relay that has to be the quicker one for it, "" where it doesn't hang on that. steps: what happens.
    ends: what it ends with, as "M1 forward"; "for ever" where the last steps come again and again.
    """

    quicker: str
    steps: tuple[str, ...]
    ends: str


class Stretch(NamedTuple):
    """One step of a current's path: it enters at `tail` and leaves at `head`.

    part: what it passes, "" for a wire. words: "F1.1-2", "the wire PS.+ to F1.1", "through M1".
    """

    tail: "Terminal"
    head: "Terminal"
    part: str
    words: str
    place: Place


class Finding(NamedTuple):
    """Evidence made complete; see design of a finding in DEVELOPERS.md.

    reached: "operation", "changeover", "fault" or "combination". example: digit name to position, only those that
    matter. path: terminal by terminal. steps: from power-up. seen, of: in how many states of how many; 0, 0 where the
    state plays no part or they are not counted. orders: where it hangs on which relay is quicker, what follows the
    steps, told both ways; where relays never rest, told once. way: the path's stretches; where two terminals that
    follow each other aren't joined, one way ends and another begins. accepted: the reason where the plan accepts it.
    known: it stands in the baseline.
    """

    check: str
    severity: str
    reached: str
    what: str
    parts: tuple[str, ...]
    where: tuple[Place, ...]
    example: dict[str, str]
    path: "tuple[Terminal, ...]"
    steps: tuple[str, ...]
    seen: int
    of: int
    why: str
    remedy: str
    orders: tuple[Telling, ...] = ()
    way: tuple[Stretch, ...] = ()
    accepted: str = ""
    known: bool = False

    @property
    def counts(self) -> bool:
        """Does it decide about the exit status, if it is severe enough?"""
        return not self.accepted and not self.known
