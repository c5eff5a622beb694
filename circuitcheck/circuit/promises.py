"""What a plan's promises speak of: every claim's subject must exist, and its word must be one of that subject's."""

from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.model import Axis, Digit, PartInfo
from circuitcheck.circuit.resolving import Names, is_unclear, nearest_parts
from circuitcheck.circuit.units import Measure, measure, written
from circuitcheck.circuit.wording import article, listed, sentence, suggestion
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Claim, Combined, Condition, Promise, Quantity, Word

MOTOR_WORDS = ("forward", "reverse", "driven", "braked", "coasting", "stopped", "weak", "shorted")
STATE_WORDS: dict[str, tuple[str, ...]] = {
    "motor": MOTOR_WORDS,
    "lamp": ("lit", "glows", "dark"),
    "buzzer": ("on", "off"),
    "solenoid": ("on", "off"),
    "limit": ("pressed", "released"),
    "cam": ("pressed", "released"),
}
"""Kinds whose state is not simply the value of a digit → the words that promises can use for it."""


POWER = "power"
"""In `power returns` every supply is meant, unless a part has this name."""


def resolve_promises(flat: list[Scoped], names: Names, digits: list[Digit], axes: dict[str, tuple[int, Axis]],
                     problems: list[Problem]) -> tuple[Promise, ...]:  # fmt: skip
    """The promises with every name in full and their times in seconds; adds what is wrong with them to `problems`."""
    values = {digit.name: digit.values for digit in digits}
    found = []
    for scope, statement in flat:
        if isinstance(statement, Promise):
            condition = _full(statement.condition, scope)
            when = statement.when and _full(statement.when, scope)
            within = statement.within and _seconds(statement.within, problems)
            found.append(statement._replace(condition=condition, when=when, within=within))
            for claim in (*_claims(statement.condition), *(_claims(statement.when) if statement.when else ())):
                problems.extend(_amiss(claim, scope, names, values, axes, problems))
    return tuple(found)


def _seconds(within: Quantity, problems: list[Problem]) -> Quantity:
    found = measure(within)
    if isinstance(found, Measure) and found.dimension == "seconds" and found.low == found.high:
        return within._replace(low=found.low, high=found.high, unit="s")
    if isinstance(found, Measure):
        found = Problem(within.place, f"{written(within)} where one time is expected", "Write e.g. `within 2 s`.")
    problems.append(found)
    return within


def _full(condition: Condition, scope: str) -> Condition:
    if isinstance(condition, Claim):
        if _means_all_supplies(condition):
            return condition
        return condition._replace(subject=Word(scope + condition.subject.text, condition.subject.place))
    return condition._replace(operands=tuple(_full(operand, scope) for operand in condition.operands))


def _claims(condition: Condition) -> tuple[Claim, ...]:
    if isinstance(condition, Combined):
        return tuple(claim for operand in condition.operands for claim in _claims(operand))
    return (condition,)


def _amiss(claim: Claim, scope: str, names: Names, values: dict[str, tuple[str, ...]],
           axes: dict[str, tuple[int, Axis]], problems: list[Problem]) -> list[Problem]:  # fmt: skip
    subject = claim.subject.text
    if is_unclear(subject, scope, names) or _means_all_supplies(claim):
        return []
    info = names.parts.get(scope + subject)
    if info is None:
        kind = {"is": "part", "starts": "motor", "returns": "supply"}.get(claim.verb, "axis")
        help = nearest_parts(subject, scope, names, problems)
        return [Problem(claim.subject.place, f"no {kind} {subject}", help)]
    if claim.verb in ("starts", "returns"):
        kind = "motor" if claim.verb == "starts" else "supply"
        help = f"{sentence(article(kind))} {claim.verb}: `never M1 starts when power returns`."
        return [] if info.kind == kind else [Problem(claim.subject.place, f"{subject} is no {kind}", help)]
    words = STATE_WORDS.get(info.kind) or values.get(info.name, ())
    found = _place_amiss(claim, info, axes.get(info.name)) if claim.verb != "is" else _word_amiss(claim, info, words)
    return [found] if found else []


def _word_amiss(claim: Claim, info: PartInfo, words: tuple[str, ...]) -> Problem | None:
    subject = claim.subject.text
    if info.kind == "axis":
        help = f"Write `{subject} at PLACE` or `{subject} stops at PLACE`."
        return Problem(claim.place, f"{subject} is an axis", help)
    if not words:
        help = f"{sentence(article(info.kind))} doesn't change; a promise speaks of what does."
        return Problem(claim.subject.place, f"nothing can be said of {subject}", help)
    if claim.value.text not in words:
        help = f"{sentence(article(info.kind))} can be {listed(words, 'or')}."
        return Problem(claim.value.place, f"{subject} is never {claim.value.text}", help)
    return None


def _place_amiss(claim: Claim, info: PartInfo, found: tuple[int, Axis] | None) -> Problem | None:
    subject, place = claim.subject.text, claim.value.text
    if found is None:
        help = f"{subject} is {article(info.kind)}; `{claim.verb}` is said of an axis."
        return Problem(claim.subject.place, f"{subject} is no axis", help)
    axis = found[1]
    if place not in axis.places:
        return Problem(claim.value.place, f"no place {place} on {subject}", suggestion(place, axis.places))
    if claim.verb == "past" and axis.turning:
        return Problem(claim.value.place, f"nothing is past {place} on {subject}", "It turns without an end.")
    return None


def _means_all_supplies(claim: Claim) -> bool:
    return claim.verb == "returns" and claim.subject.text == POWER
