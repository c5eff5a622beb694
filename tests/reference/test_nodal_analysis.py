"""Volts and amps of networks against two other ways to work them out, against Kirchhoff, and against textbooks.

Others: modified nodal analysis (Ho, Ruehli, Brennan 1975, from memory) as a dense matrix solved by numpy, and the same
in exact fractions by sympy. Textbooks: Lessons in Electric Circuits vol. I ch. 12 (DC/src/conduct.sml, figures 10223
and 10227 to 10229), with its own constants; IEC 60028 (1925) with ours. Motors: edu.com question 1261439;
toughstem.com/problem-answer-solution/703; hscscience.com.au year 12 module 6 lesson 17; clutchprep.com 144846.
"""

from textwrap import dedent

import numpy
import pytest
import sympy  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.branch_currents import solve_branches
from circuitcheck.analysis.copper import copper_factor, wire_ohms
from circuitcheck.analysis.currents import CurrentCase, Currents, currents
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.linear import Branch, diode
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from tests.reference.asking import facts_of

OHMS = (0.011, 0.5, 1.2, 10.0, 72.0, 160.0, 680.0)
NETS = 6
PAIRS = st.tuples(*[st.integers(0, NETS - 1)] * 2).filter(lambda ends: ends[0] != ends[1])
JOINED = st.tuples(*[st.integers(2, NETS + 3)] * 2).filter(lambda ends: ends[0] != ends[1])
KINDS = {
    "L": "lamp {} 12 V 24 ohm",
    "R": "resistor {} 10 ohm",
    "S": "switch {} spst positions off on",
    "D": "diode {}",
}
MOTORS = [(240, 1.5, 16.0, 216), (115, 115 / 21.5, 6.5, 80.2), (12, 2, 1, 10), (6, 0.5, 3, 4.5)]


@st.composite
def networks(draw: st.DrawFn, diodes: int = 0) -> list[Branch]:
    """A supply, perhaps a second one with an internal resistance, a motor's own volts, resistors between six nets.

    Every net hangs together with the others, so that all volts are told.
    """
    ohms = st.sampled_from(OHMS)
    branches = [Branch(1, 0, "source", 12.0)]
    branches += [Branch(net, draw(st.integers(0, net - 1)), "resistor", draw(ohms)) for net in range(2, NETS)]
    for a, b in draw(st.lists(PAIRS, max_size=7)):
        volts = draw(st.sampled_from((0.0, 0.0, 5.0, 9.6)))
        branches.append(Branch(a, b, "resistor", draw(ohms), volts))
    branches += [diode(a, b) for a, b in draw(st.lists(PAIRS, max_size=diodes, unique=True))]
    return branches


def unknowns(branches: list[Branch]) -> tuple[list[list[object]], list[object]]:
    """The matrix and the right side of modified nodal analysis with net 0 as ground; the source's amps come last."""
    size = NETS
    matrix: list[list[object]] = [[sympy.Integer(0)] * size for _ in range(size)]
    right: list[object] = [sympy.Integer(0)] * size

    def add(row: int, column: int, value: object) -> None:
        if row and column:
            matrix[row - 1][column - 1] += value  # type: ignore[operator]

    for one in branches[1:]:
        siemens = 1 / sympy.Rational(str(one.value))
        for here, there, sign in ((one.a, one.b, 1), (one.b, one.a, -1)):
            add(here, here, siemens)
            add(here, there, -siemens)
            if here:
                right[here - 1] += sign * siemens * sympy.Rational(str(one.against))
    source = branches[0]
    matrix[source.a - 1][size - 1] = matrix[size - 1][source.a - 1] = sympy.Integer(1)
    right[size - 1] = sympy.Rational(str(source.value))
    return matrix, right


@settings(max_examples=60, deadline=None)
@given(networks())
def test_volts_and_amps_are_those_of_a_dense_matrix(branches: list[Branch]) -> None:
    """Every net's volts and the source's amps, to a billionth."""
    matrix, right = unknowns(branches)
    truth = numpy.linalg.solve(numpy.array(matrix, dtype=float), numpy.array(right, dtype=float))
    solved = solve_branches(branches, [])
    for net in range(1, NETS):
        assert solved.volts[net] - solved.volts[0] == pytest.approx(truth[net - 1], abs=1e-8)
    assert solved.amps[0] == pytest.approx(truth[-1], rel=1e-8, abs=1e-8)


