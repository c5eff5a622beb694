"""From a plan to all that its live page shows."""

from pathlib import Path
from typing import NamedTuple

from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.analysis.table import TooManyRows, truth_table
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.stories import usual_beginning
from circuitcheck.circuit.wording import name_and_title
from circuitcheck.drawing.drawing import lay_out
from circuitcheck.drawing.shown import at_rest
from circuitcheck.examination import Examination, exactly, examine
from circuitcheck.library.asking import plans_asked
from circuitcheck.page.content import Content, page_content
from circuitcheck.reports.drawing_svg import drawing_fragment
from circuitcheck.reports.ladder_asking import redrawn
from circuitcheck.reports.ladder_svg import ladder_fragment
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
    whole = examine(Path(file), asked.roots, asked.off, defaults=asked.defaults)
    return exactly(whole.plan, whole.circuit, lambda: page_of(whole))


def page_of(whole: Examination) -> LivePage:
    """The page of a plan that has been examined."""
    circuit = whole.circuit
    content = page_content(whole.facts, whole.findings)
    name, title = name_and_title(circuit)
    pictures, remarks = _pictures(whole)
    return LivePage(title, content._replace(name=name), _table(whole, name, title), pictures, remarks)


def _pictures(whole: Examination) -> tuple[tuple[Picture, ...], tuple[str, ...]]:
    """The page lights them itself, so that they are drawn with nothing on."""
    pictures, remarks = [], []
    try:
        pictures.append(Picture("Ladder", ladder_fragment(redrawn(whole.facts))))
    except (TooManyCases, TooWide):
        remarks.append("The ladder is missing: what feeds what hangs on too many things at once.")
    try:
        pictures.append(Picture("Wiring", _wiring(whole.circuit)))
    except ImportError:
        remarks.append("The wiring drawing is missing; it takes pip install 'circuitcheck[drawings]'.")
    return tuple(pictures), tuple(remarks)


def _wiring(circuit: Circuit) -> str:
    return drawing_fragment(circuit, lay_out(circuit), at_rest(circuit, usual_beginning(circuit)))


def _table(whole: Examination, name: str, title: str) -> Table | None:
    try:
        table = truth_table(whole.facts, {}, ())
        rows = table_rows(table) if table.motors or table.relays else []
        return Table(name, title, input_names(table), rows)
    except (TooManyRows, TooWide):
        return None
