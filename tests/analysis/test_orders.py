"""Orders of moves told of a race or an endless round, against trying all moves one by one."""

from collections.abc import Callable, Iterator
from functools import partial

import pytest

from circuitcheck.analysis.orders import Order, first_start, going_round, two_orders
from circuitcheck.analysis.settling import Unsettled, endless, races
from tests.reference.asking import facts_of

BOX = "supply PS 12 V 10 A\nbutton PB1 no\n"
RACE = """
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   PS.+, PB1, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
"""
FED_BY_A_THIRD = """
relay  K3 no coil 12 V 160 ohm with diode
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   PS.+, PB1, K3.A1-A2, PS.-
rung   PS.+, K3.13-14, K1.11-12, K2.A1-A2, PS.-
rung   K3.14, K2.11-12, K1.A1-A2, PS.-
"""
FOR_A_LAMP = RACE + "lamp L1 12 V 2 W\nrung PS.+, K1.14, L1, PS.-\n"
LOCKED_OUT_BY_TWO = """
relay  K1 K2 K3 dpdt coil 12 V 160 ohm with diode
rung   PS.+, PB1
rung   PB1.14, K2.11-12, K3.11-12, K1.A1-A2, PS.-
rung   PB1.14, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.21-24, K3.A1-A2, PS.-
"""
SLOWER_THAN_BOTH = """
relay  K1 K2 dpdt coil 12 V 160 ohm operate 5..9 ms release 1..2 ms with diode
relay  K3 no coil 12 V 160 ohm operate 12..15 ms release 1..2 ms with diode
rung   PS.+, PB1, K1.11-12, K2.A1-A2, PS.-
rung   PB1.14, K2.11-12, K1.A1-A2, PS.-
rung   PB1.14, K3.A1-A2, PS.-
"""
RACES = (RACE, FED_BY_A_THIRD, FOR_A_LAMP, LOCKED_OUT_BY_TWO, SLOWER_THAN_BOTH)
BUZZER = """
relay  K1 spdt coil 12 V 160 ohm with diode
rung   PS.+, PB1, K1.11-12, K1.A1-A2, PS.-
"""
LATE_BUZZER = """
relay  K2 no coil 12 V 160 ohm with diode
relay  K1 spdt coil 12 V 160 ohm with diode
rung   PS.+, PB1, K2.A1-A2, PS.-
rung   PS.+, K2.13-14, K1.11-12, K1.A1-A2, PS.-
"""
ROUND_OF_TWO = """
relay  K1 K2 spdt coil 12 V 160 ohm with diode
rung   PS.+, PB1, K2.11-12, K1.A1-A2, PS.-
rung   PS.+, K1.11-14, K2.A1-A2, PS.-
"""

Path = tuple[tuple[int, int], ...]
"""The digits that move, each with where it goes."""


def moves(found: Unsettled, state: int) -> Iterator[tuple[tuple[int, int], int]]:
    """Each quick move from a state of the course, and the state after it."""
    steps = found.behaviour.course.steps
    for step in steps.quick:
        if step.allowed >> state & 1:
            stride = steps.space.strides[steps.space.index(step.digit)]
            yield (step.digit, step.end), state + (step.end - step.start) * stride + step.clock


def stands(found: Unsettled, state: int) -> bool:
    """Does no relay want to move?"""
    return not list(moves(found, state))


def paths(found: Unsettled, state: int, wanted: Callable[[int], bool]) -> tuple[int, set[Path]]:
    """How few moves lead from a state to one that is wanted, and each way of that many."""
    ways: dict[int, set[Path]] = {state: {()}}
    count = 0
    while not any(wanted(here) for here in ways):
        onward: dict[int, set[Path]] = {}
        for here, those in ways.items():
            for move, there in moves(found, here):
                onward.setdefault(there, set()).update((*path, move) for path in those)
        ways, count = onward, count + 1
        assert count < 20
    return count, {path for here, those in ways.items() if wanted(here) for path in those}


def words_from(found: Unsettled, state: int) -> set[str]:
    """How it may end from a state."""
    seen, waiting = {state}, [state]
    while waiting:
        for _, there in moves(found, waiting.pop()):
            if there not in seen:
                seen.add(there)
                waiting.append(there)
    ends = {here for here in seen if not list(moves(found, here))}
    return {
        word for word, leading in zip(found.words, found.leading, strict=True) for end in ends if leading >> end & 1
    }


