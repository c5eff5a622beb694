"""Where in a plan's own file a part is described, and which words of rungs and wires there name it."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from circuitcheck.plan.source import Place, Source
from circuitcheck.plan.syntax import Fit, Fork, Part, Plan, Rung, Statement, Wire, Word
from circuitcheck.remedies.remedy import Edit


class Site(NamedTuple):
    """source: the plan's own file. statements: of the plan, or of the module that the part is in. part: the statement
    that describes it. name: as it is written there. scope: what stands before it in its full name, "" or "R1."."""

    source: Source
    statements: tuple[Statement, ...]
    part: Part
    name: str
    scope: str


def site_of(plan: Plan, full_name: str, place: Place) -> Site | None:
    """The part that is described at `place`; None where that is not in the plan's own file."""
    for statements in (plan.statements, *(module.statements for module in plan.modules.values())):
        for statement in statements:
            names = statement.names if isinstance(statement, Part) else ()
            word = next((word for word in names if word.place == place and place.file == plan.file), None)
            if word is not None and isinstance(statement, Part):
                scope = full_name.removesuffix(word.text)
                return Site(plan.sources[0], statements, statement, word.text, scope)
    return None


def mentions(site: Site) -> Iterator[tuple[Statement, Word]]:
    """Each word of a rung, wire or fit that names the part or a terminal of it, with its statement."""
    for statement in site.statements:
        for word in _words(statement):
            if word.text == site.name or word.text.startswith(f"{site.name}."):
                yield statement, word


def _words(statement: Statement) -> Iterator[Word]:
    if isinstance(statement, Wire):
        yield from statement.ends
    elif isinstance(statement, Fit):
        yield from (terminal for _, terminal in statement.joins)
    elif isinstance(statement, Rung):
        stack = [*statement.items]
        while stack:
            item = stack.pop()
            if isinstance(item, Fork):
                stack.extend(inner for branch in item.branches for inner in branch)
            else:
                yield item


def remarked(site: Site, change: Callable[[str], str]) -> tuple[Edit, ...]:
    """Edits that give every mark of the part, wherever it is wired, the mark that `change` makes of it."""
    edits = []
    for _, word in mentions(site):
        way = word.text.removeprefix(site.name).removeprefix(".")
        new = "-".join(change(mark) for mark in way.split("-")) if way else change("")
        if new != way:
            edits.append(Edit(word.place, f"{site.name}.{new}" if new else site.name))
    return tuple(edits)


def last_place(site: Site) -> Place:
    """Where the last statement stands that wires the part, or that which describes it."""
    places = (statement.place for statement, _ in mentions(site))
    return max(places, key=lambda place: place.end_line, default=site.part.place)


def free_name(prefix: str, site: Site, taken: frozenset[str]) -> str:
    """The first of D1, D2 … that nothing in the part's scope goes by. taken: every full name."""
    number = 1
    while f"{site.scope}{prefix}{number}" in taken:
        number += 1
    return f"{prefix}{number}"
