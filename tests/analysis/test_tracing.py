"""What follows in a story: the order that is followed, where it ends, and what is remarked on the way."""

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.tracing import Remark, Trace, trace_plot
from circuitcheck.circuit.stories import understand_story
from circuitcheck.plan.story_lines import read_story
from tests.analysis.plans import circuit_of

FEED = "supply PS 12 V 10 A\nfuse F1 10 A\nwire PS.+ F1.1\n"
RACE = """
button PB1 no
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   F1.2, PB1, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
"""
BUZZER = """
button PB1 no
relay  K1 spdt coil 12 V 160 ohm with diode
rung   F1.2, PB1, K1.11-12, K1.A1-A2, PS.-
"""
QUIETED_BUZZER = """
button PB1 no
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   F1.2, PB1, K2.11-12, K1.11-12, K1.A1-A2, PS.-
rung   PB1.14, K2.A1-A2, PS.-
"""
SEALED = """
switch S1 spdt positions hold let
relay  K1 no no coil 12 V 160 ohm with diode
button START no
rung   F1.2, ( START | K1.13-14 ), S1.com
rung   S1.hold, K1.A1-A2, PS.-
rung   S1.let, K1.A1
"""
DECK = """
switch S1 spst positions off on
axis   deck from bottom to top
limit  LS1 nc on deck at top
motor  M1 12 V stall 10 A drives deck toward top
rung   F1.2, S1, LS1, M1, PS.-
"""
TIMERS = """
button PB1 no
relay  K1 spdt on-delay 9 s coil 12 V 160 ohm with diode
relay  K2 spdt on-delay 3 s coil 12 V 160 ohm with diode
rung   F1.2, PB1, K1.A1-A2, PS.-
rung   PB1.14, K2.A1-A2, PS.-
"""


def trace(text: str, *actions: str, begin: str = "PS on") -> Trace:
    """The story in the plan, behind a supply and a fuse."""
    circuit = circuit_of(FEED + text)
    return trace_plot(analyse(circuit), understand_story(circuit, read_story(None, [begin], actions)))


def moves(told: Trace) -> list[str]:
    """Each move, like "K1 operated"."""
    digits = told.circuit.digits
    changes = [step.change for step in told.steps if step.change]
    return [f"{digits[change.digit].name} {digits[change.digit].value_name(change.end)}" for change in changes]


def remarks(told: Trace) -> list[str]:
    """The kinds of all remarks."""
    return [remark.kind for step in told.steps for remark in step.remarks]


def test_of_two_relays_the_first_in_the_plan_goes_first_and_the_other_end_is_told() -> None:
    """Each locks the other out, so that the quicker one wins."""
    told = trace(RACE, "press PB1")
    assert moves(told) == ["PB1 pressed", "K1 operated"]
    (remark,) = told.steps[1].remarks
    assert remark.kind == "orders"
    assert {tuple(end.positions.values()) for end in remark.ends} == {(0, 1), (1, 0)}


def test_the_story_can_choose_the_quicker_relay() -> None:
    """From `K2 first` on K2 wins."""
    assert moves(trace(RACE, "K2 first", "press PB1")) == ["PB1 pressed", "K2 operated"]


def test_an_order_that_relays_times_exclude_is_neither_followed_nor_told() -> None:
    """K1 takes 20 ms at least, K2 10 ms at most: K2 wins, whatever the plan's order."""
    timed = RACE.replace(
        "relay  K1 K2 spdt coil 12 V 160 ohm with diode",
        "relay K1 spdt coil 12 V 160 ohm operate 20..25 ms with diode\n"
        "relay K2 spdt coil 12 V 160 ohm operate 5..10 ms with diode",
    )
    told = trace(timed, "press PB1")
    assert (moves(told), remarks(told)) == (["PB1 pressed", "K2 operated"], [])


def test_a_relay_that_breaks_its_own_coil_is_shown_going_round_once() -> None:
    """Until the same state comes again; the story goes on from there."""
    told = trace(BUZZER, "press PB1", "release PB1")
    assert moves(told) == ["PB1 pressed", "K1 operated", "K1 released", "PB1 released"]
    (remark,) = (one for step in told.steps for one in step.remarks)
    assert remark == Remark("never settles", (told.circuit.relays[0].digit,))


