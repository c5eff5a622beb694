"""The circuit with something supposed about it: a contact that never closes, a limit that is stuck, a supply lost."""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit, Closed, Conductor, Limit, Motor, PartInfo, Supply, Terminal

BROKEN: Final = "broken off"
"""Added to a mark: where a broken winding hangs in the air."""


class Change(NamedTuple):
    """What is supposed. All numbers are indices of the circuit without the change.

    opened: conductors that never conduct; always: that always do, in their direction. joined: pairs of terminals that
    always touch. broken: loads whose winding is interrupted. stuck: digits that never leave the value that they have
    come to. pressed: limits, by number, and the zones in which they are pressed instead. lost, reversed: supplies.
    begins: where digits stand when it comes about: a contact welds only while it is closed.
    """

    opened: frozenset[int] = frozenset()
    always: frozenset[int] = frozenset()
    joined: tuple[tuple[Terminal, Terminal], ...] = ()
    broken: frozenset[int] = frozenset()
    stuck: tuple[tuple[int, int], ...] = ()
    pressed: tuple[tuple[int, frozenset[int]], ...] = ()
    lost: frozenset[int] = frozenset()
    reversed: frozenset[int] = frozenset()
    begins: tuple[Closed, ...] = ()


def supposed(circuit: Circuit, change: Change) -> Circuit:
    """The circuit with the change. Digits keep their numbers, and loads theirs; other indices may move."""
    for limit, zones in change.pressed:
        circuit = _pressed_elsewhere(circuit, limit, zones)
    for digit, _ in change.stuck:
        circuit = _stuck(circuit, digit)
    if change.broken:
        circuit = _broken(circuit, change.broken)
    if change.lost or change.reversed:
        circuit = _with_supplies(circuit, change)
    return _rewired(circuit, change)


def never_closing(circuit: Circuit, conductors: frozenset[int]) -> Circuit:
    """The circuit without these conductors, by their index: broken wires, contacts held open."""
    return supposed(circuit, Change(opened=conductors))


def limit_held(circuit: Circuit, limit: Limit, zone: int) -> Circuit:
    """The circuit with a limit switch that stands, wherever its axis is, as it does with the axis in `zone`."""
    zones = range(len(circuit.digits[circuit.axes[limit.axis].digit].values))
    always = frozenset(zones if zone in limit.zones else ())
    return supposed(circuit, Change(pressed=((circuit.limits.index(limit), always),)))


def _rewired(circuit: Circuit, change: Change) -> Circuit:
    """Without the conductors that are opened, and without what no longer suppresses; with those that are joined."""
    gone = [circuit.conductors[number] for number in change.opened]
    kept = [number for number in range(len(circuit.conductors)) if number not in change.opened]
    moved = {number: position for position, number in enumerate(kept)}
    diodes = {(one.part, one.tail) for one in gone if one.kind == "diode"}
    return circuit._replace(
        conductors=(
            *(_conducting(circuit.conductors[number], number in change.always) for number in kept),
            *(_touch(circuit, tail, head) for tail, head in change.joined),
        ),
        wires=tuple(
            wire._replace(conductor=moved[wire.conductor]) for wire in circuit.wires if wire.conductor in moved
        ),
        suppressors=tuple(one for one in circuit.suppressors if (one.part, one.a) not in diodes),
    )


def _conducting(conductor: Conductor, always: bool) -> Conductor:
    return conductor._replace(closed=None) if always else conductor


def _touch(circuit: Circuit, tail: Terminal, head: Terminal) -> Conductor:
    part = part_of(circuit, tail)
    return Conductor(tail, head, "touch", part.name, part.place)


def part_of(circuit: Circuit, terminal: Terminal) -> PartInfo:
    """The part that a terminal belongs to; one with a single terminal goes by the terminal's name."""
    return circuit.parts.get(terminal) or circuit.parts[terminal.rpartition(".")[0]]


def _pressed_elsewhere(circuit: Circuit, number: int, zones: frozenset[int]) -> Circuit:
    limit = circuit.limits[number]
    digit = circuit.axes[limit.axis].digit
    released = frozenset(range(len(circuit.digits[digit].values))) - zones

    def moved(one: Conductor) -> Conductor:
        if one.part != limit.name or one.closed is None:
            return one
        return one._replace(closed=Closed(digit, zones if one.closed.values == limit.zones else released))

    return circuit._replace(
        conductors=tuple(map(moved, circuit.conductors)),
        limits=(*circuit.limits[:number], limit._replace(zones=zones), *circuit.limits[number + 1 :]),
    )


def _stuck(circuit: Circuit, digit: int) -> Circuit:
    """Nothing moves the digit any more, neither a hand nor a relay's coil."""
    digits = list(circuit.digits)
    digits[digit] = digits[digit]._replace(kind="stuck", springs_to=None)
    return circuit._replace(
        digits=tuple(digits), relays=tuple(relay for relay in circuit.relays if relay.digit != digit)
    )


def _broken(circuit: Circuit, loads: frozenset[int]) -> Circuit:
    """One end of each load hangs in the air, on a terminal of its own."""
    parts = dict(circuit.parts)
    ends: dict[int, Terminal] = {}
    for number in sorted(loads):
        load = circuit.loads[number]
        info = parts[load.part]
        mark = f"{load.a.rpartition('.')[2]} {BROKEN}"
        parts[load.part] = info._replace(marks=(*info.marks, mark), optional=info.optional | {mark})
        ends[number] = f"{info.name}.{mark}"

    def cut(motor: Motor) -> Motor:
        windings = (one._replace(plus=ends.get(one.load, one.plus)) for one in motor.windings)
        return motor._replace(windings=tuple(windings))

    return circuit._replace(
        parts=parts,
        loads=tuple(one._replace(a=ends.get(number, one.a)) for number, one in enumerate(circuit.loads)),
        motors=tuple(map(cut, circuit.motors)),
    )


def _with_supplies(circuit: Circuit, change: Change) -> Circuit:
    """A supply that is lost gives no volts, switched on or not."""

    def changed(number: int, one: Supply) -> Supply:
        if number in change.reversed:
            one = one._replace(plus=one.minus, minus=one.plus)
        return one._replace(volts=0.0) if number in change.lost else one

    return circuit._replace(supplies=tuple(changed(number, one) for number, one in enumerate(circuit.supplies)))
