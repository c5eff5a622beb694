"""What an ohmmeter reads between any two terminals, in every setting of a box without power.

All settings are worked out side by side: a terminal's label is the number of the lowest terminal that conductors join
it to. What loads lie between labels makes a small network of resistors, solved once for all settings and faults in
which it is the same. An ohmmeter's own volts are too small for diodes; its diode range sends 1 mA from red to black.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from circuitcheck.analysis.bench.boxes import Box
from circuitcheck.analysis.bench.readings import LEAST_OHMS, LEAST_RATIO, MOST_OHMS, SLACK
from circuitcheck.analysis.bench.settings import Setting
from circuitcheck.analysis.network import joined_terminals
from circuitcheck.circuit.model import Conductor, Terminal

Labels = NDArray[np.int16]
Ohms = NDArray[np.float64]
Yes = NDArray[np.bool_]

DIODE_NEEDS: Final = 500.0
"""Ohms beside a diode below which the diode range's 1 mA makes too few volts for it."""
PASSED: Final = 2_000.0
"""Ohms through which the diode range's 1 mA still drives what it can show."""
PASSING: Final = -1.0
"""Stands in an array for a reading of the diode range that is a diode's volts or a little more."""

Known = dict[tuple[object, ...], Ohms]
"""Small networks that are solved, by what they are made of."""


class Meter:
    """Reads one box; `terminals` are those that may be touched. known: shared among boxes with the same loads."""

    def __init__(self, box: Box, terminals: Sequence[Terminal], settings: Sequence[Setting], known: Known) -> None:
        circuit = box.circuit
        others = (end for one in circuit.conductors for end in (one.tail, one.head))
        ends = (end for load in circuit.loads for end in (load.a, load.b))
        self._place = {end: n for n, end in enumerate(dict.fromkeys((*terminals, *others, *ends)))}
        self._count = len(terminals)
        self._states = np.array([box.stands(one) for one in settings], np.int16)
        self._known = known
        self._circuit = circuit
        self._loads = [(self._place[load.a], self._place[load.b], load.ohms) for load in circuit.loads]
        self._labels = self._joined()
        self._ends = [place for load in self._loads for place in load[:2]]

    def key(self, setting: int) -> bytes:
        """The same for two boxes that all ohms are the same of, in a setting by its number."""
        ends = self._labels[setting, self._ends]
        return self._labels[setting, : self._count].tobytes() + _renumbered(ends, self._count).tobytes()

    def ohms(self, setting: int) -> Ohms:
        """Between each terminal and each other, in a setting by its number; infinite where nothing leads."""
        labels, ends = self._labels[setting, : self._count], self._labels[setting, self._ends]
        groups = list(dict.fromkeys(ends.tolist()))
        lookup = np.full(len(self._place), len(groups))
        lookup[groups] = range(len(groups))
        between = self._between(tuple(lookup[ends].tolist()), len(groups))
        places = lookup[labels]
        found: Ohms = between[np.ix_(places, places)]
        found[labels[:, None] == labels[None, :]] = 0.0
        return found

    def diode_range(self, setting: int, red: Terminal, black: Terminal, ohms: Ohms) -> float:
        """What the diode range shows: ohms where they are few, PASSING, or infinite for nothing. ohms: of the setting,
        as above."""
        between = float(ohms[self._place[red], self._place[black]])
        if between < DIODE_NEEDS:
            return between
        return PASSING if self._passes(setting, self._place[red], self._place[black]) else np.inf

    def _joined(self) -> Labels:
        nets = joined_terminals(self._circuit)
        lowest: dict[int, int] = {}
        always = [lowest.setdefault(nets[end], place) if end in nets else place for end, place in self._place.items()]
        labels = np.tile(np.array(always, np.int16), (len(self._states), 1))
        contacts = [one for one in self._circuit.conductors if one.closed and not one.one_way]
        ways = [(always[self._place[one.tail]], always[self._place[one.head]], self._closed(one)) for one in contacts]
        moved = True
        while moved:
            moved = False
            for tail, head, closed in ways:
                differ = closed & (labels[:, tail] != labels[:, head])
                if differ.any():
                    moved = True
                    lower = np.minimum(labels[:, tail], labels[:, head])
                    labels[:, tail] = np.where(differ, lower, labels[:, tail])
                    labels[:, head] = np.where(differ, lower, labels[:, head])
        return labels[:, always]

    def _closed(self, one: Conductor) -> Yes:
        if one.closed is None:
            return np.ones(len(self._states), np.bool_)
        return np.isin(self._states[:, one.closed.digit], list(one.closed.values))

    def _between(self, ends: tuple[int, ...], count: int) -> Ohms:
        """Ohms among the groups that loads end at, and one more that nothing leads to."""
        key = (ends, tuple(ohms for _, _, ohms in self._loads))
        if key not in self._known:
            self._known[key] = _resistances(ends, [ohms for _, _, ohms in self._loads], count)
        return self._known[key]

    def _passes(self, setting: int, red: int, black: int) -> bool:
        labels = self._labels[setting].tolist()
        onward: dict[int, set[int]] = {}
        for one in self._circuit.conductors:
            if one.one_way and bool(self._closed(one)[setting]):
                onward.setdefault(labels[self._place[one.tail]], set()).add(labels[self._place[one.head]])
        for a, b, ohms in self._loads:
            if ohms <= PASSED:
                onward.setdefault(labels[a], set()).add(labels[b])
                onward.setdefault(labels[b], set()).add(labels[a])
        reached, waiting = {labels[red]}, [labels[red]]
        while waiting:
            for there in onward.get(waiting.pop(), set()) - reached:
                reached.add(there)
                waiting.append(there)
        return labels[black] in reached


