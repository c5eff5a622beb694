"""Modules put in place: each `fit` becomes the statements of its module, with the fit's name before every name.

`fit R1 Reverser : plus F1.2` gives the ports R1.plus … as parts, then Reverser's own statements in the scope "R1.", and
keeps the fit itself for its joins.
"""

from typing import NamedTuple

from circuitcheck.circuit.wording import listed, suggestion, suggestion_after
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Fit, Module, Part, Plan, Statement, Word

MOST_PARTS = 20_000
DEEPEST_FIT = 20


class Scoped(NamedTuple):
    """A statement, and what goes before each name in it ("R1.", "" outside modules)."""

    scope: str
    statement: Statement


def flatten(plan: Plan, problems: list[Problem]) -> tuple[list[Scoped], frozenset[str]]:
    """Every statement of the plan with modules put in place, in the plan's order; adds what is wrong to `problems`.

    With it the full names of fits that could not be put in place, of whose insides nothing is known.
    A module that holds itself is a problem and is not put in place. Where more than 20,000 parts would come about, that
    is the problem, and no statement is given back: half a plan would only raise more.
    """
    flat: list[Scoped] = []
    unplaced: set[str] = set()
    stack: list[tuple[Scoped, tuple[str, ...]]] = [(Scoped("", one), ()) for one in reversed(plan.statements)]
    parts = 0
    while stack:
        scoped, inside = stack.pop()
        statement = scoped.statement
        flat.append(scoped)
        if isinstance(statement, Part):
            parts += len(statement.names)
        elif isinstance(statement, Fit):
            module = _fitting_module(statement, plan, inside, problems)
            if module is None:
                unplaced.add(scoped.scope + statement.name.text)
            else:
                scope = f"{scoped.scope}{statement.name.text}."
                deeper = (*inside, module.name.text)
                stack.extend((Scoped(scope, inner), deeper) for inner in reversed(module.statements))
                flat.extend(Scoped(scope, port) for port in _port_parts(module))
                parts += len(module.ports)
        if parts > MOST_PARTS or len(flat) > 3 * MOST_PARTS:
            help = "Divide the plan, or look for a module that is fitted more often than meant."
            problems.append(Problem(statement.place, f"more than {MOST_PARTS:,} parts up to here", help))
            return [], frozenset()
    return flat, frozenset(unplaced)


def _port_parts(module: Module) -> list[Part]:
    return [Part(Word("port", port.place), (port,), None, (), "", port.place) for port in module.ports]


def _fitting_module(fit: Fit, plan: Plan, inside: tuple[str, ...], problems: list[Problem]) -> Module | None:
    """The module that a fit names; None, with a problem, where it can't be put in place."""
    module = plan.modules.get(fit.module.text)
    if module is None:
        what = f"no module {fit.module.text}"
        problems.append(Problem(fit.module.place, what, suggestion_after(problems, fit.module.text, plan.modules)))
        return None
    if fit.module.text in inside:
        circle = " fits ".join((*inside[inside.index(fit.module.text) :], fit.module.text))
        also = ((module.name.place, f"{fit.module.text} is described here."),)
        help = f"{circle}, without an end. Take one of these fits away."
        problems.append(Problem(fit.module.place, f"{fit.module.text} would hold itself", help, also))
        return None
    if len(inside) >= DEEPEST_FIT:
        help = f"Modules may be fitted into one another {DEEPEST_FIT} deep."
        problems.append(Problem(fit.place, "modules within modules too deep", help))
        return None
    problems.extend(_joins_amiss(fit, module))
    return module


def _joins_amiss(fit: Fit, module: Module) -> list[Problem]:
    ports = [port.text for port in module.ports]
    found: list[Problem] = []
    first: dict[str, Word] = {}
    for port, _ in fit.joins:
        if port.text not in ports:
            what = f"{module.name.text} has no port {port.text}"
            found.append(Problem(port.place, what, suggestion(port.text, ports)))
        elif port.text in first:
            also = ((first[port.text].place, f"{port.text} is first joined here."),)
            help = "A port is joined once; join further wires to the terminal that it leads to."
            found.append(Problem(port.place, f"port {port.text} is joined twice", help, also))
        first.setdefault(port.text, port)
    absent = [port for port in ports if port not in first]
    if absent:
        also = ((module.name.place, f"{module.name.text} has the ports {' '.join(ports)}."),)
        what = f"{fit.name.text} leaves {listed(absent, 'and')} of {module.name.text} unjoined"
        found.append(Problem(fit.place, what, f"Add e.g. `{absent[0]} F1.2` after the colon.", also))
    return found
