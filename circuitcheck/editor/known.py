"""What is known of the parts that a draft describes, however much else of it can't be understood yet."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.circuit.describing import describe_parts
from circuitcheck.circuit.flattening import flatten
from circuitcheck.circuit.model import Axis, PartInfo
from circuitcheck.circuit.promises import STATE_WORDS
from circuitcheck.circuit.resolving import Names, gather_names
from circuitcheck.plan.syntax import Module, Part, Plan, Word


class Known(NamedTuple):
    """names: parts with their terminals and ways, by the name that the plan or module writes. values: what each digit
    can be. axes: with their places."""

    names: Names
    values: dict[str, tuple[str, ...]]
    axes: dict[str, Axis]

    def ways(self, part: PartInfo) -> Iterator[str]:
        """The ways through a part, as a rung writes them after its point: "11-14"; then all the other way round."""
        found = [
            (one, other)
            for number, one in enumerate(part.marks)
            for other in part.marks[number + 1 :]
            if frozenset((f"{part.name}.{one}", f"{part.name}.{other}")) in self.names.passable
        ]
        yield from (f"{one}-{other}" for one, other in found)
        yield from (f"{other}-{one}" for one, other in found)

    def words(self, name: str) -> tuple[str, ...]:
        """What a promise can say of a part."""
        part = self.names.parts.get(name)
        return STATE_WORDS.get(part.kind) or self.values.get(name, ()) if part else ()


def knowledge_of(plan: Plan, module: Module | None) -> Known:
    """Of the plan, or of the inside of a module by itself."""
    if module:
        ports = (Part(Word("port", port.place), (port,), None, (), "", port.place) for port in module.ports)
        plan = plan._replace(statements=(*ports, *module.statements))
    flat, unplaced = flatten(plan, [])
    found = describe_parts(flat, plan.types, plan.defaults, [])
    digits = {digit.name: digit.values for piece in found.pieces for digit in piece.digits}
    axes = {name: axis for name, (_, axis) in found.axes.items()}
    return Known(gather_names(found.pieces, found.unclear | unplaced), digits, axes)
