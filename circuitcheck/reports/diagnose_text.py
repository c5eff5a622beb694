"""A diagnosis for reading, and for programs: `diagnose.schema.json` beside this file says what the JSON promises."""

import json

from circuitcheck.reports.bench_words import FIRST
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.diagnose_asking import Diagnosis, NextReading
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.styled import EMPTY, Line, labelled, line, prose

LIKELIEST = (
    "The likeliest stand first: open circuits before all else (Lessons in Electric Circuits vol. IV ch. 6), the order "
    "of the rest is common practice, no source."
)


def diagnosis_lines(one: Diagnosis, width: int) -> list[Line]:
    """What was seen, what may be the cause, what to read next."""
    lines = [*prose(f"{one.title}: diagnosis", width, "name"), EMPTY]
    for text in one.seen:
        lines += labelled("seen", text.split(), width)
    for text in one.read:
        lines += labelled("read", text.split(), width)
    first = first_lines(width) if one.next else []
    return [*lines, EMPTY, *first, *causes_lines(one, width), *prose(CAUTION, width, "quiet")]


def first_lines(width: int) -> list[Line]:
    """Cautions before anything is measured."""
    return [*(part for sentence in FIRST for part in prose(sentence, width, "warning")), EMPTY]


def causes_lines(one: Diagnosis, width: int) -> list[Line]:
    """What may be the cause, and what to read next."""
    lines = [*prose(verdict(one), width, "error" if not one.faults else "name")]
    for kind in dict.fromkeys(fault.kind for fault in one.faults):
        names = ", ".join(fault.called for fault in one.faults if fault.kind == kind)
        lines += labelled(f"  {kind}", names.split(), width, margin=28)
    if len(one.faults) > 1:
        lines += prose(LIKELIEST, width, "quiet")
    for text in one.sound if not one.read else ():
        lines += prose(f"A sound box shows this too, with {text}.", width)
    lines.append(EMPTY)
    return [*lines, *_next(one.next, width)] if one.next else lines


def verdict(one: Diagnosis) -> str:
    """How many faults explain what is seen, in a sentence."""
    count, read = len(one.faults), " and read" if one.read else ""
    if not count:
        pairs = f", nor any of {one.tried_pairs} pairs each of which has a part in it" if one.pairs else ""
        return f"No single fault explains all that is seen{pairs}. Look for a slip in what was told, or in the wiring."
    what = "pair of faults" if one.pairs else "single fault"
    only = "No single fault explains all that is seen. " if one.pairs and not one.read else ""
    if count == 1:
        return f"{only}One {what.removeprefix('single ')} explains all that is seen{read}:"
    apart = "" if one.next else " No reading from outside tells them apart."
    whats = "pairs of faults" if one.pairs else "single faults"
    return f"{only}{count} {whats} explain all that is seen{read}.{apart}"


def _next(following: NextReading, width: int) -> list[Line]:
    lines = [line("The most telling next reading", "label"), *prose(following.do, width)]
    if following.rest:
        lines += labelled("  at rest", following.rest, width, ", ")
    lines += labelled("  set", following.set, width, ", ")
    lines += labelled("  look", following.look.split(), width)
    for outcome in following.outcomes:
        lines += labelled("  if", [f"{outcome.reads}:", *", ".join(outcome.faults).split()], width)
    return [*lines, EMPTY]


def diagnosis_json(one: Diagnosis) -> str:
    """Signs outside ASCII are escaped, so that any encoding carries it."""
    following = one.next
    whole = {
        "schema": SCHEMA,
        "file": one.file,
        "plan": one.name,
        "seen": list(one.seen),
        "read": list(one.read),
        "causes": [{"fault": fault.called, "kind": fault.kind} for fault in one.faults],
        "pairs": one.pairs,
        "pairs_tried": one.tried_pairs,
        "order": LIKELIEST,
        "sound": list(one.sound),
        "first": list(FIRST),
        "next": following
        and {
            "part": following.stage,
            "do": following.do,
            "rest": list(following.rest),
            "set": list(following.set),
            "look": following.look,
            "outcomes": [{"reads": it.reads, "faults": list(it.faults)} for it in following.outcomes],
        },
    }
    return json.dumps(whole, indent=2) + "\n"
