"""Relay coils that get too few volts once copper is warm and wires, contacts and supplies take their share.

A coil's ohms and operate volts are taken to be given at 20 °C. Its current is what operates a relay, so the volts that
it needs rise with its resistance. What other loads draw at the same moment, motors at standstill, lowers the volts in
every conductor that they share with the coil, and within the supply.
"""

from collections.abc import Iterator
from typing import NamedTuple

from circuitcheck.analysis.copper import copper_factor
from circuitcheck.analysis.currents import CurrentCase, Currents
from circuitcheck.analysis.devices import coil_operates
from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.resistances import Setting, conductor_ohms
from circuitcheck.analysis.states import States
from circuitcheck.analysis.worst_case import CasesTogether, Share
from circuitcheck.circuit.model import Coil, Relay


class Starved(NamedTuple):
    """In `states` operation wants `relay` to move, and its coil gets `volts` of the `needed`.

    alone: what it would get if nothing else drew current; where that is enough, others take the rest.
    """

    relay: Relay
    coil: Coil
    volts: float
    alone: float
    needed: float
    states: States


def starved_coils(facts: Facts, celsius: float) -> Iterator[Starved]:
    """The worst state of each coil that has volts enough as long as wires are ideal and copper is cold."""
    setting = Setting(wire_celsius=celsius, coil_celsius=celsius)
    currents = Currents(facts, setting)
    flowing = (case._replace(states=facts.reached(case.states)) for case in currents.of_all())
    cases = tuple(case._replace(states=case.states.tight()) for case in flowing if case.states)
    box = Box(facts, setting, conductor_ohms(facts.circuit, setting), currents, cases, CasesTogether(cases))
    for relay in facts.circuit.relays:
        for coil, value in ((relay.coil, 0), (relay.reset, 1)):
            if coil is not None:
                wanted = coil_operates(coil, facts.volts, facts.spaces) & facts.spaces.where(relay.digit, (value,))
                found = _starved(box, Called(relay, coil, wanted))
                yield from sorted(found, key=lambda one: one.volts)[:1]


class Box(NamedTuple):
    """A circuit as warm as `setting` says. ohms: of each conductor; cases: all currents that operation brings."""

    facts: Facts
    setting: Setting
    ohms: list[float]
    currents: Currents
    cases: tuple[CurrentCase, ...]
    together: CasesTogether


class Called(NamedTuple):
    """In `wanted` a relay is to be moved by this coil of its."""

    relay: Relay
    coil: Coil
    wanted: States


def _starved(box: Box, called: Called) -> Iterator[Starved]:
    facts, (relay, coil, wanted) = box.facts, called
    needed = coil.operate_volts * copper_factor(box.setting.coil_celsius)
    for case in box.cases:
        states = case.states & wanted if coil.load in case.volts else facts.spaces.none()
        states = facts.reached(facts.possible(states)) if states else states
        if not states:
            continue
        alone = abs(case.volts[coil.load])
        if alone < needed:
            yield Starved(relay, coil, alone, alone, needed, states.tight())
            continue
        share = _share(box, coil.load, case)
        if alone - box.together.no_more_than(share) >= needed:
            continue
        taken = box.together.most(share, states)
        if alone - taken.amount < needed:
            yield Starved(relay, coil, alone - taken.amount, alone, needed, taken.states)


def _share(box: Box, load: int, case: CurrentCase) -> Share:
    """The volts that another network's current takes from a load, at most: what it drops in each shared resistance,
    times the part of each ampere that the load draws more which runs there (by reciprocity)."""
    supplies, direction = box.facts.circuit.supplies, 1 if case.volts[load] > 0 else -1
    amps, delivered = box.currents.per_ampere(case, load)
    weights = {number: direction * box.ohms[number] * part for number, part in amps.items() if box.ohms[number]}
    inside = {number: direction * supplies[number].internal_ohms * part for number, part in delivered.items()}

    def share(other: CurrentCase) -> float:
        if load in other.volts:
            return 0.0
        wires = sum(weight * other.amps.get(number, 0.0) for number, weight in weights.items())
        taken = wires + sum(weight * other.delivered.get(number, 0.0) for number, weight in inside.items())
        # What adds volts doesn't count: where it loses volts itself it adds less.
        return max(0.0, taken)

    return share
