"""The order of the folders, held by a machine: each imports only from those to its left."""

import ast
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "circuitcheck"
ORDER = (
    *("plan", "circuit", "layout", "analysis", "sizing", "checks", "settings", "examination", "certificates"),
    *("remedies", "beginning", "library", "ladder", "drawing", "paper", "page", "reports", "editor", "commands"),
    *("arguments", "cli", "__main__"),
)
"""A text becomes a plan, a circuit, facts, findings; the front door joins these; reports read what it gives."""
ANYWHERE = "circuitcheck"
"""The package itself holds its version, which any file may read."""


def modules() -> dict[str, Path]:
    """Every file of the package by its name in an import."""
    found = {}
    for file in sorted(PACKAGE.rglob("*.py")):
        parts = file.relative_to(PACKAGE.parent).with_suffix("").parts
        found[".".join(part for part in parts if part != "__init__")] = file
    return found


def imported(file: Path) -> Iterator[str]:
    """The modules of the package that a file imports, also late and only for types."""
    for part in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(part, ast.ImportFrom) and part.module and part.module.split(".")[0] == "circuitcheck":
            yield part.module
        elif isinstance(part, ast.Import):
            yield from (name.name for name in part.names if name.name.split(".")[0] == "circuitcheck")


def imported_at_once(file: Path) -> Iterator[str]:
    """Those that it imports on being imported itself."""
    for part in ast.parse(file.read_text(encoding="utf-8")).body:
        if isinstance(part, ast.ImportFrom) and part.module and part.module.split(".")[0] == "circuitcheck":
            yield part.module


def room(module: str) -> str:
    """The folder, or the file beside the folders, that a module belongs to."""
    return module.split(".")[1] if "." in module else ANYWHERE


def test_every_folder_has_its_place_in_the_order() -> None:
    """A new folder must be given a place before anything can be put in it."""
    assert {room(name) for name in modules()} - {ANYWHERE} == set(ORDER)


def test_each_folder_imports_only_from_those_to_its_left() -> None:
    """What is read first knows nothing of what is made of it."""
    wrong = [
        f"{name} imports {other}"
        for name, file in modules().items()
        for other in imported(file)
        if ANYWHERE not in (room(name), room(other)) and ORDER.index(room(other)) > ORDER.index(room(name))
    ]
    assert wrong == []


def test_the_version_imports_nothing() -> None:
    """The package itself can be imported without any of its parts."""
    assert list(imported(PACKAGE / "__init__.py")) == []


def test_no_files_import_each_other_in_a_ring() -> None:
    """Every file can be read after those that it needs at once; what it needs later, in a call, may look back."""
    needs = {name: set(imported_at_once(file)) for name, file in modules().items()}
    assert set(TopologicalSorter(needs).static_order()) >= set(needs)
