"""The operating card in sentences: what the controls do, how each thing begins and ends, what to do in trouble."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import listed, sentence
from circuitcheck.paper.doings import is_driven
from circuitcheck.paper.handling import Handled
from circuitcheck.paper.operating import Card, Still
from circuitcheck.paper.signals import Signal
from circuitcheck.reports.card_words import (
    called,
    doing_words,
    moved,
    outcome,
    place_words,
    places_words,
    position_words,
    run_on_words,
    start_words,
    turned_words,
)

BEFORE: Final = (
    "Look where everything goes that moves; keep people, hands, hair and cloth out of it.",
    "Whoever works it sees the whole way, and has been shown how it stops.",
)
NEVER: Final = (
    "Never reach into what moves, stand on it or under it, while the supply is plugged in.",
    "Never tie, tape or wedge a button, a switch or a limit switch.",
    "Never open the box while the supply is plugged in, and never push a relay by hand.",
    "Never put in a larger fuse than the card in the lid says, nor wire or foil instead of one.",
)
"""Both common practice, no source."""


class Sheet(NamedTuple):
    """One thing that the prop does: its title, how it begins, and (when, then) what happens."""

    title: str
    begin: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]


class Control(NamedTuple):
    """A control, and (position, what that does) for each of its positions that does anything."""

    name: str
    does: tuple[tuple[str, str], ...]


class CardReport(NamedTuple):
    """All that the card says, in the order in which it is read."""

    before: tuple[str, ...]
    controls: tuple[Control, ...]
    sheets: tuple[Sheet, ...]
    signals: tuple[str, ...]
    trouble: tuple[str, ...]
    nevers: tuple[str, ...]


def card_report(circuit: Circuit, card: Card) -> CardReport:
    """A card in words."""
    return CardReport(
        BEFORE,
        tuple(Control(called(circuit, circuit.digits[number].name), tuple(_does(circuit, card, number)))
              for number in card.controls),
        tuple(_sheets(circuit, card)),
        tuple(_signal(circuit, one) for one in card.signals),
        tuple(_trouble(circuit, card)),
        (*NEVER, *_nevers(circuit, card)),
    )  # fmt: skip


def _does(circuit: Circuit, card: Card, number: int) -> Iterator[tuple[str, str]]:
    """What a control's positions are for, and what they end."""
    digit = circuit.digits[number]
    for value, word in enumerate(digit.values):
        wanted = [one for one in card.handled if _is_for(circuit, one, number, value)]
        words = [doing_words(circuit, one.doing) for one in wanted]
        if len({one.doing.part for one in wanted}) < len(wanted) == len(card.handled):
            yield word, "starts whatever the other controls are set to"
        elif len({one.doing.part for one in wanted}) < len(wanted):
            yield word, f"{listed(words, 'or')}, depending on what else is set"
        elif wanted:
            yield word, listed(words, "and")
        else:
            yield from ((word, said) for said in _ends(circuit, card, number, value))


def _is_for(circuit: Circuit, one: Handled, number: int, value: int) -> bool:
    """Does the doing begin with it, or need it? That an emergency stop isn't pressed is nothing that it is for."""
    is_switch = circuit.parts[circuit.digits[number].name].kind == "switch"
    needed = any(value in values for digit, values in one.needs if digit == number) and is_switch
    return needed or any((start.digit, start.value) == (number, value) for start in one.starts or ())


def _ends(circuit: Circuit, card: Card, number: int, value: int) -> Iterator[str]:
    ended = []
    for one in card.handled:
        turned = next((it for it in one.turned if (it.digit, it.value) == (number, value)), None)
        if turned and turned.until:
            yield f"{moved(circuit, one.doing.part)} goes on to {places_words(turned.until)}, and stops there"
        elif turned and one.doing.word not in turned.words:
            ended.append(doing_words(circuit, one.doing))
    if ended:
        yield "ends everything" if len(ended) == len(card.handled) > 1 else f"ends: {'; '.join(ended)}"


def _sheets(circuit: Circuit, card: Card) -> Iterator[Sheet]:
    """One for each doing; parts that do the same at the same hands share one."""
    together: dict[tuple[object, ...], list[Handled]] = {}
    for one in card.handled:
        does = one.doing.toward or one.doing.word
        alike = one.needs, one.starts, one.stops_at, one.turned, one.runs_on, does
        together.setdefault(alike, []).append(one)
    for ones in together.values():
        title = sentence(listed([doing_words(circuit, one.doing) for one in ones], "and"))
        yield Sheet(title, tuple(_begin(circuit, ones[0])), tuple(_rows(circuit, ones[0])))


