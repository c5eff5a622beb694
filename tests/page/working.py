"""What people do with a page, and what they look at."""

import re
from collections.abc import Callable

from playwright.sync_api import Locator, Page, expect

Open = Callable[..., Page]
"""Opens the page of an example by its name."""


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


def step(page: Page, *names: str) -> None:
    """Lets these happen, one after the other."""
    for name in names:
        page.get_by_role("button", name=name, exact=False).click()


def deck_on_its_way(page: Page) -> None:
    """The drawbridge made ready and half up, step by step, so that it stays there."""
    mode(page, "step by step")
    hold(page, "START")
    step(page, "K3 operates", "K1 operates", "deck moves between bottom and top")
