"""What an operating card says follows of a hand is what the judge sees follow of it, state by state."""

from pathlib import Path

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.hands import after_turning, story_by_hand
from circuitcheck.circuit.building import build_circuit
from circuitcheck.paper.doings import Doing, doings, tables_of, told_by_table, words_of
from circuitcheck.paper.handling import handled
from circuitcheck.plan.reading import read_plan, read_text
from tests.judge.one_state import State
from tests.judge.steps import Judge, with_value

EXAMPLES = Path(__file__).parents[2] / "examples"
PLANS = ("cue_light", "dragon_wing", "gallery_lift", "lighthouse_shutter", "touring_drawbridge", "trapdoor_lantern")
"""Without operate and release times, which the judge doesn't know."""
JAW = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
button START no
button STOP nc
relay  K1 dpdt coil 12 V 160 ohm with diode
axis   jaw from shut to open, 40 deg
limit  LS1 nc on jaw at open
motor  M1 12 V stall 5 A drives jaw toward open
rung   PS.+, F1, ES1, STOP, LS1.com-nc, ( START | K1.11-14 ), K1.A1-A2, PS.-
rung   ES1.12, K1.24-21, M1, PS.-
wire   K1.22 PS.-
"""


def facts_of(name: str) -> Facts:
    """An example's facts, or the jaw's."""
    plan = read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES / "parts",)) if name else read_text("jaw.plan", JAW)
    return analyse(build_circuit(plan))


def all_doings(facts: Facts) -> tuple[Doing, ...]:
    """Everything that the prop does with all supplies on."""
    return doings(facts, tables_of(facts))


def word_at(judge: Judge, state: State, part: str) -> str:
    """What a motor or lamp does, as a card calls it."""
    names = [motor.name for motor in judge.circuit.motors]
    verdict = judge.judged(state)
    if part in names:
        return verdict.motors[names.index(part)]
    word = next(word for number, word in verdict.lamps.items() if judge.circuit.loads[number].part == part)
    return {"lit": "on", "glowing": "weak", "dark": "off"}[word]


def turned(judge: Judge, state: State, digit: int, value: int) -> set[State]:
    """Every state in which relays may come to rest for good once the digit is turned there, all else left alone."""
    moments = judge.circuit.digits[digit].moments
    passed = [place for place, one in enumerate(moments, len(judge.circuit.digits[digit].values))
              if (state[digit], value) in one.moves]  # fmt: skip
    begun = [with_value(state, digit, place) for place in passed] or [with_value(state, digit, value)]
    found, waiting, graph = set(begun), list(begun), dict[State, set[State]]()
    relays = {relay.digit for relay in judge.circuit.relays}
    while waiting:
        here = waiting.pop()
        graph[here] = {
            there
            for there in judge.successors(here)
            if any(there[n] != here[n] for n in relays) or there == with_value(here, digit, value) != here
        }
        for there in graph[here] - found:
            found.add(there)
            waiting.append(there)
    return {state for state in found if not graph[state] and state[digit] == value}


@pytest.mark.parametrize("name", ["", *PLANS], ids=lambda name: name or "jaw")
def test_what_follows_of_a_hand_is_what_the_judge_sees(name: str) -> None:
    """For everything that the prop does and each position of each control: the same words at the end."""
    facts = facts_of(name)
    judge = Judge(facts.circuit)
    rests = [state for state in judge.reachable() if judge.is_proper(state) and judge.is_at_rest(state)]
    for doing in all_doings(facts):
        words = words_of(facts, doing.part)
        asked = {digit for states in words.values() for digit in states.space.digits}
        for number, digit in enumerate(facts.circuit.digits):
            for value in range(len(digit.values)) if digit.kind in ("control", "supply") else ():
                before = doing.states - facts.spaces.where(number, (value,))
                after = after_turning(facts, before, number, value, asked)
                told = {word for word, states in words.items() if states & after}
                going = [one for one in rests if one[number] != value and word_at(judge, one, doing.part) == doing.word]
                seen = {
                    word_at(judge, there, doing.part)
                    for state in going
                    for there in turned(judge, state, number, value)
                }
                assert told == seen, (doing.part, doing.word, digit.name, digit.values[value])


@pytest.mark.parametrize("name", ["", *PLANS], ids=lambda name: name or "jaw")
def test_a_doing_begins_as_its_story_tells(name: str) -> None:
    """Step by step, each of them one that the judge allows, from a prop just switched on to the thing itself."""
    facts = facts_of(name)
    judge = Judge(facts.circuit)
    for doing in all_doings(facts):
        story = story_by_hand(facts, doing.states)
        assert story is not None
        state = tuple(story.beginning.get(number, 0) for number in range(len(facts.circuit.digits)))
        for supply in facts.circuit.supplies:
            assert state[supply.digit] == 1
        assert all(digit.springs_to in (None, state[number]) for number, digit in enumerate(facts.circuit.digits))
        for change in story.changes:
            there = with_value(state, change.digit, change.end)
            assert there in judge.successors(state)
            state = there
        assert word_at(judge, state, doing.part) == doing.word


@pytest.mark.parametrize("name", ["", *PLANS], ids=lambda name: name or "jaw")
def test_nothing_is_done_but_with_the_controls_that_the_card_names(name: str) -> None:
    """At every rest that the judge reaches with the supplies on."""
    facts = facts_of(name)
    judge = Judge(facts.circuit)
    tables = tables_of(facts)
    rests = [state for state in judge.reachable() if judge.is_proper(state) and judge.is_at_rest(state)]
    for doing in all_doings(facts):
        needs = handled(facts, tables, doing).needs
        assert told_by_table(facts, tables, doing)
        going = [state for state in rests if word_at(judge, state, doing.part) == doing.word]
        assert going
        assert all(state[digit] in values for state in going for digit, values in needs)
