"""The arithmetic of one wire, line by line."""

import json
from collections.abc import Iterator

from circuitcheck.checks.narration import state_words
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.size_asking import Sizes
from circuitcheck.reports.size_words import SIZE_CAUTION, STYLES, figure
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, prose
from circuitcheck.sizing.greatest import Greatest
from circuitcheck.sizing.sized import NOT_DECLARED, TOO_SMALL
from circuitcheck.sizing.wires import SizedWire

Step = tuple[str, str]
"""A label, the same for several steps of one kind, and a sentence of arithmetic."""


def explained_lines(sizes: Sizes, wire: SizedWire, width: int) -> list[Line]:
    """The wire's verdict, then how it came about."""
    head = prose(f"{sizes.name}, wire {wire.sized.name}", width, "name")
    lines: list[Line] = [*head, (Span(wire.sized.verdict, STYLES[wire.sized.verdict]),), EMPTY]
    before = ""
    for label, sentence in explained_steps(sizes, wire):
        lines += labelled("" if label == before else label, sentence.split(), width, margin=12)
        before = label
    return [*lines, EMPTY, *prose(f"{SIZE_CAUTION} {CAUTION}", width, "quiet")]


def explained_json(sizes: Sizes, wire: SizedWire) -> str:
    """The same for other programs. Signs outside ASCII are escaped, so that any encoding carries it."""
    steps = [{"about": label, "what": sentence} for label, sentence in explained_steps(sizes, wire)]
    report = {
        "schema": SCHEMA,
        "file": sizes.file,
        "plan": sizes.name,
        "wire": wire.sized.name,
        "verdict": wire.sized.verdict,
        "steps": steps,
    }
    return json.dumps(report, indent=2) + "\n"


def explained_steps(sizes: Sizes, wire: SizedWire) -> list[Step]:
    """Everything that a wire's verdict rests on, in order."""
    steps = [("made as", _made(wire))]
    for label, found in wire.sized.currents._asdict().items():
        steps += [(label, sentence) for sentence in _current(sizes, label, found)]
    steps += [("needs", sentence) for sentence in _needs(sizes, wire)]
    steps += [("may carry", sentence) for sentence in _may_carry(wire)]
    steps += [("margin", sentence) for sentence in _margin(wire)]
    steps += [("drop", sentence) for sentence in _drop(sizes, wire)]
    steps += [("remark", remark) for remark in wire.sized.remarks]
    return steps + ([("write", wire.sized.write)] if wire.sized.write else [])


def _made(wire: SizedWire) -> str:
    said = [wire.sized.made or "no gauge", f"{wire.lying.metres:g} m" if wire.lying.metres else "no length"]
    return ", ".join([*said, wire.lying.info.colour] if wire.lying.info.colour else said)


def _current(sizes: Sizes, label: str, found: Greatest) -> Iterator[str]:
    if not found.amount:
        yield "nothing, in any state that operation reaches"
        return
    where = state_words(sizes.sizing.circuit, found.state) if found.state is not None else ""
    yield f"{figure(found.amount)} A with {where}" if found.exact else f"at most {figure(found.amount)} A, all together"
    if found.limit:
        yield f"cut to {figure(found.limit)} A, where the supply limits, from:"
    for part in found.parts:
        yield f"{figure(part.amount)} A for {_load_words(sizes, part.load, part.amount, label)}"


def _load_words(sizes: Sizes, number: int, amps: float, label: str) -> str:
    """A load, and where its current comes from."""
    load, draw = sizes.sizing.circuit.loads[number], sizes.sizing.flows.draws.of[number]
    if load.kind == "motor" and label != "starting" and amps == draw.running:
        assumed = (one.taken for one in sizes.sizing.assumptions if one.part == load.part and "it runs" in one.taken)
        return f"{load.name} ({next(assumed, 'free current, and its share of what the stall current is more')})"
    volts = load.volts or amps * load.ohms
    ohmic = f"{figure(volts)} V / {figure(load.ohms)} ohm"
    times = amps * load.ohms / volts
    return f"{load.name} ({ohmic}{f' × {times:.3g}' if abs(times - 1) > 0.001 else ''})"


def _needs(sizes: Sizes, wire: SizedWire) -> Iterator[str]:
    flows, conductor, currents = sizes.sizing.flows, wire.lying.info.conductor, wire.sized.currents
    along = flows.fuses_along(conductor)
    if not along and wire.sized.needs < currents.lasting:
        yield "its loads have fuses of their own, so one held fast counts with what its fuse lets through"
    for fuse in along:
        sure = fuse.family.sure
        where = "before it" if fuse in flows.fuses_before(conductor) else "further on"
        yield (
            f"{fuse.name}, {fuse.amps:g} A {fuse.family.name}, stands {where}: sure to open at {sure.percent:g} % "
            f"within {sure.most:g} s ({sure.source}), so at most {figure(fuse.guards)} A of an overload count"
        )
    overload = f", of {figure(currents.lasting)} A that may last" if currents.lasting > currents.running.amount else ""
    yield f"{figure(wire.sized.needs)} A for long{overload}"


def _may_carry(wire: SizedWire) -> Iterator[str]:
    if wire.capacity is None:
        yield "not known"
        return
    yield f"{figure(wire.capacity.row_amps)} A: {wire.capacity.source}, {wire.capacity.condition}"
    for factor in wire.capacity.factors:
        yield f"× {factor.value:.3g}: {factor.why} ({factor.source})"
    yield f"= {figure(wire.capacity.amps)} A"


def _margin(wire: SizedWire) -> Iterator[str]:
    can, needs = wire.sized.can, wire.sized.needs
    if can is None or wire.sized.verdict == NOT_DECLARED or not needs:
        return
    spare = abs(can - needs)
    words = "too little" if wire.sized.verdict == TOO_SMALL else "to spare"
    yield f"{figure(spare)} A {words}: {100 * needs / can:.0f} % of what it may carry"


def _drop(sizes: Sizes, wire: SizedWire) -> Iterator[str]:
    lying, currents = wire.lying, wire.sized.currents
    if lying.gauge is None or not lying.metres:
        yield "not known without gauge and length"
        return
    ohms = lying.gauge.ohms(lying.metres, lying.hottest)
    volts = sizes.sizing.flows.volts(lying.info.conductor)
    yield (
        f"{1000 * lying.gauge.ohms_per_metre:.4g} ohm/km ({lying.gauge.source}) · {lying.metres:g} m, at "
        f"{lying.hottest:g} °C (IEC 60028: 0.393 %/K) = {1000 * ohms:.3g} mohm"
    )
    for words, found in (("running", currents.running), ("stalled", currents.stalled)):
        if found.amount and volts:
            drop = ohms * found.amount
            yield f"{words} {drop:.3g} V, {100 * drop / volts:.2g} % of {volts:g} V"
