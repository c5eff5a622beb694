"""Which relays are parked by which controls, on plans small enough to tell by hand."""

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.parking import parked, standing_anyhow
from tests.analysis.plans import circuit_of

ROW = """
supply PS 12 V 10 A
switch S1 S2 S3 spdt positions raise off lower
relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
rung   PS.+, S1.com-raise, K2.11-12, K1.A1-A2, PS.-
rung   PS.+, S2.com-lower, K1.11-12, K3.11-12, K2.A1-A2, PS.-
rung   PS.+, S3.com-raise, K2.21-22, K3.A1-A2, PS.-
"""
"""Three relays in a row, each locked with its neighbours."""


def number_of(facts: Facts, name: str) -> int:
    """A digit's number."""
    return next(number for number, digit in enumerate(facts.circuit.digits) if digit.name == name)


def ways(text: str, relay: str) -> list[tuple[str, str]]:
    """The controls that park a relay, each with such a position."""
    facts = analyse(circuit_of(text))
    digits = facts.circuit.digits
    found = facts.parkings[number_of(facts, relay)]
    assert {one.relay for one in found} <= {number_of(facts, relay)}
    return [(digits[one.control].name, digits[one.control].values[one.position]) for one in found]


def still(facts: Facts) -> dict[str, str]:
    """What stands still, and how."""
    digits = facts.circuit.digits
    return {digits[number].name: digits[number].values[at] for number, at in facts.still.items()}


def standing(text: str, *names: str) -> list[dict[str, str]]:
    """What stands still each time that something is asked about these."""
    facts = analyse(circuit_of(text))
    return [still(here) for here in parked(facts, {number_of(facts, name) for name in names})]


def test_a_control_parks_a_relay_at_each_position_that_feeds_it_never() -> None:
    """Off comes first; what only may feed it, beside another relay's contact, doesn't count."""
    assert ways(ROW, "K1") == [("S1", "off"), ("S1", "lower")]
    assert ways(ROW, "K2") == [("S2", "off"), ("S2", "raise")]


def test_each_of_several_controls_in_a_row_parks_a_relay_and_none_of_two_side_by_side() -> None:
    """Whatever the other one does."""
    text = "supply PS 12 V 10 A\nbutton PB1 PB2 no\nrelay K1 spdt coil 12 V 160 ohm\nrung PS.+, {}, K1.A1-A2, PS.-"
    assert ways(text.format("PB1, PB2"), "K1") == [("PB1", "released"), ("PB2", "released")]
    assert ways(text.format("( PB1 | PB2 )"), "K1") == []


def test_an_axis_on_the_way_to_a_coil_parks_nothing_but_leaves_it_to_controls() -> None:
    """A limit is no control."""
    text = """
        supply PS 12 V 10 A
        axis   deck from bottom to top
        limit  LS1 nc on deck at top
        button PB1 no
        relay  K1 spdt coil 12 V 160 ohm
        rung   PS.+, LS1, PB1, K1.A1-A2, PS.-
    """
    assert ways(text, "K1") == [("PB1", "released")]


def test_relays_that_stay_where_they_are_without_current_are_not_parked() -> None:
    """A latching relay stays operated; one that releases late has yet to."""
    text = "supply PS 12 V 10 A\nbutton PB1 no\nrelay K1 spdt {} coil 12 V 160 ohm\nrung PS.+, PB1, K1.A1-A2, PS.-"
    assert ways(text.format("latching"), "K1") == []
    assert ways(text.format("off-delay 2 s"), "K1") == []
    assert ways(text.format("on-delay 2 s"), "K1") == [("PB1", "released")]


def test_a_relay_that_breaks_its_own_coil_is_parked_only_where_it_has_no_current() -> None:
    """While the button is held it wants to release whenever it is operated, but operates again."""
    text = "supply PS 12 V 10 A\nbutton PB1 no\nrelay K1 spdt coil 12 V 160 ohm\n"
    text += "rung PS.+, PB1, K1.11-12, K1.A1-A2, PS.-"
    assert ways(text, "K1") == [("PB1", "released")]


def test_what_borders_on_the_question_is_parked_and_then_let_go_in_turn() -> None:
    """Of a row of three the second is parked beside the first, then the third in its place."""
    assert standing(ROW, "K1") == [{"K2": "released", "S2": "off"}, {"K3": "released", "S3": "off"}]
    first, *others = standing(ROW, "K2")
    assert first == {"K1": "released", "S1": "off", "K3": "released", "S3": "off"}
    assert sorted(others, key=str) == [{"K1": "released", "S1": "off"}, {"K3": "released", "S3": "off"}]


def test_nothing_is_parked_by_a_control_that_has_a_say_in_what_is_asked() -> None:
    """Nor is anything else parked then that only such a control could park."""
    text = """
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 K2 spdt coil 12 V 160 ohm with diode
        rung   PS.+, PB1, K2.11-12, K1.A1-A2, PS.-
        rung   PS.+, PB1, K2.A1-A2, PS.-
    """
    assert standing(text, "K1") == [{}]


def test_one_control_parks_several_relays_only_at_one_position() -> None:
    """Either relay has a position of its own at which it is fed; at off neither is."""
    text = """
        supply PS 12 V 10 A
        switch S1 spdt positions raise {}lower
        button PB1 no
        relay  K1 K2 K3 spdt coil 12 V 160 ohm with diode
        rung   PS.+, S1.com-raise, K1.A1-A2, PS.-
        rung   S1.lower, K2.A1-A2, PS.-
        rung   PS.+, K1.11-12, K2.11-12, PB1, K3.A1-A2, PS.-
    """
    assert standing(text.format("off "), "K3")[0] == {"K1": "released", "K2": "released", "S1": "off"}
    assert len({"K1", "K2"} & standing(text.format(""), "K3")[0].keys()) == 1


def test_a_motor_that_drives_what_is_asked_about_is_not_parked() -> None:
    """The relay before it is followed, though a button could park it."""
    text = """
        supply PS 12 V 10 A
        axis   deck from bottom to top
        button PB1 no
        relay  K1 spdt coil 12 V 160 ohm with diode
        motor  M1 12 V stall 5 A drives deck toward top
        rung   PS.+, PB1, K1.A1-A2, PS.-
        rung   PS.+, K1.11-14, M1, PS.-
    """
    assert standing(text, "deck") == [{}]


def test_relays_may_stand_wherever_none_wants_to_move_reached_or_not() -> None:
    """Two that hold each other in, which no operation lets operate."""
    text = """
        supply PS 12 V 10 A
        relay  K1 K2 spdt coil 12 V 160 ohm with diode
        rung   PS.+, K2.11-14, K1.A1-A2, PS.-
        rung   PS.+, K1.11-14, K2.A1-A2, PS.-
    """
    facts = analyse(circuit_of(text))
    relays = [number_of(facts, name) for name in ("K1", "K2")]
    powered = {supply.digit: 1 for supply in facts.circuit.supplies}

    def stands(first: int, second: int) -> bool:
        behaviour = standing_anyhow(facts, relays)
        state = {relays[0]: first, relays[1]: second, **powered}
        return state in facts.spaces.over(behaviour.space, behaviour.reached)

    assert [stands(0, 0), stands(0, 1), stands(1, 0), stands(1, 1)] == [True, False, False, True]
