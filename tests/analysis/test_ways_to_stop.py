"""What a motor does once its drive has ended, over all that operation leads to."""

from collections.abc import Sequence
from textwrap import dedent

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.motion.contact_times import ContactTimes, contact_times
from circuitcheck.analysis.motion.cuts import Cut, TooManyOrders, cuts_of
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from tests.analysis.plain_stops import OneByOne, Told, hull
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
    circuit, cuts = stops(CHAIN)
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


CHAIN = PAIR.replace("K1 K2 spdt", "K1 K2 K3 spdt").replace(
    "rung   S1.raise, TOP, K1.A1-A2, PS.-",
    "rung   S1.raise, TOP, K3.A1-A2, PS.-\n    rung   S1.raise, K3.14-11, K1.A1-A2, PS.-",
)
ROUND = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 K2 dpdt coil 12 V 160 ohm
    motor  M1 12 V stall 10 A
    rung   PS.+, PB1.13
    rung   PS.+, K2.14-11, M1.+
    rung   PB1.14, K2.A1-A2, PS.-
    rung   PS.+, K2.22-21, K1.12-11, K1.A1-A2, PS.-
    rung   K2.12, K1.24-21, PS.-
    rung   M1.-, PS.-
"""
"""Let go, K1 breaks its own coil for ever, and brakes the motor time and again."""
SHORTING = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 K2 dpdt coil 12 V 160 ohm
    motor  M1 12 V stall 10 A
    rung   PS.+, PB1, ( K1.A1-A2 | K2.A1-A2 ), PS.-
    rung   PS.+, K1.14-11, M1, K2.11-14, PS.-
    rung   PS.+, K2.24-21, K1.22-21, PS.-
"""
"""Let go it is a short where K1 is the quicker."""
TIMED = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 dpdt coil 12 V 160 ohm
    relay  K2 spdt coil 12 V 160 ohm on-delay 2 s
    motor  M1 12 V stall 10 A
    rung   PS.+, PB1, K1.A1-A2, PS.-
    rung   PB1.14, K2.A1-A2, PS.-
    rung   PS.+, K1.14-11, K2.16-15, M1, PS.-
    wire   K1.12 PS.-
"""
HALF = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 K2 spdt coil 12 V 160 ohm
    diode  D1
    motor  M1 12 V stall 10 A
    rung   PS.+, PB1, ( K1.A1-A2 | K2.A1-A2 ), PS.-
    rung   PS.+, K1.14-11, M1.+
    rung   M1.-, K2.11-14, PS.-
    rung   K2.12, PS.-
    rung   K1.12, D1, PS.-
"""
TURNED = HALF.replace("M1.-", "M1.x").replace("M1.+", "M1.-").replace("M1.x", "M1.+")
THREE = """
    supply PS 12 V 10 A
    button PB1 no
    relay  K1 K2 K3 spdt coil 12 V 160 ohm
    motor  M1 12 V stall 10 A
    rung   PS.+, PB1, ( K1.A1-A2 | K2.A1-A2 | K3.A1-A2 ), PS.-
    rung   PS.+, K1.14-11, M1, K2.11-14, PS.-
    rung   PS.-, K3.14-11, K2.12
    rung   PS.+, K3.12
    wire   K1.12 PS.-
"""
"""Let go it is driven the other way, once all three have dropped."""


def agrees_with_a_plain_search(facts: Facts, times: dict[int, ContactTimes]) -> int:
    """How many ways to stop motor 0 has, each of which is the plain search's too, to the millisecond."""
    cuts = list(cuts_of(facts, 0, times))
    for direction in (1, -1):
        mine: Told = {}
        for cut in cuts:
            if cut.direction == direction:
                key = cut.cause, cut.way.does, cut.way.relays
                mine[key] = hull(mine.get(key, cut.way.begins), cut.way.begins)
        assert mine == OneByOne(facts, times, direction).found()
    return len(cuts)


def milliseconds(circuit: Circuit, one_by_one: Sequence[tuple[Span, Span]]) -> dict[int, ContactTimes]:
    """How long each relay takes to operate and to release."""
    return {
        number: one._replace(
            operate=(operate[0] / 1000, operate[1] / 1000), release=(release[0] / 1000, release[1] / 1000)
        )
        for (number, one), (operate, release) in zip(contact_times(circuit).items(), one_by_one, strict=False)
    }


@pytest.mark.parametrize("name", ["dragon_jaw", "curtain", "lighthouse_shutter", "drawbridge_slow_finish"])
def test_ways_to_stop_are_those_of_a_plain_search(name: str) -> None:
    """With relays that may take any time, every order that the search finds is found, and no other."""
    facts = analyse(build_circuit(read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES / "parts",))))
    times = {
        number: one._replace(operate=(0.0, 1e9), release=(0.0, 1e9))
        for number, one in contact_times(facts.circuit).items()
    }
    assert agrees_with_a_plain_search(facts, times)


@pytest.mark.parametrize("plan", [PAIR, SWITCHED, CHAIN, ROUND, TIMED, HALF, TURNED, THREE, SHORTING])
def test_ways_to_stop_have_the_times_of_a_plain_search(plan: str) -> None:
    """With relays' own times an order may be impossible, and each has its range; whichever relay is the quicker."""
    facts = analyse(build_circuit(read_text("prop.plan", dedent(plan))))
    takes = [((3, 6), (2, 4)), ((5, 9), (3, 7)), ((7, 12), (6, 10))]
    for one_by_one in (takes, takes[::-1]):
        assert agrees_with_a_plain_search(facts, milliseconds(facts.circuit, one_by_one))


def test_a_relay_that_only_holds_itself_drives_nothing_that_could_stop() -> None:
    """Nothing ever operates it, so operation doesn't come to where the motor runs."""
    assert not told("""
        supply PS 12 V 10 A
        relay  K1 no no coil 12 V 160 ohm
        motor  M1 12 V stall 10 A
        rung   PS.+, K1.13-14, K1.A1-A2, PS.-
        rung   PS.+, K1.23-24, M1, PS.-
    """)


def test_relays_that_drop_in_too_many_orders_are_refused() -> None:
    """Eight at once, each of which breaks the motor's lead."""
    names = [f"K{number}" for number in range(1, 9)]
    coils, contacts = " | ".join(f"{one}.A1-A2" for one in names), ", ".join(f"{one}.14-11" for one in names)
    with pytest.raises(TooManyOrders):
        stops(f"""
            supply PS 12 V 10 A
            button PB1 no
            relay  {" ".join(names)} spdt coil 12 V 160 ohm
            motor  M1 12 V stall 10 A
            rung   PS.+, PB1, ( {coils} ), PS.-
            rung   PS.+, {contacts}, M1, PS.-
        """)
