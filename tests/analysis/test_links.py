"""Contacts that carry current both ways, against the definition: the circuit analysed again with the link conducting
one way only, and without it."""

from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import facts as facts_module
from circuitcheck.analysis.facts import Facts, analyse, conduction_of
from circuitcheck.analysis.feeding import across
from circuitcheck.analysis.links import Fed, Link, links, one_way_loads
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Conductor
from tests.analysis.plans import circuit_of
from tests.analysis.test_carrying import states_of

LINES = """
supply PS 12 V 10 A
switch S1 S2 S3 spst positions off on
lamp   L1 L2 12 V 2 W
relay  K1 no coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
"""


class Told(NamedTuple):
    """A link, its nets by a terminal, and what needs it: by name the states, a digit for each thing that moves."""

    near: str
    far: str
    onward: dict[str, set[str]]
    back: dict[str, set[str]]


def told(facts: Facts, link: Link) -> Told:
    """The link in the plan's words."""
    named = {net: terminal for terminal, net in reversed(facts.conduction.network.nets.items())}
    return Told(named[link.near], named[link.far], needing(facts, link.onward), needing(facts, link.back))


def needing(facts: Facts, fed: tuple[Fed, ...]) -> dict[str, set[str]]:
    """The loads by name, with their states."""
    circuit, found = facts.circuit, {}
    for one in fed:
        states = (state for state in states_of(circuit) if state in one.states)
        found[circuit.loads[one.load].name] = {"".join(map(str, state.values())) for state in states}
    return found


def links_of(text: str) -> list[Told]:
    """All links of a plan."""
    facts = analyse(circuit_of(text))
    return [told(facts, link) for link in links(facts)]


def as_defined(facts: Facts) -> dict[frozenset[Net], dict[tuple[Net, Net], dict[str, set[str]]]]:
    """For each pair of nets with a contact between: both ways round, what is fed over it that way and not without."""
    nets, found = facts.conduction.network.nets, {}
    for pair in {frozenset((nets[one.tail], nets[one.head])) for one in facts.circuit.conductors}:
        if len(pair) == 2:
            one, other = sorted(pair)
            both = {ends: needing(facts, tuple(over(facts, ends))) for ends in ((one, other), (other, one))}
            if all(both.values()):
                found[pair] = both
    return found


def over(facts: Facts, ends: tuple[Net, Net]) -> list[Fed]:
    """What rests fed over a link from its first end to its second, and not without it."""
    found, nets = [], facts.conduction.network.nets
    between = [one for one in facts.circuit.conductors if {nets[one.tail], nets[one.head]} == set(ends)]
    others = [one for one in facts.circuit.conductors if one not in between]
    turned = [one if nets[one.tail] == ends[0] else _turned(one) for one in between if _passes(facts, one, ends)]
    for load in one_way_loads(facts):
        one_way = _fed(facts, load, [*others, *(one._replace(one_way=True) for one in turned)])
        states = facts.possible(one_way - _fed(facts, load, others) - facts.shorted)
        if at_rest := facts.reached_at_rest(states):
            found.append(Fed(load, at_rest))
    return found


def _turned(one: Conductor) -> Conductor:
    return one._replace(tail=one.head, head=one.tail)


def _passes(facts: Facts, one: Conductor, ends: tuple[Net, Net]) -> bool:
    return not one.one_way or facts.conduction.network.nets[one.tail] == ends[0]


def _fed(facts: Facts, load: int, conductors: list[Conductor]) -> States:
    """The states in which these conductors alone feed a load."""
    other = conduction_of(facts.circuit._replace(conductors=tuple(conductors)), facts.spaces)
    one = facts.circuit.loads[load]
    ends = ((one.a, one.b), (one.b, one.a))
    fed = (across(other, difference, *pair) for difference in facts.differences for pair in ends)
    return union(fed, facts.spaces.none())


def test_a_contact_between_two_lines_feeds_the_lamp_of_either_from_the_other() -> None:
    """Each while its own switch is off; the motor has no say, whose current may run either way on purpose."""
    feeds = "rung PS.+, S1, L1, PS.-\nrung PS.+, S2, L2, PS.-\n"
    of_second, of_first = {"L2": {"11010", "11011"}}, {"L1": {"10110", "10111"}}
    assert links_of(LINES + feeds + "rung L1.1, S3, L2.1") == [Told("S1.on", "S2.on", of_second, of_first)]
    assert links_of(LINES + feeds + "rung L1.1, S3, L2.1\nrung L1.1, M1, PS.-") == [
        Told("S1.on", "S2.on", of_second, of_first)
    ]
    assert links_of(LINES + feeds.replace("L1", "M1") + "rung M1.+, S3, L2.1") == []


def test_a_contact_between_two_returns_is_a_link_as_well() -> None:
    """Current comes from either lamp and goes home over the other's switch."""
    assert links_of(LINES + "rung PS.+, L1, S1, PS.-\nrung PS.+, L2, S2, PS.-\nrung L1.2, S3, L2.2") == [
        Told("S1.com", "S2.com", {"L1": {"10110", "10111"}}, {"L2": {"11010", "11011"}})
    ]


