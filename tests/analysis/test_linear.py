"""The operating point against Kirchhoff's laws and against the judge's exact fractions."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.linear import DIODE_OHMS, Branch, diode, solve_network
from tests.judge import volts as exact

OHMS = (1.2, 10.0, 72.0, 160.0, 680.0, 47_000.0)


@st.composite
def networks(draw: st.DrawFn) -> list[Branch]:
    """A supply or two with a common minus (net 0), resistors and diodes between up to six nets."""
    pairs = st.tuples(*[st.integers(0, 5)] * 2).filter(lambda ends: ends[0] != ends[1])
    branches = [Branch(1, 0, "source", 12.0)]
    if draw(st.booleans()):
        branches.append(Branch(2, 0, "source", 5.0))
    for a, b in draw(st.lists(pairs, min_size=1, max_size=7)):
        branches.append(Branch(a, b, "resistor", draw(st.sampled_from(OHMS))))
    for a, b in draw(st.lists(pairs, max_size=4, unique=True)):
        branches.append(diode(a, b))
    return branches


@settings(max_examples=150, deadline=None)
@given(networks())
def test_currents_into_each_net_add_up_to_nothing(branches: list[Branch]) -> None:
    """Kirchhoff, to a nanovolt: at nets that no source holds currents cancel; each source holds its volts."""
    volts = solve_network(branches, [])
    held = {0}
    for branch in branches:
        if branch.kind == "source":
            held.add(branch.a)
            assert abs(volts[branch.a] - volts[branch.b] - branch.value) < 1e-9
    sums = dict.fromkeys(volts, 0.0)
    siemens = dict.fromkeys(volts, 1.0)
    for branch in branches:
        if branch.kind != "source":
            current = branch.amps(volts)
            sums[branch.a] -= current
            sums[branch.b] += current
            for net in (branch.a, branch.b):
                siemens[net] += 1 / (branch.value if branch.kind == "resistor" else DIODE_OHMS)
    assert all(abs(total) < 1e-9 * siemens[net] for net, total in sums.items() if net not in held)


@settings(max_examples=60, deadline=None)
@given(networks())
def test_volts_across_loads_are_those_of_exact_fractions(branches: list[Branch]) -> None:
    """Across every resistor the volts equal those that the judge works out without rounding, to a nanovolt or so."""
    assert is_as_in_exact_fractions(branches)


def is_as_in_exact_fractions(branches: list[Branch]) -> bool:
    """Has every resistor the volts that the judge works out?"""
    volts = solve_network(branches, [])
    truth = exact.solve(
        frozenset(volts),
        tuple(
            exact.Branch(one.a, one.b, Fraction(0), Fraction(one.value).limit_denominator(10**6))
            for one in branches
            if one.kind == "resistor"
        ),
        tuple((one.a, one.b) for one in branches if one.kind == "diode"),
        tuple((one.b, one.a, Fraction(one.value)) for one in branches if one.kind == "source"),
    )
    return all(
        abs((volts[one.a] - volts[one.b]) - float(truth[one.a] - truth[one.b])) < 1e-6
        for one in branches
        if one.kind == "resistor"
    )


def test_diodes_that_would_turn_each_other_round_for_ever_come_to_an_answer() -> None:
    """All that are wrong turned round at once would never be right together; one at a time they are."""
    halved = [Branch(1, 0, "source", 12.0), Branch(0, 3, "resistor", 10.0), Branch(3, 1, "resistor", 10.0)]
    assert is_as_in_exact_fractions([*halved, *(diode(a, b) for a, b in ((3, 0), (2, 0), (2, 3), (3, 2)))])


def test_a_current_runs_whatever_the_volts() -> None:
    """Two amperes out of net 1 into net 0 come back over eight ohms, three of them in series with five."""
    branches = [Branch(1, 0, "current", 2.0), Branch(0, 2, "resistor", 3.0), Branch(2, 1, "resistor", 5.0)]
    volts = solve_network(branches, [])
    assert abs(volts[0] - volts[1] - 16.0) < 1e-6
    assert abs(volts[0] - volts[2] - 6.0) < 1e-6
    assert branches[0].amps(volts) == 2.0


def test_equal_resistors_in_series_halve_the_volts() -> None:
    """Two equal lamps on 12 V get 6 V each, to far less than a millionth."""
    volts = solve_network(
        [Branch(1, 0, "source", 12.0), Branch(1, 2, "resistor", 72.0), Branch(2, 0, "resistor", 72.0)], []
    )
    assert abs(volts[1] - volts[2] - 6.0) < 1e-9


def test_a_net_that_nothing_holds_does_not_keep_a_diode_from_its_answer() -> None:
    """A diode with one end in the air neither conducts nor makes the network unsolvable."""
    branches = [
        Branch(1, 0, "source", 5.0),
        Branch(1, 2, "resistor", 1.2),
        Branch(2, 0, "resistor", 48 / 7),
        diode(3, 0),
    ]
    volts = solve_network(branches, [])
    assert abs(volts[2] - volts[0] - 5.0 * (48 / 7) / (1.2 + 48 / 7)) < 1e-9
