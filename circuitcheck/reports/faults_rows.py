"""What a report on faults says, before it is laid out: the summary, the table by parts, what to design out first."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from circuitcheck.analysis.faults.consequences import CONSEQUENCES
from circuitcheck.analysis.faults.published import LEFT_OUT, SUPPOSED
from circuitcheck.reports.faults_asking import STOPS_AND_LIMITS, UNJUDGED, FaultReport, FaultTold
from circuitcheck.reports.faults_fuses import short_words, summary_of_shorts

WORDS: Final = (*CONSEQUENCES, UNJUDGED)
HIDDEN: Final = "°"
"""Marks a fault that nobody would notice before a second one."""

NO_FUSE: Final = "no fuse"
BURNS: Final = "burns a wire"
MOST_SHOWN: Final = 8

NOT_COVERED: Final = (
    "What is wrong before anything fails, which `check` tells: each fault is held against the box as it is planned.",
    "More than one fault at a time, but for --pairs; two that have one cause.",
    "Arcs, heat, worn springs and gears, how far a motor runs on, how long anything takes.",
    "Contacts that only touch badly, and volts that sag.",
    "The milliseconds of a changeover: what is told lasts until a hand or a motor moves something.",
    "Where a plan doesn't say how a contact, a plug or a cable is made, the worse is supposed.",
)
"""What nobody should think was looked at."""


class PartRow(NamedTuple):
    """What the faults of one part lead to: its name ("wires" for those), a consequence and the faults, in short."""

    part: str
    consequence: str
    faults: tuple[str, ...]


class Entry(NamedTuple):
    """Faults to design out: they do the same harm, and one change would keep them all from it."""

    faults: tuple[FaultTold, ...]

    @property
    def first(self) -> FaultTold:
        """The one that is told in full."""
        return self.faults[0]


NOTHING_TO_FAIL: Final = "This plan has no part that could fail."
SHORTING: Final = (
    "Operation shorts a supply even without a fault: `circuitcheck check` tells how. "
    "What faults do meanwhile is left out."
)


def summary(report: FaultReport) -> list[str]:
    """Sentences on how many faults there are, what they lead to, and how many are hidden."""
    if not report.faults:
        return [NOTHING_TO_FAIL]
    total = len(report.faults)
    harmless = [one for one in report.faults if one.harmless]
    share = round(100 * len(harmless) / total)
    cleared = sum(1 for one in harmless if one.consequence == "supply short")
    counts = Counter(one.consequence for one in harmless)
    hidden = [one for one in report.faults if is_hidden(one)]
    sentences = [
        *([SHORTING] if report.shorts else []),
        f"{len(harmless)} of {total} single faults ({share} %) do no harm: with {counts['holds']} the box still stops, "
        f"brakes and limits, with {counts['does nothing']} it stands still, {cleared} blow a fuse.",
        *summary_of_shorts(report),
        *_unjudged(report.faults),
        f"{len(hidden)} would not be noticed before a second fault comes.",
    ]
    if report.pairs is not None:
        harmful = [one for one in report.pairs if one.consequence != UNJUDGED]
        sentences.append(
            f"Of {report.tried_pairs} pairs of a hidden fault and another, {len(harmful)} keep a motor from "
            "stopping or drive an axis past its end, which neither does alone."
        )
        sentences += _unjudged(report.pairs)
    return sentences


def _unjudged(faults: Iterable[FaultTold]) -> Iterator[str]:
    names = [one.fault.called for one in faults if one.consequence == UNJUDGED]
    if names:
        yield (
            f"{len(names)} could not be judged, which would take more combinations at once than can be counted, and "
            f"may do harm: {', '.join(names[:MOST_SHOWN])}{', …' if len(names) > MOST_SHOWN else ''}."
        )


def counted(report: FaultReport) -> list[tuple[str, int, int]]:
    """Each consequence that comes about, the worst first: how many faults lead to it, how many of them are hidden."""
    found = []
    for word in WORDS:
        own = [one for one in report.faults if one.consequence == word]
        if own:
            found.append((word, len(own), sum(1 for one in own if is_hidden(one))))
    return found


def part_rows(report: FaultReport) -> list[PartRow]:
    """A row for each part and each consequence that its faults have, the worst first."""
    rows: dict[tuple[str, str], list[str]] = {}
    for part in dict.fromkeys(one.fault.part for one in report.faults):
        for word in WORDS:
            for one in report.faults:
                if one.fault.part == part and one.consequence == word:
                    rows.setdefault((part or "wires", word), []).append(_in_short(one))
    return [PartRow(part, word, tuple(faults)) for (part, word), faults in rows.items()]


def is_hidden(one: FaultTold) -> bool:
    """Would nobody notice it before a second fault?"""
    return not one.noticed_by and one.consequence != UNJUDGED


def to_design_out(faults: Iterable[FaultTold]) -> list[Entry]:
    """What does harm, the worst first, hidden ones before those that are noticed."""
    groups: dict[tuple[str, str, bool], list[FaultTold]] = {}
    for one in faults:
        if not one.harmless and one.consequence != UNJUDGED:
            groups.setdefault((one.what, one.remedy, is_hidden(one)), []).append(one)
    ordered = sorted(groups.values(), key=lambda group: (WORDS.index(group[0].consequence), not is_hidden(group[0])))
    return [Entry(tuple(group)) for group in ordered]


def noticed_words(one: FaultTold) -> str:
    """ "noticed by M1 and L1", or that it is hidden."""
    if is_hidden(one):
        return "hidden: nobody would notice before a second fault"
    return f"noticed by {' and '.join(one.noticed_by)}" if one.noticed_by else ""


def consequence_words(one: FaultTold) -> str:
    """The consequence, and of a short what clears it."""
    return short_words(one) if one.consequence == "supply short" else one.consequence


def supposed_words(report: FaultReport) -> list[str]:
    """Which faults were supposed, from which list, and which of them a builder may leave out when."""
    kinds = dict.fromkeys(one.fault.kind for one in report.faults)
    rows = [row for row in SUPPOSED if row.kind in kinds]
    by_source: dict[str, list[str]] = {}
    for row in rows:
        by_source.setdefault(row.source, []).append(f"{row.kind} ({row.part})" if " " not in row.part else row.kind)
    words = [f"{source}: {', '.join(names)}." for source, names in by_source.items()]
    may = [f"{row.kind}: {row.leave_out_when}." for row in rows if row.leave_out_when]
    return [*words, "Of these may be left out, with the reason in writing:", *may] if may else words


def left_out_words() -> list[str]:
    """The faults of the lists that were not supposed, and why."""
    return [f"{row.part}, {row.what}: {row.why} ({row.source})." for row in LEFT_OUT]


def pair_heading() -> str:
    """Over the pairs."""
    return f"Two faults, the first of them hidden ({' or '.join(STOPS_AND_LIMITS)})"


def _in_short(one: FaultTold) -> str:
    """ "11-14 welded" of K1, with a mark where it is hidden."""
    words = one.fault.called.removeprefix("the ").removeprefix("wire ")
    if one.fault.part:
        words = words.replace(f"{one.fault.part}.", "").removeprefix(f"{one.fault.part} ")
    if one.unfused or one.burnt:
        words = f"{words} ({NO_FUSE if one.unfused else BURNS})"
    return f"{words} {HIDDEN}" if is_hidden(one) else words
