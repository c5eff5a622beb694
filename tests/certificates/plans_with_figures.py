"""Random plans that tell of resistances and warmth, or how motors run and stop."""

import re

from hypothesis import strategies as st

from tests.analysis.plans import bus_plan_texts, plan_texts


@st.composite
def plans_with_ohms(draw: st.DrawFn) -> str:
    """A random plan whose wires, contacts and supplies take volts, and whose coils are warm."""
    text = draw(plan_texts() | bus_plan_texts())
    inside, contacts = draw(st.sampled_from((0, 20, 200, 1000))), draw(st.sampled_from((1, 50, 2000)))
    operate, warm = draw(st.sampled_from((7.0, 9.5, 11.0, 11.9, 12.0))), draw(st.sampled_from((20, 30, 60)))
    metres = draw(st.sampled_from((0.1, 1, 10, 40)))
    text = re.sub(r"(supply .*)", rf"\1 internal {inside} mohm" if inside else r"\1", text)
    text = re.sub(r"coil 12 V 160 ohm(?! operate)", rf"coil 12 V 160 ohm operate {operate} V", text)
    text = re.sub(r"((?:switch|button|estop) .*)", rf"\1 {contacts} mohm", text)
    return f"conditions ambient 5..{warm} °C, wire {draw(st.sampled_from((0.05, 0.5, 2.5)))} mm2 {metres} m\n{text}"


DECK = """
conditions ambient 5..35 °C, wire 1 mm2 {metres} m
supply PS 12 V 20 A internal {inside} mohm
fuse   F1 15 A
switch S1 spdt positions raise off lower
relay  K1 K2 spdt coil 12 V 160 ohm {times}
relay  K3 K4 no coil 12 V 160 ohm with diode
axis   deck from {places}, {load}
limit  TOP nc on deck at top
limit  LOW nc on deck at bottom
motor  M1 12 V {motor} may coast drives deck toward top
{wiring}
"""
WIRINGS = (
    """
rung   PS.+, F1, S1.com
rung   S1.raise, TOP, K1.A1-A2, PS.-
rung   S1.lower, LOW, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
wire   K1.12 PS.-
wire   K2.12 PS.-
rung   PS.+, K3.A1-A2, PS.-
rung   PS.+, K4.A1-A2, PS.-
""",
    """
rung   PS.+, F1, S1.com
rung   S1.raise, TOP, K3.A1-A2, PS.-
rung   S1.lower, LOW, K4.A1-A2, PS.-
rung   F1.2, K3.13-14, K1.A1-A2, PS.-
rung   F1.2, K4.13-14, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
wire   K1.12 PS.-
wire   K2.12 PS.-
""",
    """
rung   PS.+, F1, S1.com
rung   S1.raise, TOP, K1.A1-A2, PS.-
rung   S1.lower, LOW, K2.A1-A2, PS.-
rung   K1.14, K3.13-14, F1.2
rung   TOP.nc, K3.A1-A2, PS.-
rung   F1.2, K2.14
rung   K1.11, M1, K2.11
wire   K2.12 PS.-
rung   LOW.nc, K4.A1-A2, PS.-
wire   K1.12 PS.-
""",
    """
rung   PS.+, F1, S1.com
rung   S1.raise, TOP, K1.A1-A2, PS.-
rung   S1.lower, LOW, K2.A1-A2, PS.-
rung   F1.2, K1.11-14, M1, PS.-
rung   PS.+, K3.A1-A2, PS.-
rung   K4.A1-A2, PS.-
""",
)
"""A limit that lets its relay go, one that lets it go by way of another, one that cuts the feed besides, and a motor
that only rises and is left open."""
TIMES = ("", "operate 5..10 ms release 2..4 ms", "release 2..30 ms", "operate 10..40 ms release 3..5 ms with diode")
MOTORS = (
    "stall 18 A free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1",
    "stall 12..20 A free 1..3 A 30..50 rpm rotor 300..900 g cm2 gear 60:1",
    "stall 10 A free 40 rpm coasts 90..110 deg brakes in 4..6 deg",
    "stall 10 A free 30..60 rpm brakes in 9 deg",
    "stall 10 A free 20 rpm coasts 70 deg",
    "stall 18 A free 1.5 A 40 rpm rotor 900 g cm2 gear 60:1 brakes in 5 deg",
)
ROOMS = (4, 7, 10, 14, 20, 30, 45, 90, 120, 300)
LOADS = (
    "inertia 0.3 kg m2",
    "inertia 0.02..0.4 kg m2, gravity 1 N m",
    "inertia 0.4 kg m2, friction 0.2..0.5 N m, gravity 0.3..6 N m",
)


@st.composite
def plans_with_figures(draw: st.DrawFn) -> str:
    """A deck of which figures of its motor and its room are told."""
    room, wiring, motor = draw(st.sampled_from(ROOMS)), draw(st.sampled_from(WIRINGS)), draw(st.sampled_from(MOTORS))
    brush = draw(st.sampled_from(("", ".low--", ".high--")))
    return DECK.format(
        metres=draw(st.sampled_from((0.1, 2))),
        inside=draw(st.sampled_from((10, 200))),
        times=draw(st.sampled_from(TIMES)),
        places=draw(st.sampled_from(("bottom to top", "bottom via half to top"))),
        load=f"{draw(st.sampled_from(LOADS))}, overtravel {room} deg",
        motor=f"two-speed {motor}" if brush else motor,
        wiring=wiring.replace("M1,", f"M1{brush},"),
    )
