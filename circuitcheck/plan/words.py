"""The words that statements begin with, each with a statement as it is written."""

PROMISES = ("expect", "never", "always", "after", "require")
"""The words that a promise begins with."""

_NO_PARTS = (
    *("plan", "use", "type", "axis", "conditions", "wire", "rung", "module", "port", "end", "fit", "accept"),
    *PROMISES,
)

EXAMPLES = {
    "plan": 'plan Drawbridge "Raises and lowers the deck"',
    "use": 'use "parts/relays.plan"',
    "type": "type cube12 relay spdt coil 12 V 90 ohm",
    "supply": "supply PS 12 V 10 A",
    "fuse": "fuse F1 7.5 A",
    "switch": "switch S1 spdt positions raise lower",
    "button": "button PB1 no",
    "estop": "estop ES1 nc",
    "relay": 'relay K1 dpdt coil 12 V 160 ohm "run"',
    "diode": "diode D1 D2",
    "suppressor": "suppressor V1 varistor",
    "resistor": "resistor R1 680 ohm",
    "lamp": "lamp L1 12 V 2 W",
    "buzzer": "buzzer BZ1 12 V 0.02 A",
    "solenoid": "solenoid Y1 12 V 12 ohm",
    "motor": "motor M1 12 V stall 18 A free 1.5 A 40 rpm drives deck toward top",
    "axis": "axis deck from bottom to top, 70 deg",
    "limit": "limit LS1 spdt on deck at top",
    "cam": "cam CS1 spdt on wheel at park",
    "connector": "connector J1 4 ways",
    "strip": "strip X1 6 ways",
    "splice": "splice N1 N2",
    "outside": "outside OUT1 contact",
    "conditions": "conditions ambient 5..35 °C, insulation 105 °C, bundled 6 wires, wire 1 mm2 0.5 m",
    "wire": "wire PS.+ F1.1 : 1.5 mm2 red 0.4 m",
    "rung": "rung F1.2, S1.com-raise, K1.A1-A2, PS.-",
    "module": "module Reverser",
    "port": "port plus minus a b",
    "end": "end",
    "fit": "fit R1 Reverser : plus F1.2, minus PS.-",
    "expect": "expect M1 braked when PS off",
    "never": "never M1 driven when ES1 pressed",
    "always": "always L1 lit when M1 driven",
    "after": "after ES1 pressed within 1 s M1 stopped",
    "accept": 'accept unbraked-stop on M2 because "a fan may run on"',
    "require": "require one fault never drives deck past top",
}

KINDS = tuple(word for word in EXAMPLES if word not in _NO_PARTS)
"""The kinds of part that a plan or a type describes."""

# "use" and the like begin with the sound of y.
_WITH_AN = "aeio"


def named(word: str) -> str:
    """A statement by its first word: "a relay", "an axis", "a promise"."""
    if word == "conditions":
        return word
    noun = "promise" if word in PROMISES else {"plan": "title", "accept": "acceptance"}.get(word, word)
    return f"{'an' if noun[0] in _WITH_AN else 'a'} {noun}"
