"""Nets taken out of a network, against a search in each state."""

from itertools import permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.elimination import Graph, TakenOut, WayBack, take_out_all
from tests.profiles import examples

STATES = 3
EVERYTHING = (1 << STATES) - 1
SOURCE, END, UNTOUCHED, NETS = 0, 9, 8, range(1, 6)

Ways = list[tuple[int, int, int, bool]]
"""From, to, when, and whether back as well."""

networks = st.lists(
    st.tuples(
        st.sampled_from((SOURCE, *NETS)), st.sampled_from(NETS), st.sampled_from((1, 2, 3, 5, *[7] * 4)), st.booleans()
    ).filter(lambda way: way[0] != way[1]),
    max_size=9,
)
ends = st.dictionaries(st.sampled_from((SOURCE, *NETS, UNTOUCHED)), st.integers(1, EVERYTHING), max_size=3)


def graph_of(ways: Ways) -> Graph:
    """The ways joined; no way leads back into the source."""
    nets = (SOURCE, *NETS)
    graph = Graph(SOURCE, {net: {} for net in nets}, {net: {} for net in nets}, EVERYTHING)
    for tail, head, closed, both_ways in ways:
        graph.lead(tail, head, closed, both_ways and tail != SOURCE)
    return graph


def led_to(ways: Ways, end: dict[int, int], state: int) -> set[int]:
    """The nets that the source leads to in one state."""
    steps = {(tail, head) for tail, head, closed, _ in ways if closed >> state & 1}
    steps |= {(head, tail) for tail, head, closed, both in ways if both and tail != SOURCE and closed >> state & 1}
    steps |= {(net, END) for net, closed in end.items() if closed >> state & 1}
    reached = {SOURCE}
    for _ in NETS:
        reached |= {head for tail, head in steps if tail in reached}
    return reached | {head for tail, head in steps if tail in reached}


def order(taken_out: TakenOut | None) -> list[int]:
    """The nets taken out, the first first."""
    return [*order(taken_out.before), taken_out.net] if taken_out else []


@settings(max_examples=examples(60), deadline=None)
@given(networks, ends, st.permutations([*NETS, END]), st.sets(st.sampled_from(NETS)))
def test_going_back_leads_where_a_search_in_each_state_does(
    ways: Ways, end: dict[int, int], asked: list[int], sooner: set[int]
) -> None:
    """Whichever nets are taken out before all others, and in whatever order it is asked."""
    graph = graph_of(ways)
    taken_out = take_out_all(graph, set(NETS) - sooner, take_out_all(graph, sooner, None))
    back = WayBack(graph, taken_out, {END: end} if end else {})
    found = {net: back.at(net) for net in asked}
    for state in range(STATES):
        led = led_to(ways, end, state)
        assert {net for net in asked if found[net] >> state & 1} == led - {SOURCE}


@settings(max_examples=examples(25), deadline=None)
@given(networks)
def test_the_net_with_the_fewest_nets_beside_it_goes_first(ways: Ways) -> None:
    """As the ways are by then; of nets with as few, the one with the lowest number."""
    graph = graph_of(ways)
    left, expected = graph.copied(), list[int]()
    while nets := set(NETS) - set(expected):
        expected.append(min(nets, key=lambda net: (len({*left.into[net], *left.onward[net]}), net)))
        left.take_out(expected[-1])
    assert order(take_out_all(graph, NETS, None)) == expected


def test_a_way_that_joins_others_leads_when_any_of_them_does() -> None:
    """There and back, each with what was there in its direction."""
    graph = graph_of([(1, 2, 1, False), (2, 1, 2, False), (1, 2, 4, True)])
    assert (graph.onward[1], graph.into[2]) == ({2: 5}, {1: 5})
    assert (graph.onward[2], graph.into[1]) == ({1: 6}, {2: 6})


def test_what_is_alike_both_ways_stays_one_value() -> None:
    """So that it need not be worked out twice."""
    graph = graph_of([(1, 2, 1 << 80, True), (1, 2, 1 << 90, True)])
    assert graph.onward[1][2] is graph.onward[2][1]


def past_two(*ways: tuple[int, int, int, bool]) -> dict[int, dict[int, int]]:
    """Where ways lead once net 2 is taken out, however its ways came together."""
    found = []
    for order_of_them in permutations(ways):
        graph = graph_of(list(order_of_them))
        graph.take_out(2)
        assert {(tail, head) for head, row in graph.into.items() for tail in row} == {
            (tail, head) for tail, row in graph.onward.items() for head in row
        }
        found.append({tail: row for tail, row in graph.onward.items() if row})
    assert all(one == found[0] for one in found)
    return found[0]


def test_ways_lead_past_a_net_in_their_direction_where_both_are_closed() -> None:
    """One way and both ways beside each other; nothing where they are never closed together."""
    assert past_two((1, 2, 1, False), (2, 3, 7, True)) == {1: {3: 1}}
    assert past_two((2, 1, 1, False), (2, 3, 7, True)) == {3: {1: 1}}
    assert past_two((1, 2, 3, True), (2, 3, 6, True)) == {1: {3: 2}, 3: {1: 2}}
    assert past_two((1, 2, 1, True), (2, 3, 2, True)) == {}


def test_past_a_net_that_is_always_one_with_another_all_leads_to_that_one_alone() -> None:
    """What its ways have to do with each other is told by theirs to it."""
    assert past_two((1, 2, 7, True), (2, 3, 1, True), (2, 4, 3, True)) == {1: {3: 1, 4: 3}, 3: {1: 1}, 4: {1: 3}}
    assert past_two((SOURCE, 2, 7, False), (2, 3, 1, True), (4, 2, 3, False)) == {SOURCE: {3: 1}}


def test_past_a_net_that_is_sometimes_or_one_way_one_with_another_all_leads_to_all() -> None:
    """Else something would be led to nowhere."""
    assert past_two((SOURCE, 2, 1, False), (4, 2, 6, False), (2, 3, 7, False)) == {SOURCE: {3: 1}, 4: {3: 6}}
    assert past_two((1, 2, 1, True), (4, 2, 6, False), (2, 3, 7, False)) == {1: {3: 1}, 4: {3: 6}}
    assert past_two((1, 2, 7, False), (2, 3, 1, True), (2, 4, 1, True)) == {
        1: {3: 1, 4: 1}, 3: {4: 1}, 4: {3: 1},
    }  # fmt: skip
