"""Which conductors a current flows through, in which states: what pictures light.

Where conductors lie side by side all of them count, and so does a diode beside a wire: what is dark carries nothing,
and of what is lit nobody can say which of two parallel ways takes the greater share.
"""

from collections.abc import Iterable
from itertools import pairwise
from math import prod
from typing import Final, NamedTuple

from circuitcheck.analysis.carrying import Carrying
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.network import Net
from circuitcheck.analysis.rails import Short
from circuitcheck.analysis.routes import Routes, Share
from circuitcheck.analysis.single_state import State
from circuitcheck.analysis.states import States
from circuitcheck.analysis.through_others import ThroughOthers

UNITED: Final = 1 << 12
"""Combinations up to which several sets are told as one."""


class InAny:
    """The states of several sets. What thirty motors share carries current in some state of any: united, that set would
    depend on all their digits at once."""

    __slots__ = ("sets",)

    def __init__(self, sets: tuple[States, ...]) -> None:
        self.sets = sets

    def __contains__(self, state: State) -> bool:
        return any(state in one for one in self.sets)


class Flow(NamedTuple):
    """The states in which a conductor carries a fed load's current, that of a turning motor that is braked, and that of
    a short. In a shorted state nothing else is told."""

    fed: InAny
    braking: InAny
    shorting: InAny

    def word_in(self, state: State) -> str:
        """What pictures call it in a state: "short", "lit", "brake", or "" where nothing flows."""
        return "short" if state in self.shorting else "lit" if state in self.fed else "brake" * (state in self.braking)


class Lit:
    """The flow of each conductor of a circuit, by its index; each worked out when first asked for.

    Raises TooManyCases where too many loads hang together to solve what flows through several in turn.
    """

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._carrying = Carrying(facts)
        self._through_others = ThroughOthers(facts, self._carrying)
        self._shorts = Routes(facts)
        # At the terminals of supplies a short's current comes and goes.
        every = facts.spaces.all()
        self._ends = {end: every for supply in facts.circuit.supplies for end in (supply.plus, supply.minus)}
        for number, short in enumerate(facts.shorts):
            self._add_short(number, short)
        self._known: dict[int, Flow] = {}

    def __getitem__(self, conductor: int) -> Flow:
        if conductor not in self._known:
            shares = self._carrying[conductor]
            fed = [one.states for one in shares if one.side != "brake"]
            fed += [one.states for one in self._through_others[conductor]]
            braking = [one.states for one in shares if one.side == "brake"]
            shorting = [one.states for one in self._shorts.carried(conductor)]
            closed, shorted = self._closed(conductor), self._facts.shorted
            self._known[conductor] = Flow(
                _in_any((one & closed) - shorted for one in fed),
                _in_any((one & closed) - shorted for one in braking),
                _in_any(one & closed for one in shorting),
            )
        return self._known[conductor]

    def _closed(self, conductor: int) -> States:
        """Where it is closed: a contact beside a rail's own wire may be open while the rail carries."""
        closed, spaces = self._facts.circuit.conductors[conductor].closed, self._facts.spaces
        return spaces.where(closed.digit, closed.values) if closed else spaces.all()

    def _add_short(self, number: int, short: Short) -> None:
        """The ways of a short's current: from supply to supply, straight or over a third supply's rail."""
        conduction = self._facts.conduction
        for start, end in short.stretches:
            share = Share(number, "short", 0.0, short.states)
            self._add_stretch((start, end), share)
            for rail in sorted(conduction.network.rails - {start, end}) if start != end else ():
                onto, onward = conduction.leads_between(start, rail), conduction.leads_between(rail, end)
                over = share._replace(states=(short.states & onto & onward).tight())
                if over.states:
                    self._add_stretch((start, rail, end), over)

    def _add_stretch(self, rails: tuple[Net, ...], share: Share) -> None:
        """From rail to rail, and along each of them from where the current comes to where it leaves."""
        routes, near = self._shorts, self._ends
        for here, there in pairwise(rails):
            if here != there:
                start, stop = -1 - here, -1 - there
                routes.add(start, stop, share)
                routes.cross(here, near, routes.gates(here, start, stop, share), True, share)
                near = routes.gates(there, start, stop, share)
        routes.cross(rails[-1], near, self._ends, True, share)


def _in_any(sets: Iterable[States]) -> InAny:
    """Equal digits together first, then whatever is narrow together."""
    united: list[States] = []
    for states in sorted((one.tight() for one in sets if one), key=lambda one: one.space.digits):
        place = next((place for place, one in enumerate(united) if _are_narrow(one, states)), None)
        if place is None:
            united.append(states)
        else:
            united[place] = (united[place] | states).tight()
    return InAny(tuple(united))


def _are_narrow(one: States, other: States) -> bool:
    digits = {*one.space.digits, *other.space.digits}
    return prod(one.spaces.radices[digit] for digit in digits) <= UNITED
