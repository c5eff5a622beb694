"""What is certified holds, and a certificate that was changed in any one place is refused."""

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import (
    BRAKED,
    NO_SHORT,
    NO_SHORT_MOVING,
    SETTLES,
    SUPPRESSED,
    TURNS_BACK,
    WITHIN_ENDS,
    Box,
    Moment,
    Refused,
    box_of,
    claims_of,
    drives,
    seal_of,
    told,
    verify,
)
from circuitcheck.certificates.writing import certificate_of, certificate_text
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Axis, Circuit
from circuitcheck.plan.reading import read_plan
from tests.analysis.plans import circuit_of, plan_texts
from tests.benchmarks.panels import chain, panel
from tests.judge.changeovers import SIDES, in_the_moment
from tests.judge.claims import directions
from tests.judge.one_state import view
from tests.judge.steps import Judge
from tests.test_layers import imported

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))
WRONG = sorted((EXAMPLES / "wrong").glob("*.plan"))
VERIFIER = Path(__file__).parent.parent.parent / "circuitcheck" / "certificates" / "verifier.py"


def example(file: Path) -> Circuit:
    """The circuit of an example."""
    return build_circuit(read_plan(file, (EXAMPLES / "parts",)))


def as_read(certificate: Any) -> Any:
    """A certificate that has been to its file and back."""
    return json.loads(certificate_text(certificate))


@pytest.mark.parametrize("file", RIGHT, ids=lambda file: file.stem)
def test_all_that_can_be_claimed_of_a_right_plan_is_certified(file: Path) -> None:
    """No claim is left over, and the verifier confirms each."""
    circuit = example(file)
    certificate = as_read(certificate_of(circuit))
    assert sorted(verify(circuit, certificate)) == sorted(claims_of(circuit))
    assert certificate["without certificate"] == []


def test_what_is_wrong_with_a_plan_has_no_certificate() -> None:
    """Each of these plans breaks just the claims that are left over."""
    left = {file.stem: certificate_of(example(file))["without certificate"] for file in WRONG}
    assert left["jaw_estop_coasts"] == [f"M1 {BRAKED}"]
    assert left["drawbridge_limit_in_wrong_leg"] == [f"deck {WITHIN_ENDS}", f"deck {TURNS_BACK}"]
    assert left["curtain_trapped"] == [f"curtain {TURNS_BACK}"]
    assert left["cue_relay_without_diode"] == [f"K1 {SUPPRESSED}"]
    assert left["roar_relay_chatters"] == [f"K1 {SETTLES}"]
    assert left["gallery_joins_supplies"] == [NO_SHORT, NO_SHORT_MOVING]


ONE_OPEN_ONE_CLOSED = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 {relay} coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
wire   F1.2 {closing}
wire   {opening} PS.-
rung   {between}, L1, PS.-
"""


@pytest.mark.parametrize(
    ("relay", "left"),
    [
        ("no nc", [NO_SHORT_MOVING]),
        ("no nc force-guided", []),
        ("spdt", []),
        ("spdt make-before-break", [NO_SHORT_MOVING]),
    ],
)
def test_a_short_that_only_a_changeover_brings_leaves_just_its_claim_over(relay: str, left: list[str]) -> None:
    """Two contacts of a lantern's relay that are never closed together once it rests; guided ones not even before."""
    marks = ("K1.14", "K1.12", "K1.11") if "spdt" in relay else ("K1.13", "K1.22", "K1.14")
    text = ONE_OPEN_ONE_CLOSED.format(relay=relay, closing=marks[0], opening=marks[1], between=marks[2])
    circuit = circuit_of(text + ("" if "spdt" in relay else "wire K1.14 K1.21\n"))
    certificate = as_read(certificate_of(circuit))
    assert certificate["without certificate"] == left
    assert set(verify(circuit, certificate)) == set(claims_of(circuit)) - set(left)


@settings(max_examples=40, suppress_health_check=list(HealthCheck))
@given(plan_texts())
def test_what_is_certified_of_a_random_plan_the_judge_sees_too(text: str) -> None:
    """Whatever the verifier confirms holds in each state that the judge, who knows nothing of sets, comes to."""
    circuit = circuit_of(text)
    claims = verify(circuit, as_read(certificate_of(circuit)))
    judge = Judge(circuit)
    if NO_SHORT in claims:
        assert not any(judge.judged(state).shorted for state in judge.every_state())
    reached = judge.reachable() if claims else set()
    rests = [state for state in reached if judge.is_proper(state) and judge.is_at_rest(state)]
    if NO_SHORT_MOVING in claims:
        assert not any(shorted_in_a_moment(circuit, state) for state in reached), text
    for number, motor in enumerate(circuit.motors):
        if f"{motor.name} {BRAKED}" in claims:
            assert {judge.judged(state).motors[number] for state in rests} <= {"forward", "reverse", "braked"}, text
    for axis in circuit.axes:
        for state in rests:
            outward = outward_at(axis, state)
            if f"{axis.name} {WITHIN_ENDS}" in claims:
                assert not outward & directions(judge, state, axis), text
            if outward and f"{axis.name} {TURNS_BACK}" in claims:
                assert is_driven_back(judge, state, axis, {-way for way in outward}), text
    for number, load in enumerate(circuit.loads):
        if f"{load.name} {SUPPRESSED}" in claims:
            assert is_suppressed(judge, number), text
    if circuit.relays and all(f"{relay.name} {SETTLES}" in claims for relay in circuit.relays):
        assert not any(judge.relays_moved(state) for state in rests), text


