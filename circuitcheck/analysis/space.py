"""The numbers of states: what is true of bits and digits, whatever the bits stand for.

A state gives each digit of a space a value; its number is the mixed-radix number of those values, the first digit
turning quickest. What a digit's values are in a set's bits is a mask, and turning a digit a shift.
"""

from collections.abc import Iterable
from typing import Final

from circuitcheck.analysis.bit_moves import Levels, levels, moved_together, repeat, spread_copies

WIDEST: Final = 1 << 26
"""States that one space may have: 8 MB an integer."""

WORTH_KEEPING: Final = 1 << 14
"""States of a space up to which what was worked out over it is kept: 2 kB a set."""


class TooWide(Exception):
    """A question that needs more combinations at once than can be counted. `digits` are the digits it needs."""

    def __init__(self, digits: tuple[int, ...], size: int) -> None:
        super().__init__(f"{size} combinations of {len(digits)} digits")
        self.digits = digits
        self.size = size


class Space:
    """The states of some digits: `digits` (ascending circuit digit numbers), their radices, strides and the count."""

    __slots__ = ("_levels", "_masks", "_turns", "digits", "full", "radices", "size", "strides")

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

    def index(self, digit: int) -> int:
        """The position of a circuit's digit within this space. ValueError where it is not there."""
        return self.digits.index(digit)

    def where(self, digit: int, values: Iterable[int]) -> int:
        """The states in which `digit` has one of `values`."""
        key = (digit, tuple(values))
        mask = self._masks.get(key)
        if mask is None:
            mask = self._where(*key)
            if self.size <= WORTH_KEEPING:
                self._masks[key] = mask
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

    def idle(self, bits: int) -> list[int]:
        """The digits that lead neither into nor out of `bits` when turned, whatever the others are."""
        turns = self._turns or self._find_turns()
        return [digit for digit, stride, below_last in turns if not (bits ^ bits >> stride) & below_last]

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

    def number(self, values: dict[int, int]) -> int:
        """The number of the state with these values of its digits; a digit not named stands at 0."""
        return sum(values.get(digit, 0) * stride for digit, stride in zip(self.digits, self.strides, strict=True))

    def values(self, state: int) -> dict[int, int]:
        """The digits' values in a state, by its number."""
        return {
            digit: state // stride % radix
            for digit, stride, radix in zip(self.digits, self.strides, self.radices, strict=True)
        }

    def _find_turns(self) -> Iterable[tuple[int, int, int]]:
        """Each digit with its stride and the states in which it is below its last value."""
        turns = (
            (digit, stride, self.where(digit, range(radix - 1)))
            for digit, stride, radix in zip(self.digits, self.strides, self.radices, strict=True)
        )
        if self.size > WORTH_KEEPING:
            return turns
        self._turns = tuple(turns)
        return self._turns

    def _where(self, digit: int, values: tuple[int, ...]) -> int:
        position = self.index(digit)
        stride, radix = self.strides[position], self.radices[position]
        block = 0
        for value in values:
            block |= ((1 << stride) - 1) << (value * stride)
        return repeat(block, stride * radix, self.size // (stride * radix))
