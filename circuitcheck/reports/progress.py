"""What is being done, told on the terminal once it has taken long enough for somebody to wonder."""

from collections.abc import Callable
from threading import Timer
from types import TracebackType
from typing import TYPE_CHECKING, TextIO

from circuitcheck.reports.problems import printable

if TYPE_CHECKING:
    from rich.console import Console
    from rich.progress import Progress as Bar
    from rich.status import Status
    from rich.text import Text

SILENT_SECONDS = 1.0


class _Later:
    """Calls `begin` once SILENT_SECONDS are over, unless it has been ended before."""

    def __init__(self, begin: Callable[[], None]) -> None:
        self._timer = Timer(SILENT_SECONDS, begin)
        self._timer.daemon = True
        self._timer.start()

    def end(self) -> None:
        """Once this returns, `begin` isn't running and won't any more."""
        self._timer.cancel()
        if self._timer.is_alive():
            self._timer.join()


class Progress:
    """While entered, shows on `stream` what it was last told; nothing in the first second."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._doing = "working"
        self._status: Status | None = None

    def tell(self, doing: str) -> None:
        """Shows this from now on."""
        self._doing = printable(doing)
        if self._status is not None:
            self._status.update(_as_it_is(self._doing))

    def __enter__(self) -> Callable[[str], None]:
        self._later = _Later(self._begin)
        return self.tell

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._later.end()
        if self._status is not None:
            self._status.stop()

    def _begin(self) -> None:
        status = _console(self._stream).status("", spinner="line")
        # Known to `tell` before it is drawn, so that nothing that is told meanwhile gets lost.
        self._status = status
        status.update(_as_it_is(self._doing))
        status.start()


class Counting:
    """While entered, shows on `stream` a bar of how much is done, and what was last; nothing in the first second."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._told = ("", 0, 0)
        self._bar: Bar | None = None

    def tell(self, doing: str, done: int, of: int) -> None:
        """Shows this from now on."""
        self._told = (printable(doing), done, of)
        if self._bar is not None:
            self._show(self._bar)

    def __enter__(self) -> Callable[[str, int, int], None]:
        self._later = _Later(self._begin)
        return self.tell

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._later.end()
        if self._bar is not None:
            self._bar.stop()

    def _begin(self) -> None:
        from rich.progress import BarColumn, MofNCompleteColumn, TextColumn
        from rich.progress import Progress as Bar

        doing = TextColumn("{task.description}", markup=False)
        bar = Bar(MofNCompleteColumn(), BarColumn(), doing, console=_console(self._stream), transient=True)
        bar.add_task("")
        self._bar = bar
        self._show(bar)
        bar.start()

    def _show(self, bar: "Bar") -> None:
        doing, done, of = self._told
        bar.update(bar.task_ids[0], description=doing, completed=done, total=of)


def _as_it_is(text: str) -> "Text":
    """A status reads strings as markup whatever its console was told."""
    from rich.text import Text

    return Text(text)


def _console(stream: TextIO) -> "Console":
    from rich.console import Console

    # A file's name may hold what rich would take for its own markup.
    return Console(file=stream, markup=False, highlight=False, emoji=False)
