"""What of a ladder is lit in one state."""

from collections.abc import Iterable

from circuitcheck.analysis.devices import WEAK_SHARE
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.held import held_in
from circuitcheck.analysis.lit import Lit
from circuitcheck.analysis.single_state import State, conducts
from circuitcheck.ladder.drawn import Leaf, Passed, Taking
from circuitcheck.ladder.picture import Bar, Wire
from circuitcheck.ladder.rungs import Way

DARK, LIT, BRAKE, SHORT = "", "lit", "brake", "short"
"""What flows: nothing, a fed load's current, that of a motor that brakes itself, a short's."""


class Lights:
    """Asked for each thing drawn; everything is dark where there is no state. Worked out at once, with what that may
    raise (see examination.exactly)."""

    def __init__(self, facts: Facts, state: State | None) -> None:
        self._circuit = facts.circuit
        self._state = state
        self._facts = facts if state is None else analyse(held_in(facts.circuit, state))
        self._flows: dict[int, str] = {}
        if state is not None:
            lit = Lit(self._facts)
            self._flows = {number: lit[number].word_in(state) for number in range(len(facts.circuit.conductors))}

    def of_conductors(self, numbers: Iterable[int]) -> str:
        """Of several the worst counts."""
        return _worst(self._flows.get(number, DARK) for number in numbers)

    def of_line(self, line: Wire | Bar, way: Way) -> str:
        """Of a line on a way: what flows through what stands beside it, or through its wires."""
        if not line.beside:
            return self.of_conductors(line.wires)
        return _worst(self.of_leaf(leaf, way) for leaf in line.beside)

    def of_leaf(self, leaf: Leaf, way: Way) -> str:
        """Of a symbol on a way; a load counts where its current runs as it does on that way."""
        if isinstance(leaf, Passed):
            return self.of_conductors((leaf.conductor,))
        return self._of_load(leaf, way) if isinstance(leaf, Taking) else DARK

    def closed(self, conductor: int) -> bool:
        """Is it a contact, and closed?"""
        one = self._circuit.conductors[conductor]
        return self._state is not None and one.closed is not None and conducts(one, self._state)

    def _of_load(self, taking: Taking, way: Way) -> str:
        load, state = self._circuit.loads[taking.load], self._state
        if state is None or state in self._facts.shorted:
            return DARK
        if way.kind == "braked":
            motor = next(number for number, one in enumerate(self._circuit.motors) if one.name == load.part)
            return BRAKE if state in self._facts.motors[motor].braked else DARK
        for fed in self._facts.volts[taking.load]:
            if fed.volts >= WEAK_SHARE * load.volts and state in (
                fed.forward if taking.left == load.a else fed.backward
            ):
                return LIT
        return DARK


def _worst(flows: Iterable[str]) -> str:
    found = {*flows}
    return next((flow for flow in (SHORT, LIT, BRAKE) if flow in found), DARK)
