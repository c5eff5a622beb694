"""This engine against general ones: `python -m tests.benchmarks.others [ROW …]`.

The same circuits, the same question, from the circuit on to the answer, each in a process of its own: by this engine,
state by state with networkx, by a SAT solver, by an SMT solver and by two decision-diagram libraries (needs the extra
`benchmarks`). Answers are compared. Seconds are the processor's, from the circuit to the answer, once an engine is
loaded, with Python looking for rubbish as seldom as in the tool itself. A figure is the median of three runs with the
least and the most, then the peak of memory, then how many times this engine's median it is, then what loading takes.
A row "streamed" tells what it takes to read as many bits as the question has, each contact's states once.
"""

import gc
import importlib
import json
import platform
import resource
import subprocess
import sys
import time
from importlib.metadata import version
from math import prod
from statistics import median
from typing import NamedTuple

from circuitcheck.analysis.engines import answered
from circuitcheck.analysis.facts import analyse, conduction_of
from circuitcheck.analysis.rails import shorts
from circuitcheck.analysis.states import Spaces
from tests.benchmarks.every_question import own_every
from tests.benchmarks.questions import Asked, Question, question_of, questions

RUNS = 3
PATIENCE = 60.0
LIBRARIES = ("networkx", "python-sat", "z3-solver", "oxidd", "dd")
ENGINES = {
    "here": ("short", "every", "count", "reached"),
    "networkx": ("short", "every", "count", "reached"),
    "cadical": ("short", "every"),
    "z3": ("short", "every"),
    "oxidd": ("short", "every", "count", "reached"),
    "cudd": ("short", "every", "count", "reached"),
    "streamed": ("count",),
}
"""Each engine with the kinds of question that it can answer: a solver finds one state, and counts none."""

LOADED = {
    "here": ("circuitcheck.analysis.buses", "circuitcheck.analysis.blocks", "circuitcheck.analysis.diagram_sets"),
    "networkx": ("networkx", "tests.benchmarks.by_plain_search"),
    "cadical": ("pysat.solvers", "pysat.card", "tests.benchmarks.by_solvers"),
    "z3": ("z3", "tests.benchmarks.by_solvers"),
    "oxidd": ("oxidd.bdd", "tests.benchmarks.by_general_diagrams"),
    "cudd": ("dd.cudd", "tests.benchmarks.by_general_diagrams"),
    "streamed": ("numpy",),
}
"""What each has to import besides; this engine loads these only where a question is wide."""


class Told(NamedTuple):
    """answer: None where not all states were looked at; then the seconds are extrapolated. megabytes: the peak."""

    answer: int | bool | None
    seconds: float
    megabytes: float
    loading: float


def ask(engine: str, row: str, expected: int) -> Told:
    """Asks in this process. expected: how many states are reached, for an engine that looks at some of them only."""
    asked = questions()[row]()
    gc.set_threshold(100_000, 50, 50)
    begun = time.process_time()
    for module in LOADED[engine]:
        importlib.import_module(module)
    loading = time.process_time() - begun
    begun = time.process_time()
    answer, seconds = own_answer(asked) if engine == "here" else others_answer(engine, question_of(asked), expected)
    seconds = time.process_time() - begun if seconds is None else seconds
    return Told(answer, seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, loading)


Answer = tuple[int | bool | None, float | None]
"""With the seconds, where it isn't the time that passed."""


def others_answer(engine: str, question: Question, expected: int) -> Answer:
    """By one of the others."""
    if engine == "networkx":
        from tests.benchmarks.by_plain_search import search_answer
        from tests.benchmarks.every_question import search_every

        if question.kind == "every":
            return search_every(question), None
        return search_answer(question, expected)
    if engine in ("cadical", "z3"):
        from tests.benchmarks import by_solvers, every_question

        if question.kind == "every":
            every = every_question.sat_every if engine == "cadical" else every_question.smt_every
            return every(question), None
        short = by_solvers.sat_short if engine == "cadical" else by_solvers.smt_short
        return short(question), None
    if engine == "streamed":
        return None, streaming_seconds(question)
    from tests.benchmarks.by_general_diagrams import cudd_library, diagram_answer, oxidd_library

    return diagram_answer(question, oxidd_library if engine == "oxidd" else cudd_library), None


