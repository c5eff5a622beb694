"""The text of a story, cut into phrases that know their place. What the phrases mean is for circuit/ to say.

begin PS on, S1 lower, deck at bottom     # what stands where before anything happens
S1 raise                                  # then one action a line, or several with commas between
deck to top
"""

import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Place, PlanError, Problem, Source
from circuitcheck.plan.syntax import Word
from circuitcheck.plan.text import source_of_bytes, whole_file

BEGIN, DO = "--begin", "--do"
"""What the two texts of a call are called where a problem lies in them."""

_TOKEN = re.compile(r"#.*|,|[^\s,#]+")


class Phrase(NamedTuple):
    """The words of one setting or action."""

    words: tuple[Word, ...]
    place: Place

    @property
    def text(self) -> str:
        """The words with one blank between them."""
        return " ".join(word.text for word in self.words)


class StoryText(NamedTuple):
    """beginning: settings; actions: what is done, in order. sources: the texts that they were read from."""

    beginning: tuple[Phrase, ...]
    actions: tuple[Phrase, ...]
    sources: tuple[Source, ...]


def read_story(path: Path | None, beginnings: Sequence[str], actions: Sequence[str]) -> StoryText:
    """The story in a file (None for none), with the settings and, after its own, the actions that a call gives.

    Raises PlanError with all that is wrong with commas, and with `begin` where it comes too late.
    """
    sources = [_story_source(path)] if path else []
    settings: list[Phrase] = []
    doings: list[Phrase] = []
    problems: list[Problem] = []
    for source in sources:
        for number in range(1, len(source.lines) + 1):
            _sort_line(list(_phrases(source, number, problems)), settings, doings, problems)
    for file, lines, found in ((BEGIN, beginnings, settings), (DO, actions, doings)):
        if lines:
            sources.append(Source(file, tuple(" ".join(line.splitlines()) for line in lines)))
            for number in range(1, len(lines) + 1):
                found += _phrases(sources[-1], number, problems)
    if problems:
        raise PlanError(tuple(problems), tuple(sources))
    return StoryText(tuple(settings), tuple(doings), tuple(sources))


def _sort_line(phrases: list[Phrase], settings: list[Phrase], doings: list[Phrase], problems: list[Problem]) -> None:
    """A line that starts with `begin` (or `begin with`, as findings tell it) gives settings, any other actions."""
    if not phrases or phrases[0].words[0].text != "begin":
        doings += phrases
        return
    begin, *rest = phrases[0].words
    if doings:
        problems.append(Problem(begin.place, "begin after the first action", "Settings stand before all actions."))
    rest = rest[1:] if rest and rest[0].text == "with" else rest
    settings += [Phrase(tuple(rest), _around(rest))] if rest else []
    settings += phrases[1:]


def _phrases(source: Source, number: int, problems: list[Problem]) -> Iterator[Phrase]:
    words: list[Word] = []
    comma: Place | None = None
    for token in _TOKEN.finditer(source.lines[number - 1]):
        place = Place(source.file, number, token.start() + 1, number, token.end() + 1)
        if token[0].startswith("#"):
            break
        if token[0] != ",":
            words.append(Word(token[0], place))
            continue
        if not words:
            problems.append(Problem(place, "nothing before a comma", "Take the comma away."))
        else:
            yield Phrase(tuple(words), _around(words))
        words, comma = [], place
    if words:
        yield Phrase(tuple(words), _around(words))
    elif comma:
        problems.append(Problem(comma, "nothing after the last comma", "Go on in this line, or take it away."))


def _around(words: list[Word]) -> Place:
    first, last = words[0].place, words[-1].place
    return Place(first.file, first.line, first.column, last.end_line, last.end_column)


def _story_source(path: Path) -> Source:
    file = str(path)
    try:
        found = source_of_bytes(file, path.read_bytes()) if path.is_file() else _missing(path)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        found = Problem(whole_file(file), f"{file} can't be read: {reason}", "See whether you may read this file.")
    if isinstance(found, Problem):
        if found.what.endswith("is empty"):
            found = found._replace(help="A story begins like: begin PS on, S1 lower")
        raise PlanError((found,), ())
    return found


def _missing(path: Path) -> Problem:
    there = sorted(other.name for other in path.parent.glob("*.story")) if path.parent.is_dir() else []
    near = nearest(path.name, there) or tuple(there[:4])
    help = f"Nearest in that folder: {', '.join(near)}." if near else "There is no story (*.story) in that folder."
    return Problem(whole_file(str(path)), f"no file {path}", help)