def after(found: Unsettled, start: int, order: Path) -> int:
    """The state that moves one after the other lead to."""
    for wanted in order:
        start = next(there for move, there in moves(found, start) if move == wanted)
    return start


def path_of(order: Order) -> Path:
    """Its moves."""
    return tuple((change.digit, change.end) for change in order.changes)


@pytest.mark.parametrize("relays", RACES)
def test_two_orders_part_where_the_next_move_decides_how_it_ends(relays: str) -> None:
    """As soon as it is so, and go on to the end the shortest way; each is told by its first move apart."""
    (found,) = races(facts_of(BOX + relays))
    start, story = first_start(found)
    assert found.starts >> start & 1
    assert story.changes or found.behaviour.course.rounds[0] >> start & 1
    one, other = two_orders(found, start)
    assert one.word != other.word
    assert one.round == other.round == ()
    pairs = enumerate(zip(path_of(one), path_of(other), strict=False))
    begun = next(place for place, pair in pairs if pair[0] != pair[1])

    def decides(state: int) -> bool:
        decided = [words for _, there in moves(found, state) if len(words := words_from(found, there)) == 1]
        return any(words != decided[0] for words in decided)

    count, ways = paths(found, start, decides)
    assert begun == count
    for order in (one, other):
        path = path_of(order)
        assert order.first == path[begun][0]
        assert path[:begun] in ways
        parted = after(found, start, path[: begun + 1])
        assert words_from(found, parted) == {order.word}
        assert path[begun + 1 :] in paths(found, parted, partial(stands, found))[1]
        space = found.behaviour.space
        assert order.changes[-1].state == space.values(after(found, start, path) % space.size)


GOING_ROUND_BEFORE = """
relay  K1 K2 K3 4pdt coil 12 V 160 ohm with diode
splice BUS
rung   PS.+, PB1, BUS
rung   BUS, K1.11-12, K2.11-12, K3.11-12, K1.A1-A2, PS.-
rung   BUS, ( K1.21-22, K3.21-22 | K2.31-34 ), K2.A1-A2, PS.-
rung   BUS, ( K1.31-34, K2.21-22 | K3.31-34 ), K3.A1-A2, PS.-
"""
"""K1 buzzes until K2 comes in while it is out, or K3 while it is in."""


def test_where_relays_may_go_round_before_it_is_decided_each_end_is_told_the_shortest_way() -> None:
    """There is no last moment at which either may follow."""
    (found,) = races(facts_of(BOX + GOING_ROUND_BEFORE))
    start, _ = first_start(found)
    orders = two_orders(found, start)
    assert len({order.word for order in orders}) == 2
    for order in orders:
        word = found.words.index(order.word)
        ends = {end for end in range(found.behaviour.space.size) if (found.ends & found.leading[word]) >> end & 1}
        _, ways = paths(found, start, ends.__contains__)
        assert path_of(order) in ways
    parted = next(place for place, pair in enumerate(zip(*map(path_of, orders), strict=False)) if pair[0] != pair[1])
    assert [order.first for order in orders] == [path_of(order)[parted][0] for order in orders]


@pytest.mark.parametrize(
    ("relays", "before", "around"),
    [(BUZZER, 0, 2), (LATE_BUZZER, 1, 2), (ROUND_OF_TWO, 0, 4)],
)
def test_an_endless_round_is_told_once_round_after_the_shortest_way_into_it(
    relays: str, before: int, around: int
) -> None:
    """Back to the state in which it begins."""
    facts = facts_of(BOX + relays)
    (found,) = endless(facts)
    start, _ = first_start(found)
    order = going_round(found, start)
    assert (order.first, order.word) == (-1, "")
    assert (len(order.changes), len(order.round)) == (before, around)
    into = after(found, start, path_of(order))
    assert found.ends >> into & 1
    again = tuple((change.digit, change.end) for change in order.round)
    assert after(found, into, again) == into
    assert all(after(found, into, again[:count]) != into for count in range(1, around))


def test_there_is_no_first_start_of_what_no_round_reaches() -> None:
    """It is only asked of what has been found."""
    (found,) = races(facts_of(BOX + RACE))
    with pytest.raises(LookupError):
        first_start(found._replace(starts=0))
