"""What the operating card is made of: stops, signals, what a borrower must know of this very prop."""

from functools import cache
from pathlib import Path

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.operating import Card, operating_card
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.reports.card_asking import CardReport, card_report
from circuitcheck.reports.card_words import run_on_words

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def example(name: str) -> tuple[Circuit, Card]:
    """An example's circuit and card."""
    circuit = build_circuit(read_plan(EXAMPLES / "right" / f"{name}.plan", (EXAMPLES / "parts",)))
    return circuit, operating_card(analyse(circuit))


def told(name: str) -> CardReport:
    """An example's card in words."""
    return card_report(*example(name))


def test_a_direction_stops_at_the_limit_that_ends_it() -> None:
    """Up to the top, down to the bottom; the drum of the lighthouse stops nowhere while it is told to run."""
    ends = {name: [one.stops_at for one in example(name)[1].handled] for name in ("drawbridge", "lighthouse_shutter")}
    assert ends == {"drawbridge": ["top", "bottom"], "lighthouse_shutter": [""]}


def test_a_control_that_has_to_be_held_is_told_from_one_that_is_tapped() -> None:
    """The touring drawbridge moves while S1 is held; the curtain goes on when its button is let go."""
    assert told("touring_drawbridge").sheets[0].begin[-1] == "Hold switch S1 at raise."
    curtain = told("curtain").sheets[0]
    assert curtain.begin[-1] == "Press button OPEN and let go."
    assert ("you let go of button OPEN", "it goes on") in curtain.rows


def test_a_drum_goes_on_to_where_it_parks() -> None:
    """Its switch turned off doesn't stop it at once."""
    assert ("off", "the drum (M1) goes on to park, and stops there") in told("lighthouse_shutter").controls[0].does


def test_how_far_it_runs_on_is_told_where_the_plan_has_figures() -> None:
    """The wing's limits let it go on for 9.4 degrees at most, the moon hangs on a drum; curtains have no figures."""
    assert ("the wing gets to spread", "it stops by itself, after up to 10 degrees more") in told("dragon_wing").sheets[
        0
    ].rows
    assert ("the moon gets to high", "it stops by itself, after up to 1 cm more") in told("moon_over_the_stage").sheets[
        0
    ].rows
    assert not any(" more" in then for sheet in told("curtain").sheets for _, then in sheet.rows)


def test_what_turns_back_is_not_said_to_run_on() -> None:
    """The deck that is told to go down while it rises."""
    then = dict(told("drawbridge").sheets[0].rows)["you turn switch S1 to lower"]
    assert then == "it goes the other way, as far as it can"


@pytest.mark.parametrize(
    ("name", "radians", "words"),
    [
        ("dragon_wing", 0.1, ", after up to 6 degrees more"),
        ("dragon_wing", 0.2, ", after up to 15 degrees more"),
        ("dragon_wing", 7.0, ", after up to 1.5 turns more"),
        ("dragon_wing", 0.0, ""),
        ("moon_over_the_stage", 0.8, ", after up to 2 cm (a finger's width) more"),
        ("moon_over_the_stage", 3.2, ", after up to 8 cm (a hand's width) more"),
    ],
)
def test_ways_are_rounded_upward_in_words_that_a_borrower_knows(name: str, radians: float, words: str) -> None:
    """The moon's drum is 50 mm across."""
    circuit, card = example(name)
    assert run_on_words(circuit, card.handled[0]._replace(runs_on=((0, 1, radians),)), 0, 1) == words


def test_a_time_that_a_relay_takes_is_told() -> None:
    """The latch pulls three seconds after its button, and the dragon's roar ends by itself."""
    latch = next(one for one in told("trapdoor_lantern").sheets if "latch" in one.title)
    assert latch.begin[-3:] == ("Turn key switch S1 to armed.", "Hold button DROP pressed.", "Wait about 3 s.")
    assert ("nobody does anything more", "after its time it ends") in told("dragon_roar").sheets[0].rows


