"""Values out of JSON that may come from anywhere, each held against what it has to be."""

from collections.abc import Callable, Collection
from typing import Any, TypeVar

Json = dict[str, Any]
Value = TypeVar("Value")

MOST_COUNTED = 10**4000
"""No count of anything is greater: no plan has more combinations."""


def text(found: Json, name: str) -> str:
    """The text of this name. These functions raise KeyError, TypeError or ValueError where there is no such thing."""
    return text_itself(found[name])


def text_itself(found: object) -> str:
    """A text."""
    if not isinstance(found, str):
        raise TypeError(found)
    return found


def one_of(found: Json, name: str, possible: Collection[str]) -> str:
    """One of these texts."""
    value = text(found, name)
    if value not in possible:
        raise ValueError(value)
    return value


def count(found: Json, name: str) -> int:
    """A whole number from 0."""
    value = found[name]
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < MOST_COUNTED:
        raise TypeError(value)
    return value


def count_or_none(found: Json, name: str) -> int | None:
    """The same, where there may be none."""
    return None if found[name] is None else count(found, name)


def seconds(found: Json, name: str) -> float:
    """A time."""
    value = found[name]
    if not isinstance(value, (int, float)) or not 0 <= value < MOST_COUNTED:
        raise TypeError(value)
    return value


def whether(found: Json, name: str) -> bool:
    """True or false."""
    if not isinstance(found[name], bool):
        raise TypeError(found[name])
    return bool(found[name])


def each(found: Json, name: str, read: Callable[[Any], Value]) -> tuple[Value, ...]:
    """What `read` makes of each in a list."""
    if not isinstance(found[name], list):
        raise TypeError(found[name])
    return tuple(map(read, found[name]))


def texts(found: Json, name: str) -> tuple[str, ...]:
    """A list of texts."""
    return each(found, name, text_itself)


def texts_by_name(found: Json, name: str) -> dict[str, str]:
    """Texts, each under a name."""
    if not isinstance(found[name], dict):
        raise TypeError(found[name])
    return {one: text_itself(value) for one, value in found[name].items()}
