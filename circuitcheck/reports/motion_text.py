"""The motion of a plan's motors for reading: for each direction a table of ways to stop, and speed against time."""

from collections.abc import Iterator, Sequence

from circuitcheck.analysis.motion.answers import Motion, Sense, Stop
from circuitcheck.analysis.motion.rooms import DOES_NOT_FIT, FITS, HANGS
from circuitcheck.analysis.motion.stops import OPENING, TRAVELLING, Part
from circuitcheck.checks.ranges_told import span_words, turn_words
from circuitcheck.circuit.model import Axis, Circuit, Motor
from circuitcheck.reports.cautions import CAUTION, MOTION_CAUTION
from circuitcheck.reports.motion_asking import Moved
from circuitcheck.reports.motion_chart import chart_text, panels_of, side_by_side
from circuitcheck.reports.motion_words import (
    ALWAYS_TAKEN,
    MILLISECONDS,
    RPM,
    SHORTING,
    UNRECKONED,
    axis_of,
    cause_words,
    in_order,
    remarks,
    room_words,
    sense_words,
    taken,
    wanted_words,
)
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.styled import EMPTY, Line, Span, line, prose, wrapped

WIDEST, NARROWEST = 140, 40
NARROWEST_TABLE, NARROWEST_CHART = 76, 30
WIDE_ENOUGH = 120
"""Columns from which verdicts have a column of their own."""
HEADINGS = ("drive ended by", "contact opens", "travels", "then", "in all", "room")
REVERSED_WORDS = "thrown into reverse it draws {}; its torque doesn't end at standstill: it goes on backward"
STYLES = {FITS: "good", DOES_NOT_FIT: "error", HANGS: "warning"}


def motion_lines(moved: Moved, width: int) -> list[Line]:
    """The whole report."""
    width = max(min(width, WIDEST), NARROWEST)
    lines = [*prose(moved.title, width, "name"), EMPTY]
    if moved.shorts:
        lines += [*prose(SHORTING, width, "error"), EMPTY]
    for motion in moved.motions:
        motor = moved.circuit.motors[motion.motor]
        if not motion.senses:
            never = "is never driven while no supply is shorted." if moved.shorts else "is never driven."
            lines += [line(f"{motor.name} {never}", "name"), EMPTY]
        for sense in motion.senses:
            lines += _sense(moved, motor, motion, sense, width)
    lines += _taken(moved, width)
    return [*lines, *prose(MOTION_CAUTION, width, "quiet"), *prose(CAUTION, width, "quiet")]


def _sense(moved: Moved, motor: Motor, motion: Motion, sense: Sense, width: int) -> Iterator[Line]:
    circuit, axis = moved.circuit, axis_of(moved.circuit, motor)
    yield line(sense_words(circuit, motor, sense), "name")
    yield from _hanging(_start(motion, sense), width, "error" if sense.held else "")
    yield EMPTY
    if sense.held:
        yield from _remarks(circuit, motor, sense, width)
        return
    if width >= NARROWEST_TABLE:
        widths = _column_widths(width)
        yield _row(HEADINGS[: len(widths)], widths, "label")
        yield _row(["─" * one for one in widths], widths, "label")
        for stop in in_order(sense.stops):
            yield from _in_table(moved, axis, stop, widths)
            yield from _below(axis, stop, width, told_room=len(widths) == len(HEADINGS))
    else:
        for stop in in_order(sense.stops):
            yield from prose(cause_words(moved.circuit, stop), width, "label")
            opening, travels, then, whole = _parts(axis, stop)
            items = (f"contact opens {opening}", f"travels {travels}", *then, f"in all {whole}")
            yield from _hanging(", ".join(items), width)
            yield from _below(axis, stop, width, told_room=False)
    yield EMPTY
    yield from _charts(moved, sense, width)
    yield from _remarks(circuit, motor, sense, width)


def _remarks(circuit: Circuit, motor: Motor, sense: Sense, width: int) -> Iterator[Line]:
    for remark in remarks(circuit, motor, sense):
        yield from _hanging(remark, width, "warning")
        yield EMPTY


def _start(motion: Motion, sense: Sense) -> str:
    if sense.held:
        return "start: none; friction and weight hold more than its torque moves"
    if sense.start is None:
        return f"start: not worked out; the plan lacks {wanted_words(motion.start_wanted)}"
    amps, rpm = span_words(sense.start.amps, 1, "A"), span_words(sense.start.speed, RPM, "rpm")
    return f"start: {amps} at first, 95 % of {rpm} after {span_words(sense.start.seconds, MILLISECONDS, 'ms')}"


