"""Timing relays: on-delay, off-delay, one-shot and pulse, and their marks.

Sources: Lessons in Electric Circuits vol. IV ch. 5 for what each function does; EN 50005 for 15 common, 16 normally
closed, 18 normally open (electrotechnical-officer.com), B1 the control input (Weidmueller, manualshelf.com rcmkit);
IEC 60050 for the off-delay by a control signal, relpol.pl function Es for the on-delay by one; IEC 61812-1, from
memory, for the asymmetric recycle and for the pulse that outlasts its signal.
"""

import pytest

from tests.reference.asking import facts_of, state_of

PLAN = """
    supply PS 12 V 10 A
    fuse F1 5 A
    button PB1 no
    relay K1 spdt {function} coil 12 V 160 ohm with diode
    lamp L1 L2 12 V 2 W
    rung PS.+, F1, PB1, K1.A1-A2, PS.-
    rung F1.2, K1.15-18, L1, PS.-
    rung K1.16, L2, PS.-
"""
ON_DELAY, OFF_DELAY, ONE_SHOT, PULSE = "on-delay 2 s", "off-delay 2 s", "one-shot 2 s", "pulse 2 s pause 1 s"


@pytest.mark.parametrize(
    ("function", "coil", "stands", "goes", "timed"),
    [
        (ON_DELAY, "pressed", "released", ["operated"], True),  # normally open, timed closed
        (ON_DELAY, "released", "operated", ["released"], False),  # opens at once
        (OFF_DELAY, "pressed", "released", ["operated"], False),  # closes at once
        (OFF_DELAY, "released", "operated", ["released"], True),  # normally open, timed open
        (ONE_SHOT, "pressed", "released", ["operated"], False),  # one pulse for each switching on
        (ONE_SHOT, "pressed", "operated", ["spent"], True),
        (ONE_SHOT, "pressed", "spent", [], False),
        (ONE_SHOT, "released", "spent", ["released"], False),
        (PULSE, "pressed", "released", ["operated"], False),  # on and off while energised
        (PULSE, "pressed", "operated", ["pausing"], True),
        (PULSE, "pressed", "pausing", ["operated"], True),
        (PULSE, "released", "pausing", ["released"], False),
        (PULSE, "released", "operated", ["released"], False),
    ],
)
def test_a_timing_relay_goes_where_its_function_says(
    function: str, coil: str, stands: str, goes: list[str], timed: bool
) -> None:
    """At once, or when its time has run out."""
    facts = facts_of(PLAN.format(function=function))
    state = state_of(facts, PB1=coil, K1=stands)
    wanted = [move for move in facts.relay_moves if state in move.wanted]
    digit = facts.circuit.digits[facts.circuit.relays[0].digit]
    assert [digit.values[move.end] for move in wanted] == goes
    assert all(move.timed == timed for move in wanted)


@pytest.mark.parametrize("function", [ON_DELAY, OFF_DELAY, ONE_SHOT, PULSE])
def test_its_contacts_stand_changed_over_only_while_it_is_operated(function: str) -> None:
    """15-18 then, 15-16 else, whether it is released, spent or pausing."""
    facts = facts_of(PLAN.format(function=function))
    for stands in facts.circuit.digits[facts.circuit.relays[0].digit].values:
        lit = [state_of(facts, K1=stands) in lamp.lit for lamp in facts.lamps.values()]
        assert lit == ([True, False] if stands == "operated" else [False, True])


@pytest.mark.parametrize("stands", ["operated", "pausing"])
def test_a_supply_that_fails_sends_it_back_to_the_start(stands: str) -> None:
    """Supply lost during its time: start position (a timing-relay catalogue at fdocuments.net)."""
    facts = facts_of(PLAN.format(function=PULSE))
    state = state_of(facts, PS="off", PB1="pressed", K1=stands)
    assert [(move.end, move.timed) for move in facts.relay_moves if state in move.wanted] == [(0, False)]


CONTROLLED = """
    supply PS 12 V 10 A
    fuse F1 5 A
    switch S1 spst positions off on
    button PB1 no
    relay K1 spdt {function} controlled coil 12 V 160 ohm with diode
    lamp L1 12 V 2 W
    rung PS.+, F1, S1, K1.A1-A2, PS.-
    rung S1.on, PB1, K1.B1
    rung F1.2, K1.15-18, L1, PS.-
"""


@pytest.mark.parametrize(
    ("function", "supply", "signal", "stands", "goes", "timed"),
    [
        (ON_DELAY, "on", "pressed", "released", ["operated"], True),  # closing the signal's contact starts the time
        (ON_DELAY, "on", "released", "released", [], False),  # the supply alone does nothing
        (ON_DELAY, "off", "pressed", "released", [], False),
        (ON_DELAY, "on", "released", "operated", ["released"], False),
        (OFF_DELAY, "on", "pressed", "released", ["operated"], False),  # at once with the signal
        (OFF_DELAY, "on", "pressed", "operated", [], False),
        (OFF_DELAY, "on", "released", "operated", ["released"], True),  # the time starts when the signal goes
        (OFF_DELAY, "off", "pressed", "operated", ["released"], False),  # it needs its supply throughout
        (OFF_DELAY, "off", "released", "operated", ["released"], False),
        (ONE_SHOT, "on", "pressed", "released", ["operated"], False),
        (ONE_SHOT, "on", "released", "operated", ["spent"], True),  # the pulse outlasts its signal
        (ONE_SHOT, "on", "pressed", "spent", [], False),
        (ONE_SHOT, "on", "released", "spent", ["released"], False),
        (ONE_SHOT, "off", "pressed", "operated", ["released"], False),
        (PULSE, "on", "pressed", "pausing", ["operated"], True),
        (PULSE, "on", "released", "pausing", ["released"], False),
        (PULSE, "off", "pressed", "operated", ["released"], False),
    ],
)
def test_a_controlled_timing_relay_obeys_its_input_while_it_has_its_supply(
    function: str, supply: str, signal: str, stands: str, goes: list[str], timed: bool
) -> None:
    """A1 A2 feed it, B1 works it."""
    facts = facts_of(CONTROLLED.format(function=function))
    state = state_of(facts, S1=supply, PB1=signal, K1=stands)
    wanted = [move for move in facts.relay_moves if state in move.wanted]
    digit = facts.circuit.digits[facts.circuit.relays[0].digit]
    assert [digit.values[move.end] for move in wanted] == goes
    assert all(move.timed == timed for move in wanted)
