"""What the tests of circuit/ share: a plan's text becomes a circuit, or the problems that keep it from being one."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.consistency import assert_consistent
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError, Problem

PARTS = """supply PS 12 V 10 A
relay K1 dpdt coil 12 V 160 ohm
lamp L1 L2 12 V 2 W
switch S1 spdt positions raise lower
axis deck from bottom via middle to top
axis wheel turning through park half
motor M1 12 V stall 18 A
splice N1
type cube relay spdt coil 12 V
module Shutter
  port plus minus
  relay K1 spdt coil 12 V
  rung plus, K1.A1-A2, minus
end
fit R1 Shutter : plus PS.+, minus PS.-
"""
"""A prop to make slips in: one more statement stands in line 16."""

FOREIGN_WORDS = {"invalid", "unexpected", "token", "node", "edge", "bit", "none", "namedtuple"}
"""Words of programmers, which no message to a builder may use."""


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


@pytest.fixture
def told_of(problems_of: Callable[[str], tuple[Problem, ...]]) -> Callable[[str], tuple[str, str, str]]:
    """A statement with one slip, put after PARTS → the words that the message points at, what was found, what helps."""

    def told(statement: str) -> tuple[str, str, str]:
        (problem,) = problems_of(PARTS + statement)
        assert problem.place.line == PARTS.count("\n") + 1
        for said in (problem.what, problem.help):
            assert not FOREIGN_WORDS & set(said.lower().split()), said
        return statement[problem.place.column - 1 : problem.place.end_column - 1], problem.what, problem.help

    return told
