"""What is certified holds, and what does not hold has no certificate."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.certificates.verifier import (
    ALIKE,
    BRAKED,
    FED,
    FOUND,
    FUSED,
    GETS_THERE,
    KEPT,
    MATCHED,
    NO_LINK,
    NO_SHORT,
    NO_SHORT_MOVING,
    NOT_AGAIN,
    NOT_THROWN,
    OBEYS,
    SETTLES,
    STAYS_STILL,
    STEADY,
    SUPPRESSED,
    TURNS_BACK,
    WITHIN_BROKEN,
    WITHIN_ENDS,
    Box,
    Refused,
    box_of,
    claims_of,
    drives,
    verify,
    wanted,
)
from circuitcheck.certificates.writing import certificate_of, certificate_text
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan
from tests.analysis.plans import circuit_of, plan_texts
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
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


def test_what_is_wrong_with_a_plan_has_no_certificate() -> None:
    """Each of these plans breaks just the claims that are left over."""
    left = {file.stem: certificate_of(example(file))["without certificate"] for file in WRONG}
    assert left["beam_diode_is_no_brake"] == [f"M1 {BRAKED}", f"M1 {STAYS_STILL}"]
    forward = "expect M1 forward when K3 operated and S1 raise and not (deck at top or deck past top)"
    to_and_fro = [f"deck {STEADY}", f"deck {GETS_THERE}"]
    assert left["drawbridge_feeds_back"][-5:] == [
        f"M1 {NOT_THROWN}",
        f"LS2 {NO_LINK}",
        *to_and_fro,
        KEPT.format(forward),
    ]
    assert left["deck_springs_off_its_limit"] == [f"M1 {STAYS_STILL}", f"deck {NOT_AGAIN}"]
    assert left["curtain_race"] == [f"K1 {ALIKE}", f"K2 {ALIKE}"]
    outward = [f"deck {WITHIN_ENDS}", f"deck {WITHIN_BROKEN}", f"deck {TURNS_BACK}"]
    assert left["drawbridge_limit_in_wrong_leg"] == outward
    assert left["curtain_trapped"] == [f"M1 {STAYS_STILL}", f"curtain {TURNS_BACK}"]
    assert left["drum_lost_halfway"] == [f"drum {FOUND}"]
    assert left["lantern_without_fuse"] == [f"PS {FUSED}"]
    assert left["curtain_coil_of_12_volts"] == [f"K2 {MATCHED}"]
    assert left["cue_relay_without_diode"] == [f"K1 {SUPPRESSED}"]
    assert left["roar_relay_chatters"] == [f"K1 {SETTLES}"]
    assert left["gallery_joins_supplies"][:4] == [NO_SHORT, NO_SHORT_MOVING, f"PS1 {FUSED}", f"PS2 {FUSED}"]


def test_a_motor_that_an_emergency_stop_leaves_running_leaves_just_that_claim_over() -> None:
    """The stop of a turning moon is wired into the lamp alone."""
    circuit = circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
button PB1 no
motor  M1 12 V stall 8 A may coast
lamp   L1 12 V 2 W
rung   PS.+, F1, ES1, L1, PS.-
rung   F1.2, PB1, M1, PS.-
""")
    assert certificate_of(circuit)["without certificate"] == [f"M1 {OBEYS.format('ES1')}"]


def test_a_diode_the_wrong_way_round_is_seen_although_another_one_stands_opposite_to_it() -> None:
    """Of the latch of a trapdoor lantern, beside a relay whose own diode stands right."""
    circuit = circuit_of("""
supply PS 12 V 10 A
fuse   F1 5 A
lamp   L1 12 V 21 W
button PB1 no
relay  K1 no coil 12 V 160 ohm with diode
solenoid Y1 12 V 12 ohm
diode  D1
rung   PS.+, F1, L1, K1.A1-A2, PS.-
rung   K1.A1, PB1, Y1.1-2, PS.-
rung   Y1.1, D1, Y1.2
""")
    assert certificate_of(circuit)["without certificate"] == [f"Y1 {SUPPRESSED}", f"Y1 {FED}"]


ONE_OPEN_ONE_CLOSED = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 {relay} coil 12 V 160 ohm with diode
lamp   L1 L2 12 V 2 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
wire   F1.2 {closing}
wire   {opening} PS.-
rung   F1.2, L2, {between}, L1, PS.-
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


@settings(max_examples=25, suppress_health_check=list(HealthCheck))
@given(plan_texts())
def test_what_is_certified_of_a_random_plan_the_judge_sees_too(text: str) -> None:
    """Whatever the verifier confirms holds in each state that the judge, who knows nothing of sets, comes to."""
    circuit = circuit_of(text)
    seen = Seen(circuit)
    for claim in verify(circuit, as_read(certificate_of(circuit))):
        assert seen_to_hold(seen, claim), (claim, text)


@settings(max_examples=20, suppress_health_check=list(HealthCheck))
@given(plan_texts())
def test_what_relays_want_and_motors_do_follows_in_each_state_as_the_judge_sees_it(text: str) -> None:
    """Case by case, with digits that are given values only where it hangs on them."""
    circuit = circuit_of(text)
    box, judge = box_of(circuit), Judge(circuit)
    for state in judge.every_state():
        seen = judge.judged(state)
        for relay in () if seen.shorted else circuit.relays:
            told_of = answer(box, wanted(box, relay), state)
            expected = {(one.end, one.timed) for one in seen.wishes if one.digit == relay.digit}
            assert told_of is None or {(one.end, one.timed) for one in told_of} == expected, text
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
    assert "  unbraked-stop         1 of 1\n" in written.stderr
    told = f"  starts-by-itself      0 of 1\n    no certificate: M1 {STAYS_STILL}\n"
    assert told in written.stderr
    assert "  emergency-stop        nothing to prove\n" in written.stderr
    confirmed = run("circuitcheck.certificates.verifier", plan, str(file))
    assert confirmed.returncode == 0
    told_of = [f"confirmed: {claim}" for claim in claims_of(example(Path(plan)))]
    assert set(told_of) - set(confirmed.stdout.splitlines()) == {f"confirmed: M1 {STAYS_STILL}"}
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
