"""What faults lead to, told by the engine and by the judge, which looks at one pair of states at a time."""

import random
from functools import cache
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
from tests.judge.besides import consequences
from tests.judge.replaying import replay
from tests.judge.steps import Judge

EXAMPLES = Path(__file__).parents[2] / "examples"

Told = tuple[str, str, str]
"""A consequence, the motor, the place."""

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
    "a deck switched directly": """
        supply PS 12 V 10 A
        fuse   F1 5 A
        switch S1 dpdt positions raise off lower
        axis   deck from bottom to top
        limit  TOP spdt on deck at top
        limit  LOW spdt on deck at bottom
        motor  M1 12 V stall 10 A drives deck toward top may coast
        rung   PS.+, F1, S1.com1
        rung   S1.raise1, TOP.com-nc, M1, S1.raise2
        rung   S1.lower1, LOW.com-nc, M1.-
        rung   S1.lower2, M1.+
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


@cache
def judged(name: str) -> tuple[Circuit, dict[Fault, tuple[Outcome, ...]]]:
    """One of PLANS or of the examples, and what the engine says that each single fault in it leads to."""
    plan = (
        read_text("a.plan", dedent(PLANS[name])) if name in PLANS else read_plan(EXAMPLES / f"{name}.plan", (EXAMPLES,))
    )
    circuit = build_circuit(plan)
    engine = Engine(circuit)
    return circuit, {fault: engine.verdict(fault).outcomes for fault in single_faults(circuit)}


def disagreements(name: str) -> dict[str, tuple[set[Told], set[Told]]]:
    """By fault what only the engine finds, and what only the judge does."""
    circuit, outcomes = judged(name)
    reached = Judge(circuit).reachable()
    found = {}
    for fault in outcomes:
        told = {told_of(circuit, one) for one in outcomes[fault]} - {None}
        seen = consequences(circuit, reached, fault.called)
        if told != seen:
            found[fault.called] = ({one for one in told - seen if one}, seen - told)
    return found


def told_of(circuit: Circuit, outcome: Outcome) -> Told | None:
    """What the judge can say of it too; None for solenoids, and for an axis that is trapped."""
    if outcome.consequence == "supply short":
        return outcome.consequence, "", ""
    known = outcome.device in {motor.name for motor in circuit.motors} and outcome.consequence != "limit trapped"
    return (outcome.consequence, outcome.device, outcome.place) if known else None


@pytest.mark.parametrize("name", PLANS)
def test_the_judge_agrees_on_what_every_fault_leads_to(name: str) -> None:
    """Each consequence with its motor and its place, for every single fault of the plan."""
    assert disagreements(name) == {}


@pytest.mark.parametrize("name", [*QUICK, *(pytest.param(one, marks=pytest.mark.slow) for one in SLOW)])
def test_the_judge_agrees_on_the_examples_for_people(name: str) -> None:
    """The same for every fault of plans that are shown to people."""
    assert disagreements(name) == {}


def refused_stories(name: str) -> dict[str, str]:
    """The faults whose story the judge cannot walk to its end, with the reason."""
    circuit, outcomes = judged(name)
    found = {}
    for fault in outcomes:
        for outcome in outcomes[fault]:
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
    assert refused_stories(name) == {}


@pytest.mark.parametrize("name", ["right/curtain", *QUICK, *SLOW])
def test_the_judge_walks_the_stories_of_the_examples_for_people(name: str) -> None:
    """The same for every fault of plans that are shown to people."""
    assert refused_stories(name) == {}


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
    engine, reached = Engine(circuit), Judge(circuit).reachable()
    for fault in chance.sample(single_faults(circuit), 3):
        if not is_unsettled(with_fault(circuit, fault)):
            told = {told_of(circuit, one) for one in engine.verdict(fault).outcomes} - {None}
            assert told == consequences(circuit, reached, fault.called), fault.called
