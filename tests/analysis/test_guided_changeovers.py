"""A force-guided relay while it travels: its poles lag one another, and opposite ones are never closed together."""

from collections.abc import Sequence
from itertools import combinations, permutations, product

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.registry import all_checks, findings_of
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text
from tests.judge.changeovers import in_the_moment
from tests.judge.replaying import replay
from tests.judge.steps import Judge

PLAN = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
relay  K1 no no nc nc {guided} coil 12 V 160 ohm with diode
relay  K2 no nc coil 12 V 160 ohm with diode
lamp   L1 12 V 2 W
rung   PS.+, F1, L1, PS.-
rung   F1.2, S1, K1.A1-A2, PS.-
rung   S1.on, K2.A1-A2, PS.-
rung   F1.2, {ways}, PS.-
"""
POLES = ("K1.13-14", "K1.23-24", "K1.31-32", "K1.41-42", "K2.13-14", "K2.21-22")
SIDES = ("on its released side", "on its operated side")
IN_SERIES = [", ".join(some) for many in (2, 3) for some in combinations(POLES, many)]
BRIDGES = [f"( {a}, {b} | {c}, {d} )" for (a, b), (c, d) in permutations(combinations(POLES[:4], 2), 2)][::5]


def built(ways: str, guided: str) -> Circuit:
    """Contacts straight across the supply."""
    return build_circuit(read_text("a.plan", PLAN.format(ways=ways, guided=guided)))


def is_shorted_for_a_moment(circuit: Circuit) -> bool:
    """By the judge: in some state of operation, with every pole of every relay at either side."""
    judge = Judge(circuit)
    poles = [one.split("-")[0] for one in POLES]
    for state in judge.reachable():
        for sides in product(SIDES, repeat=len(poles)):
            moment = in_the_moment(judge, dict(zip(poles, sides, strict=True)), state)
            if moment is not None and moment.judged(state).shorted and not judge.judged(state).shorted:
                return True
    return False


@pytest.mark.parametrize("guided", ["force-guided", ""])
@pytest.mark.parametrize("ways", [IN_SERIES[1:12:2], pytest.param((*IN_SERIES, *BRIDGES), marks=pytest.mark.slow)])
def test_a_changeover_shorts_what_the_judge_finds_shorted(guided: str, ways: Sequence[str]) -> None:
    """Contacts in series and side by side across the supply, each way; every finding can be walked to."""
    (check,) = (one for one in all_checks() if one.check.name == "supply-short")
    for across in ways:
        circuit = built(across, guided)
        found = [one for one in findings_of(analyse(circuit), check) if one.reached == "changeover"]
        if not any(one.reached == "operation" for one in findings_of(analyse(circuit), check)):
            assert bool(found) == is_shorted_for_a_moment(circuit), across
        for one in found:
            assert replay(circuit, one) == "", across


@pytest.mark.parametrize(
    ("ways", "plain", "guided"),
    [
        ("K1.13-14, K1.31-32", True, False),
        ("K1.13-14, K2.21-22", True, True),
    ],
)
def test_opposite_contacts_of_one_guided_relay_need_no_interlock(ways: str, plain: bool, guided: bool) -> None:
    """In series across a supply they short it only where they are not guided; those of two relays do in any case."""
    (check,) = (one for one in all_checks() if one.check.name == "supply-short")
    told = [bool(list(findings_of(analyse(built(ways, word)), check))) for word in ("", "force-guided")]
    assert told == [plain, guided]
