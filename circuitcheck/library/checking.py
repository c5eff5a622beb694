"""Many plans checked: what is known of them already, and the others examined side by side."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from circuitcheck.library.asking import Asked
from circuitcheck.library.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from circuitcheck.library.cache import Cache
    from circuitcheck.library.inputs import Inputs

Hear = Callable[[str, int, int], None]
"""Hears which plan was dealt with last, how many have been, and of how many."""


def check_all(asked: Sequence[Asked], cache: "Cache | None", hear: Hear) -> list[Outcome]:
    """The outcome of each plan, in order. cache: what is kept there isn't examined anew; None: everything is."""
    inputs = _inputs_of(asked) if cache else [None] * len(asked)
    outcomes: list[Outcome | None] = [cache.kept(one) if cache and one else None for one in inputs]
    missing = [number for number, outcome in enumerate(outcomes) if outcome is None]
    if missing:
        _examine(asked, inputs, outcomes, missing, cache, hear)
    return [_failing(one, outcome) for one, outcome in zip(asked, outcomes, strict=True) if outcome is not None]


def _inputs_of(asked: Sequence[Asked]) -> "list[Inputs | None]":
    from circuitcheck.library.cache import tool_itself
    from circuitcheck.library.inputs import InputsReader

    reader = InputsReader(tool_itself())
    return [reader.inputs_of(one) for one in asked]


def _examine(
    asked: Sequence[Asked],
    inputs: "Sequence[Inputs | None]",
    outcomes: list[Outcome | None],
    missing: Sequence[int],
    cache: "Cache | None",
    hear: Hear,
) -> None:
    """Fills in the outcomes that are missing, and keeps the verdicts among them."""
    from circuitcheck.library.workers import examine_each

    done = len(asked) - len(missing)
    hear(asked[missing[0]].file, done, len(asked))

    def hear_of(one: Asked, doing: str) -> None:
        hear(f"{doing} in {one.file}", done, len(asked))

    for place, outcome in examine_each([asked[number] for number in missing], hear_of):
        number = missing[place]
        outcomes[number] = outcome
        known = inputs[number]
        if cache and known and isinstance(outcome, Verdict) and _same(asked[number], known, outcome):
            cache.keep(known, outcome)
        done += 1
        hear(asked[number].file, done, len(asked))
    if cache:
        cache.tidy()


def _same(asked: Asked, known: "Inputs", verdict: Verdict) -> bool:
    """Was the verdict made of just what stands in the key? Somebody may have saved a file meanwhile."""
    return verdict.file == asked.file and verdict.sources == known.sources


def _failing(asked: Asked, outcome: Outcome) -> Outcome:
    return outcome._replace(failing=asked.failing) if isinstance(outcome, Verdict) else outcome
