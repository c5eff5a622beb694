"""Which plans are meant where folders are named."""

import os
from collections.abc import Iterator


def plans_meant(name: str) -> Iterator[str]:
    """A folder without any plan is told as a plan that can't be read: by its own name."""
    if not os.path.isdir(name):
        yield name
        return
    yield from plans_within(name) or [os.path.join(name, "*.plan")]


def plans_within(folder: str) -> list[str]:
    """Every *.plan in a folder and in those within it, hidden folders left out, in order."""
    found: list[str] = []
    for here, folders, files in os.walk(folder):
        folders[:] = [one for one in folders if not one.startswith(".")]
        found += [os.path.join(here, file) for file in files if file.endswith(".plan")]
    return sorted(found)
