"""The data of a live page, kept word by word."""

import json
from collections.abc import Callable

from circuitcheck.reports.page_asking import asked_page
from circuitcheck.reports.page_json import page_json
from tests.reports.traced import DECK

PAGE_DATA: dict[str, tuple[str, Callable[[], str]]] = {
    "page_json": (DECK, lambda: data()),
}


def data() -> str:
    """A line for each part of it, so that a change can be seen."""
    whole = json.loads(page_json(asked_page("prop.plan", ())))
    # Better words of a check change nothing here.
    lines = [f"{name}: {part}" for name, value in whole.items() if name != "incidents" for part in parts(value)]
    return "\n".join([*lines, ""])


def parts(value: object) -> list[str]:
    """The entries of a list or an object, each as JSON; all else as it is."""
    if isinstance(value, dict):
        return [f"{name} {json.dumps(one)}" for name, one in value.items()]
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return [json.dumps(one) for one in value]
    return [json.dumps(value)]
