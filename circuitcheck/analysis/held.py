"""A circuit as it stands in one state: what a picture of that state asks, whatever else the circuit can do."""

from circuitcheck.analysis.single_state import State, conducts
from circuitcheck.circuit.model import Circuit, Closed, Conductor


def held_in(circuit: Circuit, state: State) -> Circuit:
    """What is closed in the state is closed at every value of the first digit, what is open at none of them.

    So its sets are over that digit and the supplies' alone, and narrow in the widest panel, while nets and rails stay
    what they are: a contact that is closed for good would be a wire. All indices stay.
    """
    every = frozenset(range(circuit.digits[0].radix)) if circuit.digits else frozenset[int]()

    def held(one: Conductor) -> Conductor:
        if one.closed is None:
            return one
        return one._replace(closed=Closed(0, every if conducts(one, state) else frozenset()))

    return circuit._replace(conductors=tuple(map(held, circuit.conductors)))
