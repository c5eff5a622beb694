"""The live page: one HTML file that stands alone, opened from disk, and loads nothing.

`live_page/` holds its frame, its style and its scripts, which are put into it in the order of SCRIPTS.
"""

from base64 import b64encode
from hashlib import sha256
from pathlib import Path

from circuitcheck import __version__
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.page_asking import LivePage
from circuitcheck.reports.page_json import page_json
from circuitcheck.reports.problems import printable

FOLDER = Path(__file__).parent / "live_page"
SCRIPTS = (
    *("types", "elements", "lookups", "run", "clock", "bar", "controls", "axes", "devices", "relays", "findings"),
    *("pictures", "chart", "table", "page"),
)
"""The last of them begins."""


def page_html(page: LivePage) -> str:
    """The whole file."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    frame = Environment(
        loader=FileSystemLoader(FOLDER), autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True
    )
    text = script()
    return frame.get_template("page.html.j2").render(
        title=printable(page.title),
        name=printable(page.content.name),
        label=printable(page.content.label),
        style=Markup((FOLDER / "page.css").read_text(encoding="utf-8")),
        script=Markup(text),
        script_hash=_hash(text),
        data=Markup(page_json(page)),
        pictures=[{"name": one.name, "svg": Markup(one.svg)} for one in page.pictures],
        table_missing=_table_missing(page),
        remarks=_remarks(page),
        caution=CAUTION,
        version=__version__,
    )


def script() -> str:
    """All scripts as one, in a scope of their own."""
    files = [(FOLDER / f"{name}.js").read_text(encoding="utf-8") for name in SCRIPTS]
    return '"use strict";\n(() => {\n' + "\n".join(files) + "})();\n"


def _hash(text: str) -> str:
    """By which the page's policy knows its own script from any other (Content Security Policy Level 3, 2.3.1)."""
    return f"sha256-{b64encode(sha256(text.encode('utf-8')).digest()).decode('ascii')}"


def _table_missing(page: LivePage) -> str:
    if page.table is None:
        return "It is longer than anybody would read. Ask for a part of it with circuitcheck table."
    return "" if page.table.rows else "There is nothing to tell: the plan has no motor and no relay."


def _remarks(page: LivePage) -> list[str]:
    left_out = page.content.left_out
    told = f"Left out, since it hangs on too many things at once for a page: {', '.join(left_out)}."
    return [*page.remarks, printable(told)] if left_out else [*page.remarks]
