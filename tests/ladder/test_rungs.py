"""Which rungs a ladder has, and what stands on them."""

import time

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.model import Circuit
from circuitcheck.ladder.drawn import Bridge, Drawn, Parallel, Passed, Series, Taking
from circuitcheck.ladder.ladder import ladder_of
from circuitcheck.ladder.rungs import Ladder
from circuitcheck.reports.ladder_asking import redrawn
from circuitcheck.reports.ladder_svg import ladder_svg
from circuitcheck.reports.ladder_text import ladder_lines
from circuitcheck.reports.styled import plain_text
from tests.analysis.plans import circuit_of
from tests.benchmarks.panels import panel

FEED = "supply PS 12 V 10 A\nfuse F1 5 A\nwire PS.+ F1.1\n"


def written(circuit: Circuit, drawn: Drawn) -> str:
    """ "F1 (S1 com-on | S2 com-on) [L1]"; a bridge in braces, its rows' points before and after colons."""
    if isinstance(drawn, Series):
        return " ".join(written(circuit, part) for part in drawn.parts)
    if isinstance(drawn, Parallel):
        return f"({' | '.join(written(circuit, branch) for branch in drawn.branches)})"
    if isinstance(drawn, Bridge):
        rows = (
            f"{row.begins.name if row.begins else ''}:{written(circuit, row.drawn)}:{row.ends.name if row.ends else ''}"
            for row in drawn.rows
        )
        return f"{{{'; '.join(rows)}}}"
    if isinstance(drawn, Passed):
        marks = "-".join(end.rsplit(".", 1)[1] for end in (drawn.left, drawn.right))
        one = circuit.conductors[drawn.conductor]
        return f"{one.part} {marks}" if one.closed else one.part
    return f"[{circuit.loads[drawn.load].name}]" if isinstance(drawn, Taking) else f"o {drawn.name}"


def rungs_of(text: str) -> list[str]:
    """Each way of each rung in a line, behind a supply and a fuse."""
    circuit = circuit_of(FEED + text)
    found = []
    for rung in ladder_of(analyse(circuit)).rungs:
        for way in rung.ways:
            rails = [name for name in (way.left, written(circuit, way.drawn), way.right) if name]
            found.append(f"{rung.kind}: {', '.join(rails)}")
    return found


def test_a_load_is_drawn_with_what_its_wires_lead_over() -> None:
    """However the plan's rungs were written: here as loose wires."""
    assert rungs_of("""
        switch S1 S2 spst positions off on
        lamp   L1 12 V 2 W
        wire L1.2 PS.-
        wire S2.on L1.1
        wire S1.on L1.1
        wire S2.com F1.2
        wire S1.com F1.2
    """) == ["load: PS.+, F1 (S1 com-on | S2 com-on) [L1], PS.-"]


def test_contacts_that_feed_several_loads_stand_on_the_rung_of_each() -> None:
    """Repeated, as far as each load needs them."""
    assert rungs_of("""
        switch S1 S2 spst positions off on
        lamp   L1 L2 12 V 2 W
        rung   F1.2, S1, L1, PS.-
        rung   S1.on, S2, L2, PS.-
    """) == ["load: PS.+, F1 S1 com-on [L1], PS.-", "load: PS.+, F1 S1 com-on S2 com-on [L2], PS.-"]


def test_a_bridge_is_drawn_as_one_between_named_points() -> None:
    """It is neither series nor parallel; current may pass its middle both ways."""
    ways = rungs_of("""
        switch S1 S2 S3 S4 S5 spst positions off on
        splice N1 N2
        motor  M1 12 V stall 5 A may coast
        rung   F1.2, S1, N1, S4, M1, PS.-
        rung   F1.2, S2, N2, S5, M1.+
        rung   N1, S3, N2
    """)
    assert ways[0] == (
        "load: PS.+, F1 {:S1 com-on:N1; :S2 com-on:N2; N1:S3 com-on:N2; N1:S4 com-on:; N2:S5 com-on:} [M1], PS.-"
    )


