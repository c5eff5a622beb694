"""Races and cycles of relays, against the theory of asynchronous circuits in fundamental mode.

Sources: S. H. Unger, "Asynchronous Sequential Switching Circuits" (1969), and Z. Kohavi, "Switching and Finite Automata
Theory", chapter on asynchronous circuits: a race is critical if the stable state that is reached hangs on the order in
which state variables change, non-critical if all orders end alike; a cycle goes through unstable states, for ever if
none of its states is stable. Definitions and the shape of the tables from memory. Reversing starter: Lessons in
Electric Circuits, figures 04059 to 04064; that both at once is a race follows from the wiring. A diode makes a relay
release later: Finder 99.01 (times three), measured values in electro-tech-online.com thread 167257.
"""

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.table import truth_table
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.reports.table_rows import ANY, RELAYS_BEFORE, table_rows
from tests.judge.replaying import replay
from tests.reference.asking import facts_of
from tests.reference.test_starters import REVERSING, SEALED

Table = dict[str, str]
"""For each position of two relays (released 0, operated 1), where they want to go while the input is on."""

NON_CRITICAL = {"00": "11", "01": "11", "10": "11", "11": "11"}
CRITICAL = {"00": "11", "01": "01", "10": "10", "11": "11"}
CYCLE = {"00": "01", "01": "11", "11": "10", "10": "00"}
CYCLE_WITH_AN_END = {"00": "01", "01": "11", "11": "11", "10": "00"}
RACE_INTO_A_CYCLE = {"00": "11", "01": "01", "10": "11", "11": "10"}


def plan_of(table: Table, *times: str) -> str:
    """Two relays wired by a table: each coil has a branch for each position in which it is wanted. PB1 is the input."""
    poles: dict[str, list[str]] = {"K1": [], "K2": []}
    rungs = []
    for place, relay in enumerate(poles):
        branches = []
        for now, then in table.items():
            if then[place] == "1":
                contacts = []
                for other, value in zip(poles, now, strict=True):
                    poles[other].append("no" if value == "1" else "nc")
                    tens = len(poles[other])
                    contacts.append(f"{other}.{tens}3-{tens}4" if value == "1" else f"{other}.{tens}1-{tens}2")
                branches.append(", ".join(contacts))
        joined = f"( {' | '.join(branches)} )" if len(branches) > 1 else branches[0]
        rungs.append(f"rung PB1.14, {joined}, {relay}.A1-A2, PS.-")
    given = times or ("", "")
    relays = [
        f"relay {name} {' '.join(poles[name])} coil 12 V 160 ohm {time}"
        for name, time in zip(poles, given, strict=True)
    ]
    return "\n".join(["supply PS 12 V 10 A", "button PB1 no", *relays, "wire PS.+ PB1.13", *rungs])


def found_in(facts: Facts) -> tuple[Finding, ...]:
    """What the two checks find."""
    return run_checks(
        facts, tuple(one for one in all_checks() if one.check.name in ("order-dependent", "never-settles"))
    )


def told(text: str) -> tuple[Finding, ...]:
    """The same, each story walked by the judge, who knows of no times."""
    facts = facts_of(text)
    findings = found_in(facts)
    assert [replay(facts.circuit, finding) for finding in findings] == [""] * len(findings)
    return findings


def names(text: str) -> list[str]:
    """The checks that find something."""
    return [finding.check for finding in found_in(facts_of(text))]


@pytest.mark.parametrize(
    ("table", "expected"),
    [
        (NON_CRITICAL, []),
        (CRITICAL, ["order-dependent"]),
        (CYCLE, ["never-settles"]),
        (CYCLE_WITH_AN_END, []),
        (RACE_INTO_A_CYCLE, ["never-settles"]),
    ],
)
def test_races_and_cycles_of_the_textbook(table: Table, expected: list[str]) -> None:
    """A critical race and an endless cycle are told, a race that all orders end alike is not.

    Where one order rests and the other never does, that is what is told."""
    assert names(plan_of(table)) == expected


def test_a_critical_race_is_told_as_two_stories() -> None:
    """From power-up with the button pressed, the first relay to move stays alone."""
    (finding,) = told(plan_of(CRITICAL))
    assert finding.severity == "warning"
    assert finding.steps == ("begin with PS on, PB1 pressed",)
    assert [(order.quicker, order.steps) for order in finding.orders] == [
        ("K1", ("K1 operates",)),
        ("K2", ("K2 operates",)),
    ]


