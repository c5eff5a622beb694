"""Texts that nobody would write, put through the whole tool: `python -m tests.fuzzing --help`."""