def test_only_relays_that_go_round_are_told_as_never_settling() -> None:
    """Not one that operates beside them and stays, nor one that stands still."""
    beside = "relay K2 K3 no coil 12 V 160 ohm\nrung PB1.14, K2.A1-A2, PS.-\n"
    told = trace(BUZZER + beside, "press PB1")
    assert told.steps[-1].remarks == (Remark("never settles", (told.circuit.relays[0].digit,)),)


def test_every_relay_that_wants_to_move_has_its_turn() -> None:
    """K1 would break its own coil again and again; K2 comes in after its first move, and quiets it."""
    told = trace(QUIETED_BUZZER, "K1 first", "press PB1")
    assert moves(told) == ["PB1 pressed", "K1 operated", "K2 operated", "K1 released"]
    assert "never settles" not in remarks(told)


def test_a_switch_is_quicker_than_relays_unless_it_is_worked_slowly() -> None:
    """A seal-in survives the moment between two positions, or doesn't."""
    begun = ("press START", "release START")
    assert moves(trace(SEALED, *begun, "S1 let"))[-1] == "S1 let"
    assert moves(trace(SEALED, *begun, "S1 let slowly"))[-3:] == ["S1 between hold and let", "K1 released", "S1 let"]


def test_a_driven_axis_runs_until_it_stops() -> None:
    """Zone by zone to its limit, or as many zones as are asked for."""
    up = ["deck between bottom and top", "deck top"]
    assert moves(trace(DECK, "S1 on", "run")) == ["S1 on", *up]
    assert moves(trace(DECK, "S1 on", "run deck 1 zone")) == ["S1 on", up[0]]
    assert moves(trace(DECK, "S1 on", "deck to top")) == ["S1 on", *up]


def test_an_axis_that_does_not_get_there_ends_the_story() -> None:
    """It stops at its limit before."""
    told = trace(DECK, "S1 on", "deck to past top", "S1 off")
    assert told.broken_off
    assert moves(told)[-1] == "deck top"
    assert remarks(told) == ["missed"]


def test_an_axis_without_a_limit_is_told_to_be_driven_on_at_its_last_zone() -> None:
    """Past its end it has nowhere to go."""
    told = trace(DECK.replace("LS1, ", ""), "S1 on", "run")
    assert moves(told)[-1] == "deck past top"
    assert remarks(told) == ["stalled"]


def test_what_stands_there_already_or_is_not_driven_is_remarked() -> None:
    """Nothing moves, and the story goes on."""
    told = trace(DECK, "S1 off", "run", "deck to bottom", "S1 on")
    assert remarks(told) == ["already", "nothing moves", "already"]
    assert moves(told) == ["S1 on"]


def test_a_short_ends_the_story() -> None:
    """Nothing that comes after is done."""
    told = trace("button PB1 no\nrung F1.2, PB1, PS.-\n", "press PB1", "release PB1")
    assert told.broken_off
    assert told.steps[-1].shorted
    assert moves(told) == ["PB1 pressed"]


def test_nothing_else_moves_once_a_short_has_ended_the_story() -> None:
    """A second deck would still run, a second timer still run out."""
    decks = (
        DECK
        + """
        limit  LS2 no on deck at top
        rung   F1.2, LS2, PS.-
        axis   leaf from left to right
        motor  M2 12 V stall 10 A drives leaf toward right
        rung   F1.2, M2, PS.-
    """
    )
    told = trace(decks, "S1 on", "run")
    assert told.broken_off
    assert [told.steps[-1].shorted, *(step.shorted for step in told.steps[:-1])].count(True) == 1
    assert moves(told)[-1] == "deck top"
    assert remarks(trace(decks, "S1 on", "deck to past top")) == []
    told = trace(TIMERS + "rung F1.2, K2.15-18, PS.-\n", "press PB1", "wait")
    assert told.broken_off
    assert moves(told) == ["PB1 pressed", "K2 operated"]


def test_a_story_that_begins_in_a_short_goes_nowhere() -> None:
    """Its first state is all there is."""
    told = trace("button PB1 no\nrung F1.2, PB1, PS.-\n", "release PB1", begin="PB1 pressed")
    assert told.broken_off
    assert len(told.steps) == 1


