"""Findings as GitLab's code quality report, a list of objects with these keys and no others that it reads:

description, check_name, fingerprint, severity, location.path, location.lines.begin (GitLab Docs, "Code Quality",
"Code Quality report format"). Of two with one fingerprint it would show one; the file must begin without a byte order
mark, and paths be relative to the repository.
"""

import json
from collections.abc import Sequence
from typing import Any

from circuitcheck.library.verdict import Outcome
from circuitcheck.reports.notices import Notice, as_sentence, counting, in_repository
from circuitcheck.reports.problems import printable

SEVERITIES = {"error": "critical", "warning": "major", "note": "info"}


def findings_gitlab(outcomes: Sequence[Outcome]) -> str:
    """The whole list, ending in a line end; "[]" for no finding."""
    return json.dumps([_entry(notice) for notice in counting(outcomes)], indent=2) + "\n"


def _entry(notice: Notice) -> dict[str, Any]:
    finding = notice.finding
    return {
        "description": f"{as_sentence(finding.what)} {printable(finding.remedy)}",
        "check_name": finding.check,
        "fingerprint": notice.fingerprint,
        "severity": SEVERITIES[finding.severity],
        "location": {
            "path": printable(in_repository(notice.place.file)),
            "lines": {"begin": notice.place.line},
        },
    }
