"""A page in a real browser: what people do with it, and what they see then."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from circuitcheck.reports.page_asking import asked_page
from tests.page.browser import Opened, browser, open_page, save, written
from tests.test_examples import EXAMPLES, RIGHT, WRONG

pytestmark = pytest.mark.slow

Open = Callable[..., Page]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """One for all tests."""
    with browser() as launched:
        yield launched


@pytest.fixture
def example(chromium: Browser, tmp_path: Path) -> Iterator[Open]:
    """Opens the page of an example; whatever is done with it, it complains of nothing and loads nothing."""
    pages: list[Opened] = []

    def opened(name: str, **how: object) -> Page:
        plan = next(path for path in (*RIGHT, *WRONG) if path.stem == name)
        file = save(tmp_path, asked_page(str(plan), (EXAMPLES / "parts",)))
        pages.append(open_page(chromium, file, **how))  # type: ignore[arg-type]
        return pages[-1].page

    yield opened
    for one in pages:
        one.page.context.close()
        assert one.complaints == []
        assert len(one.requests) == 1
        assert one.requests[0].startswith("file:")


def control(page: Page, name: str, position: str) -> None:
    """Puts a switch to a position, as somebody does with a pointer."""
    group(page, name).get_by_role("radio", name=position, exact=True).click()


def group(page: Page, name: str) -> Locator:
    """A switch, by its name alone."""
    return page.get_by_role("group", name=re.compile(rf"^{name}\b"))


def hold(page: Page, name: str) -> None:
    """Presses a button and lets the page keep it pressed."""
    page.get_by_label(f"keep {name} where it is put").check()
    group(page, name).get_by_role("button", name="pressed").click()


def mode(page: Page, name: str) -> None:
    """How relays move."""
    page.get_by_role("group", name="Relays move").get_by_role("radio", name=name).check()


def device(page: Page, name: str) -> str:
    """What a motor or a lamp is said to do."""
    return page.locator(".device", has_text=name).locator(".word").inner_text()


def becomes(page: Page, name: str, word: str) -> None:
    """Waits until a motor or a lamp does that."""
    expect(page.locator(".device", has_text=name).locator(".word")).to_have_text(word)


def relay(page: Page, name: str) -> str:
    """How a relay stands."""
    return page.locator(".relay", has_text=name).locator(".word").inner_text()


def stands(page: Page) -> str:
    """Where the only axis is."""
    return page.locator(".stands").inner_text()


def ready_deck(page: Page) -> None:
    """The drawbridge, made ready and on its way up."""
    mode(page, "in real time")
    group(page, "START").get_by_role("button", name="pressed").click(delay=200)
    becomes(page, "M1", "forward")


def test_a_deck_that_is_made_ready_runs_to_its_limit_and_is_braked_there(example: Open) -> None:
    """START is pressed for a moment; relays follow, the motor turns, the limit cuts it at the top."""
    page = example("drawbridge")
    assert device(page, "M1") == "braked"
    ready_deck(page)
    assert device(page, "L1") == "lit"
    expect(page.locator(".stands")).to_have_text("deck at top", timeout=9000)
    becomes(page, "M1", "braked")
    assert (relay(page, "K1"), relay(page, "K3")) == ("released", "operated")
    assert page.locator(".limit.pressed").inner_text().startswith("LS1")
    log = page.locator("#log").inner_text()
    told = [log.index(words) for words in ("K3 operates", "K1 operates", "deck moves to top", "K1 releases")]
    assert told == sorted(told)


def test_a_power_failure_on_the_way_stops_the_deck_where_it_is(example: Open) -> None:
    """And the power's return doesn't start it again: K3 has let go."""
    page = example("drawbridge")
    ready_deck(page)
    expect(page.locator(".stands")).to_contain_text("deck between bottom and top")
    control(page, "PS", "off")
    becomes(page, "M1", "braked")
    assert relay(page, "K3") == "released"
    control(page, "PS", "on")
    page.wait_for_timeout(300)
    assert device(page, "M1") == "braked"
    assert stands(page) == "deck between bottom and top"


def test_a_motor_is_seen_to_turn_only_while_it_is_driven(example: Open) -> None:
    """The winch turns on the page, and stands once it is braked."""
    page = example("drawbridge")
    rotor = page.locator(".motor .rotor")
    ready_deck(page)
    before = rotor.get_attribute("transform")
    page.wait_for_timeout(200)
    assert rotor.get_attribute("transform") != before
    control(page, "PS", "off")
    page.wait_for_timeout(800)
    before = rotor.get_attribute("transform")
    page.wait_for_timeout(200)
    assert rotor.get_attribute("transform") == before


def test_who_wants_no_motion_sees_none(example: Open) -> None:
    """The word and the arrow tell it all the same."""
    page = example("drawbridge", reduced_motion="reduce")
    ready_deck(page)
    page.wait_for_timeout(200)
    assert page.locator(".motor .rotor").get_attribute("transform") is None
    assert page.locator(".motor .arrow").evaluate("one => getComputedStyle(one).visibility") == "visible"


def race(page: Page) -> None:
    """Both buttons of the curtain are held when the power returns: either relay may be first."""
    mode(page, "step by step")
    control(page, "PS", "off")
    hold(page, "OPEN")
    hold(page, "CLOSE")
    control(page, "PS", "on")


@pytest.mark.parametrize(("first", "motor"), [("K1 operates", "forward"), ("K2 operates", "reverse")])
def test_step_by_step_somebody_chooses_which_relay_is_first(example: Open, first: str, motor: str) -> None:
    """Both orders are offered, and each leads where the checks say."""
    page = example("curtain_race")
    race(page)
    offered = page.locator("#next button b").all_inner_texts()
    assert sorted(offered) == ["K1 operates", "K2 operates"]
    page.get_by_role("button", name=first).click()
    assert device(page, "M1") == motor
    assert "Could have come first as well" in page.locator("#log").inner_text()
    page.get_by_role("button", name="Back one step").click()
    assert page.locator("#next button").count() == 2


def test_times_that_the_plan_gives_say_who_cannot_be_first(example: Open) -> None:
    """The drawbridge's direction relay is the quicker one: its run relay can't go before it."""
    page = example("drawbridge")
    mode(page, "step by step")
    control(page, "S1", "lower")
    page.get_by_role("button", name="turn S1 to lower").click()
    page.get_by_role("slider").fill("2")
    hold(page, "START")
    page.get_by_role("button", name="K3 operates").click()
    assert page.get_by_role("button", name="K1 operates").is_disabled()
    page.get_by_role("button", name="K2 operates").click()
    assert page.get_by_role("button", name="K1 operates").is_enabled()


def test_a_hand_waits_until_relays_are_at_rest(example: Open) -> None:
    """As the proofs have it: what is asked for meanwhile is done afterwards."""
    page = example("drawbridge")
    mode(page, "step by step")
    hold(page, "START")
    control(page, "S1", "lower")
    assert "waits until relays are at rest" in group(page, "S1").inner_text()
    assert "S1" not in page.locator("#log").inner_text()
    for name in ("K3 operates", "K1 operates", "turn S1 to lower"):
        page.get_by_role("button", name=name).click()
    assert "turn S1 to lower." in page.locator("#log li").last.inner_text()


def test_an_axis_can_be_pushed_by_hand_onto_its_limits(example: Open) -> None:
    """Its limits follow the slider."""
    page = example("drawbridge")
    mode(page, "step by step")
    slider = page.get_by_role("slider", name="deck, pushed by hand")
    slider.fill("3")
    assert stands(page) == "deck at top"
    assert page.locator(".limit", has_text="LS1").locator(".word").inner_text().strip() == "pressed"
    assert page.locator(".limit", has_text="LS2").locator(".word").inner_text().strip() == "free"
    assert slider.get_attribute("aria-valuetext") == "top"


def test_a_timing_relay_runs_on_the_clock_of_the_page(example: Open) -> None:
    """The lantern is lit at once; the latch follows after the timer's three seconds."""
    page = example("trapdoor_lantern")
    mode(page, "in real time")
    control(page, "S1", "armed")
    hold(page, "DROP")
    assert device(page, "L1") == "lit"
    page.wait_for_timeout(2000)
    assert device(page, "Y1") == "off"
    becomes(page, "Y1", "on")
    assert page.locator("#log li", has_text="K1 operates").locator("time").inner_text().startswith("3")


