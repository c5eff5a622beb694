"""The states of some digits, and what is done to sets of them: bits of an integer, by mask and shift (bit_moves.py)."""

from bisect import bisect_right
from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from circuitcheck.analysis.bit_moves import (
    WORTH_KEEPING,
    Levels,
    Widening,
    digit_at,
    kept_digit_at,
    levels,
    moved_apart,
    moved_together,
    spread_copies,
    widening,
)

if TYPE_CHECKING:
    from circuitcheck.analysis.states import Spaces

WIDEST: Final = 1 << 26
"""States that one space may have: 8 MB an integer."""


class TooWide(Exception):
    """A question that needs more combinations at once than can be counted. `digits` are the digits it needs."""

    def __init__(self, digits: tuple[int, ...], size: int) -> None:
        super().__init__(f"{size} combinations of {len(digits)} digits")
        self.digits = digits
        self.size = size


class TooMuchWork(TooWide):
    """A question that can be held, but takes more work than one plan is given (diagrams.MOST_STEPS).

    asked: the check that asked it, "" where none did.
    """

    def __init__(self, steps: int) -> None:
        super().__init__((), 0)
        self.steps = steps
        self.asked = ""


class Space:
    """The states of some digits: `digits` (ascending circuit digit numbers), their radices, strides and the count."""

    __slots__ = ("_levels", "_masks", "_turns", "_widenings", "digits", "full", "radices", "size", "strides")

    has_diagrams = False
    """Are its sets decision diagrams instead of plain integers?"""

    def __init__(self, digits: tuple[int, ...], radices: tuple[int, ...]) -> None:
        size = 1
        strides = []
        for radix in radices:
            strides.append(size)
            size *= radix
        if size > WIDEST:
            raise TooWide(digits, size)
        self.digits = digits
        self.radices = radices
        self.strides = tuple(strides)
        self.size = size
        self.full = (1 << size) - 1
        self._masks: dict[tuple[int, tuple[int, ...]], int] = {}
        self._levels: dict[int, Levels] = {}
        self._turns: tuple[tuple[int, int, int], ...] = ()
        self._widenings: dict[tuple[int, ...], Widening] = {}

    def integer(self, bits: int) -> int:
        """A set's bits as a plain integer."""
        return bits

    def index(self, digit: int) -> int:
        """The position of a circuit's digit within this space. ValueError where it is not there."""
        return self.digits.index(digit)

    def where(self, digit: int, values: Iterable[int]) -> int:
        """The states in which `digit` has one of `values`."""
        key = (digit, tuple(values))
        mask = self._masks.get(key)
        if mask is None:
            place = self.digits.index(digit)
            if self.size > WORTH_KEEPING:
                return digit_at(self.size, self.strides[place], self.radices[place], key[1])
            mask = self._masks[key] = kept_digit_at(self.size, self.strides[place], self.radices[place], key[1])
        return mask

    def moved(self, bits: int, digit: int, start: int, end: int) -> int:
        """The states of `bits` with `digit` at `start`, each with that digit turned to `end`."""
        shift = (end - start) * self.strides[self.index(digit)]
        chosen = bits & self.where(digit, (start,))
        return chosen << shift if shift >= 0 else chosen >> -shift

    def anyhow(self, bits: int, digit: int) -> int:
        """The states that come into `bits` by turning `digit` somehow (or leaving it)."""
        position = self.index(digit)
        stride, radix = self.strides[position], self.radices[position]
        folded = bits
        for value in range(1, radix):
            folded |= bits >> (value * stride)
        folded &= self.where(digit, (0,))
        return spread_copies(folded, stride, radix)

    def anyhow_in_both(self, bits: int, others: int, digit: int) -> int:
        """The same for the states of two sets at once, which for diagrams is less than one after the other."""
        return self.anyhow(bits & others, digit)

    def all_anyhow(self, bits: int, digits: Iterable[int]) -> int:
        """The same by turning any of several digits."""
        for digit in digits:
            bits = self.anyhow(bits, digit)
        return bits

    def depends(self, bits: int, digit: int) -> bool:
        """Does turning this digit alone ever lead into or out of `bits`?"""
        position = self.index(digit)
        below_last = self.where(digit, range(self.radices[position] - 1))
        return (bits ^ bits >> self.strides[position]) & below_last != 0

    def without(self, bits: int, digit: int) -> int:
        """The part of `bits` that has `digit` at 0, over the space of all other digits."""
        position = self.index(digit)
        apart = self._levels.get(position)
        if apart is None:
            radix = self.radices[position]
            apart = levels(self.size // radix, self.strides[position], radix)
            if self.size <= WORTH_KEEPING:
                self._levels[position] = apart
        return moved_together(bits & self.where(digit, (0,)), apart)

    def parts(self, bits: int, digit: int) -> list[int]:
        """What is left of a set that hangs on no higher digit, with each value of this one."""
        position = self.index(digit)
        stride = self.strides[position]
        below = (1 << stride) - 1
        return [bits >> value * stride & below for value in range(self.radices[position])]

    def widened(self, bits: int, narrow: "Space") -> int:
        """A set over fewer digits, over this space. ValueError where it lacks one of them."""
        if len(narrow.digits) == 1 and narrow.digits[0] in self.digits:
            return self.where(narrow.digits[0], [value for value in range(narrow.size) if bits >> value & 1])
        found = self._widenings.get(narrow.digits)
        if found is None:
            found = tuple(widening(narrow.digits, self.digits, self.strides, self.radices))
            if self.size <= WORTH_KEEPING:
                self._widenings[narrow.digits] = found
        for apart, stride, radix in found:
            bits = spread_copies(moved_apart(bits, apart), stride, radix)
        return bits

    def tightened(self, bits: int, spaces: "Spaces") -> tuple["Space", int]:
        """The space of only those digits that a set depends on, and its bits over that."""
        space, left = self, self._standing(bits)
        # Each digit taken out makes a wide set narrower for the next; in a narrow one all are taken out where they are,
        # the highest first, which leaves the others their strides.
        while left and space.size > WORTH_KEEPING:
            digit = left.pop(0)
            bits = space.without(bits, digit)
            space = spaces.of([one for one in space.digits if one != digit])
        for digit in reversed(left):
            bits = space.without(bits, digit)
        return spaces.of([digit for digit in space.digits if digit not in left]) if left else space, bits

    def number(self, values: dict[int, int]) -> int:
        """The number of the state with these values of its digits; a digit not named stands at 0."""
        return sum(values.get(digit, 0) * stride for digit, stride in zip(self.digits, self.strides, strict=True))

    def values(self, state: int) -> dict[int, int]:
        """The digits' values in a state, by its number."""
        return {
            digit: state // stride % radix
            for digit, stride, radix in zip(self.digits, self.strides, self.radices, strict=True)
        }

    def _standing(self, bits: int) -> list[int]:
        """The digits that a set doesn't depend on."""
        if self.size <= WORTH_KEEPING:
            self._turns = self._turns or tuple(self._find_turns())
            return [digit for digit, stride, below in self._turns if not (bits ^ bits >> stride) & below]
        # A look at both ends mostly tells of the lower digits that it does, for much less than a look at everything.
        count = bisect_right(self.strides, WORTH_KEEPING) - 1
        ends = narrow_space(self.digits[:count], self.radices[:count])
        left = set(self.digits)
        for first in (0, self.size - ends.size):
            left &= {*self.digits[count:], *ends._standing(bits >> first & ends.full)}
        return [digit for digit in self.digits if digit in left and not self.depends(bits, digit)]

    def _find_turns(self) -> Iterable[tuple[int, int, int]]:
        """Each digit with its stride and the states in which it is below its last value."""
        for digit, stride, radix in zip(self.digits, self.strides, self.radices, strict=True):
            yield digit, stride, self.where(digit, range(radix - 1))


@lru_cache(2_000)
def narrow_space(digits: tuple[int, ...], radices: tuple[int, ...]) -> Space:
    """A space of at most WORTH_KEEPING states: the same one for every circuit, with all that was worked out over it."""
    return Space(digits, radices)
