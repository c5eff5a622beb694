"""What a motor does once its drive has ended, over all that operation leads to."""

from collections.abc import Iterator
from textwrap import dedent

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.motion.contact_times import contact_times
from circuitcheck.analysis.motion.cuts import Cut, cuts_of
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from tests.test_examples import EXAMPLES

PAIR = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    switch S1 spdt positions raise off lower
    relay  K1 K2 spdt coil 12 V 160 ohm release 2..5 ms
    axis   deck from bottom to top
    limit  TOP nc on deck at top
    limit  LOW nc on deck at bottom
    motor  M1 12 V stall 10 A drives deck toward top
    rung   PS.+, F1, S1.com
    rung   S1.raise, TOP, K1.A1-A2, PS.-
    rung   S1.lower, LOW, K2.A1-A2, PS.-
    rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
    wire   K1.12 PS.-
    wire   K2.12 PS.-
"""
SWITCHED = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    switch S1 dpdt positions raise off lower
    axis   deck from bottom to top
    limit  TOP nc on deck at top
    limit  LOW nc on deck at bottom
    motor  M1 12 V stall 10 A drives deck toward top may coast
    rung   PS.+, F1, S1.com1
    rung   S1.raise1, TOP.com-nc, M1, S1.raise2
    rung   S1.lower1, LOW.com-nc, M1.-
    rung   S1.lower2, M1.+
    wire   S1.com2 PS.-
"""


def stops(plan: str) -> tuple[Circuit, list[Cut]]:
    """Every way in which M1's drive ends."""
    circuit = build_circuit(read_text("prop.plan", dedent(plan)))
    return circuit, list(cuts_of(analyse(circuit), 0, contact_times(circuit)))


def told(plan: str) -> set[tuple[int, str, tuple[str, ...]]]:
    """Each direction, with what ends its drive, and what the motor does from then on."""
    circuit, cuts = stops(plan)
    digits = circuit.digits
    return {
        (cut.direction, f"{digits[cut.cause.digit].name} {digits[cut.cause.digit].value_name(cut.cause.end)}",
         cut.way.does)
        for cut in cuts
    }  # fmt: skip


def test_behind_a_limit_in_the_coils_leg_the_motor_is_driven_on_and_then_braked() -> None:
    """The relay has to let go first; switched off or at the limit alike, in both directions."""
    found = told(PAIR)
    for direction, end in ((1, "deck top"), (-1, "deck bottom")):
        assert (direction, end, ("driven", "braked")) in found
        assert (direction, "S1 off", ("driven", "braked")) in found


def test_when_the_power_fails_the_motor_coasts_until_the_relay_has_let_go() -> None:
    """Its feed is gone at once, and the brake comes with the relay."""
    assert (1, "PS off", ("coasting", "braked")) in told(PAIR)


def test_the_relays_release_time_is_that_of_the_way() -> None:
    """As the plan gives it."""
    _, cuts = stops(PAIR)
    begins = {cut.way.begins[1] for cut in cuts if cut.way.does == ("driven", "braked")}
    assert begins == {(0.002, 0.005)}


def test_a_diode_across_the_coil_makes_the_way_longer() -> None:
    """2 to 5 ms become 2 to 15."""
    _, cuts = stops(PAIR.replace("160 ohm release", "160 ohm with diode release"))
    begins = {cut.way.begins[1] for cut in cuts if cut.way.does == ("driven", "braked")}
    assert begins == {(0.002, 0.015)}


def test_a_chain_of_relays_takes_the_sum_of_their_times() -> None:
    """The limit drops K3, whose contact drops K1."""
    chained = PAIR.replace("K1 K2 spdt", "K1 K2 K3 spdt").replace(
        "rung   S1.raise, TOP, K1.A1-A2, PS.-",
        "rung   S1.raise, TOP, K3.A1-A2, PS.-\n    rung   S1.raise, K3.14-11, K1.A1-A2, PS.-",
    )
    circuit, cuts = stops(chained)
    at_top = [cut.way for cut in cuts if cut.cause.kind == "limit" and cut.direction == 1]
    assert {way.does for way in at_top} == {("driven", "braked")}
    assert {way.begins[1] for way in at_top} == {(0.004, 0.010)}
    assert [circuit.relays[one].name for one in at_top[0].relays] == ["K3", "K1"]


def test_a_limit_in_the_motors_own_lead_leaves_it_to_coast_at_once() -> None:
    """No relay has to move."""
    found = told(SWITCHED)
    assert {does for _, end, does in found if end.startswith("deck")} == {("coasting",)}


