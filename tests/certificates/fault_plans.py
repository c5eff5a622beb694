"""For each kind of fault that the published lists name a small plan whose requirement it breaks."""

from typing import Final

CUT_BY_A_RELAY = """
supply PS 12 V 10 A
{supply}
fuse   F1 5 A
fuse   F2 1 A
diode  D1 1 A 100 V
estop  ES1 no
connector J1 2 ways
relay  K1 nc coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, K1.11-12, M1, PS.-
rung   {plus}, F2, D1, J1.p1-s1, ES1, K1.A1-A2, PS.-
buzzer BZ1 BZ2 12 V 0.02 A
rung   F1.2, BZ1, ES1.13
rung   ES1.14, BZ2, PS.-
require ES1 works after one fault
"""
"""A drum that runs until its stop feeds a relay."""
CUT_IN_THE_MINUS = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc nc
switch S1 S2 spst positions off on
strip  X1 3 ways
connector J1 2 ways
motor  M1 12 V stall 5 A may coast
motor  M2 12 V stall 5 A case on - may coast
rung   PS.+, F1, M1, S1, X1.2, S2, ES1.11-12, X1.3, PS.-
rung   F1.2, J1.p1-s1, ES1.21-22, J1.s2-p2, M2.+
wire   M2.- PS.-
require ES1 works after one fault
"""
"""The wires to a stop and back are neighbours, and the frame is on −."""
CASE_IN_THE_PLUS = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc nc
motor  M1 two-speed 12 V stall 5 A may coast
motor  M2 12 V stall 5 A case on - may coast
rung   PS.+, F1, ES1.11-12, M1.high
wire   M1.- PS.-
wire   F1.2 M2.-
rung   M2.+, ES1.21-22, PS.-
require ES1 works after one fault
"""
"""The frame is on +, and one brush has no wire that could touch it."""
ACROSS_THE_STOP = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
{part}
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ES1, M1, PS.-
rung   ES1.11, {across}, ES1.12
require ES1 works after one fault
"""
"""Something that passes little, or nothing, shows that the stop is pressed."""
HELD_BY_A_RELAY = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
relay  K1 spdt coil 12 V 160 ohm with diode
buzzer BZ1 12 V 0.02 A
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ES1, K1.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, PS.-
rung   K1.12, BZ1, PS.-
require ES1 works after one fault
"""
"""Nothing but one contact stops the motor."""
WITHIN_ONE_LIMIT = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spst positions off raise
axis   deck from bottom to top
limit  TOP no nc on deck at top
buzzer BZ1 12 V 0.02 A
motor  M1 12 V stall 10 A drives deck toward top may coast
rung   PS.+, F1, S1, TOP.com2-nc2, M1, PS.-
rung   F1.2, TOP.com1-no1, BZ1, PS.-
require one fault never drives deck past top
"""
"""Its other contact only tells that it is pressed."""
CUT_BY_A_LIMIT = """
supply PS 12 V 10 A
fuse   F1 5 A
axis   deck from bottom to top
limit  TOP no nc on deck at top
buzzer BZ1 12 V 0.02 A
relay  K1 nc coil 12 V 160 ohm with diode
motor  M1 12 V stall 10 A drives deck toward top may coast
rung   PS.+, F1, TOP.com1-no1, K1.A1-A2, PS.-
rung   F1.2, TOP.com2-nc2, BZ1, PS.-
rung   F1.2, K1.11-12, M1, PS.-
require one fault never drives deck past top
"""
LIMITS_IN_EITHER_LEG = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 dpdt positions raise off lower
axis   deck from bottom to top
limit  TOP TOP2 spdt on deck at top
limit  LOW spdt on deck at bottom
motor  M1 12 V stall 10 A drives deck toward top may coast
rung   PS.+, F1, S1.com1
rung   S1.raise1, TOP.com-nc, M1, TOP2.com-nc, S1.raise2
rung   S1.lower1, LOW.com-nc, M1.-
rung   S1.lower2, M1.+
wire   S1.com2 PS.-
require one fault never drives deck past top
"""
PAST_THE_STOP = """
supply PS 12 V 10 A
estop  ES1 nc
button PB1 no
motor  M1 12 V stall 5 A may coast
rung   PS.+, ( ES1 | PB1 ), M1, PS.-
require ES1 works after one fault
"""
BESIDE_THE_MOTOR = """
supply PS 12 V 10 A
estop  ES1 nc
resistor R1 5 ohm
{part}
motor  M1 12 V stall 5 A may coast
rung   PS.+, R1, M1, PS.-
rung   M1.+, {beside}, M1.-
require ES1 works after one fault
"""
"""What takes nearly all of the current keeps the motor from turning."""

