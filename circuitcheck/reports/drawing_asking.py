"""From what somebody asks of a wiring drawing to the drawing."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.settled_state import settled_state
from circuitcheck.analysis.single_state import State
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.state_words import understand_state
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.drawing.drawing import Drawing, lay_out
from circuitcheck.drawing.shown import Shown, at_rest, shown_in
from circuitcheck.examination import exactly, read_input
from circuitcheck.plan.state_words import read_state

NO_PART = "This plan has no part that could be drawn."
NOTHING_ON = "Contacts are drawn as they are with no power, nothing worked, and axes at their first place."


class Drawn(NamedTuple):
    """What the outputs lay out. title: the plan's name and what it does; told: which state is shown, in sentences."""

    circuit: Circuit
    drawing: Drawing
    shown: Shown
    title: str
    told: str


def asked_drawing(path: Path, roots: tuple[Path, ...], state: str | None) -> Drawn:
    """The drawing of a plan in a state, as "S1=raise, deck=top"; None for at rest without power.

    Raises PlanError where the plan or the state can't be understood, or what flows has no exact answer within reach;
    ImportError where there is nothing to lay a drawing out with.
    """
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    _, title = name_and_title(circuit)
    shown, told = at_rest(circuit, usual_beginning(circuit)), NOTHING_ON if circuit.parts else NO_PART
    if state is not None:
        wanted = understand_state(circuit, read_state(state))
        shown, told = exactly(plan, circuit, lambda: _shown(circuit, wanted))
    return Drawn(circuit, lay_out(circuit), shown, title, told)


def _shown(circuit: Circuit, wanted: dict[str, str]) -> tuple[Shown, str]:
    facts = analyse(circuit)
    settled = settled_state(facts, wanted)
    told = f"{_stands(circuit, settled.state, wanted)} {settled.remark}".rstrip()
    return shown_in(circuit, settled.state), told


def _stands(circuit: Circuit, state: State, wanted: dict[str, str]) -> str:
    """What was asked for, and what else stands otherwise than without power."""
    rest = usual_beginning(circuit) | {supply.digit: 0 for supply in circuit.supplies}
    words = [
        f"{digit.name} {digit.value_name(state[number])}"
        for number, digit in enumerate(circuit.digits)
        if digit.name in wanted or state[number] != rest[number]
    ]
    return f"Drawn with {', '.join(words)}, all else at rest." if words else NOTHING_ON