def test_timers_run_out_only_when_waited_for_the_shortest_first() -> None:
    """Until then it is told that they run."""
    told = trace(TIMERS, "press PB1", "wait")
    assert moves(told) == ["PB1 pressed", "K2 operated", "K1 operated"]
    assert remarks(told)[0] == "timing"
    assert remarks(trace(TIMERS, "wait")) == ["nothing moves"]
    assert moves(trace(TIMERS, "press PB1", "wait K1")) == ["PB1 pressed", "K1 operated"]


def test_a_wheel_turns_until_it_comes_round() -> None:
    """One turn is shown, and that it goes on."""
    wheel = "axis wheel turning through park half\nmotor M1 12 V stall 5 A drives wheel toward half\n"
    told = trace(wheel + "rung F1.2, M1, PS.-\n", "run")
    assert moves(told)[-1] == "wheel park"
    assert len(moves(told)) == 4
    assert remarks(told) == ["for ever"]


def test_relays_that_go_round_beside_a_short_that_they_may_meet_leave_it_undecided() -> None:
    """Three buzzers: one after the other they miss the moment in which the first and the last join the rails."""
    told = trace(
        """
button PB1 no
relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
rung   F1.2, PB1
rung   PB1.14, K1.11-12, K1.A1-A2, PS.-
rung   PB1.14, K2.11-12, K2.A1-A2, PS.-
rung   PB1.14, K3.11-12, K3.A1-A2, PS.-
rung   F1.2, K1.21-24, K2.21-22, K3.21-24, PS.-
""",
        "press PB1",
    )
    assert moves(told)[:7] == [
        "PB1 pressed",
        *(f"K{n} operated" for n in (1, 2, 3)),
        *(f"K{n} released" for n in (1, 2, 3)),
    ]
    assert "never settles" not in remarks(told)
    assert "undecided" in remarks(told)
    assert told.broken_off
    # Once more than there are relays, six moves each time.
    assert len(moves(told)) == 1 + 6 * 4


def test_relays_are_undecided_where_what_they_might_short_has_no_say_in_their_coils() -> None:
    """K1 is the pilot of K2, and breaks its own coil by it; K3 breaks its own. In step they miss the moment in which K2
    lags behind K1 while K3 is in."""
    told = trace(
        """
button PB1 no
relay  K3 K1 K2 dpdt coil 12 V 160 ohm with diode
rung   F1.2, PB1
rung   PB1.14, K3.11-12, K3.A1-A2, PS.-
rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
rung   PB1.14, K1.11-14, K2.A1-A2, PS.-
rung   F1.2, K3.21-24, K1.21-22, K2.21-24, PS.-
""",
        "press PB1",
    )
    assert remarks(told) == ["undecided"]


def test_relays_that_go_round_in_this_order_and_would_not_in_another_are_undecided() -> None:
    """K4 would hold itself in and stop them all, in the moment that they miss."""
    told = trace(
        """
button PB1 no
relay  K3 K1 K2 K4 dpdt coil 12 V 160 ohm with diode
splice BUS
rung   F1.2, PB1, K4.11-12, BUS
rung   BUS, K3.11-12, K3.A1-A2, PS.-
rung   BUS, K2.11-12, K1.A1-A2, PS.-
rung   BUS, K1.11-14, K2.A1-A2, PS.-
rung   PB1.14, ( K3.21-24, K1.21-22, K2.21-24 | K4.21-24 ), K4.A1-A2, PS.-
""",
        "press PB1",
    )
    assert remarks(told) == ["undecided"]


def test_a_race_is_told_once_and_not_again_of_relays_that_follow_those_that_race() -> None:
    """K3 is the pilot of K1."""
    told = trace(RACE + "relay K3 no coil 12 V 160 ohm\nrung K1.14, K3.A1-A2, PS.-\n", "press PB1")
    assert remarks(told) == ["orders"]


def test_relays_that_only_go_round_are_told_as_never_settling() -> None:
    """The same buzzers without the way between the rails."""
    told = trace(
        """
button PB1 no
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   F1.2, PB1
rung   PB1.14, K1.11-12, K1.A1-A2, PS.-
rung   PB1.14, K2.11-12, K2.A1-A2, PS.-
""",
        "press PB1",
    )
    assert remarks(told) == ["never settles"]
    assert not told.broken_off