BROKEN_BY: Final = {
    **dict.fromkeys(
        (
            "wire open",
            "pin open",
            "contact does not close",
            "relay stuck released",
            "coil open",
            "diode open",
            "fuse blown",
        ),
        CUT_BY_A_RELAY.format(supply="", plus="PS.+"),
    ),
    "supply lost": CUT_BY_A_RELAY.format(supply="supply P2 12 V 1 A\nwire P2.- PS.-", plus="P2.+"),
    **dict.fromkeys(("wire to frame", "terminals touching", "pins touching"), CUT_IN_THE_MINUS),
    "brush to case": CASE_IN_THE_PLUS,
    **dict.fromkeys(("contact does not open", "both throws closed", "relay stuck operated"), HELD_BY_A_RELAY),
    "coil shorted": ACROSS_THE_STOP.format(part="relay K1 no coil 12 V 160 ohm", across="K1.A1-A2"),
    "diode shorted": ACROSS_THE_STOP.format(part="diode D1 5 A 100 V", across="D1.cathode-anode"),
    "suppressor shorted": ACROSS_THE_STOP.format(part="suppressor V1 varistor 24 V", across="V1"),
    "load shorted": ACROSS_THE_STOP.format(part="buzzer BZ1 12 V 0.02 A", across="BZ1"),
    "motor shorted": ACROSS_THE_STOP.format(part="motor M2 60 V stall 1 A may coast", across="M2"),
    **dict.fromkeys(("limit stuck", "limit moved"), WITHIN_ONE_LIMIT),
    "limit torn off": CUT_BY_A_LIMIT,
    "supply reversed": LIMITS_IN_EITHER_LEG,
    "switch stuck": PAST_THE_STOP,
    "load open": BESIDE_THE_MOTOR.format(part="resistor R2 0.3 ohm", beside="R2"),
    "motor open": BESIDE_THE_MOTOR.format(part="motor M2 12 V stall 40 A may coast", beside="M2"),
}
"""By the kind of fault. Only a suppressor that is open breaks none, as it changes no state."""

BEHIND_ONE_RELAY = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc nc nc
button START no no
relay  K1 K2 K3 no no coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ES1.11-12, K3.A1-A2, PS.-
rung   F1.2, ES1.21-22, START.13-14, K1.A1-A2, PS.-
rung   F1.2, ES1.31-32, START.23-24, K2.A1-A2, PS.-
rung   F1.2, K3.13-14, K1.23-24, K1.A1
rung   F1.2, K3.23-24, K2.23-24, K2.A1
rung   F1.2, K1.13-14, K2.13-14, M1, PS.-
require ES1 works after one fault
"""
"""Only K3, which has no part in what drives the motor, may keep it going."""
GOES_ROUND = """
supply PS 12 V 10 A
fuse   F1 5 A
estop  ES1 nc
suppressor V1 varistor 24 V
{more}
relay  K1 3pdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A may coast
rung   PS.+, F1, ES1, K1.12-11, {coil}, PS.-
rung   ES1.11, V1, ES1.12
rung   F1.2, K1.24-21, M1, PS.-
require ES1 works after one fault
"""
"""Once the varistor is shorted, the relay breaks its own coil for ever."""
TWO_RELAYS = """
supply PS 12 V 10 A
supply P2 24 V 10 A
fuse   F1 5 A
estop  ES1 nc nc
button START no
relay  K1 K2 dpdt coil 24 V 600 ohm with diode
motor  M1 12 V stall 5 A case on -
buzzer BZ1 24 V 0.02 A
wire   P2.- PS.-
rung   P2.+, ES1.11-12, ( START | K1.11-14 ), K1.A1-A2, PS.-
rung   P2.+, ES1.21-22, K2.A1-A2, PS.-
rung   PS.+, F1, K1.24-21, K2.24-21, M1.+
wire   M1.- PS.-
wire   K2.22 PS.-
rung   K2.A1, BZ1, PS.-
require ES1 works after one fault
"""
"""One behind each contact of the stop; the motor's supply is another one."""
