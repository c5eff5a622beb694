"""What a plan requires of the box with one fault in it: the axis and its end, or the emergency stop, must exist."""

from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.model import Axis
from circuitcheck.circuit.resolving import Names, is_unclear, nearest_parts
from circuitcheck.circuit.wording import article, suggestion
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Require, Word


def resolve_requirements(flat: list[Scoped], names: Names, axes: dict[str, tuple[int, Axis]],
                         problems: list[Problem]) -> tuple[Require, ...]:  # fmt: skip
    """The requirements with every name in full; adds what is wrong with them to `problems`."""
    found = []
    for scope, statement in flat:
        if isinstance(statement, Require):
            problems.extend(_amiss(statement, scope, names, axes, problems))
            subject = Word(scope + statement.subject.text, statement.subject.place)
            found.append(statement._replace(subject=subject))
    return tuple(found)


def _amiss(statement: Require, scope: str, names: Names, axes: dict[str, tuple[int, Axis]],
           problems: list[Problem]) -> list[Problem]:  # fmt: skip
    word = statement.subject
    if is_unclear(word.text, scope, names):
        return []
    kind = "estop" if statement.past is None else "axis"
    info = names.parts.get(scope + word.text)
    if info is None:
        thing = "emergency stop" if kind == "estop" else "axis"
        return [Problem(word.place, f"no {thing} {word.text}", nearest_parts(word.text, scope, names, problems))]
    if info.kind != kind:
        return [_other_kind(word, info.kind, kind)]
    return [] if statement.past is None else _no_end(statement.past, word, axes[info.name][1])


def _other_kind(word: Word, found: str, kind: str) -> Problem:
    if kind == "estop":
        help = f"{word.text} is {article(found)}. Write `require ES1 works after one fault` of an estop."
        return Problem(word.place, f"{word.text} is no emergency stop", help)
    help = f"{word.text} is {article(found)}. Write `require one fault never drives deck past top` of an axis."
    return Problem(word.place, f"{word.text} is no axis", help)


def _no_end(end: Word, word: Word, axis: Axis) -> list[Problem]:
    if axis.turning:
        return [Problem(end.place, f"nothing is past {end.text} on {word.text}", "It turns without an end.")]
    ends = (axis.places[0], axis.places[-1])
    if end.text in ends:
        return []
    if end.text in axis.places:
        help = f"An axis is driven past its ends: {ends[0]} or {ends[1]}."
        return [Problem(end.place, f"{end.text} is no end of {word.text}", help)]
    return [Problem(end.place, f"no place {end.text} on {word.text}", suggestion(end.text, ends))]
