"""A finding, confirmed or refused by the judge: its steps are walked, its path is traced, its claim is looked at.

The steps are read as they are told to people. Digits that a finding leaves out have no say in it; relays among them may
have to settle before the next step can be taken.
"""

from collections import deque
from collections.abc import Callable, Iterator
from itertools import islice, pairwise, product
from typing import NamedTuple, Protocol

from circuitcheck.circuit.model import Circuit, Terminal
from tests.judge.changeovers import in_the_moment
from tests.judge.claims import CLAIMS, Shown, directions
from tests.judge.one_state import State, is_closed, supply_rails
from tests.judge.orders import Order, refuse_orders
from tests.judge.steps import Judge, with_value

MOST_COMPLETIONS = 20_000
VERBS = {
    "operates": "operated",
    "releases": "released",
    "ends its pulse": "spent",
    "pauses": "pausing",
    "fails": "off",
    "is switched on": "on",
    "press": "pressed",
    "release": "released",
}


class Told(Protocol):
    """What the judge reads of a finding."""

    @property
    def check(self) -> str:
        """The check's name."""

    @property
    def reached(self) -> str:
        """operation, changeover, fault or combination."""

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts involved, the most telling first."""

    @property
    def example(self) -> dict[str, str]:
        """Digit name to position."""

    @property
    def path(self) -> tuple[Terminal, ...]:
        """Terminal by terminal."""

    @property
    def steps(self) -> tuple[str, ...]:
        """From power-up, in words."""

    @property
    def orders(self) -> tuple[Order, ...]:
        """What may follow the steps, where it hangs on which relay is quicker."""


class Turn(NamedTuple):
    """A digit that a told step turns, and the value it gets."""

    digit: int
    value: int


def replay(circuit: Circuit, finding: Told) -> str:
    """Why the judge cannot confirm the finding; "" where it can.

    What no state shows, and what only a fault shows, is not for one state of this circuit.
    """
    if not finding.example or finding.reached == "fault":
        return ""
    judge = Judge(circuit)
    poles = {one.tail for one in circuit.conductors if one.closed and finding.reached == "changeover"}
    told = {name: value for name, value in finding.example.items() if name not in poles}
    example = [turn_of(circuit, f"{name} {value}") for name, value in told.items()]

    def confirms(state: State) -> bool:
        holds = CLAIMS.get(finding.check)
        seen = in_the_moment(circuit, finding.example, state) if finding.reached == "changeover" else judge
        return (
            seen is not None
            and all(state[turn.digit] == turn.value for turn in example)
            and traces(seen.circuit, state, finding.path)
            and (holds is None or holds(Shown(seen, state, finding.parts, finding.path)))
        )

    if finding.reached == "combination":
        states = islice(completions(circuit, example), MOST_COMPLETIONS)
        return "" if any(confirms(state) for state in states) else "no state with the example shows it"
    state = beginning(circuit, finding.steps[0])
    if not begins(circuit, state):
        return f"power-up is never like this: {finding.steps[0]}"
    for step in [step for step in finding.steps[1:] if not step.endswith(" on the way")]:
        turn = turn_of(circuit, step)
        following = after_step(judge, state, turn)
        if following is None and finding.check == "chattering-limit":
            following = gone_back(judge, state, turn)
        if following is None:
            return f"this step cannot be taken: {step}"
        state = following
    if not settled_until(judge, state, confirms):
        return "the steps lead to a state that does not show it"
    return refuse_orders(judge, state, finding.orders, lambda one, step: after_step(judge, one, turn_of(circuit, step)))


def gone_back(judge: Judge, state: State, turn: Turn) -> State | None:
    """The state after an axis that nothing drives has gone off a limit switch, at a rest. None where it hasn't."""
    ready = settled_until(judge, state, lambda one: not judge.relays_moved(one))
    switches = [one for one in judge.circuit.limits if judge.circuit.axes[one.axis].digit == turn.digit]
    if ready is None or not any(ready[turn.digit] in one.zones and turn.value not in one.zones for one in switches):
        return None
    axis = next(one for one in judge.circuit.axes if one.digit == turn.digit)
    return None if directions(judge, ready, axis) else with_value(ready, *turn)


def begins(circuit: Circuit, state: State) -> bool:
    """Is this a power-up: relays released (latching ones anyhow), axes within their range, switches at positions?"""
    return (
        all(state[relay.digit] == 0 for relay in circuit.relays if relay.function != "latching")
        and all(axis.range[0] <= state[axis.digit] <= axis.range[1] for axis in circuit.axes)
        and all(value < len(digit.values) for value, digit in zip(state, circuit.digits, strict=True))
    )


def beginning(circuit: Circuit, words: str) -> State:
    """The state that the first step describes; what it leaves out stands at its first position."""
    state = tuple(0 for _ in circuit.digits)
    for axis in circuit.axes:
        state = with_value(state, axis.digit, axis.range[0])
    for phrase in words.removeprefix("begin with ").split(", "):
        if phrase != "anything":
            state = with_value(state, *turn_of(circuit, phrase))
    return state


def turn_of(circuit: Circuit, words: str) -> Turn:
    """The digit and value that some words speak of: "S1 raise", "deck at top", "K1 operates", "press PB1"."""
    number, digit = next(pair for pair in enumerate(circuit.digits) if pair[1].name in words.split())
    rest = " ".join(word for word in words.split() if word != digit.name)
    named = [(digit.value_name(value), value) for value in range(digit.radix)]
    named += [(verb, value) for verb, name in VERBS.items() for known, value in tuple(named) if known == name]
    fitting = [(len(name), value) for name, value in named if f" {name} " in f" {rest} "]
    return Turn(number, max(fitting)[1])


def after_step(judge: Judge, state: State, turn: Turn) -> State | None:
    """The state after the step; relays may have to settle first. None where it cannot be taken."""
    ready = settled_until(judge, state, lambda one: with_value(one, *turn) in judge.successors(one))
    return with_value(ready, *turn) if ready else None


def settled_until(judge: Judge, state: State, wanted: Callable[[State], bool]) -> State | None:
    """The first state, by relays moving alone, that is as wanted; this one if it is."""
    found, waiting = {state}, deque([state])
    while waiting:
        here = waiting.popleft()
        if wanted(here):
            return here
        for there in judge.relays_moved(here):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return None


def completions(circuit: Circuit, example: list[Turn]) -> Iterator[State]:
    """Every state with the example's values, hand switches at positions."""
    given = dict(example)
    return product(
        *(
            (given[number],) if number in given else range(len(digit.values))
            for number, digit in enumerate(circuit.digits)
        )
    )


def traces(circuit: Circuit, state: State, path: tuple[Terminal, ...]) -> bool:
    """Does each step of the path run over a closed conductor, a load, or through a supply that is on?"""
    closed = {(one.tail, one.head) for one in circuit.conductors if is_closed(one, state)}
    closed |= {(one.head, one.tail) for one in circuit.conductors if is_closed(one, state) and not one.one_way}
    closed |= {ends for load in circuit.loads for ends in ((load.a, load.b), (load.b, load.a))}
    on = [pair for pair, one in zip(supply_rails(circuit), circuit.supplies, strict=True) if state[one.digit] == 1]
    return all(
        step in closed or step[0] == step[1] or any(goes_through(step, *pair) for pair in on) for step in pairwise(path)
    )


def goes_through(step: tuple[Terminal, Terminal], plus: frozenset[Terminal], minus: frozenset[Terminal]) -> bool:
    """Does the step lead from one rail of a supply to its other, or along the same rail?"""
    return any({*step} <= one | other and step[0] in one for one, other in ((plus, minus), (minus, plus)))
