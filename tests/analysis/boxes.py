"""Random boxes for hypothesis: an emergency stop, two relays, a motor on an axis with limits."""

from hypothesis import strategies as st

BOX = """
supply PS 12 V 10 A
estop ES1 nc
{control}
{axis}
limit LS1 LS2 spdt on deck at {first}
limit LS3 spdt on deck at {second}
relay K1 dpdt {function} coil 12 V 160 ohm
relay K2 dpdt coil 12 V 160 ohm
motor M1 12 V stall 5 A drives deck toward {second}
wire PS.+ ES1.11
rung {first_feed}, {first_path}, K1.A1-A2, PS.-
rung {second_feed}, {second_path}, K2.A1-A2, PS.-
rung {motor_feed}, K1.14-11, M1, K2.11-14, {motor_feed}
wire PS.- K2.12
{brake}
"""
FEEDS = st.sampled_from(("PS.+", "ES1.12"))
AXES = (
    ("axis deck from bottom to top, springs back", "bottom", "top"),
    ("axis deck from bottom to top", "bottom", "top"),
    ("axis deck turning through park half, springs back", "park", "half"),
)
PATHS = ("C1", "LS1.com-nc", "LS3.com-nc", "LS2.com-no", "K1.21-24", "K2.21-24", "K1.21-22", "K2.21-22")


@st.composite
def boxes(draw: st.DrawFn) -> str:
    """A motor on an axis between two relays, whose coils are fed over whatever contacts there are."""
    axis, first, second = draw(st.sampled_from(AXES))
    timed = draw(st.sampled_from(("", "", "off-delay 2 s", "on-delay 2 s", "pulse 1 s pause 2 s")))
    text = BOX.format(
        control=draw(st.sampled_from(("button C1 no", "switch C1 spst positions off on"))),
        axis=axis, first=first, second=second, function=timed,
        first_feed=draw(FEEDS), second_feed=draw(FEEDS), motor_feed=draw(FEEDS),
        first_path=draw(paths()), second_path=draw(paths()),
        brake=draw(st.sampled_from(("wire K1.12 PS.-", ""))),
    )  # fmt: skip
    if not timed:
        return text
    marks = {"K1.11": "K1.15", "K1.12": "K1.16", "K1.14-11": "K1.18-15", "K1.21-24": "K1.25-28", "K1.21-22": "K1.25-26"}
    for plain, late in marks.items():
        text = text.replace(plain, late)
    return text


@st.composite
def paths(draw: st.DrawFn) -> str:
    """One or two contacts in series, perhaps with one in parallel to the first."""
    first, *others = draw(st.lists(st.sampled_from(PATHS), min_size=1, max_size=3, unique=True))
    if len(others) > 1:
        first, others = f"( {first} | {others[0]} )", others[1:]
    return ", ".join([first, *others])
