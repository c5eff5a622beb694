"""What can be set on the bench, listed from the words of a plan."""

from itertools import product

import pytest

from circuitcheck.analysis.bench.settings import OFF, STAGES, WITH, WITHOUT, set_apart, settings_of
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

BOX = """
supply  PS 12 V 5 A
switch  S1 spdt positions raise off lower
button  PB1 no
outside OUT1 contact
relay   K1 spdt coil 12 V 160 ohm
relay   K2 no latching coil 12 V 160 ohm
axis    deck from low via half to high
axis    leaf from left to right
limit   LS1 nc on deck at high
limit   LS2 nc on leaf at right
limit   LS3 no on deck from half to high
switch  S2 spdt positions high low
motor   M1 12 V stall 5 A drives deck toward high
"""
REST = {
    "PS": "on", "S1": "off", "PB1": "released", "OUT1": "off", "K1": "released", "K2": "released",
    "deck": "low", "leaf": "left", "S2": "high",
}  # fmt: skip
SET = {"S1": ("raise", "lower"), "PB1": ("pressed",), "OUT1": ("on",), "K2": ("operated",), "S2": ("low",)}
ZONES = {
    "deck": ("between low and half", "half", "between half and high", "high"),
    "leaf": ("between left and right", "right"),
}
OF_STAGE = {
    OFF: SET | {"K1": ("operated",), "deck": ("half", "high"), "leaf": ("right",)},
    WITHOUT: SET | {"PB1": ("pressed", "tapped"), "deck": ("half", "high"), "leaf": ("right",)},
    WITH: SET | {"PB1": ("pressed", "tapped")} | ZONES,
}
"""What each may be set to apart from rest. Limits are worked by hand until the motors are connected, and a plain relay
moves by hand only without power."""


def words(circuit: Circuit, apart: dict[int, tuple[int, bool]]) -> frozenset[tuple[str, str]]:
    """What is set, in words."""
    return frozenset(
        (circuit.digits[digit].name, "tapped" if tapped else circuit.digits[digit].values[value])
        for digit, (value, tapped) in apart.items()
    )


def expected(stage: str) -> list[frozenset[tuple[str, str]]]:
    """Every way to set some of them."""
    each = [[None, *((name, word) for word in choices)] for name, choices in OF_STAGE[stage].items()]
    return [frozenset(one for one in chosen if one) for chosen in product(*each)]


@pytest.mark.parametrize("stage", STAGES)
def test_every_setting_of_a_stage_is_listed_once_the_nearest_to_rest_first(stage: str) -> None:
    """Supplies are on but in the first stage; whatever the plan says of rest is where a setting starts."""
    circuit = circuit_of(BOX)
    settings = settings_of(circuit, stage, most=10_000)
    names = {digit.name: digit.values[value] for digit, value in zip(circuit.digits, settings.rest.values, strict=True)}
    assert names == REST | ({"PS": "off"} if stage == OFF else {})
    listed = [words(circuit, set_apart(one, settings.rest)) for one in settings.all]
    assert len(listed) == len(set(listed))
    assert set(listed) == set(expected(stage))
    assert [len(one) for one in listed] == sorted(len(one) for one in listed)
    assert settings.complete


def test_a_list_is_complete_exactly_if_nothing_is_left_out_of_it() -> None:
    """As many as may be are all there are, or one is missing."""
    circuit = circuit_of(BOX)
    count = len(expected(OFF))
    assert settings_of(circuit, OFF, most=count).complete
    shorter = settings_of(circuit, OFF, most=count - 1)
    assert not shorter.complete
    assert shorter.all == settings_of(circuit, OFF, most=count).all[:-1]


def test_what_is_given_of_a_digit_is_its_rest_and_all_that_it_may_be() -> None:
    """The first is where it rests; a tap given leaves its value at rest, and all others are as they were."""
    circuit = circuit_of(
        "supply PS 12 V 5 A\nbutton PB1 no\nswitch S1 spdt positions raise off lower\n"
        "switch S2 S3 spst positions on off\n"
    )
    number = {digit.name: place for place, digit in enumerate(circuit.digits)}
    given = {number["S1"]: [(0, False), (2, False)], number["PB1"]: [(1, True)]}
    settings = settings_of(circuit, WITH, given)
    assert settings.rest.values[number["S1"]] == 0
    assert settings.rest.tapped == ((number["PB1"], 1),)
    assert {one.values[number["S1"]] for one in settings.all} == {0, 2}
    assert len(settings.all) == 2 * 2 * 2
    usual = settings_of(circuit, WITH).rest.values
    assert settings.rest.values == (*usual[: number["S1"]], 0, *usual[number["S1"] + 1 :])
