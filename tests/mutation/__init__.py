"""Whether tests notice: `python -m tests.mutation` changes one thing in the engine and runs the tests."""
