"""The library that the benchmark measures is one of usual plans."""

from pathlib import Path

from circuitcheck.examination import examine
from tests.benchmarks.library import EXAMPLES, write_library

ROOTS = (EXAMPLES,)


def test_each_plan_of_the_library_is_found_to_be_what_its_example_is(folder: Path) -> None:
    """Only names, lengths and comments are different."""
    plans = write_library(folder, 20)
    assert len({path.read_text(encoding="utf-8") for path in plans}) == 20
    for path in plans:
        (origin,) = EXAMPLES.rglob(f"{path.stem.rpartition('_')[0]}.plan")
        made, example = examine(path, (folder,)), examine(origin, ROOTS)
        assert [(one.check, one.what) for one in made.findings] == [(one.check, one.what) for one in example.findings]
        assert made.circuit.name != example.circuit.name