def _in_table(moved: Moved, axis: Axis | None, stop: Stop, widths: Sequence[int]) -> Iterator[Line]:
    opening, travels, then, whole = _parts(axis, stop)
    causes = cause_words(moved.circuit, stop).split(", ")
    cells = [(causes, ", "), ([opening], " "), ([travels], " "), (then, ", "), ([whole], " ")]
    if len(widths) == len(HEADINGS):
        cells.append((room_words(axis, stop).split(), " "))
    rows = [
        wrapped([printable(one) for one in items], between, limit)
        for (items, between), limit in zip(cells, widths, strict=True)
    ]
    style = STYLES.get(stop.verdict, "") if len(widths) == len(HEADINGS) else ""
    for number in range(max(map(len, rows))):
        yield _row([row[number] if number < len(row) else "" for row in rows], widths, style)


def _below(axis: Axis | None, stop: Stop, width: int, *, told_room: bool) -> Iterator[Line]:
    """What is said of a stop under its row; told_room: its verdict stands in the row already."""
    room = "" if told_room else room_words(axis, stop)
    if room:
        yield from _hanging(room, width, STYLES.get(stop.verdict, "warning"))
    for does in UNRECKONED.keys() & set(stop.way.does):
        yield from _hanging(UNRECKONED[does], width, "warning")
    if stop.amps:
        yield from _hanging(REVERSED_WORDS.format(span_words(stop.amps, 1, "A")), width, "warning")
    if stop.wanted:
        yield from _hanging(f"the plan lacks {wanted_words(stop.wanted)}", width, "warning")


def _parts(axis: Axis | None, stop: Stop) -> tuple[str, str, list[str], str]:
    """Contact time, travel, what then happens, and all together."""
    if stop.whole is None:
        return "–", "–", list(stop.way.does), "not known"
    known = {part.does: part for part in stop.parts}
    rest = [f"{part.does} {_turns(axis, part)}" for name, part in known.items() if name not in (OPENING, TRAVELLING)]
    opening, travel = (_turns(axis, known[name]) if name in known else "–" for name in (OPENING, TRAVELLING))
    return opening, travel, rest, turn_words(axis, stop.whole.turns)


def _turns(axis: Axis | None, part: Part) -> str:
    """Without its unit."""
    return turn_words(axis, part.turns).removesuffix(" deg").removesuffix(" mm")


def _column_widths(width: int) -> tuple[int, ...]:
    """Numbers need a dozen columns; words share the rest."""
    room = width - 2 * 4 - 13 - 11 - 14
    if width >= WIDE_ENOUGH:
        return room * 30 // 100, 13, 11, room * 35 // 100, 14, room - 2 - room * 30 // 100 - room * 35 // 100
    return room - max(room * 45 // 100, 19), 13, 11, max(room * 45 // 100, 19), 14


def _row(cells: Sequence[str], widths: Sequence[int], style: str) -> Line:
    padded = [cell + " " * (limit - columns(cell)) for cell, limit in zip(cells, widths, strict=True)]
    return (Span("  ".join(padded).rstrip(), style),)


def _charts(moved: Moved, sense: Sense, width: int) -> Iterator[Line]:
    panels = panels_of(moved.circuit, sense)
    each = min((width - 2 * (len(panels) - 1)) // max(len(panels), 1), 60)
    if not panels:
        return
    if each < NARROWEST_CHART:
        rows = [row for panel in panels for row in chart_text(panel, width)]
    else:
        rows = side_by_side([chart_text(panel, each) for panel in panels], each)
    yield from map(line, rows)
    yield line("█ surely, ▒ at some of the figures", "quiet")
    yield EMPTY


def _taken(moved: Moved, width: int) -> Iterator[Line]:
    yield line("What is taken for granted", "name")
    said = [text for motion in moved.motions for text in taken(moved.circuit, motion)]
    for text in dict.fromkeys([*said, *ALWAYS_TAKEN]):
        yield from _hanging(text, width)
    yield EMPTY


def _hanging(text: str, width: int, style: str = "") -> Iterator[Line]:
    for part in wrapped(printable(text).split(), " ", min(width, 100) - 2):
        yield (Span("  "), Span(part, style))
