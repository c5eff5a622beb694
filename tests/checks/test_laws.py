"""Laws that verdicts keep: what changes nothing about a box changes nothing about what is found in it."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.counting import count_states
from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.plan.syntax import Plan
from tests.analysis.plans import circuit_of, plan_texts
from tests.checks.transformed import mirrored, poles_exchanged, renamed, wires_split, wires_turned
from tests.profiles import examples

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
FILES = [*sorted((EXAMPLES / "right").glob("*.plan")), *sorted((EXAMPLES / "wrong").glob("*.plan"))]
FEW = ("curtain_race", "lighthouse_two_supplies", "storm_beam", "beam_case_reversed", "gallery_joins_supplies")
FEW_FILES = [file for file in FILES if file.stem in FEW]

Verdict = tuple[tuple[int | None, ...], Counter[tuple[str, ...]]]
Law = Callable[[Plan, Random], tuple[Circuit, Circuit]]
"""From a plan to two circuits of which the same has to be found."""


def verdict(circuit: Circuit, of: dict[str, str] | None = None, combinations: bool = True) -> Verdict:
    """How many states there are and are reached, and each finding by its check, severity, reach and parts.

    of: other names of the parts. combinations: whether the numbers of states count.
    """
    facts = analyse(circuit)
    names = of or {}
    findings = [one for one in run_checks(facts, all_checks()) if "BESIDE" not in one.parts]
    # A loop through two supplies may be told from either of them, and more than once.
    loops = [one for one in findings if one.check == "supply-short" and len(circuit.supplies) > 1]
    found = Counter(
        (one.check, one.severity, one.reached, *sorted(names.get(part, part) for part in one.parts))
        for one in findings
        if one not in loops
    )
    return (count_states(facts)[:3] if combinations else ()), found + Counter({(one.check,): 1 for one in loops})


def under_other_names(plan: Plan, _chance: Random) -> None:
    """Renaming all parts renames them in what is found."""
    circuit = build_circuit(plan)
    axes = [axis.name for axis in circuit.axes]
    every = [*circuit.parts, *(name for name in axes if name not in circuit.parts)]
    names = {name: f"Z{len(every) - number}" for number, name in enumerate(every)}
    assert verdict(renamed(circuit, names)) == verdict(circuit, names)


def in_another_order(plan: Plan, chance: Random) -> None:
    """It makes no difference in which order the lines of a plan are written."""
    shuffled = chance.sample(plan.statements, len(plan.statements))
    assert verdict(build_circuit(plan._replace(statements=tuple(shuffled)))) == verdict(build_circuit(plan))


def with_wires_turned(plan: Plan, _chance: Random) -> None:
    """A wire has no direction."""
    circuit = build_circuit(plan)
    assert verdict(wires_turned(circuit)) == verdict(circuit)


def with_wires_split(plan: Plan, chance: Random) -> None:
    """A splice in a wire is nothing but wire."""
    circuit = build_circuit(plan)
    assert verdict(wires_split(circuit, chance)) == verdict(circuit)


def with_a_part_beside(plan: Plan, _chance: Random) -> None:
    """A switch that nothing is wired to says nothing about the rest of the box."""
    beside = read_text("beside.plan", "switch BESIDE spst positions off on").statements
    longer = plan._replace(statements=(*plan.statements, *beside))
    assert verdict(build_circuit(longer), combinations=False) == verdict(build_circuit(plan), combinations=False)


def with_axes_mirrored(plan: Plan, _chance: Random) -> None:
    """Which end of an axis is called its bottom is a matter of words."""
    circuit = build_circuit(plan)._replace(promises=(), requirements=())
    assert verdict(mirrored(circuit)) == verdict(circuit)


def with_poles_exchanged(plan: Plan, _chance: Random) -> None:
    """With + and − exchanged, and diodes and motors turned, all currents run the other way round and nothing else."""
    circuit = build_circuit(plan)
    assert verdict(poles_exchanged(circuit)) == verdict(circuit)


LAWS = (
    *(under_other_names, in_another_order, with_wires_turned, with_wires_split, with_a_part_beside),
    *(with_axes_mirrored, with_poles_exchanged),
)


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
def test_laws_hold_on_random_plans(law: Callable[[Plan, Random], None]) -> None:
    """Whatever parts there are, however they are wired."""

    @settings(max_examples=examples(20), suppress_health_check=list(HealthCheck))
    @given(plan_texts(), st.randoms(use_true_random=False))
    def holds(text: str, chance: Random) -> None:
        law(read_text("a.plan", text), chance)

    holds()


@pytest.mark.slow
@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
def test_laws_hold_on_many_random_plans(law: Callable[[Plan, Random], None]) -> None:
    """The same on larger plans, and more of them."""

    @settings(max_examples=examples(60), suppress_health_check=list(HealthCheck))
    @given(plan_texts(most_states=150, most_parts=10), st.randoms(use_true_random=False))
    def holds(text: str, chance: Random) -> None:
        law(read_text("a.plan", text), chance)

    holds()


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
@pytest.mark.parametrize("file", FEW_FILES, ids=lambda file: file.stem)
def test_laws_hold_on_a_few_examples(file: Path, law: Callable[[Plan, Random], None]) -> None:
    """Plans as people draw them, right ones and wrong ones."""
    law(read_plan(file, (EXAMPLES / "parts",)), Random(1))


@pytest.mark.slow
@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
@pytest.mark.parametrize("file", [file for file in FILES if file.stem not in FEW], ids=lambda file: file.stem)
def test_laws_hold_on_every_example(file: Path, law: Callable[[Plan, Random], None]) -> None:
    """All the others."""
    law(read_plan(file, (EXAMPLES / "parts",)), Random(1))


def test_a_pulse_over_a_relay_without_a_say_in_the_usual_drive_is_told() -> None:
    """The motor is driven while one pole of K1 is ahead of the other; once both are there the supply is shorted."""
    text = """
supply PS 12 V 10 A
relay  K1 no no on-delay 3 s coil 12 V 160 ohm with diode
motor  M1 12 V stall 3 A
rung   PS.+, K1.A1-A2, PS.-
rung   PS.+, K1.17-18, PS.-
rung   PS.+, K1.27-28, M1, PS.-
"""
    _, found = verdict(circuit_of(text))
    assert found["wrong-way-pulse", "warning", "changeover", "K1", "M1"] == 1
