"""What a page shows of where it has come to: shorts, findings, pictures, the table, the chart."""

from collections.abc import Callable
from xml.etree import ElementTree

import pytest

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.single_state import State
from circuitcheck.drawing.drawing import lay_out
from circuitcheck.drawing.shown import shown_in
from circuitcheck.reports.drawing_svg import drawing_fragment
from circuitcheck.reports.ladder_asking import redrawn
from circuitcheck.reports.ladder_lights import Lights
from circuitcheck.reports.ladder_svg import ladder_fragment
from tests.page.working import Open, control, deck_on_its_way, device, group, hold, mode, step
from tests.test_examples import EXAMPLES, facts_of

pytestmark = pytest.mark.slow


def test_a_short_ends_the_run_and_names_the_finding(example: Open) -> None:
    """Nothing is followed from there; a step back takes it up again."""
    page = example("gallery_joins_supplies")
    control(page, "S1", "on")
    hold(page, "TEST")
    alarm = page.get_by_role("alert")
    assert "Short of PS1 and PS2" in alarm.inner_text()
    assert alarm.get_by_role("link").inner_text().startswith("The finding: ")
    assert page.locator(".finding-head[aria-expanded=true] code").inner_text() == "supply-short"
    assert device(page, "L1") == "shorted"
    control_before = page.locator("#log li").count()
    group(page, "S1").get_by_role("radio", name="off").click()
    assert page.locator("#log li").count() == control_before
    page.get_by_role("button", name="Back one step").click()
    assert not alarm.is_visible()


def test_a_finding_that_is_clicked_shows_its_state_and_its_steps(example: Open) -> None:
    """The digits stand as its example says; each of its steps can be looked at; going on lets things move."""
    page = example("curtain_seal_past_stop")
    finding = page.locator(".finding-head").first
    finding.click()
    assert finding.get_attribute("aria-expanded") == "true"
    steps = page.locator(".finding-body:visible .step")
    assert steps.count() > 1
    shown = page.evaluate("document.body.circuitcheck.run().state")
    assert page.evaluate("document.body.circuitcheck.run().held") == "shown"
    page.wait_for_timeout(300)
    assert page.evaluate("document.body.circuitcheck.run().state") == shown
    steps.first.click()
    assert page.evaluate("document.body.circuitcheck.run().state") != shown
    page.get_by_role("button", name="Go on").click()
    assert page.evaluate("document.body.circuitcheck.run().held") == ""


def test_the_pictures_light_what_the_engine_says_and_nothing_else(example: Open) -> None:
    """Every wire and contact of every picture, while the deck is on its way, and once the power has failed."""
    page = example("drawbridge")
    deck_on_its_way(page)
    assert page.locator("#picture-choice input[type=radio]").count() == 2
    assert page.evaluate(WRONGLY_LIT) == []
    for picture in page.locator(".picture").all():
        assert picture.locator(".lit").count() > 10
    control(page, "PS", "off")
    step(page, "K3 releases", "K1 releases")
    assert device(page, "M1") == "braked"
    assert page.evaluate(WRONGLY_LIT) == []
    assert page.locator(".picture .lit").count() == 0
    for picture in page.locator(".picture").all():
        assert picture.locator(".brake").count() > 4


WRONGLY_LIT = """() => {
  const { lookup, run } = document.body.circuitcheck;
  const { flows, loads } = lookup(run().state);
  const words = { fed: "lit", forward: "lit", backward: "lit", braking: "brake", shorting: "short" };
  const numbers = (one, name) => (one.getAttribute(name) ?? "").split(" ").filter(Boolean).map(Number);
  const runs = (one) => (number) => {
    const sense = one.closest("[data-sense]")?.dataset.sense ?? loads[number];
    return (sense === "brake" ? "braking" : sense) === loads[number] ? loads[number] : "";
  };
  const drawn = document.querySelectorAll(".picture [data-conductors], .picture g:not(.rung)[data-load]");
  return [...drawn].filter((one) => {
    const told = [...numbers(one, "data-conductors").map((number) => flows[number]),
                  ...numbers(one, "data-load").map(runs(one))].map((flow) => words[flow]);
    const worst = ["short", "lit", "brake"].find((word) => told.includes(word)) ?? "";
    return ["short", "lit", "brake"].some((word) => one.classList.contains(word) !== (word === worst));
  }).map((one) => one.outerHTML);
}"""
"""The elements whose classes don't fit what is looked up for the present state."""


