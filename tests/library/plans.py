"""Plans that the tests of libraries put into their folder."""

from pathlib import Path

RIGHT = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, F1, PB1, L1, PS.-\n"
WRONG = 'plan Gong "Strikes"\nsupply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nmotor M1 12 V stall 3 A\n'
WRONG += "rung PS.+, F1, PB1, M1, PS.-\n"
"""The gong's motor is left open when the button is let go."""


def write(name: str, text: str) -> Path:
    """A file of this text, its folder made where it isn't there."""
    path = Path(name)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path
