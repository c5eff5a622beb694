"""The language server: each request of the protocol, answered by the file of this folder that knows."""

from pathlib import Path
from typing import Protocol

from lsprotocol import types
from pygls.exceptions import JsonRpcInvalidParams
from pygls.lsp.server import LanguageServer

from circuitcheck import __version__
from circuitcheck.checks.check import Finding
from circuitcheck.editor import answers
from circuitcheck.editor.asking import Remedies, Tell, TellWire
from circuitcheck.editor.colouring import TYPES
from circuitcheck.editor.diagnosing import finding_diagnostics, problem_diagnostics
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.examiner import Examiner
from circuitcheck.editor.hovering import hovered
from circuitcheck.editor.naming import file_of, uri_of
from circuitcheck.editor.positions import line_and_column
from circuitcheck.editor.publishing import Publisher
from circuitcheck.editor.renaming import CannotRename, everywhere, renamed
from circuitcheck.editor.symbols import Occurrence, occurrence_at
from circuitcheck.plan.source import Problem


class Asked(Protocol):
    """A request about a place in a file."""

    text_document: types.TextDocumentIdentifier
    position: types.Position


class Session:
    """What one editor works on. folders: those of its workspace, whose plans references and renaming go through."""

    def __init__(self, server: LanguageServer, library: tuple[Path, ...]) -> None:
        self.server = server
        self.library = library
        self.folders: tuple[str, ...] = ()
        self.desk = Desk(library)
        self.examiner = Examiner()
        self.publisher = Publisher(self.desk, self.examiner, self.publish)

    def begin(self, folders: tuple[str, ...]) -> None:
        """Plans may use whatever lies in the folders that the editor works in."""
        self.folders = folders
        self.desk.roots = (*self.library, *map(Path, folders))

    def publish(
        self, draft: Draft, problems: tuple[Problem, ...], findings: tuple[Finding, ...], current: bool
    ) -> None:
        """Underlines what is wrong."""
        codec = self.server.workspace.position_codec
        shown = [*problem_diagnostics(draft, problems, codec), *finding_diagnostics(draft, findings, current, codec)]
        self.server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri_of(draft.file), shown))

    def take(self, uri: str) -> None:
        """The editor has another text of a file."""
        file = file_of(uri)
        self.desk.put(file, self.server.workspace.get_text_document(uri).source)
        self.publisher.changed(file)

    def draft(self, document: types.TextDocumentIdentifier) -> Draft:
        """The file that a request is about."""
        return self.desk.draft(file_of(document.uri))

    def at(self, asked: Asked) -> tuple[Draft, int, int]:
        """The file, line and column that a request is about."""
        draft = self.draft(asked.text_document)
        codec = self.server.workspace.position_codec
        return draft, *line_and_column(asked.position, draft.source.lines, codec)

    def name_at(self, asked: Asked) -> Occurrence | None:
        """The name that a request is about."""
        draft, line, column = self.at(asked)
        return occurrence_at(draft.occurrences, line, column)


def language_server(library: tuple[Path, ...]) -> LanguageServer:
    """A server that is ready to be started. library: folders of shared parts besides those of the workspace."""
    server = LanguageServer("circuitcheck", __version__)
    session = Session(server, library)
    _documents(server, session)
    _while_writing(server, session)
    _names(server, session)
    _whole_files(server, session)
    return server


