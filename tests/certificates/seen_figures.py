"""What is claimed of volts behind resistances and of motors that turn on, looked at by the judge in each state."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import product
from math import inf, log1p, pi, radians

from circuitcheck.certificates.verifier import GETS_ENOUGH, STOPS_IN_TIME
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Axis, Circuit, Coil, Motor, Relay
from tests.certificates.real_volts import is_bare, needed_volts, real_volts
from tests.certificates.seen import DRIVEN, Seen
from tests.judge.devices import Wish
from tests.judge.one_state import State
from tests.judge.steps import with_value
from tests.judge.times import has_diode, seconds_of

TRAVEL = 0.005
NOTHING = (0.0, 0.0)


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    circuit = seen.circuit
    found: dict[str, Callable[[], bool]] = {}
    found |= {f"{one.name} {STOPS_IN_TIME}": partial(_stops_in_time, seen, one) for one in circuit.motors}
    for relay in circuit.relays:
        for coil in (one for one in (relay.coil, relay.reset) if one):
            found[f"{circuit.loads[coil.load].name} {GETS_ENOUGH}"] = partial(_gets_enough, seen, relay, coil)
    return found


def _gets_enough(seen: Seen, relay: Relay, coil: Coil) -> bool:
    """Wherever it is to move its relay, and all loads of the circuit take what they take?"""
    called = (
        state
        for state in seen.reached
        if state[relay.digit] == int(coil == relay.reset)
        and abs(seen.judge.judged(state).volts[coil.load]) >= coil.operate_volts - 1e-9
    )
    needed = needed_volts(seen.circuit, coil.operate_volts) - 1e-3
    return is_bare(seen.circuit) or all(abs(real_volts(seen.circuit, one)[coil.load]) >= needed for one in called)


def _stops_in_time(seen: Seen, motor: Motor) -> bool:
    """From each rest at which it is driven, once its axis goes on to press a switch, in each order of relays?"""
    assert motor.axis is not None
    axis = seen.circuit.axes[motor.axis]
    for state in (one for one in seen.rests if seen.word(motor.name, one) in DRIVEN):
        for there in seen.judge.successors(state):
            room = _room(seen.circuit, axis, state[axis.digit], there[axis.digit])
            for word, seconds in _ends(seen, motor, there, {}, 0.0, []) if room is not None else ():
                fits = word in DRIVEN or (room or 0.0) > _turned(seen, motor, state, word, seconds) - 1e-9
                if word == "weak" or not fits:
                    return False
    return True


def _room(circuit: Circuit, axis: Axis, start: int, end: int) -> float | None:
    """In radians, behind the switches that this step presses; None where it presses none or none is told."""
    on_axis = [limit for limit in circuit.limits if circuit.axes[limit.axis] == axis]
    names = [limit.name for limit in on_axis if end in limit.zones and start not in limit.zones]
    figures = axis.figures
    if not names or start == end:
        return None
    if axis.turning:
        widths = [circuit.parts[name].ratings.get("degrees", inf) for name in names]
        return None if inf in widths else radians(min(widths))
    if (start, end) not in ((axis.range[1] - 1, axis.range[1]), (axis.range[0] + 1, axis.range[0])):
        return None
    if figures.overtravel_degrees:
        return radians(figures.overtravel_degrees[0])
    if figures.overtravel_metres and figures.drum_metres:
        return 2 * figures.overtravel_metres[0] / figures.drum_metres[1]
    return None


def _ends(
    seen: Seen, motor: Motor, state: State, since: dict[Wish, float], now: float, done: list[tuple[str, float]]
) -> Iterator[tuple[str, float]]:
    """What the motor does in the end, and since when at the latest, in each order of relays."""
    word = seen.word(motor.name, state)
    done = done if done and done[-1][0] == word else [*done, (word, now)]
    wishes = [wish for wish in seen.judge.judged(state).wishes if not wish.timed]
    if not wishes or len(done) > 20:
        yield done[-1]
        return
    ready = {wish: since.get(wish, now) for wish in wishes}
    latest = min(began + _longest(seen.circuit, wish) for wish, began in ready.items())
    for wish in wishes:
        yield from _ends(seen, motor, with_value(state, wish.digit, wish.end), ready, latest, done)


def _longest(circuit: Circuit, wish: Wish) -> float:
    """As the plan tells, or what relays usually take."""
    told = seconds_of(circuit, wish)[1]
    relay = next(one for one in circuit.relays if one.digit == wish.digit)
    slowed = relay.reset is None and has_diode(circuit, circuit.loads[relay.coil.load])
    return told if told < inf else 0.015 if wish.end == 1 else 0.030 if slowed else 0.010


def _turned(seen: Seen, motor: Motor, state: State, word: str, seconds: float) -> float:
    """How far it turns on at least, with figures at some ends of their ranges: driven on, open, braked or still open.
    Nothing where the plan doesn't tell."""
    volts = [abs(seen.judge.judged(state).volts[one.load]) for one in motor.windings]
    brush = 1.5 if volts[-1] > volts[0] else 1.0
    figures = motor.figures
    measured = figures.coasts_degrees if word == "coasting" else figures.brakes_degrees
    if measured and figures.free_rpm:
        speed = brush * figures.free_rpm[1] * pi / 30
        slowing = speed**2 / (2 * brush**2 * radians(figures.coasts_degrees[1])) if figures.coasts_degrees else 0.0
        after = max(speed - slowing * TRAVEL, 0.0)
        way = (speed + after) / 2 * TRAVEL if word != "coasting" else 0.0
        return speed * seconds + way + brush**2 * radians(measured[1]) * (after / speed) ** 2
    return max(_reckoned(seen.circuit, motor, brush, max(volts), word, seconds), default=0.0)


def _reckoned(circuit: Circuit, motor: Motor, brush: float, volts: float, word: str, seconds: float) -> Iterator[float]:
    """By the armature's equations, figures at each end of their ranges in turn."""
    assert motor.axis is not None
    told, load = motor.figures, circuit.axes[motor.axis].figures
    needed = told.stall_amps, told.free_amps, told.free_rpm, told.rotor_kg_m2, told.gear, load.inertia_kg_m2
    weights = load.friction_newton_metres or NOTHING, load.gravity_newton_metres or NOTHING
    spans: list[Span] = [one for one in (*needed, *weights) if one is not None]
    for stall, free, rpm, rotor, gear, inertia, rubbing, weight in product(*spans) if None not in needed else ():
        ohms, turning = motor.volts / (stall * brush), rpm * brush * pi / 30
        constant = motor.volts * (1 - free / (stall * brush)) / turning
        torque = constant * free + rubbing - weight
        speed = (volts - ohms * torque / constant) / constant
        slowing, drag = torque / (rotor * gear**2 + inertia), constant**2 / ohms / (rotor * gear**2 + inertia)
        after = max(speed - slowing * TRAVEL, 0.0)
        open_way = speed * TRAVEL - slowing * TRAVEL**2 / 2 if after else 0.0
        braked = open_way + after / drag - slowing / drag**2 * log1p(after * drag / slowing) if slowing > 0 else inf
        yield speed * seconds + (speed**2 / (2 * slowing) if word == "coasting" and slowing > 0 else braked)
