"""Functions of a circuit's digits as binary decision diagrams (Bryant 1986): equal parts are kept once.

Each digit is written as a binary number, highest bit first; codes above its last value mean the last value, so that
every code is a state and a complement needs no mask. The highest digit stands on top. Cost: an operation takes as long
as its diagrams have nodes.
"""

from collections.abc import Iterable
from typing import Final

from oxidd.bdd import BDDFunction, BDDManager

from circuitcheck.analysis.space import TooMuchWork

NODES: Final = 1 << 23
"""Nodes that all diagrams of one circuit may have together: about half a gigabyte."""

FEW: Final = 32
"""Variables up to which few results are kept: to make room for more takes longer than most questions do."""

REMEMBERED: Final = (1 << 15, 1 << 20)
"""Intermediate results that are kept with few variables, and with many. Measured: with a quarter of them, a plan of 48
digits takes a sixth longer."""

MOST_STEPS: Final = 500_000_000
"""Steps of work that are taken for one plan, some two to five minutes. What the clock says would differ from machine
to machine, and so would the verdict."""

STEPS_AT_LEAST: Final = 100
"""What an operation takes whose result has no nodes; each node is one more."""

COUNTED: Final = 8
"""Of so many operations one is counted, for all of them: to count nodes takes a good part of the time to make them."""


class Diagrams:
    """The variables of one circuit's digits, and what is made of them."""

    def __init__(self, radices: tuple[int, ...]) -> None:
        self.radices = radices
        widths = [(radix - 1).bit_length() for radix in radices]
        self.count = sum(widths)
        self._manager = BDDManager(NODES, REMEMBERED[self.count > FEW], 1)
        self._manager.add_vars(self.count)
        self.false, self.true = self._manager.false(), self._manager.true()
        self.variables: list[tuple[int, ...]] = []
        below = self.count
        for width in widths:
            below -= width
            self.variables.append(tuple(range(below, below + width)))
        self.digit_at = {number: digit for digit, numbers in enumerate(self.variables) for number in numbers}
        self._steps = self._made = 0
        self._values: dict[tuple[int, int], BDDFunction] = {}
        self._cubes: dict[int, BDDFunction] = {}
        self._built: dict[tuple[tuple[int, ...], int], BDDFunction] = {}

    def begin_counting(self) -> None:
        """No work has been done for what is asked from now on."""
        self._steps = self._made = 0

    def count_steps(self, result: BDDFunction) -> None:
        """Takes down what an operation took. TooMuchWork past MOST_STEPS: the same for a plan wherever it is asked."""
        self._made += 1
        if self._made % COUNTED == 0:
            self._steps += COUNTED * (STEPS_AT_LEAST + result.node_count())
            if self._steps > MOST_STEPS:
                raise TooMuchWork(MOST_STEPS)

    def has_value(self, digit: int, value: int) -> BDDFunction:
        """The states in which a digit has this value."""
        if (digit, value) not in self._values:
            last = self.radices[digit] - 1
            variables = self.variables[digit]
            found = self.false
            for code in range(value, 1 << len(variables) if value == last else value + 1):
                term = self.true
                for place, number in enumerate(reversed(variables)):
                    term &= self._manager.var(number) if code >> place & 1 else ~self._manager.var(number)
                found |= term
            self._values[digit, value] = found
        return self._values[digit, value]

    def cube(self, digit: int) -> BDDFunction:
        """The variables of a digit."""
        if digit not in self._cubes:
            term = self.true
            for number in self.variables[digit]:
                term &= self._manager.var(number)
            self._cubes[digit] = term
        return self._cubes[digit]

    def of_bits(self, digits: tuple[int, ...], bits: int) -> BDDFunction:
        """The set that is these bits over a space of few digits."""
        if not digits or not bits:
            return self.true if bits else self.false
        key = (digits, bits)
        if key not in self._built:
            size = 1
            for digit in digits[:-1]:
                size *= self.radices[digit]
            found, mask = self.false, (1 << size) - 1
            for value in range(self.radices[digits[-1]]):
                part = self.of_bits(digits[:-1], bits >> value * size & mask)
                found |= self.has_value(digits[-1], value) & part
            self._built[key] = found
        return self._built[key]

    def bits_of(self, function: BDDFunction, digits: tuple[int, ...], known: dict[object, int]) -> int:
        """The bits over a space of few digits, on no others of which it depends."""
        if function == self.false or not digits:
            return 0 if function == self.false else 1
        key = (function, len(digits))
        if key not in known:
            size = 1
            for digit in digits[:-1]:
                size *= self.radices[digit]
            known[key] = sum(
                self.bits_of(self.at_value(function, digits[-1], value), digits[:-1], known) << value * size
                for value in range(self.radices[digits[-1]])
            )
        return known[key]

    def at_value(self, function: BDDFunction, digit: int, value: int) -> BDDFunction:
        """What is left of a function that depends on no higher digit, once this digit has this value."""
        variables = self.variables[digit]
        for place, number in zip(range(len(variables) - 1, -1, -1), variables, strict=True):
            if function.node_var() == number:
                branches = function.cofactors()
                assert branches is not None
                function = branches[0 if value >> place & 1 else 1]
        return function

    def support(self, function: BDDFunction, most: int) -> set[int]:
        """The digits that a function depends on, which are so many at most: mostly they are met after a few nodes."""
        found: set[int] = set()
        met = {function}
        waiting = [function]
        while waiting and len(found) < most:
            one = waiting.pop()
            branches = one.cofactors()
            if branches is None:
                continue
            number = one.node_var()
            assert number is not None
            found.add(self.digit_at[number])
            for branch in branches:
                if branch not in met:
                    met.add(branch)
                    waiting.append(branch)
        return found

    def brought_from(self, other: "Diagrams", function: BDDFunction) -> BDDFunction:
        """A function of another circuit's digits as one of these, which have the same values."""
        if other is self:
            return function
        made = {other.false: self.false, other.true: self.true}
        waiting = [function]
        while waiting:
            one = waiting[-1]
            branches = one.cofactors()
            left = [branch for branch in branches or () if branch not in made]
            number = one.node_var()
            if left:
                waiting.extend(left)
            elif one not in made and branches is not None and number is not None:
                digit = other.digit_at[number]
                place = other.variables[digit].index(number)
                made[one] = self._manager.var(self.variables[digit][place]).ite(made[branches[0]], made[branches[1]])
            else:
                waiting.pop()
        return made[function]

    def within(self, digits: Iterable[int]) -> BDDFunction:
        """All states, each by one code only."""
        found = self.true
        for digit in digits:
            if 1 << len(self.variables[digit]) > self.radices[digit]:
                term = self.false
                for value in range(self.radices[digit] - 1):
                    term |= self.has_value(digit, value)
                last = self.true
                for place, number in enumerate(reversed(self.variables[digit])):
                    code = self.radices[digit] - 1
                    last &= self._manager.var(number) if code >> place & 1 else ~self._manager.var(number)
                found &= term | last
        return found