def own_answer(asked: Asked) -> Answer:
    """By this engine: with integers or diagrams, as an examination does."""
    return answered(asked.circuit, lambda spaces: _own_answer(asked, spaces)), None


def _own_answer(asked: Asked, spaces: Spaces) -> int | bool:
    circuit = asked.circuit
    if asked.kind == "reached":
        return analyse(circuit, spaces).behaviour(range(len(circuit.digits))).reached.bit_count()
    if asked.kind == "every":
        return own_every(circuit, spaces)
    conduction = conduction_of(circuit, spaces)
    if asked.kind == "short":
        return bool(shorts(circuit, conduction))
    leading = conduction.leads(asked.start, asked.end)
    return leading.bits.bit_count() * prod(digit.radix for digit in circuit.digits) // leading.space.size


def streaming_seconds(question: Question) -> float:
    """What it takes to unite all contacts' sets once, 16 megabytes at a time."""
    import numpy

    width = prod(question.radices.values()) // 8
    block = min(width, 1 << 24)
    into, read = numpy.zeros(block, numpy.uint8), numpy.ones(block, numpy.uint8)
    times = max(1, len(question.edges) // 2 * width // block)
    begun = time.process_time()
    for _ in range(min(times, 100)):
        numpy.bitwise_or(into, read, out=into)
    return (time.process_time() - begun) / min(times, 100) * times


def ask_apart(engine: str, row: str, expected: int) -> Told | None:
    """The same in a process of its own; None where it takes too long. CalledProcessError where it fails."""
    command = [sys.executable, "-m", "tests.benchmarks.others", "--one", engine, row, str(expected)]
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE, check=True)
    except subprocess.TimeoutExpired:
        return None
    return Told(*json.loads(done.stdout))


def row_of(name: str) -> str:
    """A row of the table. SystemExit where two answers differ."""
    kind, expected, cells = questions()[name]().kind, 0, []
    answer: int | bool | None = None
    own = 0.0
    for engine, kinds in ENGINES.items():
        if kind not in kinds:
            continue
        runs = [ask_apart(engine, name, expected)]
        if runs[0] is not None:
            runs += [ask_apart(engine, name, expected) for _ in range(RUNS - 1)]
        told = [one for one in runs if one is not None]
        if not told:
            cells.append(f"{engine} over {PATIENCE:.0f} s")
            continue
        seconds = [one.seconds for one in told]
        if engine == "here":
            answer, own, expected = told[0].answer, median(seconds), int(told[0].answer or 0)
        elif told[0].answer not in (None, answer):
            raise SystemExit(f"{name}: {engine} says {told[0].answer}, this engine {answer}")
        cells.append(
            f"{engine:9}{median(seconds):.3g} s [{min(seconds):.3g}–{max(seconds):.3g}] {told[0].megabytes:.0f} MB"
            + ("" if engine == "here" else f" ×{median(seconds) / own:,.3g}" if own else "")
            + (f", loading {median(one.loading for one in told):.2g} s" if LOADED[engine] else "")
            + (" *" if told[0].answer is None and engine != "streamed" else "")
        )
    return f"{name} ({kind}: {answer})\n    " + "\n    ".join(cells)


def main(names: list[str]) -> None:
    """Prints the table. * some states looked at, the time extrapolated to all."""
    print(f"Python {platform.python_version()}, {platform.machine()}, {platform.system()}, {processor_name()}")
    print(", ".join(f"{library} {version(library)}" for library in LIBRARIES))
    for name in names or questions():
        print(row_of(name), flush=True)


def processor_name() -> str:
    """As the system tells it, or nothing."""
    try:
        with open("/proc/cpuinfo", encoding="ascii") as told:
            return next((line.split(":")[1].strip() for line in told if line.startswith("model name")), "")
    except OSError:
        return platform.processor()


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        print(json.dumps(ask(sys.argv[2], sys.argv[3], int(sys.argv[4]))))
    else:
        main(sys.argv[1:])
