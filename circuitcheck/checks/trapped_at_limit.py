"""An end of an axis from which nothing that a person can do drives it back."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.travel import ends_of_axis, motors_of, trapped
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="trapped-at-limit",
    severity="error",
    finds="An end from which no setting of the controls drives back.",
    proves="From both ends of every axis some setting of the controls drives back.",
    why="Once there, the prop can only be freed by hand, inside the mechanism, with the show waiting.",
    how="From every state at rest at or past an end, every way of working the controls, the supplies and outside "
    "contacts is followed, with all that the relays do on the way, until one drives the axis inward or none is left.",
    remedy="Let the limit cut the drive outward only: put its contact in the leg of that direction, ahead of where "
    "the two directions meet.",
    limits="An axis that nothing ever drives is not judged, nor one that turns round.",
    wrong=(
        Example(
            "a curtain whose two limits both sit in the one lead that every direction uses",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions open off close
            axis   curtain from shut to apart                    #! trapped-at-limit trapped-at-limit
            limit  LS1 nc on curtain at shut
            limit  LS2 nc on curtain at apart
            motor  M1 12 V stall 8 A drives curtain toward apart may coast
            rung   PS.+, F1, LS1.com-nc, LS2.com-nc, S1.com1
            rung   S1.open1, M1, S1.open2
            rung   S1.close1, M1.-
            rung   S1.close2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
    right=(
        Example(
            "the same limits, each in the leg of the direction that it ends",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions open off close
            axis   curtain from shut to apart
            limit  LS1 nc on curtain at shut
            limit  LS2 nc on curtain at apart
            motor  M1 12 V stall 8 A drives curtain toward apart may coast
            rung   PS.+, F1, S1.com1
            rung   S1.open1, LS2.com-nc, M1, S1.open2
            rung   S1.close1, LS1.com-nc, M1.-
            rung   S1.close2, M1.+
            wire   S1.com2 PS.-
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each end with states that lead nowhere but outward or nowhere at all."""
    yield from facts.likeness.of_each("axis", lambda number: _of_axis(facts, number))


def _of_axis(facts: Facts, number: int) -> Iterator[Evidence]:
    for end in ends_of_axis(facts, number):
        stuck = trapped(facts, end)
        if stuck:
            axis = facts.circuit.axes[end.axis]
            limits = (one.name for one in facts.circuit.limits if one.axis == end.axis and end.zone in one.zones)
            names = (axis.name, *limits, *motors_of(facts, end.axis))
            yield Evidence(
                what=f"No setting of the controls drives {axis.name} back from {end.place} once it stands there with "
                "{state}",
                parts=names,
                states=stuck,
                lasting=True,
            )
