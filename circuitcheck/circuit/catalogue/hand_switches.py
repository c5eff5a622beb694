"""Hand switches: positions, the throws they join, and the moments between positions.

At rest in a position, each pole joins its common to the throw of that position's name; a position named `off` has no
throw. On the way from one position to another a break-before-make switch has only what both positions share, a
make-before-break one has what either has. Where that equals one of the two positions, the way needs no moment.
"""

from circuitcheck.circuit.catalogue.attributes import FLAG, Shape
from circuitcheck.circuit.catalogue.contacts import CONTACT_RATINGS
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, only_one, refuse
from circuitcheck.circuit.model import Closed, Conductor, Digit, Moment
from circuitcheck.circuit.wording import article, listed

SWITCH_FORMS = {"spst": (1, 1), "dpst": (2, 1), "spdt": (1, 2), "dpdt": (2, 2), "3pdt": (3, 2), "4pdt": (4, 2)}
"""Form → poles, throws of each pole."""

Throws = frozenset[str]


def read_switch(part: Described) -> Pieces:
    """One digit that moves all poles together. A momentary one springs back to `off`; with no such position the plan
    doesn't say to where, and it counts as one that stays."""
    positions = _positions(part)
    pole_suffixes = _pole_suffixes(part, positions)
    joined = tuple(frozenset({name} - {"off"}) for name in positions)
    ways_through = _ways_through(joined, bridging=part.given.has("make-before-break"))
    moments = tuple(Moment(_moment_name(positions, moves), moves) for moves in ways_through.values())
    at_value = (*joined, *ways_through)
    throws = tuple(name for name in positions if name != "off")
    marks = tuple(f"{mark}{suffix}" for suffix in pole_suffixes for mark in ("com", *throws))
    spare = marks if len(pole_suffixes) > 1 else throws if len(throws) > 1 else ()
    conductors = tuple(
        Conductor(part.terminal(f"com{suffix}"), part.terminal(f"{throw}{suffix}"), "contact", part.name, part.place,
                  Closed(part.digit, frozenset(value for value, now in enumerate(at_value) if throw in now)))
        for suffix in pole_suffixes
        for throw in throws
    )  # fmt: skip
    springs = part.given.has("momentary") and "off" in positions
    digit = Digit(part.name, "control", positions, moments, positions.index("off") if springs else None)
    return Pieces(part.info(marks, spare), digits=(digit,), conductors=conductors)


def _positions(part: Described) -> tuple[str, ...]:
    words = part.given.words["positions"]
    names = tuple(word.text for word in words)
    for number, word in enumerate(words):
        if word.text in names[:number]:
            raise refuse(word.place, f"{part.called} has two positions named {word.text}", "Give each its own name.")
        if word.text == "com":
            raise refuse(word.place, "a position named com", "com is the mark of the common terminal.")
    return names


def _pole_suffixes(part: Described, positions: tuple[str, ...]) -> tuple[str, ...]:
    """ "" for a single pole, "1", "2" … for several; refuses positions that don't fit the form."""
    given = part.given
    throws = len(positions) - ("off" in positions)
    form = only_one(part, tuple(SWITCH_FORMS))
    poles, ways = SWITCH_FORMS.get(form, (int(given.value("", "poles") or 1), given.value("", "ways")))
    if not form and ways is None:
        rotary = f"`switch {part.called} 2 poles 4 ways positions off low mid high`"
        help = f"Write {listed(SWITCH_FORMS, 'or')}, or poles and ways: {rotary}."
        raise refuse(part.place, f"switch {part.called} has no form", help)
    # A rotary switch may use one of its ways as off and leave that throw without a name.
    fits = throws == ways or (not form and len(positions) == ways)
    if not fits:
        kind = f"{form} switch" if form else f"switch with {ways:g} ways"
        what = f"{part.called} is {article(kind)} but has {throws} positions that join something"
        help = f"Name {ways:g} positions after `positions`, and one more as `off` where it rests with all open."
        raise refuse(given.places["positions"], what, help)
    return ("",) if poles == 1 else tuple(str(number) for number in range(1, poles + 1))


def _ways_through(joined: tuple[Throws, ...], bridging: bool) -> dict[Throws, frozenset[tuple[int, int]]]:
    """What is joined on the way → the (from, to) moves that pass through it."""
    found: dict[Throws, set[tuple[int, int]]] = {}
    for start, before in enumerate(joined):
        for end, after in enumerate(joined):
            between = before | after if bridging else before & after
            if start != end and between not in (before, after):
                found.setdefault(between, set()).add((start, end))
    return {between: frozenset(moves) for between, moves in found.items()}


def _moment_name(positions: tuple[str, ...], moves: frozenset[tuple[int, int]]) -> str:
    if len(moves) > 2:
        return "between positions"
    start, end = min(moves)
    return f"between {positions[start]} and {positions[end]}"


TAKES = dict.fromkeys(SWITCH_FORMS, FLAG) | {
    "": Shape(("poles", "ways", *CONTACT_RATINGS.dimensions)),
    "positions": Shape(words=(2, 24), required=True),
    "make-before-break": FLAG,
    "break-before-make": FLAG,
    "momentary": FLAG,
    "latching": FLAG,
    "key": FLAG,
}

KINDS = {
    "switch": Kind(
        "switch", "switch S1 spdt positions raise lower", TAKES, read_switch, tuple(SWITCH_FORMS), digit=True
    ),
}
