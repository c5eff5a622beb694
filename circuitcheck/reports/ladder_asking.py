"""From what somebody asks of a ladder to what is drawn."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.settled_state import settled_state
from circuitcheck.analysis.single_state import State
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.state_words import understand_state
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.ladder.ladder import ladder_of
from circuitcheck.ladder.rungs import Ladder
from circuitcheck.plan.state_words import read_state
from circuitcheck.reports.ladder_lights import Lights


class Redrawn(NamedTuple):
    """What the outputs lay out. name: the plan's, its file's where it has none; title: with what it does.

    lights: what conducts; nothing where no state is asked for. state: in words, "" for none; remark: what hangs on more
    than what was named of it.
    """

    name: str
    title: str
    facts: Facts
    ladder: Ladder
    lights: Lights
    state: str
    remark: str


def asked_ladder(path: Path, roots: tuple[Path, ...], state_text: str | None) -> Redrawn:
    """The ladder of a plan, lit as in a state ("S1=raise") where one is asked for.

    Raises PlanError where the plan or the state can't be understood, or there is no exact answer within reach.
    """
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    wanted = None if state_text is None else understand_state(circuit, read_state(state_text))
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    return exactly(plan, circuit, lambda: redrawn(facts, wanted))


def redrawn(facts: Facts, wanted: dict[str, str] | None = None) -> Redrawn:
    """The ladder of a circuit, lit as with these digits in these positions, if any. Raises what working out volts and
    behaviour may raise (see examination.exactly)."""
    circuit, ladder = facts.circuit, ladder_of(facts)
    name, title = name_and_title(circuit)
    if wanted is None:
        return Redrawn(name, title, facts, ladder, Lights(facts, None), "", "")
    state, remark = settled_state(facts, wanted)
    return Redrawn(name, title, facts, ladder, Lights(facts, state), state_words(facts, state), remark)


def state_words(facts: Facts, state: State) -> str:
    """ "PS on, S1 raise, deck at top": every digit."""
    digits = facts.circuit.digits
    return ", ".join(f"{digits[number].name} {digits[number].value_name(value)}" for number, value in state.items())
