"""Where results go: in which format, to which file, in how many columns, and what is said beside them."""

import os
import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Callable, Iterable
from contextlib import nullcontext
from typing import TYPE_CHECKING, NamedTuple, TextIO

from circuitcheck.commands.command import WRONG, WrongCall
from circuitcheck.reports.problems import WIDTH, printable
from circuitcheck.reports.styled import Line
from circuitcheck.reports.terminal import screen_width, takes_colour, write_lines

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

Writer = Callable[[TextIO, int | None, bool], None]
"""Writes a report to a stream of so many columns (None: any number will do), with colour or without."""


class Output(NamedTuple):
    """A format, and the file that it goes to; "" for stdout."""

    format: str
    file: str


def add_outputs(parser: ArgumentParser, formats: tuple[str, ...]) -> None:
    """The formats that a command can write, the first of them usually."""

    def output(text: str) -> Output:
        name, equals, file = text.partition("=")
        if name not in formats:
            raise ArgumentTypeError(f'no format "{name}"; there is {", ".join(formats)}')
        if equals and not file:
            raise ArgumentTypeError(f'"{text}" names no file')
        return Output(name, file)

    help = f"{', '.join(formats)} (usually {formats[0]}), into a file where one is named; several times"
    parser.add_argument("--format", action="append", type=output, metavar="NAME[=FILE]", help=help)
    add_color(parser)


def add_color(parser: ArgumentParser) -> None:
    """Whether what people read is coloured."""
    help = "colour: on a terminal unless NO_COLOR is set (auto), always, never"
    parser.add_argument("--color", choices=("auto", "always", "never"), default="auto", help=help)


def outputs_of(options: Namespace) -> list[Output]:
    """The outputs that are asked for. WrongCall where two would go to one place."""
    outputs: list[Output] = options.format or [Output("text", "")]
    places = [output.file and os.path.realpath(output.file) for output in outputs]
    twice = next((output.file for output, place in zip(outputs, places, strict=True) if places.count(place) > 1), None)
    if twice is not None:
        raise WrongCall(f"two formats for {twice or 'one output'}; name a file for each, like --format json=FILE")
    beside = (vars(options).get(name) or "" for name in ("certificate", "write_baseline"))
    for file in (*(output.file for output in outputs), *beside):
        spare_what_is_read(options, file)
    return outputs


def spare_what_is_read(options: Namespace, file: str) -> None:
    """WrongCall where an output would take the place of a plan, or of a report that this call reads."""
    if not os.path.isfile(file):
        return
    named = [vars(options).get(name) or [] for name in ("plan", "plans", "old", "new", "reports")]
    read = [name for one in named for name in ([one] if isinstance(one, str) else one)]
    if file.endswith(".plan") or any(os.path.exists(name) and os.path.samefile(file, name) for name in read):
        raise WrongCall(f"{file} is a plan or a report, and would be lost; name another file for what is written")


def write_all(options: Namespace, outputs: list[Output], writer: Callable[[str], Writer]) -> None:
    """Every output that is asked for. The caution has no place in what programs read, so there it goes to stderr."""
    for output in outputs:
        write(output, writer(output.format), options.color)
    if not {"text", "markdown"} & {output.format for output in outputs}:
        from circuitcheck.reports.cautions import CAUTION

        sys.stderr.write(f"{CAUTION}\n")


def write(output: Output, writer: Writer, color: str) -> None:
    """One output, to its file or to stdout."""
    if output.file:
        with open(output.file, "w", encoding="utf-8", errors="replace", newline="\n") as file:
            writer(file, None, False)
        return
    try:
        writer(sys.stdout, screen_width(sys.stdout), takes_colour(color, sys.stdout, os.environ))
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever reads has seen enough. What is left in the buffer must not be tried again when the process ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def plainly(text: str) -> Writer:
    """A report that is the same whatever it is written to."""

    def writer(stream: TextIO, _width: int | None, _colour: bool) -> None:
        stream.write(text)

    return writer


def as_bytes(data: bytes) -> Writer:
    """A picture, which is no text."""

    def writer(stream: TextIO, _width: int | None, _colour: bool) -> None:
        stream.flush()
        stream.buffer.write(data)

    return writer


def in_lines(lines: Callable[[int], Iterable[Line]]) -> Writer:
    """A report in styled lines for so many columns."""
    return lambda stream, width, colour: write_lines(lines(width or WIDTH), stream, colour)


def progress() -> "AbstractContextManager[Callable[[str], None]]":
    """Tells what is being done where somebody sits before the screen."""
    if not sys.stderr.isatty():
        return nullcontext(_nobody)
    from circuitcheck.reports.progress import Progress

    return Progress(sys.stderr)


def counting() -> "AbstractContextManager[Callable[[str, int, int], None]]":
    """Tells how many plans have been dealt with, the same way."""
    if not sys.stderr.isatty():
        return nullcontext(lambda _file, _done, _all: None)
    from circuitcheck.reports.progress import Counting

    return Counting(sys.stderr)


def _nobody(_doing: str) -> None:
    """Where nobody sits before the screen."""


def remark(text: str) -> None:
    """One line about the run, beside its results."""
    sys.stderr.write(f"{printable(text)}\n")


def tell_unwritten(error: OSError) -> int:
    """What could not be written, and why."""
    return tell(f"{error.filename or 'the output'} can't be written: {(error.strerror or str(error)).lower()}")


def tell(text: str) -> int:
    """One line about why there is no result."""
    sys.stderr.write(f"circuitcheck: {printable(text)}\n")
    return WRONG
