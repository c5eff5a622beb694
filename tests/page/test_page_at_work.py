"""A page in a real browser: what happens when its controls are worked."""

import pytest
from playwright.sync_api import Page, expect

from tests.page.working import Open, becomes, control, deck_on_its_way, device, group, hold, mode, relay, stands

pytestmark = pytest.mark.slow


def test_a_deck_that_is_made_ready_runs_to_its_limit_and_is_braked_there(example: Open) -> None:
    """START is pressed for a moment; relays follow, the motor turns, the limit cuts it at the top."""
    page = example("drawbridge")
    assert device(page, "M1") == "braked"
    mode(page, "in real time")
    group(page, "START").get_by_role("button", name="pressed").click(delay=200)
    expect(page.locator(".stands")).to_have_text("deck at top", timeout=15000)
    becomes(page, "M1", "braked")
    assert (relay(page, "K1"), relay(page, "K3")) == ("released", "operated")
    assert page.locator(".limit.pressed").inner_text().startswith("LS1")
    log = page.locator("#log").inner_text()
    told = [log.index(words) for words in ("K3 operates", "K1 operates", "deck moves to top", "K1 releases")]
    assert told == sorted(told)
    chart = page.locator("#chart text").all_text_contents()
    assert {"forward", "braked", "lit"} <= set(chart)


def test_a_power_failure_on_the_way_stops_the_deck_where_it_is(example: Open) -> None:
    """And the power's return doesn't start it again: K3 has let go."""
    page = example("drawbridge")
    deck_on_its_way(page)
    page.get_by_label("keep START where it is put").uncheck()
    control(page, "PS", "off")
    mode(page, "in real time")
    expect(page.locator("#next-title")).to_contain_text("Everything is at rest")
    assert device(page, "M1") == "braked"
    assert (relay(page, "K1"), relay(page, "K3")) == ("released", "released")
    control(page, "PS", "on")
    page.wait_for_timeout(300)
    assert device(page, "M1") == "braked"
    assert stands(page) == "deck between bottom and top"


def test_a_motor_is_seen_to_turn_only_while_it_is_driven(example: Open) -> None:
    """The winch turns on the page, and stands once it is braked."""
    page = example("curtain_race")
    rotor = page.locator(".motor .rotor")
    mode(page, "in real time")
    hold(page, "OPEN")
    becomes(page, "M1", "forward")
    before = rotor.get_attribute("transform")
    page.wait_for_timeout(200)
    assert rotor.get_attribute("transform") != before
    control(page, "PS", "off")
    becomes(page, "M1", "braked")
    page.wait_for_timeout(1500)
    before = rotor.get_attribute("transform")
    page.wait_for_timeout(200)
    assert rotor.get_attribute("transform") == before


def test_who_wants_no_motion_sees_none(example: Open) -> None:
    """The word and the arrow tell it all the same."""
    page = example("curtain_race", reduced_motion="reduce")
    mode(page, "in real time")
    hold(page, "OPEN")
    becomes(page, "M1", "forward")
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
