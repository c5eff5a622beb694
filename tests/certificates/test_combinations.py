"""What is claimed of some combination, and of what the plan says, is confirmed only where its check finds nothing."""

from collections import Counter
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates import verifier
from circuitcheck.certificates.verifier import (
    APART,
    CAN_BE_OFF,
    CAN_OPERATE,
    FED,
    FED_OR_BRAKES,
    FOUND_THERE,
    MATTERS,
    ON_A_LOOP,
    OWN_NAMES,
    WIRED,
    claims_by_check,
    claims_of_combinations,
    verify,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import idle_contact
from circuitcheck.checks.registry import all_checks, findings_of
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.analysis.test_vicinity import interlocked
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds as seen_to_hold
from tests.certificates.test_certificates import EXAMPLES, as_read, example
from tests.profiles import examples

CHECKS = {
    one.check.name: one
    for one in all_checks()
    if one.check.name
    in ("load-always-on", "relay-never-operates", "shorted-load", "dead-part", "idle-contact", "unwired-terminal")
}
ACCEPTABLE = ("load-always-on", "supply-without-fuse", "missing-flyback", "unwired-terminal")
WRONG = [(name, wrong) for name, one in CHECKS.items() for wrong in one.check.wrong]


def confirmed(circuit: Circuit) -> set[str]:
    """All that the verifier confirms of a circuit."""
    return set(verify(circuit, as_read(certificate_of(circuit))))


def left_of(text: str) -> list[str]:
    """The claims about a plan that have no certificate."""
    left: list[str] = certificate_of(circuit_of(text))["without certificate"]
    return left


def contradicted(circuit: Circuit) -> Iterator[tuple[str, str]]:
    """What is confirmed though the check finds something on that very part. Where it is about one load, parts with
    several are left out, since the finding may be about another one of them."""
    facts, holding = analyse(circuit), confirmed(circuit)
    several = {part for part, many in Counter(one.part for one in circuit.loads).items() if many > 1}
    for name, check in CHECKS.items():
        parts = {part for finding in findings_of(facts, check) for part in finding.parts}
        parts -= several if name in ("relay-never-operates", "shorted-load") else set()
        for claim in holding.intersection(claims_by_check(circuit)[name]):
            if parts if claim == WIRED else any(claim.startswith((f"{part} ", f"{part}.")) for part in parts):
                yield name, claim


@settings(max_examples=examples(20), suppress_health_check=list(HealthCheck), deadline=None)
@given(plan_texts() | bus_plan_texts() | interlocked())
def test_where_a_claim_is_confirmed_its_check_finds_nothing(text: str) -> None:
    """On no part that it is about, in a random plan."""
    assert list(contradicted(circuit_of(text))) == [], text


@settings(max_examples=examples(15), suppress_health_check=list(HealthCheck), deadline=None)
@given(plan_texts(24, 5) | bus_plan_texts(48))
def test_what_is_confirmed_of_some_combination_the_judge_sees_in_one(text: str) -> None:
    """In a random plan, state by state."""
    circuit = circuit_of(text)
    seen, every = Seen(circuit), claims_of_combinations(circuit).values()
    for claim in confirmed(circuit).intersection(claim for claims in every for claim in claims):
        assert seen_to_hold(seen, claim), (claim, text)


@pytest.mark.parametrize(("check", "text"), [(check, wrong.plan) for check, wrong in WRONG])
def test_what_a_check_finds_in_its_own_wrong_plans_is_not_certified(check: str, text: str) -> None:
    """Nothing is confirmed of those parts."""
    circuit = circuit_of(text)
    assert any(findings_of(analyse(circuit), CHECKS[check]))
    assert list(contradicted(circuit)) == []


@settings(max_examples=examples(15), suppress_health_check=list(HealthCheck), deadline=None)
@given(plan_texts())
def test_an_acceptance_is_certified_only_where_its_check_finds_what_is_accepted(text: str) -> None:
    """Each check that the verifier can tell of is accepted on each part of a random plan."""
    parts = [part for part in circuit_of(text).parts if part != "PS"]
    lines = [f'accept {check} on {part} because "it is so"' for check in ACCEPTABLE for part in ("PS", *parts)]
    circuit = circuit_of("\n".join([text, *lines]))
    facts, holding = analyse(circuit), confirmed(circuit)
    for check in ACCEPTABLE:
        registered = next(one for one in all_checks() if one.check.name == check)
        found = {part for finding in findings_of(facts, registered) for part in finding.parts}
        accepted = {part for part in circuit.parts if f"{part} {FOUND_THERE.format(check)}" in holding}
        assert accepted <= found, (check, text)


LANTERN = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, L1, PS.-
"""


def test_all_that_can_be_claimed_of_a_lantern_is_certified() -> None:
    """A button, a fuse and a lamp that it lights."""
    assert left_of(LANTERN) == []


@pytest.mark.parametrize(
    ("wrong", "left"),
    [
        ("wire PB1.13 PB1.14", [f"L1 {CAN_BE_OFF}", f"PB1 {MATTERS}"]),
        ("wire L1.1 PB1.13", [f"L1 {CAN_BE_OFF}", f"PB1 {MATTERS}"]),
        ("lamp L2 12 V 2 W\nwire F1.2 L2.1", [f"L2 {FED}", WIRED]),
    ],
)
def test_what_is_wrong_with_a_lantern_leaves_just_the_claims_about_it_over(wrong: str, left: list[str]) -> None:
    """All else is certified."""
    assert left_of(f"{LANTERN}\n{wrong}") == left


@pytest.mark.parametrize(
    ("name", "check", "left"),
    [
        ("beacon_relay_always_on", "load-always-on", [f"K1 {CAN_BE_OFF}"]),
        ("shutter_relay_in_series", "relay-never-operates", [f"K1 {CAN_OPERATE}"]),
        ("lantern_lamp_bridged", "shorted-load", [f"L2 {APART}"]),
        ("gallery_lamp_leads_nowhere", "dead-part", [f"L2 {FED}"]),
        ("trapdoor_idle_key", "idle-contact", [f"S1 {MATTERS}"]),
        ("cue_lights_one_name", "duplicate-name", [OWN_NAMES]),
        ("buzzer_forgotten_wire", "unwired-terminal", [WIRED]),
        ("lantern_accepted_in_vain", "unused-acceptance", [f"L1 {FOUND_THERE.format('load-always-on')}"]),
    ],
)
def test_what_is_wrong_with_an_example_leaves_just_that_claim_of_its_check_over(
    name: str, check: str, left: list[str]
) -> None:
    """Whatever else the plan breaks."""
    circuit = example(EXAMPLES / "wrong" / f"{name}.plan")
    claims = claims_by_check(circuit)[check]
    assert [claim for claim in claims if claim not in confirmed(circuit)] == left


def test_what_is_said_of_the_plan_alone_is_certified_of_one_that_shorts_its_supply_too() -> None:
    """No current is followed for that."""
    circuit = circuit_of(f"{LANTERN}\nwire PS.+ PS.-")
    assert confirmed(circuit) == {OWN_NAMES, WIRED, *(f"{name} {ON_A_LOOP}" for name in ("PS", "F1", "PB1"))}


PARTS = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no
"""


@pytest.mark.parametrize(
    ("wired", "left"),
    [
        ("switch S1 spdt positions raise lower make-before-break\nlamp L1 12 V 2 W\n"
         "wire F1.2 S1.raise\nrung S1.lower, L1, PS.-\nrung PS.+, F1, PB1, S1.com", f"S1 {MATTERS}"),
        ("switch S1 spdt positions raise lower make-before-break\nlamp L1 12 V 2 W\nsplice N1\n"
         "rung PS.+, F1, S1.raise\nrung S1.lower, L1, PS.-\nwire S1.com N1", f"L1 {FED}"),
        ("diode D1\nresistor R1 1 ohm\nlamp L1 12 V 2 W\nrung PS.+, F1, R1, D1, L1, PS.-", f"L1 {CAN_BE_OFF}"),
        ("diode D1\nresistor R1 1 ohm\nmotor M1 12 V stall 3 A\nrung PS.+, F1, D1.cathode-anode, R1, PS.-\n"
         "rung F1.2, PB1, M1, PS.-", f"R1 {FED_OR_BRAKES}"),
        ("relay K1 no on-delay 3 s controlled coil 12 V 160 ohm\nrung PS.+, F1, PB1, K1.A1-A2, PS.-\n"
         "wire F1.2 K1.B1", f"K1 {CAN_BE_OFF}"),
        ("lamp L1 12 V 50 W\nlamp L2 12 V 0.5 W\nrung PS.+, F1, L1, L2, PS.-\n"
         'accept load-always-on on L1 because "it is so"', f"L1 {FOUND_THERE.format('load-always-on')}"),
    ],
    ids=["between positions", "fed between positions", "behind a diode", "no brake", "input", "accepted"],
)  # fmt: skip
def test_what_is_not_so_in_any_combination_is_not_certified(wired: str, left: str) -> None:
    """Nor what is so only while a switch is between two positions."""
    assert left in left_of(PARTS + wired)


@pytest.mark.parametrize(("ohms", "operates"), [(13, True), (14, False)])
def test_volts_that_a_coil_shares_with_others_are_worked_out(ohms: int, operates: bool) -> None:
    """Of 12 V it gets the 9 V that it operates at while there are 53 ohm in series at most (Kirchhoff)."""
    left = left_of(f"""{PARTS}
resistor R1 20 ohm
resistor R2 20 ohm
resistor R3 {ohms} ohm
relay  K1 no coil 12 V 160 ohm operate 9 V release 3 V with diode
rung   PS.+, F1, PB1, R1, R2, K1.A1-A2, R3, PS.-
""")
    assert (f"K1 {CAN_OPERATE}" not in left) == operates
    assert f"K1 {FED}" not in left


CUES = """
module Cue
  port   feed minus
  lamp   L1 12 V 2 W
  rung   feed, L1, minus
  accept load-always-on on L1 because "it shows that there is power"
end
fit    A Cue : feed {}, minus PS.-
fit    B Cue : feed {}, minus PS.-
rung   PS.+, F1, PB1
"""


@pytest.mark.parametrize(
    ("feeds", "used"),
    [(("F1.2", "PB1.14"), True), (("PB1.14", "F1.2"), True), (("PB1.14", "PB1.14"), False)],
)
def test_what_a_module_accepts_is_certified_where_any_fit_of_it_needs_that(feeds: tuple[str, str], used: bool) -> None:
    """One statement stands for all fits, and is told of the first."""
    left = left_of(PARTS + CUES.format(*feeds))
    assert (f"A.L1 {FOUND_THERE.format('load-always-on')}" not in left) == used


def test_a_name_that_is_accepted_twice_is_found() -> None:
    """Whatever its wires do."""
    text = f'{LANTERN}\nlamp L1 12 V 5 W\naccept duplicate-name on L1 because "the second one hangs beside the first"'
    assert left_of(text) == [OWN_NAMES]


def test_what_is_not_looked_for_any_longer_stays_without_certificate(monkeypatch: pytest.MonkeyPatch) -> None:
    """Here with no case allowed; so no plan takes long to verify."""
    monkeypatch.setattr(verifier, "MOST_IN_VAIN", 0)
    assert left_of(LANTERN) == [f"L1 {CAN_BE_OFF}", f"L1 {APART}", f"L1 {FED}", f"PB1 {MATTERS}"]


def test_a_contact_that_only_closes_a_ring_of_diodes_changes_nothing() -> None:
    """Current would have to come back over it: a pulley's solenoid gets no more than its diode lets through."""
    circuit = circuit_of("""
supply PA PB 12 V 10 A
diode  D1 D2
button PB1 nc
splice N1 N2 N3
solenoid Y1 Y2 Y3 12 V 12 ohm
wire   PB.+ PA.-
rung   PA.+, D1, N1, D2, N2, PB1, PA.+
rung   N1, Y1, PA.-
rung   N3, Y2, PA.-
rung   N3, Y3, N1
""")
    assert [found.parts for found in idle_contact.find(analyse(circuit))] == [("PB1",)]
    assert f"PB1 {MATTERS}" in certificate_of(circuit)["without certificate"]
