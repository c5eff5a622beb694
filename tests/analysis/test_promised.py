"""The states in which what a plan claims is so: each kind of subject and word."""

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.checks import broken_promise
from tests.analysis.plans import circuit_of

BOX = """\
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off on
switch S2 spst positions off on
axis   deck from bottom to top
axis   drum turning through park half
limit  LS1 nc on deck at top
motor  M1 12 V stall 5 A drives deck toward top may coast
motor  M2 12 V stall 5 A drives drum toward half may coast
lamp   L1 12 V 2 W
rung   PS.+, F1, S1, LS1, M1, PS.-
rung   S1.on, M2, PS.-
rung   S1.on, L1, PS.-
rung   F1.2, S2, PS.-
"""


def broken(promise: str) -> list[str]:
    """What is said of a promise that doesn't hold."""
    facts: Facts = analyse(circuit_of(BOX + promise + "\n"))
    return [one.what for one in broken_promise.find(facts)]


@pytest.mark.parametrize(
    "promise",
    [
        "never M1 driven when LS1 pressed",
        "never M1 forward when S1 off",
        "always M1 shorted when PS on and S2 on",
        "never M1 shorted when S2 off",
        "never M1 driven when M1 shorted",
        "expect LS1 released when deck at bottom",
        "expect LS1 pressed when deck at top",
        "expect L1 lit when PS on and S1 on and S2 off",
        "expect M1 stopped when S1 off",
    ],
)
def test_a_promise_that_is_kept_is_not_told(promise: str) -> None:
    """Of a motor, a lamp, a limit, a switch or an axis."""
    assert broken(promise) == []


@pytest.mark.parametrize(
    ("promise", "says"),
    [
        ("always LS1 released", "LS1 released is promised always to be so, but is not"),
        ("expect M1 driven when S1 on", "M1 driven"),
        ("expect L1 dark when S1 on", "L1 dark"),
    ],
)
def test_a_promise_that_is_broken_is_told_with_its_words(promise: str, says: str) -> None:
    """And with the states in which it is."""
    (told,) = broken(promise)
    assert says in told
