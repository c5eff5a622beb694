"""What a draft describes, as an editor's outline shows it."""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.editor.drafts import Draft
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import Axis, Fit, Part, Statement


class Entry(NamedTuple):
    """kind: "part", "axis", "fit", "type" or "module". detail: what it is. place: of the name; whole: of all of it."""

    name: str
    kind: str
    detail: str
    place: Place
    whole: Place
    inside: tuple["Entry", ...] = ()


def outline(draft: Draft) -> list[Entry]:
    """Types, modules with what is in them, parts, axes and fits, in the order of the file."""
    contents = draft.contents
    entries = [Entry(one.name.text, "type", one.kind.text, one.name.place, one.place) for one in contents.types]
    for module in contents.modules:
        inside = tuple(_entries(module.statements))
        ports = " ".join(port.text for port in module.ports)
        entries.append(Entry(module.name.text, "module", ports, module.name.place, module.place, inside))
    entries += _entries(contents.statements)
    return sorted(entries, key=lambda one: one.place)


def _entries(statements: tuple[Statement, ...]) -> Iterator[Entry]:
    for one in statements:
        if isinstance(one, Part):
            detail = " ".join(filter(None, (one.kind.text, one.label)))
            yield from (Entry(word.text, "part", detail, word.place, one.place) for word in one.names)
        elif isinstance(one, Axis):
            yield Entry(one.name.text, "axis", " ".join(place.text for place in one.places), one.name.place, one.place)
        elif isinstance(one, Fit):
            yield Entry(one.name.text, "fit", one.module.text, one.name.place, one.place)
