"""A state from the few positions that somebody names: where relays then come to rest, and what is remarked."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.settled_state import Settled, settled_state
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from tests.analysis.plans import circuit_of, plan_texts
from tests.judge.one_state import State, bridges_a_supply_that_is_off, view
from tests.judge.steps import Judge, with_value
from tests.profiles import examples

FEED = "supply PS 12 V 10 A\nfuse F1 10 A\nwire PS.+ F1.1\n"
SEALED = """
button START no
button STOP nc
relay  K1 no no coil 12 V 160 ohm with diode
rung   F1.2, STOP, ( START | K1.13-14 ), K1.A1-A2, PS.-
"""
RACE = """
button PB1 no
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   F1.2, PB1, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
"""
IN_TIME = RACE.replace("K1 K2 spdt coil 12 V 160 ohm", "K1 spdt coil 12 V 160 ohm operate 2..3 ms") + (
    "relay K2 spdt coil 12 V 160 ohm operate 8..9 ms with diode\n"
)
BUZZER = "button PB1 no\nrelay K1 spdt coil 12 V 160 ohm\nrung F1.2, PB1, K1.11-12, K1.A1-A2, PS.-\n"
TIMER = "button PB1 no\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\nrung F1.2, PB1, K1.A1-A2, PS.-\n"
DECK = """
switch S1 spdt positions raise lower
axis   deck from bottom to top
limit  LS1 nc on deck at top
relay  K1 spdt coil 12 V 160 ohm
rung   F1.2, S1.com-raise, LS1, K1.A1-A2, PS.-
"""


def settled(text: str, wanted: str = "") -> tuple[dict[str, str], str]:
    """The state in words, and the remark; wanted like "S1=raise, deck=top"."""
    circuit = circuit_of(FEED + text)
    named = dict(setting.split("=") for setting in wanted.split(", ")) if wanted else {}
    state, remark = settled_state(analyse(circuit), named)
    return {digit.name: digit.value_name(state[number]) for number, digit in enumerate(circuit.digits)}, remark


def test_what_is_not_named_stands_as_usual_and_relays_follow() -> None:
    """Supplies on, controls at their first position, axes at their first place."""
    assert settled(DECK) == ({"PS": "on", "S1": "raise", "deck": "bottom", "K1": "operated"}, "")
    assert settled(DECK, "deck=top") == ({"PS": "on", "S1": "raise", "deck": "top", "K1": "released"}, "")


def test_a_relay_that_seals_itself_in_is_released_until_something_operates_it() -> None:
    """It is asked where relays come to rest from released."""
    assert settled(SEALED)[0]["K1"] == "released"
    assert settled(SEALED, "START=pressed")[0]["K1"] == "operated"


def test_a_relay_that_is_named_stands_as_named() -> None:
    """Sealed in it stays by itself; against its coil it is held, and the remark says so."""
    assert settled(SEALED, "K1=operated") == (
        {"PS": "on", "START": "released", "STOP": "released", "K1": "operated"}, "",
    )  # fmt: skip
    state, remark = settled(SEALED, "K1=operated, STOP=pressed")
    assert (state["K1"], remark) == ("operated", "K1 operated is held so: it would not stay.")


def test_a_switch_can_stand_between_two_positions_and_an_axis_past_its_end() -> None:
    """Neither is a power-up, and relays settle all the same."""
    state, _ = settled(DECK, "S1=between raise and lower, deck=past top")
    assert (state["S1"], state["deck"], state["K1"]) == ("between raise and lower", "past top", "released")
    assert settled(DECK, "deck=past bottom")[0]["K1"] == "operated"


def test_where_the_quicker_relay_decides_the_remark_says_which_end_is_shown() -> None:
    """The first in the plan goes first; where times leave one order only there is nothing to remark."""
    state, remark = settled(RACE, "PB1=pressed")
    assert (state["K1"], state["K2"]) == ("operated", "released")
    assert remark == "Which relay is quicker decides how K1 and K2 come to rest: shown is K1 operated and K2 released."


def test_times_that_leave_one_order_leave_one_state() -> None:
    """K2 is slower than K1, whichever stands first in the plan."""
    text = "\n".join(reversed(IN_TIME.strip().splitlines())) + "\n"
    for plan in (IN_TIME, text):
        state, remark = settled(plan, "PB1=pressed")
        assert (state["K1"], state["K2"], remark) == ("operated", "released", "")


def test_what_never_settles_is_said() -> None:
    """A relay that breaks its own coil."""
    assert "K1 never settles" in settled(BUZZER, "PB1=pressed")[1]


def test_a_timer_is_shown_before_its_time_has_run_out() -> None:
    """It is released, and the remark says that its time runs."""
    state, remark = settled(TIMER, "PB1=pressed")
    assert (state["K1"], remark) == ("released", "The time of K1 runs: shown is what holds until it has run out.")


def test_a_short_is_shown_and_said() -> None:
    """Nothing is followed further from there."""
    assert "A supply is shorted" in settled("switch S1 spst positions off on\nrung F1.2, S1, PS.-\n", "S1=on")[1]


def test_a_name_or_position_that_there_is_not_is_refused() -> None:
    """Callers ask state_words before."""
    with pytest.raises(KeyError):
        settled(DECK, "S2=raise")
    with pytest.raises(ValueError, match="sideways"):
        settled(DECK, "S1=sideways")


class Held(Judge):
    """The judge of a circuit in which only some relays move."""

    def __init__(self, circuit: Circuit, free: set[int]) -> None:
        super().__init__(circuit)
        self._free = free

    def relays_moved(self, state: State) -> list[State]:
        """One free relay moved that wants to, timers left alone."""
        wishes = self.judged(state).wishes
        free = (one for one in wishes if not one.timed and one.digit in self._free)
        return [with_value(state, one.digit, one.end) for one in free]

    def rests(self, beginning: State) -> set[State]:
        """Every state that relays may come to rest in, or short a supply in, or go round in for ever."""
        seen, waiting = {beginning}, [beginning]
        while waiting:
            here = waiting.pop()
            for there in [] if self.judged(here).shorted else self.relays_moved(here):
                if there not in seen:
                    seen.add(there)
                    waiting.append(there)
        return {state for state in seen if self.judged(state).shorted or self.is_at_rest(state)}


@settings(max_examples=examples(70), deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(plan_texts(), st.data())
def test_on_random_plans_it_is_a_rest_that_the_judge_finds_too(text: str, data: st.DataObject) -> None:
    """Any digits named in any position; one rest and no remark of an order, or several and the remark."""
    circuit = circuit_of(text)
    wanted = {}
    for number in data.draw(st.sets(st.sampled_from(range(len(circuit.digits))))):
        digit = circuit.digits[number]
        wanted[digit.name] = digit.value_name(data.draw(st.integers(0, digit.radix - 1)))
    disagreement = refuse(circuit, wanted, settled_state(analyse(circuit), wanted))
    assert disagreement == "", (text, wanted)


def refuse(circuit: Circuit, wanted: dict[str, str], found: Settled) -> str:
    """What the judge has against a settled state; "" for nothing (nor where its view is another: see agreement.py)."""
    given = usual_beginning(circuit)
    for number, digit in enumerate(circuit.digits):
        words = [digit.value_name(value) for value in range(digit.radix)]
        given[number] = words.index(wanted[digit.name]) if digit.name in wanted else given[number]
    beginning, state = (tuple(one[number] for number in range(len(circuit.digits))) for one in (given, found.state))
    judge = Held(circuit, {relay.digit for relay in circuit.relays if relay.name not in wanted})
    rests = judge.rests(beginning)
    if any(bridges_a_supply_that_is_off(circuit, one, view(circuit, one)) for one in judge._seen):
        return ""
    if state not in rests and "never settle" not in found.remark:
        return f"{state} is none of {rests}"
    if len(rests) > 1 and not found.remark:
        return f"there are several: {rests}"
    return "" if len(rests) > 1 or "quicker" not in found.remark else f"the only one is {rests}"
