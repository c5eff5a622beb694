"""The circuit with every relay pole for itself.

While a relay moves, each of its poles is at the old side, between, or at the new side, whatever its twins do; a
make-before-break pole is at both sides at once instead of between. So give each pole a digit of its own: every moment
of every changeover is then a plain state of this circuit, and conduction, shorts and volts are asked of it as always.

Of a force-guided relay no contact that closes and contact that opens are ever closed together, whatever sticks
(EN 50205; IEC 61810-3): states in which they are stand here too, and are no moment of any changeover.
"""

from collections.abc import Iterator
from itertools import product
from typing import Final, NamedTuple

from circuitcheck.analysis.states import States
from circuitcheck.circuit.catalogue.relays import GUIDED
from circuitcheck.circuit.model import Circuit, Closed, Conductor, Digit, Terminal

SIDES: Final = ("on its released side", "on its operated side")
RELEASED: Final = 0
OPERATED: Final = 1
PASSING: Final = 2
"""Values of a pole's digit. PASSING is between the sides, or at both; a pole with a single throw has none."""


class PolesApart(NamedTuple):
    """circuit: its first digits are the plan's own, then one for each pole. poles: of each relay, their digits.
    relay_of: the relay of each pole's digit.

    guided: two poles of a force-guided relay, the first with a contact that closes, the other with one that opens.
    """

    circuit: Circuit
    poles: tuple[tuple[int, ...], ...]
    relay_of: dict[int, int]
    guided: tuple[tuple[int, int], ...]


def with_poles_apart(circuit: Circuit) -> PolesApart:
    """The circuit in which relay contacts follow their poles and no longer their relay."""
    digits = list(circuit.digits)
    poles: list[tuple[int, ...]] = []
    digit_of: dict[Terminal, int] = {}
    relay_of: dict[int, int] = {}
    commons_of: dict[str, list[Terminal]] = {}
    for one in circuit.conductors:
        if one.closed is not None:
            commons_of.setdefault(one.part, []).append(one.tail)
    for number, relay in enumerate(circuit.relays):
        own: list[int] = []
        commons = commons_of.get(relay.name, [])
        for common in dict.fromkeys(commons):
            digit_of[common] = len(digits)
            relay_of[len(digits)] = number
            own.append(len(digits))
            passing = ("on both sides",) if relay.make_before_break else ("between its sides",)
            digits.append(Digit(common, "pole", SIDES + (passing if commons.count(common) > 1 else ())))
        poles.append(tuple(own))
    bridging = {relay.name for relay in circuit.relays if relay.make_before_break}
    conductors = tuple(_following_pole(one, digit_of, bridging, digits) for one in circuit.conductors)
    apart = circuit._replace(digits=tuple(digits), conductors=conductors)
    return PolesApart(apart, tuple(poles), relay_of, tuple(_guided_pairs(apart)))


def as_guided(apart: PolesApart, states: States) -> States:
    """Those of the states in which no guided relay has a contact closed that closes and another that opens."""
    for closing, opening in apart.guided:
        if {closing, opening} <= set(states.space.digits):
            both = states.spaces.where(closing, (OPERATED,)) & states.spaces.where(opening, (RELEASED,))
            states = states - both
    return states


def side(value: int) -> int:
    """Where a relay's poles rest while its own digit has this value; one that is spent or pausing has fallen back."""
    return OPERATED if value == 1 else RELEASED


def _guided_pairs(apart: Circuit) -> Iterator[tuple[int, int]]:
    contacts = [(one.part, one.closed) for one in apart.conductors if one.closed]
    own = [(part, closed) for part, closed in contacts if GUIDED in apart.parts[part].features]
    for (part, closing), (other, opening) in product(own, own):
        of_one_relay = part == other and closing.digit != opening.digit
        if of_one_relay and OPERATED in closing.values and RELEASED in opening.values:
            yield closing.digit, opening.digit


def _following_pole(
    conductor: Conductor, digit_of: dict[Terminal, int], bridging: set[str], digits: list[Digit]
) -> Conductor:
    if conductor.closed is None or conductor.tail not in digit_of:
        return conductor
    pole = digit_of[conductor.tail]
    values = {side(1)} if 1 in conductor.closed.values else {side(0)}
    if conductor.part in bridging and len(digits[pole].values) > PASSING:
        values.add(PASSING)
    return conductor._replace(closed=Closed(pole, frozenset(values)))
