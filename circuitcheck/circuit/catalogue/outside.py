"""Contacts and outputs of something outside the plan, which change by themselves."""

from circuitcheck.circuit.catalogue.attributes import FLAG
from circuitcheck.circuit.catalogue.contacts import CONTACT_RATINGS
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, only_one
from circuitcheck.circuit.model import Closed, Conductor, Digit

ON = 1


def read_outside(part: Described) -> Pieces:
    """A dry contact passes both ways; a sinking output draws from `out` into `com`, a sourcing one feeds `out`."""
    form = only_one(part, FORMS)
    tail, head = {"contact": ("1", "2"), "sinking": ("out", "com"), "sourcing": ("com", "out")}[form]
    marks = ("1", "2") if form == "contact" else ("out", "com")
    contact = Conductor(
        part.terminal(tail), part.terminal(head), "contact", part.name, part.place,
        Closed(part.digit, frozenset({ON})), one_way=form != "contact",
    )  # fmt: skip
    digit = Digit(part.name, "outside", ("off", "on"))
    return Pieces(part.info(marks), digits=(digit,), conductors=(contact,))


FORMS = ("contact", "sinking", "sourcing")

TAKES = {"": CONTACT_RATINGS} | dict.fromkeys(FORMS, FLAG)

KINDS = {
    "outside": Kind(
        "outside contact", "outside OUT1 contact", TAKES, read_outside, FORMS,
        needs_form=True, digit=True,
    ),
}  # fmt: skip
