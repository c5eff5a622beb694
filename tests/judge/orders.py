"""The orders in which relays may move, as a finding tells them, walked move by move."""

from collections import deque
from collections.abc import Callable
from typing import Protocol, TypeVar

from tests.judge.claims import motor_words
from tests.judge.one_state import State
from tests.judge.steps import Judge
from tests.judge.times import in_time


class Story(Protocol):
    """How far a story has come."""

    @property
    def judge(self) -> Judge:
        """Who judges it from here on."""

    @property
    def passed(self) -> tuple[State, ...]:
        """The states up to here."""


Told = TypeVar("Told", bound=Story)


class Order(Protocol):
    """What the judge reads of one order."""

    @property
    def quicker(self) -> str:
        """The relay that is quicker, "" for what never ends."""

    @property
    def steps(self) -> tuple[str, ...]:
        """What happens, in words."""

    @property
    def ends(self) -> str:
        """What it ends with, in words."""


def refuse_orders(
    story: Told, orders: tuple[Order, ...], told: set[int], after: Callable[[Told, str], Told | None]
) -> str:
    """Why the orders told are not what may follow the story; "" where they are. after: the story with one told step
    more, None where it cannot be taken. told: the digits that have a say."""
    for order in orders:
        further = story
        for step in order.steps:
            following = after(further, step)
            if following is None:
                return f"this step cannot be taken: {step}"
            further = following
        passed = further.passed[len(story.passed) - 1 :]
        ends = [end for end in standstills(story.judge, passed[-1]) if order.ends in said(story.judge, end[-1])]
        ends = ends if order.quicker else [[passed[-1]]]
        if not ends:
            return f"it does not end with {order.ends}"
        if not order.quicker and passed[-1] not in passed[:-1]:
            return "it does not go on for ever"
        if not any(in_time(story.judge, (*further.passed, *end[1:]), told) for end in ends):
            return f"relays' times exclude what ends with {order.ends}"
    if len({order.ends for order in orders}) < len(orders):
        return "two orders end alike"
    return ""


def standstills(judge: Judge, state: State) -> list[list[State]]:
    """The ways by which all relays but timers come to rest from here, a shortest one to each rest: those that the story
    leaves out may have to move yet."""
    ways, waiting = {state: [state]}, deque([state])
    while waiting:
        here = waiting.popleft()
        for there in judge.relays_moved(here):
            if there not in ways:
                ways[there] = [*ways[here], there]
                waiting.append(there)
    return [way for end, way in ways.items() if not list(judge.relays_moved(end))]


def said(judge: Judge, state: State) -> set[str]:
    """What may be told of a state: each motor, lamp and relay with its word."""
    circuit = judge.circuit
    words = {f"{name} {word}" for name, word in motor_words(judge, state).items()}
    words |= {f"{circuit.loads[number].name} {word}" for number, word in judge.judged(state).lamps.items()}
    return words | {f"{one.name} {one.value_name(value)}" for one, value in zip(circuit.digits, state, strict=True)}
