"""A motor that is driven the wrong way for the moment in which contacts travel."""

from collections.abc import Iterator

from circuitcheck.analysis.changeover import Apart, Travelling, poles_apart, while_travelling
from circuitcheck.analysis.episodes import episodes_of, passed_unexplained, story_into
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.states import States
from circuitcheck.analysis.vicinity import first_found, is_ruled_out
from circuitcheck.checks.check import Check, Evidence, Example

CHECK = Check(
    name="wrong-way-pulse",
    severity="warning",
    finds="A motor that is driven for the moment of a changeover in a direction in which neither what went before nor "
    "what comes after drives it.",
    proves="No moment of a changeover drives a motor in a direction in which neither what went before nor what comes "
    "after drives it.",
    why="The prop jerks the wrong way, against its gear and against whoever stands there, and the contact that ends "
    "the pulse breaks the motor's starting current.",
    how="Each pole of each moving relay is put at either side, or between, for itself, and hand switches between "
    "their positions, wherever operation gets to.",
    remedy="Take the two leads of the motor to the commons of one relay, or let a contact cut the feed before the "
    "direction changes.",
    limits="A motor left open for the few milliseconds of travel is normal and not told. How far a pulse turns the "
    "motor is not worked out.",
    wrong=(
        Example(
            "a curtain whose two relays are pulled in together to brake: the quicker one kicks the motor, either way",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spst positions off on
            relay  K1 K2 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 10 A                            #! wrong-way-pulse wrong-way-pulse
            rung   PS.+, F1, S1, K1.A1-A2, PS.-
            rung   S1.on, K2.A1-A2, PS.-
            rung   M1.+, K1.11-14, F1.2
            rung   M1.-, K2.11-14, F1.2
            rung   K1.12, PS.-
            rung   K2.12, PS.-
            """,
        ),
    ),
    right=(
        Example(
            "one relay with two poles, the motor's leads on its commons: a late pole brakes the motor for a moment",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            switch S1 spdt positions open off close
            relay  K1 dpdt coil 12 V 160 ohm with resistor 680 ohm operate 8..12 ms release 2..4 ms "run"
            relay  K2 dpdt coil 12 V 160 ohm with diode operate 3..6 ms release 8..15 ms "direction"
            diode  D1 D2
            motor  M1 12 V stall 10 A
            rung   PS.+, F1, S1.com-open, D1, K1.A1-A2, PS.-
            rung   S1.close, D2, K1.A1
            rung   S1.close, K2.A1-A2, PS.-
            rung   F1.2, K1.14-11, K2.12, K2.24
            rung   PS.-, K1.12, K2.22, K2.14
            rung   K2.11, M1, K2.21
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """For each motor and direction the pulse that takes the fewest relays, where neither rest beside it explains it."""
    apart = poles_apart(facts)
    yield from facts.likeness.of_each("motor", lambda number: _of_motor(apart, number))


def _of_motor(apart: Apart, number: int) -> Iterator[Evidence]:
    for way in ("forward", "backward"):
        pulse = _pulse_nearby(apart, number, way)
        if pulse is not None:
            yield pulse


def _usual(facts: Facts, number: int, way: str) -> States:
    does = facts.motors[number]
    return does.forward if way == "forward" else does.reverse


def _pulse_nearby(apart: Apart, number: int, way: str) -> Evidence | None:
    facts = apart.base
    digits = _usual(facts, number, way).space.digits

    def ask(facts: Facts) -> Travelling | None:
        """Whatever is explained even where all that is far may be anyhow surely is."""
        usual = _usual(facts, number, way)
        unexplained = passed_unexplained(facts, usual)
        return _travelling(apart._replace(base=facts), number, way, unexplained) if unexplained else None

    if is_ruled_out(facts, digits, ask):
        return None
    return first_found(facts, digits, lambda facts: _pulse(apart._replace(base=facts), number, way))


def _travelling(apart: Apart, number: int, way: str, unexplained: States) -> Travelling | None:
    bad = _usual(apart.facts, number, way) - apart.facts.shorted
    return next(while_travelling(apart, bad, unexplained), None)


def _pulse(apart: Apart, number: int, way: str) -> Evidence | None:
    """The pulse may come about over relays that have no say in what usually drives the motor: then its story is one of
    more digits."""
    circuit, usual = apart.base.circuit, _usual(apart.base, number, way)
    name = circuit.motors[number].name
    episodes = episodes_of(apart.base, usual)
    unexplained = episodes.passed(~usual) - episodes.before(usual)
    travelling = _travelling(apart, number, way, unexplained) if unexplained else None
    if travelling is not None:
        return Evidence(
            what=f"{name} is driven {way} for a moment, though it was not before and is not after, with {{state}}",
            parts=(name, *(circuit.relays[relay].name for relay in travelling.relays)),
            places=(circuit.parts[name].place,),
            travelling=travelling,
            story=story_into(episodes_of(apart.base, usual, travelling.states), ~usual, travelling.states),
        )
    return None