@pytest.mark.parametrize("name", ["right/drawbridge", "right/dragon_jaw", "wrong/gallery_joins_supplies"])
def test_pictures_on_the_page_are_lit_as_the_commands_light_them(name: str, example: Open) -> None:
    """Element by element, in one state after the other as somebody works the controls."""
    facts = facts_of(EXAMPLES / f"{name}.plan")
    page = example(name.partition("/")[2])
    mode(page, "step by step")
    lit: set[str] = set()
    for number in range(20):
        state = dict(enumerate(page.evaluate("document.body.circuitcheck.run().state")))
        shown = page.evaluate(CLASSES)
        assert shown == [drawn_classes(facts, state, one) for one in (ladder_lit, wiring_lit)]
        lit |= {word for picture in shown for words in picture for word in words}
        page.evaluate(NEXT, number)
    assert "lit" in lit


NEXT = """(number) => {
  const next = [...document.querySelectorAll("#next button:not([disabled])")];
  const hands = [...document.querySelectorAll("#controls button, #controls input[type=radio]:not(:checked)")];
  const back = document.body.dataset.held === "short" ? [document.getElementById("back")] : [];
  const offered = [back, next, hands].find((all) => all.length);
  offered[number % offered.length].click();
}"""
"""Lets the next thing happen, or works one of the controls, a different one each time; steps back from a short."""

CLASSES = """() => [...document.querySelectorAll(".picture")].map((picture) => (
  [...picture.querySelectorAll("[data-conductors], [data-load]:not([data-rung])")].map((one) => (
    ["lit", "brake", "short"].filter((word) => one.classList.contains(word))))))"""


def ladder_lit(facts: Facts, state: State) -> str:
    """As `ladder --state` draws it."""
    return ladder_fragment(redrawn(facts)._replace(lights=Lights(facts, state)))


def wiring_lit(facts: Facts, state: State) -> str:
    """As `drawing --state` draws it."""
    return drawing_fragment(facts.circuit, lay_out(facts.circuit), shown_in(facts.circuit, state))


def drawn_classes(facts: Facts, state: State, draw: Callable[[Facts, State], str]) -> list[list[str]]:
    """What each element that carries current is lit as; of several words of one element the worst."""
    found: list[list[str]] = []
    for element in ElementTree.fromstring(draw(facts, state)).iter():
        if "data-conductors" in element.attrib or ("data-load" in element.attrib and "data-rung" not in element.attrib):
            words = element.get("class", "").split()
            worst: str | None = next((word for word in ("short", "lit", "brake") if word in words), None)
            found.append([worst] if worst else [])
    return found


def test_a_switch_can_be_worked_in_the_pictures(example: Open) -> None:
    """By pointer and by keyboard: it goes on to its next position."""
    page = example("cue_light")
    lit = page.locator("#controls input:checked").evaluate_all("all => all.map(one => one.value)")
    contact = page.locator(".picture:visible .workable").first
    assert contact.get_attribute("role") == "button"
    contact.press("Enter")
    moved = page.locator("#controls input:checked").evaluate_all("all => all.map(one => one.value)")
    assert moved != lit


def test_the_way_of_a_finding_stands_out_in_the_pictures(example: Open) -> None:
    """By a halo, and by all else being pale."""
    page = example("drawbridge_feeds_back")
    page.locator(".finding-head", has_text="sneak-path").click()
    assert page.locator(".picture:visible .found").count() > 5
    pale = page.locator(".picture:visible [data-conductors]:not(.found)").first
    assert float(pale.evaluate("one => getComputedStyle(one).opacity")) < 0.5
    page.get_by_role("button", name="Start over").click()
    assert page.locator(".picture .found").count() == 0


def test_the_row_of_the_table_that_the_state_belongs_to_is_marked(example: Open) -> None:
    """One row, by colour, by a sign and for a screen reader."""
    page = example("drawbridge")
    row = page.locator('#table tr[aria-current="true"]')
    assert row.count() == 1
    control(page, "PS", "off")
    assert row.count() == 1
    assert row.inner_text().split()[:4] == ["▶", "now", "–", "off"]


def test_the_timing_chart_is_drawn_from_what_was_done(example: Open) -> None:
    """A lane for whatever has changed, a column for each thing that happened."""
    page = example("cue_light")
    assert page.locator("#chart rect").count() == 0
    name = page.locator("#controls fieldset legend b").first.inner_text()
    control(page, name, "off")
    control(page, name, "on")
    assert page.locator("#chart .name", has_text=name).count() >= 1
    assert page.locator("#chart .count").all_text_contents()[:3] == ["0", "1", "2"]
