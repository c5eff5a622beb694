"""Bytes that grow toward whatever in reading has not been run yet: needs atheris, and is run by hand.

    python -m tests.fuzzing.coverage_guided -max_total_time=600 -max_len=2000 FOLDER

Each input is read as a plan, as settings, as an action and a setting of a story, and as what is seen of a box. FOLDER
keeps what led on to new code; the options are libFuzzer's. It stops at the first input that brings reading down, and
writes that into a file.
"""

import sys
import tomllib
from importlib import import_module
from pathlib import Path

# Types are checked where it isn't installed, too.
atheris = import_module("atheris")

with atheris.instrument_imports(include=["circuitcheck"]):
    from circuitcheck.circuit.building import build_circuit
    from circuitcheck.circuit.stories import understand_story
    from circuitcheck.plan.parsing import StatementParser
    from circuitcheck.plan.reading import read_partly, read_text
    from circuitcheck.plan.source import PlanError, Problem
    from circuitcheck.plan.story_lines import read_story
    from circuitcheck.plan.text import source_of_bytes
    from circuitcheck.reports.diagnose_words import understood
    from circuitcheck.reports.problems import problems_text
    from circuitcheck.reports.table_asking import Unanswerable
    from circuitcheck.settings.amiss import LibraryAmiss
    from circuitcheck.settings.reading import read_settings
    from tests.fuzzing.texts import FOLDER, lines

PLAN = FOLDER / "right" / "drawbridge.plan"
PARSER = StatementParser()
BOX = build_circuit(read_text(str(PLAN), PLAN.read_text(encoding="utf-8"), (FOLDER,)))


def read_as_anything(content: bytes) -> None:
    """Whatever is raised but what people are told is a fault of the tool."""
    text = content.decode("utf-8", "replace")
    for reading in (_as_plan, _as_settings, _as_story, _as_symptom):
        try:
            reading(content, text)
        except PlanError as error:
            problems_text(error, 80)
        except (LibraryAmiss, Unanswerable):
            continue


def _as_plan(content: bytes, _text: str) -> None:
    source = source_of_bytes(str(PLAN), content)
    if isinstance(source, Problem):
        raise PlanError((source,), ())
    read = read_partly(source, (FOLDER,), PARSER, lambda _: None)
    if read.problems:
        raise PlanError(read.problems, read.plan.sources)
    build_circuit(read.plan)


def _as_settings(_content: bytes, text: str) -> None:
    try:
        table = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return
    read_settings(table, str(FOLDER / "circuitcheck.toml"), str(FOLDER))


def _as_story(_content: bytes, text: str) -> None:
    understand_story(BOX, read_story(None, [text], [text]))


def _as_symptom(_content: bytes, text: str) -> None:
    understood(BOX, text)


def main() -> None:
    """Begins with the statements of all examples, each an input of its own."""
    folder = Path(sys.argv[-1])
    folder.mkdir(parents=True, exist_ok=True)
    for number, line in enumerate(lines()):
        (folder / f"line{number}").write_text(line, encoding="utf-8")
    atheris.Setup(sys.argv, read_as_anything)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
