"""Contacts and outputs of something outside the plan, which change by themselves."""

from circuitcheck.circuit.catalogue.attributes import FLAG
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, refuse
from circuitcheck.circuit.model import Closed, Conductor, Digit

ON = 1


def read_outside(part: Described) -> Pieces:
    """A dry contact passes both ways; a sinking output draws from `out` into `com`, a sourcing one feeds `out`."""
    forms = [key for key in part.given.keywords if key in FORMS]
    if len(forms) > 1:
        raise refuse(part.given.places[forms[1]], f"{part.called} is both {forms[0]} and {forms[1]}", "Keep one of them.")
    tail, head = {"contact": ("1", "2"), "sinking": ("out", "com"), "sourcing": ("com", "out")}[forms[0]]
    marks = ("1", "2") if forms == ["contact"] else ("out", "com")
    contact = Conductor(
        part.terminal(tail), part.terminal(head), "contact", part.name, part.place,
        Closed(part.digit, frozenset({ON})), one_way=forms != ["contact"],
    )  # fmt: skip
    digit = Digit(part.name, "outside", ("off", "on"))
    return Pieces(part.info(marks), digits=(digit,), conductors=(contact,))


FORMS = ("contact", "sinking", "sourcing")

KINDS = {
    "outside": Kind(
        "outside contact", "outside OUT1 contact", dict.fromkeys(FORMS, FLAG), read_outside, FORMS,
        needs_form=True, digit=True,
    ),
}  # fmt: skip
