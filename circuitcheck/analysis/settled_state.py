"""A whole state from the few positions that somebody names: relays come to rest as they would.

What is named stands as named, relays too; supplies are on, axes at their first place, all else at its first position.
The other relays then settle from released, in whatever order their times leave: in a circuit in which nothing but they
can move, traced like a story without any action.
"""

from collections.abc import Iterable
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.supposed import Change, supposed
from circuitcheck.analysis.tracing import Remark, trace_plot
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import Plot, usual_beginning
from circuitcheck.circuit.wording import listed


class Settled(NamedTuple):
    """state: a value for each digit. remark: what hangs on more than what was named, in sentences; "" for nothing."""

    state: State
    remark: str


def settled_state(facts: Facts, wanted: dict[str, str]) -> Settled:
    """The state in which these digits stand so, by their names and their values' or moments' names.

    Of several states that relays may come to rest in the remark says which is shown. KeyError for a name, ValueError
    for a position that there isn't (circuit/state_words.py asks before).
    """
    circuit = facts.circuit
    numbers = {digit.name: number for number, digit in enumerate(circuit.digits)}
    named = {numbers[name]: _value(circuit, numbers[name], word) for name, word in wanted.items()}
    beginning = usual_beginning(circuit) | named
    free = {relay.digit for relay in circuit.relays} - named.keys()
    held = analyse(_only_moving(circuit, free, beginning), facts.spaces)
    steps = trace_plot(held, Plot(beginning, ())).steps
    remarks = [remark for step in steps for remark in step.remarks]
    end = steps[-1].state
    sentences = [words for remark in remarks for words in _words(circuit, remark, end)]
    if steps[-1].shorted:
        sentences = ["A supply is shorted: relays are shown as they stand at that moment."]
    else:
        sentences += _leaving(facts, named, end)
    return Settled(end, " ".join(dict.fromkeys(sentences)))


def _value(circuit: Circuit, number: int, word: str) -> int:
    digit = circuit.digits[number]
    return [digit.value_name(value) for value in range(digit.radix)].index(word)


def _only_moving(circuit: Circuit, free: set[int], beginning: State) -> Circuit:
    """The circuit in which only these relays move. Moments count as positions, so that one can stand there."""
    still = [number for number in range(len(circuit.digits)) if number not in free]
    held = supposed(circuit, Change(stuck=tuple((number, beginning[number]) for number in still)))
    return held._replace(
        digits=tuple(
            digit._replace(values=tuple(map(digit.value_name, range(digit.radix))), moments=()) for digit in held.digits
        ),
        motors=tuple(motor._replace(axis=None) for motor in held.motors),
        axes=(),
        limits=(),
    )


def _words(circuit: Circuit, remark: Remark, end: State) -> Iterable[str]:
    names = listed((circuit.digits[digit].name for digit in remark.digits), "and")
    s = "s" if len(remark.digits) == 1 else ""
    if remark.kind == "orders":
        shown = listed((_stands(circuit, digit, end[digit]) for digit in remark.digits), "and")
        yield f"Which relay is quicker decides how {names} come{s} to rest: shown is {shown}."
    elif remark.kind in ("never settles", "undecided"):
        yield f"{names} never settle{s}: one of the states that follow each other is shown."
    elif remark.kind == "timing":
        yield f"The time of {names} runs: shown is what holds until it has run out."


def _leaving(facts: Facts, named: State, end: State) -> Iterable[str]:
    """Relays that are named in a position which they would leave."""
    for number, relay in enumerate(facts.circuit.relays):
        if relay.digit in named and any(end in move.wanted for move in facts.moves[number]):
            yield f"{_stands(facts.circuit, relay.digit, end[relay.digit])} is held so: it would not stay."


def _stands(circuit: Circuit, digit: int, value: int) -> str:
    return f"{circuit.digits[digit].name} {circuit.digits[digit].value_name(value)}"
