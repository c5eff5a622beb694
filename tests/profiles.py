"""How many examples random tests draw: some at every run, a hundred times as many by night."""

import os

PROFILE = os.environ.get("HYPOTHESIS_PROFILE", "fixed")
BY_NIGHT = 100


def examples(usual: int) -> int:
    """The examples of a test that draws `usual` ones by day."""
    return usual * BY_NIGHT if PROFILE == "nightly" else usual
