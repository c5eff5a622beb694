"""Being told what is being done, where it takes a while."""

from collections.abc import Callable

Tell = Callable[[str], None]
"""Is told, in a few words."""


def nobody(_doing: str) -> None:
    """Where nobody waits for it."""


Count = Callable[[str, int, int], None]
"""Is told the same, with how much is done of how much."""


def nobody_counts(_doing: str, _done: int, _all: int) -> None:
    """Where nobody waits for it."""
