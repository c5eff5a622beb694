"""Random tests draw the same examples at every run; `--hypothesis-profile=free` lets them roam.

`HYPOTHESIS_PROFILE=nightly` does so too, with many times as many examples where a test asks for them (profiles.py).
"""

import os

import pytest
from hypothesis import Phase, settings

from tests.profiles import PROFILE

settings.register_profile("fixed", derandomize=True, deadline=None)
settings.register_profile("noticing", derandomize=True, deadline=None, phases=[Phase.explicit, Phase.generate])
settings.register_profile("free", deadline=None)
settings.register_profile("nightly", deadline=None, print_blob=True)
settings.load_profile(PROFILE)


@pytest.fixture(scope="session", autouse=True)
def cache_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What the tool keeps, it keeps in a folder of the tests: the user's own has no part in them."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent
    os.environ["XDG_CACHE_HOME"] = os.environ["LOCALAPPDATA"] = str(folder / "cache")
