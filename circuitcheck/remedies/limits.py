"""A limit switch that works by closing, moved to the contact that opens."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Finding
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import Plan
from circuitcheck.remedies.mentions import Site, remarked, site_of
from circuitcheck.remedies.remedy import Edit, Remedy


def limit_remedies(plan: Plan, facts: Facts, finding: Finding) -> Iterator[Remedy]:
    """For each limit switch that the finding names: its wires moved from the normally open contact to the other."""
    limits = {limit.name for limit in facts.circuit.limits}
    for name in finding.parts:
        site = site_of(plan, name, facts.circuit.parts[name].place) if name in limits else None
        if site is None:
            continue
        marks = facts.circuit.parts[name].marks
        form = () if any(mark.startswith("nc") for mark in marks) else _other_form(site)
        edits = (*form, *remarked(site, _closed_at_rest))
        if edits and (form or any(mark.startswith("nc") for mark in marks)):
            yield Remedy(f"move {site.name} to its normally closed contact", ("moved", name), finding, edits)


def _closed_at_rest(mark: str) -> str:
    return f"nc{mark[2:]}" if mark[:2] == "no" else mark


def _other_form(site: Site) -> tuple[Edit, ...]:
    """The word `no` in the statement that describes this switch alone, made `nc`."""
    if len(site.part.names) > 1:
        return ()
    words: list[Place] = [one.place for one in site.part.attributes if one.keyword == "no"]
    return tuple(Edit(place, "nc") for place in words)
