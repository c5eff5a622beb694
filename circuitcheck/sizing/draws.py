"""What each load draws: running, starting, stalled.

A motor that starts stands still at first and draws its stall current; thrown into reverse at speed it draws twice that.
How much it draws while it runs lies between its free and its stall current, in proportion to the torque (a permanent
magnet motor's torque is proportional to its current). A cold filament draws ten times its rated current (Omron, load
types; National Instruments FP-RLY-420 manual: 10 to 15 times).
"""

from typing import Final, NamedTuple

from circuitcheck.analysis.episodes import episodes_of, reversal
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.routes import Share
from circuitcheck.analysis.source import COMMON_PRACTICE, Source
from circuitcheck.analysis.states import TooWide
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Load, Motor

RUNNING_SHARE: Final = 0.25
"""Of its stall current, where nothing tells the torque (common practice, no source)."""
LAMP_INRUSH: Final = 10.0
LAMP_SOURCE = Source("Omron load types, National Instruments FP-RLY-420 manual", "read")
PLUGGING: Final = 2.0


class Assumption(NamedTuple):
    """What a figure rests on where the plan says nothing: `part` lacks it, `taken` says what stands in for it, and
    `write` what would settle it."""

    part: str
    taken: str
    write: str
    source: Source


class Draw(NamedTuple):
    """Amperes at rated volts. starting: for a moment in normal operation, a brake's and a reversal's included.
    stalled: of a motor that something holds fast, for all others the same as running."""

    running: float
    starting: float
    stalled: float

    def at(self, load: Load, share: Share) -> "Draw":
        """What it draws at a share's volts: all in proportion but a running motor's, whose load stays the same. A brake
        takes the current of a start, and only for a moment."""
        scale = share.volts / load.volts if load.volts else share.volts / load.ohms
        if share.side == "series":
            return Draw(share.amps, share.amps, share.amps)
        if share.side == "brake":
            return Draw(0.0, self.stalled, 0.0)
        if load.kind == "motor":
            stalled = self.stalled * scale
            return Draw(min(self.running, stalled), self.starting * scale, stalled)
        return Draw(*(scale * amps for amps in self)) if load.volts else Draw(scale, scale, scale)


class Draws(NamedTuple):
    """of: for each load of the circuit. reversed: the names of motors that operation throws into reverse at speed, or
    for all that is known may throw."""

    of: tuple[Draw, ...]
    reversed: frozenset[str]
    assumptions: tuple[Assumption, ...]


def find_draws(facts: Facts) -> Draws:
    """What all loads of a circuit draw."""
    circuit = facts.circuit
    owners = {winding.load: number for number, motor in enumerate(circuit.motors) for winding in motor.windings}
    thrown = frozenset(motor.name for number, motor in enumerate(circuit.motors) if _is_thrown(facts, number))
    assumptions: dict[Assumption, None] = {}
    draws = []
    for number, load in enumerate(circuit.loads):
        if number in owners:
            motor = circuit.motors[owners[number]]
            draws.append(_motor_draw(facts, motor, load, motor.name in thrown, assumptions))
        else:
            amps = load.volts / load.ohms
            draws.append(Draw(amps, LAMP_INRUSH * amps if load.kind == "lamp" else amps, amps))
            if load.kind == "lamp":
                taken = f"a cold filament that draws {LAMP_INRUSH:g} times its current for a moment"
                assumptions[Assumption(load.part, taken, "", LAMP_SOURCE)] = None
    return Draws(tuple(draws), thrown, tuple(assumptions))


def _motor_draw(facts: Facts, motor: Motor, load: Load, thrown: bool, assumptions: dict[Assumption, None]) -> Draw:
    stall = load.volts / load.ohms
    if load.assumed and motor.figures.stall_amps is None:
        taken = f"it stalls at {stall:.3g} A"
        assumptions[Assumption(motor.name, taken, f"`stall 18 A` at motor {motor.name}", COMMON_PRACTICE)] = None
    running = _running(facts, motor, stall)
    if running is None:
        running = max(RUNNING_SHARE * stall, _most(motor.figures.free_amps))
        taken = f"it runs at {running:.3g} A, a quarter of its stall current"
        write = f"its torque after `stall` at motor {motor.name}"
        write += " and `friction` and `gravity` at the axis it drives" if motor.axis is not None else " and an axis"
        assumptions[Assumption(motor.name, taken, write, COMMON_PRACTICE)] = None
    return Draw(running, stall * (PLUGGING if thrown else 1.0), stall)


def _running(facts: Facts, motor: Motor, stall: float) -> float | None:
    """From free to stall current in proportion to the greatest torque of its axis; None where figures are missing."""
    figures, axis = motor.figures, facts.circuit.axes[motor.axis].figures if motor.axis is not None else None
    if axis is None or figures.stall_newton_metres is None or figures.free_amps is None:
        return None
    if axis.friction_newton_metres is None and axis.gravity_newton_metres is None:
        return None
    torque = _most(axis.friction_newton_metres) + _most(axis.gravity_newton_metres)
    share = min(1.0, torque / figures.stall_newton_metres[0])
    free = _most(figures.free_amps)
    return free + (stall - free) * share


def _most(span: Span | None) -> float:
    return span[1] if span else 0.0


def _is_thrown(facts: Facts, number: int) -> bool:
    does = facts.motors[number]
    if not (does.forward and does.reverse):
        return False
    barred = does.braked | facts.shorted
    ways = ((does.forward, does.reverse), (does.reverse, does.forward))
    try:
        episodes = episodes_of(facts, does.driven, barred)
        return any(reversal(episodes, before, after, barred) for before, after in ways)
    except TooWide:
        # Where its relays hang together with too many others it counts as thrown: the greater current.
        return True
