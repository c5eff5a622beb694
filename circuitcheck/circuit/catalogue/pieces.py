"""What one part adds to a circuit, and what a reader of the catalogue is told about the part."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from circuitcheck.circuit.catalogue.attributes import Given, Shape
from circuitcheck.circuit.model import (
    Axis,
    Conductor,
    Digit,
    Limit,
    Load,
    Motor,
    PartInfo,
    Relay,
    Supply,
    Suppressor,
)
from circuitcheck.plan.source import Place, PlanError, Problem


class Described(NamedTuple):
    """A part as the plan describes it, judged by its kind.

    name: in full. scope: what goes before names in the same module ("R1."), "" outside modules.
    digit, load: the numbers that its digit and its first load get in the circuit.
    axes: every axis by full name, with its number in the circuit.
    """

    name: str
    scope: str
    kind: str
    label: str
    place: Place
    given: Given
    digit: int
    load: int
    axes: Mapping[str, tuple[int, Axis]]

    @property
    def called(self) -> str:
        """Its name as the plan writes it."""
        return self.name.removeprefix(self.scope)

    def info(self, marks: tuple[str, ...], optional: tuple[str, ...] = ()) -> PartInfo:
        """The part with these terminals, of which those in `optional` may be left without a wire."""
        return PartInfo(
            self.name,
            self.kind,
            self.label,
            marks,
            frozenset(self.terminal(mark) for mark in optional),
            self.given.ratings(),
            self.place,
            self.given.flags(),
        )

    def terminal(self, mark: str) -> str:
        """The full name of one of its terminals."""
        return f"{self.name}.{mark}"


class Pieces(NamedTuple):
    """What a part adds to a circuit. A part has at most one digit."""

    info: PartInfo
    digits: tuple[Digit, ...] = ()
    conductors: tuple[Conductor, ...] = ()
    loads: tuple[Load, ...] = ()
    supplies: tuple[Supply, ...] = ()
    relays: tuple[Relay, ...] = ()
    motors: tuple[Motor, ...] = ()
    limits: tuple[Limit, ...] = ()
    suppressors: tuple[Suppressor, ...] = ()


class Kind(NamedTuple):
    """One kind of part: what may be said of it, and how it becomes pieces of a circuit.

    noun: how messages name it. example: a statement that shows all it needs. forms: keywords of which a part's own
    replace those of its type, and of which `needs_form` asks for one at least.
    digit: whether a part of this kind is a digit of the state.
    """

    noun: str
    example: str
    takes: dict[str, Shape]
    read: Callable[[Described], Pieces]
    forms: tuple[str, ...] = ()
    needs_form: bool = False
    digit: bool = False


def only_one(part: Described, keywords: tuple[str, ...]) -> str:
    """Which of these keywords the part has, "" for none; refuses a part that has two of them."""
    named = [key for key in dict.fromkeys(part.given.keywords) if key in keywords]
    if len(named) > 1:
        what = f"{part.called} is both {named[0]} and {named[1]}"
        raise refuse(part.given.places[named[1]], what, "Keep one of them.")
    return named[0] if named else ""


def refuse(place: Place, what: str, help: str) -> PlanError:
    """What a reader raises about a part that makes no sense."""
    return PlanError((Problem(place, what, help),), ())
