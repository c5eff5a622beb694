"""States first reached after 0, 1, 2 … steps, worked out only as far as somebody looks: most questions never do."""

from collections.abc import Iterable, Iterator
from itertools import count


def joined(sets: Iterable[int]) -> int:
    """The union of sets of one space, of neighbours first: so most unions are of few states, and diagrams are quick."""
    parts: list[tuple[int, int]] = []
    for bits in sets:
        if bits:
            doubled = 0
            while parts and parts[-1][0] == doubled:
                bits |= parts.pop()[1]
                doubled += 1
            parts.append((doubled, bits))
    result = 0
    for _, bits in reversed(parts):
        result |= bits
    return result


class Rounds:
    """Sets of states, bits over one space; each is taken from `rounds` once. To the reader it is a tuple."""

    def __init__(self, rounds: Iterable[int]) -> None:
        self._known: list[int] = []
        self._ahead = iter(rounds)

    def __getitem__(self, number: int) -> int:
        while len(self._known) <= number:
            try:
                self._known.append(next(self._ahead))
            except StopIteration:
                raise IndexError(number) from None
        return self._known[number]

    def __iter__(self) -> Iterator[int]:
        for number in count():
            try:
                yield self[number]
            except IndexError:
                return

    def __len__(self) -> int:
        self._known.extend(self._ahead)
        return len(self._known)