@settings(max_examples=15, deadline=None)
@given(networks())
def test_volts_and_amps_are_those_of_exact_fractions(branches: list[Branch]) -> None:
    """The same without rounding: what is left is the solver's own rounding and its leak to ground."""
    matrix, right = unknowns(branches)
    truth = sympy.Matrix(matrix).LUsolve(sympy.Matrix(right))
    solved = solve_branches(branches, [])
    for net in range(1, NETS):
        assert solved.volts[net] - solved.volts[0] == pytest.approx(float(truth[net - 1]), abs=1e-8)


@settings(max_examples=150, deadline=None)
@given(networks(diodes=4), st.lists(JOINED, max_size=4))
def test_kirchhoffs_laws_hold_with_diodes_and_ideal_wires(
    branches: list[Branch], joined: list[tuple[int, int]]
) -> None:
    """At every net currents add up to nothing, to 1e-9 A; a diode conducts forward with its drop, or not at all."""
    solved = solve_branches(branches, joined)
    sums = dict.fromkeys(solved.volts, 0.0)
    ends = [*((one.a, one.b) for one in branches), *joined]
    for (a, b), amps in zip(ends, [*solved.amps, *solved.joined_amps], strict=True):
        sums[a] -= amps
        sums[b] += amps
    assert max(map(abs, sums.values())) < 1e-9
    for one, amps in zip(branches, solved.amps, strict=True):
        across = solved.volts[one.a] - solved.volts[one.b]
        if one.kind == "diode":
            assert amps >= 0
            assert across == pytest.approx(one.against + one.value * amps, abs=1e-9) if amps else across <= 0.7 + 1e-9
        elif one.kind == "resistor":
            assert across == pytest.approx(one.against + one.value * amps, abs=1e-9)


@st.composite
def series_and_parallel(draw: st.DrawFn, depth: int = 3) -> str:
    """A rung's middle: lamps, resistors, contacts and diodes in series and in parallel."""
    if depth == 0 or draw(st.booleans()):
        return draw(st.sampled_from(("L", "L", "R", "S", "D")))
    inner = [draw(series_and_parallel(depth - 1)) for _ in range(2)]
    return f"{inner[0]}, {inner[1]}" if draw(st.booleans()) else f"( {inner[0]} | {inner[1]} )"


def plan_of(shape: str) -> str:
    """A plan of such a rung; every wire is half a metre of 0.5 mm2."""
    parts: list[str] = []
    words: list[str] = []
    for word in shape.split():
        kind = word.rstrip(",")
        if kind in KINDS:
            name = f"{kind}{len(parts) + 10}"
            parts.append(KINDS[kind].format(name))
            word = word.replace(kind, name)
        words.append(word)
    return "\n".join(["supply PS 12 V 10 A", "lamp L1 12 V 12 ohm", *parts, f"rung PS.+, L1, {' '.join(words)}, PS.-"])


def with_wires(facts: Facts) -> Facts:
    """The same plan with half a metre of 0.5 mm2 for every wire, and 0.05 ohm within the supply."""
    circuit = facts.circuit
    wires = tuple(info._replace(area_mm2=0.5, metres=0.5) for info in circuit.wires)
    supplies = tuple(supply._replace(internal_ohms=0.05) for supply in circuit.supplies)
    return Facts(circuit._replace(wires=wires, supplies=supplies), facts.conduction)


@settings(max_examples=60, deadline=None)
@given(series_and_parallel())
def test_kirchhoffs_laws_hold_in_every_state_of_a_plan(shape: str) -> None:
    """Currents at each terminal add up to nothing, and what the supply gives is what all parts take (Tellegen), to
    1e-9."""
    facts = with_wires(facts_of(plan_of(shape)))
    for case in Currents(facts, Setting()).of_all():
        sums, taken = kirchhoff(facts, case)
        assert max(map(abs, sums.values())) < 1e-9
        given_off = sum(case.at_supply[number] * amps for number, amps in case.delivered.items())
        assert taken == pytest.approx(given_off, abs=1e-9)


