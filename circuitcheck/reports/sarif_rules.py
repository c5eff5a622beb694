"""The rules of a SARIF log: each check with its page, the same text that `explain` tells."""

from typing import Any

from circuitcheck.checks.check import Check
from circuitcheck.reports.explaining import first_sentence, page_lines, page_markdown
from circuitcheck.reports.styled import plain_text

WIDTH = 80
SEVERITIES = {"error": "error", "warning": "warning", "note": "recommendation"}
NOT_READ = "A plan that can't be read, or that has no exact answer within reach."
NOT_READ_HELP = "No verdict is given of such a plan: nothing is guessed or sampled. Each result says what helps."


def rule_of_check(check: Check) -> dict[str, Any]:
    """Findings are proved, not guessed, hence the precision. None is about the security of data."""
    page = {"text": plain_text(page_lines(check, WIDTH)), "markdown": page_markdown(check)}
    return _rule(check.name, check.severity, first_sentence(check), check.finds, page)


def rule_of_no_verdict(name: str) -> dict[str, Any]:
    """The one that is no check: without it a plan that nobody could judge would look like a right one."""
    return _rule(name, "error", NOT_READ, NOT_READ, {"text": NOT_READ_HELP, "markdown": NOT_READ_HELP})


def _rule(name: str, severity: str, short: str, full: str, help: dict[str, str]) -> dict[str, Any]:
    return {
        "id": name,
        "name": "".join(word.capitalize() for word in name.split("-")),
        "shortDescription": {"text": short},
        "fullDescription": {"text": full},
        "help": help,
        "defaultConfiguration": {"level": severity},
        "properties": {
            "precision": "very-high",
            "problem.severity": SEVERITIES[severity],
            "tags": ["correctness", "reliability"],
        },
    }
