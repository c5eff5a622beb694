"""Over which digits the claims about promises are to be shown."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.promised import condition_states
from circuitcheck.certificates.verifier import KEPT, TESTED, has_case, is_of_restart, promises, restart_of
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.syntax import Condition, Promise


def promise_questions(facts: Facts) -> Iterator[tuple[str, frozenset[int]]]:
    """Each claim about a promise, with the digits that it asks about."""
    yield from ((KEPT.format(words), _digits_kept(facts, one)) for words, one in promises(facts.circuit).items())
    yield from ((claim, digits_of(condition_states(facts, case))) for claim, case in cases_of(facts.circuit))


def cases_of(circuit: Circuit) -> Iterator[tuple[str, Condition]]:
    """What is claimed of promises that are made for a case, with the case."""
    for words, promise in promises(circuit).items():
        if promise.when and has_case(promise):
            yield TESTED.format(words), promise.when


def _digits_kept(facts: Facts, promise: Promise) -> frozenset[int]:
    """The digits on which it hangs whether a promise is kept."""
    if is_of_restart(promise):
        motor, supplies = restart_of(facts.circuit, promise)
        return digits_of(facts.motors[facts.circuit.motors.index(motor)].driven) | supplies
    said = condition_states(facts, promise.condition)
    case = condition_states(facts, promise.when) if promise.when else facts.spaces.all()
    if promise.keyword == "after":
        return digits_of(said, case)
    return digits_of((case & (said if promise.keyword == "never" else ~said)).tight())
