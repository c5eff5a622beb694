"""A bench sheet as a page that prints on A4 or Letter: HTML that stands alone, with boxes to tick and room to write."""

from collections.abc import Iterable, Iterator
from html import escape

from circuitcheck.reports.bench_asking import BenchReport, SheetLine, SheetPart
from circuitcheck.reports.bench_words import FIRST, METER
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.problems import printable

PAGE = """\
<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>
@page {{ margin: 14mm; }}
body {{ font: 11pt/1.35 sans-serif; color: #000; background: #fff; max-width: 60em; margin: 1em auto; padding: 0 1em; }}
h1 {{ font-size: 16pt; margin: 0 0 .4em; }}
h2 {{ font-size: 13pt; margin: 1.2em 0 .3em; break-after: avoid; }}
.first {{ border: 2px solid #000; padding: .5em .5em .5em 1.8em; }}
table {{ border-collapse: collapse; width: 100%; }}
th, td {{ border: 1px solid #666; padding: .25em .4em; vertical-align: top; text-align: left; }}
td {{ overflow-wrap: anywhere; }}
thead {{ display: table-header-group; }}
tr {{ break-inside: avoid; }}
.tick {{ width: 1.6em; }}
.read {{ width: 5.5em; }}
.else {{ font-size: 8.5pt; color: #222; width: 38%; }}
.note {{ font-size: 9.5pt; color: #333; }}
@media print {{ body {{ margin: 0; padding: 0; max-width: none; }} }}
</style>
</head>
<body>
<h1>{title}</h1>
<p>Box number: ____________ &#160; Date: ____________ &#160; Tested by: ____________________</p>
{body}
</body>
</html>
"""


def bench_page(report: BenchReport) -> str:
    """The whole page; it loads nothing and runs nothing."""
    return PAGE.format(title=_said(f"{report.title}: bench test"), body=bench_body(report))


def bench_body(report: BenchReport) -> str:
    """What stands on it under its head, as HTML for other pages too."""
    body = [f'<ul class="first">{"".join(f"<li>{_said(one)}</li>" for one in FIRST)}</ul>']
    body.append(f"<p>{_said(report.coverage)}</p>")
    for number, part in enumerate(report.parts, 1):
        body += _part(number, part)
    body += [f'<p class="note">{_said(METER)}</p>', f'<p class="note">{_said(CAUTION)}</p>']
    return "\n".join(body)


def _part(number: int, part: SheetPart) -> Iterator[str]:
    yield f"<h2>Part {number}: {_said(part.name)}</h2>"
    yield f"<p>{_said(part.do)}</p>"
    if part.rest and part.lines:
        yield f"<p>At rest: {_said(', '.join(part.rest))}.</p>"
    yield f'<p class="note">{_said(part.chosen)}</p>'
    if part.lines:
        heads = "".join(f"<th>{head}</th>" for head in ("", "", "set", "look", "expect", "read", "else"))
        yield "<table>"
        yield f"<thead><tr>{heads}</tr></thead>"
        yield from _rows(part.lines)
        yield "</table>"


def _rows(lines: Iterable[SheetLine]) -> Iterator[str]:
    yield "<tbody>"
    for one in lines:
        proofs = "".join(f"<div><b>{_said(it.reads)}</b>: {_said(', '.join(it.faults))}</div>" for it in one.rules_out)
        tick = f'<td class="tick"><input type="checkbox" aria-label="line {one.number}"></td>'
        cells = f"<td>{one.number}</td><td>{_said(', '.join(one.set))}</td><td>{_said(one.measure)}</td>"
        expected = f'<td><b>{_said(one.expect)}</b></td><td class="read"></td>'
        yield f'<tr>{tick}{cells}{expected}<td class="else">{proofs}</td></tr>'
    yield "</tbody>"


def _said(text: str) -> str:
    return escape(printable(text))
