"""What motors, lamps and relays do in which states, from the volts across their loads.

The thresholds decide where two people could differ: a motor is driven from a quarter of its rated volts, weak from
2 %; a lamp is lit from half of its volts and glows from 5 %. A relay operates and releases at its own volts.
"""

from collections.abc import Callable
from typing import Final, NamedTuple, Protocol

from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.feeding import Fed, leads_both_ways
from circuitcheck.analysis.states import Spaces, States, union
from circuitcheck.circuit.model import Coil, Motor, Relay

DRIVEN_SHARE: Final = 0.25
WEAK_SHARE: Final = 0.02
LIT_SHARE: Final = 0.5
GLOW_SHARE: Final = 0.05


class Volts(Protocol):
    """The volts of each load of the circuit, by its index."""

    def __getitem__(self, load: int, /) -> tuple[Fed, ...]: ...


class MotorStates:
    """Every state is in exactly one of these sets; shorted states are told apart by whoever reads them.

    loose: those in which it is neither driven nor braked nor weak. Which of them are braked_one_way and which coasting
    may depend on every branch of a bus: then they can be asked for within few states only.
    """

    def __init__(
        self,
        forward: States,
        reverse: States,
        braked: States,
        weak: States,
        one_way: Callable[[States], States],
    ) -> None:
        self.forward = forward
        self.reverse = reverse
        self.braked = braked
        self.weak = weak
        self.loose = (~(self.driven | braked | weak)).tight()
        self._one_way = one_way

    def seen(self, seen: Callable[[States], States]) -> "MotorStates":
        """The same with each set as `seen` has it."""
        forward, reverse, braked, weak = map(seen, (self.forward, self.reverse, self.braked, self.weak))
        return MotorStates(forward, reverse, braked, weak, lambda states: seen(self._one_way(states)))

    @property
    def driven(self) -> States:
        """Forward or reverse."""
        return self.forward | self.reverse

    @property
    def braked_one_way(self) -> States:
        """Conductors lead from one brush to the other, but not back."""
        return self.braked_one_way_within(self.loose)

    @property
    def coasting(self) -> States:
        """None of the others."""
        return self.coasting_within(self.loose)

    def braked_one_way_within(self, states: States) -> States:
        """Those of the states in which it is braked one way."""
        return self._one_way(states & self.loose).tight()

    def coasting_within(self, states: States) -> States:
        """Those of the states in which it is coasting."""
        return ((states & self.loose) - self.braked_one_way_within(states)).tight()

    def named(self, within: States | None = None) -> dict[str, States]:
        """All of them by their words. within: where braked one way and coasting are told apart; None for everywhere."""
        loose = self.loose if within is None else within
        return {
            "forward": self.forward,
            "reverse": self.reverse,
            "braked": self.braked,
            "weak": self.weak,
            "braked one way": self.braked_one_way_within(loose),
            "coasting": self.coasting_within(loose),
        }


class LampStates(NamedTuple):
    """Every state is in exactly one of these sets."""

    lit: States
    glowing: States
    dark: States


class RelayMove(NamedTuple):
    """The relay's digit wants to go from value `start` to `end` in the states `wanted` (all of them at `start`).

    timed: it takes the relay's delay, so that controls and motors may move meanwhile; all others take milliseconds.
    """

    relay: int
    start: int
    end: int
    wanted: States
    timed: bool


def at_least(fed: tuple[Fed, ...], volts: float, spaces: Spaces) -> tuple[States, States]:
    """The states in which a load stands at `volts` or more: with its `a` positive, and with its `b` positive."""
    enough = [one for one in fed if one.volts >= volts - 1e-9]
    return union((one.forward for one in enough), spaces.none()), union((one.backward for one in enough), spaces.none())