def outward_at(axis: Axis, state: tuple[int, ...]) -> set[int]:
    """The directions outward at the ends at which, or past which, an axis is."""
    first, last = axis.range
    return {way for way, is_there in ((1, state[axis.digit] >= last), (-1, state[axis.digit] <= first)) if is_there}


def shorted_in_a_moment(circuit: Circuit, state: tuple[int, ...]) -> bool:
    """Does some position of the poles of relays that may go from here short a supply?"""
    judge = Judge(circuit)
    moving = {relay.name for relay in circuit.relays if any(w.digit == relay.digit for w in judge.judged(state).wishes)}
    poles = {one.tail: None for one in circuit.conductors if one.closed and one.part in moving}
    for places in product(SIDES, repeat=len(poles)):
        then = in_the_moment(circuit, dict(zip(poles, places, strict=True)), state)
        if then is not None and then.judged(state).shorted:
            return True
    return False


def is_driven_back(judge: Judge, state: tuple[int, ...], axis: Axis, inward: set[int]) -> bool:
    """Do steps of all but the axis lead to a rest at which it is driven inward?"""
    found, waiting = {state}, [state]
    while waiting:
        here = waiting.pop()
        if inward & directions(judge, here, axis) and judge.is_proper(here) and judge.is_at_rest(here):
            return True
        onward = {there for there in judge.successors(here) if there[axis.digit] == here[axis.digit]} - found
        found |= onward
        waiting += onward
    return False


def is_suppressed(judge: Judge, number: int) -> bool:
    """Is there something straight across the load, and no volts in the direction of a diode there in any state?"""
    circuit, load = judge.circuit, judge.circuit.loads[number]
    wires = tuple(one for one in circuit.conductors if one.kind == "wire")
    joined = view(circuit._replace(conductors=wires), next(judge.every_state())).group
    ends = (joined[load.a], joined[load.b])
    across = [one for one in circuit.suppressors if {joined[one.a], joined[one.b]} == {*ends}]
    along = {1 if joined[one.a] == ends[0] else -1 for one in across if one.kind == "diode"}
    volts = {judge.judged(state).volts[number] for state in judge.every_state()}
    if any(one.kind != "diode" for one in across):
        return True
    return bool(across) and not any(way * one > 1e-6 for way in along for one in volts)


@settings(max_examples=20, suppress_health_check=list(HealthCheck))
@given(plan_texts())
def test_what_relays_want_and_motors_do_follows_in_each_state_as_the_judge_sees_it(text: str) -> None:
    """Case by case, with digits that are given values only where it hangs on them."""
    circuit = circuit_of(text)
    box, judge = box_of(circuit), Judge(circuit)
    for state in judge.every_state():
        seen = judge.judged(state)
        for relay in () if seen.shorted else circuit.relays:
            told_of = answer(box, told(box, relay.name, partial(Moment.wishes, relay=relay)), state)
            wanted = {(one.end, one.timed) for one in seen.wishes if one.digit == relay.digit}
            assert told_of is None or {(one.end, one.timed) for one in told_of} == wanted, text
        for motor, word in () if seen.shorted else zip(circuit.motors, seen.motors, strict=True):
            ways = {"forward": 1, "reverse": -1} if motor.upward else {"forward": -1, "reverse": 1}
            assert answer(box, drives(box, motor), state) in (None, ways.get(word, 0)), text


def answer(box: Box, answers: dict[Any, int], state: tuple[int, ...]) -> Any:
    """The one answer in whose set a state is."""
    (found,) = (one for one, states in answers.items() if holds(box, states, state))
    return found


def holds(box: Box, states: int, state: tuple[int, ...]) -> bool:
    """Is a state in a set?"""
    while states > 1:
        digit, onward = box.sets.nodes[states]
        states = onward[state[digit]]
    return states == 1


@pytest.mark.slow
@pytest.mark.parametrize("plan", [panel(4), chain(5)], ids=["pairs", "chain"])
def test_all_that_can_be_claimed_of_motors_that_hang_together_is_certified(plan: str) -> None:
    """Where all of it is too much to follow, what is near each motor or axis proves as much."""
    circuit = circuit_of(plan)
    certificate = as_read(certificate_of(circuit))
    assert set(verify(circuit, certificate)) == set(claims_of(circuit))
    assert any(entry["still"] for entry in certificate["operation"]) == ("chain" in plan)


