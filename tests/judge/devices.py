"""What motors, lamps and relays do in one state, by the words' meanings."""

from typing import NamedTuple

from circuitcheck.circuit.model import Circuit, Motor, Relay
from tests.judge.one_state import State, View, is_shorted, leads, view
from tests.judge.volts import load_volts

ALMOST = 1e-9


class Wish(NamedTuple):
    """A relay wants its digit to go to value `end`; timed: only when its time has run out."""

    digit: int
    end: int
    timed: bool


class Verdict(NamedTuple):
    """A state judged. volts: of each load; motors: a word each; lamps: a word for each load of a lamp's kind."""

    shorted: bool
    volts: tuple[float, ...]
    motors: tuple[str, ...]
    lamps: dict[int, str]
    wishes: tuple[Wish, ...]


def judge_state(circuit: Circuit, state: State) -> Verdict:
    """All that holds in the state. In a shorted one no load has volts and no relay moves."""
    seen = view(circuit, state)
    if is_shorted(seen):
        nothing = tuple(0.0 for _ in circuit.loads)
        return Verdict(True, nothing, tuple("shorted" for _ in circuit.motors), {}, ())
    volts = tuple(load_volts(circuit, seen, number) for number in range(len(circuit.loads)))
    motors = tuple(motor_word(motor, seen, volts) for motor in circuit.motors)
    lamps = {
        number: lamp_word(abs(volts[number]), load.volts)
        for number, load in enumerate(circuit.loads)
        if load.kind in ("lamp", "buzzer", "solenoid")
    }
    wishes = tuple(wish for relay in circuit.relays for wish in relay_wishes(relay, state[relay.digit], volts))
    return Verdict(False, volts, motors, lamps, wishes)


def motor_word(motor: Motor, seen: View, volts: tuple[float, ...]) -> str:
    """forward, reverse, braked, weak, braked one way or coasting, in this order."""
    across = [volts[winding.load] for winding in motor.windings]
    ahead = [leads(seen, one.plus, one.minus) for one in motor.windings]
    back = [leads(seen, one.minus, one.plus) for one in motor.windings]
    if any(one >= 0.25 * motor.volts - ALMOST for one in across):
        return "forward"
    if any(-one >= 0.25 * motor.volts - ALMOST for one in across):
        return "reverse"
    if any(there and again for there, again in zip(ahead, back, strict=True)):
        return "braked"
    if any(abs(one) >= 0.02 * motor.volts - ALMOST for one in across):
        return "weak"
    if any(ahead) or any(back):
        return "braked one way"
    return "coasting"


def lamp_word(volts: float, rated: float) -> str:
    """lit, glowing or dark."""
    if volts >= 0.5 * rated - ALMOST:
        return "lit"
    return "glowing" if volts >= 0.05 * rated - ALMOST else "dark"


def relay_wishes(relay: Relay, value: int, volts: tuple[float, ...]) -> list[Wish]:
    """What the relay wants, standing at `value` (0 released, 1 operated, 2 spent or pausing)."""
    across = abs(volts[relay.coil.load])
    on, off = across >= relay.coil.operate_volts - ALMOST, across < relay.coil.release_volts - ALMOST
    if relay.reset is not None:
        reset = abs(volts[relay.reset.load]) >= relay.reset.operate_volts - ALMOST
        wanted = {0: on and not reset, 1: reset and not on}[value]
        return [Wish(relay.digit, 1 - value, False)] if wanted else []
    if relay.control is not None:
        return controlled_wishes(relay, value, abs(volts[relay.control.load]), on, off)
    if value == 0:
        return [Wish(relay.digit, 1, relay.function == "on-delay")] if on else []
    if off:
        return [Wish(relay.digit, 0, relay.function == "off-delay")]
    if relay.function == "pulse":
        return [Wish(relay.digit, 3 - value, True)]
    if relay.function == "one-shot" and value == 1:
        return [Wish(relay.digit, 2, True)]
    return []


def controlled_wishes(relay: Relay, value: int, across: float, on: bool, off: bool) -> list[Wish]:
    """What a timing relay wants whose input stands at `across` volts; `on` and `off` tell of its supply."""
    assert relay.control is not None
    called = on and across >= relay.control.operate_volts - ALMOST
    gone = across < relay.control.release_volts - ALMOST
    if value == 0:
        return [Wish(relay.digit, 1, relay.function == "on-delay")] if called else []
    if off:
        return [Wish(relay.digit, 0, False)]
    if relay.function == "one-shot":
        ending = [Wish(relay.digit, 0, False)] if gone else []
        return [Wish(relay.digit, 2, True)] if value == 1 else ending
    if gone:
        return [Wish(relay.digit, 0, relay.function == "off-delay")]
    return [Wish(relay.digit, 3 - value, True)] if relay.function == "pulse" else []
