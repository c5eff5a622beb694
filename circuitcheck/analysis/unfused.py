"""Ways from a supply's + to its − past every fuse, all contacts taken as closed."""

from collections import deque
from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Closed, Supply, Terminal


class Step(NamedTuple):
    """Current passes into `end` through `part` ("" for a wire). closed: the contact's, None for what always conducts.
    load: the index of a load that is passed, else None."""

    end: Terminal
    part: str
    closed: Closed | None = None
    load: int | None = None


def unfused_way(circuit: Circuit, supply: Supply) -> tuple[Step, ...]:
    """A shortest way with no fuse in it, from `supply.plus` on; empty where there is none.

    Diodes pass in their direction; of other supplies the way may take those that stand in series with this one. Ties go
    to the plan's order.
    """
    onward = _onward(circuit, supply)
    came_by: dict[Terminal, tuple[Terminal, Step]] = {}
    waiting = deque([supply.plus])
    while waiting and supply.minus not in came_by:
        here = waiting.popleft()
        for step in onward.get(here, ()):
            if step.end not in came_by and step.end != supply.plus:
                came_by[step.end] = here, step
                waiting.append(step.end)
    way: list[Step] = []
    here = supply.minus
    while here in came_by:
        here, step = came_by[here]
        way.append(step)
    return tuple(reversed(way))


def _onward(circuit: Circuit, supply: Supply) -> dict[Terminal, list[Step]]:
    onward: dict[Terminal, list[Step]] = {}
    for one in circuit.conductors:
        if one.kind != "fuse":
            onward.setdefault(one.tail, []).append(Step(one.head, one.part, one.closed))
            if not one.one_way:
                onward.setdefault(one.head, []).append(Step(one.tail, one.part, one.closed))
    for number, load in enumerate(circuit.loads):
        onward.setdefault(load.a, []).append(Step(load.b, load.part, load=number))
        onward.setdefault(load.b, []).append(Step(load.a, load.part, load=number))
    for other in circuit.supplies:
        if other.name != supply.name:
            onward.setdefault(other.minus, []).append(Step(other.plus, other.name))
    return onward
