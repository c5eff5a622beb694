"""How long a bench sheet and a diagnosis take, and how short the sheets are.

Run: python -m tests.benchmarks.bench_sheets

The examples for people, then boxes of several reversers (two relays, one motor and two limits each). Seconds are the
processor's, for the whole sheet from the circuit on; a diagnosis is that of the first motor being dead.
"""

import time
from pathlib import Path

from circuitcheck.analysis.bench.candidates import Boxes
from circuitcheck.analysis.bench.sheet import bench_sheet
from circuitcheck.analysis.bench.symptoms import explain
from circuitcheck.analysis.bench.telling import most_telling
from circuitcheck.analysis.doing import nobody
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.reports.diagnose_words import understood

EXAMPLES = Path(__file__).parents[2] / "examples"
REVERSERS = (2, 4, 6)


def reversers(count: int) -> str:
    """A plan with so many motors, each with its fuse, switch, relays and limits."""
    lines = ["supply PS 12 V 30 A"]
    for n in range(1, count + 1):
        lines += [
            f"fuse F{n} 10 A",
            f"switch S{n} spdt positions raise off lower",
            f"relay K{n}A K{n}B dpdt 25 A coil 12 V 86 ohm with diode",
            f"axis deck{n} from bottom to top",
            f"limit LA{n} nc on deck{n} at top",
            f"limit LB{n} nc on deck{n} at bottom",
            f"motor M{n} 12 V stall 9 A drives deck{n} toward top",
            f"rung PS.+, F{n}, S{n}.com-raise, LA{n}, K{n}A.A1-A2, PS.-",
            f"rung S{n}.lower, LB{n}, K{n}B.A1-A2, PS.-",
            f"rung F{n}.2, K{n}A.14",
            f"rung F{n}.2, K{n}B.14",
            f"rung K{n}A.12, PS.-",
            f"rung K{n}B.12, PS.-",
            f"wire K{n}A.11 M{n}.+",
            f"wire K{n}B.11 M{n}.-",
        ]
    return "\n".join(lines) + "\n"


def measured(name: str, circuit: Circuit) -> str:
    """A row of the table."""
    faults = single_faults(circuit)
    beginning = time.process_time()
    sheet = bench_sheet(circuit, faults, nobody)
    seconds = time.process_time() - beginning
    lines = " + ".join(f"{len(stage.lines)}" for stage in sheet.stages)
    longer = sum(len(stage.lines) - stage.at_least for stage in sheet.stages)
    asked = f"{diagnosis_seconds(circuit):9.1f}" if circuit.motors else f"{'':>9}"
    return f"{name:24} {len(faults):6} {len(sheet.unseen):6} {lines:>12} {longer:6} {seconds:9.1f} {asked}"


def diagnosis_seconds(circuit: Circuit) -> float:
    """Of a first answer with the next reading."""
    beginning = time.process_time()
    seen = understood(circuit, f"{circuit.motors[0].name} dead")
    most_telling(explain(Boxes(circuit, single_faults(circuit)), (seen,), nobody).boxes)
    return time.process_time() - beginning


def main() -> None:
    """The table."""
    print(f"{'':24} {'faults':>6} {'unseen':>6} {'lines':>12} {'longer':>6} {'sheet s':>9} {'asked s':>9}")
    for path in sorted((EXAMPLES / "right").glob("*.plan")):
        print(measured(path.stem, build_circuit(read_plan(path, (EXAMPLES,)))), flush=True)
    for count in REVERSERS:
        print(measured(f"{count} reversers", build_circuit(read_text("reversers.plan", reversers(count)))), flush=True)


if __name__ == "__main__":
    main()
