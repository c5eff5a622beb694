"""What is found in every example, to the last state, kept in accepted/: one file for each check and each wrong plan.

`python -m tests.checks.acceptance` writes it anew; read what it changed before you keep it. Reasons and remedies are
left out: they may be said better without anything being found otherwise.
"""

from collections.abc import Iterable, Iterator
from pathlib import Path

from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks

ACCEPTED = Path(__file__).parent / "accepted"


def told(findings: Iterable[Finding]) -> str:
    """All that is found, a finding under the other."""
    return "".join(f"{line}\n" for finding in findings for line in _lines(finding))


def page_text(check: str) -> str:
    """What is found in the examples on a check's page."""
    from tests.checks.test_examples_of_checks import findings_of

    page = next(one.check for one in all_checks() if one.check.name == check)
    return "\n".join(f"# {one.title}\n{told(findings_of(one))}" for one in (*page.wrong, *page.right))


def plan_text(path: Path) -> str:
    """What is found in a plan of examples/wrong, notes left out."""
    from tests.test_examples import findings_of

    return told(findings_of(path))


def main() -> None:
    """Writes what is found now."""
    from tests.test_examples import WRONG

    for file in ACCEPTED.glob("*.txt"):
        file.unlink()
    for one in all_checks():
        (ACCEPTED / f"{one.check.name}.txt").write_text(page_text(one.check.name), encoding="utf-8")
    for path in WRONG:
        (ACCEPTED / f"{path.stem}.txt").write_text(plan_text(path), encoding="utf-8")


def _lines(finding: Finding) -> Iterator[str]:
    place = finding.where[0].line if finding.where else ""
    yield f"{place}: {finding.check} {finding.severity} {finding.reached}: {' '.join(finding.parts)}"
    yield f"    {finding.what}"
    if finding.example:
        yield f"    with {', '.join(f'{name} {word}' for name, word in finding.example.items())}"
    if finding.of:
        yield f"    in {finding.seen} of {finding.of}"
    if finding.path:
        yield f"    over {' '.join(finding.path)}"
    yield from (f"    {step}" for step in finding.steps)
    for order in finding.orders:
        yield f"    if {order.quicker or 'so'}: {', '.join(order.steps)}: {order.ends}"


if __name__ == "__main__":
    main()
