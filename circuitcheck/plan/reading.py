"""A plan with all that it uses, read from files: the entrance to this folder."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple, TypeVar

from circuitcheck.plan.contents import MOST_STATEMENTS, Contents, read_contents
from circuitcheck.plan.parsing import StatementParser
from circuitcheck.plan.source import Place, PlanError, Problem, Source
from circuitcheck.plan.syntax import Module, Plan, Type, Use, Word
from circuitcheck.plan.text import read_source, source_of_text, whole_file
from circuitcheck.plan.uses import used_file
from circuitcheck.plan.words import named

Named = TypeVar("Named", Type, Module)

DEEPEST_USE = 20
MOST_FILES = 200


def read_plan(
    path: Path, roots: tuple[Path, ...] = (), called: str = "", parser: StatementParser | None = None
) -> Plan:
    """The plan in the file at `path` and in the files that it uses.

    roots: folders of shared parts that files may be used from, besides the plan's own folder. called: what people know
    the file by, where that isn't its path. parser: one that has read plans before, so that it has its grammar.
    Raises PlanError with every problem of every file.
    """
    return _read(read_source(path, called or str(path)), path, roots, parser)


def read_text(file_name: str, text: str, roots: tuple[Path, ...] = ()) -> Plan:
    """The plan in `text`, as if it stood in the file `file_name`, which need not exist; otherwise as `read_plan`."""
    return _read(source_of_text(file_name, text), Path(file_name), roots, None)


class PartlyRead(NamedTuple):
    """A plan as far as it can be understood. contents: of its own file; problems: what keeps the rest from it."""

    plan: Plan
    contents: Contents
    problems: tuple[Problem, ...]


Others = Callable[[Path], Source | None]
"""The text of a file that a plan uses, where that is not the one on the disk."""


def read_partly(source: Source, roots: tuple[Path, ...], parser: StatementParser, others: Others) -> PartlyRead:
    """A plan that is being written, in the file that `source` is named for."""
    return _read_from(source, Path(source.file), roots, parser, others)


def _read(source: Source | Problem, path: Path, roots: tuple[Path, ...], parser: StatementParser | None) -> Plan:
    if isinstance(source, Problem):
        raise PlanError((source,), ())
    read = _read_from(source, path, roots, parser or StatementParser(), lambda _: None)
    if read.problems:
        raise PlanError(read.problems, read.plan.sources)
    return read.plan


def _read_from(
    source: Source, path: Path, roots: tuple[Path, ...], parser: StatementParser, others: Others
) -> PartlyRead:
    reading = _Reading(path, roots, parser, others)
    own = reading.take_in(source, path, ())
    sources = tuple(reading.sources.values())
    order = {one.file: number for number, one in enumerate(sources)}
    problems = sorted(reading.problems, key=lambda one: (order[one.place.file], one.place[1:]))
    title = own.titles[0] if own.titles else None
    plan = Plan(source.file, title, own.statements, reading.types, reading.modules, sources)
    return PartlyRead(plan, own, tuple(problems))


class _Reading:
    """What has been read so far of a plan and the files it uses."""

    def __init__(self, path: Path, roots: tuple[Path, ...], parser: StatementParser, others: Others) -> None:
        self.allowed = tuple(folder.resolve() for folder in (path.parent, *roots))
        self.parser = parser
        self.others = others
        self.sources: dict[Path, Source] = {}
        self.types: dict[str, Type] = {}
        self.modules: dict[str, Module] = {}
        self.problems: list[Problem] = []
        self.count = 0

    def take_in(self, source: Source, path: Path, chain: tuple[tuple[Path, Use], ...]) -> Contents:
        """Reads one file, then those it uses. `chain` is how it was come to: the files before it, each with its use."""
        folder, path = path.parent, path.resolve()
        self.sources[path] = source
        contents = read_contents(source, self.parser, MOST_STATEMENTS - self.count)
        self.count = min(self.count + contents.statement_count, MOST_STATEMENTS)
        self.problems.extend(contents.problems)
        _add_named(self.types, contents.types, "type", self.problems)
        _add_named(self.modules, contents.modules, "module", self.problems)
        for use in contents.uses:
            self._follow(use, source, folder, (*chain, (path, use)))
        return contents

    def _follow(self, use: Use, source: Source, folder: Path, chain: tuple[tuple[Path, Use], ...]) -> None:
        target = used_file(use, folder, self.allowed)
        if isinstance(target, Problem):
            self.problems.append(target)
        elif any(target == path for path, _ in chain):
            self.problems.append(_cycle(target, chain))
        elif target not in self.sources:
            self._open(use, target, source, chain)

    def _open(self, use: Use, target: Path, source: Source, chain: tuple[tuple[Path, Use], ...]) -> None:
        if len(chain) > DEEPEST_USE:
            help = "Let the plan itself use the files that it needs."
            self.problems.append(Problem(use.place, f"files that use files, more than {DEEPEST_USE} deep", help))
            return
        if len(self.sources) >= MOST_FILES:
            help = "Put types and modules that belong together in one file."
            self.problems.append(Problem(use.place, f"more than {MOST_FILES} files in one plan", help))
            return
        called = os.path.normpath(os.path.join(os.path.dirname(source.file), use.path.text))
        other = self.others(target)
        found = Source(called, other.lines) if other else read_source(target, called)
        if isinstance(found, Problem):
            self._tell_unread(found, use.path)
            return
        contents = self.take_in(found, target, chain)
        self.problems.extend(_own_statements(contents, use))

    def _tell_unread(self, problem: Problem, path: Word) -> None:
        """A file of which nothing could be read has no line to show: its problem is told where it is used."""
        where = problem.place
        within = f" in {where.file}, line {where.line}, column {where.column}"
        what = problem.what + ("" if where == whole_file(where.file) else within)
        self.problems.append(problem._replace(place=path.place, what=what))


def _cycle(target: Path, chain: tuple[tuple[Path, Use], ...]) -> Problem:
    """Each use on the way round is told, the last as the problem's own place."""
    start = next(number for number, (path, _) in enumerate(chain) if path == target)
    *way, (_, last) = chain[start:]
    also = tuple((use.place, f'"{use.path.text}" is used here.') for _, use in way)
    what = f'"{last.path.text}" uses itself' if not way else f'"{last.path.text}" is used by a file that it uses itself'
    return Problem(last.place, what, "Take one of these lines away; put what both need in a third file.", also)


def _own_statements(contents: Contents, use: Use) -> list[Problem]:
    """A used file gives types and modules; anything else in it would be lost without a word."""
    others: list[tuple[Place, str]] = [(title.place, named("plan")) for title in contents.titles]
    others += [(one.place, _statement_name(one)) for one in contents.statements]
    if not others:
        return []
    place, name = min(others)
    more = f" and {len(others) - 1} more" if len(others) > 1 else ""
    also = ((use.place, "It is used here."),)
    help = "A file that is used may hold only use, type and module."
    return [Problem(place, f"{name}{more} in a file that is used", help, also)]


def _statement_name(statement: object) -> str:
    kind = getattr(statement, "kind", None)
    return named(kind.text if isinstance(kind, Word) else type(statement).__name__.lower())


def _add_named(known: dict[str, Named], found: tuple[Named, ...], noun: str, problems: list[Problem]) -> None:
    for one in found:
        first = known.setdefault(one.name.text, one)
        if first is not one:
            what = f"a second {noun} named {one.name.text}"
            also = ((first.name.place, "The first is described here."),)
            problems.append(Problem(one.name.place, what, "Give one of them another name.", also))
