"""Faults of what has contacts: relays, hand switches and buttons, limit switches, outside contacts."""

from collections.abc import Iterator

from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.supposed import Change
from circuitcheck.circuit.catalogue.relays import GUIDED
from circuitcheck.circuit.model import Axis, Circuit, Closed, Conductor, Limit, PartInfo, Terminal


def contact_faults(circuit: Circuit, part: PartInfo, wired: frozenset[Terminal]) -> Iterator[Fault]:
    """Each contact welded and open; of a relay's changeovers, both throws closed at once too.

    A contact with an unwired end carries nothing: it neither welds nor matters when it stays open. An emergency stop's
    contacts part even when welded (direct opening). Of a force-guided relay one that is welded keeps all opposite ones
    from closing, and no two opposite ones close at once (EN 50205; IEC 61810-3). What its other contacts on the same
    side do isn't promised: here they part, and the whole armature sticks in `relay_faults`.
    """
    guided = GUIDED in part.features
    poles: dict[Terminal, list[int]] = {}
    for number, one in enumerate(circuit.conductors):
        if one.part == part.name and one.closed is not None:
            poles.setdefault(one.tail, []).append(number)
    for throws in poles.values():
        ends = {number: {circuit.conductors[number].tail, circuit.conductors[number].head} for number in throws}
        used = [number for number in throws if ends[number] <= wired]
        for number in used:
            one = circuit.conductors[number]
            if part.kind != "estop" and one.closed:
                gone = frozenset({*throws, *(_opposite(circuit, one) if guided else ())})
                change = Change(opened=gone, joined=((one.tail, one.head),), begins=(one.closed,))
                if one.one_way:
                    change = Change(always=frozenset({number}), begins=(one.closed,))
                yield Fault("contact does not open", part.name, one.name, "welded", change)
            change = Change(opened=frozenset({number}))
            yield Fault("contact does not close", part.name, one.name, "open", change)
        if part.kind == "relay" and len(used) > 1 and not guided:
            both = [circuit.conductors[number] for number in used]
            subject = f"{both[0].name}-{both[1].head.rpartition('.')[2]}"
            change = Change(opened=frozenset(throws), joined=tuple((one.tail, one.head) for one in both))
            yield Fault("both throws closed", part.name, subject, "all joined", change)


def _opposite(circuit: Circuit, contact: Conductor) -> Iterator[int]:
    """The contacts of the same relay that are closed where this one is open."""
    for number, one in enumerate(circuit.conductors):
        if one.part == contact.part and one.closed and contact.closed and not one.closed.values & contact.closed.values:
            yield number


def relay_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Its armature stuck where it has come to."""
    for relay in circuit.relays:
        if relay.name == part.name:
            for value, state in enumerate(("stuck released", "stuck operated")):
                change = Change(stuck=((relay.digit, value),), begins=(Closed(relay.digit, frozenset({value})),))
                yield Fault(f"relay {state}", part.name, part.name, state, change)


def hand_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """A switch, button or outside contact stuck in each of its positions; an emergency stop cannot stick released."""
    number = next(number for number, digit in enumerate(circuit.digits) if digit.name == part.name)
    for value, name in enumerate(circuit.digits[number].values):
        if part.kind != "estop" or name != "released":
            change = Change(stuck=((number, value),), begins=(Closed(number, frozenset({value})),))
            yield Fault("switch stuck", part.name, part.name, f"stuck {name}", change)


def limit_faults(circuit: Circuit, part: PartInfo) -> Iterator[Fault]:
    """Stuck pressed and free, torn off with its wires, moved along the axis by one zone either way."""
    number, limit = next(pair for pair in enumerate(circuit.limits) if pair[1].name == part.name)
    axis = circuit.axes[limit.axis]
    zones = frozenset(range(len(circuit.digits[axis.digit].values)))
    here = ((limit.zones, zones, "stuck pressed"), (zones - limit.zones, frozenset[int](), "stuck free"))
    for standing, then, state in here:
        change = Change(pressed=((number, then),), begins=(Closed(axis.digit, standing),))
        yield Fault("limit stuck", part.name, part.name, state, change)
    own = frozenset(at for at, one in enumerate(circuit.conductors) if one.part == part.name)
    yield Fault("limit torn off", part.name, part.name, "torn off", Change(opened=own))
    for moved, state in _moved(axis, limit, len(zones)):
        yield Fault("limit moved", part.name, part.name, state, Change(pressed=((number, moved),)))


def _moved(axis: Axis, limit: Limit, count: int) -> Iterator[tuple[frozenset[int], str]]:
    """The zones in which it is pressed once it has moved. At an end of a linear axis it stays pressed beyond."""
    for step, place in ((1, axis.places[-1]), (-1, axis.places[0])):
        if axis.turning:
            words = "moved on" if step > 0 else "moved back"
            yield frozenset((zone + step) % count for zone in limit.zones), words
            continue
        moved = {zone + step for zone in limit.zones} & set(range(count))
        beyond = {0} if 0 in limit.zones else set[int]()
        beyond |= {count - 1} if count - 1 in limit.zones else set()
        yield frozenset(moved | beyond), f"moved toward {place}"
