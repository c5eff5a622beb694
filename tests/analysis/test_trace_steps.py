"""Whose turn it is in a story, and what of its steps is told."""

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.tracing import trace_moves
from tests.analysis.plans import circuit_of
from tests.analysis.test_tracing import DECK, FEED, RACE, moves, remarks, trace


def test_what_follows_from_the_beginning_comes_before_all_actions() -> None:
    """With the button held as power comes, K1 operates by itself."""
    told = trace(RACE, "K2 first", begin="PS on, PB1 pressed")
    assert moves(told) == ["K1 operated"]
    assert [step.action for step in told.steps] == [-1, -1]


def test_each_action_begins_anew_with_whose_turn_it_is() -> None:
    """K1 has moved before, and goes first again."""
    told = trace(RACE, "press PB1", "release PB1", "press PB1")
    assert moves(told) == ["PB1 pressed", "K1 operated", "PB1 released", "K1 released", "PB1 pressed", "K1 operated"]


def test_the_latest_relay_that_is_preferred_goes_before_earlier_ones() -> None:
    """Those that are not go last."""
    three = "button PB1 no\nrelay K1 K2 K3 no coil 12 V 160 ohm\nrung F1.2, PB1\n"
    three += "".join(f"rung PB1.14, K{number}.A1-A2, PS.-\n" for number in (1, 2, 3))
    told = trace(three, "K2 first", "K3 first", "press PB1")
    assert moves(told) == ["PB1 pressed", "K3 operated", "K2 operated", "K1 operated"]


def test_a_switch_passes_the_moment_between_two_positions_only_on_its_way_from_one_to_the_other() -> None:
    """From raise to off it doesn't come there."""
    hand = "switch S1 spdt positions raise off lower\nlamp L1 12 V 2 W\nrung F1.2, S1.com-raise, L1, PS.-\n"
    assert moves(trace(hand, "S1 off", begin="PS on, S1 raise")) == ["S1 off"]


def test_relays_move_between_two_zones_of_an_axis() -> None:
    """K1, which the limit lets go, is what stops the motor."""
    deck = """
        switch S1 spst positions off on
        relay  K1 no coil 12 V 160 ohm with diode
        axis   deck from bottom to top
        limit  LS1 nc on deck at top
        motor  M1 12 V stall 10 A drives deck toward top
        rung   F1.2, S1, LS1, K1.A1-A2, PS.-
        rung   F1.2, K1.13-14, M1, PS.-
    """
    told = trace(deck, "S1 on", "run")
    assert moves(told) == ["S1 on", "K1 operated", "deck between bottom and top", "deck top", "K1 released"]
    assert remarks(told) == []


def test_a_wheel_comes_round_though_never_to_where_it_began() -> None:
    """Its cam sets a relay that stays."""
    wheel = """
        axis  wheel turning through park half
        relay K1 no latching coil 12 V 160 ohm with diode
        cam   CS1 no on wheel at half
        motor M1 12 V stall 5 A drives wheel toward half
        rung  F1.2, M1, PS.-
        rung  F1.2, CS1, K1.A1-A2, PS.-
    """
    told = trace(wheel, "run")
    assert remarks(told) == ["for ever"]
    assert moves(told).count("K1 operated") == 1
    assert moves(told).count("wheel half") == 2


def test_only_an_axis_that_is_run_is_told_to_be_driven_on() -> None:
    """Downward as well as upward; the leaf has come to its end before."""
    decks = DECK.replace("LS1, ", "").replace("toward top", "toward bottom")
    decks += "axis leaf from left to right\nmotor M2 12 V stall 10 A drives leaf toward right\nrung F1.2, M2, PS.-\n"
    told = trace(decks, "run leaf", "S1 on", "run deck")
    said = [remark for step in told.steps for remark in step.remarks]
    names = [digit.name for digit in told.circuit.digits]
    assert [(one.kind, [names[digit] for digit in one.digits]) for one in said] == [
        ("stalled", ["leaf"]), ("stalled", ["deck"]),
    ]  # fmt: skip


def test_the_steps_of_a_finding_are_those_that_it_tells() -> None:
    """One state after the other, up to the short with which it ends; none belongs to an action."""
    circuit = circuit_of(FEED + "button PB1 no\nrung F1.2, PB1, PS.-\n")
    supply, button = (next(n for n, one in enumerate(circuit.digits) if one.name == name) for name in ("PS", "PB1"))
    told = trace_moves(circuit, analyse(circuit).shorted, {supply: 0, button: 0}, [(button, 1), (supply, 1)])
    assert [(step.action, step.state[supply], step.state[button], step.shorted) for step in told.steps] == [
        (-1, 0, 0, False), (-1, 0, 1, False), (-1, 1, 1, True),
    ]  # fmt: skip
    changes = [step.change for step in told.steps if step.change]
    assert [(one.digit, one.start, one.end) for one in changes] == [(button, 0, 1), (supply, 0, 1)]
    assert (told.actions, told.broken_off) == ((), False)
