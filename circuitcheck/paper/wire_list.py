"""The wire list in soldering order.

What is soldered first gets covered by what follows, so the list goes from the inside outward (common practice, no
source): each area of the prop by itself; in it first the links from a part to itself, which lie closest; then what runs
between the parts that sit deepest (relays, diodes, joints); then what goes up to the panel (switches, buttons, fuses,
lamps); then what leads out (strips, connectors, limits, motors), whose long wires would lie over everything; and the
supply last, so that nothing can be live before the rest is there. Within each step one part after the other, terminal
by terminal, the shortest wire first, so that a terminal's wires come together and none has to be soldered twice.

Where more than one wire ends at a terminal, all are hooked in first and soldered once: each end is told as the second
of three, say, and is to be soldered when the last one is in.
"""

from collections import Counter
from math import inf
from typing import Final, NamedTuple

from circuitcheck.analysis.supposed import part_of
from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.paper.areas import Area, areas_of, side_of
from circuitcheck.paper.joints import WireFacts, wires_of

LINKS, INSIDE, PANEL, OUTWARD, SUPPLY = range(5)
"""The steps, in their order."""

DEPTH: Final = {
    **dict.fromkeys(("relay", "diode", "suppressor", "resistor", "splice", "port"), INSIDE),
    **dict.fromkeys(("fuse", "switch", "button", "estop", "lamp", "buzzer", "outside"), PANEL),
    **dict.fromkeys(("strip", "connector", "limit", "cam", "motor", "solenoid"), OUTWARD),
    "supply": SUPPLY,
}
"""Kind of part → the step in which the wires between it and parts that sit deeper are soldered."""


class End(NamedTuple):
    """One end of a wire: the terminal, and the how manieth it is of how many there."""

    terminal: Terminal
    place: int
    of: int

    @property
    def solder(self) -> bool:
        """Is it the last one there, after which the terminal is soldered?"""
        return self.place == self.of


class Line(NamedTuple):
    """start: on the part that is being wired."""

    wire: WireFacts
    start: End
    end: End


class Step(NamedTuple):
    """What is soldered together. area: its number, from 0; number: LINKS to SUPPLY."""

    area: int
    number: int
    lines: tuple[Line, ...]


class WireList(NamedTuple):
    """areas: where the prop comes apart. steps: in order; one without wires is left out."""

    areas: tuple[Area, ...]
    steps: tuple[Step, ...]

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every wire once."""
        return tuple(line for step in self.steps for line in step.lines)


class _Placed(NamedTuple):
    """A wire, where its turn is, and the terminal that is wired then."""

    turn: tuple[int, int, int, int, float, int]
    wire: WireFacts
    start: Terminal


def wire_list(circuit: Circuit) -> WireList:
    """Every wire of a circuit in the order in which it is soldered."""
    areas = areas_of(circuit)
    placed = sorted(_placed(circuit, areas, wire, number) for number, wire in enumerate(wires_of(circuit)))
    ends = Counter(terminal for one in placed for terminal in (one.wire.tail, one.wire.head))
    seen: Counter[Terminal] = Counter()
    steps: dict[tuple[int, int], list[Line]] = {}
    for one in placed:
        far = one.wire.far_from(one.start)
        seen.update((one.start, far))
        line = Line(one.wire, *(End(terminal, seen[terminal], ends[terminal]) for terminal in (one.start, far)))
        steps.setdefault(one.turn[:2], []).append(line)
    return WireList(areas, tuple(Step(*step, tuple(lines)) for step, lines in steps.items()))


def _placed(circuit: Circuit, areas: tuple[Area, ...], wire: WireFacts, number: int) -> _Placed:
    order = {name: place for place, name in enumerate(circuit.parts)}

    def depth(terminal: Terminal) -> tuple[int, int, int]:
        info = part_of(circuit, terminal)
        return DEPTH[info.kind], order[info.name], -info.terminals.index(terminal)

    start = max((wire.tail, wire.head), key=depth)
    step, part, mark = depth(start)
    side = side_of(circuit, start)
    if side == side_of(circuit, wire.far_from(start)):
        step = LINKS
    area = next(place for place, one in enumerate(areas) if side in one.sides or side[0] in one.parts)
    return _Placed((area, step, part, -mark, wire.metres or inf, number), wire, start)
