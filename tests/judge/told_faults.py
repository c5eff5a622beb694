"""The circuit with a fault in it, put together from how the fault is called: the judge's own reading of the words."""

import re
from collections.abc import Callable

from circuitcheck.circuit.model import Circuit, Closed, Conductor, Terminal
from tests.judge.one_state import State

FAULT = "fault: "
"""What a step of a story begins with that is no step but the fault itself."""
STAYS = ": it stays as it is"
"""What it ends with where somebody works a control that sticks."""


def told_fault(circuit: Circuit, called: str) -> Circuit:
    """The circuit with the fault that is called so."""
    for pattern, change in READINGS:
        found = re.fullmatch(pattern, called)
        if found:
            return change(circuit, *found.groups())
    raise AssertionError(f"the judge doesn't understand: {called}")


def may_come(circuit: Circuit, called: str, state: State) -> bool:
    """Whether the fault can come about in a state: contacts weld while closed, things stick where they are, a supply is
    reversed while it is unplugged."""
    name, _, words = called.rpartition(" ") if " stuck " not in called else called.partition(" stuck ")
    digits = {digit.name: number for number, digit in enumerate(circuit.digits)}
    if words == "welded":
        contact = next(one for one in circuit.conductors if one.name == name and one.closed)
        assert contact.closed is not None
        return state[contact.closed.digit] in contact.closed.values
    if words == "reversed":
        return state[digits[name]] == 0
    limit = next((one for one in circuit.limits if one.name == name), None)
    if " stuck " in called and limit is not None:
        return (state[circuit.axes[limit.axis].digit] in limit.zones) == (words == "pressed")
    if " stuck " in called:
        return circuit.digits[digits[name]].value_name(state[digits[name]]) == words
    return True


def without(circuit: Circuit, gone: Callable[[Conductor], bool]) -> Circuit:
    """The circuit without some conductors. Numbers of wires are left as they were: the judge reads none."""
    return circuit._replace(conductors=tuple(one for one in circuit.conductors if not gone(one)))


def joined(circuit: Circuit, one: Terminal, other: Terminal) -> Circuit:
    """The circuit with two terminals that touch."""
    touch = circuit.conductors[0]._replace(tail=one, head=other, kind="touch", part="", closed=None, one_way=False)
    return circuit._replace(conductors=(*circuit.conductors, touch))


def welded(circuit: Circuit, part: str, a: str, b: str) -> Circuit:
    """The pole stands at one throw for good."""
    common = f"{part}.{a}"
    contact = next(one for one in circuit.conductors if (one.tail, one.head) == (common, f"{part}.{b}"))
    guided = "force-guided" in circuit.parts[part].features

    def gone(one: Conductor) -> bool:
        """The pole's throws; where contacts are guided, all that are closed where this one should be open."""
        if one.part != part or one.closed is None or contact.closed is None:
            return False
        return one.tail == common or (guided and one.closed.values.isdisjoint(contact.closed.values))

    left = without(circuit, gone)
    return left._replace(conductors=(*left.conductors, contact._replace(closed=None)))


def contact_open(circuit: Circuit, part: str, a: str, b: str) -> Circuit:
    """A contact, pin or built-in part between two terminals is gone."""
    return without(circuit, lambda one: one.part == part and {one.tail, one.head} == {f"{part}.{a}", f"{part}.{b}"})


def all_joined(circuit: Circuit, part: str, a: str, b: str, c: str) -> Circuit:
    """A changeover that touches both sides for good."""
    left = without(circuit, lambda one: one.tail == f"{part}.{a}" and one.closed is not None and one.part == part)
    return joined(joined(left, f"{part}.{a}", f"{part}.{b}"), f"{part}.{a}", f"{part}.{c}")


def load_open(circuit: Circuit, name: str) -> Circuit:
    """A load that passes nothing: its far end hangs in the air. A motor's winding goes with it."""
    number = next(number for number, load in enumerate(circuit.loads) if load.name == name)
    load = circuit.loads[number]
    info = circuit.parts[load.part]
    air = f"{load.part}.in the air"
    motors = tuple(
        motor._replace(windings=tuple(one._replace(minus=air) if one.load == number else one for one in motor.windings))
        for motor in circuit.motors
    )
    loads = (*circuit.loads[:number], load._replace(b=air), *circuit.loads[number + 1 :])
    parts = circuit.parts | {load.part: info._replace(marks=(*info.marks, "in the air"))}
    return circuit._replace(loads=loads, motors=motors, parts=parts)


def named_load_open(circuit: Circuit, name: str) -> Circuit:
    """A diode or fuse that is open, a suppressor (which passes nothing anyway), or a load."""
    if any(load.name == name for load in circuit.loads):
        return load_open(circuit, name)
    return without(circuit, lambda one: one.part == name)


def shorted(circuit: Circuit, name: str) -> Circuit:
    """Both ends of a load, a diode or a suppressor touch."""
    ends = [(load.a, load.b) for load in circuit.loads if load.name == name]
    ends += [(one.a, one.b) for one in circuit.suppressors if one.part == name and not one.built_in]
    return joined(circuit, *ends[0])


