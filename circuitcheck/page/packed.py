"""Sets of states as text: what a page can look up without working anything out.

A set's bits go as bytes, the lowest first, in base64 (RFC 4648); state n of the set's own digits is bit n % 8 of byte
n // 8. n is the sum of each digit's value times its stride, as in analysis/states.py. Equal sets go once: conductors in
series carry their current in the same states.
"""

from base64 import b64decode, b64encode
from typing import Final, NamedTuple

from circuitcheck.analysis.states import Spaces, States

MOST_STATES: Final = 1 << 22
"""Of one set: 700 kB of text. Wider ones are left out, and the page says so."""


class PackedSet(NamedTuple):
    """digits: those that it depends on; strides: what a value of each counts; bits: in base64."""

    digits: tuple[int, ...]
    strides: tuple[int, ...]
    bits: str


class Packing:
    """Takes sets in, each under a number by which it is found again among `sets`; equal ones under the same."""

    def __init__(self) -> None:
        self.sets: list[PackedSet] = []
        self._numbers: dict[tuple[tuple[int, ...], int], int] = {}

    def number(self, states: States) -> int | None:
        """The number of a set; None where it is too wide to go into a page."""
        states = states.tight()
        if states.space.size > MOST_STATES:
            return None
        key = (states.space.digits, states.bits)
        if key not in self._numbers:
            self._numbers[key] = len(self.sets)
            self.sets.append(packed(states))
        return self._numbers[key]


def packed(states: States) -> PackedSet:
    """The set as text."""
    space = states.space
    data = states.bits.to_bytes((space.size + 7) // 8, "little")
    return PackedSet(space.digits, space.strides, b64encode(data).decode("ascii"))


def unpacked(one: PackedSet, spaces: Spaces) -> States:
    """The set that the text stands for."""
    return spaces.over(spaces.of(one.digits), int.from_bytes(b64decode(one.bits), "little"))
