"""From a plan to all that its live page shows."""

import time
from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.table import TooManyRows, truth_table
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.drawing.drawing import lay_out
from circuitcheck.drawing.shown import at_rest
from circuitcheck.examination import Examination, exactly, examine_plan, read_input
from circuitcheck.library.asking import plans_asked
from circuitcheck.page.content import Content, page_content
from circuitcheck.reports.drawing_svg import drawing_fragment
from circuitcheck.reports.table_asking import Table
from circuitcheck.reports.table_rows import input_names, table_rows


class Picture(NamedTuple):
    """svg: an <svg> element whose parts say which conductors, part, load or digit they stand for."""

    name: str
    svg: str


class LivePage(NamedTuple):
    """What the page is made of. table: None where it would be longer than anybody would read; with no rows where there
    is nothing to tell. remarks: what is missing and why, in sentences."""

    title: str
    content: Content
    table: Table | None
    pictures: tuple[Picture, ...]
    remarks: tuple[str, ...]


def asked_page(file: str, roots: tuple[Path, ...]) -> LivePage:
    """The page of a plan, with the findings that `check` tells. PlanError where it can't be understood or judged."""
    asked = plans_asked([file], roots)[0]
    plan = read_input(Path(file), asked.roots)
    whole = examine_plan(plan, time.perf_counter(), asked.off)
    return exactly(plan, whole.circuit, lambda: page_of(whole))


def page_of(whole: Examination) -> LivePage:
    """The page of a plan that has been examined."""
    circuit = whole.circuit
    content = page_content(whole.facts, whole.findings)
    name = circuit.name or Path(circuit.file).stem
    title = f"{name}: {circuit.label}" if circuit.label else name
    pictures, remarks = _pictures(whole)
    return LivePage(title, content._replace(name=name), _table(whole, name, title), pictures, remarks)


def _pictures(whole: Examination) -> tuple[tuple[Picture, ...], tuple[str, ...]]:
    """The page lights them itself, so that they are drawn with nothing on."""
    circuit = whole.circuit
    try:
        drawing = drawing_fragment(circuit, lay_out(circuit), at_rest(circuit, usual_beginning(circuit)))
    except ImportError:
        return (), ("The wiring drawing is missing; what lays it out comes with pip install 'circuitcheck[drawings]'.",)
    return (Picture("Wiring", drawing),), ()


def _table(whole: Examination, name: str, title: str) -> Table | None:
    try:
        table = truth_table(whole.facts, {}, ())
        rows = table_rows(table) if table.motors or table.relays else []
        return Table(name, title, input_names(table), rows)
    except (TooManyRows, TooWide):
        return None
