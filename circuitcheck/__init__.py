"""circuitcheck proves what a hand-wired control box for a moving prop does in every combination of its contacts."""

# A constant, because asking the installed package's metadata costs more than reading a usual plan.
__version__ = "0.1.0"
