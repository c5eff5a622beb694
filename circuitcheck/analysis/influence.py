"""Which digits have a say in which.

A relay's moves depend on the digits that its coil's current runs over, an axis' on those that drive it; inputs depend
on nothing. So a question about some digits needs their cone of influence and no more: what is downstream of it, or
beside it, always comes to rest somewhere and can stand still while the cone's own story goes on.

What this leaves out: a short beside the cone, which would stop the cone's story as well. It is reported by itself.
"""

from collections.abc import Callable, Iterable

from circuitcheck.analysis.states import States


def cone_of_influence(digits: Iterable[int], depends_on: Callable[[int], frozenset[int]]) -> frozenset[int]:
    """The digits with all those that they depend on, directly or through others."""
    cone: set[int] = set()
    waiting = list(digits)
    while waiting:
        digit = waiting.pop()
        if digit not in cone:
            cone.add(digit)
            waiting.extend(depends_on(digit))
    return frozenset(cone)


def has_more_states(
    digits: Iterable[int], depends_on: Callable[[int], frozenset[int]], radices: tuple[int, ...], most: int
) -> bool:
    """Have all digits with a say in these, and they themselves, more states together than this?"""
    met = set(digits)
    waiting, states = list(met), 1
    while waiting and states <= most:
        digit = waiting.pop()
        states *= radices[digit]
        more = depends_on(digit) - met
        met |= more
        waiting.extend(more)
    return states > most


def digits_of(*sets: States) -> frozenset[int]:
    """The digits that any of these sets stands over."""
    return frozenset(digit for states in sets for digit in states.space.digits)
