"""Findings for other programs; `findings.schema.json` beside this file says what they can rely on.

Plans that have no verdict stand in "problems", which is there only when there are any, so that a bad plan never hides
what is known of the others. The same plans give the same bytes, but for "seconds".
"""

import json
from collections.abc import Sequence

from circuitcheck.checks.fingerprints import fingerprints
from circuitcheck.library.json_values import Json
from circuitcheck.library.shards import Shard
from circuitcheck.library.verdict import Outcome, Unexamined, Verdict
from circuitcheck.library.verdict_json import problem_json, verdict_json

SCHEMA = "circuitcheck/1"


def findings_json(outcomes: Sequence[Outcome], shard: Shard | None = None) -> str:
    """The whole report, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it.

    shard: which part of a library this is, where it isn't the whole.
    """
    verdicts = [one for one in outcomes if isinstance(one, Verdict)]
    marks = iter(fingerprints((one.name, finding) for one in verdicts for finding in one.findings))
    plans = [verdict_json(one) for one in verdicts]
    for plan in plans:
        plan["findings"] = [finding | {"fingerprint": next(marks)} for finding in plan["findings"]]
    report: Json = {"schema": SCHEMA, "plans": plans}
    if shard:
        report["shard"] = shard._asdict()
    problems = [
        problem_json(problem) | {"plan": one.file}
        for one in outcomes
        if isinstance(one, Unexamined)
        for problem in one.error.problems
    ]
    if problems:
        report["problems"] = problems
    return json.dumps(report, indent=2) + "\n"
