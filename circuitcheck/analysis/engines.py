"""Which engine answers: sets as integers, as decision diagrams where those are quicker, or where nothing else is left.

Integers first, and from INTEGERS states on diagrams, but for the clock of relays' times, whose steps are shifts of
integers. Where anything then takes more than WIDEST states, all is asked again with nothing but memory as the limit.
Most questions of such a circuit are narrow all the same; what is told of them does not change.
"""

from collections.abc import Callable
from typing import TypeVar

from circuitcheck.analysis.states import INTEGERS, WIDEST, Spaces, TooWide
from circuitcheck.circuit.model import Circuit

Answer = TypeVar("Answer")


def answered(circuit: Circuit, ask: Callable[[Spaces], Answer]) -> Answer:
    """What `ask` answers about a circuit, by the quicker engine that holds its sets.

    TooWide where relays that have times would have to be followed over more states than integers hold."""
    radices = tuple(digit.radix for digit in circuit.digits)
    timed = any(relay.operate_seconds or relay.release_seconds for relay in circuit.relays)
    integers = WIDEST if timed else INTEGERS
    try:
        return ask(Spaces(radices, integers, WIDEST))
    except TooWide:
        return ask(Spaces(radices, integers))
