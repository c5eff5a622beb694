"""Findings for reading: each under the line of the plan that it lies in, then how it comes about and what to do.

error  supply-short  in operation                         drawbridge.plan:2:8
    2 | supply PS 12 V 10 A
      |        ^^
PS.+ and PS.- are joined with no load between them with S1 raise.
way         PS.+ → F1.1-2 → S1.com-raise → PS.-
to see      begin with PS on, S1 lower
            turn S1 to raise
seen in     2 of 6 reachable states
why         …
remedy      …
"""

from collections.abc import Iterable, Sequence

from circuitcheck.checks.check import SEVERITIES, Finding, Telling
from circuitcheck.checks.ways import compressed
from circuitcheck.library.verdict import Looked, Outcome, Verdict
from circuitcheck.plan.source import Source
from circuitcheck.reports.cautions import CAUTION, NOT_LOOKED_AT
from circuitcheck.reports.problems import columns, excerpt, printable, where
from circuitcheck.reports.styled import EMPTY, MEASURE, Line, Span, labelled, line, prose

REACHED = {
    "operation": "in operation",
    "changeover": "during changeover",
    "fault": "after one fault",
    "combination": "in a combination that operation does not reach",
}
MOST_PLACES = 6
MOST_DIGITS = 24
"""A count with more is told by its size."""


def findings_lines(outcomes: Sequence[Outcome], width: int) -> list[Line]:
    """The whole report; of a plan without a verdict only that there is none: its problems are told elsewhere.

    Of several plans, those in which nothing was found have a line each, and what was proved of them is told once.
    """
    verdicts = [one for one in outcomes if isinstance(one, Verdict)]
    if len(outcomes) == 1:
        lines = [line for one in verdicts for line in (*_plan_lines(one, width), *_single(one, width), EMPTY)]
    else:
        lines = _several(verdicts, width)
        lines += [*_proved_of_several(verdicts, width), *prose(_in_all(outcomes), width, "name"), EMPTY]
    return lines + prose(CAUTION, width, "quiet")


def _plan_lines(verdict: Verdict, width: int) -> list[Line]:
    lines: list[Line] = []
    for finding in verdict.findings:
        if finding.counts:
            lines += [*finding_lines(finding, verdict, width), EMPTY]
    return lines + _summary(verdict, width)


def _several(verdicts: Sequence[Verdict], width: int) -> list[Line]:
    """Plan by plan, an empty line around each in which something was found."""
    lines: list[Line] = []
    for verdict in verdicts:
        if verdict.findings:
            lines += [*([EMPTY] if lines and lines[-1] else []), *_plan_lines(verdict, width), EMPTY]
        elif verdict.parts:
            covered = f"{_many(verdict.combinations)} combinations covered"
            lines += prose(f"{printable(verdict.file)}: nothing wrong found; {covered}.", width, "good")
        else:
            lines += _summary(verdict, width)
    return [*lines, EMPTY] if lines and lines[-1] else lines


def finding_lines(finding: Finding, verdict: Verdict, width: int) -> list[Line]:
    """One finding."""
    lines = [*_heading(finding, width), *_places(finding, verdict.sources, width)]
    lines += prose(f"{finding.what}.", width)
    lines += labelled("way", compressed(finding.path, finding.way), width, " → ")
    for number, step in enumerate(finding.steps):
        lines += labelled("" if number else "to see", step.split(), width)
    for telling in finding.orders:
        lines += labelled("and then", order_words(telling).split(), width)
    if finding.of:
        states = "combinations" if finding.reached == "combination" else "reachable states"
        lines += labelled("seen in", f"{_many(finding.seen)} of {_many(finding.of)} {states}".split(), width)
    return [*lines, *labelled("why", finding.why.split(), width), *labelled("remedy", finding.remedy.split(), width)]


def order_words(telling: Telling) -> str:
    """What follows the steps: "if K1 is quicker: K1 operates; ends with M1 forward"."""
    happens = ", ".join(telling.steps)
    if not telling.quicker:
        return f"{happens}, {telling.ends}"
    return f"if {telling.quicker} is quicker: {happens}; ends with {telling.ends}"


def _heading(finding: Finding, width: int) -> list[Line]:
    """What it is on the left and where on the right; on two lines where one is too narrow."""
    reached = "as wired" if finding.reached == "operation" and not finding.steps else REACHED[finding.reached]
    severity = Span(finding.severity, finding.severity)
    left: Line = (severity, Span("  "), Span(finding.check, "name"), Span(f"  {reached}"))
    place = Span(where(finding.where[0]), "name") if finding.where else Span("")
    gap = min(width, MEASURE) - sum(columns(span.text) for span in left) - columns(place.text)
    if gap >= 2:
        return [(*left, Span(" " * gap), place)]
    if sum(columns(span.text) for span in left) <= width:
        return [left, (place,)]
    return [left[:3], (Span(reached),), (place,)]


