"""The published patterns of sneak circuits, each in a box of ours.

Sources: the five topographs (single line, power dome, ground dome, combination dome, H), their letters: probsee.com
p/sneak_circuit_analysis; what to ask of each, and that most real sneaks are H patterns: from memory. Clues "power to
power path", "ground to ground path", "reversed current": NASA/Boeing Sneak Circuit Analysis Handbook D2-118341-1
(1970), NTRS 19710003012, contents. Mercury-Redstone 1: wikisum.wiki/wiki/Mercury-Redstone_1; that the current took its
way through the cut-off relay's coil: from memory. Radio and brake lamps: Rankin, Nuclear Safety 14(5), 1973, from
memory.
"""

from textwrap import dedent

import pytest

from circuitcheck.checks import broken_promise, sneak_path
from circuitcheck.checks.check import Finding
from circuitcheck.checks.findings import complete
from tests.reference.asking import facts_of


def sneaks(plan: str) -> list[Finding]:
    """What the check finds in a plan."""
    facts = facts_of(dedent(plan))
    found = (complete(facts, sneak_path.CHECK, one) for one in sneak_path.find(facts))
    return [one for one in found if one is not None]


def test_a_single_line_has_no_other_way() -> None:
    """Source, switches, load and return in one line: there is nothing for current to sneak through."""
    assert not sneaks("""
        supply PS 12 V 5 A
        fuse   F1 3 A
        switch S1 S2 spst positions off on
        lamp   L1 12 V 2 W
        rung   PS.+, F1, S1, S2, L1, PS.-
    """)


def test_a_coil_is_told_from_the_resistor_across_it() -> None:
    """A pilot lamp across an open limit holds a relay with a resistor for its spike; both stand at the same volts."""
    found = sneaks("""
        supply PS 12 V 10 A
        fuse   F1 3 A
        switch S1 spst positions off on
        button LS1 nc
        relay  K1 no coil 12 V 90 ohm with resistor 680 ohm
        lamp   L1 L2 12 V 2 W
        rung   PS.+, F1, S1, LS1, K1.A1-A2, PS.-
        rung   S1.on, L1, K1.A1
        rung   F1.2, K1.13-14, L2, PS.-
    """)
    assert [one.parts for one in found] == [("K1", "L1")]


POWER_DOME = """
    supply PS1 PS2 12 V 5 A
    switch S1 S2 spst positions off on
    {diodes}
    lamp   L1 L2 12 V 2 W
    wire   PS1.- PS2.-
    rung   PS1.+, S1{one}, L1, PS1.-
    rung   PS2.+, S2{two}, L1.1
    rung   PS2.+, L2, PS2.-
"""


def test_a_power_dome_feeds_the_other_source_back() -> None:
    """Two sources on one load: with one off the other's loads are live over both switches."""
    (found,) = sneaks(POWER_DOME.format(diodes="", one="", two=""))
    assert found.parts == ("S2", "L2", "L1")
    assert found.example == {"PS1": "on", "PS2": "off", "S1": "on", "S2": "on"}
    assert found.path == (
        "PS1.+",
        "S1.com",
        "S1.on",
        "L1.1",
        "S2.on",
        "S2.com",
        "PS2.+",
        "L2.1",
        "L2.2",
        "PS2.-",
        "PS1.-",
    )


def test_a_diode_in_either_feed_ends_the_power_dome() -> None:
    """The cure that the pattern asks for."""
    assert not sneaks(POWER_DOME.format(diodes="diode D1 D2", one=", D1", two=", D2"))


GROUND_DOME = """
    supply PS 12 V 20 A
    switch S1 spst positions off on
    button CUT no
    switch TAIL MAST spst positions off joined
    relay  K1 no coil 12 V 160 ohm with diode
    lamp   L1 12 V 60 W
    lamp   L2 12 V 5 W
    lamp   L3 12 V 2 W
    rung   PS.+, S1, L1, TAIL.com-joined, PS.-
    rung   PS.+, CUT, K1.A1
    wire   K1.A2 L1.2
    rung   PS.+, K1.13-14, L3, PS.-
"""


def test_a_ground_dome_works_the_cut_off_relay_when_one_return_parts_first() -> None:
    """As on Mercury-Redstone 1: the ground of one plug lost first, the current goes on backward through the cut-off
    relay's coil and other loads to the other plug's return. With the ground there, the coil is off."""
    (found,) = sneaks(GROUND_DOME.replace("with diode", "") + "    rung K1.A1, L2, MAST.com-joined, PS.-\n")
    assert found.parts[0] == "K1"
    assert found.what.startswith("K1 operates (10 V)")
    assert "L1, backward through K1 and L2" in found.what
    assert found.example["TAIL"] == "off"
    assert found.example["MAST"] == "joined"
    assert found.path[-6:] == ("K1.A1", "L2.1", "L2.2", "MAST.com", "MAST.joined", "PS.-")


