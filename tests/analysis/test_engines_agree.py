"""Sets as decision diagrams give the same answers as sets as integers, and as the judge of single states."""

from itertools import islice, product
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from circuitcheck import examination
from circuitcheck.analysis import engines
from circuitcheck.analysis.counting import count_states
from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan
from circuitcheck.plan.source import PlanError
from tests.analysis.agreement import disagreements
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.benchmarks.panels import chain
from tests.profiles import examples

EXAMPLES = Path(__file__).parents[2] / "examples"
UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


def found_by(circuit: Circuit, integers: int | None) -> tuple[tuple[int | None, ...], tuple[Finding, ...]]:
    """The counts and all findings, with sets of more states than this as diagrams."""
    facts = analyse(circuit, Spaces(tuple(digit.radix for digit in circuit.digits), integers))
    counts = count_states(facts)
    return (counts.combinations, counts.reachable, counts.settled), run_checks(facts, all_checks())


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED)
@given(plan_texts())
def test_every_state_of_a_random_plan_is_as_the_judge_sees_it(text: str) -> None:
    """With every set of more than four states a diagram."""
    assert list(islice(disagreements(circuit_of(text), 4), 3)) == [], text


@settings(max_examples=examples(20), suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=200, most_parts=10))
def test_findings_of_random_plans_are_the_same(text: str) -> None:
    """To the word: examples, stories and counts too."""
    circuit = circuit_of(text)
    assert found_by(circuit, 4) == found_by(circuit, None), text


@pytest.mark.slow
@settings(max_examples=100, suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=1000, most_parts=14) | bus_plan_texts(most_states=400, most_branches=5))
def test_findings_of_larger_random_plans_are_the_same(text: str) -> None:
    """The same on plans of up to fourteen parts, and on boxes with a bus."""
    circuit = circuit_of(text)
    assert found_by(circuit, 16) == found_by(circuit, None), text


def test_findings_of_neighbours_that_lock_each_other_out_are_the_same() -> None:
    """Two motors of the panel in which every motor is locked with the next."""
    circuit = circuit_of(chain(2))
    assert found_by(circuit, 1 << 10) == found_by(circuit, None)


def test_what_grows_too_wide_for_integers_is_examined_with_diagrams(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The findings are the same, and the verdict says by which engine they were found."""
    plan = tmp_path / "panel.plan"
    plan.write_text(chain(2))
    wide = examination.examine(plan)
    monkeypatch.setattr(engines, "INTEGERS", 1 << 10)
    monkeypatch.setattr(engines, "WIDEST", 1 << 13)
    narrow = examination.examine(plan)
    assert (wide.counts.engine, narrow.counts.engine) == ("integers", "decision diagrams")
    assert narrow.findings == wide.findings
    assert narrow.counts[:3] == wide.counts[:3]


def test_what_does_not_fit_into_memory_has_no_verdict(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The plan is told to be too much, instead of a traceback."""

    def full(*_: object) -> None:
        raise MemoryError

    plan = tmp_path / "panel.plan"
    plan.write_text(chain(2))
    monkeypatch.setattr(examination, "run_checks", full)
    with pytest.raises(PlanError) as told:
        examination.examine(plan)
    assert "no exact answer fits into memory" in told.value.problems[0].what


def test_findings_of_plans_with_figures_of_motion_are_the_same() -> None:
    """Where a limit's stopping distance is followed through every order of relays too."""
    circuit = build_circuit(read_plan(EXAMPLES / "wrong" / "deck_meets_its_stop.plan", (EXAMPLES,)))
    assert found_by(circuit, 64) == found_by(circuit, None)


def test_a_set_is_written_down_alike() -> None:
    """As a plain integer, whatever it is kept as."""
    for integers in (4, None):
        spaces = Spaces((2, 3, 2, 2), integers)
        either = spaces.where(1, (0, 2)) | (spaces.where(0, (1,)) & spaces.where(3, (1,)))
        wide = spaces.over(spaces.of(range(4)), either.over(spaces.of(range(4))))
        assert wide.integer == sum(
            1 << number
            for number, (d, c, b, a) in enumerate(product(range(2), range(2), range(3), range(2)))
            if b in (0, 2) or (a == 1 and d == 1)
        )


def test_relays_that_have_times_are_not_followed_over_diagrams() -> None:
    """They would move in every order, and what their times exclude would be told as well."""
    text = (EXAMPLES / "right" / "drawbridge.plan").read_text(encoding="utf-8")
    with pytest.raises(TooWide):
        found_by(circuit_of(text), 64)