def test_a_motor_has_a_way_for_each_direction_and_its_brake_is_a_loop() -> None:
    """Over the rail that both of its leads rest on, and over the bus that both relays work to."""
    assert rungs_of("""
        button PB1 PB2 no
        relay  K1 K2 spdt coil 12 V 160 ohm
        motor  M1 12 V stall 5 A
        rung   F1.2, PB1, K1.A1-A2, PS.-
        rung   F1.2, PB2, K2.A1-A2, PS.-
        rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
        rung   PS.-, K1.12
        rung   PS.-, K2.12
    """)[2:] == [
        "load: PS.+, F1 K1 14-11 [M1] K2 11-12, PS.-",
        "load: PS.+, F1 K2 14-11 [M1] K1 11-12, PS.-",
        "load: ([M1] | K1 11-14 K2 14-11)",
        "load: ([M1] | K1 11-12 o PS.- K2 12-11)",
    ]


def test_diodes_keep_current_out_of_rungs_that_it_cannot_reach() -> None:
    """Steering diodes part two lines; without them one of the lines feeds the other back, on a rung of its own."""
    plan = """
        switch S1 spdt positions raise off lower
        button LS1 LS2 nc
        diode  D1 D2
        relay  K1 K2 no coil 12 V 160 ohm
        rung   F1.2, S1.com
        rung   S1.raise, LS1, D1, K1.A1-A2, PS.-
        rung   S1.lower, LS2, D2, K1.A1
        rung   S1.lower, K2.A1-A2, PS.-
    """
    assert rungs_of(plan) == [
        "load: PS.+, F1 (S1 com-raise LS1 11-12 D1 | S1 com-lower LS2 11-12 D2) [K1], PS.-",
        "load: PS.+, F1 S1 com-lower [K2], PS.-",
    ]
    assert rungs_of(plan.replace("D1, ", "").replace("D2, ", ""))[1:] == [
        "load: PS.+, F1 S1 com-lower [K2], PS.-",
        "sneak: PS.+, F1 S1 com-raise LS1 11-12 LS2 12-11 [K2], PS.-",
    ]


def test_current_through_another_load_is_a_rung_of_its_own_where_nobody_meant_it() -> None:
    """The pilot lamp across an open limit holds the relay; two lamps in a row are meant so."""
    ways = rungs_of("""
        switch S1 spst positions off on
        button LS1 nc
        relay  K1 no coil 12 V 90 ohm
        lamp   L1 12 V 0.5 W
        rung   F1.2, S1, LS1, K1.A1-A2, PS.-
        rung   S1.on, L1, K1.A1
    """)
    assert ways[-1] == "sneak: PS.+, F1 S1 com-on ([L1] | LS1 11-12) [K1], PS.-"
    row = "load: PS.+, F1 [L1] [L2], PS.-"
    assert rungs_of("lamp L1 L2 6 V 2 W\nrung F1.2, L1, L2, PS.-") == [row, row]


def test_a_way_past_all_loads_is_a_rung() -> None:
    """With every contact on it."""
    assert rungs_of("""
        switch S1 spdt positions raise lower
        button PB1 no
        lamp   L1 12 V 2 W
        rung   F1.2, PB1, S1.com
        rung   S1.raise, L1, PS.-
        rung   S1.lower, PS.-
    """) == ["load: PS.+, F1 PB1 13-14 S1 com-raise [L1], PS.-", "short: PS.+, F1 PB1 13-14 S1 com-lower, PS.-"]


def test_a_load_that_nothing_feeds_is_drawn_with_what_it_hangs_on() -> None:
    """An end that leads to no rail stays open."""
    assert rungs_of("switch S1 spst positions off on\nlamp L1 12 V 2 W\nrung F1.2, S1, L1") == [
        "load: PS.+, F1 S1 com-on [L1], open"
    ]


