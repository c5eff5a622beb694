"""Whether two versions behave alike: on random plans, pair of states by pair of states, the judge agrees."""

from hypothesis import assume, given, settings

from circuitcheck.analysis.comparing import Comparison, compare_behaviour
from circuitcheck.analysis.matching import match_parts
from circuitcheck.circuit.model import Circuit
from tests.analysis.comparing_plans import changed_logic, changed_plans, renamed
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.one_state import bridges_a_supply_that_is_off, view
from tests.judge.steps import Judge, with_value
from tests.judge.two_boxes import TwoBoxes
from tests.profiles import examples

Told = set[tuple[tuple[int, ...], str, str, str]]
"""Inputs, a device, what it does in old and in new."""


def compared(old: Circuit, new: Circuit) -> Comparison:
    """The verdict of the tool."""
    return compare_behaviour(old, new, match_parts(old, new))


def is_comparable(circuit: Circuit) -> bool:
    """Left out are states that sets and judge see differently; see agreement.py."""
    states = Judge(circuit).every_state()
    return not any(bridges_a_supply_that_is_off(circuit, state, view(circuit, state)) for state in states)


def differences(comparison: Comparison, circuit: Circuit) -> Told:
    """What the tool tells of each combination, axes left out: the judge sees their motors."""
    relays = {relay.digit for relay in circuit.relays}
    names = [digit.name for digit in comparison.digits]
    found: Told = set()
    for state in Judge(circuit).every_state():
        if any(state[relay] for relay in relays) or not Judge(circuit).is_proper(state):
            continue
        values = {names.index(digit.name): value for digit, value in zip(circuit.digits, state, strict=True)}
        for apart in comparison.apart:
            for device in apart.devices:
                for words, states in device.words.items():
                    if values in states and device.kind != "axis":
                        found.add((state, device.name, *words))
    return found


def judged_differences(boxes: TwoBoxes) -> Told:
    """The same by the judge."""
    found: Told = set()
    for old, new in boxes.met:
        if boxes.old.judge.is_proper(old):
            words = boxes.old.words(old), boxes.new.words(new)
            inputs = boxes.inputs(old)
            found |= {
                (inputs, name, words[0][name], words[1][name])
                for name in words[0].keys() & words[1].keys()
                if words[0][name] != words[1][name]
            }
    return found


def replayed(comparison: Comparison, boxes: TwoBoxes) -> list[str]:
    """What the judge has against the stories."""
    circuit = boxes.old.circuit
    numbers = {digit.name: number for number, digit in enumerate(circuit.digits)}
    wrong = []
    for apart in comparison.apart:
        sides = {"old": boxes.old, "new": boxes.new}
        states = dict.fromkeys(sides, tuple(axis_start(circuit, number) for number in range(len(circuit.digits))))
        for digit, value in apart.parting.beginning.items():
            states = {
                side: with_value(state, numbers[comparison.digits[digit].name], value) for side, state in states.items()
            }
        for one in apart.parting.happenings:
            turn = numbers[comparison.digits[one.digit].name], one.value
            for side in (one.side,) if one.side else ("old", "new"):
                following = with_value(states[side], *turn)
                if following not in sides[side].judge.successors(states[side]):
                    wrong.append(f"{side}: {turn} can't follow {states[side]}")
                states[side] = following
        words = boxes.old.words(states["old"]), boxes.new.words(states["new"])
        told = {name: both for name, both in apart.ended if name in words[0] and name in words[1]}
        if not apart.ended or told != {name: (words[0][name], words[1][name]) for name in told}:
            wrong.append(f"ended {apart.ended}; {words}, says the judge")
    return wrong


def axis_start(circuit: Circuit, number: int) -> int:
    """Where a digit stands that plays no part."""
    return next((axis.range[0] for axis in circuit.axes if axis.digit == number), 0)


@given(plan_texts(most_states=64))
@settings(max_examples=examples(30))
def test_a_plan_behaves_like_itself_under_other_names_and_in_another_order(text: str) -> None:
    """Neither names nor the order of statements change what a box does, in any combination."""
    old, new = circuit_of(text), circuit_of(renamed(text))
    comparison = compared(old, new)
    assert comparison.same
    assert set(match_parts(old, new)) == set(old.parts)


@given(plan_texts(most_states=64))
@settings(max_examples=examples(30))
def test_a_plan_behaves_like_itself_in_every_combination(text: str) -> None:
    """Nothing has to be played through to see it."""
    assert compared(circuit_of(text), circuit_of(text)).everywhere


@given(changed_plans() | changed_logic())
@settings(max_examples=examples(30))
def test_the_judge_agrees_whether_a_change_makes_a_difference(plans: tuple[str, str]) -> None:
    """Same or not, and in which combinations each device does what else."""
    old, new = map(circuit_of, plans)
    assume(is_comparable(old) and is_comparable(new))
    boxes = TwoBoxes(old, new)
    comparison = compared(old, new)
    relays = sum(
        comparison.digits[digit].kind == "relay" for one in comparison.apart for digit in one.parting.beginning
    )
    # A story leaves relays out that stand beside it, and a group is told of without what others do meanwhile.
    whole = len(comparison.apart) == 1 and relays == 2 * len(old.relays)
    if whole:
        assert replayed(comparison, boxes) == []
    if any(box.shorted(state) for box in (boxes.old, boxes.new) for state in box.judge.every_state()):
        # A short stops the judge's whole box, but in the sets only what hangs together with it.
        assert comparison.apart or boxes.same()
        return
    assert (not comparison.apart) == boxes.same()
    told, judged = differences(comparison, old), judged_differences(boxes)
    told = {one for one in told if one[0] in boxes.inputs_met}
    # Once they are told apart, the judge lets relays beside the group answer anyhow as well.
    judged = {
        one for one in judged if one[1] in {device.name for apart in comparison.apart for device in apart.devices}
    }
    assert told == judged if whole or not old.relays else told <= judged
