"""Relays: plain, latching and timing, with what may be built in across the coil.

Where a plan gives no operate and release volts, an Omron MY (operates at 80 % of rated volts or below) and IEC 61810-1
(releases at 5 % or above, from memory) give the cautious ends.
"""

from circuitcheck.circuit.catalogue.attributes import FLAG, Shape
from circuitcheck.circuit.catalogue.contacts import (
    CONTACT_RATINGS,
    CONTACT_SHAPES,
    Pole,
    all_marks,
    contact_conductors,
    numbered_poles,
)
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces, only_one, refuse
from circuitcheck.circuit.catalogue.resistance import resistance
from circuitcheck.circuit.model import Coil, Conductor, Digit, Load, Relay, Suppressor

ASSUMED_COIL_WATTS = 0.9
"""Of a relay whose coil resistance is not given: common practice for a small power relay, no source."""
OPERATE_SHARE, RELEASE_SHARE = 0.8, 0.05
INPUT_OHMS = 10_000.0
"""Of a timing relay's control input: it takes about a milliampere. Common practice, no source."""
DIODE_SLOWS = 3.0
RELEASED, OPERATED = 0, 1
TIMED = ("on-delay", "off-delay", "one-shot", "pulse")
GUIDED = "force-guided"
"""One of its features: mechanically linked contacts of EN 50205 (IEC 61810-3, forcibly guided)."""
FUNCTIONS = (*TIMED, "latching")


def read_relay(part: Described) -> Pieces:
    """Coil A1 A2 (and B1 B2 of a latching one, B1 of a controlled timing relay: EN 50005), contacts, and a digit:
    released, operated.

    A one-shot is operated for its time only; then it is spent until its coil drops. A pulse relay is operated, pausing,
    operated … for as long as its coil is energised (asymmetric recycle, pulse first: IEC 61812-1, from memory).
    """
    function = only_one(part, FUNCTIONS) or "plain"
    timed = function in TIMED
    poles = numbered_poles(part.given.keywords, timed)
    _refuse_half_guided(part, poles)
    coil_marks = ("A1", "A2", "B1", "B2") if function == "latching" else ("A1", "A2")
    coils = tuple(_coil_load(part, *pair) for pair in zip(coil_marks[::2], coil_marks[1::2], strict=True))
    inputs = (_input_load(part),) if _is_controlled(part, timed) else ()
    marks = (*coil_marks, "B1") if inputs else coil_marks
    built_in = tuple(_built_in(part, coil) for coil in coils)
    third = {"one-shot": ("spent",), "pulse": ("pausing",)}.get(function, ())
    values = ("released", "operated", *third)
    at_rest = frozenset(range(len(values))) - {OPERATED}
    contacts = contact_conductors(part, poles, part.digit, at_rest, frozenset({OPERATED}))
    return Pieces(
        part.info((*marks, *all_marks(poles)), all_marks(poles)),
        digits=(Digit(part.name, "relay", values),),
        conductors=(*contacts, *(one for pieces in built_in for one in pieces.conductors)),
        loads=(*coils, *inputs, *(one for pieces in built_in for one in pieces.loads)),
        relays=(_relay(part, function),),
        suppressors=tuple(one for pieces in built_in for one in pieces.suppressors),
    )


def _refuse_half_guided(part: Described, poles: tuple[Pole, ...]) -> None:
    """Guided contacts are at least one that opens and one that closes, never both closed (EN 50205)."""
    if not part.given.has(GUIDED):
        return
    if not (any(pole.rest for pole in poles) and any(pole.moved for pole in poles)):
        what = f"{part.called} is force-guided and lacks a contact that opens, or one that closes"
        help = "Guided contacts keep each other from closing: write e.g. `relay K1 no no nc force-guided coil 24 V`."
        raise refuse(part.given.places[GUIDED], what, help)
    if part.given.has("make-before-break"):
        what = f"{part.called} is both force-guided and make-before-break"
        raise refuse(part.given.places[GUIDED], what, "Of guided contacts no two opposite ones ever close. Keep one.")


def _relay(part: Described, function: str) -> Relay:
    given = part.given
    rated = given.value("coil", "volts") or 0.0
    operate = given.value("operate", "volts") or OPERATE_SHARE * rated
    release = given.value("release", "volts") or RELEASE_SHARE * rated
    if release >= operate:
        place = given.places.get("release", given.places.get("operate", part.place))
        what = f"{part.called} would release at {release:g} V and operate at {operate:g} V"
        raise refuse(place, what, "A coil releases at fewer volts than it operates at.")
    delay = (given.value(function, "seconds") or 0.0) if function in TIMED else 0.0
    pause = given.value("pause", "seconds")
    if pause and function != "pulse":
        raise refuse(given.places["pause"], f"{part.called} pauses, but does not pulse", "Write `pulse 2 s pause 1 s`.")
    if given.value("", "amps") and given.value("contacts", "amps"):
        what = f"the amps of {part.called}'s contacts are given twice"
        raise refuse(given.places["contacts"], what, "Keep those after `contacts`, and take the bare ones away.")
    coil, second = Coil(part.load, operate, release, given.value("coil", "henries") or 0.0), part.load + 1
    reset = coil._replace(load=second) if function == "latching" else None
    control = Coil(second, operate, release) if given.has("controlled") else None
    return Relay(
        part.name, part.digit, function, coil, reset, delay,
        given.span("operate", "seconds"), given.span("release", "seconds"), given.has("make-before-break"),
        _release_with_diode(part), (pause or delay) if function == "pulse" else 0.0, control,
    )  # fmt: skip


