"""The way that current runs, step by step: where each step lies in the text, and how the whole is told."""

from collections.abc import Sequence
from itertools import pairwise

from circuitcheck.checks.check import Stretch
from circuitcheck.circuit.model import Circuit, Terminal


def stretches(circuit: Circuit, path: Sequence[Terminal]) -> tuple[Stretch, ...]:
    """The path step by step, each with its place and words; where two terminals aren't joined there is no step."""
    if not path:
        return ()
    joins = {frozenset((load.a, load.b)): (load.part, f"through {load.name}", load.place) for load in circuit.loads}
    joins |= {frozenset((one.tail, one.head)): (one.part, one.name, one.place) for one in circuit.conductors}
    steps = ((tail, head, joins.get(frozenset((tail, head)))) for tail, head in pairwise(path))
    return tuple(Stretch(tail, head, *step) for tail, head, step in steps if step)


def compressed(path: Sequence[Terminal], way: Sequence[Stretch]) -> list[str]:
    """A path with each part that it passes as one: K1.11 and K1.14 as K1.11-14, where K1 itself joins them."""
    through = {(step.tail, step.head) for step in way if step.part}
    shown: list[str] = []
    before = ""
    for terminal in path:
        part, _, mark = terminal.rpartition(".")
        if (before, terminal) in through and before.rpartition(".")[0] == part:
            shown[-1] += f"-{mark}"
        elif terminal != before:
            shown.append(terminal)
        before = terminal
    return shown