def test_relays_that_never_settle_go_on_and_hands_may_end_it(example: Open) -> None:
    """The roar's relay breaks its own coil: it chatters until the button is let go."""
    page = example("roar_relay_chatters")
    mode(page, "in real time")
    hold(page, "ROAR")
    expect(page.locator("#log li", has_text="K1 releases").nth(3)).to_be_visible()
    page.get_by_label("keep ROAR where it is put").uncheck()
    page.wait_for_timeout(300)
    assert relay(page, "K1") == "released"
    assert "Everything is at rest" in page.locator("#next-title").inner_text()


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
    ready_deck(page)
    assert page.evaluate(WRONGLY_LIT) == []
    assert page.locator(".picture .lit").count() > 10
    control(page, "PS", "off")
    becomes(page, "M1", "braked")
    assert page.evaluate(WRONGLY_LIT) == []
    assert page.locator(".picture .lit").count() == 0
    assert page.locator(".picture .brake").count() > 4


WRONGLY_LIT = """() => {
  const { lookup, run } = document.body.circuitcheck;
  const { flows, loads } = lookup(run().state);
  const words = { fed: "lit", braking: "brake", shorting: "short" };
  const numbers = (one, name) => (one.getAttribute(name) ?? "").split(" ").filter(Boolean).map(Number);
  return [...document.querySelectorAll(".picture [data-conductors], .picture [data-load]")].filter((one) => {
    const told = [...numbers(one, "data-conductors").map((number) => flows[number]),
                  ...numbers(one, "data-load").map((number) => loads[number])];
    return Object.entries(words).some(([flow, word]) => told.includes(flow) !== one.classList.contains(word));
  }).map((one) => one.outerHTML);
}"""
"""The elements whose classes don't fit what is looked up for the present state."""


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
    assert page.locator(".picture:visible .way").count() > 5
    pale = page.locator(".picture:visible [data-conductors]:not(.way)").first
    assert float(pale.evaluate("one => getComputedStyle(one).opacity")) < 0.5
    page.get_by_role("button", name="Start over").click()
    assert page.locator(".picture .way").count() == 0


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
    becomes(page, "M1", "forward")
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
