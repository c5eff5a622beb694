"""Every test of settings is in a folder of its own, as those of libraries are."""

from tests.library.conftest import folder, tables

__all__ = ["folder", "tables"]
