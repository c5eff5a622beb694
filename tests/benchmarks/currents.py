"""How long all distinct operating points take: `python -m tests.benchmarks.currents`.

Every plan of examples/right with half a metre of 1 mm2 for each wire that says nothing, then a box with many motors.
"""

from pathlib import Path
from time import process_time

from circuitcheck.analysis.currents import Currents
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.resistances import Setting
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.figures import Conditions
from circuitcheck.plan.reading import read_plan, read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
AXIS = """
switch S{n} spdt positions open off close
relay  K{n} K{n}b spdt coil 12 V 160 ohm with diode
motor  M{n} 12 V stall 8 A
rung   F1.2, S{n}.com-open, K{n}.A1-A2, PS.-
rung   S{n}.close, K{n}b.A1-A2, PS.-
rung   F1.2, K{n}.14-11, M{n}, K{n}b.11-14, F1.2
wire   K{n}.12 PS.-
wire   K{n}b.12 PS.-
"""


def seconds(facts: Facts) -> tuple[float, int]:
    """The time for all currents of a plan, shorts already known; and how many cases there are."""
    wired = facts.circuit._replace(conditions=Conditions(area_mm2=1.0, metres=0.5))
    analysed = Facts(wired, facts.conduction)
    started = process_time()
    cases = list(Currents(analysed, Setting()).of_all())
    return process_time() - started, len(cases)


def many_motors(count: int) -> Facts:
    """So many reversible motors on one supply."""
    axes = "".join(AXIS.format(n=number) for number in range(1, count + 1))
    return analyse(build_circuit(read_text("many.plan", f"supply PS 12 V 100 A\nfuse F1 30 A\nwire PS.+ F1.1\n{axes}")))


if __name__ == "__main__":
    for path in sorted((EXAMPLES / "right").glob("*.plan")):
        took, cases = seconds(analyse(build_circuit(read_plan(path, (EXAMPLES / "parts",)))))
        print(f"{path.stem:30} {cases:4} cases {took:7.3f} s")
    for count in (1, 10, 30):
        took, cases = seconds(many_motors(count))
        print(f"{count:3} motors {'':19} {cases:4} cases {took:7.3f} s")
