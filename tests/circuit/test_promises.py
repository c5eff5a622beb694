"""What promises may speak of."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.model import Circuit

Build = Callable[[str], Circuit]
PARTS = """supply PS 12 V 10 A
switch S1 spdt positions raise lower
button PB1 no
estop ES1 nc
relay K1 coil 12 V
relay K2 one-shot 3 s coil 12 V
lamp L1 12 V 2 W
buzzer BZ1 12 V 0.02 A
solenoid Y1 12 V 12 ohm
motor M1 12 V stall 18 A
axis deck from bottom via middle to top
axis wheel turning through park
limit LS1 spdt on deck at top
cam CS1 spdt on wheel at park
outside OUT1 contact
"""
CLAIMS = [
    "PS off", "S1 raise", "PB1 pressed", "ES1 released", "K1 operated", "K2 spent", "L1 lit", "L1 glows", "L1 dark",
    "BZ1 on", "Y1 off", "M1 forward", "M1 braked", "M1 stopped", "deck at top", "deck past bottom", "deck past middle",
    "deck stops at top",
    "wheel at park", "LS1 pressed", "CS1 released", "OUT1 on",
]  # fmt: skip


@pytest.mark.parametrize("claim", CLAIMS)
def test_each_kind_of_part_has_words_for_its_state(build: Build, claim: str) -> None:
    """Whatever changes can be promised of, in the words of the trade."""
    assert len(build(f"{PARTS}expect {claim}\nnever not {claim} when {claim}").promises) == 2


def test_a_time_is_given_in_seconds_or_as_settling(build: Build) -> None:
    """The circuit's promises have it in seconds, whatever the unit in the plan."""
    text = "after ES1 pressed within 500 ms M1 stopped\nafter PS off within settling M1 stopped"
    first, second = build(PARTS + text).promises
    assert first.within
    assert (first.within.high, second.within) == (0.5, None)


@pytest.mark.parametrize("returning", ["power", "PS"])
def test_power_is_every_supply_unless_one_is_named(build: Build, returning: str) -> None:
    """Both are said of what returns."""
    assert len(build(f"{PARTS}never M1 starts when {returning} returns").promises) == 1