def apart(one: Ohms, other: Ohms) -> Yes:
    """readings.told_apart, for whole arrays at once; PASSING is apart from all else."""
    low, high = np.minimum(one, other), np.maximum(one, other)
    with np.errstate(invalid="ignore"):
        differ = (high - low > LEAST_OHMS + SLACK) & (high > LEAST_RATIO * low + SLACK)
    differ |= (one == PASSING) != (other == PASSING)
    return np.asarray(np.where(high > MOST_OHMS, low <= MOST_OHMS, differ), np.bool_)


def _renumbered(ends: Labels, count: int) -> Labels:
    """Ends that no terminal touches are told by their order only."""
    own: dict[int, int] = {}
    numbers = [int(one) if one < count else count + own.setdefault(int(one), len(own)) for one in ends]
    return np.array(numbers, np.int16)


def _resistances(ends: tuple[int, ...], ohms: Sequence[float], count: int) -> Ohms:
    """Resistance distances: from the pseudo-inverse L of the conductances' Laplacian, L[a,a] + L[b,b] - 2 L[a,b] (Klein
    and Randic, Journal of Mathematical Chemistry 12, 1993; from memory)."""
    laplacian = np.zeros((count, count))
    together = np.eye(count, dtype=np.bool_)
    for (a, b), one in zip(zip(ends[::2], ends[1::2], strict=True), ohms, strict=True):
        if a != b:
            together[a, b] = together[b, a] = True
            laplacian[[a, b], [a, b]] += 1 / one
            laplacian[[a, b], [b, a]] -= 1 / one
    for middle in range(count):
        together |= together[:, [middle]] & together[[middle], :]
    inverse = np.linalg.pinv(laplacian, hermitian=True) if count else laplacian
    found = np.full((count + 1, count + 1), np.inf)
    diagonal = np.diag(inverse)
    distance = diagonal[:, None] + diagonal[None, :] - 2 * inverse
    found[:count, :count] = np.where(together, np.maximum(distance, 0.0), np.inf)
    return found
