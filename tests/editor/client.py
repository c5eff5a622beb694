"""An editor for tests: pygls' own client, talking to a server of its own over stdio."""

import asyncio
import sys
from collections.abc import AsyncIterator, Callable, Coroutine
from contextlib import asynccontextmanager
from pathlib import Path

from lsprotocol import types
from pygls.lsp.client import LanguageClient

from circuitcheck.editor.naming import uri_of


class Editor:
    """An editor with plans open. folder: its workspace."""

    def __init__(self, client: LanguageClient, folder: Path) -> None:
        self.client = client
        self.folder = folder
        self.version = 1
        self.shown: asyncio.Queue[types.PublishDiagnosticsParams] = asyncio.Queue()

        @client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)  # type: ignore[untyped-decorator]
        def shown(what: types.PublishDiagnosticsParams) -> None:
            self.shown.put_nowait(what)

    def uri(self, name: str) -> str:
        """The URI of a file of the workspace."""
        return uri_of(str(self.folder / name))

    def document(self, name: str) -> types.TextDocumentIdentifier:
        """A file of the workspace, in a request."""
        return types.TextDocumentIdentifier(self.uri(name))

    def open(self, name: str, text: str) -> None:
        """Opens a file with a text that need not be saved."""
        item = types.TextDocumentItem(self.uri(name), "circuitcheck", 1, text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(item))

    def type(self, name: str, line: int, character: int, text: str) -> None:
        """Types a text in at a position as the protocol counts it, from 0."""
        self._change(name, (line, character), (line, character), text)

    def delete(self, name: str, start: tuple[int, int], end: tuple[int, int]) -> None:
        """Takes away what stands between two positions."""
        self._change(name, start, end, "")

    def _change(self, name: str, start: tuple[int, int], end: tuple[int, int], text: str) -> None:
        self.version += 1
        stretch = types.Range(types.Position(*start), types.Position(*end))
        change = types.TextDocumentContentChangePartial(stretch, text)
        versioned = types.VersionedTextDocumentIdentifier(self.version, self.uri(name))
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(versioned, [change]))

    async def told(self, name: str, enough: Callable[[list[types.Diagnostic]], bool]) -> list[types.Diagnostic]:
        """What is underlined in a file, as soon as it is enough; fails after ten seconds."""
        async with asyncio.timeout(10):
            while True:
                shown = await self.shown.get()
                if shown.uri == self.uri(name) and enough(list(shown.diagnostics)):
                    return list(shown.diagnostics)


@asynccontextmanager
async def editing(folder: Path) -> AsyncIterator[Editor]:
    """A server that was started for a workspace, and is told to end afterwards."""
    client = LanguageClient("tests", "1")
    editor = Editor(client, folder)
    await client.start_io(sys.executable, "-m", "circuitcheck", "languageserver")
    try:
        workspace = types.WorkspaceFolder(uri_of(str(folder)), "plans")
        asked = types.InitializeParams(types.ClientCapabilities(), workspace_folders=[workspace])
        await client.initialize_async(asked)
        client.initialized(types.InitializedParams())
        yield editor
        await client.shutdown_async(None)
        client.exit(None)
    finally:
        await client.stop()  # type: ignore[no-untyped-call]


def in_editor(folder: Path, scene: Callable[[Editor], Coroutine[None, None, None]]) -> None:
    """Plays a scene with an editor; half a minute at most."""

    async def play() -> None:
        async with asyncio.timeout(30), editing(folder) as editor:
            await scene(editor)

    asyncio.run(play())
