"""What a box feeds though some of its fuses are taken out: whatever it is, they don't guard it."""

from circuitcheck.analysis.facts import Facts, conduction_of
from circuitcheck.analysis.feeding import across
from circuitcheck.analysis.rails import differences
from circuitcheck.analysis.states import States, union
from circuitcheck.circuit.model import Terminal


class WithoutFuses:
    """A circuit without some of its fuses, by the index of their conductors; each answer worked out once."""

    def __init__(self, facts: Facts, fuses: tuple[int, ...]) -> None:
        kept = (one for number, one in enumerate(facts.circuit.conductors) if number not in fuses)
        self._circuit = facts.circuit._replace(conductors=tuple(kept))
        self._conduction = conduction_of(self._circuit, facts.spaces)
        self._differences = differences(self._circuit, self._conduction)
        self._fed: dict[int, States] = {}
        self._reached: dict[Terminal, States] = {}

    def feeds(self, load: int) -> States:
        """In which states conductors alone still feed a load."""
        if load not in self._fed:
            one = self._circuit.loads[load]
            self._fed[load] = union(
                (
                    across(self._conduction, difference, *ends)
                    for difference in self._differences
                    for ends in ((one.a, one.b), (one.b, one.a))
                ),
                self._conduction.spaces.none(),
            ).tight()
        return self._fed[load]

    def reaches(self, terminal: Terminal) -> States:
        """In which states conductors still lead from a supply's + to a terminal."""
        if terminal not in self._reached:
            self._reached[terminal] = union(
                (self._conduction.leads(supply.plus, terminal) for supply in self._circuit.supplies),
                self._conduction.spaces.none(),
            ).tight()
        return self._reached[terminal]
