"""Which terminals have a wire, and which of a part's still need one."""

from circuitcheck.circuit.model import Circuit, PartInfo, Terminal


def wired_terminals(circuit: Circuit) -> frozenset[Terminal]:
    """Every terminal at which some wire ends."""
    return frozenset(end for one in circuit.conductors if one.kind == "wire" for end in (one.tail, one.head))


def unwired_terminals(part: PartInfo, wired: frozenset[Terminal]) -> tuple[Terminal, ...]:
    """Those that must have a wire and have none; all of them where the part has no wire at all."""
    bare = tuple(terminal for terminal in part.terminals if terminal not in wired)
    if len(bare) == len(part.terminals):
        return bare
    return tuple(terminal for terminal in bare if terminal not in part.optional)
