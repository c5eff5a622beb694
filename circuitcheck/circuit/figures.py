"""What a plan says of motors, what they move, wires and surroundings, beyond what the circuit itself needs.

All in SI units; angles in degrees, speeds in rpm, temperatures in °C, areas in mm2. None where the plan says nothing:
nothing is guessed here.
"""

from typing import NamedTuple

Span = tuple[float, float]
"""(least, greatest); both are the same where the plan gives one figure."""


class MotorFigures(NamedTuple):
    """stall, free: amps and torque at standstill, amps and speed with nothing to move, at rated volts.

    Torque and speed are those of the gearbox's output shaft; `rotor_kg_m2` is the inertia at the rotor, before the
    gear, and `gear` the turns of the rotor for one of the output. coasts_degrees, brakes_degrees: how far the output
    shaft goes on from free speed, left open and shorted, as measured with the prop attached.
    """

    stall_amps: Span | None = None
    free_amps: Span | None = None
    free_rpm: Span | None = None
    stall_newton_metres: Span | None = None
    rotor_kg_m2: Span | None = None
    gear: Span | None = None
    coasts_degrees: Span | None = None
    brakes_degrees: Span | None = None


class AxisFigures(NamedTuple):
    """The load of an axis, at the output shaft of the motor that drives it.

    gravity_newton_metres: the torque of the load's weight toward the axis' first place (a turning axis: toward lower
    places). overtravel: how far the axis may go past its end places before it hits a hard stop. drum_metres: the
    diameter of the drum that makes turns into a length.
    """

    inertia_kg_m2: Span | None = None
    friction_newton_metres: Span | None = None
    gravity_newton_metres: Span | None = None
    overtravel_degrees: Span | None = None
    overtravel_metres: Span | None = None
    drum_metres: Span | None = None


class WireInfo(NamedTuple):
    """A wire as it is soldered; zeros and "" where the plan says nothing. `conductor` indexes Circuit.conductors.

    insulation_celsius: what its insulation stands."""

    conductor: int
    area_mm2: float
    metres: float
    colour: str
    number: str
    insulation_celsius: float = 0.0


class Conditions(NamedTuple):
    """What the whole prop works in; `insulation_celsius`, area and length hold for wires that say nothing themselves.

    bundled: how many current-carrying wires lie in one bundle. area_mm2, metres: 0 where the plan says nothing. table:
    the one whose sizes are proposed, "" for all.
    """

    ambient_celsius: Span | None = None
    insulation_celsius: float | None = None
    bundled: int | None = None
    area_mm2: float = 0.0
    metres: float = 0.0
    table: str = ""


class Defaulted(NamedTuple):
    """What a part (or the plan's `conditions`) takes from settings, as a plan would write it, and from which file."""

    part: str
    words: str
    file: str

    def __str__(self) -> str:
        return f"{self.part}: {self.words} (from {self.file})"
