"""How much room a stop has: up to the hard stop past an end, or as long as a cam keeps its switch pressed."""

from typing import Final, NamedTuple

from circuitcheck.analysis.motion.constants import RAD_PER_DEGREE
from circuitcheck.analysis.motion.cuts import Cause
from circuitcheck.analysis.motion.known import Wanted
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Axis, Circuit, Motor

FITS, DOES_NOT_FIT, HANGS, UNKNOWN = "fits", "does not fit", "hangs on the figures' range", "not known"
OVERTRAVEL, CAM = "overtravel", "cam"


class Room(NamedTuple):
    """Behind which switches (by name), of which kind; radians of the output shaft, None where the plan lacks
    `wanted`."""

    kind: str
    switches: tuple[str, ...]
    radians: Span | None
    wanted: tuple[Wanted, ...] = ()


CAM_WANTED: Final = "20 deg"


def room_after(circuit: Circuit, motor: Motor, cause: Cause) -> Room | None:
    """The room for a stop that a switch of the motor's own axis begins; None for any other stop."""
    if motor.axis is None or cause.digit != circuit.axes[motor.axis].digit or not cause.limits:
        return None
    axis = circuit.axes[motor.axis]
    pressed = [circuit.limits[one] for one in cause.limits if cause.end in circuit.limits[one].zones]
    names = tuple(one.name for one in pressed)
    if axis.turning:
        return _on_cams(circuit, names) if names else None
    rising = cause.end > cause.start
    return _past_end(axis, names) if cause.end == axis.range[rising] and names else None


def shaft_metres(axis: Axis) -> Span | None:
    """Metres that a linear axis goes for each radian of its drum; None where it goes by degrees."""
    drum = axis.figures.drum_metres
    return drum and (drum[0] / 2, drum[1] / 2)


def verdict(turns: Span, room: Span) -> str:
    """Whether the whole range of the one lies within the whole range of the other."""
    if turns[1] <= room[0]:
        return FITS
    return DOES_NOT_FIT if turns[0] > room[1] else HANGS


def _past_end(axis: Axis, names: tuple[str, ...]) -> Room:
    figures, metres = axis.figures, shaft_metres(axis)
    if figures.overtravel_degrees is not None:
        degrees = figures.overtravel_degrees
        return Room(OVERTRAVEL, names, (degrees[0] * RAD_PER_DEGREE, degrees[1] * RAD_PER_DEGREE))
    if figures.overtravel_metres is None:
        return Room(OVERTRAVEL, names, None, (Wanted(axis.name, "overtravel 30 mm" if metres else "overtravel 5 deg"),))
    if metres is None:
        return Room(OVERTRAVEL, names, None, (Wanted(axis.name, "drum 60 mm"),))
    return Room(OVERTRAVEL, names, (figures.overtravel_metres[0] / metres[1], figures.overtravel_metres[1] / metres[0]))


def _on_cams(circuit: Circuit, names: tuple[str, ...]) -> Room:
    """The narrowest cam lets go first."""
    widths = {name: circuit.parts[name].ratings.get("degrees") for name in names}
    wanted = tuple(Wanted(name, CAM_WANTED) for name, width in widths.items() if width is None)
    known = [width * RAD_PER_DEGREE for width in widths.values() if width is not None]
    return Room(CAM, names, None if wanted else (min(known), min(known)), wanted)
