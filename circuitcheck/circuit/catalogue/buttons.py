"""Push buttons and emergency stops: contacts marked by EN 50005, worked by hand."""

from circuitcheck.circuit.catalogue.attributes import FLAG
from circuitcheck.circuit.catalogue.contacts import (
    CONTACT_RATINGS,
    CONTACT_SHAPES,
    all_marks,
    contact_conductors,
    numbered_poles,
    spare_marks,
)
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces
from circuitcheck.circuit.model import Digit, Moment

RELEASED, PRESSED, BETWEEN = 0, 1, 2


def read_button(part: Described) -> Pieces:
    """Values released and pressed. An emergency stop stays pressed until it is reset, which is a hand's doing too.

    A changeover contact leaves one side before it meets the other (or meets it before it leaves, where so marked):
    then there is a moment between the two. Contacts that only open or only close need none.
    """
    poles = numbered_poles(part.given.keywords, timed=False)
    changeover = any(pole.rest and pole.moved for pole in poles)
    bridging = part.given.has("make-before-break")
    moves = frozenset({(RELEASED, PRESSED), (PRESSED, RELEASED)})
    moments = (Moment("between released and pressed", moves),) if changeover else ()
    between = frozenset({BETWEEN}) if changeover and bridging else frozenset()
    conductors = contact_conductors(
        part, poles, part.digit, frozenset({RELEASED}) | between, frozenset({PRESSED}) | between
    )
    stays = part.given.has("latching") or (part.kind == "estop" and not part.given.has("momentary"))
    digit = Digit(part.name, "control", ("released", "pressed"), moments, None if stays else RELEASED)
    return Pieces(part.info(all_marks(poles), spare_marks(poles)), digits=(digit,), conductors=conductors)


TAKES = CONTACT_SHAPES | {
    "": CONTACT_RATINGS,
    "make-before-break": FLAG,
    "momentary": FLAG,
    "latching": FLAG,
    "key": FLAG,
}
FORMS = tuple(CONTACT_SHAPES)

KINDS = {
    "button": Kind("button", "button PB1 no", TAKES, read_button, FORMS, needs_form=True, digit=True),
    "estop": Kind("estop", "estop ES1 nc", TAKES, read_button, FORMS, needs_form=True, digit=True),
}
