"""Random small plans for hypothesis: parts of every kind, each terminal soldered to one of a few junctions."""

from typing import NamedTuple

from hypothesis import strategies as st

from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.consistency import assert_consistent
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text


class Choice(NamedTuple):
    """A kind of part: its statement with {} for the name, its terminals' marks, how many states it multiplies."""

    prefix: str
    statement: str
    marks: str
    radix: int = 1


CONTROLS = (
    Choice("S", "switch {} spst positions off on", "com on", 2),
    Choice("S", "switch {} spdt positions raise lower", "com raise lower", 3),
    Choice("S", "switch {} spdt positions raise off lower", "com raise lower", 3),
    Choice("S", "switch {} spdt positions raise lower make-before-break", "com raise lower", 3),
    Choice("S", "switch {} 1 poles 3 ways positions low mid high", "com low mid high", 4),
    Choice("PB", "button {} no", "13 14", 2),
    Choice("PB", "button {} nc", "11 12", 2),
    Choice("PB", "button {} spdt", "11 12 14", 3),
    Choice("OUT", "outside {} contact", "1 2", 2),
    Choice("OUT", "outside {} sinking", "out com", 2),
    Choice("OUT", "outside {} sourcing", "out com", 2),
    Choice("S", "switch {} dpst positions off on key", "com1 on1 com2 on2", 2),
    Choice("S", "switch {} 2 poles 2 ways positions calm storm", "com1 calm1 storm1 com2 calm2 storm2", 3),
    Choice("S", "switch {} dpdt positions raise off lower momentary", "com1 raise1 lower1 com2 raise2 lower2", 4),
    Choice("PB", "button {} no nc", "13 14 21 22", 2),
    Choice("PB", "button {} dpdt", "11 12 14 21 22 24", 3),
    Choice("ES", "estop {} nc", "11 12", 2),
    Choice("ES", "estop {} spdt", "11 12 14", 3),
)
RELAYS = (
    Choice("K", "relay {} spdt coil 12 V 160 ohm", "A1 A2 11 12 14", 2),
    Choice("K", "relay {} no coil 12 V 160 ohm with diode", "A1 A2 13 14", 2),
    Choice("K", "relay {} nc coil 12 V 160 ohm operate 7 V release 3 V", "A1 A2 11 12", 2),
    Choice("K", "relay {} no coil 5 V 50 ohm with resistor 470 ohm", "A1 A2 13 14", 2),
    Choice("K", "relay {} spdt latching coil 12 V 160 ohm", "A1 A2 B1 B2 11 12 14", 2),
    Choice("K", "relay {} spdt on-delay 3 s coil 12 V 160 ohm", "A1 A2 15 16 18", 2),
    Choice("K", "relay {} no off-delay 3 s coil 12 V 160 ohm", "A1 A2 17 18", 2),
    Choice("K", "relay {} no pulse 2 s pause 1 s coil 12 V 160 ohm", "A1 A2 17 18", 3),
    Choice("K", "relay {} nc one-shot 3 s coil 12 V 160 ohm", "A1 A2 15 16", 3),
    Choice("K", "relay {} no off-delay 3 s controlled coil 12 V 160 ohm", "A1 A2 B1 17 18", 2),
    Choice("K", "relay {} nc one-shot 3 s controlled coil 12 V 160 ohm", "A1 A2 B1 15 16", 3),
    Choice("K", "relay {} no on-delay 3 s controlled coil 12 V 160 ohm", "A1 A2 B1 17 18", 2),
    Choice("K", "relay {} dpdt coil 12 V 160 ohm with diode", "A1 A2 11 12 14 21 22 24", 2),
    Choice("K", "relay {} spdt make-before-break coil 12 V 160 ohm", "A1 A2 11 12 14", 2),
    Choice("K", "relay {} no nc latching coil 12 V 160 ohm with diode", "A1 A2 B1 B2 13 14 21 22", 2),
    Choice("K", "relay {} spdt pulse 2 s pause 1 s controlled coil 12 V 160 ohm", "A1 A2 B1 15 16 18", 3),
    Choice("K", "relay {} no no on-delay 3 s coil 12 V 160 ohm with diode", "A1 A2 17 18 27 28", 2),
    Choice("K", "relay {} no coil 24 V 600 ohm", "A1 A2 13 14", 2),
)
PASSIVE = (
    Choice("D", "diode {}", "anode cathode"),
    Choice("F", "fuse {} 5 A", "1 2"),
    Choice("L", "lamp {} 12 V 2 W", "1 2"),
    Choice("L", "lamp {} 12 V 21 W", "1 2"),
    Choice("R", "resistor {} 100 ohm", "1 2"),
    Choice("BZ", "buzzer {} 12 V 0.02 A", "1 2"),
    Choice("M", "motor {} 12 V stall 10 A", "+ -"),
    Choice("M", "motor {} two-speed 12 V stall 10 A", "low high -"),
    Choice("V", "suppressor {} varistor 24 V", "1 2"),
    Choice("V", "suppressor {} rc", "1 2"),
    Choice("V", "suppressor {} diode", "anode cathode"),
    Choice("Y", "solenoid {} 12 V 12 ohm", "1 2"),
    Choice("J", "connector {} 2 ways", "p1 s1 p2 s2"),
    Choice("X", "strip {} 2 ways", "1 2"),
    Choice("M", "motor {} 12 V stall 10 A may coast", "+ -"),
    Choice("M", "motor {} two-speed 12 V stall 10 A case on -", "low high - case"),
)
MOVING = (
    Choice("M", "motor {} 12 V stall 10 A drives deck toward top", "+ -"),
    Choice("M", "motor {} 12 V stall 3 A drives deck toward bottom", "+ -"),
    Choice("LS", "limit {} spdt on deck at top", "com nc no"),
    Choice("LS", "limit {} nc on deck at bottom", "com nc"),
    Choice("M", "motor {} two-speed 12 V stall 10 A drives deck toward top", "low high -"),
    Choice("LS", "limit {} no nc on deck at top", "com1 no1 com2 nc2"),
)
IN_THE_MIDDLE = (
    Choice("LS", "limit {} spdt on deck at middle", "com nc no"),
    Choice("LS", "limit {} nc on deck from middle to top", "com nc"),
)
TURNING = (
    Choice("M", "motor {} 12 V stall 10 A drives wheel toward park", "+ -"),
    Choice("CS", "cam {} spdt on wheel at park", "com nc no"),
)
HALFWAY = (
    Choice("CS", "cam {} nc on wheel from park to half", "com nc"),
    Choice("CS", "cam {} no on wheel at half", "com no"),
)
SUPPLIES = (
    ("supply PS 12 V 10 A",),
    ("supply PS 12 V 10 A", "supply PS2 12 V 10 A"),
    ("supply PS 12 V 10 A", "supply PS2 5 V 2 A"),
)
AXES = (
    ("", (), 1),
    ("axis deck from bottom to top", MOVING, 5),
    ("axis wheel turning through park", TURNING, 2),
    ("axis deck from bottom via middle to top", (*MOVING, *IN_THE_MIDDLE), 7),
    ("axis deck from bottom via middle to top, springs back", (*MOVING, *IN_THE_MIDDLE), 7),
    ("axis wheel turning through park half", (*TURNING, *HALFWAY), 4),
)


