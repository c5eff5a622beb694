"""From one junction onward, in some states and no others: what is asked of many conductors that lie on few ways.

Each junction hands on only the states that it has not handed on yet, and whoever asks stops listening once the states
are all met. So what lies beyond is never looked at, however wide it is; conduction.py asks about all states at once.
"""

from collections.abc import Collection, Iterator

from circuitcheck.analysis.states import States

Junction = int

Beside = dict[Junction, list[tuple[int, Junction, States]]]
"""From each junction the ways on: a conductor's number, where it leads to, and the states in which it is closed."""


def spread(
    onward: Beside,
    borders: Collection[Junction],
    source: Junction,
    within: States,
    without: int | None = None,
    avoided: Junction | None = None,
) -> Iterator[tuple[Junction, States]]:
    """Junctions that `source` leads to, each with states of `within` in which it does, told once, nearest first.

    A way ends at a border, except at the source. without: a conductor that is left out; avoided: a junction.
    """
    met = {source: within}
    waiting = {source: within}
    yield source, within
    while waiting:
        junction = next(iter(waiting))
        arrived = waiting.pop(junction)
        if junction in borders and junction != source:
            continue
        for number, there, closed in onward.get(junction, ()):
            if number == without or there == avoided:
                continue
            more = arrived & closed
            if more and there in met:
                more = more - met[there]
            if more:
                more = more.tight()
                met[there] = (met[there] | more).tight() if there in met else more
                waiting[there] = waiting[there] | more if there in waiting else more
                yield there, more


def reached(onward: Beside, borders: Collection[Junction], source: Junction, within: States) -> dict[Junction, States]:
    """All junctions that `source` leads to, and in which states of `within`."""
    met: dict[Junction, States] = {}
    for junction, states in spread(onward, borders, source, within):
        met[junction] = met[junction] | states if junction in met else states
    return met


def leads(
    onward: Beside,
    borders: Collection[Junction],
    source: Junction,
    goals: Collection[Junction],
    within: States,
    without: int | None = None,
    avoided: Junction | None = None,
) -> States:
    """The states of `within` in which `source` leads to one of the goals; see `spread`."""
    left = within
    for junction, states in spread(onward, borders, source, within, without, avoided):
        if junction in goals:
            left = left - states
            if not left:
                return within
    return within - left
