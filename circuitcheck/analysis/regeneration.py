"""Current that a turning motor drives back into a supply.

A motor makes volts as it turns: up to those that drove it, less what its free current loses in its winding. Joined to a
supply of fewer volts before it has slowed down, it feeds current back; so it does when the weight of its load turns it
faster than it would run by itself. An electronic supply (one that limits its current, or that withstands only so many
volts) takes none, so its volts rise.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.currents import Currents
from circuitcheck.analysis.devices import DRIVEN_SHARE
from circuitcheck.analysis.episodes import episodes_of, reversal
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resistances import Setting
from circuitcheck.analysis.single_state import Story
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Motor, Supply

NOTICEABLE_VOLTS = 0.05


class Pushed(NamedTuple):
    """`motor`, still turning at up to `made` volts of its own, brings a supply's terminals to up to `volts`."""

    motor: Motor
    supply: Supply
    made: float
    volts: float
    story: Story


class Overhauled(NamedTuple):
    """In `states` the weight of a load drives its motor, which feeds up to `amps` back into a supply."""

    motor: Motor
    supply: Supply
    amps: float
    states: States


def pushed_supplies(facts: Facts) -> Iterator[Pushed]:
    """Each motor with one winding and each supply that it can push above what the supply withstands, or else above its
    own volts: the worst of both directions of turning. What other loads on that supply would take is not counted.

    A single supply never is: the motor had its volts from it.
    """
    if len(facts.circuit.supplies) == 1:
        return
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        if len(motor.windings) > 1:
            continue
        worst: dict[int, Pushed] = {}
        for sign, volts, driven in _drives(facts, motor):
            made = volts - _lost_running(facts, motor)
            for number, raised, states in _raised(facts, motor, sign * made):
                if number in worst and worst[number].volts >= raised:
                    continue
                barred = does.braked | facts.shorted
                story = _unbraked_way(facts, driven, states, barred)
                if story:
                    worst[number] = Pushed(motor, facts.circuit.supplies[number], made, raised, story)
        yield from worst.values()


def _unbraked_way(facts: Facts, driven: States, states: States, barred: States) -> Story | None:
    """A shortest story from a drive to one of the states with nothing `barred` between; the motor may coast on the way,
    as where a hand passes an off position."""
    episodes = episodes_of(facts, driven, barred, states)
    coasting = episodes._replace(going_on=[*episodes.going_on, *episodes.beginning])
    return reversal(coasting, driven, states, barred)


def _drives(facts: Facts, motor: Motor) -> Iterator[tuple[int, float, States]]:
    """The volts with which operation drives a motor forward (1) and in reverse (-1), and in which states."""
    for fed in facts.volts[motor.windings[0].load]:
        for sign, states in ((1, fed.forward), (-1, fed.backward)):
            reached = facts.reached_at_rest(facts.possible(states))
            if reached and fed.volts >= DRIVEN_SHARE * motor.volts:
                yield sign, fed.volts, reached


def _lost_running(facts: Facts, motor: Motor) -> float:
    """The volts that a motor loses in its winding while it runs with nothing to move."""
    free = motor.figures.free_amps
    return free[0] * facts.circuit.loads[motor.windings[0].load].ohms if free else 0.0


def _raised(facts: Facts, motor: Motor, made: float) -> list[tuple[int, float, States]]:
    """Each supply that a motor with these volts of its own raises too far, to how many volts and in which states."""
    load = motor.windings[0].load
    found: dict[int, tuple[float, States]] = {}
    for case in Currents(facts, Setting(generated={load: made})).of_load(load):
        for number, volts in case.at_supply.items():
            supply = facts.circuit.supplies[number]
            if is_electronic(supply) and volts > (supply.withstands_volts or supply.volts) + NOTICEABLE_VOLTS:
                most, states = found.get(number, (volts, case.states))
                found[number] = max(most, volts), states | case.states
    return [(number, volts, states.tight()) for number, (volts, states) in found.items()]


def overhauled_motors(facts: Facts) -> Iterator[Overhauled]:
    """Each motor that the plan's figures let the weight of its load drive, on an electronic supply."""
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        amps = _amps_by_weight(facts, motor)
        if amps <= 0:
            continue
        lowering = does.reverse if motor.upward else does.forward
        states: dict[int, States] = {}
        for winding in motor.windings:
            for case in Currents(facts, Setting()).of_load(winding.load, lowering):
                for number, delivered in case.delivered.items():
                    if delivered > 0 and is_electronic(facts.circuit.supplies[number]):
                        states[number] = union((case.states,), states.get(number, facts.spaces.none()))
        for number, where in states.items():
            yield Overhauled(motor, facts.circuit.supplies[number], amps, where.tight())


def _amps_by_weight(facts: Facts, motor: Motor) -> float:
    """What a load's weight, less friction, makes a motor feed back at most; 0 where the plan's figures don't tell."""
    if motor.axis is None or facts.circuit.axes[motor.axis].turning:
        return 0.0
    axis, figures = facts.circuit.axes[motor.axis].figures, motor.figures
    if not (axis.gravity_newton_metres and figures.stall_newton_metres and figures.stall_amps):
        return 0.0
    friction = axis.friction_newton_metres[0] if axis.friction_newton_metres else 0.0
    amps_per_newton_metre = figures.stall_amps[1] / figures.stall_newton_metres[0]
    free = figures.free_amps[0] if figures.free_amps else 0.0
    return (axis.gravity_newton_metres[1] - friction) * amps_per_newton_metre - free


def is_electronic(supply: Supply) -> bool:
    """Does the plan describe a supply that takes no current back?"""
    return bool(supply.limit_amps or supply.withstands_volts)
