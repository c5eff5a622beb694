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

from collections.abc import Iterable
from math import prod
from typing import TYPE_CHECKING, Final

from circuitcheck.analysis.bit_moves import WORTH_KEEPING
from circuitcheck.analysis.space import WIDEST, Space, TooMuchWork, TooWide, narrow_space

if TYPE_CHECKING:
    from circuitcheck.analysis.diagrams import Diagrams

__all__ = [
    "INTEGERS", "SMALL", "WIDEST", "WORTH_KEEPING", "Space", "Spaces", "States", "TooMuchWork", "TooWide", "union",
]  # fmt: skip

INTEGERS: Final = 1 << 18
"""States up to which a set is an integer where wider ones are decision diagrams: 32 kB. Measured: about there diagrams
begin to be the quicker ones."""


SMALL: Final = 64
"""States up to which a set is a contact's or so: it is brought to the same wider space time and again."""


class States:
    """A set of states: `bits` over `space`. Sets of one circuit mix freely; results stand over the digits of both."""

    __slots__ = ("bits", "space", "spaces")

    def __init__(self, spaces: "Spaces", space: Space, bits: int) -> None:
        self.spaces = spaces
        self.space = space
        self.bits = bits

    def __and__(self, other: "States") -> "States":
        if not other.space.digits:
            return self if other.bits else States(self.spaces, self.space, self.bits & 0)
        space, left, right = self.spaces.together(self, other)
        return States(self.spaces, space, left & right)

    def __or__(self, other: "States") -> "States":
        if not other.space.digits and not other.bits:
            return self
        space, left, right = self.spaces.together(self, other)
        return States(self.spaces, space, left | right)

    def __sub__(self, other: "States") -> "States":
        if not other.space.digits and not other.bits:
            return self
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

    @property
    def integer(self) -> int:
        """Its bits as a plain integer, whatever they are kept as. Only for spaces of at most WIDEST states."""
        return self.space.integer(self.bits)

    def depends_on(self, digit: int) -> bool:
        """Does turning this digit alone ever lead into or out of the set?"""
        return digit in self.space.digits and self.space.depends(self.bits, digit)

    def tight(self) -> "States":
        """The same set over only those digits that it depends on."""
        return self.spaces.tightened(self)

    def turned(self, digit: int) -> "States":
        """The states from which turning `digit` somehow (or leaving it) leads into the set."""
        if digit not in self.space.digits:
            return self
        return States(self.spaces, self.space, self.space.anyhow(self.bits, digit))

    def at_some(self, digits: Iterable[int]) -> "States":
        """The states that come into the set by turning these digits somehow, over the space of all others."""
        own = [digit for digit in digits if digit in self.space.digits]
        return States(self.spaces, self.space, self.space.all_anyhow(self.bits, own)).tight()

    def given(self, digit: int, value: int) -> "States":
        """The states that belong to the set once `digit` has this value, whatever it is now."""
        if digit not in self.space.digits:
            return self
        chosen = self.space.moved(self.bits, digit, value, value)
        return States(self.spaces, self.space, self.space.anyhow(chosen, digit))


