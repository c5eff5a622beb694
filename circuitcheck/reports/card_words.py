"""How the operating card words what hands do and what follows: for a borrower who knows nothing of electricity."""

from math import ceil, degrees
from typing import Final

from circuitcheck.analysis.motion.rooms import shaft_metres
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import listed
from circuitcheck.paper.doings import Doing, is_driven
from circuitcheck.paper.handling import Handled, Start, Turned

STOPPED: Final = {
    frozenset({"braked"}): "stops quickly and is held (the motor brakes)",
    frozenset({"coasting"}): "runs on until it comes to rest by itself (nothing holds it)",
    frozenset({"braked one way"}): "stops quickly one way and runs on the other way",
    frozenset({"weak"}): "creeps or hums",
    frozenset({"off"}): "ends",
}
"""What a borrower sees where it no longer goes on."""
NOUNS: Final = {"estop": "emergency stop", "outside": "device"}
"""What a control is called, where that isn't what the plan calls its kind."""


def called(circuit: Circuit, name: str) -> str:
    """ "switch S1", "lamp L1 (deck moving)"."""
    info = circuit.parts[name]
    label = f" ({info.label})" if info.label else ""
    noun = NOUNS.get(info.kind, "key switch" if "key" in info.features else info.kind)
    return f"{noun} {name}{label}"


def moved(circuit: Circuit, motor: str) -> str:
    """What a motor moves, with its name: "the deck (M1)", "motor M1 (fan)"."""
    axis = next(one.axis for one in circuit.motors if one.name == motor)
    label = circuit.parts[motor].label
    if axis is None:
        return called(circuit, motor)
    return f"the {circuit.axes[axis].name} ({motor}{f', {label}' if label else ''})"


def doing_words(circuit: Circuit, doing: Doing) -> str:
    """ "the deck (M1) goes toward top", "lamp L1 (lantern) is lit"."""
    if doing.word == "on":
        verb = {"lamp": "is lit", "buzzer": "sounds", "solenoid": "pulls"}[circuit.parts[doing.part].kind]
        return f"{called(circuit, doing.part)} {verb}"
    way, _, speed = doing.word.partition(" ")
    turning = (
        f"goes toward {doing.toward}" if doing.toward else f"turns {'forward' if way == 'forward' else 'in reverse'}"
    )
    return f"{moved(circuit, doing.part)} {turning}{f', {speed}' if speed else ''}"


def start_words(circuit: Circuit, start: Start) -> str:
    """ "turn switch S1 to raise", "press button START and let go", "wait about 3 s"."""
    digit = circuit.digits[start.digit]
    if digit.kind == "relay":
        return f"wait about {start.seconds:g} s"
    if digit.kind == "axis":
        return f"the {digit.name} goes on to {place_words(digit.values[start.value])} by itself"
    others = " (that is not up to you)" if digit.kind == "outside" else ""
    return hand_words(circuit, start.digit, start.value, start.held) + others


def place_words(place: str) -> str:
    """ "top", "somewhere between bottom and top"."""
    return f"somewhere {place}" if place.startswith("between ") else place


def places_words(places: tuple[str, ...]) -> str:
    """The same of several."""
    return listed([place_words(place) for place in places], "or")


def hand_words(circuit: Circuit, number: int, value: int, held: bool) -> str:
    """What a hand does at a control. held: it has to stay there."""
    digit = circuit.digits[number]
    name, word = called(circuit, digit.name), digit.values[value]
    springs = digit.springs_to not in (None, value)
    if digit.kind == "outside":
        return f"{name} switches {word}"
    if digit.springs_to == value:
        return f"let go of {name}"
    if word == "released":
        return f"reset {name}"
    if word == "pressed":
        return f"hold {name} pressed" if held else f"press {name}{' and let go' if springs else ''}"
    if springs:
        return f"hold {name} at {word}" if held else f"turn {name} to {word} and let go"
    return f"turn {name} to {word}"


def position_words(circuit: Circuit, number: int, value: int) -> str:
    """How a control stands: "emergency stop ES1 is not pressed in", "switch S1 is at raise"."""
    digit = circuit.digits[number]
    name, word = called(circuit, digit.name), digit.values[value]
    pressed = {"pressed": "is pressed in", "released": "is not pressed in"}
    return f"{name} {pressed.get(word, f'is at {word}')}"


def turned_words(circuit: Circuit, one: Handled, turned: Turned) -> tuple[str, str]:
    """When this is done, that happens; "" where nothing does that anybody would ask about."""
    digit = circuit.digits[turned.digit]
    if digit.kind == "supply":
        several = len(circuit.supplies) > 1
        when = f"{called(circuit, digit.name)} fails or is unplugged" if several else "the power fails or is unplugged"
    else:
        when = f"{'' if digit.kind == 'outside' else 'you '}{hand_words(circuit, turned.digit, turned.value, False)}"
    if turned.words == {one.doing.word}:
        begun_with = any(start.digit == turned.digit for start in one.starts or ())
        asked = (digit.springs_to == turned.value and begun_with) or digit.kind == "supply"
        return when, "it goes on" if asked else ""
    further = run_on_words(circuit, one, turned.digit, turned.value)
    return when.removesuffix(" and let go"), _ended(one, turned) + (further if _stops(one, turned) else "")


def _stops(one: Handled, turned: Turned) -> bool:
    """Does it end where it is, without going on or back first?"""
    return not turned.until and not any(map(is_driven, turned.words)) and one.doing.word not in turned.words


def run_on_words(circuit: Circuit, one: Handled, digit: int, value: int) -> str:
    """ ", after up to 10 degrees more"; "" where the plan has no figures for it."""
    radians = next((radians for *cause, radians in one.runs_on if cause == [digit, value]), 0.0)
    metres = one.doing.axis is not None and shaft_metres(circuit.axes[one.doing.axis])
    way = _metres_words(radians * metres[1]) if metres else _degrees_words(degrees(radians))
    return f", after up to {way} more" if radians else ""


def _degrees_words(turned: float) -> str:
    """Rounded upward, as fine as anybody sees: "8 degrees", "1.5 turns"."""
    if turned > 360:
        return f"{ceil(turned / 180) / 2:g} turns"
    return f"{ceil(turned)} degrees" if turned <= 10 else f"{ceil(turned / 5) * 5} degrees"


def _metres_words(metres: float) -> str:
    """ "2 cm (a finger's width)". Fingers are about 2 cm wide, hands 8 to 10 (common practice, no source)."""
    centimetres = max(ceil(metres * 100 - 1e-9), 1)
    beside = {2: " (a finger's width)", 8: " (a hand's width)", 9: " (a hand's width)", 10: " (a hand's width)"}
    return f"{centimetres} cm{beside.get(centimetres, '')}"


def _ended(one: Handled, turned: Turned) -> str:
    if turned.until:
        return f"it goes on to {places_words(turned.until)}, and stops there"
    way, _, speed = one.doing.word.partition(" ")
    driven = {word.partition(" ")[0] for word in turned.words if is_driven(word)}
    if driven - {way}:
        return "it goes the other way, as far as it can"
    if speed and turned.words == {f"{way} {'slow' if speed == 'fast' else 'fast'}"}:
        return f"it goes on, {'slower' if speed == 'fast' else 'faster'}"
    if one.doing.word in turned.words:
        return f"it goes on, or {outcome(turned.words - {one.doing.word})}"
    return f"it {outcome(turned.words)}"


def outcome(words: frozenset[str]) -> str:
    """What becomes of it, where it doesn't go on."""
    return listed(sorted(STOPPED.get(frozenset({word}), word) for word in words), "or")
