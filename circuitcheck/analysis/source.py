"""Where a figure comes from. Whoever reads a result is to know how far each figure in it can be trusted."""

from typing import NamedTuple


class Source(NamedTuple):
    """name: the standard, rule or book.

    certainty: "read" (in the rule or book itself), "quoted" (in somebody's copy or data sheet of it), "derived" (worked
    out from such), "common practice" (of the trade, nobody in particular says so) or "from memory" (not looked up).
    """

    name: str
    certainty: str

    def __str__(self) -> str:
        return self.name if self.certainty in ("read", "quoted") else f"{self.name}, {self.certainty}"


COMMON_PRACTICE = Source("no source", "common practice")
