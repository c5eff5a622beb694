"""What is offered while somebody writes: every word that a plan is made of, and what could be accepted."""

from pathlib import Path

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, check_names, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.editor.completing import Suggestion, completion
from circuitcheck.editor.drafts import Desk, Draft
from circuitcheck.plan.lines import Statement
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.tokens import Token

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
FAN = """\
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
motor  M1 M2 12 V stall 3 A
rung   PS.+, F1, PB1, M1, PS.-
rung   PB1.14, M2, PS.-
"""


def offered(draft: Draft, line: int, column: int, findings: tuple[Finding, ...] = ()) -> list[Suggestion]:
    """What could stand there."""
    return list(completion(draft, line, column, findings).suggestions)


def is_free(draft: Draft, statement: Statement, token: Token) -> bool:
    """Is it its writer's to find: a number, a text, a sign, a new name, the number of a wire?"""
    if token.kind in ("NUMBER", "SIGNED", "TEXT") or not token.text[0].isalpha():
        return True
    if statement.text.startswith("plan") or (token.kind == "COLOUR" and token.text[-1].isdigit()):
        return True
    place = statement.place_at(token.start, token.end)
    return any(one.defines and one.place == place for one in draft.occurrences)


@pytest.mark.parametrize("path", sorted(EXAMPLES.rglob("*.plan")), ids=lambda path: path.stem)
def test_every_word_of_every_example_is_offered_where_it_stands(path: Path) -> None:
    """Of a terminal once its part is written; but for what only its writer can know."""
    draft = Desk((EXAMPLES,)).draft(str(path))
    for statement in draft.statements:
        for token in draft.tokens(statement):
            if not is_free(draft, statement, token):
                place = statement.place_at(token.start, token.end)
                written = token.text.rfind(".") + 1 if token.kind in ("TERMINAL", "PASSAGE") else 0
                texts = [one.text for one in offered(draft, place.line, place.column + written)]
                assert token.text in texts, f"{token.text} in line {place.line}"


@pytest.mark.parametrize(
    ("line", "texts"),
    [
        ("accept ", ["unbraked-stop"]),
        ("accept unbraked-stop ", ["on"]),
        ("accept unbraked-stop on ", ["M1", "M2", "PS", "F1", "PB1"]),
        ("accept dead-part on ", ["PS", "F1", "PB1", "M1", "M2"]),
        ("accept unbraked-stop on M2 ", ["because"]),
    ],
)
def test_what_is_found_can_be_accepted_with_few_strokes(line: str, texts: list[str]) -> None:
    """Checks that found something, and the parts that they found it of, go before all others."""
    circuit = build_circuit(read_text("/plans/fan.plan", FAN))
    findings = run_checks(analyse(circuit), all_checks())
    draft = Desk(()).put("/plans/fan.plan", FAN + line)
    found = offered(draft, FAN.count("\n") + 1, len(line) + 1, findings)
    assert [one.text for one in found][: len(texts)] == texts
    if line == "accept ":
        assert found[0].detail == "on M1"
        assert {one.text for one in found} == set(check_names())
