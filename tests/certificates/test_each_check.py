"""What each check proves of a plan that is right has a certificate."""

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import ALIKE, NO_PULSE, claims_by_check, claims_of, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import wrong_way_pulse
from circuitcheck.checks.registry import all_checks, check_names
from tests.analysis.plans import circuit_of
from tests.benchmarks.panels import chain
from tests.certificates.test_certificates import as_read

CERTIFIED = frozenset(claims_by_check(circuit_of("lamp L1 12 V 2 W")))
RIGHT = [
    (one.check.name, right.plan) for one in all_checks() for right in one.check.right if one.check.name in CERTIFIED
]


def test_each_check_claims_what_it_proves() -> None:
    """None is left out of certificates."""
    assert set(check_names()) == CERTIFIED


@pytest.mark.parametrize(("check", "text"), RIGHT)
def test_what_a_check_proves_of_its_own_right_plans_is_certified(check: str, text: str) -> None:
    """Each of its claims is confirmed by the verifier."""
    circuit = circuit_of(text)
    claims = claims_by_check(circuit)[check]
    assert set(claims) <= set(verify(circuit, as_read(certificate_of(circuit))))


def test_all_that_can_be_claimed_of_motors_that_hang_together_is_certified() -> None:
    """Where all of it is too much to follow, what is near each motor proves as much; for an axis, others are parked.
    Which relay of each motor is the quicker is not told, so its direction may come too late; and relays race where
    START is held while power comes and two motors are told to raise."""
    circuit = circuit_of(chain(4))
    certificate = as_read(certificate_of(circuit))
    pulses = {f"{found.parts[0]} {NO_PULSE}" for found in wrong_way_pulse.find(analyse(circuit))}
    racing = {f"KR{number} {ALIKE}" for number in range(1, 5)}
    assert set(verify(circuit, certificate)) == set(claims_of(circuit)) - pulses - racing
    assert any(entry["still"] for entry in certificate["operation"])
