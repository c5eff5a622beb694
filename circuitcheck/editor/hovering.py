"""What is told of the word under the cursor without any analysis: what it is."""

from typing import NamedTuple

from circuitcheck.circuit.catalogue.kinds import KINDS
from circuitcheck.circuit.wording import article
from circuitcheck.editor.drafts import Draft
from circuitcheck.editor.symbols import Occurrence, occurrence_at
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import Type
from circuitcheck.plan.tokens import Token
from circuitcheck.plan.words import EXAMPLES


class Hovered(NamedTuple):
    """place: of the word. texts: Markdown. part: its full name where it is one of the plan's, "" else; terminals: those
    of it that the word names, in full. wire: the word belongs to a wire of the plan itself, and names none of its ends.
    """

    place: Place
    texts: tuple[str, ...]
    part: str = ""
    terminals: tuple[str, ...] = ()
    wire: bool = False


def hovered(draft: Draft, line: int, column: int) -> Hovered | None:
    """The word at a place of the draft; None where there is nothing to say of it."""
    found = _token_at(draft, line, column)
    if found is None:
        return None
    token, place = found
    if token.kind in ("TERMINAL", "PASSAGE"):
        return _of_terminal(draft, token.text, place)
    name = occurrence_at(draft.occurrences, line, column)
    if name is not None:
        return _of_name(draft, name)
    if token.kind in ("WIRE", "NUMBER", "UNIT", "COLOUR") and _is_of_wire(draft, line):
        return Hovered(place, (f"`wire`, as in `{EXAMPLES['wire']}`",), wire=draft.module_at(line) is None)
    example = EXAMPLES.get(token.text)
    if example is None or (token.start > 0 and token.kind != "KIND"):
        return None
    takes = [f"`{one}`" for one in KINDS[token.text].takes if one] if token.text in KINDS else []
    taken = f"\n\nIt takes {', '.join(takes)}." if takes else ""
    return Hovered(place, (f"`{token.text}`, as in `{example}`{taken}",))


def _token_at(draft: Draft, line: int, column: int) -> tuple[Token, Place] | None:
    for statement in draft.statements:
        if statement.place.line <= line <= statement.place.end_line:
            for token in draft.tokens(statement):
                place = statement.place_at(token.start, token.end)
                if place.line == line and place.column <= column < place.end_column:
                    return token, place
    return None


def _is_of_wire(draft: Draft, line: int) -> bool:
    return any(one.place.line <= line <= one.place.end_line and one.text.startswith("wire") for one in draft.statements)


def _of_terminal(draft: Draft, text: str, place: Place) -> Hovered | None:
    module = draft.module_at(place.line)
    names = draft.known(module).names
    part_name, _, mark = text.rpartition(".")
    part = names.parts.get(text) or names.parts.get(part_name)
    if part is None:
        return None
    marks = [one for one in ((mark, *mark.split("-")) if part.name != text else part.marks) if one in part.marks]
    terminals = tuple(f"{part.name}.{one}" if one else part.name for one in dict.fromkeys(marks))
    told = _description(part.name, part.kind, part.features, part.label, part.marks)
    shown = f"**{text}** · {told}"
    return Hovered(place, (shown,), *(("", ()) if module else (part.name, terminals)))


def _of_name(draft: Draft, name: Occurrence) -> Hovered | None:
    symbol = name.symbol
    module = draft.module_at(name.place.line)
    part = draft.known(module).names.parts.get(symbol.name) if symbol.kind == "part" else None
    if part is not None:
        text = f"**{part.name}** · {_description(part.name, part.kind, part.features, part.label, part.marks)}"
        return Hovered(name.place, (text,), "" if module else part.name)
    described: Type | None = draft.plan.types.get(symbol.name)
    if symbol.kind == "type" and described:
        return Hovered(name.place, (f"**{symbol.name}** · type of {described.kind.text}",))
    if symbol.kind == "module" and symbol.name in draft.plan.modules:
        ports = " ".join(port.text for port in draft.plan.modules[symbol.name].ports)
        return Hovered(name.place, (f"**{symbol.name}** · module with the ports {ports}",))
    if symbol.kind == "place":
        return Hovered(name.place, (f"**{symbol.name}** · place on the axis {symbol.owner}",))
    if symbol.kind == "position":
        return Hovered(name.place, (f"**{symbol.name}** · position of {symbol.owner.split()[-1]}",))
    return None


def _description(name: str, kind: str, features: tuple[str, ...], label: str, marks: tuple[str, ...]) -> str:
    words = " ".join((*features, kind))
    named = f' "{label}"' if label else ""
    terminals = f"; terminals {' '.join(marks)}" if any(marks) else ""
    return f"{name}, {article(words)}{named}{terminals}"
