"""A browser for all tests of a file, and pages of examples in it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from circuitcheck.reports.page_asking import asked_page
from tests.page.browser import Opened, browser, open_page, save
from tests.page.working import Open
from tests.test_examples import EXAMPLES, RIGHT, WRONG


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