class Spaces:
    """All spaces of one circuit, each made once. `radices`: one for each of the circuit's digits.

    wide: sets over a space of more states than this are decision diagrams (diagrams.py); None where there are none.
    widest: spaces of more states are TooWide; None for whatever diagrams can hold. Integers end at WIDEST anyhow.
    """

    def __init__(self, radices: tuple[int, ...], wide: int | None = None, widest: int | None = None) -> None:
        self.radices = radices
        self._wide = wide
        self._widest = widest
        self._made_diagrams: Diagrams | None = None
        self._known: dict[tuple[int, ...], Space] = {}
        self._unions: dict[tuple[Space, Space], Space] = {}
        self._where: dict[tuple[int, ...], States] = {}
        self._lifted: dict[tuple[Space, int, Space], int] = {}
        self._tightened: dict[tuple[Space, int], States] = {}
        nowhere = self.of(())
        self._all = States(self, nowhere, nowhere.full)
        self._none = States(self, nowhere, 0)

    def of(self, digits: Iterable[int]) -> Space:
        """The space of these digits. TooWide where it has more states than can be."""
        key = tuple(sorted(set(digits)))
        space = self._known.get(key)
        if space is None:
            space = self._known[key] = self._made(key)
        return space

    def _made(self, digits: tuple[int, ...]) -> Space:
        radices = tuple([self.radices[digit] for digit in digits])
        size = prod(radices)
        if self._wide is None or size <= self._wide:
            return narrow_space(digits, radices) if size <= WORTH_KEEPING else Space(digits, radices)
        if self._widest is not None and size > self._widest:
            raise TooWide(digits, size)
        from circuitcheck.analysis.diagram_sets import DiagramSpace

        return DiagramSpace(self._diagrams, digits)

    @property
    def _diagrams(self) -> "Diagrams":
        if self._made_diagrams is None:
            from circuitcheck.analysis.diagrams import Diagrams

            self._made_diagrams = Diagrams(self.radices)
        return self._made_diagrams

    def begin_counting(self) -> None:
        """What is asked from now on has all the work before it that a plan is given."""
        if self._made_diagrams is not None:
            self._made_diagrams.begin_counting()

    @property
    def engine(self) -> str:
        """What the widest sets up to now are kept as, for people to read."""
        return "decision diagrams" if any(space.has_diagrams for space in self._known.values()) else "integers"

    def unlimited(self) -> "Spaces":
        """Spaces of the same circuit with nothing but memory as the limit; what diagrams there are is known already."""
        spaces = Spaces(self.radices, self._wide)
        spaces._made_diagrams = self._made_diagrams
        return spaces

    def alike(self, radices: tuple[int, ...]) -> "Spaces":
        """Spaces of another circuit, with diagrams as far as these have them; the same ones for the same digits."""
        return self if radices == self.radices else Spaces(radices, self._wide, self._widest)

    def all(self) -> States:
        """The set of every state."""
        return self._all

    def none(self) -> States:
        """The set of no state."""
        return self._none

    def where(self, digit: int, values: Iterable[int]) -> States:
        """The states in which `digit` has one of `values`."""
        key = (digit, *values)
        found = self._where.get(key)
        if found is None:
            space = self._known.get((digit,)) or self.of((digit,))
            found = self._where[key] = States(self, space, space.where(digit, key[1:]))
        return found

    def over(self, space: Space, bits: int) -> States:
        """The set with these bits over `space`."""
        return States(self, space, bits)

    def together(self, left: States, right: States) -> tuple[Space, int, int]:
        """The space of both sets' digits, and the bits of each over it."""
        if left.space is right.space:
            return left.space, left.bits, right.bits
        key = (left.space, right.space)
        space = self._unions.get(key)
        if space is None:
            space = self._unions[key] = self.of(left.space.digits + right.space.digits)
        return space, self.lifted(left, space), self.lifted(right, space)

    def lifted(self, states: States, space: Space) -> int:
        """The bits of a set over a wider space. ValueError where that space lacks a digit of the set's."""
        if states.space is space:
            return states.bits
        if states.bits in (0, states.space.full):
            return space.full if states.bits else 0
        if states.space.size > SMALL or space.size > WORTH_KEEPING:
            return space.widened(states.bits, states.space)
        key = (states.space, states.bits, space)
        bits = self._lifted.get(key)
        if bits is None:
            bits = self._lifted[key] = space.widened(states.bits, states.space)
        return bits

    def tightened(self, states: States) -> States:
        """The set over only those digits that it depends on: most are asked for time and again."""
        space, bits = states.space, states.bits
        if bits in (0, space.full):
            return self._all if bits else self._none
        if len(space.digits) < 2:
            return states
        if space.size > WORTH_KEEPING or space.has_diagrams:
            return States(self, *space.tightened(bits, self))
        found = self._tightened.get((space, bits))
        if found is None:
            found = self._tightened[space, bits] = States(self, *space.tightened(bits, self))
        return found


def union(sets: Iterable[States], nothing: States) -> States:
    """The union of sets; `nothing` where there are none. Many are brought to the space of all their digits at once."""
    some = [states for states in (*sets, nothing) if states.bits or states.space.digits]
    if len(some) < 2:
        return some[0] if some else nothing
    space = nothing.spaces.of([digit for states in some for digit in states.space.digits])
    bits = some[0].over(space)
    for states in some[1:]:
        bits |= states.over(space)
    return nothing.spaces.over(space, bits)
