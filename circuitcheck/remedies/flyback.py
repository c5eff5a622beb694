"""Suppression for a coil that has none, or has its diode the wrong way round."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.checks.check import Finding
from circuitcheck.circuit.model import Load, Suppressor
from circuitcheck.plan.syntax import Plan, Rung, Word
from circuitcheck.remedies.mentions import Site, free_name, last_place, mentions, remarked, site_of
from circuitcheck.remedies.remedy import Edit, Remedy, lines_after


def flyback_remedies(plan: Plan, facts: Facts, finding: Finding) -> Iterator[Remedy]:
    """For each coil of the part that the finding is about: a diode across it, or the one that is there turned round."""
    nets = joined_terminals(facts.circuit, frozenset({"wire"}))
    for number, load in enumerate(facts.circuit.loads):
        if load.part != finding.parts[0] or not load.inductive:
            continue
        ends = {nets[load.a], nets[load.b]}
        diodes = [
            one for one in facts.circuit.suppressors if {nets[one.a], nets[one.b]} == ends and one.kind == "diode"
        ]
        for diode in diodes:
            yield from _turned_round(plan, facts, finding, load, diode)
        if not diodes:
            yield from _added(plan, facts, finding, number)


def _added(plan: Plan, facts: Facts, finding: Finding, number: int) -> Iterator[Remedy]:
    """A diode with its cathode at the end that is fed positive; a varistor where either end may be."""
    load = facts.circuit.loads[number]
    site = site_of(plan, load.part, load.place)
    if site is None:
        return
    forward = any(facts.possible(fed.forward) for fed in facts.volts[number])
    backward = any(facts.possible(fed.backward) for fed in facts.volts[number])
    plus, minus = (load.a, load.b) if forward or not backward else (load.b, load.a)
    ends = [end.removeprefix(site.scope) for end in (plus, minus)]
    taken = frozenset(facts.circuit.parts)
    if forward and backward:
        name = free_name("V", site, taken)
        described = ("suppressor", f'{name} varistor "across {site.name}"')
        title = f"put a varistor {name} across {site.name}"
    else:
        name = free_name("D", site, taken)
        described = ("diode", f'{name} "across {site.name}"')
        title = f"put a diode {name} across {site.name}, its cathode at {ends[0]}"
    wired = ("rung", f"{ends[1]}, {name}, {ends[0]}")
    yield Remedy(title, ("across", load.name), finding, _described_and_wired(site, described, wired))


def _described_and_wired(site: Site, described: tuple[str, str], wired: tuple[str, str]) -> tuple[Edit, ...]:
    """The new part below the one that it belongs to, its rung below the last that wires that one."""
    above, below = site.part.place, last_place(site)
    if above == below:
        return (lines_after(site.source, above, (described, wired)),)
    return lines_after(site.source, above, (described,)), lines_after(site.source, below, (wired,))


def _turned_round(plan: Plan, facts: Facts, finding: Finding, load: Load, diode: Suppressor) -> Iterator[Remedy]:
    """A diode of its own is turned round; of a coil with one built in the two ends change places."""
    site = site_of(plan, diode.part, facts.circuit.parts[diode.part].place)
    if site is None:
        return
    if diode.built_in:
        one, other = (end.removeprefix(f"{load.part}.") for end in (load.a, load.b))
        swap = {one: other, other: one}
        edits = remarked(site, lambda mark: swap.get(mark, mark))
        title = f"change the wires to {one} and {other} of {site.name} over"
    else:
        edits = _other_way_round(site)
        title = f"turn {site.name} round"
    if edits:
        yield Remedy(title, ("round", diode.part, load.name), finding, edits)


def _other_way_round(site: Site) -> tuple[Edit, ...]:
    """Where all that is said of the diode is one rung from end to end, its ends are exchanged there; else its marks."""
    found = list(mentions(site))
    if len(found) == 1 and isinstance(found[0][0], Rung):
        first, middle, last = (*found[0][0].items, None, None)[:3]
        if len(found[0][0].items) == 3 and isinstance(first, Word) and isinstance(last, Word) and middle == found[0][1]:
            return Edit(first.place, last.text), Edit(last.place, first.text)
    turned = {"anode": "cathode", "cathode": "anode", "": "cathode-anode"}
    edits = remarked(site, lambda mark: turned.get(mark, mark))
    return tuple(edit._replace(text=site.name) if edit.text == f"{site.name}.anode-cathode" else edit for edit in edits)
