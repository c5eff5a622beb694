"""What is told of the word under the cursor before anything is analysed."""

import pytest

from circuitcheck.editor.hovering import Hovered, hovered
from tests.editor.test_drafts import PLAN, draft

TEXT = f'{PLAN}wire PS.+ F1.1 : 1.5 mm2 red\nlamp L1 12 V 2 W "beam"\nrung PS.+, L1, PS.-\n'
LINES = TEXT.splitlines()


def told(line: int, word: str) -> Hovered | None:
    """Of a word on a line, counted from 1."""
    return hovered(draft(TEXT), line, LINES[line - 1].index(word) + 1)


@pytest.mark.parametrize(
    ("line", "word", "says"),
    [
        (7, "supply", "`supply`, as in "),
        (8, "F1", "**F1** · F1, a fuse; terminals 1 2"),
        (10, "cube", "**cube** · type of relay"),
        (11, "top", "**top** · place on the axis deck"),
        (9, "raise", "**raise** · position of S1"),
        (14, "Reverser", "**Reverser** · module with the ports feed minus"),
        (15, "K1.11-14", "**K1.11-14** · K1, a dpdt relay"),
        (17, "mm2", "`wire`, as in "),
        (18, "L1", '**L1** · L1, a lamp "beam"; terminals 1 2'),
    ],
)
def test_a_word_is_told_by_what_it_is(line: int, word: str, says: str) -> None:
    """A part with its terminals, a type with its kind, a place with its axis, a position with its switch."""
    found = told(line, word)
    assert found is not None
    assert found.texts[0].startswith(says)


def test_the_terminals_that_a_word_names_are_told_in_full() -> None:
    """Both of a passage; all that a part has where it is named alone; none inside of a module."""
    passage, inside = told(15, "K1.11-14"), told(5, "K1.A1-A2")
    assert passage is not None
    assert (passage.part, passage.terminals) == ("K1", ("K1.11", "K1.14"))
    assert inside is not None
    assert (inside.part, inside.terminals) == ("", ())


@pytest.mark.parametrize(("line", "word"), [(16, "when"), (15, ","), (2, " ")])
def test_of_other_words_there_is_nothing_to_say(line: int, word: str) -> None:
    """Punctuation, blanks, and words in the middle of a statement."""
    assert told(line, word) is None