def _release_with_diode(part: Described) -> tuple[float, float] | None:
    """How long it takes to release with a plain diode across its coil.

    One figure is the longest time, the shortest is as without; a range stands for itself. Where the plan gives no
    figure the longest is three times as long (Finder 99.01 diode module for relay sockets: release time about x3).
    """
    usual, slower = part.given.span("release", "seconds"), part.given.span("release with diode", "seconds")
    if slower is None:
        return usual and (usual[0], DIODE_SLOWS * usual[1])
    place = part.given.places["release with diode"]
    if usual is None:
        what = f"{part.called} has a release time with a diode, and none without"
        raise refuse(place, what, "Write e.g. `release 2..5 ms, 20 ms with diode`.")
    if slower[1] < usual[1] or slower[0] < usual[0]:
        what = f"{part.called} would release sooner with a diode than without"
        raise refuse(place, what, "A diode across a coil lets its current last longer: write the greater time last.")
    return (usual[0] if slower[0] == slower[1] else slower[0], slower[1])


def _coil_load(part: Described, a: str, b: str) -> Load:
    volts = part.given.value("coil", "volts") or 0.0
    ohms = resistance(part.given, "coil", volts)
    name = part.name if a == "A1" else f"{part.name}.{a}-{b}"
    return Load(
        name, part.name, "coil", part.terminal(a), part.terminal(b), volts,
        volts**2 / ASSUMED_COIL_WATTS if ohms is None else ohms, ohms is None, inductive=True, place=part.place,
    )  # fmt: skip


def _is_controlled(part: Described, timed: bool) -> bool:
    if part.given.has("controlled") and not timed:
        what = f"{part.called} is controlled, but has no time to control"
        help = "A control input B1 belongs to a timing relay: write e.g. `off-delay 3 s controlled`."
        raise refuse(part.given.places["controlled"], what, help)
    return part.given.has("controlled")


def _input_load(part: Described) -> Load:
    """The input stands at B1 against A2, and is worked by the same volts as the coil."""
    name, volts = part.terminal("B1"), part.given.value("coil", "volts") or 0.0
    return Load(name, part.name, "input", name, part.terminal("A2"), volts, INPUT_OHMS, True, False, part.place)


def _built_in(part: Described, coil: Load) -> Pieces:
    """What `with` puts across a coil. A diode's cathode is at A1, as relay makers fit it."""
    info = part.info(())
    what = next((word.text for word in part.given.words.get("with", ())), "")
    if what == "diode":
        diode = Conductor(coil.b, coil.a, "diode", part.name, part.place, one_way=True)
        return Pieces(info, conductors=(diode,), suppressors=(Suppressor(part.name, what, coil.b, coil.a, 0.0, True),))
    if what != "resistor":
        return Pieces(info)
    ohms = part.given.value("with", "ohms")
    if ohms is None:
        help = "Write e.g. `with resistor 680 ohm`."
        raise refuse(part.given.places["with"], f"the resistor in {part.called} has no ohms", help)
    name = f"{part.name}.{coil.a.rsplit('.', 1)[1]}-{coil.b.rsplit('.', 1)[1]} resistor"
    resistor = Load(name, part.name, what, coil.a, coil.b, 0.0, ohms, False, inductive=False, place=part.place)
    return Pieces(info, loads=(resistor,), suppressors=(Suppressor(part.name, what, coil.a, coil.b, ohms, True),))


MOVES = Shape(("volts", "seconds"), ranged=("seconds",))
DELAY = Shape(("seconds",), ("seconds",))
TAKES = CONTACT_SHAPES | {
    "": Shape(("amps",)),
    "coil": Shape(("volts", "ohms", "watts", "henries"), ("volts",), required=True),
    "contacts": CONTACT_RATINGS,
    "operate": MOVES,
    "release": MOVES,
    "release with diode": Shape(("seconds",), ("seconds",), ranged=("seconds",)),
    "with": Shape(("ohms",), words=(1, 1), choices=("diode", "resistor")),
    "make-before-break": FLAG,
    "break-before-make": FLAG,
    GUIDED: FLAG,
    "latching": FLAG,
    "controlled": FLAG,
    "on-delay": DELAY,
    "off-delay": DELAY,
    "one-shot": DELAY,
    "pulse": DELAY,
    "pause": DELAY,
}

KINDS = {
    "relay": Kind("relay", "relay K1 dpdt coil 12 V 160 ohm", TAKES, read_relay, tuple(CONTACT_SHAPES), digit=True),
}
