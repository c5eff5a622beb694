"""Sets as the verifier has them: made of the engine's, and written down line by line."""

from circuitcheck.analysis.states import Space
from circuitcheck.certificates.verifier import Box, Set, Sets


def set_of(sets: Sets, space: Space, bits: int) -> Set:
    """The set that is these bits over a space."""
    return _part(sets, space, bits, len(space.digits), {})


def _part(sets: Sets, space: Space, bits: int, count: int, known: dict[tuple[int, int], Set]) -> Set:
    """The set of these bits over the first `count` digits of the space."""
    if not count or not bits:
        return int(bool(bits))
    if (count, bits) not in known:
        digit = space.digits[count - 1]
        onward = (_part(sets, space, part, count - 1, known) for part in space.parts(bits, digit))
        known[count, bits] = sets.node(digit, tuple(onward))
    return known[count, bits]


class Writer:
    """Writes each node once, after those that it goes on to."""

    def __init__(self, box: Box) -> None:
        self._sets, self._names = box.sets, box.names
        self._numbers = {0: 0, 1: 1}
        self.lines: list[str] = []

    def number(self, one: Set) -> int:
        """By which number a set goes in the certificate."""
        if one not in self._numbers:
            digit, onward = self._sets.nodes[one]
            parts = [str(self.number(part)) for part in onward]
            self.lines.append(" ".join((self._names[digit], *parts)))
            self._numbers[one] = len(self.lines) + 1
        return self._numbers[one]
