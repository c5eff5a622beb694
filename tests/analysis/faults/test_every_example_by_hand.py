"""Faults of every example for people, against the example's text with the fault written into it as a line.

What touches or is shorted is a wire more; what is open in a wire that has a line of its own is that line less. The
circuit of the changed text is analysed as any other plan, and has to be the faulty box in every state.
"""

import re
from collections.abc import Iterator

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.model import Circuit
from tests.analysis.faults.test_plain_rerun import EXAMPLES, circuit_of, picture, text_of

QUICK = ("cue_light", "gallery_lift", "lantern_colours", "lighthouse_shutter", "storm_beam", "trapdoor_lantern")
SLOW = tuple(sorted({path.stem for path in (EXAMPLES / "right").glob("*.plan")} - set(QUICK)))
MOST = 12
"""So many faults of each example, spread over all that a line can say."""


def wire_lines(text: str) -> dict[tuple[str, ...], str]:
    """By its ends the line of each wire that has one, and no other wire beside it."""
    lines = [(tuple(line.split()[1:3]), line) for line in text.splitlines() if re.match(r"wire\s", line)]
    ends = [pair for pair, _ in lines]
    return {pair: line for pair, line in lines if ends.count(pair) == 1}


def said_by_hand(circuit: Circuit, text: str) -> Iterator[tuple[Fault, str]]:
    """The faults that a line more or less is, with the changed text. A line outside of a module can't reach into it."""
    lines = wire_lines(text)
    for fault in single_faults(circuit):
        change = fault.change
        ends = [end for pair in change.joined for end in pair]
        if change == Change(joined=change.joined) and ends and all(end.count(".") < 2 for end in ends):
            more = "".join(f"wire {one} {other}\n" for one, other in change.joined)
            yield fault, f"{text}\n{more}"
        elif fault.kind == "wire open":
            (number,) = change.opened
            one = circuit.conductors[number]
            line = lines.get((one.tail, one.head))
            if line is not None:
                yield fault, text.replace(f"{line}\n", "", 1)


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_a_fault_of_every_example_is_the_same_as_its_line_written_by_hand(name: str) -> None:
    """Motors, shorts and reached states."""
    text = text_of(f"right/{name}")
    circuit = circuit_of(text)
    found = list(said_by_hand(circuit, text))
    assert found
    for fault, changed in found[:: len(found) // MOST + 1]:
        assert picture(analyse(with_fault(circuit, fault))) == picture(analyse(circuit_of(changed))), fault.called
