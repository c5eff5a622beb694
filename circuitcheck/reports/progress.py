"""What is being done, told on the terminal once it has taken long enough for somebody to wonder."""

from collections.abc import Callable
from threading import Timer
from types import TracebackType
from typing import TYPE_CHECKING, TextIO

from circuitcheck.reports.problems import printable

if TYPE_CHECKING:
    from rich.status import Status

SILENT_SECONDS = 1.0


class Progress:
    """While entered, shows on `stream` what it was last told; nothing in the first second."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._doing = "working"
        self._status: Status | None = None
        self._timer = Timer(SILENT_SECONDS, self._begin)
        self._timer.daemon = True

    def tell(self, doing: str) -> None:
        """Shows this from now on."""
        self._doing = printable(doing)
        if self._status is not None:
            self._status.update(self._doing)

    def __enter__(self) -> Callable[[str], None]:
        self._timer.start()
        return self.tell

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._timer.cancel()
        if self._timer.is_alive():
            self._timer.join()
        if self._status is not None:
            self._status.stop()

    def _begin(self) -> None:
        from rich.console import Console

        # A file's name may hold what rich would take for its own markup.
        console = Console(file=self._stream, markup=False, highlight=False, emoji=False)
        status = console.status(self._doing, spinner="line")
        status.start()
        self._status = status
