"""Findings as JUnit XML: a suite for each plan, a case for each check, which fails where the call as a whole would.

What a check found that doesn't fail stands in its output. The time of a plan is shared evenly by its cases, since they
share most of the work. Signs that XML can't hold are replaced.
"""

from collections.abc import Collection, Sequence
from io import BytesIO

from junitparser import Attr, Error, Failure, JUnitXml, Skipped, TestCase, TestSuite

from circuitcheck.checks.check import Finding
from circuitcheck.library.verdict import Outcome, Unexamined, Verdict
from circuitcheck.reports.findings_text import order_words
from circuitcheck.reports.notices import NO_VERDICT, as_sentence, in_repository
from circuitcheck.reports.problems import printable, where


class CaseOfFile(TestCase):
    """A case that names its file, as GitLab reads it; this is how junitparser wants an attribute to be added."""

    file = Attr()


def findings_junit(outcomes: Sequence[Outcome]) -> str:
    """The whole document, ending in a line end."""
    report: JUnitXml = JUnitXml("circuitcheck")
    for outcome in outcomes:
        # Only suites have their numbers summed up: what junitparser sums up over them isn't in the schema.
        suite = _suite(outcome) if isinstance(outcome, Verdict) else _suite_without_verdict(outcome)
        report.append(suite)  # type: ignore[no-untyped-call]
    written = BytesIO()
    report.write(written, pretty=True)
    # Nothing but ASCII, so that a pipe of any encoding carries it.
    return written.getvalue().decode("utf-8").encode("ascii", "xmlcharrefreplace").decode("ascii")


def _suite(verdict: Verdict) -> TestSuite:
    path, seconds = _path(verdict.file), verdict.seconds / max(1, len(verdict.checks))
    cases: list[TestCase] = []
    for check in verdict.checks:
        case = _case(check.name, path, seconds)
        _tell(case, [finding for finding in verdict.findings if finding.check == check.name], verdict.failing)
        cases.append(case)
    return _suite_of(verdict.file, cases)


def _tell(case: TestCase, found: Sequence[Finding], failing: Collection[str]) -> None:
    """Services show the text inside a failure, and not its message. Where nothing found counts, the case is skipped."""
    wrong = [finding for finding in found if finding.counts and finding.severity in failing]
    others = [finding for finding in found if finding not in wrong]
    if wrong:
        failure = Failure(as_sentence(wrong[0].what), wrong[0].severity)
        failure.text = "\n\n".join(map(_finding_text, wrong))
        case.result = failure
    elif found and not any(finding.counts for finding in found):
        case.result = Skipped("; ".join(map(_why_not, found)))
    if others:
        case.system_out = "\n\n".join(map(_finding_text, others))


def _why_not(finding: Finding) -> str:
    return f"accepted: {printable(finding.accepted)}" if finding.accepted else "known from the baseline"


def _suite_without_verdict(outcome: Unexamined) -> TestSuite:
    problems = outcome.error.problems
    texts = [f"{where(one.place)}: {as_sentence(one.what)}\n{printable(one.help)}" for one in problems]
    case = _case(NO_VERDICT, _path(outcome.file), 0)
    error = Error(as_sentence(problems[0].what), NO_VERDICT)
    error.text = "\n\n".join(texts)
    case.result = error
    return _suite_of(outcome.file, [case])


def _suite_of(file: str, cases: Sequence[TestCase]) -> TestSuite:
    suite = TestSuite(printable(file))
    suite.add_testcases(list(cases))
    return suite


def _case(name: str, path: str, seconds: float) -> CaseOfFile:
    # Services take cases of one class and name for one, and several plans may have one name, but not one file.
    case = CaseOfFile(name, path, round(seconds, 6))
    case.file = path
    return case


def _path(file: str) -> str:
    return printable(in_repository(file))


def _finding_text(finding: Finding) -> str:
    lines = [f"{finding.severity}: {as_sentence(finding.what)}"]
    if finding.where:
        lines.insert(0, where(finding.where[0]))
    lines += [f"to see: {printable(step)}" for step in finding.steps]
    lines += [f"and then: {printable(order_words(telling))}" for telling in finding.orders]
    return "\n".join([*lines, f"why: {printable(finding.why)}", f"remedy: {printable(finding.remedy)}"])
