"""One remedy after the other, each tried on the plan as those before it left it."""

from typing import NamedTuple

from circuitcheck.examination import Examination
from circuitcheck.remedies.trying import Read, Tried, proposed, tried


class Offer(NamedTuple):
    """A remedy that is any good. number: from 1, the same at every run. before: the text that it was tried on.

    made: whether it is part of the repaired text: it leaves the behaviour as it is, or was asked for by its number.
    """

    number: int
    tried: Tried
    before: str
    made: bool


def repaired(examination: Examination, read: Read, wanted: frozenset[int]) -> tuple[Offer, ...]:
    """Every remedy that is any good, in order. wanted: numbers of those that are made although they change what the
    prop does; no other that does is made."""
    offers: list[Offer] = []
    considered: set[tuple[str, ...]] = set()
    standing = examination
    while True:
        remedy = next((one for one in proposed(standing) if one.aim not in considered), None)
        if remedy is None:
            return tuple(offers)
        considered.add(remedy.aim)
        outcome = tried(standing, remedy, read)
        if outcome is not None:
            number = len(offers) + 1
            made = not outcome.changes or number in wanted
            offers.append(Offer(number, outcome, "\n".join(standing.plan.sources[0].lines), made))
            standing = outcome.after if made else standing


def text_after(examination: Examination, offers: tuple[Offer, ...]) -> str:
    """The plan's text with all that is made."""
    made = [offer.tried.text for offer in offers if offer.made]
    return made[-1] if made else "\n".join(examination.plan.sources[0].lines)
