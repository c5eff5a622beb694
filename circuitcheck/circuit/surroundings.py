"""The plan's `conditions`: what the prop works in, and what holds for wires that say nothing themselves."""

from circuitcheck.circuit.catalogue.attributes import NOTHING, Given, Shape, judge, merge
from circuitcheck.circuit.defaults import not_said, taken
from circuitcheck.circuit.figures import Conditions, Defaulted
from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.units import Measure
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Conditions as Statement
from circuitcheck.plan.syntax import Defaults


def read_conditions(
    flat: list[Scoped], defaults: Defaults, problems: list[Problem]
) -> tuple[Conditions, tuple[Defaulted, ...]]:
    """What the plan's statement says, or else its library's settings, with no figure where neither has one; and what
    that was of the settings. Adds what is wrong to `problems`."""
    said = _statement(flat, problems)
    added = not_said(defaults.conditions, said)
    given = merge(judge("conditions", TAKES, added, problems), said, ())
    wires = given.value("bundled", "wires")
    found = Conditions(
        ambient_celsius=given.span("ambient", "celsius"),
        insulation_celsius=given.value("insulation", "celsius"),
        bundled=None if wires is None else int(wires),
        area_mm2=given.value("wire", "mm2") or 0.0,
        metres=given.value("wire", "metres") or 0.0,
        table=defaults.table,
    )
    if found.insulation_celsius is not None:
        problems.extend(insulation_amiss(found.insulation_celsius, found, given.places["insulation"]))
    for length in (one for one in given.measures.get("wire", ()) if one.dimension == "metres"):
        problems.extend(length_amiss(length))
    table = (Defaulted("conditions", f"table {defaults.table}", defaults.file),) if defaults.table else ()
    return found, (*taken("conditions", added, defaults.file), *table)


def _statement(flat: list[Scoped], problems: list[Problem]) -> Given:
    statements = [one.statement for one in flat if isinstance(one.statement, Statement)]
    if not statements:
        return NOTHING
    first, *others = statements
    also = ((first.place, "The first are here."),)
    help = "Write all of them in one statement, with commas between."
    problems.extend(Problem(one.place, "conditions for a second time", help, also) for one in others)
    return judge("conditions", TAKES, first.attributes, problems)


SHORTEST_METRES = 0.01
TAKES = {
    "ambient": Shape(("celsius",), ranged=("celsius",)),
    "insulation": Shape(("celsius",)),
    "bundled": Shape(("wires",)),
    "wire": Shape(("mm2", "metres")),
}


def insulation_amiss(celsius: float, conditions: Conditions, place: Place) -> list[Problem]:
    """What is wrong with insulation that stands `celsius`: nothing freezes it, and the air must not melt it."""
    if celsius <= 0:
        help = "Write what it stands when hot, as printed on the wire: 70, 90 or 105 °C are common."
        return [Problem(place, f"insulation that stands {celsius:g} °C", help)]
    ambient = conditions.ambient_celsius
    if ambient and ambient[1] > celsius:
        what = f"insulation that stands {celsius:g} °C, where it gets {ambient[1]:g} °C warm"
        return [Problem(place, what, "Choose wire that stands more than `ambient`, or correct one of them.")]
    return []


def length_amiss(length: Measure) -> list[Problem]:
    """What is wrong with a wire's length: nobody cuts one that short, and `1.5 mm` means its gauge."""
    if length.high >= SHORTEST_METRES:
        return []
    millimetres = f"{1000 * length.high:g} mm"
    help = f"A gauge is in mm2 or AWG: {millimetres}2."
    return [Problem(length.place, f"a wire {millimetres} long", help)]
