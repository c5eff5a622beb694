"""What one file says, sorted: its title, what it uses, its types and modules, and the statements of its own."""

from typing import NamedTuple

from circuitcheck.plan.builder import End, Line, ModuleStart, Port, between
from circuitcheck.plan.lines import statements_of
from circuitcheck.plan.parsing import StatementParser
from circuitcheck.plan.source import Place, Problem, Source
from circuitcheck.plan.syntax import Module, Statement, Title, Type, Use, Word
from circuitcheck.plan.text import whole_file
from circuitcheck.plan.words import named

MOST_STATEMENTS = 20_000
MOST_PROBLEMS = 1_000


class Contents(NamedTuple):
    """A file's statements by what they are for. `statement_count` includes bad statements."""

    titles: tuple[Title, ...]
    uses: tuple[Use, ...]
    types: tuple[Type, ...]
    modules: tuple[Module, ...]
    statements: tuple[Statement, ...]
    problems: tuple[Problem, ...]
    statement_count: int


class _OpenModule:
    """A module whose `end` has not come yet."""

    def __init__(self, start: ModuleStart) -> None:
        self.start = start
        self.ports: list[Word] = []
        self.statements: list[Statement] = []

    def closed(self, last: Place) -> Module:
        place = between(self.start.place, last)
        return Module(self.start.name, tuple(self.ports), tuple(self.statements), place)


def read_contents(source: Source, parser: StatementParser, allowed: int = MOST_STATEMENTS) -> Contents:
    """What the file says. Every statement is read whatever is wrong with others, except where there are too many."""
    statements, problems = statements_of(source)
    if len(statements) > allowed:
        help = "Divide the prop: a plan for each control box."
        first_over = statements[allowed].place
        problems = [Problem(first_over, f"more than {MOST_STATEMENTS:,} statements in all", help)]
        return Contents((), (), (), (), (), tuple(problems), len(statements))
    if not statements and not problems:
        help = 'A plan begins like: plan Drawbridge "Raises the deck".'
        problems = [Problem(whole_file(source.file), f"{source.file} holds only comments", help)]
    lines: list[Line] = []
    for statement in statements:
        found = parser.parse(statement)
        if not isinstance(found, Problem):
            lines.append(found)
        elif len(problems) < MOST_PROBLEMS:
            problems.append(found)
        else:
            problems.append(_too_many(statement.place))
            break
    return _sorted_out(lines, problems, len(statements))


def _too_many(place: Place) -> Problem:
    what = f"more than {MOST_PROBLEMS:,} problems: reading ends here"
    return Problem(place, what, "See whether this file is a plan at all, or put right what stands above first.")


def _sorted_out(lines: list[Line], problems: list[Problem], count: int) -> Contents:
    titles: list[Title] = []
    uses: list[Use] = []
    types: list[Type] = []
    modules: list[Module] = []
    statements: list[Statement] = []
    module: _OpenModule | None = None
    for number, line in enumerate(lines):
        if isinstance(line, End):
            if module is None:
                problems.append(Problem(line.place, "an end with no module before it", "Take it away."))
            else:
                modules.append(module.closed(line.place))
                module = None
        elif isinstance(line, ModuleStart):
            if module is not None:
                problems.append(_no_end(module, line.place))
                modules.append(module.closed(module.start.place))
            module = _OpenModule(line)
        elif module is not None:
            problems.extend(_add_to(module, line))
        elif isinstance(line, Port):
            help = "Ports are a module's: put the line between its `module` and its `end`."
            problems.append(Problem(line.place, "a port outside a module", help))
        elif isinstance(line, Title):
            problems.extend(_title_amiss(line, number, titles))
            titles.append(line)
        elif isinstance(line, Use):
            uses.append(line)
        elif isinstance(line, Type):
            types.append(line)
        else:
            statements.append(line)
    if module is not None:
        problems.append(_no_end(module, None))
        modules.append(module.closed(module.start.place))
    every = (tuple(titles), tuple(uses), tuple(types), tuple(modules), tuple(statements))
    return Contents(*every, tuple(problems), count)


def _add_to(module: _OpenModule, line: Title | Use | Type | Port | Statement) -> list[Problem]:
    if isinstance(line, Port):
        module.ports.extend(line.names)
        return []
    if isinstance(line, Title | Use | Type):
        word = type(line).__name__.lower()
        what = f"{named(word)} inside the module {module.start.name.text}"
        return [Problem(line.place, what, "Put it before the module, or put the module's `end` before it.")]
    module.statements.append(line)
    return []


def _no_end(module: _OpenModule, following: Place | None) -> Problem:
    name = module.start.name.text
    what = f"the module {name} has no end"
    if following is None:
        return Problem(module.start.place, what, "Put a line `end` after its last statement.")
    help = "Put a line `end` before the next module: a module can't hold another."
    return Problem(module.start.place, what, help, ((following, "The next module begins here."),))


def _title_amiss(title: Title, number: int, before: list[Title]) -> list[Problem]:
    if before:
        also = ((before[0].place, "The first stands here."),)
        return [Problem(title.place, "a second `plan` statement", "A file is one plan: keep one of them.", also)]
    if number:
        return [Problem(title.place, "`plan` after other statements", "Put it first in its file.")]
    return []
