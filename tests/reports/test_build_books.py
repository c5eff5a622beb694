"""What a build book's pages and lists are made of."""

import csv
import re
import sys
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from circuitcheck.analysis.facts import analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.cli import main
from circuitcheck.commands.drawing import INSTALL
from circuitcheck.plan.reading import read_text
from circuitcheck.reports.book_asking import BookReport, asked_book
from circuitcheck.reports.book_csv import FORMULA_SIGNS, book_lists, csv_text, defused
from circuitcheck.reports.book_pages import book_pages
from circuitcheck.reports.book_pictures import Picture, book_pictures
from circuitcheck.reports.ladder_words import EMPTY_LADDER
from tests.reports.booked import FILE, TOUR, book
from tests.reports.goldens import elsewhere

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGHT = sorted((EXAMPLES / "right").glob("*.plan"))
EMPTY_TAGS = ("meta", "input")

HOSTILE = '</style><script>alert("x")</script>{{ report }} &amp; \u202e ='
"""What a label must not do to a page."""


@pytest.fixture(scope="module")
def tour() -> BookReport:
    """The book of the drawbridge that goes on tour."""
    with elsewhere():
        FILE.write_text(TOUR, encoding="utf-8")
        return book()


@pytest.fixture(scope="module", params=RIGHT, ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> BookReport:
    """The book of an example, its bench sheet left out, which takes long and has tests of its own."""
    return asked_book(request.param, (EXAMPLES / "parts",))


class Page(HTMLParser):
    """What a page is made of; fails where a tag isn't closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, value in attrs:
            assert name != "src"
            assert not name.startswith("on")
            self.ids += [value or ""] if name == "id" else []
            self.links += [value or ""] if name == "href" else []
        if tag not in EMPTY_TAGS:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def parsed(text: str) -> Page:
    """A page, taken apart."""
    page = Page()
    page.feed(text)
    page.close()
    assert page.open == []
    return page


def rows_of(text: str) -> list[dict[str, str]]:
    """A list's lines by their heads."""
    return list(csv.DictReader(StringIO(text)))


def test_every_net_of_an_example_is_in_its_wire_list_once(example: BookReport) -> None:
    """The graph of the CSV's lines is that of the circuit's wires, terminal by terminal and wire by wire."""
    listed: nx.MultiGraph[str] = nx.MultiGraph()
    listed.add_edges_from((row["from"], row["to"]) for row in rows_of(book_lists(example.book)["wires.csv"]))
    wired: nx.MultiGraph[str] = nx.MultiGraph()
    circuit = example.book.circuit
    wired.add_edges_from((one.tail, one.head) for one in circuit.conductors if one.kind == "wire")
    nx.set_node_attributes(listed, {name: name for name in listed}, "called")
    nx.set_node_attributes(wired, {name: name for name in wired}, "called")
    assert nx.is_isomorphic(
        listed, wired, node_match=nx.isomorphism.categorical_node_match("called", ""),
        edge_match=lambda one, other: len(one) == len(other),
    )  # fmt: skip
    nets = [frozenset(net) for net in nx.connected_components(listed)]
    assert len(nets) == len(set(nets)) == nx.number_connected_components(wired)


def test_every_page_of_an_example_stands_alone(example: BookReport) -> None:
    """Tags close in their turn, ids are there once, links lead into the page or to a list, nothing is loaded or run."""
    pages, lists = book_pages(example), book_lists(example.book)
    for text in pages.values():
        page = parsed(text)
        assert text.startswith("<!DOCTYPE html>\n")
        assert len(set(page.ids)) == len(page.ids)
        assert set(page.links) <= {f"#{one}" for one in page.ids} | set(lists)
        assert not {"script", "link", "img", "iframe", "object"} & set(page.tags)
        assert not re.search(r"url\(|@import|https?:", text.replace('xmlns="http://www.w3.org/2000/svg"', ""))
        assert "safe" not in text.lower()


def test_a_label_of_the_plan_cant_act_upon_a_page(tmp_path: Path) -> None:
    """It is text, whatever it is: neither a tag nor a word of the template, and nothing turns the text round."""
    label = HOSTILE.replace('"', "'")
    plan = TOUR.replace("feed", label).replace("=deck moving", label).replace("A <small> drawbridge", label)
    (tmp_path / "hostile.plan").write_text(plan, encoding="utf-8")
    for text in book_pages(asked_book(tmp_path / "hostile.plan", ())).values():
        page = parsed(text)
        assert "script" not in page.tags
        assert "\u202e" not in text
        assert label.replace("\u202e", "\ufffd") in "".join(page.text)


def test_a_cell_that_would_be_a_formula_is_text_and_a_terminal_stays_readable(tour: BookReport) -> None:
    """The lamp's label begins with =; PS.+ and M1.- are what they are."""
    lists = book_lists(tour.book)
    assert "'=deck moving" in {row["at"] for row in rows_of(lists["labels.csv"])}
    assert {"PS.+", "M1.-"} <= {row["from"] for row in rows_of(lists["wires.csv"])}


@settings(max_examples=50)
@given(st.lists(st.lists(st.text(max_size=8), min_size=3, max_size=3), max_size=4))
def test_what_goes_into_a_list_comes_out_of_it(rows: list[list[str]]) -> None:
    """Commas, quotes and line ends come back from any reader of CSV, on one line and defused."""
    read = list(csv.reader(StringIO(csv_text(("a", "b", "c"), rows))))
    assert read == [["a", "b", "c"], *([defused(cell) for cell in row] for row in rows)]
    assert not any(cell.startswith(FORMULA_SIGNS) for row in read for cell in row)


def test_a_book_has_what_its_prop_has(tour: BookReport, tmp_path: Path) -> None:
    """A prop without plugs and strips has no pages and no lists of them."""
    (tmp_path / "bell.plan").write_text("supply PS 12 V\nfuse F1 1 A\nlamp L1 12 V 1 W\nrung PS.+, F1, L1, PS.-\n")
    bell = asked_book(tmp_path / "bell.plan", ())
    whole, small = (parsed(book_pages(one)["book.html"]) for one in (tour, bell))
    sections = [{one for one in page.ids if not one.startswith(("drawing-", "ladder-"))} for page in (whole, small)]
    assert sections[0] - sections[1] == {"strips", "pins"}
    assert set(book_lists(tour.book)) - set(book_lists(bell.book)) == {"strips.csv", "pins.csv"}


def test_a_wire_can_be_ticked_off_and_tells_when_to_solder(tour: BookReport) -> None:
    """Three wires meet at ES1.12; only with the last of them it is soldered."""
    text = book_pages(tour)["book.html"]
    boxes = re.findall(r'aria-label="(w\d+) done"', text)
    assert sorted(boxes) == sorted(line.wire.number for line in tour.book.wires.lines)
    assert [text.count(f'ES1.12</span> <span class="end">{n} of 3: {what}<') for n, what in
            ((1, "hook in"), (2, "hook in"), (3, "solder"))] == [1, 1, 1]  # fmt: skip


def test_the_command_writes_pages_and_lists_and_tells_of_crowds(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Into a folder that it makes; what is said goes to stderr."""
    plan, folder = tmp_path / "tour.plan", tmp_path / "made" / "book"
    plan.write_text(TOUR, encoding="utf-8")
    assert main(["buildbook", str(plan), "-o", str(folder)]) == 0
    said = capsys.readouterr()
    assert (said.out, "PS.-: 4 wires in one terminal" in said.err) == ("", True)
    names = {"book.html", "operating-card.html", "fuse-card.html", "labels.html", "bench-test.html"}
    assert {file.name for file in folder.iterdir()} >= names
    assert (folder / "wires.csv").read_bytes().startswith(b"\xef\xbb\xbffrom,to,number")


def test_a_folder_that_cant_be_written_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where a file is in the way, the call was wrong."""
    plan = tmp_path / "tour.plan"
    plan.write_text(TOUR, encoding="utf-8")
    assert main(["buildbook", str(plan), "-o", str(plan)]) == 2
    assert "can't be written" in capsys.readouterr().err


def test_a_wire_of_a_list_can_be_asked_of_sizes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """By the number that the list gives it, where the plan gives none."""
    plan = tmp_path / "tour.plan"
    plan.write_text(TOUR, encoding="utf-8")
    main(["size", str(plan), "--explain", "w3"])
    assert "ES1.12-K2.14" in capsys.readouterr().out


def test_a_book_without_the_drawings_extra_says_how_to_get_the_drawing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Everything else is there; what would be typed is what `drawing` says."""
    (tmp_path / "tour.plan").write_text(TOUR, encoding="utf-8")
    monkeypatch.setitem(sys.modules, "pygraphviz", None)
    text = "".join(parsed(book_pages(asked_book(tmp_path / "tour.plan", ()))["book.html"]).text)
    assert "The wiring drawing is left out" in text
    assert INSTALL in text
    assert "Wire list" in text


def test_the_wiring_drawing_has_the_numbers_of_the_wire_list(tour: BookReport) -> None:
    """Who looks from one to the other finds the same wire."""
    for line in tour.book.wires.lines:
        assert f">{line.wire.number}" in tour.pictures.wiring.svgs[0]


def test_the_ladder_has_every_load(tour: BookReport) -> None:
    """A rung for each of them."""
    circuit = tour.book.circuit
    ladder = "".join(tour.pictures.ladder.svgs)
    assert all(f'data-load="{number}' in ladder for number in range(len(circuit.loads)))


def test_paper_breaks_between_the_rungs_of_a_ladder(tour: BookReport) -> None:
    """Each rung is a picture of its own, with its number; without loads there is none, and a sentence says so."""
    rungs = [re.findall(r'id="ladder-rung-(\d+)"', svg) for svg in tour.pictures.ladder.svgs]
    assert rungs == [[str(number)] for number in range(1, len(rungs) + 1)]
    assert len(rungs) >= len(tour.book.circuit.loads)
    alone = book_pictures(analyse(build_circuit(read_text("alone.plan", "supply PS 12 V 10 A")))).ladder
    assert alone == Picture(EMPTY_LADDER)
