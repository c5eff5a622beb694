"""Random tests draw the same examples at every run; `--hypothesis-profile=free` lets them roam."""

import os

import pytest
from hypothesis import settings

settings.register_profile("fixed", derandomize=True, deadline=None)
settings.register_profile("free", deadline=None)
settings.load_profile("fixed")


@pytest.fixture(scope="session", autouse=True)
def cache_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What the tool keeps, it keeps in a folder of the tests: the user's own has no part in them."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent
    os.environ["XDG_CACHE_HOME"] = os.environ["LOCALAPPDATA"] = str(folder / "cache")
