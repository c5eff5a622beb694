"""The timing chart of a trace: a lane for each position that something takes, filled while it stands there.

                0  1  2  3
S1   raise      .  █████████
     lower      ███.  .  .
K1   operated   .  .  ██████
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from circuitcheck.circuit.model import Digit
from circuitcheck.reports.problems import columns, printable
from circuitcheck.reports.trace_asking import Told

LONGEST_LABEL = 32


class Lane(NamedTuple):
    """`name` stands at (or does) `word` in the steps where `filled`."""

    name: str
    word: str
    filled: tuple[bool, ...]


class Chart(NamedTuple):
    """lanes: of what changes, those of one name together. unchanged: what stands all the while, like "PS on"."""

    lanes: tuple[Lane, ...]
    unchanged: tuple[str, ...]


def chart_of(told: Told) -> Chart:
    """Controls first, then relays, motors, lamps and axes; an axis' last place at the top."""
    lanes: list[Lane] = []
    unchanged: list[str] = []
    for name, words, taken in _rows(told):
        if len(set(taken)) > 1:
            lanes += [Lane(name, word, tuple(one == word for one in taken)) for word in words if word in taken]
        else:
            unchanged.append(f"{name} {taken[0]}")
    return Chart(tuple(lanes), tuple(unchanged))


def _rows(told: Told) -> Iterator[tuple[str, Sequence[str], list[str]]]:
    """Each thing's name, the words for a lane of its own in their order, and its word at each step."""
    digits, steps = told.trace.circuit.digits, told.trace.steps
    for kinds in (("supply", "control", "outside"), ("relay",)):
        for number, digit in enumerate(digits):
            if digit.kind in kinds:
                yield digit.name, _lanes_of(digit), [digit.value_name(step.state[number]) for step in steps]
    for motor in told.trace.circuit.motors:
        words = [shown.motors[motor.name] for shown in told.shown]
        yield motor.name, tuple(dict.fromkeys(words)), words
    for lamp in told.shown[0].lamps:
        yield lamp, ("lit", "glowing", "on", "weak", "shorted"), [shown.lamps[lamp] for shown in told.shown]
    for number, digit in enumerate(digits):
        if digit.kind == "axis":
            yield digit.name, digit.values[::-1], [digit.value_name(step.state[number]) for step in steps]


def _lanes_of(digit: Digit) -> tuple[str, ...]:
    """Off and released are where the lane of on, pressed or operated is empty."""
    words = tuple(digit.value_name(value) for value in range(digit.radix))
    return words[1:] if words[0] in ("off", "released") else words


def labels_of(chart: Chart) -> list[tuple[str, str]]:
    """Name and word before each lane; the name only at the first of its lanes. A long word is cut."""
    labels, before = [], ""
    for lane in chart.lanes:
        labels.append(("" if lane.name == before else printable(lane.name), _cut(printable(lane.word))))
        before = lane.name
    return labels


def _cut(text: str) -> str:
    return text if columns(text) <= LONGEST_LABEL else f"{text[: LONGEST_LABEL - 1]}…"


def chart_text(chart: Chart, width: int) -> list[str]:
    """The chart for a screen, in equal parts one under the other where there are more steps than fit."""
    if not chart.lanes:
        return []
    labels = labels_of(chart)
    name_columns = max(columns(name) for name, _ in labels) + 2
    margin = name_columns + max(columns(word) for _, word in labels) + 2
    count = len(chart.lanes[0].filled)
    least = len(str(count)) + 1
    parts = -(-count // max((width - margin) // least, 1))
    shown = -(-count // parts)
    each = max(min((width - margin) // shown, 6), least)
    lines: list[str] = []
    for first in range(0, count, shown):
        steps = range(first, min(first + shown, count))
        lines += [""] * bool(lines) + [" " * margin + "".join(str(step).ljust(each) for step in steps).rstrip()]
        for lane, (name, word) in zip(chart.lanes, labels, strict=True):
            head = _padded(_padded(name, name_columns) + word, margin)
            cells = ("█" * each if lane.filled[step] else ".".ljust(each) for step in steps)
            lines.append((head + "".join(cells)).rstrip())
    return lines


def _padded(text: str, width: int) -> str:
    return text + " " * (width - columns(text))
