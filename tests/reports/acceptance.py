"""What several commands tell of every right plan of examples/, and of changes from one example to another.

Kept in accepted/, a file for each; `python -m tests.reports.acceptance` writes them anew: read what it changed before
you keep it. The golden files hold how a report looks; these hold what the analysis says of many boxes.
"""

import os
from collections.abc import Callable
from functools import partial
from io import StringIO
from pathlib import Path

from circuitcheck.reports.bench_asking import asked_sheet
from circuitcheck.reports.bench_text import bench_lines
from circuitcheck.reports.compare_asking import compared
from circuitcheck.reports.compare_text import compare_lines
from circuitcheck.reports.faults_asking import asked_faults
from circuitcheck.reports.faults_text import faults_lines
from circuitcheck.reports.motion_asking import asked_motion
from circuitcheck.reports.motion_text import motion_lines
from circuitcheck.reports.size_asking import asked_sizes
from circuitcheck.reports.size_text import size_lines
from circuitcheck.reports.styled import plain_text
from circuitcheck.reports.table_asking import Unanswerable, asked_table
from circuitcheck.reports.table_text import write_table
from tests.test_examples import EXAMPLES, RIGHT

ACCEPTED = Path(__file__).parent / "accepted"
ROOTS = (EXAMPLES / "parts",)
WIDTH = 140
LONG = frozenset({"curtain", "curtain_pair", "dragon_jaw", "drawbridge", "sea_drum", "shutter_on_cue"})
"""Plans whose bench sheet takes too long for a test of every day."""
CHANGES = (
    ("right/drawbridge", "wrong/drawbridge_feeds_back"),
    ("right/drawbridge", "wrong/drawbridge_limit_in_wrong_leg"),
    ("right/drawbridge", "right/drawbridge_slow_finish"),
    ("right/curtain", "wrong/curtain_no_interlock"),
    ("right/curtain", "wrong/curtain_race"),
    ("right/gallery_lift", "wrong/gallery_lift_one_limit"),
    ("wrong/buzzer_forgotten_wire", "wrong/lantern_lamp_bridged"),
)


def texts() -> dict[str, Callable[[], str]]:
    """The name of each file that is kept, and what makes its text. Paths are told as seen from examples/."""
    made: dict[str, Callable[[], str]] = {}
    for plan in RIGHT:
        path = plan.relative_to(EXAMPLES)
        made[f"{plan.stem}.table"] = partial(_table, path)
        made[f"{plan.stem}.motion"] = partial(_motion, path)
        made[f"{plan.stem}.size"] = partial(_size, path)
        made[f"{plan.stem}.faults"] = partial(_faults, path)
        if plan.stem not in LONG:
            made[f"{plan.stem}.bench"] = partial(_bench, path)
    for old, new in CHANGES:
        made[f"{Path(old).stem}-{Path(new).stem}.compare"] = partial(_change, f"{old}.plan", f"{new}.plan")
    return made


def _table(path: Path) -> str:
    stream = StringIO()
    write_table(asked_table(path, ROOTS, (), ()), stream, None, False)
    return stream.getvalue()


def _motion(path: Path) -> str:
    try:
        return plain_text(motion_lines(asked_motion(path, ROOTS, ()), WIDTH))
    except Unanswerable as problem:
        return f"{problem}\n"


def _size(path: Path) -> str:
    return plain_text(size_lines(asked_sizes(path, ROOTS), WIDTH))


def _faults(path: Path) -> str:
    return plain_text(faults_lines(asked_faults(path, ROOTS, False), WIDTH))


def _bench(path: Path) -> str:
    return plain_text(bench_lines(asked_sheet(path, ROOTS), WIDTH))


def _change(old: str, new: str) -> str:
    return plain_text(compare_lines(compared(old, new, ROOTS), WIDTH))


def main() -> None:
    """Writes what is told now."""
    os.chdir(EXAMPLES)
    for file in ACCEPTED.iterdir():
        file.unlink()
    for name, make in texts().items():
        (ACCEPTED / f"{name}.txt").write_text(make(), encoding="utf-8")


if __name__ == "__main__":
    main()