def test_without_the_second_return_no_current_reaches_the_coil() -> None:
    """A grounding strap cured it: here it is enough that there is no second return."""
    assert not sneaks(GROUND_DOME)


def test_a_combination_dome_shows_both() -> None:
    """Two sources and two returns: each source feeds the other's loads, and a parted return goes on through a lamp."""
    found = sneaks("""
        supply PS1 PS2 12 V 5 A
        switch S1 S2 spst positions off on
        switch R1 R2 spst positions off joined
        relay  K1 no coil 12 V 160 ohm with diode
        lamp   L1 L2 L3 12 V 5 W
        wire   PS1.- PS2.-
        rung   PS1.+, S1, K1.A1-A2, R1.com-joined, PS1.-
        rung   PS2.+, S2, K1.A1
        rung   K1.A2, L2, R2.com-joined, PS1.-
        rung   PS2.+, L1, PS2.-
        rung   PS1.+, K1.13-14, L3, PS1.-
    """)
    assert [one.parts for one in found] == [("S1", "L3", "K1", "L1"), ("S2", "L1", "K1", "L3"), ("K1", "L2")]
    assert found[1].example["PS2"] == "off"
    assert found[2].example["R1"] == "off"


CROSS_LINK = """
    supply PS 12 V 20 A
    switch KEY HAZARD spst positions off on
    button BRAKE no
    lamp   L1 12 V 5 W "brake lamps"
    buzzer RADIO 12 V 5 W
    rung   PS.+, KEY, RADIO, PS.-
    rung   PS.+, BRAKE, L1, PS.-
"""


def test_an_h_pattern_powers_the_radio_from_the_brake_lamps() -> None:
    """A cross link between the brake's and the key's lines: with the key off the brake pedal works the radio."""
    (found,) = sneaks(CROSS_LINK + "    rung KEY.on, HAZARD, L1.1\n")
    assert found.parts[0] == "HAZARD"
    assert set(found.example) == {"PS", "KEY", "HAZARD", "BRAKE"}


def test_a_diode_in_the_link_lets_current_through_one_way_only() -> None:
    """Then the key lights the lamps over the link, and the brake never works the radio."""
    assert not sneaks(CROSS_LINK + "    diode D1\n    rung KEY.on, HAZARD, D1, L1.1\n")


TWO_SWITCHES = """
    supply PS 12 V 5 A
    switch S1 S2 spst positions off on
    {diodes}
    relay  K1 no coil 12 V 160 ohm with diode
    lamp   L1 L2 L3 12 V 2 W
    rung   PS.+, S1, L1, PS.-
    rung   PS.+, S2, L2, PS.-
    rung   S1.on{one}, K1.A1-A2, PS.-
    rung   S2.on{two}, K1.A1
    rung   PS.+, K1.13-14, L3, PS.-
    never  L1 lit when S1 off
    never  L2 lit when S2 off
"""


@pytest.mark.parametrize(
    ("diodes", "one", "two", "broken"), [("", "", "", 2), ("diode D1 D2", ", D1", ", D2", 0)], ids=["wires", "diodes"]
)
def test_two_switches_on_one_coil_light_each_others_lamps(diodes: str, one: str, two: str, broken: int) -> None:
    """Joined by wires the lines are one, which only a promise can object to; diodes isolate them (common practice, no
    source)."""
    plan = TWO_SWITCHES.format(diodes=diodes, one=one, two=two)
    facts = facts_of(plan)
    assert len(list(broken_promise.find(facts))) == broken
    assert not sneaks(plan)


def test_two_supplies_on_one_coil_work_each_others_lamp_in_series_only_if_they_meet() -> None:
    """Supplies with nothing in common but a lamp: no current closes its circle through it."""
    assert not sneaks("""
        supply PS1 PS2 12 V 5 A
        switch S1 S2 spst positions off on
        lamp   L1 L2 L3 12 V 5 W
        rung   PS1.+, S1, L1, PS1.-
        rung   PS2.+, S2, L2, PS2.-
        rung   L1.1, L3, L2.1
    """)


def test_lamps_that_feed_a_coil_alike_are_all_named_whichever_is_written_first() -> None:
    """None of two equal ways is chosen for standing first in the plan."""
    plan = """
        supply PS 12 V 10 A
        switch S1 spst positions off on
        button LS1 nc
        relay  K1 no coil 12 V 90 ohm with diode
        lamp   L1 L2 L3 12 V 2 W
        rung   PS.+, S1, LS1, K1.A1-A2, PS.-
        rung   S1.on, {first}, K1.A1
        rung   S1.on, {second}, K1.A1
        rung   PS.+, K1.13-14, L3, PS.-
    """
    for first, second in (("L1", "L2"), ("L2", "L1")):
        (found,) = sneaks(plan.format(first=first, second=second))
        assert set(found.parts) == {"K1", "L1", "L2"}
        assert f"through {first} and K1, one after the other (or {second} instead of one of them)" in found.what