def test_an_action_that_changes_nothing_is_a_step_of_its_own_that_says_so() -> None:
    """So that each action of the story can be found in what is told of it."""
    told = trace(DECK, "S1 on", "S1 on", "S1 off", "run", begin="PS on, deck at bottom")
    said = {step.action: (step.change, [one.kind for one in step.remarks]) for step in told.steps if step.remarks}
    assert said == {1: (None, ["already"]), 3: (None, ["nothing moves"])}
    assert [step.action for step in told.steps if step.change] == [0, 2]
    assert not any(step.shorted for step in told.steps)


def test_of_a_race_only_the_relays_that_end_differently_are_told() -> None:
    """A third one, whose contact feeds the two that race, operates in any case."""
    told = trace(
        """
button PB1 no
relay  K1 K2 spdt coil 12 V 160 ohm with diode
relay  K3 no coil 12 V 160 ohm with diode
rung   F1.2, PB1, K3.A1-A2, PS.-
rung   F1.2, K3.13-14, K1.11-12, K2.A1-A2, PS.-
rung   K3.14, K2.11-12, K1.A1-A2, PS.-
""",
        "press PB1",
    )
    digits = [digit.name for digit in told.circuit.digits]
    (remark,) = (one for step in told.steps for one in step.remarks if one.kind == "orders")
    assert {digits[digit] for digit in remark.digits} == {"K1", "K2"}
    assert [{digits[digit] for digit in end.positions} for end in remark.ends] == [{"K1", "K2"}] * 2


SHORT_FAR_AWAY = (
    "switch S2 spst positions off on\nrelay K2 K3 spdt coil 12 V 160 ohm with diode\nlamp L1 12 V 2 W\n"
    "rung F1.2, S2, K2.A1-A2, PS.-\nrung F1.2, PB1, K3.A1-A2, PS.-\nrung F1.2, K1.11-14, K2.11-14, PS.-\n"
)


def test_relays_that_go_round_for_ever_are_told_so_where_no_order_of_theirs_comes_to_a_short() -> None:
    """There is one with K2 operated, which nothing operates here."""
    told = trace(BUZZER + SHORT_FAR_AWAY, "press PB1")
    assert "never settles" in remarks(told)
    assert not told.steps[-1].shorted


def test_a_time_that_begins_again_at_each_end_is_told_to_repeat_for_ever() -> None:
    """A timer that breaks its own coil: waiting brings it back to where it was."""
    blinker = "relay K1 spdt on-delay 2 s coil 12 V 160 ohm with diode\nrung F1.2, K1.15-16, K1.A1-A2, PS.-\n"
    told = trace(blinker, "wait")
    assert "for ever" in remarks(told) or "never settles" in remarks(told)


TWO_ENDS = """
button PB1 no
relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
rung   F1.2, PB1, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.11-12, K3.21-22, K1.A1-A2, PS.-
"""


@pytest.mark.parametrize(
    ("more", "how"),
    [
        ("rung F1.2, K2.21-24, PS.-\n", "shorted"),
        ("rung F1.2, K2.21-24, K3.11-12, K3.A1-A2, PS.-\n", "never settles"),
        ("rung F1.2, K2.21-24, K3.A1-A2, PS.-\n", "settles"),
    ],
)
def test_each_end_that_relays_may_come_to_is_told_with_how_it_is_there(more: str, how: str) -> None:
    """With K1 in nothing else happens; K2 shorts the rails, or lets K3 buzz, or operates it."""
    told = trace(TWO_ENDS + more, "press PB1")
    (remark,) = (one for one in told.steps[1].remarks if one.kind == "orders")
    first, second, third = (relay.digit for relay in told.circuit.relays)
    ends = {end.positions[second]: (end.positions[first], end.positions.get(third), end.how) for end in remark.ends}
    together = {"settles": (0, 1), "shorted": (None, None), "never settles": (None, None)}[how]
    assert len(remark.ends) == 2
    assert ends == {0: (1, together[0], "settles"), 1: (0, together[1], how)}
