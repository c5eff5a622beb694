"""From what somebody asks of sizes to the sizes."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.circuit.wording import name_and_title, suggestion
from circuitcheck.examination import exactly, read_input
from circuitcheck.reports.table_asking import Unanswerable
from circuitcheck.sizing.sizing import Sizing, size_circuit
from circuitcheck.sizing.wires import SizedWire


class Sizes(NamedTuple):
    """What the outputs lay out. name: the plan's, its file's where it has none; title: with what it does."""

    file: str
    name: str
    title: str
    sizing: Sizing


def asked_sizes(path: Path, roots: tuple[Path, ...]) -> Sizes:
    """The sizes of a plan. Raises PlanError where it can't be understood, or has no exact answer within reach."""
    plan = read_input(path, roots)
    circuit = build_circuit(plan)
    sizing = exactly(plan, circuit, lambda: size_circuit(analyse(circuit)))
    name, title = name_and_title(circuit)
    return Sizes(circuit.file, name, title, sizing)


def wire_asked(sizes: Sizes, asked: str) -> SizedWire:
    """The wire of this number ("w12"; where the plan gives none, that of the lists), or with these ends either way
    round ("F1.2-S1.com"). Unanswerable where there is none, or several with one number."""
    found, names = [], []
    for wire, number in zip(sizes.sizing.wires, wire_numbers(sizes.sizing.circuit), strict=True):
        conductor = sizes.sizing.circuit.conductors[wire.lying.info.conductor]
        ends = (f"{conductor.tail}-{conductor.head}", f"{conductor.head}-{conductor.tail}")
        names += [number, ends[0]]
        if asked == number or asked.replace(" ", "-") in ends:
            found.append(wire)
    if not found:
        raise Unanswerable(f"no wire {asked} in {sizes.file}. {suggestion(asked, names)}")
    if len(found) > 1:
        listed = ", ".join(wire.lying.ends for wire in found)
        raise Unanswerable(f"{asked} is {len(found)} wires in {sizes.file}: {listed}. Name one by its ends.")
    return found[0]