def test_a_hand_that_passes_off_throws_a_running_motor_into_reverse() -> None:
    """It is driven the other way from the moment of the change."""
    assert (1, "S1 lower", ("reversed",)) in told(SWITCHED)


def test_a_diode_in_the_brake_brakes_the_way_in_which_its_current_can_flow() -> None:
    """Forward the motor's + pushes current out through the diode; turned round, the diode lets it coast."""
    plan = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button PB1 no
        relay  K1 spdt coil 12 V 160 ohm
        diode  D1
        motor  M1 12 V stall 10 A
        rung   PS.+, F1, PB1, K1.A1-A2, PS.-
        rung   F1.2, K1.14-11, M1, PS.-
        rung   {start}, D1, {end}
    """
    braking = told(plan.format(start="K1.12", end="PS.-"))
    assert {does[-1] for _, _, does in braking} == {"braked through a diode"}
    coasting = told(plan.format(start="PS.-", end="K1.12"))
    assert {does[-1] for _, _, does in coasting} == {"coasting"}


def test_a_control_that_ends_no_drive_is_no_stop() -> None:
    """A switch for a lamp beside the motor."""
    lamp = PAIR + "    switch S2 spst positions off on\n    lamp L1 12 V 2 W\n    rung F1.2, S2, L1, PS.-\n"
    assert told(lamp) == told(PAIR)


def test_a_drive_that_no_limit_ends_has_no_stop_there() -> None:
    """The limit's contact is bridged: only the switch and the supply end the drive toward the top."""
    bridged = PAIR + "    wire TOP.com TOP.nc\n"
    assert {end for direction, end, _ in told(bridged) if direction == 1} == {"PS off", "S1 off", "S1 lower"}


def one_state_at_a_time(facts: Facts, motor: int, direction: int) -> set[tuple[int, int, tuple[str, ...]]]:
    """The same by plain search: each resting state in which the motor is driven, each change, each order of relays."""
    does = facts.motors[motor]
    driven, against = (does.forward, does.reverse) if direction > 0 else (does.reverse, does.forward)
    modes = {"driven": driven, "reversed": against, "braked": does.braked, "weak": does.weak}
    behaviour = facts.behaviour({digit for states in (*modes.values(), facts.shorted) for digit in states.space.digits})
    space = behaviour.space
    moves = [move for relay in facts.moves for move in relay if facts.circuit.relays[move.relay].digit in space.digits]

    def mode(state: dict[int, int]) -> str:
        if state in facts.shorted:
            return "shorted"
        return next((name for name, states in modes.items() if state in states), "coasting")

    def follow(state: dict[int, int], seen: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
        seen = seen if seen[-1:] == (mode(state),) else (*seen, mode(state))
        wanted = [move for move in moves if not move.timed and state in move.wanted]
        if not wanted or seen[-1] == "shorted":
            yield seen
            return
        for move in wanted:
            yield from follow(state | {facts.circuit.relays[move.relay].digit: move.end}, seen)

    begun = behaviour.reached & behaviour.rest & behaviour.proper & driven.over(space)
    found = set()
    for number in range(space.size):
        if not begun >> number & 1 or (here := space.values(number)) in facts.shorted:
            continue
        for step in behaviour.steps:
            radix = len(facts.circuit.digits[step.digit].values)
            if facts.circuit.digits[step.digit].kind != "relay" and step.allowed >> number & 1 and step.end < radix:
                for way in follow(here | {step.digit: step.end}, ()):
                    found.add((step.digit, step.end, way))
    return {one for one in found if one[2][-1] != "driven"}


@pytest.mark.parametrize("name", ["dragon_jaw", "curtain", "lighthouse_shutter", "drawbridge_slow_finish"])
def test_ways_to_stop_are_those_of_a_plain_search(name: str) -> None:
    """With relays that may take any time, every order that the search finds is found, and no other."""
    facts = analyse(build_circuit(read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES / "parts",))))
    times = {
        number: one._replace(operate=(0.0, 1e9), release=(0.0, 1e9))
        for number, one in contact_times(facts.circuit).items()
    }
    cuts = list(cuts_of(facts, 0, times))
    assert cuts
    for direction in (1, -1):
        mine = {
            (cut.cause.digit, cut.cause.end, cut.way.does)
            for cut in cuts
            if cut.direction == direction and cut.cause.kind != "timer"
        }
        plain = one_state_at_a_time(facts, 0, direction)
        passed = {digit for digit, _, _ in mine ^ plain}
        # A hand's way through the moment between two positions is two steps of the search.
        assert all(facts.circuit.digits[digit].moments for digit in passed)
