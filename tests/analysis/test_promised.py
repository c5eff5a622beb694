"""The states in which what a plan claims is so: each kind of subject and word."""

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.promised import condition_states, restart_of
from circuitcheck.analysis.states import States, union
from circuitcheck.checks import broken_promise
from tests.analysis.plans import circuit_of
from tests.analysis.test_hands import where

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


DRIVEN_BOTH_WAYS = """\
supply PS 12 V 10 A
switch S1 dpdt positions raise off lower
switch S2 S3 spst positions off on
axis   deck from bottom via middle to top
axis   drum turning through park half
limit  LS1 nc on deck from middle to top
motor  M1 12 V stall 5 A drives deck toward top
motor  M2 12 V stall 5 A drives drum toward half
lamp   L1 12 V 2 W
buzzer BZ1 12 V 0.02 A
resistor R1 500 ohm
rung   PS.+, BZ1, PS.-
rung   PS.+, ( S1.raise1 | S1.lower2 )
rung   PS.-, ( S1.raise2 | S1.lower1 )
rung   S1.com1, M1, S1.com2
rung   PS.+, ( S3 | R1 ), L1, PS.-
rung   PS.+, S2, PS.-
"""


def states_of(condition: str) -> tuple[Facts, States]:
    """The box, and the states in which something holds of it."""
    facts = analyse(circuit_of(f"{DRIVEN_BOTH_WAYS}expect {condition}\n"))
    return facts, condition_states(facts, facts.circuit.promises[0].condition)


def deck(facts: Facts, *zones: str) -> States:
    """Where the deck stands in one of these zones."""
    return union((where(facts, deck=zone) for zone in zones), facts.spaces.none())


ABOVE = ("between middle and top", "top", "past top")


@pytest.mark.parametrize(
    ("condition", "zones"),
    [
        ("deck at bottom", ("bottom",)),
        ("deck at middle", ("middle",)),
        ("deck past bottom", ("past bottom",)),
        ("deck past middle", ABOVE),
        ("deck past top", ("past top",)),
        ("LS1 pressed", ("middle", *ABOVE)),
        ("deck at top and deck at bottom", ()),
        ("deck at top or deck at middle", ("top", "middle")),
        ("deck past middle and not deck at top", ("between middle and top", "past top")),
        ("LS1 released and deck past bottom", ("past bottom",)),
    ],
)
def test_an_axis_is_at_a_place_or_past_it(condition: str, zones: tuple[str, ...]) -> None:
    """Past its first place is below it, past any other above."""
    facts, states = states_of(condition)
    assert states.same_as(deck(facts, *zones))


@pytest.mark.parametrize(
    ("place", "past", "direction"), [("top", "past top", "raise"), ("bottom", "past bottom", "lower")]
)
def test_an_axis_stops_at_an_end_where_nothing_drives_it_on(place: str, past: str, direction: str) -> None:
    """Driven inward it may be, while the rails are not shorted."""
    facts, states = states_of(f"deck stops at {place}")
    outward = where(facts, PS="on", S1=direction, S2="off")
    assert states.same_as(~(deck(facts, past) | (deck(facts, place) & outward)))


def test_a_drum_that_nothing_drives_stops_at_each_of_its_places() -> None:
    """It turns round, so there is nothing past them."""
    assert states_of("drum stops at half")[1].everything
    assert states_of("drum stops at park")[1].everything


@pytest.mark.parametrize("word", ["forward", "reverse", "driven", "braked", "coasting", "weak", "stopped"])
def test_a_motor_does_what_is_said_of_it_unless_the_rails_are_shorted(word: str) -> None:
    """Stopped is whatever isn't driven."""
    facts, states = states_of(f"M1 {word}")
    does = facts.motors[0]
    said = ~does.driven if word == "stopped" else getattr(does, word)
    short = where(facts, PS="on", S2="on")
    assert states.same_as(said - short)
    assert states_of("M1 shorted")[1].same_as(facts.shorted)
    assert facts.shorted & short


def test_a_lamp_is_lit_glows_or_is_dark() -> None:
    """Over R1 it glows; a buzzer is on or off."""
    facts, lit = states_of("L1 lit")
    powered = where(facts, PS="on", S2="off")
    assert lit.same_as(powered & where(facts, S3="on"))
    assert states_of("BZ1 on")[1].same_as(powered)
    assert states_of("BZ1 off")[1].same_as(~powered)
    assert states_of("L1 glows")[1].same_as(powered & where(facts, S3="off"))
    assert states_of("L1 dark")[1].same_as(~powered)


@pytest.mark.parametrize(
    ("motor", "supply", "restarts"), [("M1", "P1", False), ("M1", "P2", True), ("M2", "P2", False)]
)
def test_the_motor_and_the_supply_that_a_promise_names_are_those_that_are_looked_at(
    motor: str, supply: str, restarts: bool
) -> None:
    """M1 runs from P2 once a button has operated K1, which P1 holds in; M2 runs from P1 as long as that is on."""
    plan = """
        supply P1 P2 12 V 10 A
        button PB1 no
        relay  K1 no no coil 12 V 160 ohm
        motor  M1 M2 12 V stall 4 A
        rung   P1.+, ( PB1 | K1.13-14 ), K1.A1-A2, P1.-
        rung   P2.+, K1.23-24, M1, P2.-
        rung   P1.+, M2, P1.-
    """
    facts = analyse(circuit_of(f"{plan}\nnever {motor} starts when {supply} returns\n"))
    assert (restart_of(facts, facts.circuit.promises[0]) is not None) == restarts
