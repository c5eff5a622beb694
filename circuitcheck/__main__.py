"""`python -m circuitcheck` is the command circuitcheck."""

import sys

from circuitcheck.cli import main

# Processes that examine plans load this file too, under another name.
if __name__ == "__main__":
    sys.exit(main())