def motor_states(motor: Motor, volts: Volts, conduction: Conduction) -> MotorStates:
    """What a motor does. `volts`: of each load of the circuit."""
    spaces = conduction.spaces
    forward, reverse, weak = spaces.none(), spaces.none(), spaces.none()
    for winding in motor.windings:
        ahead, behind = at_least(volts[winding.load], DRIVEN_SHARE * motor.volts, spaces)
        forward, reverse = forward | ahead, reverse | behind
        weak = union(at_least(volts[winding.load], WEAK_SHARE * motor.volts, spaces), weak)
    reverse = reverse - forward
    stopped = (~(forward | reverse)).tight()
    ends = [(winding.plus, winding.minus) for winding in motor.windings]
    braked = union((leads_both_ways(conduction, *pair, stopped) for pair in ends), spaces.none())
    weak = (weak & stopped) - braked

    def one_way(states: States) -> States:
        both = [*ends, *(pair[::-1] for pair in ends)]
        return union((conduction.leads(*pair, states) for pair in both if states), spaces.none())

    return MotorStates(forward.tight(), reverse.tight(), braked.tight(), weak.tight(), one_way)


def lamp_states(fed: tuple[Fed, ...], rated_volts: float, spaces: Spaces) -> LampStates:
    """What a lamp (or buzzer, or solenoid) does; it doesn't mind the polarity."""
    lit = union(at_least(fed, LIT_SHARE * rated_volts, spaces), spaces.none())
    some = union(at_least(fed, GLOW_SHARE * rated_volts, spaces), spaces.none())
    return LampStates(lit.tight(), (some - lit).tight(), (~(some | lit)).tight())


def coil_operates(coil: Coil, volts: Volts, spaces: Spaces) -> States:
    """The states in which a coil has volts enough to operate its relay, in either polarity."""
    return union(at_least(volts[coil.load], coil.operate_volts, spaces), spaces.none()).tight()


def coil_holds(coil: Coil, volts: Volts, spaces: Spaces) -> States:
    """The states in which a coil has volts enough to keep an operated relay operated."""
    return union(at_least(volts[coil.load], coil.release_volts, spaces), spaces.none()).tight()


def relay_moves(number: int, relay: Relay, volts: Volts, spaces: Spaces) -> tuple[RelayMove, ...]:
    """When a relay wants to move, by its function.

    A latching relay whose two coils are both energised stays where it is. A controlled timing relay goes back to its
    start when its supply at A1 A2 is lost; else its input does what the coil does of one that has none. An off-delay
    begins when the signal goes (IEC 60050), and a one-shot's pulse lasts its time however short the signal was.
    """
    operates, dropped = coil_operates(relay.coil, volts, spaces), ~coil_holds(relay.coil, volts, spaces)
    signal, silent = operates, dropped
    if relay.control is not None:
        signal = (operates & coil_operates(relay.control, volts, spaces)).tight()
        silent = (dropped | ~coil_holds(relay.control, volts, spaces)).tight()
    if relay.reset is not None:
        resets = coil_operates(relay.reset, volts, spaces)
        wishes = [(0, 1, operates - resets, False), (1, 0, resets - operates, False)]
    elif relay.function == "pulse":
        wishes = [(0, 1, signal, False), (1, 2, ~silent, True), (2, 1, ~silent, True)]
        wishes += [(1, 0, silent, False), (2, 0, silent, False)]
    elif relay.function == "one-shot":
        wishes = [(0, 1, signal, False), (1, 2, ~dropped, True), (1, 0, dropped, False), (2, 0, silent, False)]
    elif relay.function == "off-delay" and relay.control is not None:
        wishes = [(0, 1, signal, False), (1, 0, dropped, False), (1, 0, silent - dropped, True)]
    else:
        wishes = [(0, 1, signal, relay.function == "on-delay"), (1, 0, silent, relay.function == "off-delay")]
    return tuple(
        RelayMove(number, start, end, (spaces.where(relay.digit, (start,)) & wanted).tight(), timed)
        for start, end, wanted, timed in wishes
    )
