"""Sets of states as integers, moved about: a mask and a shift for each step.

A digit's value fills stretches of `stride` bits, one after the other for each of its values, and that again and again
along the integer. To put a digit into a set, or take one out, blocks of bits move apart or together.
"""

Levels = tuple[tuple[int, int], ...]
"""The bits of a set that stay, and how far all others move: the upper half of all blocks first, then each half's."""


def repeat(block: int, period: int, count: int) -> int:
    """`block` repeated `count` times, `period` bits apart."""
    result, width, have = block, period, 1
    while have < count:
        step = min(have, count - have)
        result |= (result & ((1 << (step * period)) - 1)) << width if step < have else result << width
        have += step
        width = have * period
    return result


def spread_copies(bits: int, stride: int, radix: int) -> int:
    """`bits` (zero wherever a digit of this stride and radix is not 0) at every value of that digit."""
    result, have = bits, 1
    while have < radix:
        step = min(have, radix - have)
        result |= result << (step * stride)
        have += step
    return result


def levels(size: int, stride: int, radix: int) -> Levels:
    """How blocks of `stride` bits move apart in a set over `size` states, to make room for a digit of this radix."""
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
