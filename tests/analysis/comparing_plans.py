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
