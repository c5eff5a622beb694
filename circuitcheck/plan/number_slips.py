"""Slips of the hand in quantities. Each function answers only for the slip that it recognises."""

import re

from circuitcheck.plan.stumbles import QUANTITY, UNIT, Slip, Stumble, shortened

# Not the 1 of K1.
_NUMBER_BEFORE = re.compile(r"(?<![\w.])[0-9][0-9.]*\s*$")
_COMMA_AND_REST = re.compile(r",([0-9]+)\s*([^\W\d_]*2?)")
_SIGNED = re.compile(r"([-+.])([0-9][0-9.]*)")
_DIGITS = re.compile(r"[0-9]{13,}|[0-9]+\.[0-9]{13,}")


def decimal_comma(stumble: Stumble) -> Slip | None:
    """`0,5 mm2`"""
    number = _NUMBER_BEFORE.search(stumble.before)
    rest = _COMMA_AND_REST.match(stumble.after)
    if not number or not rest or UNIT not in stumble.words:
        return None
    whole = f"{number[0]},{rest[1]}"
    point = f"{number[0]}.{rest[1]} {rest[2]}".strip()
    return Slip(stumble.stretch(len(number[0]), len(whole)), f"{whole} with a comma", f"Write a point: {point}")


def sign_or_bare_point(stumble: Stumble) -> Slip | None:
    """`-12 V`, `.5 A`"""
    quantity = _SIGNED.match(stumble.after)
    if not quantity or QUANTITY not in stumble.words:
        return None
    written = f"0.{quantity[2]}" if quantity[1] == "." else quantity[2]
    help = f"A number begins with a digit and has no sign: {shortened(written)}"
    return Slip(stumble.stretch(0, len(quantity[0])), f"the number {shortened(quantity[0])}", help)


def too_many_digits(stumble: Stumble) -> Slip | None:
    """`1000000000000000 V`"""
    if UNIT not in stumble.words or not (digits := _DIGITS.match(stumble.after)):
        return None
    what = "a number of more than 12 digits"
    return Slip(stumble.stretch(0, len(digits[0])), what, "Choose a larger or smaller unit.")


def missing_unit(stumble: Stumble) -> Slip | None:
    """`supply PS 12`"""
    number = _NUMBER_BEFORE.search(stumble.before)
    if not number or UNIT not in stumble.words:
        return None
    written = number[0].strip()
    help = f"Write it after the number, like {shortened(written)} V."
    if re.search(r"\bgear\s*$", stumble.before[: number.start()]):
        help = "Write how often the motor turns for one turn of the output shaft, like 60:1."
    return Slip(stumble.stretch(len(number[0]), len(written)), f"{shortened(written)} with no unit", help)


def not_a_number(stumble: Stumble) -> Slip | None:
    """`1e3 A`"""
    if UNIT not in stumble.words or not stumble.found[:1].isdigit():
        return None
    help = "Write digits, then a unit: 1000 V, 1.5 mm2."
    return Slip(stumble, f"`{stumble.shown}` where {QUANTITY} is expected", help)
