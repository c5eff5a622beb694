"""Whether two values say the same, wherever in a text they stand."""

from collections.abc import Callable
from typing import Final

from circuitcheck.plan.source import Place

_NOWHERE: Final = Place("", 0, 0, 0, 0)


def without_places(value: object) -> object:
    """The value with every Place within it replaced by one and the same: equal then means the same up to places."""
    if isinstance(value, Place):
        return _NOWHERE
    if isinstance(value, tuple):
        parts = [without_places(one) for one in value]
        make: Callable[..., object] | None = getattr(type(value), "_make", None)
        return make(parts) if make else tuple(parts)
    if isinstance(value, dict):
        return {key: without_places(one) for key, one in value.items()}
    return value