def test_what_stands_on_no_rung_is_told() -> None:
    """A contact that leads nowhere."""
    circuit = circuit_of(FEED + "switch S1 spdt positions a b\nlamp L1 12 V 2 W\nrung F1.2, S1.com-a, L1, PS.-")
    assert [circuit.conductors[number].name for number in ladder_of(analyse(circuit)).idle] == ["S1.com-b"]


def leaves_of(ladder: Ladder) -> int:
    """How many symbols all rungs have together."""
    return sum(_count(way.drawn) for rung in ladder.rungs for way in rung.ways)


def _count(drawn: Drawn) -> int:
    if isinstance(drawn, Series):
        return sum(map(_count, drawn.parts))
    if isinstance(drawn, Parallel):
        return sum(map(_count, drawn.branches))
    return sum(_count(row.drawn) for row in drawn.rows) if isinstance(drawn, Bridge) else 1


@pytest.mark.slow
def test_a_panel_of_two_hundred_parts_is_drawn_in_five_seconds_and_grows_with_its_motors() -> None:
    """Twenty motors behind one master relay have as much on their rungs as ten have twice, within a tenth."""
    ten, twenty = (circuit_of(panel(motors)) for motors in (10, 20))
    assert len(twenty.parts) > 200
    begun = time.process_time()
    drawn = redrawn(analyse(twenty))
    assert list(ladder_lines(drawn, 80))
    assert ladder_svg(drawn)
    assert time.process_time() - begun < 5
    assert leaves_of(drawn.ladder) == pytest.approx(2 * leaves_of(ladder_of(analyse(ten))), rel=0.1)


def text_of(plan: str, width: int = 100) -> str:
    """The ladder in so many columns."""
    return plain_text(ladder_lines(redrawn(analyse(circuit_of(FEED + plan))), width))


def test_a_relay_contact_tells_on_which_rung_its_coil_stands() -> None:
    """The lamp on rung 1 waits for the relay on rung 2; the button on that rung has no coil."""
    rows = text_of("""
        button B1 no
        lamp   L1 12 V 2 W
        relay  K1 spdt coil 12 V 160 ohm with diode
        rung   F1.2, K1.11-14, L1, PS.-
        rung   F1.2, B1, K1.A1-A2, PS.-
    """).splitlines()
    names = {row.strip(" |") for row in rows if row.rstrip().endswith("|") and "-" not in row}
    assert [name.split() for name in names if "L1" in name] == [["F1", "K1", "(2)", "L1"]]
    assert rows[next(number for number, row in enumerate(rows) if row.startswith("2 "))].endswith("K1 relay")
    assert "B1 (" not in "".join(rows)


LONG = "reverser_of_the_upper_curtain_at_the_left_of_the_stage"


def test_a_long_name_loses_its_middle_and_no_line_runs_past_the_rail() -> None:
    """A name of 54 signs in 60 columns: the lines still end at the rail."""
    text = text_of(f"""
        relay  {LONG} spdt coil 12 V 160 ohm with diode
        lamp   L1 12 V 2 W
        rung   F1.2, {LONG}.A1-A2, PS.-
        rung   F1.2, {LONG}.11-14, L1, PS.-
    """, 60)  # fmt: skip
    assert "reverser_of_…ft_of_the_stage" in text
    assert all(row.endswith("|") for row in text.splitlines() if row.startswith("    |"))
    assert "o-----o" not in text


def test_long_names_that_would_look_alike_stay_whole() -> None:
    """The left and the right lamp differ in the middle only."""
    left, right = (f"lamp_of_the_{side}_wing_of_the_stage" for side in ("eastern", "western"))
    text = text_of(f"lamp {left} {right} 12 V 2 W\nrung F1.2, {left}, PS.-\nrung F1.2, {right}, PS.-\n")
    assert text.count(left) == text.count(right) == 2
