"""Every question of conduction that a verdict on a plan with one supply asks, put to each engine alike.

Is there a combination in which conductors lead from + to −? Then of each load: in which it is fed one way, or the
other; in which its ends are joined both ways, as a brake joins them, or one way? A way leads over one of the rails at
most. Each question is whether some ways (from one net to another) can lead at once; the answer has a bit for each, the
first lowest. What an engine has found or learnt it keeps for the next question.
"""

from collections.abc import Iterator
from itertools import chain, product
from typing import Any

from circuitcheck.analysis.facts import conduction_of
from circuitcheck.analysis.feeding import across, leads_both_ways
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.analysis.rails import differences, shorts
from circuitcheck.analysis.states import Spaces
from circuitcheck.circuit.model import Circuit
from tests.benchmarks.questions import Question

Leading = tuple[int, int]
"""From one net to another."""

Clause = list[int]


def own_every(circuit: Circuit, spaces: Spaces) -> int:
    """By this engine, with what the checks ask."""
    conduction = conduction_of(circuit, spaces)
    (difference,) = differences(circuit, conduction)
    answers = [bool(shorts(circuit, conduction))]
    for load in circuit.loads:
        answers += [bool(across(conduction, difference, *ends)) for ends in ((load.a, load.b), (load.b, load.a))]
        answers.append(bool(leads_both_ways(conduction, load.a, load.b, spaces.all())))
        answers += [bool(conduction.leads(*ends)) for ends in ((load.a, load.b), (load.b, load.a))]
    return bits_of(answers)


def every_question(question: Question) -> Iterator[tuple[Leading, ...]]:
    """The ways that have to lead at once, question by question."""
    plus, minus = question.start, question.end
    nets = joined_terminals(question.circuit)
    yield ((plus, minus),)
    for load in question.circuit.loads:
        a, b = nets[load.a], nets[load.b]
        yield from (((plus, a), (b, minus)), ((plus, b), (a, minus)), ((a, b), (b, a)), ((a, b),), ((b, a),))


def bits_of(answers: list[bool]) -> int:
    """One bit each, the first lowest."""
    return sum(answer << place for place, answer in enumerate(answers))


def avoided(question: Question, way: Leading) -> list[frozenset[int]]:
    """The rails that a way may have to leave out: one or the other, where neither is an end of it."""
    rails = [frozenset({rail}) for rail in (question.start, question.end) if rail not in way]
    return rails or [frozenset()]


def search_every(question: Question) -> int:
    """State by state with networkx."""
    import networkx as nx

    asked = list(every_question(question))
    ways = list(dict.fromkeys(chain(*asked)))
    answers = [False] * len(asked)
    for values in product(*(range(radix) for radix in question.radices.values())):
        state = dict(zip(question.radices, values, strict=True))
        graph: nx.DiGraph[int] = nx.DiGraph()
        graph.add_nodes_from(chain(*ways))
        graph.add_edges_from(
            (edge.tail, edge.head) for edge in question.edges if edge.digit is None or state[edge.digit] in edge.values
        )
        without = {rails: nx.restricted_view(graph, rails, ()) for way in ways for rails in avoided(question, way)}
        lead = {way: any(nx.has_path(without[one], *way) for one in avoided(question, way)) for way in ways}
        answers = [known or all(lead[way] for way in one) for known, one in zip(answers, asked, strict=True)]
    return bits_of(answers)


def diagrams_every(question: Question, encoded: Any) -> int:
    """By diagrams: from and to a rail for all nets at once, between two others by taking out all the rest."""
    library, opposite = encoded.library, {question.start: question.end, question.end: question.start}
    reached: dict[tuple[int, bool], dict[int, Any]] = {}
    known: dict[Leading, Any] = {}

    def beside(rail: int, net: int, backward: bool) -> Any:
        if (rail, backward) not in reached:
            reached[rail, backward] = encoded.reach(rail, opposite[rail], backward)
        return reached[rail, backward].get(net, library.false)

    def lead(way: Leading) -> Any:
        start, end = way
        if start == end:
            return library.true
        if start in opposite or end in opposite:
            return beside(start, end, False) if start in opposite else beside(end, start, True)
        if way not in known:
            known[way] = library.false
            for rails in avoided(question, way):
                known[way] |= encoded.leads(start, end, rails)
        return known[way]

    def together(ways: tuple[Leading, ...]) -> bool:
        found = encoded.proper
        for way in ways:
            found &= lead(way)
        return bool(found != library.false)

    return bits_of([together(ways) for ways in every_question(question)])


