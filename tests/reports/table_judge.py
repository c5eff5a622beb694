"""What the truth table must say, worked out combination by combination with the judge of single states."""

from collections.abc import Iterator
from itertools import product

import networkx as nx

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.table import truth_table
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.table_rows import ANY, RELAYS_BEFORE, Row, table_rows
from tests.judge.one_state import State
from tests.judge.steps import Judge, with_value

Words = tuple[tuple[str, ...], tuple[str, ...]]
"""What each relay and each motor does."""


def rows_of(
    circuit: Circuit, given: dict[int, tuple[int, ...]] | None = None, motors: tuple[int, ...] = ()
) -> list[Row]:
    """The table as it is shown."""
    return table_rows(truth_table(analyse(circuit), given or {}, motors))


def disagreements(circuit: Circuit, rows: list[Row]) -> Iterator[str]:
    """One line for each combination of which the rows and the judge say different things, or the rows not just one."""
    judge = Judge(circuit)
    reachable = judge.reachable()
    latching = {relay.digit for relay in circuit.relays if relay.function == "latching"}
    others = {relay.digit for relay in circuit.relays} - latching
    choices = [range(1) if number in others else range(len(one.values)) for number, one in enumerate(circuit.digits)]
    for beginning in product(*choices):
        matching = [row for row in rows if fits(circuit, row, beginning)]
        first = [row for row in matching if row.given.get(RELAYS_BEFORE) != "held"]
        ends = list(groups_of_ends(judge, beginning))
        expected = words_after(judge, ends)
        if [spoken(row) for row in first] != [expected]:
            yield f"{beginning}: {[spoken(row) for row in first]}; {expected}, says the judge"
        met = {state for group in ends for state in group}
        moving = {relay.digit for relay in circuit.relays}
        held = {
            words_of(judge, state)
            for state in reachable
            if judge.is_proper(state) and judge.is_settled(state) and state not in met
            if all(state[number] == value for number, value in enumerate(beginning) if number not in moving - latching)
        }
        told = {spoken(row) for row in matching if row.given.get(RELAYS_BEFORE) == "held"}
        if told != held or (held and first and first[0].given[RELAYS_BEFORE] != "released"):
            yield f"{beginning} held: {told}; {held}, says the judge"


def fits(circuit: Circuit, row: Row, state: State) -> bool:
    """Does the state's inputs agree with what the row gives?"""
    words = {digit.name: digit.value_name(value) for digit, value in zip(circuit.digits, state, strict=True)}
    return all(name == RELAYS_BEFORE or word in (ANY, words[name]) for name, word in row.given.items())


def spoken(row: Row) -> Words:
    """A row's words."""
    return tuple(row.relays.values()), tuple(row.motors.values())


def groups_of_ends(judge: Judge, beginning: State) -> list[set[State]]:
    """The groups of states that relays, left to themselves, end in; a shorted state is one by itself."""
    graph: nx.DiGraph[State] = nx.DiGraph()
    graph.add_node(beginning)
    waiting = [beginning]
    while waiting:
        here = waiting.pop()
        following = list(judge.relays_moved(here))
        if judge.is_at_rest(here):
            wishes = judge.judged(here).wishes
            following += [with_value(here, wish.digit, wish.end) for wish in wishes if wish.timed]
        for there in following:
            if there not in graph:
                waiting.append(there)
            graph.add_edge(here, there)
    groups = [set(group) for group in nx.strongly_connected_components(graph)]
    return [group for group in groups if all(there in group for here in group for there in graph.successors(here))]


def words_after(judge: Judge, ends: list[set[State]]) -> Words:
    """The words of a row whose relays can end in these groups."""
    circuit = judge.circuit
    if any(judge.judged(state).shorted for group in ends for state in group):
        return (("-",) * len(circuit.relays), ("shorted",) * len(circuit.motors))
    relays = [
        {words_of(judge, state)[0][number] for group in ends for state in group}
        for number in range(len(circuit.relays))
    ]
    motors = []
    for number in range(len(circuit.motors)):
        by_group = [{words_of(judge, state)[1][number] for state in group} for group in ends]
        words = set().union(*by_group)
        if any(len(one) > 1 for one in by_group):
            motors.append("never settles")
        else:
            motors.append(words.pop() if len(words) == 1 else "order-dependent")
    return (tuple(one.pop() if len(one) == 1 else "-" for one in relays), tuple(motors))


def words_of(judge: Judge, state: State) -> Words:
    """What relays and motors do in one state."""
    circuit = judge.circuit
    relays = tuple(circuit.digits[relay.digit].value_name(state[relay.digit]) for relay in circuit.relays)
    return relays, judge.judged(state).motors