TO_PLUS = ("com", "com1", "com2", "11", "13", "15", "17", "21", "27")
LEANING = dict.fromkeys(("A2", "B2", "-", "case"), "PS.-") | dict.fromkeys(TO_PLUS, "PS.+")
"""Where a terminal is usually soldered: else few relays would ever operate, and most plans were shorted."""


@st.composite
def plan_texts(draw: st.DrawFn, most_states: int = 64, most_parts: int = 7) -> str:
    """A plan with at most that many states and parts. Shrinks to few parts on few junctions."""
    supplies = draw(st.sampled_from(SUPPLIES))
    axes = [one for one in AXES if one[2] * 2 ** len(supplies) <= most_states]
    axis, on_axis, zones = draw(st.sampled_from(axes))
    menu = (*PASSIVE, *CONTROLS, *RELAYS, *on_axis, *on_axis)
    lines = [*supplies, "splice N1 N2 N3", *([axis] if axis else [])]
    junctions = ["PS.+", "PS.-", "N1", "N2", "PS.+", "PS.-", "N3"]
    room = most_states // 2 ** len(supplies) // zones
    if len(supplies) == 2:
        junctions += ["PS2.+", "PS2.-"]
        lines += draw(st.sampled_from(([], ["wire PS2.- PS.-"], ["wire PS2.- PS.-"], ["wire PS2.- PS.+"])))
    for number in range(draw(st.integers(1, most_parts))):
        choice = draw(st.sampled_from([one for one in menu if one.radix <= room]))
        room //= choice.radix
        name = f"{choice.prefix}{number + 1}"
        lines.append(choice.statement.format(name))
        for mark in choice.marks.split():
            usual = [LEANING[mark]] * 4 if mark in LEANING else ["N1", "N2"]
            lines.append(f"wire {name}.{mark} {draw(st.sampled_from([*usual, *junctions]))}")
    return "\n".join(lines)


FEEDS = (
    "switch ES spst positions off on\nrung PS.+, ES.com-on, BUS",
    "relay KM no coil 12 V 160 ohm\nbutton ON no\nrung PS.+, ON, KM.A1-A2, PS.-\nrung PS.+, KM.13-14, BUS",
    "estop ES nc\ndiode DB\nrung PS.+, ES, DB, BUS",
    "estop ES nc\nlamp LB 12 V 2 W\nrung PS.+, ES, BUS\nrung PS.+, LB, BUS",
    "estop ES spdt\nwire PS.+ ES.12\nwire ES.11 BUS\nwire ES.14 PS.-",
)
"""How the bus of a box is fed: by one contact, by a master relay, over a diode, past a lamp, or else discharged."""


@st.composite
def bus_plan_texts(draw: st.DrawFn, most_states: int = 96, most_branches: int = 3) -> str:
    """A plan whose branches hang on one fed bus; some part may join two of them, or a branch and the supply's +."""
    feed = draw(st.sampled_from(FEEDS))
    menu = (*PASSIVE, *CONTROLS[:7], *RELAYS[:5])
    lines = ["supply PS 12 V 10 A", "splice BUS", *feed.splitlines()]
    room = most_states // (4 if "KM" in feed else 2)
    branches = draw(st.integers(2, most_branches))
    lines += [f"splice N{number}" for number in range(branches)]
    for number in range(branches):
        for place in range(draw(st.integers(1, 3))):
            choice = draw(st.sampled_from([one for one in menu if one.radix <= room]))
            room //= choice.radix
            name = f"{choice.prefix}{number}{place}"
            lines.append(choice.statement.format(name))
            own = ["BUS", f"N{number}", "PS.-"] * 5
            for mark in choice.marks.split():
                anywhere = [*own, "PS.+", f"N{(number + 1) % branches}"]
                lines.append(f"wire {name}.{mark} {draw(st.sampled_from(anywhere))}")
    return "\n".join(lines)


def circuit_of(text: str) -> Circuit:
    """The circuit of a plan's text."""
    circuit = build_circuit(read_text("a.plan", text))
    assert_consistent(circuit)
    return circuit