def test_speeds_are_told_apart_where_the_switch_decides_and_not_where_the_way_does() -> None:
    """Calm and storm are two things to do; a deck that arrives slowly is one."""
    assert [one.doing.word for one in example("storm_beam")[1].handled] == ["forward slow", "forward fast"]
    assert [one.doing.word for one in example("drawbridge_slow_finish")[1].handled] == ["forward", "reverse"]


def test_a_lamp_that_always_says_the_same_is_a_signal() -> None:
    """The lamp beside the deck is lit while it is driven, the moon's while there is power; lanterns signal nothing."""
    assert told("drawbridge").signals == ("Lamp L1 (deck moving) is lit while the deck (M1) is driven, and only then.",)
    assert told("moon_over_the_stage").signals == ("Lamp L1 (moon) is lit while supply PS is on, and only then.",)
    assert told("lantern_colours").signals == ()


def test_what_the_stop_and_the_plug_do_is_told_first() -> None:
    """With and without an emergency stop; a motor that nothing brakes is not said to be held."""
    assert told("drawbridge").trouble[0] == (
        "Hit emergency stop ES1: the deck (M1) stops quickly and is held (the motor brakes)."
    )
    assert (
        told("gallery_lift").trouble[0].startswith("There is no emergency stop. Pull the plug of the supply: the lift")
    )
    assert "nothing holds it" in told("gallery_lift").trouble[0]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("touring_drawbridge", "Never pull connector J1 while anything moves or hangs: unplugged, nothing holds the"),
        ("gallery_lift", "Never rely on it to stay where it stops: nothing holds the lift (M1)."),
        ("lighthouse_shutter", "Never leave it running unwatched: nothing stops the drum (M1) by itself."),
    ],
)
def test_a_card_says_what_is_never_to_be_done_to_this_prop(name: str, said: str) -> None:
    """Besides what is never to be done to any."""
    assert any(one.startswith(said) for one in told(name).nevers)


def test_a_prop_that_starts_with_the_power_is_told_of() -> None:
    """The curtain pair does, since its switch stays; the curtain with buttons doesn't."""
    assert any("may start with nobody at the controls" in one for one in told("curtain_pair").trouble)
    assert "When the power returns nothing starts to move by itself." in told("curtain").trouble


def test_a_button_that_everything_begins_with_starts_what_is_set() -> None:
    """Raised or lowered, the deck moves once START is pressed: both are told at S1 already."""
    start = next(one for one in told("drawbridge").controls if one.name == "button START")
    assert start.does == (("pressed", "starts whatever the other controls are set to"),)


def test_a_place_without_a_name_and_several_ends_are_told_in_plain_words() -> None:
    """The limit lets a latching relay go as soon as the deck has left the bottom; without power nothing brakes."""
    text = """
        supply PS 24 V 10 A
        supply PB 12 V 5 A
        switch S1 spdt momentary positions up off down
        relay K1 dpdt latching coil 24 V 600 ohm
        axis deck from bottom to top, 70 deg
        limit LS1 spdt on deck at bottom
        lamp L1 12 V 5 W
        motor M1 24 V stall 10 A drives deck toward top
        wire PS.- PB.-
        rung PB.+, L1, PB.-
        rung PS.+, S1.com-up, K1.A1-A2, PS.-
        rung PS.+, LS1.com-nc, K1.B1-B2, PS.-
        rung PS.+, K1.14-11, M1, PS.-
        wire K1.12 PS.-
    """
    circuit = build_circuit(read_text("deck.plan", text))
    deck = next(one for one in card_report(circuit, operating_card(analyse(circuit))).sheets if "deck" in one.title)
    assert deck.begin[0] == "Switch all supplies on."
    assert deck.rows[0] == ("the deck gets to somewhere between bottom and top", "it stops by itself")
