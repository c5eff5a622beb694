"""The game of two boxes, pair of states by pair of states, against the judge's."""

import pytest

from circuitcheck.analysis.both_boxes import BothBoxes
from circuitcheck.analysis.comparing import Comparison
from circuitcheck.analysis.differing import differing_devices
from circuitcheck.analysis.matching import match_parts
from circuitcheck.analysis.side_by_side import side_by_side
from circuitcheck.analysis.states import States
from circuitcheck.analysis.telling_apart import play
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.analysis.test_comparing import differences, judged_differences, replayed
from tests.judge.one_state import State
from tests.judge.steps import Judge
from tests.judge.two_boxes import Pair, TwoBoxes

DECK = """
supply PS 12 V 10 A
switch S1 spdt positions raise lower make-before-break
relay  K1 K2 no nc coil 12 V 160 ohm
axis   deck from low to high
limit  TOP nc on deck at high
lamp   L1 12 V 2 W
motor  M1 12 V stall 5 A drives deck toward high may coast
rung   PS.+, S1.com
rung   S1.raise, TOP, K1.A1-A2, PS.-
rung   S1.lower, K1.21-22, K2.A1-A2, PS.-
rung   PS.+, K1.13-14, M1, PS.-
rung   PS.+, K2.13-14, L1, PS.-
"""
DRUM = """
supply PS 12 V 10 A
button GO BACK no
axis   drum turning through park half
cam    CS1 spdt on drum at park
relay  K1 K2 spdt coil 12 V 160 ohm
motor  M1 12 V stall 5 A drives drum toward half
rung   PS.+, ( GO | CS1.com-nc ), K1.A1-A2, PS.-
rung   PS.+, BACK, K2.A1-A2, PS.-
rung   PS.+, K1.14-11, M1, K2.11-12, PS.-
rung   PS.+, K2.14
rung   PS.-, K1.12
"""
RACE = """
supply PS 12 V 10 A
button PB1 no
relay  K1 K2 no nc coil 12 V 160 ohm
relay  K3 no nc off-delay 2 s coil 12 V 160 ohm
lamp   L1 L2 L3 12 V 2 W
rung   PS.+, PB1, K2.21-22, K1.A1-A2, PS.-
rung   PB1.14, K1.21-22, K2.A1-A2, PS.-
rung   PS.+, K1.13-14, ( L1 | K3.A1-A2 ), PS.-
rung   PS.+, K2.13-14, L2, PS.-
rung   PS.+, K3.17-18, L3, PS.-
"""
LATCH = """
supply PS 12 V 5 A
button PB1 PB2 no
relay  K1 no no latching coil 12 V 160 ohm
relay  K2 no coil 12 V 160 ohm
lamp   L1 12 V 2 W
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   PS.+, PB2, K1.B1-B2, PS.-
rung   PS.+, K1.23-24, K2.A1-A2, PS.-
rung   PS.+, K1.13-14, L1, PS.-
"""
UNSET = LATCH.replace("rung   PS.+, PB1, K1.A1-A2, PS.-\n", "")
SEALED = """
supply PS 12 V 5 A
button PB1 no nc
relay  K1 no no coil 12 V 160 ohm
lamp   L1 12 V 2 W
motor  M1 12 V stall 5 A may coast
rung   PS.+, ( PB1.13-14 | K1.13-14 ), K1.A1-A2, PS.-
rung   PS.+, PB1.21-22, K1.23-24, M1, PS.-
rung   PS.+, L1, PS.-
"""
MOMENT = """
supply PS 12 V 5 A
switch S1 spdt positions raise lower make-before-break
relay  K1 no no on-delay 2 s coil 12 V 160 ohm
lamp   L1 12 V 2 W
rung   PS.+, S1.raise
rung   S1.lower, K1.A1-A2, PS.-
rung   PS.+, K1.17-18, K1.A1
rung   PS.+, K1.27-28, L1, PS.-
"""
"""The timer is fed only while the switch is between its positions."""
SHORT = """
supply PS 12 V 5 A
switch S1 spdt positions lit off short
lamp   L1 12 V 2 W
rung   PS.+, S1.com
rung   S1.lit, L1, PS.-
wire   S1.short PS.-
"""
CHANGES = {
    "nothing": (DECK, "", ""),
    "an interlock that nobody sees": (DECK, "rung   S1.lower, K1.21-22, K2", "rung   S1.lower, K2"),
    "a lamp by the other contact": (DECK, "K2.13-14, L1", "K2.21-22, L1"),
    "a limit bridged": (DECK, "rung   S1.raise, TOP", "wire TOP.com TOP.nc\nrung   S1.raise, TOP"),
    "a relay that lifts the deck past its limit": (DECK, "rung   PS.+, K1.13-14", "rung   S1.lower, K1.13-14"),
    "both ends of a switch on one supply": (DECK, "rung   PS.+, S1.com\n", "rung   PS.+, S1.com\nwire S1.lower PS.-\n"),
    "a short that is gone": (DECK + "wire S1.lower PS.-\n", "wire S1.lower PS.-\n", ""),
    "a short that both have": (DECK + "wire S1.lower PS.-\n", "K1.13-14, M1", "K1.21-22, M1"),
    "a lamp at once and a motor in the end": (SEALED, "M1, PS.-\nrung   PS.+, L1", "M1, PS.+\nrung   PS.-, L1"),
    "a lamp beside a short of all that there is": (SHORT, "S1.lit, L1", "S1.com, L1"),
    "a drum that goes on": (DRUM, "CS1.com-nc", "CS1.com-no"),
    "a drum that turns the other way": (DRUM, "toward half", "toward park"),
    "a drum that is braked": (DRUM, "K1.14-11, M1, K2", "K1.14-11, GO.13-14, M1, K2"),
    "a race that one side wins": (RACE, "K2.21-22, K1.A1", "K1.A1"),
    "a race that only the lamps show": (RACE, "K2.13-14, L2", "K2.13-14, K1.13-14, L2"),
    "a timer fed by the other": (RACE, "( L1 | K3.A1-A2 ), PS.-", "L1, PS.-\nrung K2.14, K3.A1-A2, PS.-"),
    "a timer that waits before": (RACE, "off-delay", "on-delay"),
    "a lamp behind a relay": (LATCH, "K1.13-14, L1", "K2.13-14, L1"),
    "a lamp of a timer that never has its time": (MOMENT, "PS.+, K1.27-28, L1", "PS.-, L1"),
    "a lamp of a latch that nothing sets": (UNSET, "K1.13-14, L1", "K1.13-14, PB1, L1"),
    "a reset that is gone": (LATCH, "PB2, K1.B1", "PB2, PB1.13-14, K1.B1"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_every_pair_of_states_is_told_apart_or_not_as_the_judge_does(change: str) -> None:
    """The pairs that are alike, and in which order which pairs are met."""
    plan, before, after = CHANGES[change]
    old, new = circuit_of(plan), circuit_of(plan.replace(before, after) if before else plan)
    parts = match_parts(old, new)
    both = BothBoxes(side_by_side(old, new, parts, relays_together=False), parts)
    game, seen = both.game(tuple(one.name for one in both.seen))
    played, judged = play(game), TwoBoxes(old, new)

    def bits(pairs: set[Pair]) -> int:
        return sum(1 << number for number in {game.space.number(laid_out(both, old, pair)) for pair in pairs})

    assert played.alike & bits(judged.come_to) == bits(judged.alike)
    assert played.same == judged.same()
    assert [tuple(one) for one in played.rounds] == [(bits(started), bits(ended)) for started, ended in judged.rounds]
    if not played.same:
        apart = differing_devices(both.laid.old, both.facts[0].spaces, game, played, seen)
        assert_told_as_judged(Comparison(both.laid.old.digits, (apart,), (), (), False, ()), judged)


def assert_told_as_judged(comparison: Comparison, judged: TwoBoxes) -> None:
    """What does something else in which combinations, in which of them it also agrees, and a shortest story of it."""
    (apart,) = comparison.apart
    assert len({device.name for device in apart.devices}) == len(apart.devices)
    assert differences(comparison, judged.old.circuit) == judged_differences(judged)
    assert replayed(comparison, judged) == []
    for device in apart.devices:
        if device.kind not in ("axis", "supply"):
            agreeing = {
                judged.inputs(old)
                for old, new in judged.met
                if judged.old.judge.is_proper(old)
                and judged.old.words(old).get(device.name, 0) == judged.new.words(new).get(device.name, 1)
            }
            assert combinations_of(comparison, judged.old.circuit, device.agreeing) == agreeing
    moves = sum(not one.side for one in apart.parting.happenings)
    kinds = [
        {kind_of(judged, name) for pair in ended for name in differing(judged, pair)} for _, ended in judged.rounds
    ]
    worst = min(kind for found in kinds for kind in found)
    assert moves == next(number for number, found in enumerate(kinds) if worst in found)


def combinations_of(comparison: Comparison, circuit: Circuit, states: States) -> set[State]:
    """Those of the inputs, relays released, in which a set holds."""
    names = [digit.name for digit in comparison.digits]
    judge, relays = Judge(circuit), [relay.digit for relay in circuit.relays]
    return {
        state
        for state in judge.every_state()
        if judge.is_proper(state)
        and not any(state[relay] for relay in relays)
        and {names.index(digit.name): value for digit, value in zip(circuit.digits, state, strict=True)} in states
    }


def differing(judged: TwoBoxes, pair: Pair) -> set[str]:
    """What does something else; between positions of a switch only a short counts."""
    words = judged.old.words(pair[0]), judged.new.words(pair[1])
    names = words[0].keys() & words[1].keys() if judged.old.judge.is_proper(pair[0]) else {"supplies"}
    return {name for name in names if words[0][name] != words[1][name]}


def kind_of(judged: TwoBoxes, name: str) -> int:
    """The worse the lower: a short, a motor, a lamp, a relay."""
    kinds = ["supply", "motor", "lamp", "relay"]
    return 0 if name == "supplies" else kinds.index(judged.old.circuit.parts[name].kind)


def laid_out(both: BothBoxes, circuit: Circuit, pair: Pair) -> dict[int, int]:
    """A pair's values by the digits of both boxes: a relay of the new one has a digit of its own."""
    names = [digit.name for digit in circuit.digits]
    own = {relay.digit for relay in both.laid.new.relays}
    return {number: pair[number in own][names.index(digit.name)] for number, digit in enumerate(both.laid.old.digits)}
