"""Permanent-magnet motors: one winding, or two that share the brush −.

The high-speed brush of a two-speed motor turns it about 1.5 times as fast as the low one (mvwautotechniek.nl, permanent
magnet with third brush); fewer turns lie in its way, so it stalls at 1.5 times the current unless the plan says more.
"""

from circuitcheck.circuit.catalogue.attributes import FLAG, Shape
from circuitcheck.circuit.catalogue.axes_and_limits import find_axis
from circuitcheck.circuit.catalogue.motor_figures import FIGURES_TAKEN, read_figures
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, refuse
from circuitcheck.circuit.model import Axis, Conductor, Load, Motor, Winding
from circuitcheck.circuit.wording import suggestion

STALL_PER_FREE = 10.0
"""Stall current over free-running current where the plan gives only the latter: common practice, no source."""
ASSUMED_STALL_AMPS = 10.0
"""Where the plan gives neither: common practice, no source."""
HIGH_PER_LOW = 1.5


def read_motor(part: Described) -> Pieces:
    """Brushes + and −, or low, high and −; a brush bonded to the case has the mark `case` beside it."""
    brushes = ("low", "high") if part.given.has("two-speed") else ("+",)
    axis, upward = _drive(part)
    loads = tuple(_winding_load(part, brush) for brush in brushes)
    windings = tuple(Winding(load.a, load.b, part.load + number) for number, load in enumerate(loads))
    volts = part.given.value("", "volts") or 0.0
    motor = Motor(part.name, windings, volts, part.given.has("may"), axis, upward, read_figures(part))
    bonds = _bonds(part, (*brushes, "-"))
    case = ("case",) if bonds else ()
    return Pieces(part.info((*brushes, "-", *case), case), conductors=bonds, loads=loads, motors=(motor,))


def _winding_load(part: Described, brush: str) -> Load:
    volts = part.given.value("", "volts") or 0.0
    stall, assumed = _stall_amps(part, high=brush == "high")
    name = part.name if brush == "+" else f"{part.name} {brush}"
    return Load(name, part.name, "motor", part.terminal(brush), part.terminal("-"), volts, volts / stall, assumed,
                inductive=False, place=part.place)  # fmt: skip


def _stall_amps(part: Described, high: bool) -> tuple[float, bool]:
    """Stall current, and whether it is a guess."""
    given = part.given.value("stall", "amps")
    free = part.given.value("free", "amps")
    low = given or (STALL_PER_FREE * free if free else ASSUMED_STALL_AMPS)
    return low * (HIGH_PER_LOW if high else 1.0), given is None


def _bonds(part: Described, brushes: tuple[str, ...]) -> tuple[Conductor, ...]:
    words = part.given.words.get("case", ())
    if not words:
        return ()
    if words[0].text not in brushes:
        what = f"no brush {words[0].text} on {part.called}"
        raise refuse(words[0].place, what, f"{part.called} has the brushes {' '.join(brushes)}.")
    bond = Conductor(part.terminal(words[0].text), part.terminal("case"), "bond", part.name, part.place)
    return (bond,)


def _drive(part: Described) -> tuple[int | None, bool]:
    """The number of the axis that the motor drives, and whether forward leads to higher zones."""
    words = part.given.words.get("drives", ())
    if not words:
        return None, True
    number, axis = find_axis(part, words[0])
    goal = words[1]
    if goal.text not in axis.places:
        raise refuse(goal.place, f"no place {goal.text} on {words[0].text}", suggestion(goal.text, axis.places))
    if axis.turning:
        return number, _shorter_way_is_upward(axis, goal.text)
    if goal.text not in (axis.places[0], axis.places[-1]):
        what = f"{goal.text} is not an end of {words[0].text}"
        raise refuse(goal.place, what, f"A motor drives toward an end: {axis.places[0]} or {axis.places[-1]}.")
    return number, goal.text == axis.places[-1]


def _shorter_way_is_upward(axis: Axis, goal: str) -> bool:
    """Toward a place of a turning axis means the shorter way from its first place; as listed where both are as long."""
    steps = axis.places.index(goal)
    return steps <= len(axis.places) - steps


TAKES = FIGURES_TAKEN | {
    "": Shape(("volts", "rpm"), ("volts",), ranged=("rpm",)),
    "drives": Shape(words=(2, 2)),
    "may": Shape(words=(1, 1), choices=("coast",)),
    "case": Shape(words=(1, 1)),
    "two-speed": FLAG,
}

KINDS = {"motor": Kind("motor", "motor M1 12 V stall 18 A", TAKES, read_motor)}
