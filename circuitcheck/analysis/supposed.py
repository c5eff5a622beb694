"""The circuit with something supposed about it: a contact that never closes, a limit that is stuck."""

from circuitcheck.circuit.model import Circuit, Conductor, Limit


def never_closing(circuit: Circuit, conductors: frozenset[int]) -> Circuit:
    """The circuit without these conductors, by their index: broken wires, contacts held open."""
    kept = tuple(one for number, one in enumerate(circuit.conductors) if number not in conductors)
    moved: dict[int, int] = {}
    for number in range(len(circuit.conductors)):
        if number not in conductors:
            moved[number] = len(moved)
    wires = tuple(wire._replace(conductor=moved[wire.conductor]) for wire in circuit.wires if wire.conductor in moved)
    return circuit._replace(conductors=kept, wires=wires)


def limit_held(circuit: Circuit, limit: Limit, zone: int) -> Circuit:
    """The circuit with a limit switch that stands, wherever its axis is, as it does with the axis in `zone`."""
    zones = frozenset(range(len(circuit.digits[circuit.axes[limit.axis].digit].values)))
    conductors: list[Conductor] = []
    for one in circuit.conductors:
        if one.part == limit.name and one.closed is not None:
            always = zones if zone in one.closed.values else frozenset[int]()
            one = one._replace(closed=one.closed._replace(values=always))
        conductors.append(one)
    return circuit._replace(conductors=tuple(conductors))
