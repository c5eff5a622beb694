"""A fault that breaks what the plan requires of the box with one fault in it."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.checks.narration import fault_story_words
from circuitcheck.plan.syntax import Require

if TYPE_CHECKING:
    from circuitcheck.analysis.faults.required import Breaking

MOST_NAMED = 6

CHECK = Check(
    name="broken-requirement",
    severity="error",
    finds="A single fault that breaks a `require` statement of the plan: it drives an axis past its end, or keeps an "
    "emergency stop from stopping a motor.",
    proves="No single fault of the published lists breaks a `require` statement of the plan.",
    why="Contacts weld, limits stick and wires break; whoever wrote the requirement relies on one such fault doing no "
    "harm.",
    how="Each fault that `circuitcheck faults` supposes is put in, from any moment of sound operation on, and all that "
    "the faulty box then comes to is held against a sound box that is worked by the same hands.",
    remedy="Let no one part be all that stops the drive: a second limit in the other leg, a second contact in series.",
    limits="What lasts until a hand or a motor moves something counts, not the milliseconds of a changeover; every "
    "order of relays counts, whatever their times. An emergency stop's own contacts are taken to open, and its "
    "actuator not to stick: direct opening (IEC 60947-5-1 annex K). Two faults at once are for `circuitcheck faults "
    "--pairs`.",
    wrong=(
        Example(
            "a deck that one limit at each end keeps from going too far",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top
            limit  TOP spdt on deck at top
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast
            rung   PS.+, F1, S1.com1
            rung   S1.raise1, TOP.com-nc, M1, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            require one fault never drives deck past top         #! broken-requirement
            """,
        ),
        Example(
            "a hoist whose stop cuts only the coil of a relay that may weld",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc                                        #! emergency-stop
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A
            rung   PS.+, F1, ES1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            require ES1 works after one fault                    #! broken-requirement
            """,
        ),
    ),
    right=(
        Example(
            "the same hoist with the stop ahead of the relay's contact too",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            estop  ES1 nc
            button START no
            relay  K1 dpdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A
            rung   PS.+, F1, ES1, ( START | K1.11-14 ), K1.A1-A2, PS.-
            rung   ES1.12, K1.24-21, M1, PS.-
            wire   K1.22 PS.-
            require ES1 works after one fault
            """,
        ),
        Example(
            "a deck with a second limit at its top in the other leg, and a diode against a supply that is reversed",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 dpdt positions raise off lower
            axis   deck from bottom to top
            limit  TOP TOP2 spdt on deck at top
            limit  LOW spdt on deck at bottom
            motor  M1 12 V stall 10 A drives deck toward top may coast
            diode  D1 10 A 400 V
            rung   PS.+, F1, D1, S1.com1
            rung   S1.raise1, TOP.com-nc, M1, TOP2.com-nc, S1.raise2
            rung   S1.lower1, LOW.com-nc, M1.-
            rung   S1.lower2, M1.+
            wire   S1.com2 PS.-
            require one fault never drives deck past top
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each requirement: the first fault that breaks it in full, the others by name.

    All parts whose faults break it are its parts, whichever of them the plan names first.
    """
    if not facts.circuit.requirements:
        return
    from circuitcheck.analysis.faults.listing import single_faults
    from circuitcheck.analysis.faults.required import breaking_faults
    from circuitcheck.analysis.faults.verdicts import Judge

    judge, faults = Judge(facts.circuit), single_faults(facts.circuit)
    for requirement in facts.circuit.requirements:
        found = list(breaking_faults(judge, faults, requirement))
        broken = [one for one in found if one.outcomes]
        if broken:
            yield _broken(facts, requirement, broken)
        elif found:
            yield _undecided(requirement, found)


def _broken(facts: Facts, requirement: Require, broken: list["Breaking"]) -> Evidence:
    from circuitcheck.analysis.faults.shortest import shortest_story
    from circuitcheck.checks.fault_words import outcome_words, remedy_for

    first, outcome = broken[0].fault, broken[0].outcomes[0]
    story = shortest_story(outcome.joint, outcome.states, outcome.begun)
    others = f"; so it does with {_named(broken[1:])}" if broken[1:] else ""
    subject = requirement.subject.text
    faulty = tuple(dict.fromkeys(one.fault.part for one in broken if one.fault.part))
    driven = [outcome.device for one in broken for outcome in one.outcomes]
    said = outcome_words(outcome) if requirement.past else f"{outcome.device} is driven on"
    pressed = "" if requirement.past else f" while {subject} is pressed"
    return Evidence(
        what=f"With {first.called}, {said}{pressed}, though no single fault may do that{others}",
        parts=tuple(dict.fromkeys((subject, *faulty, *driven))),
        places=(requirement.place, *(facts.circuit.parts[name].place for name in faulty)),
        told=fault_story_words(facts.circuit, first, story),
        example=story.state,
        remedy=remedy_for(facts.circuit, first, outcome),
        reached="fault",
    )


def _undecided(requirement: Require, found: list["Breaking"]) -> Evidence:
    return Evidence(
        what=f"It cannot be decided whether {requirement.subject.text} does as is required with {_named(found)}: that "
        "needs more combinations at once than can be counted",
        parts=(requirement.subject.text,),
        places=(requirement.place,),
        remedy="Split the plan where two parts of the box work by themselves.",
    )


def _named(faults: list["Breaking"]) -> str:
    named = [one.fault.called for one in faults[:MOST_NAMED]]
    if len(faults) > MOST_NAMED:
        named.append(f"{len(faults) - MOST_NAMED} more")
    return f"{', '.join(named[:-1])} and {named[-1]}" if len(named) > 1 else named[0]