def kirchhoff(facts: Facts, case: CurrentCase) -> tuple[dict[str, float], float]:
    """The sum of currents at each terminal, and the watts that conductors and loads take."""
    circuit, ohms = facts.circuit, conductor_ohms(facts.circuit, Setting())
    sums: dict[str, float] = {}
    flows = [(circuit.conductors[number][:2], amps) for number, amps in case.amps.items()]
    flows += [(circuit.loads[one][3:5], volts / circuit.loads[one].ohms) for one, volts in case.volts.items()]
    flows += [((circuit.supplies[one].minus, circuit.supplies[one].plus), amps) for one, amps in case.delivered.items()]
    for (tail, head), amps in flows:
        sums[tail] = sums.get(tail, 0.0) - amps
        sums[head] = sums.get(head, 0.0) + amps
    watts = sum(volts**2 / circuit.loads[one].ohms for one, volts in case.volts.items())
    for number, amps in case.amps.items():
        drop = 0.7 + 0.01 * amps if circuit.conductors[number].one_way else ohms[number] * amps
        watts += drop * amps
    return sums, watts


def test_two_thousand_three_hundred_feet_of_14_gauge() -> None:
    """4107 circular mils: 5.808 ohm one way by IEC 60028; with the textbook's elemental copper 5.651 ohm, and at most
    20.352 A into a dead short from 230 V."""
    ohms = wire_ohms(4107 * 0.00050670748, 2300 * 0.3048)
    assert ohms == pytest.approx(5.808, abs=0.001)
    textbook = ohms * 10.09 / 10.371
    assert textbook == pytest.approx(5.651, abs=0.001)
    solved = solve_branches(
        [Branch(1, 0, "source", 230.0), Branch(1, 2, "resistor", 5.6505), Branch(2, 0, "resistor", 5.6505)], []
    )
    assert solved.amps[1] == pytest.approx(20.352, abs=0.001)


@pytest.mark.parametrize(("wire", "milliamps", "volts"), [(15.0, 50.0, 12.5), (15.909, 49.677, 12.42)])
def test_warm_wires(wire: float, milliamps: float, volts: float) -> None:
    """14 V, 250 ohm and two wires of 15 ohm at 20 °C, 15.909 ohm at 35 °C (the textbook's 0.004041 per kelvin)."""
    facts = facts_of("supply PS 14 V 1 A\nlamp L1 12 V 250 ohm\nrung PS.+, L1, PS.-")
    metres = wire / 0.0195  # 1 mm2 by IEC 60228, class 5
    wires = tuple(info._replace(area_mm2=1.0, metres=metres) for info in facts.circuit.wires)
    (case,) = currents(Facts(facts.circuit._replace(wires=wires), facts.conduction), 0, Setting())
    assert case.volts[0] == pytest.approx(volts, abs=0.005)
    assert case.delivered[0] * 1000 == pytest.approx(milliamps, abs=0.001)


def test_copper_at_35_degrees_by_the_standard() -> None:
    """0.00393 per kelvin on a base of 20 °C; the coefficient vanishes near -234.5 °C."""
    assert 15 * copper_factor(35) == pytest.approx(15 * (1 + 0.00393 * 15))
    assert copper_factor(-234.45) == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    ("volts", "ohms", "amps", "own"),
    [(240, 1.5, 16.0, 216), (115, 115 / 21.5, 6.5, 80.2), (12, 2, 1, 10), (6, 0.5, 3, 4.5)],
)
def test_a_running_motors_own_volts_leave_it_its_running_current(
    volts: float, ohms: float, amps: float, own: float
) -> None:
    """Four textbook motors: with their back-emf they draw their running amps, at rest volts over ohms."""
    plan = dedent(f"""
        supply PS {volts} V 100 A
        motor  M1 {volts} V stall {volts / ohms} A
        rung   PS.+, M1, PS.-
    """)
    facts = facts_of(plan)
    (turning,) = currents(facts, 0, Setting(generated={0: own}))
    (standing,) = currents(facts, 0, Setting())
    assert turning.delivered[0] == pytest.approx(amps, rel=2e-3)
    assert standing.delivered[0] == pytest.approx(volts / ohms)
