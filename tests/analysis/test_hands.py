"""What a hand has to do, told for plans in which that is plain."""

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.hands import after_turning, after_waiting, lasting, story_by_hand
from circuitcheck.analysis.states import States
from circuitcheck.checks.narration import story_words
from tests.analysis.plans import circuit_of

HOIST = """
supply  PS 12 V 10 A
switch  S1 spdt positions raise off lower
button  PB1 no
button  PB2 nc
outside OUT1 contact
relay   K1 spdt coil 12 V 160 ohm with diode
rung    PS.+, S1.com-raise, PB1, PB2, OUT1, K1.A1-A2, PS.-
"""


def where(facts: Facts, **words: str) -> States:
    """The states in which digits stand so."""
    found = facts.spaces.all()
    for number, digit in enumerate(facts.circuit.digits):
        if digit.name in words:
            found = found & facts.spaces.where(number, (digit.values.index(words[digit.name]),))
    return found


def story(text: str, **words: str) -> tuple[str, ...]:
    """What is done and what happens until digits stand so, but for moments between positions; nothing where they never
    do."""
    facts = analyse(circuit_of(text))
    found = story_by_hand(facts, where(facts, **words))
    return tuple(step for step in story_words(facts.circuit, found) if " passes " not in step) if found else ()


def test_a_story_begins_with_all_hands_off_and_power_on() -> None:
    """Switches are at off; they are set before buttons are pressed."""
    begun, *steps = story(HOIST, K1="operated")
    assert begun == "begin with PS on, S1 off, PB1 released, PB2 released, OUT1 off"
    assert steps == ["turn S1 to raise", "OUT1 turns on", "press PB1", "K1 operates"]


def test_a_switch_without_an_off_begins_where_nothing_comes_of_itself() -> None:
    """Else there would be nothing to do; where it comes anyhow, it begins anywhere."""
    lit = "supply PS 12 V 10 A\nswitch S1 spdt positions calm storm\nrelay K1 spdt coil 12 V 160 ohm with diode\n"
    way = lit + "rung PS.+, S1.com-{}, K1.A1-A2, PS.-"
    assert story(way.format("storm"), K1="operated") == ("begin with PS on, S1 calm", "turn S1 to storm", "K1 operates")
    assert story(way.format("calm"), K1="operated") == ("begin with PS on, S1 storm", "turn S1 to calm", "K1 operates")
    assert story(lit + "rung PS.+, K1.A1-A2, PS.-", K1="operated") == ("begin with PS on", "K1 operates")


def test_an_axis_gets_there_by_itself_from_where_it_begins() -> None:
    """It may begin anywhere in its range; while something drives it on, it doesn't rest at the end of its way."""
    deck = """
        supply PS 12 V 10 A
        switch S1 spst positions off on
        axis   deck from bottom to top
        limit  LS1 nc on deck at top
        motor  M1 12 V stall 5 A drives deck toward top
        rung   PS.+, S1, LS1, M1, PS.-
    """
    assert story(deck, deck="top", S1="on") == ("begin with PS on, S1 off, deck at top", "turn S1 to on")


def test_there_is_no_story_to_what_never_is() -> None:
    """A relay without a feed."""
    assert story(HOIST.replace("PS.+, ", ""), K1="operated") == ()


def test_a_button_that_was_released_is_at_rest_and_a_stop_too() -> None:
    """An emergency stop stays as it is set; it begins released."""
    text = "supply PS 12 V 10 A\nestop ES1 spdt\nrelay K1 spdt coil 12 V 160 ohm\nrung PS.+, ES1.11-14, K1.A1-A2, PS.-"
    assert story(text, K1="operated") == ("begin with PS on, ES1 released", "press ES1", "K1 operates")


def test_only_what_is_at_rest_or_comes_again_and_again_lasts() -> None:
    """A timer that breaks its own coil operates for a moment, but does so for ever; a relay that is fed operates at
    once."""
    text = "supply PS 12 V 10 A\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\nrung PS.+, K1.15-16, K1.A1-A2, PS.-"
    timer = analyse(circuit_of(text))
    operated = where(timer, K1="operated", PS="on")
    assert lasting(timer, operated).same_as(operated)
    assert not timer.reached_at_rest(operated)
    plain = analyse(circuit_of(HOIST))
    fed = where(plain, PS="on", S1="raise", PB1="pressed", PB2="released", OUT1="on")
    assert not lasting(plain, fed & where(plain, K1="released"))
    assert lasting(plain, fed & where(plain, K1="operated")).same_as(fed & where(plain, K1="operated"))


def test_nothing_follows_of_a_state_that_operation_never_comes_to() -> None:
    """K1 would hold itself in, but nothing operates it; released, it stays so when S1 is turned."""
    text = "supply PS 12 V 10 A\nswitch S1 spst positions off on\nrelay K1 no coil 12 V 160 ohm\n"
    facts = analyse(circuit_of(text + "rung PS.+, K1.13-14, K1.A1-A2, PS.-"))
    off = where(facts, PS="on", S1="off")
    asked = (2,)
    assert not after_turning(facts, off & where(facts, K1="operated"), 1, 1, asked)
    assert not after_waiting(facts, off & where(facts, K1="operated"), asked)
    released = where(facts, PS="on", K1="released")
    assert after_turning(facts, off, 1, 1, asked).same_as(released & where(facts, S1="on"))
    assert after_waiting(facts, off, asked).same_as(released & off)


def test_a_switch_that_passes_between_two_positions_gets_there_too() -> None:
    """It is turned into the moment on its way, and comes out of it by itself; the relay ends up operated."""
    text = "supply PS 12 V 10 A\nswitch S1 spdt positions calm storm\nrelay K1 no coil 12 V 160 ohm\n"
    facts = analyse(circuit_of(text + "rung PS.+, S1.com-storm, K1.A1-A2, PS.-"))
    ended = after_turning(facts, where(facts, PS="on", S1="calm"), 1, 1, (2,))
    assert ended.same_as(where(facts, PS="on", S1="storm", K1="operated"))
