"""Sneak paths: what the check finds is never certified, and what it proves is."""

import random
from math import prod

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import NO_LINK, OWN_DRIVE, box_of, claims_by_check
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import sneak_path
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.analysis.test_links import lines_with_links
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds
from tests.certificates.test_entries import MOST_STATES, taken
from tests.certificates.test_volts import networks
from tests.profiles import examples


def left_over(circuit: Circuit) -> list[str]:
    """The claims of the check that have no certificate."""
    claims = claims_by_check(circuit)["sneak-path"]
    return [claim for claim in certificate_of(circuit)["without certificate"] if claim in claims]


@pytest.mark.parametrize(
    ("place", "left"),
    [
        (0, [f"LS2 {NO_LINK}"]),
        (1, [f"K1 {OWN_DRIVE}", f"L1 {OWN_DRIVE}", f"L2 {OWN_DRIVE}"]),
        (2, [f"K1 {OWN_DRIVE}"]),
    ],
)
def test_what_is_wrong_with_a_plan_leaves_just_its_claims_over(place: int, left: list[str]) -> None:
    """And the judge sees each of them broken."""
    circuit = circuit_of(sneak_path.CHECK.wrong[place].plan)
    assert left_over(circuit) == left
    seen = Seen(circuit)
    assert [claim for claim in claims_by_check(circuit)["sneak-path"] if not holds(seen, claim)] == left


LINKED = """
supply PS 12 V 10 A
switch S1 S2 spst positions off on
lamp   L1 L2 12 V 2 W
relay  K1 no coil 12 V 160 ohm with diode
rung   PS.+, S1, L1, PS.-
rung   PS.+, S2, L2, PS.-
rung   L1.1, K1.13-14, L2.1
rung   PS.+, {}, K1.A1-A2, PS.-
"""


def test_a_contact_that_nothing_ever_closes_links_no_lines() -> None:
    """Operation shows it: the relay's second contact would have to close first."""
    never = circuit_of(LINKED.format("K1.23-24").replace("relay  K1 no", "relay  K1 no no"))
    assert left_over(never) == []
    by_hand = circuit_of("button PB1 no\n" + LINKED.format("PB1"))
    assert left_over(by_hand) == [f"K1 {NO_LINK}"]


def test_a_pilot_lamp_across_a_limit_may_glow_but_not_hold_the_relay() -> None:
    """The lamp itself has no drive of its own, so what it does there is meant."""
    assert left_over(circuit_of(sneak_path.CHECK.right[2].plan)) == []


def test_what_works_a_load_past_a_supply_that_is_off_is_no_drive_of_its_own() -> None:
    """Of a lantern between two supplies in series: with the lower one off, its diode feeds the lantern half."""
    circuit = circuit_of("""
supply PA PB 12 V 10 A
fuse   FA FB 5 A
diode  D1
lamp   L1 24 V 2 W
wire   PA.- PB.+
rung   PB.-, D1, PB.+
rung   PA.+, FA, L1, FB, PB.-
""")
    assert left_over(circuit) == [f"L1 {OWN_DRIVE}"]
    assert not holds(Seen(circuit), f"L1 {OWN_DRIVE}")


@st.composite
def lines_with_bridges(draw: st.DrawFn) -> str:
    """Two or three loads, each behind a switch, on one return that a contact may open; others lead across."""
    text = [
        "supply PS 12 V 10 A",
        "splice RET",
        draw(st.sampled_from(("wire RET PS.-", "switch SR spst positions off on\nrung RET, SR, PS.-"))),
    ]
    lines = draw(st.integers(2, 3))
    for number in range(lines):
        load = draw(st.sampled_from(LOADS))
        text += [f"switch S{number} spst positions off on", load.format(f"P{number}")]
        text.append(f"rung PS.+, S{number}, P{number}{'.A1-A2' * load.startswith('relay')}, RET")
    for number in range(draw(st.integers(1, 2))):
        one, other = draw(st.permutations([*(f"S{line}.on" for line in range(lines)), "PS.+"]))[:2]
        load = draw(st.sampled_from((*LOADS, "resistor {} 100 ohm")))
        text += [load.format(f"Q{number}"), f"rung {one}, Q{number}{'.A1-A2' * load.startswith('relay')}, {other}"]
    return "\n".join(text)


LOADS = (
    "lamp {} 12 V 2 W",
    "lamp {} 12 V 0.1 W",
    "relay {} no coil 12 V 160 ohm with diode",
    "motor {} 12 V stall 5 A may coast",
)


@settings(max_examples=examples(20), suppress_health_check=list(HealthCheck), deadline=None)
@given(st.one_of(lines_with_links(), lines_with_bridges(), networks(), plan_texts(), bus_plan_texts()))
def test_whatever_the_check_finds_is_not_certified(text: str) -> None:
    """Loads in series leave a load's claim over, and contacts that carry current both ways a part's."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) <= 1_500:
        left = left_over(circuit)
        for found in sneak_path.find(analyse(circuit)):
            claim = OWN_DRIVE if "runs through" in found.what else NO_LINK
            assert any(one in (f"{part} {claim}" for part in _named(circuit, found.parts)) for one in left), text


@settings(max_examples=examples(6), suppress_health_check=list(HealthCheck), deadline=None)
@given(st.one_of(lines_with_links(), lines_with_bridges(), networks()))
def test_whatever_entry_about_loads_that_hang_together_is_taken_the_judge_sees_it_hold(text: str) -> None:
    """Over any digits, and with any relays parked."""
    circuit = circuit_of(text)
    if prod(digit.radix for digit in circuit.digits) <= MOST_STATES:
        claims = taken(box_of(circuit), random.Random(text))
        seen = Seen(circuit)
        assert [claim for claim in sorted(claims) if not holds(seen, claim)] == [], text


def _named(circuit: Circuit, parts: tuple[str, ...]) -> list[str]:
    return [*parts, *(load.name for load in circuit.loads if load.part in parts)]
