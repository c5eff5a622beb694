"""Sets of states as integers, moved about: a mask and a shift for each step.

A digit's value fills stretches of `stride` bits, one after the other for each of its values, and that again and again
along the integer. To put a digit into a set, or take one out, blocks of bits move apart or together.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

WORTH_KEEPING: Final = 1 << 14
"""States of a wider space up to which such a set is kept: 2 kB each."""

Levels = tuple[tuple[int, int], ...]
"""The bits of a set that stay, and how far all others move: the upper half of all blocks first, then each half's."""


def repeat(block: int, period: int, count: int) -> int:
    """`block` repeated `count` times, `period` bits apart."""
    doubling = count.bit_length() - 1
    for _ in range(doubling):
        block |= block << period
        period *= 2
    left = count - (1 << doubling)
    return block | (block & ((1 << (left * period >> doubling)) - 1)) << period if left else block


def spread_copies(bits: int, stride: int, radix: int) -> int:
    """`bits` (zero wherever a digit of this stride and radix is not 0) at every value of that digit."""
    if radix == 2:
        return bits | bits << stride
    result, have = bits, 1
    while have < radix:
        step = min(have, radix - have)
        result |= result << (step * stride)
        have += step
    return result


def digit_at(size: int, stride: int, radix: int, values: tuple[int, ...]) -> int:
    """The states, of `size`, in which the digit with this stride and radix has one of these values."""
    block = 0
    for value in values:
        block |= ((1 << stride) - 1) << (value * stride)
    return repeat(block, stride * radix, size // (stride * radix))


def levels(size: int, stride: int, radix: int) -> Levels:
    """How blocks of `stride` bits move apart in a set over `size` states, to make room for a digit of this radix."""
    return (_kept_levels if size * radix <= WORTH_KEEPING else _levels)(size, stride, radix)


def _levels(size: int, stride: int, radix: int) -> Levels:
    blocks = size // stride
    found = []
    for level in range((blocks - 1).bit_length() - 1, -1, -1):
        width = stride << level
        lower = repeat((1 << width) - 1, 2 * width * radix, -(-blocks // (2 << level)))
        found.append((lower, width * (radix - 1)))
    return tuple(found)


def moved_apart(bits: int, apart: Levels) -> int:
    """A set with room for a digit, at which it stands at 0."""
    for lower, shift in apart:
        stays = bits & lower
        bits = stays | (bits ^ stays) << shift
    return bits


def moved_together(bits: int, apart: Levels) -> int:
    """A set that stands at 0 of a digit, with that digit taken out."""
    for lower, shift in reversed(apart):
        stays = bits & lower
        bits = stays | (bits ^ stays) >> shift
    return bits


Widening = tuple[tuple[Levels, int, int], ...]
"""The digits that are put in, from the lowest: how blocks move apart for each, its stride and its radix. Neighbours are
put in as one."""


def widening(
    have: tuple[int, ...], digits: tuple[int, ...], strides: tuple[int, ...], radices: tuple[int, ...]
) -> Iterator[tuple[Levels, int, int]]:
    """What brings a set over the digits `have` to a space of these digits. ValueError where that lacks one of them."""
    there = set(have)
    if not there <= set(digits):
        raise ValueError("a set can only be brought to a space that has all its digits")
    size = 1
    for digit, radix in zip(digits, radices, strict=True):
        size *= radix if digit in there else 1
    together = 1
    for place, digit in enumerate(digits):
        if digit not in there:
            together *= radices[place]
            if place + 1 == len(digits) or digits[place + 1] in there:
                stride = strides[place] * radices[place] // together
                yield levels(size, stride, together), stride, together
                size *= together
                together = 1


# Digits of equal strides are one question, whatever they are called: a module that comes again asks nothing new.
kept_digit_at = lru_cache(4_000)(digit_at)
_kept_levels = lru_cache(4_000)(_levels)
