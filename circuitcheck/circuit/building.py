"""From the statements of a plan to the circuit they describe."""

from itertools import chain
from math import log10

from circuitcheck.circuit.acceptances import resolve_acceptances
from circuitcheck.circuit.catalogue.pieces import Pieces
from circuitcheck.circuit.describing import describe_parts
from circuitcheck.circuit.flattening import flatten
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.promises import resolve_promises
from circuitcheck.circuit.requirements import resolve_requirements
from circuitcheck.circuit.resolving import gather_names
from circuitcheck.circuit.surroundings import read_conditions
from circuitcheck.circuit.wiring import join_wires
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.syntax import Plan

MOST_TERMINALS = 60_000
MOST_COMBINATIONS = 4_000
"""Digits of their number."""


def build_circuit(plan: Plan) -> Circuit:
    """The plan's circuit: modules put in place, types filled in, names in full, quantities in SI units.

    Conductors are those of the parts in the plan's order, then the wires. Raises PlanError with everything that keeps
    the plan from being understood, in order of place.
    """
    problems: list[Problem] = []
    flat, unplaced = flatten(plan, problems)
    pieces, axes, unclear, repeated, supplies_take = describe_parts(flat, plan.types, plan.defaults, problems)
    _refuse_too_many(pieces, plan)
    names = gather_names(pieces, unclear | unplaced)
    conductors = [one for piece in pieces for one in piece.conductors]
    conditions, conditions_take = read_conditions(flat, plan.defaults, problems)
    wires, wire_infos = join_wires(flat, names, len(conductors), conditions, problems)
    digits = [digit for piece in pieces for digit in piece.digits]
    promises = resolve_promises(flat, names, digits, axes, problems)
    acceptances = resolve_acceptances(flat, names, problems)
    requirements = resolve_requirements(flat, names, axes, problems)
    if problems:
        # A module fitted twice has each of its problems twice.
        raise PlanError(tuple(sorted(dict.fromkeys(problems))), plan.sources)
    return Circuit(
        name=plan.title.name.text if plan.title else "",
        label=plan.title.label if plan.title else "",
        file=plan.file,
        parts=names.parts,
        digits=tuple(digits),
        conductors=(*conductors, *wires),
        wires=tuple(wire_infos),
        loads=tuple(chain.from_iterable(piece.loads for piece in pieces)),
        supplies=tuple(chain.from_iterable(piece.supplies for piece in pieces)),
        relays=tuple(chain.from_iterable(piece.relays for piece in pieces)),
        motors=tuple(chain.from_iterable(piece.motors for piece in pieces)),
        axes=tuple(axis for _, axis in axes.values()),
        limits=tuple(chain.from_iterable(piece.limits for piece in pieces)),
        suppressors=tuple(chain.from_iterable(piece.suppressors for piece in pieces)),
        promises=promises,
        repeated=repeated,
        conditions=conditions,
        acceptances=acceptances,
        requirements=requirements,
        defaulted=(*conditions_take, *supplies_take),
    )


def _refuse_too_many(pieces: list[Pieces], plan: Plan) -> None:
    terminals, combinations = 0, 0.0
    for piece in pieces:
        terminals += len(piece.info.marks)
        combinations += sum(log10(len(digit.values)) for digit in piece.digits)
        if terminals > MOST_TERMINALS:
            help = "Divide the plan, or look for connectors and strips with more ways than meant."
            what = f"more than {MOST_TERMINALS:,} terminals up to here"
            raise PlanError((Problem(piece.info.place, what, help),), plan.sources)
        if combinations > MOST_COMBINATIONS:
            help = "Divide the plan, or look for switches with more ways than meant."
            what = f"more than 10^{MOST_COMBINATIONS} combinations of switches and relays up to here"
            raise PlanError((Problem(piece.info.place, what, help),), plan.sources)
