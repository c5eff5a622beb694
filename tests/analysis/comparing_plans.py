"""Random plans with a change: one that changes nothing, or one that may change anything."""

from hypothesis import strategies as st

from tests.analysis.plans import plan_texts

JUNCTIONS = ("PS.+", "PS.-", "N1", "N2", "N3")


@st.composite
def changed_plans(draw: st.DrawFn) -> tuple[str, str]:
    """A plan, and the same with one wire led elsewhere or left out, two wires exchanged, or timers of another kind."""
    text = draw(plan_texts(most_states=32, most_parts=6))
    lines = text.splitlines()
    wires = [number for number, line in enumerate(lines) if line.startswith("wire") and not line.startswith("wire PS")]
    number = draw(st.sampled_from(wires))
    change = draw(st.sampled_from(("lead", "drop", "swap", "delay")))
    _, end, junction = lines[number].split()
    if change == "lead":
        lines[number] = f"wire {end} {draw(st.sampled_from(JUNCTIONS))}"
    elif change == "drop":
        lines[number] = ""
    elif change == "delay":
        lines = [line.replace(" on-delay", " off-delay") for line in lines]
    else:
        other = draw(st.sampled_from(wires))
        its = lines[other].split()
        lines[number], lines[other] = f"wire {end} {its[2]}", f"wire {its[1]} {junction}"
    return text, "\n".join(lines)


def renamed(text: str) -> str:
    """The plan with every part, axis and splice under another name, and its statements in another order."""
    names = {word for line in text.splitlines() for word in line.split()[1:2] if not line.startswith(("wire", "rung"))}
    names |= {"N1", "N2", "N3"} if "splice" in text else set()

    def word(text: str) -> str:
        part, dot, mark = text.partition(".")
        return f"X{part}{dot}{mark}" if part in names else text

    lines = [" ".join(map(word, line.split())) for line in text.splitlines()]
    parts = [line for line in lines if not line.startswith("wire")]
    wires = [line for line in lines if line.startswith("wire")]
    return "\n".join([*reversed(wires), *sorted(parts, key=lambda line: not line.startswith("axis"))])


CONTACTS = ("PB1", "PB2", "K1.13-14", "K1.21-22", "K2.13-14", "K2.21-22")
LOADS = ("K1.A1-A2", "K2.A1-A2", "L1")
HEAD = """\
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
button PB2 nc
relay  K1 no nc {} coil 12 V 160 ohm
relay  K2 no nc coil 12 V 160 ohm
lamp   L1 12 V 2 W
"""


@st.composite
def changed_logic(draw: st.DrawFn) -> tuple[str, str]:
    """Relays that feed each other and themselves, and the same with one contact exchanged for another."""
    contact = st.sampled_from(CONTACTS)
    either = st.tuples(contact, contact).map(lambda pair: f"( {pair[0]} | {pair[1]} )")
    rungs = [draw(st.lists(contact | either, min_size=1, max_size=2)) for _ in LOADS]
    head = HEAD.format(draw(st.sampled_from(("", "", "on-delay 3 s", "off-delay 3 s"))))
    timed = "delay" in head
    before = head + written(rungs, timed)
    changed = draw(st.integers(0, len(LOADS) - 1))
    rungs[changed][draw(st.integers(0, len(rungs[changed]) - 1))] = draw(contact)
    return before, head + written(rungs, timed)


def written(rungs: list[list[str]], timed: bool) -> str:
    """A rung for each load. A timing relay's contacts have marks of their own (EN 50005)."""
    told = (f"rung PS.+, F1, {', '.join(rung)}, {load}, PS.-\n" for rung, load in zip(rungs, LOADS, strict=True))
    text = "".join(told)
    return text.replace("K1.13-14", "K1.17-18").replace("K1.21-22", "K1.25-26") if timed else text
