"""Random tests draw the same examples at every run; `--hypothesis-profile=free` lets them roam."""

from hypothesis import settings

settings.register_profile("fixed", derandomize=True, deadline=None)
settings.register_profile("free", deadline=None)
settings.load_profile("fixed")
