"""The sentences that every output of a comparison shares."""

from collections.abc import Iterator

from circuitcheck.analysis.changed_parts import PartChange, WireChange
from circuitcheck.circuit.wording import listed
from circuitcheck.reports.compare_asking import Compared, Story
from circuitcheck.reports.compare_rows import OR_AS_BEFORE, Row
from circuitcheck.reports.table_rows import ANY

COMPARED = (
    "Decided over all states, none sampled: what motors, lamps and relays do at rest, worked alike from power-up. Not "
    "compared: what contacts touch while they travel, volts and currents, and times but for timing relays' delays."
)


def title(compared: Compared) -> str:
    """ "Drawbridge: old.plan → new.plan"."""
    files = f"{compared.old.plan.file} → {compared.new.plan.file}"
    return f"{compared.new.circuit.name}: {files}" if compared.new.circuit.name else files


def verdict(compared: Compared) -> str:
    """Whether the behaviour is the same, and how far."""
    comparison = compared.comparison
    if not comparison.same:
        names = [name for told in compared.told for name in told.devices]
        names += [one.control for one in comparison.positions] + [one.relay for one in comparison.delays]
        names = list(dict.fromkeys(names))
        told = f"{listed(names, 'and')} {'does' if len(names) == 1 else 'do'} something else"
        return (
            f"The behaviour differs: {told}."
            if names
            else "The behaviour differs while switches are between positions."
        )
    if comparison.everywhere:
        return "The behaviour is the same, in every combination of contacts."
    if comparison.unreached:
        return (
            "The behaviour is the same. Only in combinations that operation doesn't reach, such as a finger on a "
            f"relay's armature, does something differ: {listed(comparison.unreached, 'and')}."
        )
    return "The behaviour is the same, whatever is done from power-up on."


def other_sentences(compared: Compared) -> Iterator[str]:
    """Differences that no combination shows: timers' delays, positions of switches."""
    for position in compared.comparison.positions:
        yield f"{position.control} has the position {position.word} only in {position.side}."
    for delay in compared.comparison.delays:
        before, after = (f"{seconds:g} s" if seconds else "not at all" for seconds in (delay.old, delay.new))
        yield f"{delay.relay} waited {before}, and now {after}."


def story_lines(story: Story) -> Iterator[tuple[str, str]]:
    """The story with who each step is about: "to see", then "" for both, "old" or "new", in the end "then"."""
    yield "to see", f"begin with {story.beginning}"
    yield from story.steps
    for number, (name, (old, new)) in enumerate(story.ended):
        yield "" if number else "then", f"{name} {old} in old, {new} in new"


def row_words(row: Row) -> tuple[str, str]:
    """What is given, and what is different then."""
    given = [f"{name} {word}" for name, word in row.given.items() if word != ANY]
    does = [f"{name} {cell}" for name, cell in row.devices.items() if cell]
    return ", ".join(given) or "anything", "; ".join(does)


def legend(rows: tuple[Row, ...]) -> Iterator[str]:
    """The signs that need a word, where they are there."""
    if any(ANY in row.given.values() for row in rows):
        yield f"{ANY} stands for: whatever its position."
    if any(cell.endswith(OR_AS_BEFORE) for row in rows for cell in row.devices.values()):
        yield f"{OR_AS_BEFORE.strip()}: it depends on what was done before, or on which relay is quicker."


def part_sentence(change: PartChange) -> str:
    """ "gone: diode D1", "new: relay K3", "relay K1: coil 86 ohm → 160 ohm"."""
    if not change.new:
        return f"gone: {change.kind} {change.old}"
    if not change.old:
        return f"new: {change.kind} {change.new}"
    renamed = f" is now called {change.new}" if change.old != change.new else ""
    details = f": {'; '.join(change.details)}" if change.details else ""
    return f"{change.kind} {change.old}{renamed}{details}"


def wire_sentence(change: WireChange) -> str:
    """ "gone: K1.14 to M1.+", "new: K2.14 to M1.+", "K1.14 to M1.+: 1.5 mm2 → 2.5 mm2"."""
    if not change.new:
        return f"gone: {change.old}"
    if not change.old:
        return f"new: {change.new}"
    return f"{change.new}: {'; '.join(change.details)}"