def changes(value: Any) -> Iterator[Any]:
    """The value with each one thing in it changed: an entry gone, doubled, of another name, or itself changed."""
    if isinstance(value, dict):
        for key in value:
            yield {other: one for other, one in value.items() if other != key}
            yield {f"{other}x" if other == key else other: one for other, one in value.items()}
            yield {other: None if other == key else one for other, one in value.items()}
            yield from ({**value, key: changed} for changed in changes(value[key]))
        yield dict(reversed(value.items())) if len(value) > 1 else {}
        yield {**value, "more": "| 1"}
    elif isinstance(value, list):
        for place, one in enumerate(value):
            yield value[:place] + value[place + 1 :]
            yield [*value[:place], one, *value[place:]]
            yield from ([*value[:place], changed, *value[place + 1 :]] for changed in changes(one))
        yield value[::-1] if len(value) > 1 else ["more"]
        yield [*value, "more"]
    elif isinstance(value, str):
        yield from changes_of_text(value)
    elif isinstance(value, int):
        yield from ({*range(value + 3)} - {value})
        yield str(value)
    else:
        yield "more"


def changes_of_text(text: str) -> Iterator[str]:
    """Each sign gone, doubled or another one, and each word gone."""
    for place, sign in enumerate(text):
        yield text[:place] + text[place + 1 :]
        yield text[:place] + sign + text[place:]
        yield from (text[:place] + other + text[place + 1 :] for other in "02 |K" if other != sign)
    words = text.split()
    yield from (" ".join([*words[:place], *words[place + 1 :]]) for place in range(len(words)) if len(words) > 1)


def refuses_every_change(circuit: Circuit) -> int:
    """How many changes of its certificate the verifier refuses; a change that it does not refuse fails. One that is
    sealed anew may be taken, if no more comes of it than is true."""
    certificate = as_read(certificate_of(circuit))
    proved, many = set(verify(circuit, certificate)), 0
    for changed in changes(certificate):
        if changed != certificate:
            with pytest.raises(Refused):
                verify(circuit, changed)
            many += 1
            with suppress(Refused):
                assert proved.issuperset(verify(circuit, {**changed, "seal": seal_of(changed)}))
                many -= 1
    return many


SMALL = ("dragon_roar",)
LARGER = ("lighthouse_shutter", "gallery_lift", "dragon_wing", "lighthouse_two_supplies", "storm_beam", "curtain_pair")


@pytest.mark.parametrize("name", [*SMALL, *(pytest.param(name, marks=pytest.mark.slow) for name in LARGER)])
def test_a_certificate_changed_in_any_one_place_is_refused(name: str) -> None:
    """Any sign of it, any state of any set, any entry gone, doubled, renamed or out of order."""
    assert refuses_every_change(example(EXAMPLES / "right" / f"{name}.plan")) > 500


def test_a_certificate_of_another_plan_is_refused() -> None:
    """It is about the plan, not about its name."""
    certificate = as_read(certificate_of(example(EXAMPLES / "right" / "curtain.plan")))
    with pytest.raises(Refused):
        verify(example(EXAMPLES / "right" / "dragon_jaw.plan"), certificate)


def test_the_verifier_imports_nothing_of_the_tool_but_what_reads_a_plan() -> None:
    """It shares no line with the engine."""
    rooms = {name.split(".")[1] for name in imported(VERIFIER)}
    assert rooms == {"plan", "circuit"}


def run(*arguments: str) -> "subprocess.CompletedProcess[str]":
    """A program of the tool, run as people run it."""
    return subprocess.run([sys.executable, "-m", *arguments], capture_output=True, text=True, check=False)


def test_check_writes_a_certificate_that_the_verifier_confirms_alone(tmp_path: Path) -> None:
    """Both tell the same claims; the verifier refuses the file once a sign of it is another."""
    plan, file = str(EXAMPLES / "right" / "dragon_wing.plan"), tmp_path / "wing.certificate"
    written = run("circuitcheck", "check", "--no-cache", "--certificate", str(file), plan)
    assert "M1 is braked at every rest at which it is not driven\n" in written.stderr
    assert "What else was proved has no certificate." in written.stderr
    confirmed = run("circuitcheck.certificates.verifier", plan, str(file))
    assert confirmed.returncode == 0
    assert confirmed.stdout.splitlines() == [f"confirmed: {claim}" for claim in claims_of(example(Path(plan)))]
    file.write_text(file.read_text(encoding="utf-8").replace(" 0 1", " 1 0", 1), encoding="utf-8")
    refused = run("circuitcheck.certificates.verifier", plan, str(file))
    assert refused.returncode == 1
    assert refused.stdout.startswith("refused: ")


def test_a_certificate_of_brackets_without_end_is_refused(tmp_path: Path) -> None:
    """As any other text that is none."""
    file = tmp_path / "deep.certificate"
    file.write_text("[" * 100_000, encoding="utf-8")
    refused = run("circuitcheck.certificates.verifier", str(EXAMPLES / "right" / "dragon_wing.plan"), str(file))
    assert (refused.returncode, refused.stdout[:9], refused.stderr) == (1, "refused: ", "")


def test_a_certificate_is_about_one_plan(tmp_path: Path) -> None:
    """A folder of plans, or one that is piped in, has none."""
    for plans in (str(EXAMPLES / "right"), "-"):
        done = run("circuitcheck", "check", "--certificate", str(tmp_path / "all"), plans)
        assert (done.returncode, "a certificate is about one plan in a file" in done.stderr) == (2, True)
