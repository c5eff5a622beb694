"""Questions to an analysed plan, in the plan's words; all else stands at its first position, supplies on."""

from textwrap import dedent

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text

State = dict[int, int]


def facts_of(text: str) -> Facts:
    """All that is known of a plan."""
    return analyse(build_circuit(read_text("a.plan", dedent(text))))


def state_of(facts: Facts, **positions: str) -> State:
    """The state with these positions by digit name (K1="operated"); supplies on unless named, all else at first."""
    state = {}
    for number, digit in enumerate(facts.circuit.digits):
        word = positions.pop(digit.name, "on" if digit.kind == "supply" else digit.values[0])
        state[number] = digit.values.index(word)
    assert not positions, f"no digit {', '.join(positions)}"
    return state


def motor_does(facts: Facts, name: str, **positions: str) -> str:
    """shorted, or the one word for what the motor does in that state."""
    state = state_of(facts, **positions)
    if state in facts.shorted:
        return "shorted"
    number = next(number for number, motor in enumerate(facts.circuit.motors) if motor.name == name)
    words = [word for word, states in facts.motors[number].named().items() if state in states]
    assert len(words) == 1
    return words[0].replace(" ", "_")


def is_lit(facts: Facts, name: str, **positions: str) -> bool:
    """Is the lamp lit in that state?"""
    number = next(number for number, load in enumerate(facts.circuit.loads) if load.name == name)
    return state_of(facts, **positions) in facts.lamps[number].lit


def settled_from(facts: Facts, state: State) -> list[State]:
    """Every settled state to which relays, one at a time and in every order, lead from this one. Timers run out."""
    found, waiting, ends = [state], [state], []
    while waiting:
        here = waiting.pop()
        moves = [move for move in facts.relay_moves if here in move.wanted and here not in facts.shorted]
        for move in moves:
            there = here | {facts.circuit.relays[move.relay].digit: move.end}
            if there not in found:
                found.append(there)
                waiting.append(there)
        if not moves:
            ends.append(here)
    return ends


def after(facts: Facts, state: State, **positions: str) -> State:
    """The one settled state that follows when these controls are worked, one after the other."""
    for name, word in positions.items():
        number = next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == name)
        ends = settled_from(facts, state | {number: facts.circuit.digits[number].values.index(word)})
        assert len(ends) == 1, f"{len(ends)} settled states follow"
        state = ends[0]
    return state


def position(facts: Facts, state: State, name: str) -> str:
    """Where a digit stands."""
    number = next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == name)
    return facts.circuit.digits[number].value_name(state[number])