def test_a_link_is_told_from_the_side_nearer_to_plus() -> None:
    """Of whichever line: the other one has a second contact in its way."""
    feeds = "button PB1 no\nrung PS.+, {}, L1, PS.-\nrung PS.+, {}, L2, PS.-\nrung L1.1, S3, L2.1"
    ((near, far, *_),) = links_of(LINES + feeds.format("PB1, S1", "S2"))
    assert (near, far) == ("S2.on", "S1.on")
    ((near, far, *_),) = links_of(LINES + feeds.format("S1", "PB1, S2"))
    assert (near, far) == ("S1.on", "S2.on")
    homeward = "button PB1 no\nrung PS.+, L1, {}, PS.-\nrung PS.+, L2, {}, PS.-\nrung L1.2, S3, L2.2"
    ((near, far, *_),) = links_of(LINES + homeward.format("S1", "PB1, S2"))
    assert (near, far) == ("S3.on", "S1.com")


def test_what_moves_something_is_told_as_fed_back() -> None:
    """Where both sides are as near: a relay hangs on either line."""
    feeds = "rung PS.+, S1, {}, PS.-\nrung PS.+, S2, {}, PS.-\nrung S1.on, S3, S2.on"
    for loads in (("K1.A1-A2", "L1"), ("L1", "K1.A1-A2")):
        ((_, _, onward, back),) = links_of(LINES + feeds.format(*loads))
        assert (set(onward), set(back)) == ({"L1"}, {"K1"})


def test_a_link_that_operation_never_closes_at_rest_is_none() -> None:
    """Its contact is a relay's that nothing ever operates."""
    feeds = "rung PS.+, S1, L1, PS.-\nrung PS.+, S2, L2, PS.-\nrung L1.1, K1.13-14, L2.1\n"
    assert links_of(LINES + feeds) == []
    assert len(links_of(LINES + feeds + "rung PS.+, S3, K1.A1-A2, PS.-")) == 1


@st.composite
def lines_with_links(draw: st.DrawFn) -> str:
    """Two or three lines, each fed by a switch or over a diode, with loads; contacts lead from line to line."""
    lines = draw(st.integers(2, 3))
    text = ["supply PS 12 V 10 A", "splice N0 N1 N2 BUS", draw(st.sampled_from(("wire PS.+ BUS", BEHIND_A_STOP)))]
    places = [f"N{number}" for number in range(lines)]
    for number, place in enumerate(places):
        source = draw(st.sampled_from(("BUS", "BUS", "PS.+", "PS.+", places[number - 1])))
        text += [f"switch S{number} spst positions off on", f"rung {source}, S{number}, {place}"]
        for count, load in enumerate(draw(st.lists(st.sampled_from(LOADS), min_size=1, max_size=2))):
            name = f"{load[0].upper()}{number}{count}"
            text += [load.format(name), f"rung {place}, {name}{'.A1-A2' * load.startswith('relay')}, PS.-"]
    for number in range(draw(st.integers(1, 2))):
        one, other = draw(st.permutations(places))[:2]
        through = draw(st.sampled_from(("T{0}", "T{0}", "T{0}", "T{0}, D{0}")))
        text += [f"button T{number} no", f"diode D{number}", f"rung {one}, {through.format(number)}, {other}"]
    return "\n".join(text)


BEHIND_A_STOP = "estop ES nc\nrung PS.+, ES, BUS"
LOADS = (
    "lamp {} 12 V 2 W",
    "relay {} no coil 12 V 160 ohm with diode",
    "motor {} 12 V stall 5 A",
    "buzzer {} 12 V 0.02 A",
)


@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines_with_links(), st.booleans())
def test_links_are_the_contacts_that_feed_a_load_either_way(text: str, cut: bool) -> None:
    """All of them, each with all its loads and states; also where the box is cut at its bus."""
    with pytest.MonkeyPatch.context() as patch:
        if cut:
            patch.setattr(facts_module, "NARROW", 1)
        assert_as_defined(analyse(circuit_of(text)))


def test_a_contact_that_joins_two_supplies_rails_feeds_what_hangs_on_them_elsewhere() -> None:
    """The lamps stand beside the lines that the contact joins, each on the other end of a rail."""
    facts = analyse(circuit_of(TWO_RAILS))
    assert_as_defined(facts)
    assert {name for one in links(facts) for name in needing(facts, one.onward + one.back)} == {"L1", "L2"}


TWO_RAILS = """
supply PS PS2 12 V 10 A
switch S1 S2 spst positions off on
button T1 no
lamp   L1 L2 12 V 2 W
wire   PS.- PS2.-
rung   PS.+, S1, T1, S2, PS2.+
rung   PS.+, L1, PS.-
rung   PS2.+, L2, PS.-
"""


def assert_as_defined(facts: Facts) -> None:
    """The same links with the same loads and states."""
    found = {frozenset((one.near, one.far)): one for one in links(facts)}
    expected = as_defined(facts)
    assert found.keys() == expected.keys()
    for pair, link in found.items():
        assert needing(facts, link.onward) == expected[pair][link.near, link.far]
        assert needing(facts, link.back) == expected[pair][link.far, link.near]