def _places(finding: Finding, sources: tuple[Source, ...], width: int) -> list[Line]:
    """The lines of the plan, those of one line together."""
    lines: list[Line] = []
    shown: list[str] = []
    file = finding.where[0].file if finding.where else ""
    for place in finding.where[:MOST_PLACES]:
        if place.file != file:
            lines.append(line(where(place)))
            file, shown = place.file, []
        code = excerpt(place, sources, width)
        if shown and code and code[0] == shown[0]:
            lines.pop()
            code[1] = _overlaid(shown[1], code[1])
        else:
            lines += [line(part) for part in code[:1]]
        lines += [line(part, finding.severity) for part in code[1:]]
        shown = code
    more = len(finding.where) - MOST_PLACES
    return [*lines, line(f"      and {more} more places")] if more > 0 else lines


def _overlaid(left: str, right: str) -> str:
    """Two lines of carets as one."""
    length = max(len(left), len(right))
    pairs = zip(left.ljust(length), right.ljust(length), strict=True)
    return "".join(one if one != " " else other for one, other in pairs)


def _many(count: int) -> str:
    """ "24,576"; what has very many digits as "about 6.32 × 10^196"."""
    digits = str(count)
    if len(digits) <= MOST_DIGITS:
        return f"{count:,}"
    return f"about {digits[0]}.{digits[1:3]} × 10^{len(digits) - 1}"


def counted(findings: Iterable[Finding]) -> str:
    """ "2 errors, 1 note, 1 accepted"; "nothing wrong found" for none."""
    numbers = dict.fromkeys(SEVERITIES, 0)
    accepted = known = 0
    for finding in findings:
        if finding.counts:
            numbers[finding.severity] += 1
        accepted += bool(finding.accepted)
        known += finding.known and not finding.accepted
    told = [f"{number} {severity}{'s' if number > 1 else ''}" for severity, number in numbers.items() if number]
    told += [f"{accepted} accepted"] if accepted else []
    told += [f"{known} known from the baseline"] if known else []
    return ", ".join(told) or "nothing wrong found"


def _summary(verdict: Verdict, width: int) -> list[Line]:
    findings, file = verdict.findings, printable(verdict.file)
    if not verdict.parts:
        return prose(f"{file}: nothing to examine, it has no parts of its own.", width)
    worst = next((finding.severity for finding in findings if finding.counts), "good")
    lines = prose(f"{file}: {counted(findings)}.", width, worst)
    for finding in findings:
        if finding.accepted:
            words = f"{finding.check} on {', '.join(finding.parts)}: {finding.accepted}"
            lines += labelled("accepted", words.split(), width)
    for taken in verdict.defaulted:
        lines += labelled("by default", taken.split(), width)
    return [*lines, *prose(f"{_covered(verdict)}; {verdict.seconds:.2f} s.", width)]


def _covered(verdict: Verdict) -> str:
    covered = f"{_many(verdict.combinations)} combinations covered"
    if verdict.engine != "integers":
        covered += f" by {verdict.engine}"
    if verdict.reachable is None or verdict.settled is None:
        return f"{covered}, each finding and proof over the part of them that it depends on"
    return f"{covered}, {_many(verdict.reachable)} reachable, {_many(verdict.settled)} of them settled"


def _single(verdict: Verdict, width: int) -> list[Line]:
    """Of a plan that is told alone: what was not found."""
    if not verdict.parts:
        return []
    return _absent(verdict, width) if verdict.findings else _proved(verdict.checks, width)


def _absent(verdict: Verdict, width: int) -> list[Line]:
    found = {finding.check for finding in verdict.findings}
    names = [check.name for check in verdict.checks if check.name not in found]
    return labelled("absent", [f"{name}," for name in names[:-1]] + names[-1:], width)


def _proved_of_several(verdicts: Sequence[Verdict], width: int) -> list[Line]:
    """What was proved of every plan in which nothing was found, where all of them were looked at for the same."""
    clean = {one.checks for one in verdicts if one.parts and not one.findings}
    if len(clean) > 1:
        text = "Not every plan was looked at for the same; what was proved of one is told where it is checked alone."
        return [*prose(text, width), EMPTY]
    return [
        line
        for checks in clean
        for line in (*_proved(checks, width, "Of plans in which nothing was found is proved"), EMPTY)
    ]


def _proved(checks: Sequence[Looked], width: int, begun: str = "Proved") -> list[Line]:
    """What has been proved of clean plans, check by check, and what nobody asked."""
    order = "in whatever order switches are worked, relays and motors move, and the power fails and returns"
    lines = prose(f"{begun}, {order}:", width)
    margin = min(max((len(check.name) for check in checks), default=0) + 4, 24)
    for check in checks:
        if width < 2 * MEASURE // 3:
            lines += [line(f"  {check.name}", "name"), *labelled("", check.proves.split(), width, margin=4)]
        else:
            lines += labelled(f"  {check.name}", check.proves.split(), width, margin=margin)
    lines += prose(f"Not looked at: {NOT_LOOKED_AT}.", width)
    return lines + prose("Each check's own limits are told by: circuitcheck explain CHECK", width)


def _in_all(outcomes: Sequence[Outcome]) -> str:
    examined = [one for one in outcomes if isinstance(one, Verdict)]
    without = len(outcomes) - len(examined)
    text = f"{len(outcomes)} plans: {counted(finding for one in examined for finding in one.findings)}"
    return f"{text}; {without} without a verdict." if without else f"{text}."
