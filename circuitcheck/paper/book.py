"""A build book: everything that is soldered, tested and used from, as it stands on paper."""

from typing import NamedTuple

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import TooWide
from circuitcheck.analysis.surroundings import TooManyCases
from circuitcheck.analysis.table import TooManyRows
from circuitcheck.circuit.model import Circuit
from circuitcheck.paper.crowding import Crowd, crowds_of
from circuitcheck.paper.cut_list import Roll, cut_list
from circuitcheck.paper.fuse_card import FuseLine, fuse_card
from circuitcheck.paper.labels import Labels, labels_of
from circuitcheck.paper.operating import Card, operating_card
from circuitcheck.paper.parts_list import Item, parts_list
from circuitcheck.paper.pin_outs import PinOut, pin_outs
from circuitcheck.paper.strips import Strip, strips_of
from circuitcheck.paper.wire_list import WireList, wire_list
from circuitcheck.sizing.sizing import Sizing, size_circuit


class Book(NamedTuple):
    """card: None where it can't be worked out, or has more combinations of controls than anybody would read of."""

    circuit: Circuit
    wires: WireList
    crowds: tuple[Crowd, ...]
    rolls: tuple[Roll, ...]
    strips: tuple[Strip, ...]
    pin_outs: tuple[PinOut, ...]
    labels: Labels
    items: tuple[Item, ...]
    fuses: tuple[FuseLine, ...]
    card: Card | None


def build_book(facts: Facts) -> Book:
    """Every list, a line a file. Sizes, and what controls do, may be out of reach in a large box; lists of what is
    soldered never are."""
    circuit, sizing = facts.circuit, _sizing(facts)
    return Book(
        circuit,
        wire_list(circuit),
        crowds_of(circuit),
        cut_list(circuit),
        strips_of(circuit),
        pin_outs(circuit),
        labels_of(circuit),
        parts_list(circuit, sizing),
        fuse_card(facts, sizing),
        _card(facts),
    )


def _sizing(facts: Facts) -> Sizing | None:
    try:
        return size_circuit(facts)
    except (TooWide, TooManyCases):
        return None


def _card(facts: Facts) -> Card | None:
    try:
        return operating_card(facts)
    except (TooWide, TooManyCases, TooManyRows):
        return None
