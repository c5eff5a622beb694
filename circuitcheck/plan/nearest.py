"""The known names that a misspelt one may have meant."""

from collections.abc import Iterable
from itertools import islice

MOST_SHOWN = 4
MOST_COMPARED = 200
_LONGEST_COMPARED = 40


def nearest(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """The names in `known` that are near `word`, at most four, the nearest first; none where nothing is near.

    Near means few slips of the hand (a letter added, left out, changed, or two swapped), counted without regard to
    capitals: one slip in up to three letters, one more for every further three. Equal ones keep the order of `known`.
    Of names that might be near, the first 200 are looked at: a plan may have thousands, and as many misspelt.
    """
    if len(word) > _LONGEST_COMPARED:
        return ()
    most_slips = (len(word) + 2) // 3
    letters = set(word.casefold())
    # A slip puts at most one letter right that the name has not at all.
    possible = (
        name
        for name in dict.fromkeys(known)
        if abs(len(name) - len(word)) <= most_slips
        and name != word
        and len(letters.difference(name.casefold())) <= most_slips
    )
    counted = [(_slips(word, name), name) for name in islice(possible, MOST_COMPARED)]
    near = sorted((pair for pair in counted if pair[0] <= most_slips and pair[0] < len(word)), key=lambda pair: pair[0])
    return tuple(name for _, name in near[:MOST_SHOWN])


def _slips(left: str, right: str) -> int:
    """How many slips lead from one word to the other, capitals aside."""
    a, b = left.casefold(), right.casefold()
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, 1):
        following = [i]
        for j, other in enumerate(b, 1):
            fewest = min(row[j] + 1, following[j - 1] + 1, row[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and other == a[i - 2]:
                fewest = min(fewest, before[j - 2] + 1)
            following.append(fewest)
        before, row = row, following
    return row[-1]
