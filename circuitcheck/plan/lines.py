"""A file's lines put together to statements: which lines belong together, before anything is understood of them."""

import re
from typing import NamedTuple

from circuitcheck.plan.source import Place, Problem, Source
from circuitcheck.plan.words import EXAMPLES, PROMISES

DEEPEST_BRACKETS = 50
MOST_SIGNS = 100_000
_GOES_ON = (",", "|", "(", ":")
_MARKS = re.compile(r'"[^"]*"|#.*|[()"]')
_BEGINNING = re.compile(r'(\s*)([a-z]+)(?:[ \t]+["\w]|\s*$)')
_GO_ON = "Go on in the next line, or take it away."
_NAMES_LEAD_LINES = ("fit", "conditions", *PROMISES)


class Statement(NamedTuple):
    """One statement's text, with the line ends and comments inside it; `place` leaves out blanks around it."""

    text: str
    place: Place

    def place_at(self, start: int, end: int) -> Place:
        """Where a stretch of `text` stands in the file."""
        above = self.text.count("\n", 0, start)
        below = self.text.count("\n", 0, end)
        column = start - (self.text.rfind("\n", 0, start) + 1) + 1
        end_column = end - (self.text.rfind("\n", 0, end) + 1) + 1
        return Place(self.place.file, self.place.line + above, column, self.place.line + below, end_column)


class _Pending:
    """A statement that is being put together: its lines so far and its brackets that are still open."""

    def __init__(self, file: str, first_line: int) -> None:
        self.file = file
        self.first_line = first_line
        self.lines: list[str] = []
        self.open: list[tuple[int, int]] = []
        self.end = (first_line, 1)
        self.last_mark = ""
        self.problem: Problem | None = None

    def add(self, line: str) -> None:
        """Takes in one more line. Once refused, all up to the next statement belongs to what is refused."""
        number = self.first_line + len(self.lines)
        self.lines.append(line)
        end = len(line)
        for mark in _MARKS.finditer(line) if self.problem is None else ():
            found, column = mark[0], mark.start() + 1
            if found == "(":
                self.open.append((number, column))
            elif found == ")":
                del self.open[-1:]
            elif found[0] == "#":
                end = mark.start()
            if found == '"' or len(self.open) > DEEPEST_BRACKETS:
                self._refuse_mark(number, column)
                return
        written = line[:end].rstrip()
        if written:
            self.end, self.last_mark = (number, len(written) + 1), written[-1]

    def _refuse_mark(self, number: int, column: int) -> None:
        if len(self.open) > DEEPEST_BRACKETS:
            self._refuse((number, column), f"brackets more than {DEEPEST_BRACKETS} deep", "Divide the statement.")
        else:
            help = 'A text stands between two quotes on one line: "run".'
            self._refuse((number, column), "a quote that is not closed", help)
            self.open, self.last_mark = [], ""

    def _refuse(self, start: tuple[int, int], what: str, help: str) -> None:
        line, column = start
        self.problem = Problem(Place(self.file, line, column, line, column + 1), what, help)

    @property
    def goes_on(self) -> bool:
        """Whether the next line belongs to it as well."""
        return bool(self.open) or self.last_mark in _GOES_ON

    def finished(self) -> Statement | Problem:
        """The statement, or what is wrong with it; for one that should go on, that it doesn't."""
        if self.problem is None and self.open:
            self._refuse(self.open[-1], "a bracket that is not closed", "Close it with `)` before the next statement.")
        if self.problem is None and self.goes_on:
            line, column = self.end
            self._refuse((line, column - 1), f"nothing after the last `{self.last_mark}`", _GO_ON)
        text = "\n".join(self.lines)
        if self.problem is None and len(text) > MOST_SIGNS:
            self._refuse((self.first_line, 1), f"a statement of more than {MOST_SIGNS:,} signs", "Divide it.")
        if self.problem is not None:
            return self.problem
        start = len(text) - len(text.lstrip())
        return Statement(text, Place(self.file, self.first_line, start + 1, *self.end))


def statements_of(source: Source) -> tuple[list[Statement], list[Problem]]:
    """The statements of a file in order, and what is wrong with quotes and brackets; such statements are left out."""
    found: list[Statement] = []
    problems: list[Problem] = []
    pending: _Pending | None = None

    def finish(done: _Pending) -> None:
        result = done.finished()
        if isinstance(result, Problem):
            problems.append(result)
        else:
            found.append(result)

    for number, line in enumerate(source.lines, 1):
        if pending is None and _is_silent(line):
            continue
        if pending is not None and _begins_another(line, pending):
            finish(pending)
            pending = None
        pending = pending or _Pending(source.file, number)
        pending.add(line)
        if not pending.goes_on:
            finish(pending)
            pending = None
    if pending is not None:
        finish(pending)
    return found, problems


def _is_silent(line: str) -> bool:
    written = line.lstrip()
    return not written or written[0] == "#"


def _begins_another(line: str, pending: _Pending) -> bool:
    """Whether a line that should go on with a statement looks like the next one: then the first was left unfinished.

    In a fit and in a promise a line may well begin with a name and a word (`lamp L1.1`), in conditions with `wire`, so
    that only a line without a blank before it is taken for the next statement.
    """
    beginning = _BEGINNING.match(line)
    if beginning is None or beginning[2] not in EXAMPLES:
        return False
    return not beginning[1] or not pending.lines[0].lstrip().startswith(_NAMES_LEAD_LINES)
