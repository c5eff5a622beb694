"""What the tests of circuit/ share: a plan's text becomes a circuit, or the problems that keep it from being one."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.consistency import assert_consistent
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError, Problem


@pytest.fixture
def build() -> Callable[[str], Circuit]:
    """A plan's text → its circuit, whose consistency has been checked."""

    def build_consistent(text: str) -> Circuit:
        circuit = build_circuit(read_text("prop.plan", text))
        assert_consistent(circuit)
        return circuit

    return build_consistent


@pytest.fixture
def problems_of() -> Callable[[str], tuple[Problem, ...]]:
    """A plan's text → every problem found when its circuit is built."""

    def problems(text: str) -> tuple[Problem, ...]:
        plan = read_text("prop.plan", text)
        with pytest.raises(PlanError) as raised:
            build_circuit(plan)
        return raised.value.problems

    return problems
