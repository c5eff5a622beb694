"""Being told what is being done, where it takes a while."""

from collections.abc import Callable

Tell = Callable[[str], None]
"""Is told, in a few words."""


def nobody(_doing: str) -> None:
    """Where nobody waits for it."""
