"""From a finding's steps, in words, back to the moves that they tell."""

from collections.abc import Sequence

from circuitcheck.analysis.single_state import Change, State
from circuitcheck.analysis.whereabouts import Move
from circuitcheck.checks.narration import change_words, digit_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning


def read_back(circuit: Circuit, steps: Sequence[str]) -> tuple[State, list[Move | None]]:
    """The beginning, which the first step tells, and the move that each step after it tells.

    None for what moves nothing: contacts on their way, a relay that sticks, a fault.
    """
    every = [(number, value) for number, digit in enumerate(circuit.digits) for value in range(digit.radix)]
    settings = {digit_words(circuit, number, value): (number, value) for number, value in every}
    told_moves = {change_words(circuit, Change(number, 0, value, {})): (number, value) for number, value in every}
    begun = steps[0].removeprefix("begin with ").split(", ")
    beginning = usual_beginning(circuit) | dict(settings[words] for words in begun if words in settings)
    return beginning, [told_moves.get(words) for words in steps[1:]]
