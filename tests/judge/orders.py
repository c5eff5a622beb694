"""The orders in which relays may move, as a finding tells them, walked move by move."""

from collections.abc import Callable
from typing import Protocol

from tests.judge.claims import by_relays, motor_words
from tests.judge.one_state import State
from tests.judge.steps import Judge

After = Callable[[State, str], State | None]
"""The state after a told step; None where it cannot be taken."""


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


def refuse_orders(judge: Judge, state: State, orders: tuple[Order, ...], after: After) -> str:
    """Why the orders told are not what may follow the state; "" where they are."""
    for order in orders:
        passed = [state]
        for step in order.steps:
            following = after(passed[-1], step)
            if following is None:
                return f"this step cannot be taken: {step}"
            passed.append(following)
        if order.quicker and not any(order.ends in said(judge, end) for end in standstills(judge, passed[-1])):
            return f"it does not end with {order.ends}"
        if not order.quicker and passed[-1] not in passed[:-1]:
            return "it does not go on for ever"
    if len({order.ends for order in orders}) < len(orders):
        return "two orders end alike"
    return ""


def standstills(judge: Judge, state: State) -> list[State]:
    """Where relays come to rest from here: those that the story leaves out may have to move yet."""
    return [end for end in by_relays(judge, state) if judge.is_settled(end)]


def said(judge: Judge, state: State) -> set[str]:
    """What may be told of a state: each motor, lamp and relay with its word."""
    circuit = judge.circuit
    words = {f"{name} {word}" for name, word in motor_words(judge, state).items()}
    words |= {f"{circuit.loads[number].name} {word}" for number, word in judge.judged(state).lamps.items()}
    return words | {f"{one.name} {one.value_name(value)}" for one, value in zip(circuit.digits, state, strict=True)}
