"""What is looked at nearby, with all else left free, misses nothing."""

from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.nearby import nearby
from circuitcheck.analysis.resting import following
from circuitcheck.analysis.states import Spaces
from tests.analysis.plans import circuit_of, plan_texts
from tests.benchmarks.panels import chain

UNHURRIED = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


def ways_not_seen_nearby(text: str, integers: int) -> tuple[int, list[str]]:
    """How many digits could be looked at nearby, and those for which more happens in the whole than was seen there."""
    circuit = circuit_of(text)
    facts = analyse(circuit, Spaces(tuple(digit.radix for digit in circuit.digits), integers))
    looked, missed = 0, []
    for number, digit in enumerate(circuit.digits):
        behaviour = facts.behaviour({number})
        near = nearby(facts, behaviour.space, facts.spaces.where(number, (0,)))
        if near is not None:
            looked += 1
            begun = near.somewhere(behaviour.rounds[0])
            if near.somewhere(behaviour.reached) & ~following(near.space, near.steps(behaviour.steps), begun):
                missed.append(digit.name)
    return looked, missed


@settings(max_examples=60, suppress_health_check=UNHURRIED)
@given(plan_texts(most_states=300, most_parts=10))
def test_whatever_can_happen_can_happen_nearby(text: str) -> None:
    """From power-up on, in random plans."""
    assert ways_not_seen_nearby(text, 32)[1] == [], text


def test_a_chain_of_interlocks_can_be_looked_at_link_by_link() -> None:
    """Many digits of three motors, each in a space that integers hold."""
    looked, missed = ways_not_seen_nearby(chain(3), 1 << 20)
    assert looked > 5
    assert missed == []
