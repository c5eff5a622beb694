"""A plan's text in the one layout, and the proof that it still says the same."""

from circuitcheck.layout.columns import in_columns
from circuitcheck.layout.rows import rows_of
from circuitcheck.plan.contents import Contents, read_contents
from circuitcheck.plan.lines import statements_of
from circuitcheck.plan.parsing import StatementParser
from circuitcheck.plan.placeless import without_places
from circuitcheck.plan.source import PlanError, Source


class MeaningChanged(Exception):
    """The new layout would say something else: a mistake of ours, and nothing is written."""


def tidied(source: Source) -> str:
    """The file's text in the one layout. Files that it uses are not looked at.

    Before it is given back it is read again: each of its statements is word by word that of the old text, and the
    circuit follows from nothing else; the comments are the same ones in the same order. Raises PlanError where the file
    can't be read, and MeaningChanged where the proof fails.
    """
    parser = StatementParser()
    before = read_contents(source, parser)
    if before.problems:
        raise PlanError(before.problems, (source,))
    statements, _ = statements_of(source)
    rows = rows_of(source, statements)
    lines = in_columns(rows)
    after = Source(source.file, tuple(lines))
    if not _says_the_same(before, read_contents(after, parser)) or comments_of(source) != comments_of(after):
        raise MeaningChanged(source.file)
    return "\n".join(lines) + "\n"


def comments_of(source: Source) -> list[str]:
    """Every comment of a readable file in order, without the blanks around it."""
    statements, _ = statements_of(source)
    return [row.comment for row in rows_of(source, statements) if row.comment]


def _says_the_same(before: Contents, after: Contents) -> bool:
    return without_places(before) == without_places(after)
