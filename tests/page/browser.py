"""A real browser without a window, for tests of pages; and the pages of plans, written to disk as people open them."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from circuitcheck.reports.page_asking import LivePage, asked_page
from circuitcheck.reports.page_html import page_html

NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)
"""Without a sandbox, since CI runs as root; and nothing of its own over the network."""


@contextmanager
def browser() -> Iterator[Browser]:
    """The system's Chromium. Without one the test is skipped, but never where CI runs it."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        if os.environ.get("CI") == "true":
            pytest.fail(f"no browser: none of {', '.join(NAMES)} is installed")
        pytest.skip(f"no browser: none of {', '.join(NAMES)} is installed")
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=found, args=list(FLAGS))
        try:
            yield launched
        finally:
            launched.close()


class Opened:
    """A page in the browser, with all that it complained of and asked the network for."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.complaints: list[str] = []
        self.requests: list[str] = []
        page.on("console", lambda message: self.complaints.append(message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("request", lambda request: self.requests.append(request.url))


def open_page(
    browser: Browser, file: Path, width: int = 1280, scheme: str = "light", reduced_motion: str = "no-preference"
) -> Opened:
    """The file, opened from disk in a window of its own."""
    context = browser.new_context(viewport={"width": width, "height": 900})
    opened = Opened(context.new_page())
    opened.page.emulate_media(
        color_scheme="dark" if scheme == "dark" else "light",
        reduced_motion="reduce" if reduced_motion == "reduce" else "no-preference",
    )
    opened.page.goto(file.as_uri())
    return opened


def written(folder: Path, plan: str) -> Path:
    """The page of a plan's text."""
    (folder / "prop.plan").write_text(plan, encoding="utf-8")
    return save(folder, asked_page(str(folder / "prop.plan"), ()))


def save(folder: Path, page: LivePage) -> Path:
    """The page as a file."""
    file = folder / "prop.html"
    file.write_text(page_html(page), encoding="utf-8")
    return file
