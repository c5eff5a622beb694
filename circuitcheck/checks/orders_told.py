"""The orders in which relays may move, in the plan's own words."""

from circuitcheck.analysis.orders import Order, going_round, two_orders
from circuitcheck.analysis.settling import Unsettled
from circuitcheck.checks.check import Telling
from circuitcheck.checks.narration import change_words
from circuitcheck.circuit.model import Circuit


def told_orders(circuit: Circuit, found: Unsettled, start: int) -> tuple[Telling, ...]:
    """Both ways in which it may end from a start, or the one in which it never ends."""
    if not found.words:
        order = going_round(found, start)
        return (Telling("", _steps(circuit, order), "and so on for ever"),)
    return tuple(
        Telling(circuit.digits[order.first].name, _steps(circuit, order), f"{found.name} {order.word}")
        for order in two_orders(found, start)
    )


def _steps(circuit: Circuit, order: Order) -> tuple[str, ...]:
    return tuple(change_words(circuit, change) for change in (*order.changes, *order.round))
