"""What can be put right by itself, for reading: each remedy with the lines that it changes."""

from collections.abc import Iterator
from difflib import unified_diff

from circuitcheck.remedies.repairing import Offer
from circuitcheck.reports.cautions import CAUTION
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose

NOTHING = "Nothing here can be put right by itself: no remedy, or none that was any good when it was tried."


def repair_lines(file: str, offers: tuple[Offer, ...], written: bool, width: int) -> Iterator[Line]:
    """written: whether the remedies that are made are in the file now."""
    if not offers:
        yield from prose(f"{file}: {NOTHING}", width)
    for offer in offers:
        yield from _offer_lines(file, offer, width)
        yield EMPTY
    if offers:
        yield from prose(_outcome(file, offers, written), width)
        yield EMPTY
        yield from prose(CAUTION, width, "quiet")


def _offer_lines(file: str, offer: Offer, width: int) -> Iterator[Line]:
    remedy = offer.tried.remedy
    yield (Span(f"{offer.number}. "), *line(remedy.title, "name"))
    finding = remedy.finding
    yield from labelled("   against", f"{finding.severity} {finding.check}: {finding.what}.".split(), width, " ", 14)
    yield from labelled("   changes", _changes(offer).split(), width, " ", 14)
    old, new = (text.removesuffix("\n").split("\n") for text in (offer.before, offer.tried.text))
    for changed in unified_diff(old, new, file, file, lineterm="", n=1):
        yield line(changed, {"-": "error", "+": "good", "@": "label"}.get(changed[:1], ""))


def _changes(offer: Offer) -> str:
    if not offer.tried.changes:
        return "nothing of what the prop does, in any combination"
    asked = "as you asked" if offer.made else f"so it is made only if you ask for it: --take {offer.number}"
    return f"{offer.tried.changes}; {asked}"


def _outcome(file: str, offers: tuple[Offer, ...], written: bool) -> str:
    made = ", ".join(str(offer.number) for offer in offers if offer.made)
    open_ones = ", ".join(str(offer.number) for offer in offers if not offer.made)
    if written:
        told = f"{file} has {made} now." if made else "Nothing was written."
    else:
        told = f"Nothing was written; --write makes {made}." if made else "Nothing was written."
    left = f" Left to you: {open_ones}." if open_ones else ""
    return f"{told}{left} Each was tried: its finding is gone, and no other came above a note."
