"""How far an axis goes, what it moves, and how far it may go past its ends."""

import math
from typing import NamedTuple

from circuitcheck.circuit.catalogue.attributes import Given, Shape, judge
from circuitcheck.circuit.figures import AxisFigures
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Axis


class AxisLoad(NamedTuple):
    """degrees: how far the motor's output shaft turns in all, 0 where the plan doesn't tell. ratings: as for a part."""

    degrees: float
    figures: AxisFigures
    ratings: dict[str, float]


def read_axis_load(axis: Axis, problems: list[Problem]) -> AxisLoad:
    """What the statement says behind its places; adds what is wrong with it to `problems`."""
    given = judge("axis", TAKES, axis.attributes, problems)
    figures = AxisFigures(
        inertia_kg_m2=given.span("inertia", "kg_m2"),
        friction_newton_metres=given.span("friction", "newton_metres"),
        gravity_newton_metres=given.span("gravity", "newton_metres"),
        overtravel_degrees=given.span("overtravel", "degrees"),
        overtravel_metres=given.span("overtravel", "metres"),
        drum_metres=given.span("drum", "metres"),
    )
    problems.extend(_amiss(axis, given, figures))
    return AxisLoad(_degrees(given, figures), figures, given.ratings())


def _degrees(given: Given, figures: AxisFigures) -> float:
    """A length is turned into an angle by the drum, whose middle size counts where the plan gives a range."""
    degrees, metres = given.value("", "degrees"), given.value("", "metres")
    if metres and figures.drum_metres:
        return 360 * metres / (math.pi * sum(figures.drum_metres) / 2)
    return degrees or 0.0


def _amiss(axis: Axis, given: Given, figures: AxisFigures) -> list[Problem]:
    name, degrees, metres = axis.name.text, given.value("", "degrees"), given.value("", "metres")
    if degrees and metres:
        places = [one.place for one in given.measures[""]]
        also = ((places[0], "The first is here."),)
        return [Problem(places[1], f"{name} goes both an angle and a length", "Keep one of them.", also)]
    if not given.has("overtravel"):
        return []
    place = given.places["overtravel"]
    if axis.turning:
        return [Problem(place, f"overtravel of {name}, which turns round and round", "It has no ends to overtravel.")]
    if figures.drum_metres:
        return []
    drum = "say how thick the drum is, e.g. `drum 60 mm`"
    if metres and figures.overtravel_degrees:
        help = f"Write the overtravel as a length, or {drum}."
        return [Problem(place, f"overtravel of {name} in degrees, but its way in metres", help)]
    if degrees and figures.overtravel_metres:
        help = f"Write the overtravel in deg, or {drum}."
        return [Problem(place, f"overtravel of {name} in metres, but its way in degrees", help)]
    return []


def _figure(*dimensions: str) -> Shape:
    return Shape(dimensions, ranged=dimensions)


TAKES = {
    "": Shape(("degrees", "metres")),
    "inertia": _figure("kg_m2"),
    "friction": _figure("newton_metres"),
    "gravity": _figure("newton_metres"),
    "overtravel": _figure("degrees", "metres"),
    "drum": _figure("metres"),
}
