"""Something that the plan itself says must be so, and isn't."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.promised import condition_states, is_of_restart, restart_of
from circuitcheck.analysis.responses import begins_to_hold, late_answer
from circuitcheck.checks.check import Check, Evidence, Example
from circuitcheck.checks.narration import condition_words
from circuitcheck.plan.syntax import Claim, Combined, Condition, Promise

CHECK = Check(
    name="broken-promise",
    severity="error",
    finds="An `expect`, `never`, `always` or `after` statement of the plan that operation breaks, or can never put to "
    "the test.",
    proves="Every `expect` and `never` of the plan holds at every rest that operation reaches, every `always` while "
    "relays move as well, every `after` in its time; and each was put to the test.",
    why="Whoever wrote the promise relies on it; the wires do something else.",
    how="Every state at rest that operation reaches is looked at: in those in which the `when` part holds, an "
    "expected condition must hold and one that must never be must not. `always` is held against what is passed while "
    "relays move, too. `after C within 2 s D`: from wherever C comes to hold, nothing is touched and no axis moves, "
    "relays settle and timing relays run out; D must come at a rest before their times add up to more. `settling` "
    "waits for no timing relay. `never M1 starts when power returns` is put to the test as `starts-by-itself` is.",
    remedy="Follow the steps to the state that breaks it and change the wiring there, or the promise if it asks too "
    "much.",
    limits="What lasts only for the milliseconds in which relays move is held against `always` alone, and there all "
    "poles of a relay move at once. The times of timing relays that run side by side are added up as well: a promise "
    "that fails by such a sum alone is told as a warning. How long an axis travels is not known: what waits for one "
    "cannot be promised in a time. States that short a supply are told by supply-short alone, so `never M1 shorted` is "
    "never told as broken here.",
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
        Example(
            "a stop that a timing relay delays for longer than is promised",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button START no
            button STOP nc
            relay  K1 no coil 12 V 160 ohm with diode
            relay  K2 no off-delay 3 s coil 12 V 160 ohm with diode
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, STOP, ( START | K1.13-14 ), K1.A1-A2, PS.-
            rung   K1.A1, K2.A1-A2, PS.-
            rung   F1.2, K2.17-18, M1, PS.-
            after  STOP pressed within 4 s M1 stopped
            after  STOP pressed within 1 s M1 stopped            #! broken-promise
            """,
        ),
        Example(
            "a lamp that goes out for a moment while two relays change places",
            """
            supply PS 12 V 10 A
            fuse   F1 3 A
            switch S1 spst positions off on
            relay  K1 no coil 12 V 160 ohm with diode
            relay  K2 nc coil 12 V 160 ohm with diode
            lamp   L1 12 V 5 W
            rung   PS.+, F1, S1, K1.A1-A2, PS.-
            rung   S1.on, K2.A1-A2, PS.-
            rung   F1.2, ( K1.13-14 | K2.11-12 ), L1, PS.-
            expect L1 lit while PS on
            always L1 lit while PS on                            #! broken-promise
            """,
        ),
        Example(
            "a mill wheel that must not start when power returns, behind a maintained switch",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spst positions off on
            motor  M1 12 V stall 5 A may coast
            rung   PS.+, F1, S1, M1, PS.-
            never  M1 starts when power returns                  #! broken-promise
            """,
        ),
        Example(
            "a crane that may rise behind the gate while that is down",
            """
            supply PS 12 V 10 A
            fuse   F1 F2 5 A
            switch S1 S2 dpdt positions up off down
            axis   crane from low via middle to high
            axis   gate from down to up
            limit  LS1 nc on crane at high
            limit  LS2 nc on crane at low
            limit  LS3 nc on gate at up
            limit  LS4 nc on gate at down
            motor  M1 12 V stall 5 A drives crane toward high may coast
            motor  M2 12 V stall 5 A drives gate toward up may coast
            rung   PS.+, F1, S1.com1
            rung   S1.up1, LS1.com-nc, M1, S1.up2
            rung   S1.down1, LS2.com-nc, M1.-
            rung   S1.down2, M1.+
            wire   S1.com2 PS.-
            rung   PS.+, F2, S2.com1
            rung   S2.up1, LS3.com-nc, M2, S2.up2
            rung   S2.down1, LS4.com-nc, M2.-
            rung   S2.down2, M2.+
            wire   S2.com2 PS.-
            never  crane past middle while gate at down          #! broken-promise
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
        evidence = Evidence("", tuple(dict.fromkeys(_subjects(facts, promise))), places=(promise.place,))
        if promise.keyword == "after":
            yield from _unanswered(facts, promise, evidence)
        elif is_of_restart(promise):
            yield from _restarting(facts, promise, evidence)
        else:
            yield from _not_kept(facts, promise, evidence)


def _not_kept(facts: Facts, promise: Promise, evidence: Evidence) -> Iterator[Evidence]:
    lasting = promise.keyword != "always"
    reached = facts.reached_at_rest if lasting else facts.reached
    condition = condition_states(facts, promise.condition)
    asked = condition_states(facts, promise.when) if promise.when else facts.spaces.all()
    broken = asked & (condition if promise.keyword == "never" else ~condition)
    found = reached(facts.possible(broken) - facts.shorted)
    said = condition_words(promise.condition)
    if found:
        told = {"never": "never to be so, but is", "always": "always to be so, but is not for a moment"}
        words = f"is promised {told[promise.keyword]}" if promise.keyword in told else "is promised, but is not so"
        yield evidence._replace(what=f"{said} {words} with {{state}}", states=found, lasting=lasting)
    elif promise.when and not reached(facts.possible(asked)):
        yield _untested(promise, evidence)


def _unanswered(facts: Facts, promise: Promise, evidence: Evidence) -> Iterator[Evidence]:
    if promise.when is None:
        return
    first, answer = (condition_states(facts, one) for one in (promise.when, promise.condition))
    late = late_answer(facts, first, answer, promise.within.high if promise.within else 0.0)
    if late is not None:
        only = "never, though nothing is touched," if late.seconds is None else f"only after {late.seconds:g} s"
        most = " at most" if late.summed else ""
        within = f"within {promise.within.high:g} s" if promise.within else "within settling"
        yield evidence._replace(
            what=f"{condition_words(promise.condition)} is promised {within} after {condition_words(promise.when)}, "
            f"but comes {only}{most} with {{state}}",
            states=late.states,
            sequel=late.sequel,
            severity="warning" if late.summed else "",
        )
    elif not begins_to_hold(facts, first):
        yield _untested(promise, evidence)


def _restarting(facts: Facts, promise: Promise, evidence: Evidence) -> Iterator[Evidence]:
    starts = restart_of(facts, promise)
    if starts is not None and promise.when:
        yield evidence._replace(
            what=f"{condition_words(promise.condition)} when {condition_words(promise.when)}, though promised never "
            "to, with {state}",
            states=starts.states,
            sequel=starts.sequel,
            remedy="Let a relay seal itself in, as `rung F1.2, STOP, ( START | K9.13-14 ), K9.A1-A2, PS.-`, and take "
            "the feed of the drive over another of its contacts: it drops out with the power and waits for START.",
        )


def _untested(promise: Promise, evidence: Evidence) -> Evidence:
    case = condition_words(promise.when) if promise.when else ""
    return evidence._replace(
        what=f"{condition_words(promise.condition)} is promised for a case that never comes about: {case}",
        severity="warning",
        remedy="Say when it matters in another way, or take it out.",
    )


def _subjects(facts: Facts, promise: Promise) -> Iterator[str]:
    """The parts that it names; `power` is none."""
    for condition in (promise.condition, promise.when):
        if condition:
            yield from (name for name in _named(condition) if name in facts.circuit.parts)


def _named(condition: Condition) -> Iterator[str]:
    if isinstance(condition, Claim):
        yield condition.subject.text
    elif isinstance(condition, Combined):
        for operand in condition.operands:
            yield from _named(operand)
