"""`short` by a SAT solver (CaDiCaL) and an SMT solver (z3): is there a combination with a path from + to −?

A path is a choice of edges: each closed, at most one into and out of a net, one out of +, one into −, and out of any
other net one if and only if one comes in. No order is needed: whatever leaves + ends at −; rings beside harm nothing.
"""

from tests.benchmarks.questions import Question

Clause = list[int]


def clauses_of(question: Question) -> tuple[list[Clause], list[Clause]]:
    """Clauses, and groups of which at most one may hold. Variables are numbered from 1."""
    numbers: dict[object, int] = {}

    def variable(what: object) -> int:
        return numbers.setdefault(what, len(numbers) + 1)

    clauses: list[Clause] = []
    most_one: list[Clause] = []
    for digit, radix in question.radices.items():
        if radix > 2:
            every = [variable((digit, value)) for value in range(radix)]
            clauses.append(every)
            most_one.append(every)

    def has(digit: int, value: int) -> int:
        if question.radices[digit] > 2:
            return variable((digit, value))
        return variable((digit, 1)) if value else -variable((digit, 1))

    into: dict[int, Clause] = {}
    out_of: dict[int, Clause] = {}
    for place, edge in enumerate(question.edges):
        if edge.head == question.start or edge.tail == question.end:
            continue
        taken = variable(("edge", place))
        out_of.setdefault(edge.tail, []).append(taken)
        into.setdefault(edge.head, []).append(taken)
        if edge.digit is not None:
            clauses.append([-taken, *(has(edge.digit, value) for value in edge.values)])
    for taken_here, onward in ((into, out_of), (out_of, into)):
        for net, edges in taken_here.items():
            most_one.append(edges)
            if net not in (question.start, question.end):
                clauses += [[-edge, *onward.get(net, [])] for edge in edges]
    clauses += [out_of.get(question.start, []), into.get(question.end, [])]
    return clauses, most_one


def sat_short(question: Question) -> bool:
    """By CaDiCaL; at-most-one pair by pair in small groups, by a ladder of counters in large ones."""
    from pysat.card import CardEnc, EncType  # type: ignore[import-untyped]
    from pysat.solvers import Solver  # type: ignore[import-untyped]

    clauses, most_one = clauses_of(question)
    top = max(abs(one) for clause in clauses for one in clause)
    with Solver("cadical195", bootstrap_with=clauses) as solver:
        for group in most_one:
            if len(group) > 1:
                kind = EncType.pairwise if len(group) < 6 else EncType.seqcounter
                encoded = CardEnc.atmost(group, 1, top_id=top, encoding=kind)
                top = max(top, encoded.nv)
                solver.append_formula(encoded.clauses)
        return bool(solver.solve())


def smt_short(question: Question) -> bool:
    """By z3, which knows at-most-one by itself."""
    import z3

    clauses, most_one = clauses_of(question)

    def literal(one: int) -> object:
        return z3.Bool(f"v{one}") if one > 0 else z3.Not(z3.Bool(f"v{-one}"))

    solver = z3.Solver()
    solver.add([z3.Or([literal(one) for one in clause]) for clause in clauses])
    solver.add([z3.AtMost(*(literal(one) for one in group), 1) for group in most_one if len(group) > 1])
    return bool(solver.check() == z3.sat)