def _documents(server: LanguageServer, session: Session) -> None:
    @server.feature(types.INITIALIZED)
    def initialized(_: types.InitializedParams) -> None:
        session.begin(tuple(file_of(folder.uri) for folder in server.workspace.folders.values()))

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def opened(asked: types.DidOpenTextDocumentParams) -> None:
        session.take(asked.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def changed(asked: types.DidChangeTextDocumentParams) -> None:
        session.take(asked.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def closed(asked: types.DidCloseTextDocumentParams) -> None:
        file = file_of(asked.text_document.uri)
        session.desk.close(file)
        session.publisher.closed(file)
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(asked.text_document.uri, []))

    @server.feature(types.SHUTDOWN)
    async def shutdown(_: None) -> None:
        await session.examiner.stop()


def _while_writing(server: LanguageServer, session: Session) -> None:
    @server.feature(types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[".", " "]))
    def completing(asked: types.CompletionParams) -> types.CompletionList:
        draft, line, column = session.at(asked)
        findings = session.publisher.findings(draft.file)
        return answers.completions(draft, line, column, findings, server.workspace.position_codec)

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    async def hover(asked: types.HoverParams) -> types.Hover | None:
        draft, line, column = session.at(asked)
        found = hovered(draft, line, column)
        if found is None:
            return None
        told = list(found.texts)
        if found.wire:
            told += await session.examiner.told(TellWire(draft.file, found.place.line))
        if found.part:
            told += await session.examiner.told(Tell(draft.file, found.part, False))
        for terminal in found.terminals:
            lines = await session.examiner.told(Tell(draft.file, terminal, True))
            told += ["\n".join(f"- {terminal} {line}" for line in lines)] if lines else []
        return answers.hover(draft, found.place, told, server.workspace.position_codec)

    @server.feature(
        types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
    )
    async def fixes(asked: types.CodeActionParams) -> list[types.CodeAction]:
        draft = session.draft(asked.text_document)
        first, last = asked.range.start.line + 1, asked.range.end.line + 1
        question = Remedies(draft.file, draft.source.lines, first, last)
        found = await session.examiner.remedies(question)
        return answers.quick_fixes(draft, found, asked, server.workspace.position_codec)


def _names(server: LanguageServer, session: Session) -> None:
    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def definition(asked: types.DefinitionParams) -> list[types.Location]:
        draft, line, column = session.at(asked)
        used = answers.used_file(session.desk, draft, line, column)
        if used:
            return [used]
        name = session.name_at(asked)
        found = everywhere(session.desk, name.symbol, ()) if name else []
        return answers.locations(session.desk, (one for one in found if one.defines), server.workspace.position_codec)

    @server.feature(types.TEXT_DOCUMENT_REFERENCES)
    def references(asked: types.ReferenceParams) -> list[types.Location]:
        name = session.name_at(asked)
        found = everywhere(session.desk, name.symbol, session.folders) if name else []
        wanted = (one for one in found if asked.context.include_declaration or not one.defines)
        return answers.locations(session.desk, wanted, server.workspace.position_codec)

    @server.feature(types.TEXT_DOCUMENT_PREPARE_RENAME)
    def prepare(asked: types.PrepareRenameParams) -> types.Range | None:
        name = session.name_at(asked)
        draft = session.draft(asked.text_document)
        return answers.range_in(draft, name.place, server.workspace.position_codec) if name else None

    @server.feature(types.TEXT_DOCUMENT_RENAME, types.RenameOptions(prepare_provider=True))
    def rename(asked: types.RenameParams) -> types.WorkspaceEdit | None:
        name = session.name_at(asked)
        if name is None:
            return None
        try:
            found = renamed(session.desk, name.symbol, asked.new_name, session.folders)
        except CannotRename as refused:
            raise JsonRpcInvalidParams(str(refused)) from None
        return answers.rename_edits(session.desk, found, asked.new_name, server.workspace.position_codec)


def _whole_files(server: LanguageServer, session: Session) -> None:
    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def symbols(asked: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        return answers.symbols(session.draft(asked.text_document), server.workspace.position_codec)

    @server.feature(types.TEXT_DOCUMENT_FORMATTING)
    def formatting(asked: types.DocumentFormattingParams) -> list[types.TextEdit]:
        return answers.layout_edits(session.draft(asked.text_document), server.workspace.position_codec)

    @server.feature(types.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL, types.SemanticTokensLegend(list(TYPES), []))
    def colours(asked: types.SemanticTokensParams) -> types.SemanticTokens:
        return answers.colours(session.draft(asked.text_document), server.workspace.position_codec)
