"""Findings as somebody types: a moment after the last keystroke, and never of a text that is past."""

import asyncio
from collections.abc import Callable
from typing import Final

from circuitcheck.checks.check import Finding
from circuitcheck.editor.asking import Examine
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.editor.examiner import Examiner
from circuitcheck.editor.symbols import real_file
from circuitcheck.plan.source import Problem

PAUSE: Final = 0.15
"""Seconds after the last keystroke before anything is underlined: nobody wants that within a word."""
PATIENCE: Final = 1.0
"""Seconds that an examination may go on which the text has left behind; most are over sooner than a new process."""

Publish = Callable[[Draft, tuple[Problem, ...], tuple[Finding, ...], bool], None]
"""Shows problems and findings of a draft; the last says whether the findings are of this very draft."""


class Publisher:
    """Looks after every open file. Findings of the last text that could be understood stay until there are new ones."""

    def __init__(self, desk: Desk, examiner: Examiner, publish: Publish) -> None:
        self._desk = desk
        self._examiner = examiner
        self._publish = publish
        self._pausing: dict[str, asyncio.Task[None]] = {}
        self._waiting: dict[str, None] = {}
        self._working: asyncio.Task[None] | None = None
        self._findings: dict[str, tuple[Finding, ...]] = {}

    def changed(self, file: str) -> None:
        """A file has another text: it is looked at in a moment, and so is every open plan that uses it."""
        users = (other for other in self._desk.open_files() if other != file and self._uses(other, file))
        for one in (file, *users):
            if one in self._pausing:
                self._pausing[one].cancel()
            self._pausing[one] = asyncio.ensure_future(self._after_a_pause(one))

    def findings(self, file: str) -> tuple[Finding, ...]:
        """Those of the last text of a file that could be understood."""
        return self._findings.get(file, ())

    def closed(self, file: str) -> None:
        """Nothing more is told of it."""
        self._waiting.pop(file, None)
        self._findings.pop(file, None)
        if file in self._pausing:
            self._pausing.pop(file).cancel()

    def _uses(self, plan: str, file: str) -> bool:
        sources = self._desk.draft(plan).plan.sources
        return any(real_file(source.file) == real_file(file) for source in sources[1:])

    async def _after_a_pause(self, file: str) -> None:
        await asyncio.sleep(PAUSE)
        draft = self._desk.draft(file)
        problems = (draft.problem,) if draft.problem else draft.read.problems
        if problems or not draft.contents.statements:
            self._publish(draft, problems, self._findings.get(file, ()) if problems else (), False)
            return
        self._waiting[file] = None
        if self._working is None or self._working.done():
            self._working = asyncio.ensure_future(self._work())

    async def _work(self) -> None:
        while self._waiting:
            file = next(iter(self._waiting))
            del self._waiting[file]
            await self._examine(file)

    async def _examine(self, file: str) -> None:
        draft = self._desk.draft(file)
        roots = tuple(map(str, self._desk.roots))
        asking = asyncio.ensure_future(self._examiner.examined(Examine(file, self._desk.open_texts(), roots)))
        while not asking.done():
            await asyncio.wait({asking}, timeout=PATIENCE)
            if not asking.done() and self._desk.draft(file) is not draft and file in self._waiting:
                asking.cancel()
                await asyncio.wait({asking})
                return
        found = asking.result()
        if not found.problems:
            self._findings[file] = found.findings
        # A text that was typed on meanwhile has its own turn; what was found shows until then where its parts are now.
        current = self._desk.draft(file)
        self._publish(current, found.problems, self._findings.get(file, ()), current.source == draft.source)
