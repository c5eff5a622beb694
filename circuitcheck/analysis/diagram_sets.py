"""Sets of states over so many digits that an integer is slow, or could not hold them: decision diagrams that count as
one.

An integer with bit n set for state n is a function of the digits' values, and so is a diagram (diagrams.py). A set that
hangs together digit by digit takes few nodes, however many states it has. `Diagram` behaves as the integer would:
union, intersection, complement, shift by a digit's stride, lowest bit, count. So all that is asked of integers is asked
of it in the same words, with the same answers.
"""

from bisect import bisect_right
from collections.abc import Iterable

from oxidd.bdd import BDDFunction
from oxidd.util import BooleanOperator

from circuitcheck.analysis.diagrams import Diagrams
from circuitcheck.analysis.states import Space, Spaces


class DiagramSpace(Space):
    """The states of some digits, with sets as diagrams."""

    __slots__ = ("_proper", "diagrams")

    has_diagrams = True

    def __init__(self, diagrams: Diagrams, digits: tuple[int, ...]) -> None:
        self.digits = digits
        self.radices = tuple(diagrams.radices[digit] for digit in digits)
        size, strides = 1, []
        for radix in self.radices:
            strides.append(size)
            size *= radix
        self.strides = tuple(strides)
        self.size = size
        self.diagrams = diagrams
        self.full = Diagram(self, diagrams.true)
        self._proper: BDDFunction | None = None

    def where(self, digit: int, values: Iterable[int]) -> int:
        self.index(digit)
        found = self.diagrams.false
        for value in values:
            found |= self.diagrams.has_value(digit, value)
        return Diagram(self, found)

    def depends(self, bits: int, digit: int) -> bool:
        return self.anyhow(bits, digit) != bits

    def anyhow(self, bits: int, digit: int) -> int:
        return Diagram(self, self.function(bits).exists(self.diagrams.cube(digit)))

    def anyhow_in_both(self, bits: int, others: int, digit: int) -> int:
        cube = self.diagrams.cube(digit)
        return Diagram(self, self.function(bits).apply_exists(BooleanOperator.AND, self.function(others), cube))

    def all_anyhow(self, bits: int, digits: Iterable[int]) -> int:
        turned = self.diagrams.true
        for digit in digits:
            turned &= self.diagrams.cube(digit)
        return Diagram(self, self.function(bits).exists(turned))

    def parts(self, bits: int, digit: int) -> list[int]:
        function, radix = self.function(bits), self.radices[self.index(digit)]
        return [Diagram(self, self.diagrams.at_value(function, digit, value)) for value in range(radix)]

    def widened(self, bits: int, narrow: Space) -> int:
        if isinstance(narrow, DiagramSpace):
            return Diagram(self, self.diagrams.brought_from(narrow.diagrams, narrow.function(bits)))
        return Diagram(self, self.diagrams.of_bits(narrow.digits, bits))

    def tightened(self, bits: int, spaces: Spaces) -> tuple[Space, int]:
        function = self.function(bits)
        digits = self.diagrams.support(function, len(self.digits))
        if len(digits) == len(self.digits):
            return self, bits
        space = spaces.of(digits)
        if isinstance(space, DiagramSpace):
            return space, Diagram(space, function)
        return space, self.diagrams.bits_of(function, space.digits, {})

    def moved(self, bits: int, digit: int, start: int, end: int) -> int:
        diagrams = self.diagrams
        chosen = self.function(bits).apply_exists(
            BooleanOperator.AND, diagrams.has_value(digit, start), diagrams.cube(digit)
        )
        return Diagram(self, chosen & diagrams.has_value(digit, end))

    def integer(self, bits: int) -> int:
        return self.diagrams.bits_of(self.function(bits), self.digits, {})

    def function(self, bits: int) -> BDDFunction:
        """The diagram of a set, which may also be plainly nothing (0) or everything (-1)."""
        if isinstance(bits, Diagram):
            if bits.space.diagrams is not self.diagrams:
                raise ValueError("sets of two circuits don't mix")
            return bits.function
        if bits not in (0, -1):
            raise TypeError("no plain integer holds states of so many digits")
        return self.diagrams.true if bits else self.diagrams.false

    def shifted(self, function: BDDFunction, by: int) -> BDDFunction:
        """Each state turned on by so much of the one digit that this is a multiple of; others have no place to go."""
        place = bisect_right(self.strides, abs(by)) - 1
        change = by // self.strides[place] if by >= 0 else -(-by // self.strides[place])
        digit, found = self.digits[place], self.diagrams.false
        for value in range(self.radices[place]):
            if 0 <= value + change < self.radices[place]:
                chosen = function.apply_exists(
                    BooleanOperator.AND, self.diagrams.has_value(digit, value), self.diagrams.cube(digit)
                )
                if chosen != self.diagrams.false:
                    found |= chosen & self.diagrams.has_value(digit, value + change)
        return found

    def counted(self, function: BDDFunction) -> int:
        """How many states a set has."""
        if self._proper is None:
            self._proper = self.diagrams.within(self.digits)
        own = sum(len(self.diagrams.variables[digit]) for digit in self.digits)
        return (function & self._proper).sat_count(self.diagrams.count) >> (self.diagrams.count - own)

    def single(self, state: int) -> "Diagram":
        """The set of one state."""
        found = self.diagrams.true
        for digit, value in self.values(state).items():
            found &= self.diagrams.has_value(digit, value)
        return Diagram(self, found)

    def holds(self, function: BDDFunction, state: int) -> bool:
        """Does a state belong to the set?"""
        for digit, stride, radix in zip(self.digits[::-1], self.strides[::-1], self.radices[::-1], strict=True):
            function = self.diagrams.at_value(function, digit, state // stride % radix)
        return bool(function == self.diagrams.true)

    def outermost(self, function: BDDFunction, lowest: bool) -> int:
        """The number of a set's lowest or highest state."""
        diagrams, number = self.diagrams, 0
        for digit, stride, radix in zip(self.digits[::-1], self.strides[::-1], self.radices[::-1], strict=True):
            for value in range(radix) if lowest else range(radix - 1, -1, -1):
                rest = diagrams.at_value(function, digit, value)
                if rest != diagrams.false:
                    number += value * stride
                    function = rest
                    break
        return number


class Diagram(int):
    """An integer whose bits are a set of states of a space, held as a diagram. Its own value is never looked at."""

    space: DiagramSpace
    function: BDDFunction

    def __new__(cls, space: DiagramSpace, function: BDDFunction) -> "Diagram":
        """The set over `space` that is this function of the variables. TooMuchWork as in `Diagrams.count_steps`."""
        space.diagrams.count_steps(function)
        self = super().__new__(cls, 0)
        self.space = space
        self.function = function
        return self

    def __and__(self, other: int) -> int:
        if isinstance(other, _Lowest):
            return self.space.single(self.space.outermost(self.function, True)) if self else 0
        return Diagram(self.space, self.function & self.space.function(other))

    def __or__(self, other: int) -> int:
        return Diagram(self.space, self.function | self.space.function(other))

    def __xor__(self, other: int) -> int:
        return Diagram(self.space, self.function ^ self.space.function(other))

    __rand__, __ror__, __rxor__ = __and__, __or__, __xor__

    def __invert__(self) -> int:
        return Diagram(self.space, ~self.function)

    def __neg__(self) -> int:
        return _Lowest()

    def __lshift__(self, by: int) -> int:
        return Diagram(self.space, self.space.shifted(self.function, by)) if by else self

    def __rshift__(self, by: int) -> int:
        return _Shifted(self, by) if by < self.space.size else 0

    def __bool__(self) -> bool:
        return bool(self.function != self.space.diagrams.false)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, int) and bool(self.function == self.space.function(other))

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(self.function)

    def bit_count(self) -> int:
        """How many states the set has."""
        return self.space.counted(self.function)

    def bit_length(self) -> int:
        """One more than the number of its highest state; 0 where it has none."""
        return 1 + self.space.outermost(self.function, False) if self else 0


class _Lowest(int):
    """What `bits & -bits` asks for."""


class _Shifted(Diagram):
    """A set turned back by so many states. Mostly one bit of it is looked at, so it is carried out only if need be."""

    bits: Diagram
    by: int

    def __new__(cls, bits: Diagram, by: int) -> "_Shifted":
        self = int.__new__(cls, 0)
        self.space = bits.space
        self.bits = bits
        self.by = by
        return self

    def __getattr__(self, name: str) -> BDDFunction:
        if name != "function":
            raise AttributeError(name)
        self.function = self.space.shifted(self.bits.function, -self.by) if self.by else self.bits.function
        return self.function

    def __and__(self, other: int) -> int:
        if not isinstance(other, Diagram) and other == 1:
            return int(self.space.holds(self.bits.function, self.by))
        return super().__and__(other)

    __rand__ = __and__
