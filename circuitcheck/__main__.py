"""`python -m circuitcheck` is the command circuitcheck."""

import sys

from circuitcheck.cli import main

sys.exit(main())
