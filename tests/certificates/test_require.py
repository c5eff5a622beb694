"""What a plan requires of the box with one fault in it is certified where no fault breaks it, and only there."""

import re
from collections.abc import Iterator
from functools import cache
from itertools import product
from math import prod
from textwrap import dedent

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.faults.fault import Fault, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.published import SUPPOSED
from circuitcheck.analysis.faults.required import breaking_faults
from circuitcheck.analysis.faults.verdicts import Judge as Engine
from circuitcheck.certificates.verifier import (
    OBEYS,
    Refused,
    claims_by_check,
    driven_with_a_fault,
    proved_of_faults,
    requirements,
    seal_of,
    verify,
    with_faults,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import broken_requirement
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit, Conductor, Terminal
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError
from tests.analysis.plans import circuit_of
from tests.certificates.fault_plans import BEHIND_ONE_RELAY, BROKEN_BY, GOES_ROUND, TWO_RELAYS
from tests.certificates.seen import Seen
from tests.certificates.seen_claims import holds
from tests.certificates.seen_faults import breaks
from tests.certificates.test_certificates import as_read
from tests.profiles import examples

CHECK = broken_requirement.CHECK
KINDS = [row.kind for row in SUPPOSED]
DEFEATS_NOTHING = "suppressor open"
"""It changes no state."""
MOST_STATES = 200
"""Of a plan that is looked at in each pair of states."""

State = dict[int, int]
Effect = frozenset[tuple[tuple[int, ...], frozenset[tuple[str, str]]]]
"""For each state, between which ends of loads and supplies current can pass."""


def test_the_requirements_of_right_plans_are_certified() -> None:
    """And are the only claims of this check."""
    for one in CHECK.right:
        circuit = circuit_of(one.plan)
        claims = claims_by_check(circuit)[CHECK.name]
        assert len(claims) == 1
        assert set(claims) <= set(verify(circuit, as_read(certificate_of(circuit))))


def test_a_requirement_that_a_fault_breaks_has_no_certificate() -> None:
    """A motor past its only limit, a relay that welds."""
    for one in CHECK.wrong:
        circuit = circuit_of(one.plan)
        assert set(claims_by_check(circuit)[CHECK.name]) <= set(certificate_of(circuit)["without certificate"])


def test_no_kind_of_fault_is_forgotten() -> None:
    """Each that the published lists name has a plan here whose requirement it breaks."""
    assert {*BROKEN_BY} == {*KINDS} - {DEFEATS_NOTHING}


@cache
def circuit_for(text: str) -> Circuit:
    """The circuit of a plan."""
    return circuit_of(text)


def ends(circuit: Circuit) -> dict[str, Terminal]:
    """The ends of loads and supplies, each by a name that a fault doesn't change."""
    found = {f"{place} {one.name} {end}": getattr(one, end) for place, one in enumerate(circuit.loads) for end in "ab"}
    for one in circuit.supplies:
        lost = "" if one.volts else " of what is lost"
        found |= {f"{one.name} +": one.plus + lost, f"{one.name} -": one.minus + lost}
    return found


def passed(circuit: Circuit, state: State) -> frozenset[tuple[str, str]]:
    """Between which of these ends conductors lead in a state."""
    onward: dict[Terminal, set[Terminal]] = {}
    for one in (*circuit.conductors, *bridges(circuit)):
        if one.closed is None or state[one.closed.digit] in one.closed.values:
            onward.setdefault(one.tail, set()).add(one.head)
            onward.setdefault(one.head, set()).update(() if one.one_way else (one.tail,))
    named, pairs = ends(circuit), set()
    for name, start in named.items():
        reached, waiting = {start}, [start]
        for here in waiting:
            fresh = onward.get(here, set()) - reached
            reached |= fresh
            waiting += fresh
        pairs |= {(name, other) for other, end in named.items() if end in reached}
    return frozenset(pairs)


def bridges(circuit: Circuit) -> Iterator[Conductor]:
    """A supply that is lost lets current through."""
    for one in circuit.supplies:
        if not one.volts:
            yield circuit.conductors[0]._replace(tail=one.plus, head=one.minus, closed=None, one_way=False)


def effect(circuit: Circuit, digits: range, fault: State) -> Effect:
    """What a circuit does in each state of these digits."""
    states = product(*(range(circuit.digits[digit].radix) for digit in digits))
    return frozenset((state, passed(circuit, {**dict(enumerate(state)), **fault})) for state in states)


@cache
def effects(text: str) -> dict[State | int, Effect]:
    """Of each fault that the verifier thinks of, by its place among all, and of none (0)."""
    circuit = circuit_for(text)
    faulty, own = with_faults(circuit), range(len(circuit.digits))
    sound = dict.fromkeys(range(len(own), len(faulty.digits)), 0)
    found: dict[State | int, Effect] = {0: effect(faulty, own, sound)}
    for digit in sound:
        for value in range(1, faulty.digits[digit].radix):
            found[len(found)] = effect(faulty, own, {**sound, digit: value})
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_the_verifier_thinks_of_every_fault_of_the_published_lists(kind: str) -> None:
    """Of each fault of this kind in the small plans, there is one of the verifier's own that lets current pass in just
    the same states. One that sticks lets current pass as ever."""
    texts = {*BROKEN_BY.values(), dedent(CHECK.right[0].plan)} if kind not in BROKEN_BY else {BROKEN_BY[kind]}
    found = [(text, fault) for text in texts for fault in single_faults(circuit_for(text)) if fault.kind == kind]
    assert found
    for text, fault in found:
        circuit = circuit_for(text)
        own = range(len(circuit.digits))
        assert effect(with_fault(circuit, fault), own, {}) in effects(text).values(), fault.called


def places_left(text: str) -> set[int]:
    """The places of those faults with which the verifier may see the requirement broken, 0 for none."""
    circuit, found = circuit_for(text), set()
    for box, states in driven_with_a_fault(with_faults(circuit), circuit.requirements[0]):
        last = len(box.sets.radices) - 1
        found |= {place for place in range(box.sets.radices[last]) if box.sets.given(states, last, place)}
    return found


@cache
def broken(text: str) -> list[Fault]:
    """The faults that break the requirement, as the engine sees it."""
    circuit = circuit_for(text)
    found = breaking_faults(Engine(circuit), single_faults(circuit), circuit.requirements[0])
    return [one.fault for one in found if one.outcomes]


@pytest.mark.parametrize("kind", BROKEN_BY)
def test_a_requirement_that_a_fault_of_this_kind_breaks_has_no_certificate(kind: str) -> None:
    """The verifier sees it broken by just that fault, or by hands alone."""
    text = BROKEN_BY[kind]
    circuit, left = circuit_for(text), places_left(text)
    assert proved_of_faults(circuit) == []
    faults = [fault for fault in broken(text) if fault.kind == kind]
    assert faults
    for fault in faults:
        here = effect(with_fault(circuit, fault), range(len(circuit.digits)), {})
        assert left & {place for place, one in effects(text).items() if one == here}, fault.called


UNLINKED = "supply P2 12 V 1 A\nresistor R1 R2 1000 ohm\nrung P2.+, R2, K1.32-31, K1.A1"
ROUND = [GOES_ROUND.format(more="", coil="K1.A1-A2"), GOES_ROUND.format(more=UNLINKED, coil="R1, K1.A1-A2")]
"""In the second the coil hangs on two supplies with no rail in common, so it is not told that it doesn't operate."""
OWN_PLANS = [dedent(one.plan) for one in (*CHECK.right, *CHECK.wrong)]
PLANS = [*OWN_PLANS, *BROKEN_BY.values(), BEHIND_ONE_RELAY, TWO_RELAYS, *ROUND]


@st.composite
def required(draw: st.DrawFn) -> str:
    """A plan with a requirement in which up to three terminals lie elsewhere, or a line is missing."""
    lines = draw(st.sampled_from(PLANS)).splitlines()
    wired = [number for number, line in enumerate(lines) if line.startswith(("rung", "wire"))]
    terminals = sorted({end for number in wired for end in re.findall(r"[A-Z]\w*\.(?:\w+|[+-])", lines[number])})
    for number in draw(st.lists(st.sampled_from(wired), max_size=3)):
        here = re.findall(r"[A-Z]\w*\.(?:\w+|[+-])", lines[number])
        new = draw(st.sampled_from(terminals))
        lines[number] = lines[number].replace(draw(st.sampled_from(here)), new, 1) if here and new else ""
    return "\n".join(lines)


@settings(max_examples=examples(12), suppress_health_check=list(HealthCheck), deadline=None)
@given(required())
def test_what_is_required_of_a_random_plan_the_judge_sees_too(text: str) -> None:
    """Beside a sound box, with every fault of the lists, in each pair of states."""
    try:
        circuit = build_circuit(read_text("a.plan", text))
    except PlanError:
        assume(False)
    assume(prod(digit.radix for digit in circuit.digits) <= MOST_STATES)
    seen = Seen(circuit)
    assert [claim for claim in proved_of_faults(circuit) if not holds(seen, claim)] == [], text


def test_two_relays_behind_two_contacts_outlast_each_fault() -> None:
    """Though the motor's supply is another one, and a buzzer and the frame offer current more ways."""
    circuit = circuit_for(TWO_RELAYS)
    assert proved_of_faults(circuit) == [*requirements(circuit)]


@pytest.mark.parametrize(("text", "does"), [(ROUND[0], True), (ROUND[1], False)])
def test_a_motor_that_a_relay_which_never_comes_to_rest_drives_again_and_again_breaks_it(text: str, does: bool) -> None:
    """Once the varistor across the stop is shorted, K1 breaks its own coil for ever, or is not told not to."""
    circuit = circuit_for(text)
    (fault,) = (one for one in single_faults(circuit) if one.called == "V1 shorted")
    here = effect(with_fault(circuit, fault), range(len(circuit.digits)), {})
    assert (fault in broken(text), breaks(Seen(circuit), circuit.requirements[0], fault.called)) == (does, does)
    assert [effects(text)[place] for place in places_left(text)].count(here) == 1


def test_two_relays_that_hang_on_one_do_not_outlast_its_faults() -> None:
    """Whatever the one does that is not asked first, it is not taken to let go."""
    assert {fault.part for fault in broken(BEHIND_ONE_RELAY)} == {"K3"}
    assert proved_of_faults(circuit_for(BEHIND_ONE_RELAY)) == []


@pytest.mark.parametrize(("part", "obeys"), [("buzzer R1 12 V 0.02 A", True), ("resistor R1 0.3 ohm", False)])
def test_a_motor_is_told_to_stand_still_behind_what_lets_too_little_through(part: str, obeys: bool) -> None:
    """So far as that follows from what stands before it; one that is fed over little is driven."""
    circuit = circuit_of(f"""
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
{part}
motor  M1 12 V stall 5 A may coast
lamp   L1 12 V 2 W
rung   PS.+, F1, M1, R1, PS.-
rung   F1.2, ES1, L1, PS.-
""")
    left = certificate_of(circuit)["without certificate"]
    assert (f"M1 {OBEYS.format('ES1')}" not in left) == obeys


def test_a_requirement_that_is_claimed_and_broken_is_refused() -> None:
    """Sealed anew."""
    circuit = circuit_of(CHECK.wrong[0].plan)
    written = as_read(certificate_of(circuit))
    written["without certificate"] = [one for one in written["without certificate"] if "fault" not in one]
    with pytest.raises(Refused, match="left over"):
        verify(circuit, {**written, "seal": seal_of(written)})
