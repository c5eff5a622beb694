"""From what somebody asks of a plan's motion to what is known of it."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.motion.answers import Motion, motion_of
from circuitcheck.analysis.motion.rooms import DOES_NOT_FIT, HANGS
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.examination import exactly, read_input
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.reports.table_asking import Unanswerable, motor_number


class Moved(NamedTuple):
    """What the outputs lay out. name: the plan's, its file's where it has none; title: with what it does. shorts:
    operation shorts a supply; what motors do then is left out."""

    file: str
    name: str
    title: str
    circuit: Circuit
    motions: tuple[Motion, ...]
    shorts: bool

    @property
    def fits(self) -> bool:
        """Does every stop that could be worked out surely fit, and does no motor surely fail to get its load moving?"""
        senses = [sense for motion in self.motions for sense in motion.senses]
        stops = (stop for sense in senses for stop in sense.stops)
        return not any(sense.held for sense in senses) and not any(
            stop.verdict in (DOES_NOT_FIT, HANGS) for stop in stops
        )


def asked_motion(path: Path, roots: tuple[Path, ...], motor_names: Sequence[str]) -> Moved:
    """The motion of these motors (all for none).

    Raises Unanswerable where the plan has no such motor; PlanError where the plan can't be understood, has no exact
    answer within reach, or a motor's figures contradict each other.
    """
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    motors = dict.fromkeys(motor_number(circuit, name) for name in motor_names) or range(len(circuit.motors))
    if not circuit.motors:
        raise Unanswerable(f"{circuit.file} has no motor.")
    facts = exactly(plan, circuit, lambda: analyse(circuit))
    motions = exactly(plan, circuit, lambda: tuple(motion_of(facts, number) for number in motors))
    problems = tuple(_contradiction(circuit, motion) for motion in motions if motion.contradiction)
    if problems:
        raise PlanError(problems, plan.sources)
    name, title = name_and_title(circuit)
    shorts = exactly(plan, circuit, lambda: any(facts.reached(short.states) for short in facts.shorts))
    return Moved(circuit.file, name, title, circuit, motions, shorts)


def _contradiction(circuit: Circuit, motion: Motion) -> Problem:
    name = circuit.motors[motion.motor].name
    return Problem(circuit.parts[name].place, f"{name}: {motion.contradiction}", "Look these figures up once more.")
