"""What is certified holds, and a certificate that was changed in any one place is refused."""

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import BRAKED, NO_SHORT, SETTLES, WITHIN_ENDS, Refused, claims_of, verify
from circuitcheck.certificates.writing import certificate_of, certificate_text
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.claims import directions
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
    assert left["drawbridge_limit_in_wrong_leg"] == [f"deck {WITHIN_ENDS}"]
    assert left["roar_relay_chatters"] == [f"K1 {SETTLES}"]
    assert left["gallery_joins_supplies"] == [NO_SHORT]


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(plan_texts())
def test_what_is_certified_of_a_random_plan_the_judge_sees_too(text: str) -> None:
    """Whatever the verifier confirms holds in each state that the judge, who knows nothing of sets, comes to."""
    circuit = circuit_of(text)
    claims = verify(circuit, as_read(certificate_of(circuit)))
    judge = Judge(circuit)
    if NO_SHORT in claims:
        assert not any(judge.judged(state).shorted for state in judge.every_state())
    rests = (
        [state for state in judge.reachable() if judge.is_proper(state) and judge.is_at_rest(state)] if claims else []
    )
    for number, motor in enumerate(circuit.motors):
        if f"{motor.name} {BRAKED}" in claims:
            assert {judge.judged(state).motors[number] for state in rests} <= {"forward", "reverse", "braked"}, text
    for axis in circuit.axes:
        if f"{axis.name} {WITHIN_ENDS}" in claims:
            for state in rests:
                outward = {1} if state[axis.digit] >= axis.range[1] else set()
                outward |= {-1} if state[axis.digit] <= axis.range[0] else set()
                assert not outward & directions(judge, state, axis), text
    if circuit.relays and all(f"{relay.name} {SETTLES}" in claims for relay in circuit.relays):
        assert not any(judge.relays_moved(state) for state in rests), text


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
    else:
        yield "more"


def changes_of_text(text: str) -> Iterator[str]:
    """Each sign gone, doubled or another one; of a set each state taken out, or put in, and each digit gone."""
    for place, sign in enumerate(text):
        yield text[:place] + text[place + 1 :]
        yield text[:place] + sign + text[place:]
        yield from (text[:place] + other + text[place + 1 :] for other in "0f |K" if other != sign)
    digits, bar, number = text.partition("| ")
    if bar:
        bits = int(number, 16)
        yield from (f"{digits}| {bits ^ 1 << state:x}" for state in range(bits.bit_length() + 2))
        names = digits.split()
        yield from (" ".join([*names[:place], *names[place + 1 :], f"| {number}"]) for place in range(len(names)))


def refuses_every_change(circuit: Circuit) -> int:
    """How many changes of its certificate the verifier refuses; a change that it does not refuse fails."""
    certificate = as_read(certificate_of(circuit))
    many = 0
    for changed in changes(certificate):
        if changed != certificate:
            with pytest.raises(Refused):
                verify(circuit, changed)
            many += 1
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
    assert "Moments of a changeover, and all other checks, have no certificate." in written.stderr
    confirmed = run("circuitcheck.certificates.verifier", plan, str(file))
    assert confirmed.returncode == 0
    assert confirmed.stdout.splitlines() == [f"confirmed: {claim}" for claim in claims_of(example(Path(plan)))]
    file.write_text(file.read_text(encoding="utf-8").replace("| 1", "| 3", 1), encoding="utf-8")
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
