"""Answers as the protocol has them."""

import os
from collections.abc import Iterable
from typing import Final

from lsprotocol import types
from pygls.workspace import PositionCodec

from circuitcheck.checks.check import Finding
from circuitcheck.editor.asking import Elsewhere, Fix
from circuitcheck.editor.colouring import TYPES, coloured
from circuitcheck.editor.completing import completion
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.naming import uri_of
from circuitcheck.editor.outline import Entry, outline
from circuitcheck.editor.positions import position, range_of, replacement, units
from circuitcheck.editor.symbols import Occurrence
from circuitcheck.layout.tidying import tidied
from circuitcheck.plan.source import Place, PlanError

_COMPLETION_KINDS: Final = {
    "keyword": types.CompletionItemKind.Keyword, "part": types.CompletionItemKind.Variable,
    "terminal": types.CompletionItemKind.Field, "type": types.CompletionItemKind.Class,
    "module": types.CompletionItemKind.Module, "place": types.CompletionItemKind.EnumMember,
    "value": types.CompletionItemKind.Value, "unit": types.CompletionItemKind.Unit,
    "colour": types.CompletionItemKind.Color,
}  # fmt: skip
_SYMBOL_KINDS: Final = {
    "part": types.SymbolKind.Variable, "axis": types.SymbolKind.Number, "fit": types.SymbolKind.Object,
    "type": types.SymbolKind.Class, "module": types.SymbolKind.Module,
}  # fmt: skip


def range_in(draft: Draft, place: Place, codec: PositionCodec) -> types.Range:
    """A place of the draft."""
    return range_of(place, draft.source.lines, codec)


def completions(
    draft: Draft, line: int, column: int, findings: tuple[Finding, ...], codec: PositionCodec
) -> types.CompletionList:
    """Each with the edit that puts it in the place of the word that is being written."""
    found = completion(draft, line, column, findings)
    lines = draft.source.lines
    stretch = types.Range(position(line, found.column, lines, codec), position(line, column, lines, codec))
    items = [
        types.CompletionItem(
            label=one.text, kind=_COMPLETION_KINDS[one.kind], detail=one.detail or None, filter_text=one.text,
            sort_text=f"{number:04}", text_edit=types.TextEdit(stretch, one.text),
        )
        for number, one in enumerate(found.suggestions)
    ]  # fmt: skip
    return types.CompletionList(is_incomplete=False, items=items)


def hover(draft: Draft, place: Place, told: list[str], codec: PositionCodec) -> types.Hover:
    """What is told, beside the word that it is about."""
    content = types.MarkupContent(types.MarkupKind.Markdown, "\n\n".join(told))
    return types.Hover(content, range_in(draft, place, codec))


def locations(desk: Desk, found: Iterable[Occurrence], codec: PositionCodec) -> list[types.Location]:
    """Where the names stand."""
    return [
        types.Location(uri_of(one.place.file), range_in(desk.draft(one.place.file), one.place, codec)) for one in found
    ]


def used_file(desk: Desk, draft: Draft, line: int, column: int) -> types.Location | None:
    """The file that a `use` under the cursor means."""
    for use in draft.contents.uses:
        if use.path.place.line == line and use.path.place.column <= column <= use.path.place.end_column:
            file = os.path.normpath(os.path.join(os.path.dirname(draft.file), use.path.text))
            start = types.Position(0, 0)
            return types.Location(uri_of(file), types.Range(start, start)) if desk.draft(file).problem is None else None
    return None


def rename_edits(
    desk: Desk, found: dict[str, list[Occurrence]], name: str, codec: PositionCodec
) -> types.WorkspaceEdit:
    """The edits of every file."""
    edits = {
        uri_of(desk.draft(file).file): [
            types.TextEdit(range_in(desk.draft(file), one.place, codec), name) for one in occurrences
        ]
        for file, occurrences in found.items()
    }
    return types.WorkspaceEdit(changes=edits)


def symbols(draft: Draft, codec: PositionCodec) -> list[types.DocumentSymbol]:
    """The outline."""
    return [_symbol(draft, one, codec) for one in outline(draft)]


def _symbol(draft: Draft, entry: Entry, codec: PositionCodec) -> types.DocumentSymbol:
    return types.DocumentSymbol(
        name=entry.name,
        kind=_SYMBOL_KINDS[entry.kind],
        range=range_in(draft, entry.whole, codec),
        selection_range=range_in(draft, entry.place, codec),
        detail=entry.detail,
        children=[_symbol(draft, one, codec) for one in entry.inside],
    )


def layout_edits(draft: Draft, codec: PositionCodec) -> list[types.TextEdit]:
    """What brings the draft into the one layout; nothing while it can't be read."""
    try:
        text = tidied(draft.source) if draft.problem is None else ""
    except PlanError:
        text = ""
    edit = replacement(draft.source.lines, tuple(text.split("\n")), codec) if text else None
    return [edit] if edit else []


def colours(draft: Draft, codec: PositionCodec) -> types.SemanticTokens:
    """Five numbers a word: lines and columns from the word before, length, type, and no modifiers."""
    data: list[int] = []
    last_line = last_start = 0
    for one in coloured(draft):
        text = draft.source.lines[one.line - 1]
        start, end = (units(text[: column - 1], codec) for column in (one.column, one.end_column))
        line = one.line - 1
        data += [line - last_line, start - last_start if line == last_line else start, end - start]
        data += [TYPES.index(one.type), 0]
        last_line, last_start = line, start
    return types.SemanticTokens(data)


def quick_fixes(
    draft: Draft, fixes: Iterable[Fix | Elsewhere], asked: types.CodeActionParams, codec: PositionCodec
) -> list[types.CodeAction]:
    """Remedies; those that change what the prop does say so, and none of them is the preferred one. What would have to
    be put right in another file is shown as something that can't be chosen, with the reason."""
    actions = []
    for fix in fixes:
        if isinstance(fix, Elsewhere):
            actions.append(_not_from_here(fix))
            continue
        edit = replacement(draft.source.lines, tuple(fix.text.split("\n")), codec)
        if edit is None:
            continue
        actions.append(
            types.CodeAction(
                title=fix.title + (f" (changes {fix.changes})" if fix.changes else ""),
                kind=types.CodeActionKind.QuickFix,
                is_preferred=not fix.changes,
                diagnostics=[one for one in asked.context.diagnostics if one.code == fix.finding.check],
                edit=types.WorkspaceEdit(changes={asked.text_document.uri: [edit]}),
            )
        )
    return actions


def _not_from_here(one: Elsewhere) -> types.CodeAction:
    part = one.finding.parts[0]
    reason = f"{part} is described in {one.file}, which other plans may use: put it right there."
    return types.CodeAction(
        title=f"put {part} right ({one.finding.check})",
        kind=types.CodeActionKind.QuickFix,
        disabled=types.CodeActionDisabled(reason),
    )
