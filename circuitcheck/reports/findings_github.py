"""Findings as workflow commands of GitHub Actions, which it shows beside the lines of a pull request.

::error file=plans/drawbridge.plan,line=2,endLine=2,col=8,endColumn=10,title=supply-short::PS.+ and PS.- are joined …

A command is a whole line. What a plan says never begins one and has no line ends or signs of a command's own in it, so
that no plan can give the workflow orders. (GitHub Docs, "Workflow commands for GitHub Actions".)
"""

from collections.abc import Iterator, Sequence

from circuitcheck.library.verdict import Outcome
from circuitcheck.reports.notices import Notice, as_sentence, counting, in_repository
from circuitcheck.reports.problems import printable

COMMANDS = {"error": "error", "warning": "warning", "note": "notice"}
MOST = 10
"""So many of each command are shown for one step; the others would be dropped without a word."""


def findings_github(outcomes: Sequence[Outcome]) -> str:
    """The commands, worst first; where there are too many of one kind, the last says how many more there are."""
    told = counting(outcomes)
    lines: list[str] = []
    for severity in COMMANDS:
        lines += _of_severity(severity, [notice for notice in told if notice.finding.severity == severity])
    return "".join(f"{one}\n" for one in lines)


def _of_severity(severity: str, told: Sequence[Notice]) -> Iterator[str]:
    shown = told if len(told) <= MOST else told[: MOST - 1]
    yield from map(_command, shown)
    more = len(told) - len(shown)
    if more:
        yield f"::{COMMANDS[severity]} title=circuitcheck::{more} more {severity}s, told by every other format"


def _command(notice: Notice) -> str:
    finding, place = notice.finding, notice.place
    properties = {"file": in_repository(place.file), "line": place.line, "endLine": place.end_line}
    if place.line == place.end_line:
        properties |= {"col": place.column, "endColumn": place.end_column}
    properties["title"] = finding.check
    told = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    text = f"{as_sentence(finding.what)}\n{printable(finding.remedy)}"
    return f"::{COMMANDS[finding.severity]} {told}::{_data(text)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(printable(text)).replace(":", "%3A").replace(",", "%2C")