@pytest.mark.parametrize(
    ("first", "second", "critical"),
    [
        ("operate 2..5 ms", "operate 6..9 ms", False),
        ("operate 6..9 ms", "operate 2..5 ms", False),
        ("operate 2..5 ms", "operate 5..9 ms", True),
        ("operate 2..6 ms", "operate 5..9 ms", True),
        ("operate 2..5 ms", "", True),
    ],
)
def test_operate_times_decide_a_race_where_they_do_not_meet(first: str, second: str, critical: bool) -> None:
    """The quicker relay always wins; where both may take the same time, or one any time, either may."""
    assert names(plan_of(CRITICAL, first, second)) == ["order-dependent"] * critical


def test_a_cycle_goes_on_whatever_the_times() -> None:
    """No operate or release time brings it to rest."""
    assert names(plan_of(CYCLE, "operate 5..12 ms release 2..5 ms", "operate 1..2 ms")) == ["never-settles"]


def test_times_may_shut_the_only_way_out_of_a_cycle() -> None:
    """K1 breaks its own coil unless K2 operates; a K2 that needs longer than K1 lets it have never operates."""
    wiring = """
        supply PS 12 V 10 A
        button PB1 no
        relay K1 nc nc coil 12 V 160 ohm operate 3..5 ms release 2..4 ms
        relay K2 no nc no coil 12 V 160 ohm {}
        rung PS.+, PB1, ( K1.11-12 | K2.13-14 ), K1.A1-A2, PS.-
        rung PB1.14, ( K1.21-22 | K2.33-34 ), K2.A1-A2, PS.-
    """
    assert names(wiring.format("")) == []
    assert names(wiring.format("operate 4..6 ms")) == []
    assert names(wiring.format("operate 6..8 ms")) == ["never-settles"]


def test_a_relay_that_breaks_its_own_coil_never_settles() -> None:
    """The buzzer: its coil's path leads through its own resting contact."""
    (finding,) = told("""
        supply PS 12 V 10 A
        button PB1 no
        relay K1 nc coil 12 V 160 ohm
        rung PS.+, PB1, K1.11-12, K1.A1-A2, PS.-
    """)
    assert finding.check == "never-settles"
    assert finding.orders[0].steps == ("K1 operates", "K1 releases")


def test_both_buttons_of_a_reversing_starter_are_a_race() -> None:
    """Both pressed from rest at once: which contactor wins hangs on which is quicker, and the motor follows it."""
    (finding,) = told(REVERSING + SEALED)
    assert (finding.check, finding.severity) == ("order-dependent", "error")
    assert {(order.quicker, order.ends) for order in finding.orders} == {("M1", "MOT forward"), ("M2", "MOT reverse")}


def motor_when_both_are_pressed(text: str) -> set[str]:
    """What the truth table says of MOT with both buttons pressed and STOP released, from all relays released."""
    table = truth_table(facts_of(text), {}, ())
    wanted = {"PS": "on", "STOP": "released", "FWD": "pressed", "REV": "pressed"}
    rows = [
        row for row in table_rows(table) if all(row.given.get(name, ANY) in (ANY, at) for name, at in wanted.items())
    ]
    return {row.motors["MOT"] for row in rows if row.given.get(RELAYS_BEFORE) != "held"}


def test_the_reversing_starters_race_is_decided_by_operate_times() -> None:
    """A contactor that is always quicker always wins; the truth table then has one word for the motor."""
    both = next(line for line in REVERSING.splitlines() if "relay M1 M2" in line)
    quick, slow = both.replace("M1 M2", "M1"), both.replace("M1 M2", "M2")
    timed = REVERSING.replace(both, f"{quick} operate 5..10 ms\n{slow} operate 12..20 ms")
    assert motor_when_both_are_pressed(REVERSING + SEALED) == {"order-dependent"}
    assert motor_when_both_are_pressed(timed + SEALED) == {"forward"}
    assert names(timed + SEALED) == []


RELEASE_RACE = """
    supply PS 12 V 10 A
    button PB1 no
    relay K1 nc coil 12 V 160 ohm {} operate 1..2 ms release 2..5 ms, 20 ms with diode
    relay K2 no coil 12 V 160 ohm operate 3..4 ms release 8..9 ms
    relay K3 no coil 12 V 160 ohm operate 1..2 ms
    rung PS.+, PB1, ( K1.A1-A2 | K2.A1-A2 ), PS.-
    rung PS.+, ( K1.11-12, K2.13-14 | K3.13-14 ), K3.A1-A2, PS.-
"""


def test_a_diode_across_a_coil_makes_its_release_count_as_the_longer_one() -> None:
    """Without it K1 always lets K3 in before K2 drops; with it K2 may be the quicker one."""
    assert names(RELEASE_RACE.format("")) == []
    assert names(RELEASE_RACE.format("with diode")) == ["order-dependent"]
    assert names(RELEASE_RACE.format("") + "    diode D1\n    rung K1.A2, D1.anode-cathode, K1.A1\n") == [
        "order-dependent"
    ]
