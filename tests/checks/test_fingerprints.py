"""Findings are known again by their fingerprints."""

from pathlib import Path

from circuitcheck.checks.check import Finding
from circuitcheck.checks.fingerprints import fingerprints
from circuitcheck.examination import examine

WRONG = """
plan Gong "Strikes a gong"
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
motor  M1 12 V stall 5 A
motor  M2 12 V stall 5 A
rung   PS.+, F1, PB1, M1, PS.-
rung   F1.2, PB1.14, M2, PS.-
"""


def found(folder: Path, text: str, file: str = "gong.plan") -> list[tuple[str, Finding]]:
    """The findings of the plan that this text is, each with the plan's name."""
    path = folder / file
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    examined = examine(path)
    return [(examined.circuit.name, finding) for finding in examined.findings]


def test_a_finding_keeps_its_fingerprint_when_lines_move_and_the_file_is_renamed(tmp_path: Path) -> None:
    """Neither lines nor paths count; the order of findings follows the lines, so sets are compared."""
    before = found(tmp_path, WRONG)
    lines = WRONG.strip().split("\n")
    moved = "\n\n# A comment\n".join([lines[0], lines[1], lines[2], lines[5], lines[4], lines[3], *lines[6:]])
    after = found(tmp_path, moved, "strikes/the_gong.plan")
    assert before
    assert set(fingerprints(after)) == set(fingerprints(before))


def test_another_part_check_plan_or_way_to_get_there_makes_another_fingerprint(tmp_path: Path) -> None:
    """All that a finding is known by counts."""
    plan, finding = found(tmp_path, WRONG)[0]
    others = [
        (f"{plan}2", finding),
        (plan, finding._replace(parts=("M3",))),
        (plan, finding._replace(check="other")),
        (plan, finding._replace(reached="fault")),
    ]
    made = {fingerprints([one])[0] for one in ((plan, finding), *others)}
    assert len(made) == 5


def test_no_two_findings_of_a_run_share_a_fingerprint(tmp_path: Path) -> None:
    """Equal ones are numbered, also across plans of one name; the words of a finding don't count."""
    plan, finding = found(tmp_path, WRONG)[0]
    alike = [(plan, finding), (plan, finding._replace(what="M1 hums")), (plan, finding)]
    made = fingerprints(alike)
    assert len(set(made)) == 3
    assert fingerprints(alike[:2]) == made[:2]
