"""How the lists of a build book are worded: for whoever solders and tests."""

from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import listed
from circuitcheck.paper.crowding import Crowd
from circuitcheck.paper.fuse_card import FuseLine
from circuitcheck.paper.joints import WireFacts
from circuitcheck.paper.parts_list import Item
from circuitcheck.paper.strips import Strip
from circuitcheck.paper.wire_list import INSIDE, LINKS, OUTWARD, PANEL, SUPPLY, End, Line, Step, WireList
from circuitcheck.reports.size_words import figure
from circuitcheck.sizing.sized import FITS

STEPS: Final = {
    LINKS: "links from a part to itself, which lie closest",
    INSIDE: "between the parts that sit deepest: relays, diodes, joints",
    PANEL: "up to the panel: fuses, switches, buttons, lamps",
    OUTWARD: "what leads out: strips, connectors, limits, motors",
    SUPPLY: "the supply, last of all",
}
MOST_SPLICED: Final = 5
"""Splices with levers take up to five wires (common practice, no source)."""
UNKNOWN: Final = "?"
"""Stands where the plan doesn't tell a colour, a gauge or a length."""


class Titled(NamedTuple):
    """A step of the wire list with its heading. area: said at an area's first step, where there are several."""

    area: str
    title: str
    lines: tuple[Line, ...]


def titled_steps(circuit: Circuit, wires: WireList) -> list[Titled]:
    """The steps, numbered through."""
    found, before = [], -1
    for number, step in enumerate(wires.steps, 1):
        new = len(wires.areas) > 1 and step.area != before
        found.append(
            Titled(area_words(circuit, wires, step) if new else "", f"{number}. {step_words(step)}", step.lines)
        )
        before = step.area
    return found


def step_words(step: Step) -> str:
    """ "Between the parts that sit deepest: …"."""
    return STEPS[step.number][:1].upper() + STEPS[step.number][1:]


def area_words(circuit: Circuit, wires: WireList, step: Step) -> str:
    """ "Area 1, with the plug of J1: PS, F1, S1, K1"."""
    area = wires.areas[step.area]
    halves = [f"the {'plug' if half == 'p' else 'socket'} of {name}" for name, half in area.sides]
    connected = f", with {listed(halves, 'and')}" if halves else ""
    names = [name for name in area.parts if circuit.parts[name].kind != "port"]
    return f"Area {step.area + 1}{connected}: {', '.join(names)}"


def end_words(end: End) -> str:
    """What to do at a wire's end where others meet it; "" where it is the only one."""
    if end.of == 1:
        return ""
    return f"{end.place} of {end.of}: {'solder' if end.solder else 'hook in'}"


def wire_words(wire: WireFacts, here: str) -> str:
    """ "w3 to K1.14, red"."""
    return f"{wire.number} to {wire.far_from(here)}" + (f", {wire.colour}" if wire.colour else "")


def metres(length: float) -> str:
    """To the centimetre."""
    return f"{length:.2f} m" if length else UNKNOWN


def crowd_words(crowd: Crowd) -> str:
    """What to do about too many wires in one terminal."""
    count = len(crowd.wires)
    joint = f"a splice for {count + 1} wires" if count < MOST_SPLICED else f"{count + 1} bridged ways of a strip"
    said = (
        f"{count} wires would end at one terminal, {', '.join(wire.number for wire in crowd.wires)}. Join them in "
        f"{joint} and lead one wire from there to {crowd.terminal}; in the plan that is: splice {crowd.splice}, wire "
        f"{crowd.splice} {crowd.terminal}, and {crowd.splice} for {crowd.terminal} in those wires."
    )
    if crowd.detours:
        ways = [f"{one.wire.number} at {one.over}" for one in crowd.detours]
        said += (
            f" Or end {listed(ways, 'and')} instead of there. Some wires then carry more: let circuitcheck size look "
            "at the changed plan."
        )
    return said


def strip_title(strip: Strip) -> str:
    """ "Terminal strip X1 (inside the deck)"."""
    noun = {"strip": "Terminal strip", "splice": "Splice", "port": "Joint"}[strip.part.kind]
    return f"{noun} {strip.part.name}" + (f" ({strip.part.label})" if strip.part.label else "")


def item_names(item: Item) -> str:
    """ "K1 (run), K2"."""
    named = zip(item.names, item.labels, strict=True)
    return ", ".join(f"{name} ({label})" if label else name for name, label in named)


def item_remark(item: Item) -> str:
    """What a part must stand where the plan gives no rating that does."""
    return f"must carry {figure(item.must_carry)} A or more" if item.must_carry else ""


def feeds_words(circuit: Circuit, fuse: FuseLine) -> str:
    """ "M1, K1 (run)"; nothing where it isn't known that anything flows through it."""
    named = (f"{name} ({label})" if (label := circuit.parts[name].label) else name for name in fuse.feeds)
    return ", ".join(named) or UNKNOWN


def replacement_words(fuse: FuseLine) -> str:
    """What may be put in when it has blown."""
    kind = fuse.kind.replace("cartridge slow", "cartridge, slow (T)").replace("cartridge fast", "cartridge, fast (F)")
    return f"{fuse.amps:g} A {kind} ({fuse.standard}), nothing else"


def fuse_verdict(fuse: FuseLine) -> str:
    """What to know of it before it goes on the lid; "" for one that fits."""
    if fuse.verdict == FITS:
        return ""
    lead = {"too large": "Too large for its wires", "too small": "Too small for what it feeds"}
    found = lead.get(fuse.verdict, "Not known whether it fits")
    return f"{found}: let circuitcheck size look at the plan before the box is used."