def sat_every(question: Question) -> int:
    """By CaDiCaL, one encoding for all, each question an assumption."""
    from pysat.card import CardEnc, EncType  # type: ignore[import-untyped]
    from pysat.solvers import Solver  # type: ignore[import-untyped]

    encoding = _Encoding(question)
    top = encoding.count
    with Solver("cadical195", bootstrap_with=encoding.clauses) as solver:
        for group in encoding.most_one:
            if len(group) > 1:
                kind = EncType.pairwise if len(group) < 6 else EncType.seqcounter
                encoded = CardEnc.atmost(group, 1, top_id=top, encoding=kind)
                top = max(top, encoded.nv)
                solver.append_formula(encoded.clauses)
        return bits_of([bool(solver.solve(encoding.assumed(ways))) for ways in every_question(question)])


def smt_every(question: Question) -> int:
    """By z3 likewise."""
    import z3

    encoding = _Encoding(question)

    def literal(one: int) -> Any:
        return z3.Bool(f"v{one}") if one > 0 else z3.Not(z3.Bool(f"v{-one}"))

    solver = z3.Solver()
    solver.add([z3.Or([literal(one) for one in clause]) for clause in encoding.clauses])
    solver.add([z3.AtMost(*map(literal, group), 1) for group in encoding.most_one if len(group) > 1])
    asked = ([literal(one) for one in encoding.assumed(ways)] for ways in every_question(question))
    return bits_of([bool(solver.check(*assumed) == z3.sat) for assumed in asked])


class _Encoding:
    """Two ways at once, each from any net to any other: a choice of edges as in by_solvers.py, and a variable for each
    net that says whether the way begins there, or ends."""

    def __init__(self, question: Question) -> None:
        self._question = question
        self._numbers: dict[object, int] = {}
        self.clauses: list[Clause] = []
        self.most_one: list[Clause] = []
        for digit, radix in question.radices.items():
            if radix > 2:
                every = [self._has(digit, value) for value in range(radix)]
                self.clauses.append(every)
                self.most_one.append(every)
        edges = ((one.tail, one.head) for one in question.edges)
        self._nets = sorted({*chain(*edges), *chain(*chain(*every_question(question)))})
        for copy in (0, 1):
            self._add_way(copy)

    @property
    def count(self) -> int:
        """How many variables there are."""
        return len(self._numbers)

    def assumed(self, ways: tuple[Leading, ...]) -> list[int]:
        """What makes the encoding this question. A way from a net to itself leads always."""
        found = []
        for copy in (0, 1):
            tail, head = ways[copy] if copy < len(ways) and ways[copy][0] != ways[copy][1] else (None, None)
            for net in self._nets:
                begins, ends = self._variable((copy, "begins", net)), self._variable((copy, "ends", net))
                found += [begins if net == tail else -begins, ends if net == head else -ends]
            short = self._variable((copy, "over both"))
            found.append(short if (tail, head) == (self._question.start, self._question.end) else -short)
        return found

    def _variable(self, what: object) -> int:
        return self._numbers.setdefault(what, len(self._numbers) + 1)

    def _has(self, digit: int, value: int) -> int:
        if self._question.radices[digit] > 2:
            return self._variable((digit, value))
        return self._variable((digit, 1)) if value else -self._variable((digit, 1))

    def _add_way(self, copy: int) -> None:
        into: dict[int, Clause] = {net: [] for net in self._nets}
        onward: dict[int, Clause] = {net: [] for net in self._nets}
        for place, edge in enumerate(self._question.edges):
            taken = self._variable((copy, "edge", place))
            onward[edge.tail].append(taken)
            into[edge.head].append(taken)
            if edge.digit is not None:
                self.clauses.append([-taken, *(self._has(edge.digit, value) for value in edge.values)])
        for net in self._nets:
            begins, ends = self._variable((copy, "begins", net)), self._variable((copy, "ends", net))
            self.most_one += [[*into[net], begins], [*onward[net], ends]]
            arriving, leaving = [*into[net], begins], [*onward[net], ends]
            self.clauses += [[-one, *leaving] for one in arriving] + [[-one, *arriving] for one in leaving]
        over = []
        for rail in (self._question.start, self._question.end):
            over.append(self._variable((copy, "over", rail)))
            self.clauses += [[-one, over[-1]] for one in (*into[rail], *onward[rail])]
        self.clauses.append([-over[0], -over[1], self._variable((copy, "over both"))])
