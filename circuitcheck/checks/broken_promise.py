"""Something that the plan itself says must be so, and isn't."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.promised import condition_states
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.checks.narration import condition_words
from circuitcheck.plan.syntax import Claim, Combined, Condition, Promise

CHECK = Check(
    name="broken-promise",
    severity="error",
    finds="An `expect` or `never` statement of the plan that operation breaks, or can never put to the test.",
    proves="Every `expect` and `never` of the plan holds at every rest that operation reaches, and was put to the "
    "test.",
    why="Whoever wrote the promise relies on it; the wires do something else.",
    how="Every state at rest that operation reaches is looked at: in those in which the `when` part holds, an "
    "expected condition must hold and one that must never be must not.",
    remedy="Follow the steps to the state that breaks it and change the wiring there, or the promise if it asks too "
    "much.",
    limits="What lasts only for the milliseconds in which relays move is not held against a promise.",
    wrong=(
        Example(
            "a lantern that is promised to be dark while the trapdoor button is released, wired to the resting contact",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 spdt
            lamp   L1 12 V 5 W
            rung   PS.+, F1, PB1.11-12, L1, PS.-
            expect L1 dark when PB1 released                     #! broken-promise
            """,
        ),
        Example(
            "a promise about a moment that never comes",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 PB2 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            lamp   L1 12 V 5 W
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, PB2, K1.11-14, L1, PS.-
            expect L1 lit when PB1 released and K1 operated      #! broken-promise
            """,
        ),
    ),
    right=(
        Example(
            "the same lantern on the working contact",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            button PB1 spdt
            lamp   L1 12 V 5 W
            rung   PS.+, F1, PB1.11-14, L1, PS.-
            expect L1 dark when PB1 released
            never  L1 lit when PS off
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """One piece of evidence for each promise that is broken, or that no reached state can break."""
    for promise in facts.circuit.promises:
        condition = condition_states(facts, promise.condition)
        asked = condition_states(facts, promise.when) if promise.when else facts.spaces.all()
        broken = asked & (condition if promise.keyword == "never" else ~condition)
        parts = tuple(dict.fromkeys(_subjects(promise)))
        at_rest = facts.reached_at_rest(facts.possible(broken) - facts.shorted)
        if at_rest:
            told = "is promised never to be so, but is" if promise.keyword == "never" else "is promised, but is not so"
            yield Evidence(
                what=f"{condition_words(promise.condition)} {told} with {{state}}",
                parts=parts,
                places=(promise.place,),
                states=at_rest,
                lasting=True,
            )
        elif promise.when and not facts.reached_at_rest(facts.possible(asked)):
            yield Evidence(
                what=f"{condition_words(promise.condition)} is promised for a case that never comes about: "
                f"{condition_words(promise.when)}",
                parts=parts,
                places=(promise.place,),
                severity="warning",
                remedy="Say when it matters in another way, or take it out.",
            )


def _subjects(promise: Promise) -> Iterator[str]:
    for condition in (promise.condition, promise.when):
        if condition:
            yield from _named(condition)


def _named(condition: Condition) -> Iterator[str]:
    if isinstance(condition, Claim):
        yield condition.subject.text
    elif isinstance(condition, Combined):
        for operand in condition.operands:
            yield from _named(operand)
