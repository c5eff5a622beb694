"""What faults lead to, told by the engine and by the judge, which looks at one pair of states at a time."""

import random
from collections import deque
from collections.abc import Iterator
from heapq import heapify, heappop, heappush
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.consequences import Outcome
from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.shortest import shortest_story
from circuitcheck.analysis.faults.verdicts import Judge as Engine
from circuitcheck.analysis.settling import endless, races
from circuitcheck.checks.check import Finding
from circuitcheck.checks.narration import example_words, fault_story_words
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from tests.analysis.boxes import boxes
from tests.judge.besides import Besides, Pair
from tests.judge.consequences import Told, consequences
from tests.judge.noticing import noticed_by
from tests.judge.one_state import State
from tests.judge.replaying import replay
from tests.judge.steps import Judge

EXAMPLES = Path(__file__).parents[2] / "examples"

PLANS = {
    "a hoist with a stop and a seal": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        estop  ES1 nc
        button START no
        relay  K1 dpdt coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A
        rung   PS.+, F1, ES1, ( START | K1.11-14 ), K1.A1-A2, PS.-
        rung   ES1.12, K1.24-21, M1, PS.-
        wire   K1.22 PS.-
    """,
    "a deck switched directly, both limits in one lead": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 dpdt positions raise off lower
        axis   deck from bottom to top
        limit  TOP spdt on deck at top
        limit  LOW spdt on deck at bottom
        diode  D1 D2 10 A
        motor  M1 12 V stall 10 A drives deck toward top may coast
        rung   PS.+, F1, S1.com1
        rung   S1.raise1, M1.+
        rung   M1.-, TOP.com-nc, LOW.com-nc, S1.raise2
        rung   TOP.nc, D1, TOP.com
        rung   LOW.com, D2, LOW.nc
        rung   S1.lower1, S1.raise2
        rung   S1.lower2, S1.raise1
        wire   S1.com2 PS.-
    """,
    "a drum that a cam parks, on a strip": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button GO no
        relay  K1 spdt coil 12 V 160 ohm with diode
        strip  X1 3 ways
        axis   drum turning through park half
        cam    CS1 spdt on drum at park
        motor  M1 12 V stall 5 A drives drum toward half
        rung   PS.+, F1, ( GO | CS1.com-nc ), X1.1, K1.A1-A2, PS.-
        rung   F1.2, K1.14-11, X1.2, M1, X1.3, PS.-
        wire   K1.12 PS.-
    """,
    "a latch that a relay holds open": """
        supply PS 12 V 5 A
        button STOP nc
        button GO no
        relay  K1 no no coil 12 V 160 ohm
        solenoid Y1 12 V 12 ohm
        rung   PS.+, STOP, ( GO | K1.13-14 ), K1.A1-A2, PS.-
        rung   STOP.12, K1.23-24, Y1, PS.-
    """,
    "a curtain that drops once": """
        supply PS 12 V 5 A
        button GO no
        axis   curtain from up to down
        limit  LS1 nc on curtain at down
        motor  M1 12 V stall 5 A drives curtain toward down may coast
        rung   PS.+, GO, LS1, M1, PS.-
    """,
    "two relays that lock each other out": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 spdt positions raise off lower
        relay  K1 K2 dpdt coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A case on -
        rung   PS.+, F1, S1.com-raise, K2.21-22, K1.A1-A2, PS.-
        rung   S1.lower, K1.21-22, K2.A1-A2, PS.-
        rung   F1.2, K1.14
        rung   F1.2, K2.14
        rung   K1.12, PS.-
        rung   K2.12, PS.-
        wire   K1.11 M1.+
        wire   K2.11 M1.-
    """,
    "two guided relays in series that must both have dropped before a start": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        button GO no
        relay  K1 K2 no no nc force-guided coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A may coast
        rung   PS.+, F1, GO, ( K1.31-32, K2.31-32 | K1.23-24 | K2.23-24 ), K1.A1-A2, PS.-
        rung   K1.A1, K2.A1-A2, PS.-
        rung   F1.2, K1.13-14, K2.13-14, M1, PS.-
    """,
}


QUICK = (
    "right/lighthouse_two_supplies",
    "right/trapdoor_lantern",
    "wrong/beam_case_reversed",
    "wrong/wind_machine_may_weld",
)
SLOW = (
    "right/lighthouse_shutter",
    "right/sea_drum",
    "right/storm_beam",
    "right/touring_drawbridge",
    "wrong/curtain_no_interlock",
    "wrong/curtain_seal_past_stop",
    "wrong/curtain_trapped",
    "wrong/drum_lost_halfway",
    "wrong/jaw_limit_must_close",
)


def disagreements(circuit: Circuit) -> dict[str, set[Told]]:
    """By fault what only one of them finds, or finds in other states."""
    engine, sound = Engine(circuit), Judge(circuit)
    after = distances(sound)
    found = {fault.called: told_apart(engine, sound, after, fault) for fault in single_faults(circuit)}
    return {called: apart for called, apart in found.items() if apart}


def told_apart(engine: Engine, sound: Judge, after: dict[State, int], fault: Fault) -> set[Told]:
    """What the engine says of a fault that the judge doesn't say of just these states, or the other way round. after:
    how many steps from power-up each state of the sound box takes."""
    circuit = sound.circuit
    verdict, boxes = engine.verdict(fault), Besides(sound, set(after), fault.called)
    judged = consequences(boxes)
    outcomes: dict[Told, list[Outcome]] = {told: [] for told in judged}
    for one in verdict.outcomes:
        device = "" if one.consequence == "supply short" else one.device
        outcomes.setdefault((one.consequence, device, one.place), []).append(one)
    apart = {told for told, found in outcomes.items() if not are_the_states(found, judged.get(told, set()))}
    # A relay that moves alike in both is one step to the engine and two to the judge.
    for one in verdict.outcomes if not circuit.relays else ():
        story = shortest_story(one.joint, one.states, one.begun)
        if len(story.before.changes) + len(story.after) != fewest_steps(boxes, after, one):
            apart.add((f"steps to {one.consequence}", one.device, one.place))
    supplies = {supply.name for supply in circuit.supplies}
    noticed = {"short" if name in supplies else name for name in verdict.noticed_by}
    return apart | {("noticed", name, "") for name in noticed ^ noticed_by(boxes)}


def are_the_states(found: list[Outcome], pairs: set[Pair]) -> bool:
    """Are the pairs just those in which one or the other outcome holds, as far as each looks?"""
    left = set(pairs)
    for outcome in found:
        seen = {pair: seen_over(outcome.joint.space.digits, pair) for pair in pairs}
        states = set(states_of(outcome))
        if not states <= set(seen.values()):
            return False
        left -= {pair for pair, state in seen.items() if state in states}
    return bool(found) and not left


def fewest_steps(boxes: Besides, after: dict[State, int], outcome: Outcome) -> int:
    """Of the sound box, then of both, to where it is so; from where the fault comes best, if that leads there."""
    space, states = outcome.joint.space, set(states_of(outcome))
    numbers = {pair: space.number(dict(enumerate(pair.faulty + pair.sound))) for pair in boxes.begun}
    for begun in ([pair for pair in boxes.begun if outcome.begun >> numbers[pair] & 1], boxes.begun):
        reached: set[Pair] = set()
        waiting = [(after[pair.sound], pair) for pair in begun]
        heapify(waiting)
        while waiting:
            steps, pair = heappop(waiting)
            if seen_over(space.digits, pair) in states:
                return steps
            if pair not in reached:
                reached.add(pair)
                for there in boxes.next[pair]:
                    heappush(waiting, (steps + 1, there))
    raise AssertionError("nothing leads there")


def distances(sound: Judge) -> dict[State, int]:
    """How many steps from power-up each state takes that can be reached."""
    found = dict.fromkeys(sound.beginnings(), 0)
    waiting = deque(found)
    while waiting:
        state = waiting.popleft()
        for there in sound.successors(state):
            if there not in found:
                found[there] = found[state] + 1
                waiting.append(there)
    return found


def seen_over(digits: tuple[int, ...], pair: Pair) -> State:
    """The values of some digits of both: those of the faulty box, then those of the sound one."""
    both = pair.faulty + pair.sound
    return tuple(both[digit] for digit in digits)


def states_of(outcome: Outcome) -> Iterator[State]:
    """Each state in which it is so."""
    left = outcome.states
    while left:
        number = left.bit_length() - 1
        yield tuple(outcome.joint.space.values(number).values())
        left ^= 1 << number


@pytest.mark.parametrize("name", PLANS)
def test_the_judge_agrees_on_what_every_fault_leads_to(name: str) -> None:
    """Each consequence with its motor and its place, for every single fault of the plan."""
    assert disagreements(build_circuit(read_text("a.plan", dedent(PLANS[name])))) == {}


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_the_judge_agrees_on_the_examples_for_people(name: str) -> None:
    """The same for every fault of plans that are shown to people."""
    assert disagreements(build_circuit(read_plan(EXAMPLES / f"{name}.plan", (EXAMPLES,)))) == {}


def refused_stories(circuit: Circuit) -> dict[str, str]:
    """The faults whose story the judge cannot walk to its end, with the reason."""
    engine, found = Engine(circuit), {}
    for fault in single_faults(circuit):
        for outcome in engine.verdict(fault).outcomes:
            story = shortest_story(outcome.joint, outcome.states, outcome.begun)
            reason = replay(circuit, as_finding(circuit, fault_story_words(circuit, fault, story), story.state))
            if reason:
                found[f"{fault.called}: {outcome.consequence}"] = reason
    return found


def as_finding(circuit: Circuit, steps: tuple[str, ...], state: dict[int, int]) -> Finding:
    """A story in the form in which the judge reads one."""
    example = example_words(circuit, state)
    return Finding("none", "error", "fault", "", (), (), example, (), steps, 1, 1, "", "")


@pytest.mark.parametrize("name", PLANS)
def test_the_judge_walks_the_story_of_every_fault(name: str) -> None:
    """Sound operation leads to where the fault may come, and the faulty box from there to where it shows."""
    assert refused_stories(build_circuit(read_text("a.plan", dedent(PLANS[name])))) == {}


@pytest.mark.parametrize("name", ["right/curtain", *QUICK, *SLOW])
def test_the_judge_walks_the_stories_of_the_examples_for_people(name: str) -> None:
    """The same for every fault of plans that are shown to people."""
    assert refused_stories(build_circuit(read_plan(EXAMPLES / f"{name}.plan", (EXAMPLES,)))) == {}


def is_unsettled(circuit: Circuit) -> bool:
    """Do relays race, or go round for ever? Then it matters that the engine moves relays that are alike in both boxes
    together, and the judge each for itself."""
    facts = analyse(circuit)
    return any(True for _ in endless(facts)) or any(True for _ in races(facts))


@pytest.mark.slow
@settings(max_examples=30, deadline=None)
@given(text=boxes(), chance=st.randoms(use_true_random=False))
def test_the_judge_agrees_on_faults_of_boxes_drawn_at_random(text: str, chance: random.Random) -> None:
    """A motor on an axis between two relays, however their coils are fed; timers apart, which each box runs for
    itself."""
    circuit = build_circuit(read_text("a.plan", text))
    assume(all(relay.function == "plain" for relay in circuit.relays) and not is_unsettled(circuit))
    engine, sound = Engine(circuit), Judge(circuit)
    after = distances(sound)
    for fault in chance.sample(single_faults(circuit), 3):
        if not is_unsettled(with_fault(circuit, fault)):
            assert told_apart(engine, sound, after, fault) == set(), fault.called
