"""A page is for every keyboard, screen and light, and does nothing that nobody asked for."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from circuitcheck.reports.page_asking import asked_page
from tests.page.browser import open_page, save, written
from tests.page.working import Open, becomes, group, mode
from tests.test_examples import EXAMPLES

pytestmark = pytest.mark.slow


def test_everything_can_be_done_with_the_keyboard(example: Open) -> None:
    """Power off and on by arrow keys, START held by the space bar, and where one is can be seen."""
    page = example("drawbridge")
    mode(page, "in real time")
    page.locator("body").press("Tab")
    tab_to(page, "input[name^=digit]")
    page.keyboard.press("ArrowLeft")
    becomes(page, "M1", "braked")
    assert group(page, "PS").get_by_role("radio", name="off").is_checked()
    page.keyboard.press("ArrowRight")
    outline = "getComputedStyle(document.activeElement.nextElementSibling).outlineStyle"
    assert page.evaluate(outline) == "solid"
    tab_to(page, "button.held")
    page.keyboard.down(" ")
    expect(page.locator("#log")).to_contain_text("K1 operates")
    page.keyboard.up(" ")
    expect(group(page, "START").get_by_role("button")).to_have_attribute("aria-pressed", "false")
    expect(page.locator("#said")).not_to_be_empty()


def tab_to(page: Page, selector: str) -> None:
    """Goes on by tabs until such an element has the focus."""
    for _ in range(60):
        if page.evaluate("wanted => document.activeElement.matches(wanted)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"no way to {selector} by the keyboard")


@pytest.mark.parametrize("name", ["drawbridge", "drawbridge_feeds_back", "curtain_pair", "lighthouse_two_supplies"])
@pytest.mark.parametrize("width", [375, 820, 1400])
def test_no_width_of_window_has_to_be_scrolled_sideways(example: Open, name: str, width: int) -> None:
    """What is wider scrolls within its own frame."""
    page = example(name, width=width)
    for finding in page.locator(".finding-head").all():
        finding.click()
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_day_and_night_follow_the_system_or_the_choice(example: Open) -> None:
    """Ink is lighter than paper at night only."""
    page = example("cue_light", scheme="dark")
    paper = "getComputedStyle(document.body).backgroundColor"
    night = page.evaluate(paper)
    page.get_by_label("Light").select_option("day")
    day = page.evaluate(paper)
    page.get_by_label("Light").select_option("night")
    assert page.evaluate(paper) == night != day


def test_the_page_forbids_itself_the_network(chromium: Browser, tmp_path: Path) -> None:
    """Whatever might want to: its policy lets nothing be fetched, and no script run but its own."""
    file = save(tmp_path, asked_page(str(EXAMPLES / "right" / "cue_light.plan"), (EXAMPLES / "parts",)))
    page = open_page(chromium, file).page
    blocked = """() => new Promise((resolve) => {
      document.addEventListener("securitypolicyviolation", (event) => resolve(event.effectiveDirective));
      const script = document.createElement("script");
      script.textContent = "document.title = 'taken'";
      document.body.append(script);
    })"""
    assert page.evaluate(blocked).startswith("script-src")
    fetched = "fetch('data:text/plain,x').then(() => 'loaded', () => 'refused')"
    assert page.evaluate(fetched) == "refused"
    assert page.title() != "taken"
    page.context.close()


HOSTILE = "<img src=x onerror=document.title='taken'></script><script>document.title='taken'</script>"


def test_no_name_of_a_plan_is_taken_for_markup(chromium: Browser, tmp_path: Path) -> None:
    """What a plan says is shown letter by letter, wherever the page says it."""
    plan = f"""\
plan Lantern "{HOSTILE}"
supply PS 12 V 1 A
fuse   F1 1 A
switch S1 spdt positions high low "{HOSTILE}"
relay  K1 spdt coil 12 V 160 ohm "{HOSTILE}"
lamp   L1 12 V 2 W "{HOSTILE}"
rung   PS.+, F1, S1.com-low, L1, PS.-
rung   F1.2, K1.A1-A2, PS.-
"""
    opened = open_page(chromium, written(tmp_path, plan))
    assert HOSTILE in opened.page.locator(".bill .label").inner_text()
    assert HOSTILE in opened.page.locator("#controls").inner_text()
    assert HOSTILE in opened.page.locator("#relays").inner_text()
    for finding in opened.page.locator(".finding-head").all():
        finding.click()
    opened.page.wait_for_timeout(200)
    assert opened.page.locator("img, body script:not(#data):not(:last-child)").count() == 0
    assert opened.page.title() == f"Lantern: {HOSTILE}"
    assert opened.complaints == []
    opened.page.context.close()