def coil(change: Callable[[Circuit, str], Circuit]) -> Callable[[Circuit, str, str, str], Circuit]:
    """The change of the load between two marks of a relay."""

    def changed(circuit: Circuit, part: str, a: str, b: str) -> Circuit:
        load = next(one for one in circuit.loads if one.kind == "coil" and one.a == f"{part}.{a}" and one.part == part)
        assert load.b == f"{part}.{b}"
        return change(circuit, load.name)

    return changed


def stuck(circuit: Circuit, name: str, where: str) -> Circuit:
    """A limit that is pressed everywhere or nowhere; any other digit that nothing moves."""
    limit = next((one for one in circuit.limits if one.name == name), None)
    if limit is None:
        digits = tuple(one._replace(kind="stuck") if one.name == name else one for one in circuit.digits)
        return circuit._replace(digits=digits, relays=tuple(one for one in circuit.relays if one.name != name))
    return pressed_at(circuit, name, all_zones(circuit, name) if where == "pressed" else frozenset())


def all_zones(circuit: Circuit, limit: str) -> frozenset[int]:
    """Every zone of a limit's axis."""
    axis = next(circuit.axes[one.axis] for one in circuit.limits if one.name == limit)
    return frozenset(range(len(circuit.digits[axis.digit].values)))


def pressed_at(circuit: Circuit, name: str, zones: frozenset[int]) -> Circuit:
    """A limit that is pressed in other zones than it was."""
    limit = next(one for one in circuit.limits if one.name == name)
    digit, released = circuit.axes[limit.axis].digit, all_zones(circuit, name) - zones

    def moved(one: Conductor) -> Conductor:
        if one.part != name or one.closed is None:
            return one
        closes_pressed = one.closed.values == limit.zones
        return one._replace(closed=Closed(digit, zones if closes_pressed else released))

    return circuit._replace(conductors=tuple(map(moved, circuit.conductors)))


def moved_toward(circuit: Circuit, name: str, place: str) -> Circuit:
    """A limit one zone nearer to an end of its linear axis; at an end it stays pressed beyond."""
    limit = next(one for one in circuit.limits if one.name == name)
    axis = circuit.axes[limit.axis]
    last = max(all_zones(circuit, name))
    step = 1 if place == axis.places[-1] else -1
    zones = {zone + step for zone in limit.zones if 0 <= zone + step <= last}
    zones |= {zone for zone in (0, last) if zone in limit.zones}
    return pressed_at(circuit, name, frozenset(zones))


def moved_round(circuit: Circuit, name: str, way: str) -> Circuit:
    """A cam one zone further on or back."""
    limit = next(one for one in circuit.limits if one.name == name)
    count, step = len(all_zones(circuit, name)), 1 if way == "on" else -1
    return pressed_at(circuit, name, frozenset((zone + step) % count for zone in limit.zones))


def supply_changed(circuit: Circuit, name: str, word: str) -> Circuit:
    """A supply that gives nothing, or gives it the wrong way round."""
    supplies = tuple(
        one
        if one.name != name
        else one._replace(volts=0.0)
        if word == "lost"
        else one._replace(plus=one.minus, minus=one.plus)
        for one in circuit.supplies
    )
    return circuit._replace(supplies=supplies)


def on_frame(circuit: Circuit, terminal: Terminal) -> Circuit:
    """Something that touches the case of the first motor that has one."""
    cases = (end for part in circuit.parts.values() for end in part.terminals if end.endswith(".case"))
    return joined(circuit, terminal, next(cases))


NAME, MARK = r"(\w+(?:\.\w+)*)", r"([\w+-]+?)"
END = r"(\w+(?:\.\w+)*(?:\.[+-])?)"
READINGS: tuple[tuple[str, Callable[..., Circuit]], ...] = (
    (rf"the wire {END} to {END} open", lambda c, a, b: without(c, lambda o: not o.part and (o.tail, o.head) == (a, b))),
    (rf"the wire {END} to {END} touches the frame", lambda circuit, a, _: on_frame(circuit, a)),
    (rf"the coil {NAME}\.(\w+)-(\w+) open", coil(load_open)),
    (rf"the coil {NAME}\.(\w+)-(\w+) shorted", coil(shorted)),
    (rf"the input {END} open", load_open),
    (rf"the input {END} shorted", shorted),
    (rf"the diode across {NAME}\.(\w+)-(\w+) open", contact_open),
    (rf"the diode across {NAME}\.(\w+)-(\w+) shorted", lambda c, p, a, b: joined(c, f"{p}.{a}", f"{p}.{b}")),
    (rf"{END} touches its case", on_frame),
    (rf"{END} touches {END}", joined),
    (rf"{NAME} stuck (.+)", stuck),
    (rf"{NAME} torn off", lambda circuit, name: without(circuit, lambda one: one.part == name)),
    (rf"{NAME} moved toward (\w+)", moved_toward),
    (rf"{NAME} moved (on|back)", moved_round),
    (rf"{NAME} (lost|reversed)", supply_changed),
    (rf"{NAME} blown", lambda circuit, name: without(circuit, lambda one: one.part == name)),
    (rf"{NAME}\.{MARK}-{MARK}-{MARK} all joined", all_joined),
    (rf"{NAME}\.{MARK}-{MARK} welded", welded),
    (rf"{NAME}\.{MARK}-{MARK} open", contact_open),
    (r"(.+) open", named_load_open),
    (r"(.+) shorted", shorted),
)
"""How faults are called, each with what the words in its brackets change. The first that fits is meant."""
