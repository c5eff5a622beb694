"""Problems and findings as an editor underlines them."""

from collections.abc import Iterable, Iterator
from typing import Final

from lsprotocol import types
from pygls.workspace import PositionCodec

from circuitcheck.checks.check import Finding
from circuitcheck.editor.drafts import Draft
from circuitcheck.editor.naming import uri_of
from circuitcheck.editor.positions import range_of, whole_line
from circuitcheck.editor.symbols import real_file
from circuitcheck.plan.source import Place, Problem
from circuitcheck.reports.problems import printable

SEVERITIES: Final = {
    "error": types.DiagnosticSeverity.Error,
    "warning": types.DiagnosticSeverity.Warning,
    "note": types.DiagnosticSeverity.Information,
}
BY: Final = "circuitcheck"


def problem_diagnostics(draft: Draft, problems: Iterable[Problem], codec: PositionCodec) -> Iterator[types.Diagnostic]:
    """Why the plan can't be understood; of a file that it uses, told where it is used."""
    for one in problems:
        message = f"{one.what}. {one.help}"
        if real_file(one.place.file) != real_file(draft.file):
            message = f"{one.place.file}:{one.place.line}:{one.place.column}: {message}"
        related = [(one.place, "It is here."), *one.also] if _is_elsewhere(draft, one.place) else list(one.also)
        yield types.Diagnostic(
            _range(draft, one.place, codec), printable(message), types.DiagnosticSeverity.Error, source=BY,
            related_information=_related(draft, related, codec),
        )  # fmt: skip


def finding_diagnostics(
    draft: Draft, findings: Iterable[Finding], current: bool, codec: PositionCodec
) -> Iterator[types.Diagnostic]:
    """What checks found. current: whether they are of this very draft; else they stand where their parts now are."""
    now_at = {} if current else {one.symbol.name: one.place for one in draft.occurrences if one.defines}
    for one in findings:
        where = [now_at.get(name, place) for name, place in zip(one.parts, one.where, strict=False)] or list(one.where)
        place = next((place for place in where if not _is_elsewhere(draft, place)), where[0])
        told = [f"{one.what}.", one.remedy, *([f"To see it: {'; '.join(one.steps)}."] if one.steps else [])]
        related = [(other, f"{name} belongs to it.") for name, other in zip(one.parts, where, strict=False)]
        yield types.Diagnostic(
            _range(draft, place, codec), "\n".join(map(printable, told)),
            SEVERITIES[one.severity], code=one.check, source=BY,
            related_information=_related(draft, [pair for pair in related if pair[0] != place], codec),
        )  # fmt: skip


def _is_elsewhere(draft: Draft, place: Place) -> bool:
    return real_file(place.file) != real_file(draft.file)


def _range(draft: Draft, place: Place, codec: PositionCodec) -> types.Range:
    """What lies in another file is told at the first `use` of this one, or at its first line."""
    lines = draft.source.lines
    if _is_elsewhere(draft, place):
        uses = draft.contents.uses
        return range_of(uses[0].place, lines, codec) if uses else whole_line(1, lines, codec)
    return range_of(place, lines, codec) if place.line <= len(lines) else whole_line(len(lines), lines, codec)


def _related(
    draft: Draft, places: list[tuple[Place, str]], codec: PositionCodec
) -> list[types.DiagnosticRelatedInformation]:
    sources = {real_file(one.file): one.lines for one in draft.plan.sources}
    known = [(place, sentence, sources.get(real_file(place.file), ())) for place, sentence in places]
    return [
        types.DiagnosticRelatedInformation(
            types.Location(uri_of(place.file), range_of(place, lines, codec)), printable(sentence)
        )
        for place, sentence, lines in known
        if place.line <= len(lines)
    ]