def _begin(circuit: Circuit, one: Handled) -> Iterator[str]:
    if one.starts is None:
        yield "There is no plain way to it from a prop that was just switched on."
        return
    supplies = "the supply" if len(circuit.supplies) == 1 else "all supplies"
    is_on = "is on" if len(circuit.supplies) == 1 else "are on"
    yield f"Switch {supplies} on." if one.starts else f"It begins as soon as {supplies} {is_on}."
    touched = {start.digit for start in one.starts}
    for number, values in one.needs:
        digit = circuit.digits[number]
        if number not in touched and digit.kind == "control" and digit.springs_to is None:
            yield f"See that {listed([position_words(circuit, number, value) for value in values], 'or')}."
    yield from (f"{sentence(start_words(circuit, start))}." for start in one.starts)


def _rows(circuit: Circuit, one: Handled) -> Iterator[tuple[str, str]]:
    """What happens at the end of its way, when a control is let go or turned, and without power."""
    if one.doing.axis is not None:
        axis = circuit.axes[one.doing.axis]
        place = one.stops_at or one.doing.toward
        when = f"the {axis.name} gets to {place_words(place)}" if place else f"the {axis.name} has gone round once"
        on = "it goes on: nothing stops it by itself, so stop it in time"
        places = circuit.digits[axis.digit].values
        further = run_on_words(circuit, one, axis.digit, places.index(one.stops_at)) if one.stops_at else ""
        yield when, f"it stops by itself{further}" if one.stops_at else on
    if one.doing.word not in one.waited:
        yield "nobody does anything more", f"after its time it {outcome(one.waited)}"
    for turned in one.turned:
        when, then = turned_words(circuit, one, turned)
        if then:
            yield when, then


def _signal(circuit: Circuit, signal: Signal) -> str:
    """ "Lamp L1 (deck moving) is lit while the deck (M1) is driven, and only then."."""
    verb = "is lit" if circuit.parts[signal.part].kind == "lamp" else "sounds"
    if signal.motors:
        driven = "is driven" if len(signal.motors) == 1 else "are driven"
        what = f"{listed([moved(circuit, motor) for motor in signal.motors], 'or')} {driven}"
    elif signal.doing:
        what = doing_words(circuit, signal.doing)
    else:
        what = f"{called(circuit, signal.supply)} is on"
    return f"{sentence(called(circuit, signal.part))} {verb} while {what}, and only then."


def _trouble(circuit: Circuit, card: Card) -> Iterator[str]:
    """What to do, the quickest first, and what then becomes of what moves."""
    for stop in card.stops:
        name = called(circuit, circuit.digits[stop.digit].name)
        yield f"Hit {name}: {_become(circuit, stop.pressed)}"
    no_stop = "" if card.stops else "There is no emergency stop. "
    plugs = "the plug of the supply" if len(circuit.supplies) == 1 else "the plugs of all supplies"
    yield f"{no_stop}Pull {plugs}: {_become(circuit, card.power_off)}"
    for stop in card.stops:
        name = called(circuit, circuit.digits[stop.digit].name)
        if stop.starting:
            motors = _motors(circuit, stop.starting)
            yield f"When {name} is reset {motors} may start at once: set the controls back first."
        else:
            yield f"Resetting {name} starts nothing by itself; reset it once the trouble is found."
    if card.starting:
        motors = _motors(circuit, card.starting)
        yield f"When the power returns {motors} may start with nobody at the controls: set them back first."
    elif circuit.motors:
        yield "When the power returns nothing starts to move by itself."
    yield "Smoke, a smell, a fuse that blows, anything that isn't as told here: unplug it and call the builder."


def _become(circuit: Circuit, still: tuple[Still, ...]) -> str:
    alike: dict[frozenset[str], list[str]] = {}
    for one in still:
        alike.setdefault(one.words, []).append(one.motor)
    ends = []
    for words, motors in alike.items():
        each = ": each" if len(motors) > 1 else ""
        ends.append(f"{_motors(circuit, motors)}{each} {'may go on' if any(map(is_driven, words)) else outcome(words)}")
    return f"{'; '.join(ends) or 'everything ends'}."


def _motors(circuit: Circuit, motors: "tuple[str, ...] | list[str]") -> str:
    return listed([moved(circuit, motor) for motor in motors], "and")


def _nevers(circuit: Circuit, card: Card) -> Iterator[str]:
    """What is never to be done to this prop."""
    for connector, motors in card.unplugged:
        held = _motors(circuit, motors)
        yield f"Never pull {called(circuit, connector)} while anything moves or hangs: unplugged, nothing holds {held}."
    loose = [one.motor for one in card.power_off if "coasting" in one.words]
    if loose:
        yield f"Never rely on it to stay where it stops: nothing holds {_motors(circuit, loose)}. Prop what can fall."
    endless = [one.doing for one in card.handled if one.doing.axis is not None and not one.stops_at]
    if endless:
        told = listed(dict.fromkeys(moved(circuit, doing.part) for doing in endless), "and")
        yield f"Never leave it running unwatched: nothing stops {told} by itself."
