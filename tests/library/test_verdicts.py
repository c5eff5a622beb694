"""Verdicts come back from JSON as they were, and errors from another process."""

import json
import pickle
from pathlib import Path

from circuitcheck.library.asking import Asked
from circuitcheck.library.verdict import Unexamined, Verdict
from circuitcheck.library.verdict_json import problem_json, problem_of_json, verdict_json, verdict_of_json
from circuitcheck.library.workers import examine_one

EXAMPLES = Path(__file__).parent.parent.parent / "examples"


def test_every_verdict_on_the_examples_comes_back_from_json_as_it_was() -> None:
    """With paths, orders, acceptances and counts."""
    for path in sorted(EXAMPLES.rglob("*.plan")):
        verdict = examine_one(Asked(str(path), (EXAMPLES,)))
        assert isinstance(verdict, Verdict)
        proves = {check.name: check.proves for check in verdict.checks}
        assert verdict_of_json(json.loads(json.dumps(verdict_json(verdict))), verdict.sources, proves) == verdict


def test_problems_come_back_as_they_were(folder: Path) -> None:
    """From JSON and from another process."""
    text = 'use "b.plan"\nsupply PS 12 V\nsupply PS 12 V\nwire PS.+ K1.A1\n'
    (folder / "a.plan").write_text(text, encoding="utf-8")
    (folder / "b.plan").write_text("type x relay spdt coil 12 V\ntype x relay spdt coil 12 V\n", encoding="utf-8")
    outcome = examine_one(Asked("a.plan"))
    assert isinstance(outcome, Unexamined)
    problems = outcome.error.problems
    assert [problem_of_json(json.loads(json.dumps(problem_json(one)))) for one in problems] == list(problems)
    back = pickle.loads(pickle.dumps(outcome))
    assert (back.file, back.error.problems, back.error.sources) == (outcome.file, problems, outcome.error.sources)
