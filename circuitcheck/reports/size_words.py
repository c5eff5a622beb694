"""How sizes are told: figures, verdicts, what is missing, what is taken for granted, which tables."""

from collections.abc import Iterable

from circuitcheck.reports.size_asking import Sizes
from circuitcheck.sizing.fuses import ADIABATIC
from circuitcheck.sizing.greatest import Greatest
from circuitcheck.sizing.sized import FITS, IDLE, NOT_DECLARED, TOO_LARGE, TOO_SMALL, Sized
from circuitcheck.sizing.wires import SizedWire

STYLES = {FITS: "good", IDLE: "quiet", NOT_DECLARED: "warning", TOO_SMALL: "error", TOO_LARGE: "error"}
"""How a verdict looks."""

NONE = "–"
"""Stands in a table for no current."""

SIZE_CAUTION = (
    "Tables give what wire and fuses may carry under the conditions named here, not under yours. Local electrical code "
    "and a qualified person decide."
)

NOT_COUNTED = (
    "Not counted: what a turning motor sends back through diodes or into a supply; wires between supplies in series; "
    "arcs beyond the rules named here. Of wires or contacts side by side each counts with the whole current. A closed "
    "box is warmer than the room: `ambient` is what the wires feel."
)

SHORTED = "Operation shorts a supply, which no size helps: `circuitcheck check` tells how. What flows then is left out."


def figure(value: float) -> str:
    """Three digits that count, three behind the point at most: "0.022", "5.09", "18", "1200"."""
    return f"{round(value, 3):.3g}" if abs(value) < 1000 else f"{value:.0f}"


def current(found: Greatest) -> str:
    """A current for a table; an upper bound is marked."""
    if not found.amount:
        return NONE
    return figure(found.amount) if found.exact else f"≤{figure(found.amount)}"


def with_unit(value: float | None, unit: str) -> str:
    """ "7.86 A", "?" where there is no figure."""
    return "?" if value is None else f"{figure(value)} {unit}"


def verdict_sentence(sizes: Sizes) -> str:
    """What came of it."""
    return f"{SHORTED} {_sizes_sentence(sizes)}" if sizes.sizing.shorts else _sizes_sentence(sizes)


def _sizes_sentence(sizes: Sizes) -> str:
    every = sizes.sizing.every
    amiss = sum(one.verdict in (TOO_SMALL, TOO_LARGE) for one in every)
    unknown = sum(one.verdict == NOT_DECLARED for one in every)
    undecided = f"{unknown} of {len(every)} can't be judged, since the plan doesn't say enough" if unknown else ""
    if amiss:
        be = "is" if amiss == 1 else "are"
        return f"{amiss} of {len(every)} {be} too small or too large{'; ' + undecided if undecided else ''}."
    return f"Nothing is too small or too large{', but ' + undecided if undecided else ''}."


def remarks_by_names(found: Iterable[Sized]) -> list[tuple[str, str]]:
    """(names, remarks) of those that have any; those with the same remarks together, at most six of them named."""
    names: dict[tuple[str, ...], list[str]] = {}
    for one in found:
        if one.remarks:
            names.setdefault(one.remarks, []).append(one.name)
    return [(some(listed), " ".join(remarks)) for remarks, listed in names.items()]


def missing(sizes: Sizes) -> list[str]:
    """What the plan would have to say, each with the parts that lack it."""
    wanting: dict[str, list[str]] = {}
    for one in sizes.sizing.every:
        if one.write:
            wanting.setdefault(one.write, []).append(one.name)
    return [f"{write}" if f" {names[0].split('.')[0]}" in write else f"{some(names)}: {write}"
            for write, names in wanting.items()]  # fmt: skip


def taken(sizes: Sizes) -> list[str]:
    """What stands in for what the plan doesn't say, and what to write instead."""
    found = []
    for one in sizes.sizing.assumptions:
        about = "" if one.part == "conditions" else f"{one.part}: "
        found.append(
            f"{about}{one.taken} ({one.source})." + (f" To change that, write {one.write}." if one.write else "")
        )
    return found


def tables_used(sizes: Sizes) -> list[str]:
    """Each table with its condition and the factors that were applied, and what fuses are judged by."""
    found: dict[str, None] = {}
    for wire in sizes.sizing.wires:
        if wire.capacity:
            found[f"{_gauges(wire)}: {table_words(wire)}."] = None
    for fuse in sizes.sizing.flows.fuses:
        memory = any(gate.source.certainty == "from memory" for gate in fuse.family.gates)
        found[f"{fuse.family.name} fuses: {fuse.family.standard}{', partly from memory' if memory else ''}."] = None
    if sizes.sizing.flows.fuses:
        found[
            f"Heat that a wire takes in a short: (k S)² with k = {ADIABATIC:g} for copper in PVC (IEC 60364-4-43, "
            "from memory)."
        ] = None
    return list(found)


def table_words(wire: SizedWire) -> str:
    """The table of a wire's ampacity, its condition, and the factors."""
    if wire.capacity is None:
        return ""
    factors = [f"× {factor.value:.3g} for {factor.why} ({factor.source})" for factor in wire.capacity.factors]
    return "; ".join([f"{wire.capacity.source} ({wire.capacity.condition})", *factors])


def some(names: list[str]) -> str:
    """At most six names, the others counted."""
    return ", ".join(names[:6]) + (f" and {len(names) - 6} more" if len(names) > 6 else "")


def _gauges(wire: SizedWire) -> str:
    gauge = wire.lying.gauge
    if gauge is None or wire.capacity is None:
        return ""
    if not wire.capacity.factors:
        return gauge.name
    return "AWG wires" if gauge.awg is not None else "mm² wires"
