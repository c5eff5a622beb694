"""Plans as they stand at this moment: those that are open in the editor, and those on the disk that they meet.

A draft is read as far as it can be understood, whatever is half written in it. Of a statement that hasn't changed its
reading is kept, so that a keystroke costs one statement and not two hundred.
"""

import os
from collections.abc import Iterable, Iterator
from functools import cached_property
from pathlib import Path

from circuitcheck.editor.known import Known, knowledge_of
from circuitcheck.editor.occurrences import occurrences
from circuitcheck.editor.symbols import Occurrence, real_file
from circuitcheck.plan.contents import Contents
from circuitcheck.plan.folders import plans_within
from circuitcheck.plan.lines import Statement, statements_of
from circuitcheck.plan.parsing import MOST_KNOWN, StatementParser
from circuitcheck.plan.reading import PartlyRead, read_partly
from circuitcheck.plan.source import Problem, Source
from circuitcheck.plan.syntax import Module, Plan
from circuitcheck.plan.text import read_source, source_of_text
from circuitcheck.plan.tokens import Token, tokens_of
from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.settings.finding import SettingsFinder
from circuitcheck.settings.settings import Settings


class Remembering:
    """Parses and cuts statements, each only once."""

    def __init__(self) -> None:
        self.parser = StatementParser()
        self._tokens: dict[str, tuple[Token, ...]] = {}

    def tokens(self, text: str) -> tuple[Token, ...]:
        """The statement's tokens as far as it can be read."""
        found = self._tokens.get(text)
        if found is None:
            if len(self._tokens) >= MOST_KNOWN:
                self._tokens.clear()
            found = self._tokens[text] = tokens_of(text)
        return found


class Draft:
    """One file at one moment. problem: why nothing of it can be read at all, with `source` then empty."""

    def __init__(self, desk: "Desk", file: str, found: Source | Problem) -> None:
        self._desk = desk
        self.file = file
        self.problem = found if isinstance(found, Problem) else None
        self.source = found if isinstance(found, Source) else Source(file, ("",))

    @cached_property
    def read(self) -> PartlyRead:
        """The plan as far as it can be understood, with all that it uses."""
        return self._desk.read(self.source)

    @property
    def plan(self) -> Plan:
        return self.read.plan

    @property
    def contents(self) -> Contents:
        return self.read.contents

    @cached_property
    def statements(self) -> tuple[Statement, ...]:
        """The statements of the file that are whole."""
        return tuple(statements_of(self.source)[0])

    @cached_property
    def occurrences(self) -> tuple[Occurrence, ...]:
        """Every name in the file."""
        return occurrences(self.contents, self.plan)

    def beside(self) -> Iterator["Draft"]:
        """The other plans of its folder and of the desk's roots."""
        folders = (os.path.dirname(real_file(self.file)), *map(str, self._desk.roots_for(self.file)))
        return (one for one in self._desk.every(folders) if real_file(one.file) != real_file(self.file))

    def tokens(self, statement: Statement) -> tuple[Token, ...]:
        """A statement's tokens as far as it can be read."""
        return self._desk.remembering.tokens(statement.text)

    def module_at(self, line: int) -> Module | None:
        """The module that a line is inside of."""
        inside = (one for one in self.contents.modules if one.place.line < line <= one.place.end_line)
        return next(inside, None)

    def known(self, module: Module | None) -> Known:
        """What is known of the parts of the plan, or of the inside of a module."""
        name = module.name.text if module else ""
        if name not in self._known:
            self._known[name] = knowledge_of(self.plan, module)
        return self._known[name]

    @cached_property
    def _known(self) -> dict[str, Known]:
        return {}


class Desk:
    """All drafts. roots: folders of shared parts that plans may use files from."""

    def __init__(self, roots: tuple[Path, ...]) -> None:
        self.roots = roots
        self._settings = SettingsFinder()
        self.remembering = Remembering()
        self._open: dict[str, Draft] = {}
        self._on_disk: dict[str, tuple[tuple[int, int], Draft]] = {}

    def put(self, file: str, text: str) -> Draft:
        """The text that the editor has of a file, from now on. What others know of it is forgotten."""
        self._settings = SettingsFinder()
        for name, other in tuple(self._open.items()):
            self._open[name] = Draft(self, other.file, other.problem or other.source)
        self._on_disk.clear()
        draft = self._open[real_file(file)] = Draft(self, file, source_of_text(file, text))
        return draft

    def close(self, file: str) -> None:
        """The file counts as it is on the disk again."""
        self._open.pop(real_file(file), None)
        self._on_disk.clear()

    def draft(self, file: str) -> Draft:
        """A file as it stands in the editor, or else on the disk."""
        known = self._open.get(real_file(file))
        return known or self._from_disk(real_file(file))

    def read(self, source: Source) -> PartlyRead:
        """A plan as far as it can be understood, its other files as the editor has them."""
        return read_partly(source, self.roots_for(source.file), self.remembering.parser, self.open_source)

    def settings_for(self, file: str) -> Settings:
        """Those beside a plan. Raises LibraryAmiss."""
        return self._settings.settings_for(real_file(file))

    def roots_for(self, file: str) -> tuple[Path, ...]:
        """The folders of shared parts for a plan; without those of settings that can't be followed."""
        try:
            return (*self.roots, *self.settings_for(file).roots)
        except LibraryAmiss:
            return self.roots

    def open_source(self, path: Path) -> Source | None:
        """What the editor has of a file that a plan uses."""
        draft = self._open.get(str(path))
        return draft.source if draft else None

    def open_files(self) -> tuple[str, ...]:
        """The files that the editor has open, as it names them."""
        return tuple(draft.file for draft in self._open.values())

    def open_texts(self) -> dict[str, str]:
        """The text of every open file, by the file that its name means."""
        return {name: "\n".join(draft.source.lines) for name, draft in self._open.items()}

    def every(self, folders: Iterable[str]) -> Iterator[Draft]:
        """Every plan that is open or lies in one of these folders, each once."""
        names = dict.fromkeys(self._open)
        names.update(dict.fromkeys(real_file(file) for folder in folders for file in plans_within(folder)))
        return (self.draft(name) for name in names)

    def _from_disk(self, file: str) -> Draft:
        try:
            found = os.stat(file)
            stamp = (found.st_mtime_ns, found.st_size)
        except OSError:
            stamp = (0, 0)
        known = self._on_disk.get(file)
        if known is None or known[0] != stamp:
            known = self._on_disk[file] = stamp, Draft(self, file, read_source(Path(file), file))
        return known[1]
