"""Sets of states, each one integer.

A state gives every digit of a circuit a value; its number is the mixed-radix number of those values. A set of states
is an integer with bit n set when state n belongs to it, so union is `|`, intersection `&`, counting `bit_count`, and
"relay K1 operates" is a shift by K1's stride. Every state is covered, none is sampled.

What this leaves out: a set seldom depends on all digits. So each set is kept over its own `Space`, the digits that it
was built from, and two sets of different spaces meet in the union of their digits. A lamp behind one switch takes two
bits, however large the panel around it.

Cost: an operation on sets of one space reads as many bits as the space has states. Bringing a set to a wider space
inserts digits by log2(states) steps of mask and shift.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from circuitcheck.analysis.bit_moves import Levels, levels, moved_apart, moved_together, repeat, spread_copies

WIDEST: Final = 1 << 26
"""States that one space may have: 8 MB an integer."""


SMALL: Final = 64
"""States up to which a set is a contact's or so: it is brought to the same wider space time and again."""


WORTH_KEEPING: Final = 1 << 14
"""States of a wider space up to which such a set is kept: 2 kB each."""


class TooWide(Exception):
    """A question that needs more combinations at once than can be counted. `digits` are the digits it needs."""

    def __init__(self, digits: tuple[int, ...], size: int) -> None:
        super().__init__(f"{size} combinations of {len(digits)} digits")
        self.digits = digits
        self.size = size


