"""Patterns of bits that repeat with a digit's stride, and digits put into sets and taken out: by mask and shift."""


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


def with_digit(bits: int, size: int, stride: int, radix: int) -> int:
    """A set over `size` states, with a digit that it does not depend on inserted at `stride`.

    Blocks of `stride` bits move apart to make room: the upper half of all blocks first, then each half's upper half.
    """
    blocks = size // stride
    for level in range((blocks - 1).bit_length() - 1, -1, -1):
        width = stride << level
        low = repeat((1 << width) - 1, 2 * width * radix, -(-blocks // (2 << level)))
        bits = (bits & low) | ((bits & (low << width)) << (width * (radix - 1)))
    return spread_copies(bits, stride, radix)


def without_digit(bits: int, size: int, stride: int, radix: int) -> int:
    """The part of a set over `size` states that has the digit at `stride` at 0, with that digit taken out."""
    blocks = size // (stride * radix)
    bits &= repeat((1 << stride) - 1, stride * radix, blocks)
    for level in range((blocks - 1).bit_length()):
        width = stride << level
        low = repeat((1 << width) - 1, 2 * width * radix, -(-blocks // (2 << level)))
        bits = (bits & low) | ((bits & (low << (width * radix))) >> (width * (radix - 1)))
    return bits
