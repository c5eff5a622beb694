"""Contacts that one mover works: their marks by EN 50005, and the conductors they are.

The first digit of a mark numbers the contact, the second says what it does: .1 common or normally closed, .2 normally
closed, .4 normally open (.3 .4 where it stands alone); timed contacts have .5 .6 and .7 .8 instead.
"""

from typing import NamedTuple

from circuitcheck.circuit.catalogue.attributes import CONTACT, Shape
from circuitcheck.circuit.catalogue.pieces import Described
from circuitcheck.circuit.model import Closed, Conductor

CONTACT_FORMS: dict[str, tuple[str, ...]] = {
    "no": ("no",),
    "nc": ("nc",),
    "spdt": ("spdt",),
    "dpdt": ("spdt",) * 2,
    "3pdt": ("spdt",) * 3,
    "4pdt": ("spdt",) * 4,
}
"""What one keyword stands for, contact by contact."""

CONTACT_SHAPES: dict[str, Shape] = dict.fromkeys(CONTACT_FORMS, CONTACT)

CONTACT_RATINGS = Shape(("amps", "volts", "ohms"))
"""What each contact may carry and switch, and its resistance."""


class Pole(NamedTuple):
    """Marks: `common` is joined to `rest` while nothing works the contact and to `moved` while it is worked."""

    common: str
    rest: str
    moved: str

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks there are: a contact that only opens or only closes lacks one."""
        return tuple(mark for mark in self if mark)


def single_contacts(keywords: tuple[str, ...]) -> tuple[str, ...]:
    """ "no", "nc" or "spdt" for each contact that the keywords name, in order."""
    return tuple(single for keyword in keywords for single in CONTACT_FORMS.get(keyword, ()))


def numbered_poles(keywords: tuple[str, ...], timed: bool) -> tuple[Pole, ...]:
    """The contacts with marks by EN 50005, numbered in order."""
    forms = TIMED_MARKS if timed else PLAIN_MARKS
    singles = enumerate(single_contacts(keywords), 1)
    return tuple(Pole(*(f"{number}{digit}" if digit else "" for digit in forms[single])) for number, single in singles)


PLAIN_MARKS = {"nc": ("1", "2", ""), "no": ("3", "", "4"), "spdt": ("1", "2", "4")}
TIMED_MARKS = {"nc": ("5", "6", ""), "no": ("7", "", "8"), "spdt": ("5", "6", "8")}


def lettered_poles(keywords: tuple[str, ...]) -> tuple[Pole, ...]:
    """The contacts marked com, nc, no, with a number behind where there are several poles."""
    singles = single_contacts(keywords)
    suffixes = [""] if len(singles) == 1 else [str(number) for number in range(1, len(singles) + 1)]
    return tuple(
        Pole(f"com{suffix}", "" if single == "no" else f"nc{suffix}", "" if single == "nc" else f"no{suffix}")
        for single, suffix in zip(singles, suffixes, strict=True)
    )


def all_marks(poles: tuple[Pole, ...]) -> tuple[str, ...]:
    """Every mark of the poles, in order."""
    return tuple(mark for pole in poles for mark in pole.marks)


def spare_marks(poles: tuple[Pole, ...]) -> tuple[str, ...]:
    """Those that a builder may leave without a wire: of changeovers, and of every pole where there are several."""
    return tuple(mark for pole in poles for mark in pole.marks if len(poles) > 1 or len(pole.marks) == 3)


def contact_conductors(part: Described, poles: tuple[Pole, ...], digit: int, rest: frozenset[int],
                       moved: frozenset[int]) -> tuple[Conductor, ...]:  # fmt: skip
    """Each pole's throws as conductors, closed where the digit has one of the values at rest, or moved."""
    return tuple(
        Conductor(part.terminal(pole.common), part.terminal(throw), "contact", part.name, part.place,
                  Closed(digit, values))
        for pole in poles
        for throw, values in ((pole.rest, rest), (pole.moved, moved))
        if throw
    )  # fmt: skip