class Space:
    """The states of some digits: `digits` (ascending circuit digit numbers), their radices, strides and the count."""

    __slots__ = ("_levels", "_masks", "digits", "full", "radices", "size", "strides")

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

    def number(self, values: dict[int, int]) -> int:
        """The number of the state with these values of its digits; a digit not named stands at 0."""
        return sum(values.get(digit, 0) * stride for digit, stride in zip(self.digits, self.strides, strict=True))

    def values(self, state: int) -> dict[int, int]:
        """The digits' values in a state, by its number."""
        return {
            digit: state // stride % radix
            for digit, stride, radix in zip(self.digits, self.strides, self.radices, strict=True)
        }

    def _where(self, digit: int, values: tuple[int, ...]) -> int:
        position = self.index(digit)
        stride, radix = self.strides[position], self.radices[position]
        block = 0
        for value in values:
            block |= ((1 << stride) - 1) << (value * stride)
        return repeat(block, stride * radix, self.size // (stride * radix))


class States:
    """A set of states: `bits` over `space`. Sets of one circuit mix freely; results stand over the digits of both."""

    __slots__ = ("bits", "space", "spaces")

    def __init__(self, spaces: "Spaces", space: Space, bits: int) -> None:
        self.spaces = spaces
        self.space = space
        self.bits = bits

    def __and__(self, other: "States") -> "States":
        space, left, right = self.spaces.together(self, other)
        return States(self.spaces, space, left & right)

    def __or__(self, other: "States") -> "States":
        space, left, right = self.spaces.together(self, other)
        return States(self.spaces, space, left | right)

    def __sub__(self, other: "States") -> "States":
        space, left, right = self.spaces.together(self, other)
        return States(self.spaces, space, left & ~right)

    def __invert__(self) -> "States":
        return States(self.spaces, self.space, self.space.full ^ self.bits)

    def __bool__(self) -> bool:
        return self.bits != 0

    def same_as(self, other: "States") -> bool:
        """Do both hold in the same states?"""
        _, left, right = self.spaces.together(self, other)
        return left == right

    def __contains__(self, values: dict[int, int]) -> bool:
        return bool(self.bits >> self.space.number(values) & 1)

    @property
    def everything(self) -> bool:
        """Does it hold in every state?"""
        return self.bits == self.space.full

    def over(self, space: Space) -> int:
        """Its bits over a wider space."""
        return self.spaces.lifted(self, space)

    def depends_on(self, digit: int) -> bool:
        """Does turning this digit alone ever lead into or out of the set?"""
        return digit in self.space.digits and self.space.depends(self.bits, digit)

    def tight(self) -> "States":
        """The same set over only those digits that it depends on."""
        result = self
        for digit in self.space.digits:
            if not result.space.depends(result.bits, digit):
                result = result._without(digit)
        return result

    def turned(self, digit: int) -> "States":
        """The states from which turning `digit` somehow (or leaving it) leads into the set."""
        if digit not in self.space.digits:
            return self
        return States(self.spaces, self.space, self.space.anyhow(self.bits, digit))

    def given(self, digit: int, value: int) -> "States":
        """The states that belong to the set once `digit` has this value, whatever it is now."""
        return (self & self.spaces.where(digit, (value,))).turned(digit)

    def _without(self, digit: int) -> "States":
        space = self.space
        position = space.index(digit)
        narrower = self.spaces.of(space.digits[:position] + space.digits[position + 1 :])
        return States(self.spaces, narrower, space.without(self.bits, digit))


class Spaces:
    """All spaces of one circuit, each made once. `radices`: one for each of the circuit's digits."""

    def __init__(self, radices: tuple[int, ...]) -> None:
        self.radices = radices
        self._known: dict[tuple[int, ...], Space] = {}
        self._unions: dict[tuple[tuple[int, ...], tuple[int, ...]], Space] = {}
        self._lifted: dict[tuple[tuple[int, ...], int, tuple[int, ...]], int] = {}
        self._widenings: dict[tuple[tuple[int, ...], tuple[int, ...]], Widening] = {}
        nowhere = self.of(())
        self._all = States(self, nowhere, nowhere.full)
        self._none = States(self, nowhere, 0)

    def of(self, digits: Iterable[int]) -> Space:
        """The space of these digits. TooWide where it has more than WIDEST states."""
        key = tuple(sorted(set(digits)))
        space = self._known.get(key)
        if space is None:
            space = self._known[key] = Space(key, tuple(self.radices[digit] for digit in key))
        return space

    def all(self) -> States:
        """The set of every state."""
        return self._all

    def none(self) -> States:
        """The set of no state."""
        return self._none

    def where(self, digit: int, values: Iterable[int]) -> States:
        """The states in which `digit` has one of `values`."""
        space = self.of((digit,))
        return States(self, space, space.where(digit, values))

    def over(self, space: Space, bits: int) -> States:
        """The set with these bits over `space`."""
        return States(self, space, bits)

    def together(self, left: States, right: States) -> tuple[Space, int, int]:
        """The space of both sets' digits, and the bits of each over it."""
        if left.space is right.space:
            return left.space, left.bits, right.bits
        key = (left.space.digits, right.space.digits)
        space = self._unions.get(key)
        if space is None:
            space = self._unions[key] = self.of(key[0] + key[1])
        return space, self.lifted(left, space), self.lifted(right, space)

    def lifted(self, states: States, space: Space) -> int:
        """The bits of a set over a wider space. ValueError where that space lacks a digit of the set's."""
        if states.space is space:
            return states.bits
        if states.bits in (0, states.space.full):
            return space.full if states.bits else 0
        if states.space.size > SMALL or space.size > WORTH_KEEPING:
            return self._with_digits(states, space)
        key = (states.space.digits, states.bits, space.digits)
        bits = self._lifted.get(key)
        if bits is None:
            bits = self._lifted[key] = self._with_digits(states, space)
        return bits

    def _with_digits(self, states: States, space: Space) -> int:
        bits = states.bits
        for apart, stride, radix in self._widening(states.space, space):
            bits = spread_copies(moved_apart(bits, apart), stride, radix)
        return bits

    def _widening(self, narrow: Space, wide: Space) -> "Widening":
        key = (narrow.digits, wide.digits)
        found = self._widenings.get(key)
        if found is None:
            found = tuple(_widening(narrow, wide))
            if wide.size <= WORTH_KEEPING:
                self._widenings[key] = found
        return found


Widening = tuple[tuple[Levels, int, int], ...]
"""The digits that are put in, from the lowest: how blocks move apart for each, its stride and its radix."""


def _widening(narrow: Space, wide: Space) -> Iterator[tuple[Levels, int, int]]:
    size, have = narrow.size, set(narrow.digits)
    if not have <= set(wide.digits):
        raise ValueError("a set can only be brought to a space that has all its digits")
    for digit, stride, radix in zip(wide.digits, wide.strides, wide.radices, strict=True):
        if digit not in have:
            yield levels(size, stride, radix), stride, radix
            size *= radix


def union(sets: Iterable[States], nothing: States) -> States:
    """The union of sets; `nothing` where there are none."""
    result = nothing
    for states in sets:
        result = result | states
    return result
