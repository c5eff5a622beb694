"""What a wiring drawing shows: boxes with terminals, what joins them inside, and wires.

A supply is one part in two boxes, its + where current begins and its − where it ends; every other part is one box.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, PartInfo, Terminal
from circuitcheck.circuit.wire_numbers import wire_numbers
from circuitcheck.ladder.symbols import is_break
from circuitcheck.sizing.around import wires_lying


class Inner(NamedTuple):
    """Something inside a part that joins its terminals `a` and `b`: a contact, a coil, a diode from a to b.

    kind: of the conductor ("contact", "fuse", "pin", "diode", "bond"), of the load ("coil", "motor" …) or of the
    suppressor ("varistor", "tvs", "rc"). conductor, load: its index in the circuit, None where it is none. breaks: a
    contact that is closed while nothing works it.
    """

    kind: str
    a: Terminal
    b: Terminal
    conductor: int | None = None
    load: int | None = None
    breaks: bool = False


class Group(NamedTuple):
    """Terminals that are joined inside a part, in the order in which they stand below each other, and by what."""

    terminals: tuple[Terminal, ...]
    inner: tuple[Inner, ...]


class Content(NamedTuple):
    """A box. end: "+" or "-" for a box of a supply. through: wires come to its terminals from both sides."""

    part: PartInfo
    groups: tuple[Group, ...]
    end: str = ""

    @property
    def through(self) -> bool:
        """Does nothing stand between its terminals' two sides, as in a terminal strip?"""
        return self.part.kind in ("strip", "splice", "port")

    @property
    def worked(self) -> bool:
        """Does a hand, or something that moves, work its contacts?"""
        return self.part.kind in ("button", "estop", "switch", "limit", "cam")


class WireContent(NamedTuple):
    """A wire as it is soldered; "" for what the plan doesn't say. conductor: its index in the circuit."""

    conductor: int
    tail: Terminal
    head: Terminal
    number: str
    colour: str
    gauge: str

    @property
    def label(self) -> str:
        """ "w12 red 1.5 mm²"."""
        return " ".join(filter(None, (self.number, self.colour, self.gauge)))


def contents_of(circuit: Circuit) -> tuple[Content, ...]:
    """The boxes of a circuit, in the plan's order. An axis has no terminals and so no box."""
    inner = _inner_by_part(circuit)
    return tuple(box for part in circuit.parts.values() if part.marks for box in _boxes(part, inner.get(part.name, [])))


def wires_of(circuit: Circuit) -> tuple[WireContent, ...]:
    """The wires of a circuit, in its order."""
    return tuple(
        WireContent(
            lying.info.conductor,
            circuit.conductors[lying.info.conductor].tail,
            circuit.conductors[lying.info.conductor].head,
            number,
            lying.info.colour,
            lying.gauge.name if lying.gauge else f"{lying.strange:.3g} mm²" if lying.strange else "",
        )
        for lying, number in zip(wires_lying(circuit), wire_numbers(circuit), strict=True)
    )


def _boxes(part: PartInfo, inner: list[Inner]) -> Iterator[Content]:
    if part.kind == "supply":
        for terminal, end in zip(part.terminals, part.marks, strict=True):
            yield Content(part, (Group((terminal,), ()),), end)
    else:
        yield Content(part, tuple(_groups(part, inner)))


def _inner_by_part(circuit: Circuit) -> dict[str, list[Inner]]:
    found: dict[str, list[Inner]] = {}
    for number, load in enumerate(circuit.loads):
        found.setdefault(load.part, []).append(Inner(load.kind, load.a, load.b, load=number))
    for number, one in enumerate(circuit.conductors):
        if one.part:
            breaks = one.kind == "contact" and is_break(circuit, one)
            found.setdefault(one.part, []).append(Inner(one.kind, one.tail, one.head, number, breaks=breaks))
    for other in circuit.suppressors:
        if other.kind not in ("diode", "resistor"):
            found.setdefault(other.part, []).append(Inner(other.kind, other.a, other.b))
    return found


def _groups(part: PartInfo, inner: list[Inner]) -> Iterator[Group]:
    """Terminals that something joins, directly or over others, in the part's order."""
    left = list(part.terminals)
    while left:
        members = {left[0]}
        while more := {end for one in inner for end in one[1:3] if members & set(one[1:3])} - members:
            members |= more
        yield _group([end for end in left if end in members], [one for one in inner if one.a in members])
        left = [end for end in left if end not in members]


def _group(terminals: list[Terminal], inner: list[Inner]) -> Group:
    """A common contact stands between its throws."""
    common = next((one.a for one in inner if one.kind == "contact"), "")
    if len(terminals) > 2 and common:
        throws = [end for end in terminals if end != common]
        middle = len(throws) // 2
        terminals = [*throws[:middle], common, *throws[middle:]]
    return Group(tuple(terminals), tuple(inner))
