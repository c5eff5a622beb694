"""Each proof that `check` tells of has a certificate."""

from pathlib import Path

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import ALIKE, NO_PULSE, claims_by_check, claims_of, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import wrong_way_pulse
from circuitcheck.checks.registry import all_checks, check_names, run_checks
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.benchmarks.panels import chain
from tests.certificates.test_certificates import RIGHT, as_read, example

SHOWN = [(one.check.name, right.plan) for one in all_checks() for right in one.check.right]


def test_each_check_claims_what_it_proves() -> None:
    """None is left out of certificates."""
    assert set(claims_by_check(circuit_of("lamp L1 12 V 2 W"))) == set(check_names())


@pytest.mark.parametrize("file", RIGHT, ids=lambda file: file.stem)
def test_each_check_that_finds_nothing_in_an_example_is_certified(file: Path) -> None:
    """Without certificate is only what a check notes, such as a motor that starts by itself."""
    assert_certified(example(file))


@pytest.mark.parametrize(("check", "text"), SHOWN)
def test_each_check_that_finds_nothing_in_a_plan_that_is_shown_as_right_is_certified(check: str, text: str) -> None:
    """Also the check that shows the plan."""
    circuit = circuit_of(text)
    assert_certified(circuit)
    assert set(claims_by_check(circuit)[check]).isdisjoint(noted(circuit))


def noted(circuit: Circuit) -> set[str]:
    """The claims of checks that find something."""
    finding = {one.check for one in run_checks(analyse(circuit), all_checks())}
    return {claim for check, claims in claims_by_check(circuit).items() if check in finding for claim in claims}


def assert_certified(circuit: Circuit) -> None:
    """The verifier confirms all that is claimed by checks that find nothing."""
    certificate = as_read(certificate_of(circuit))
    confirmed = verify(circuit, certificate)
    assert sorted([*confirmed, *certificate["without certificate"]]) == sorted(claims_of(circuit))
    assert set(certificate["without certificate"]) <= noted(circuit)


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
