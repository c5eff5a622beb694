"""A box in which a wire breaks in operation is the one that the judge sees, and what is near leaves nothing out."""

from hypothesis import HealthCheck, given, settings

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.once_broken import once_broken
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.analysis.test_vicinity import following_at_most
from tests.certificates.test_stops import stopping_plans
from tests.judge.sequels import after_all
from tests.judge.steps import Judge
from tests.profiles import examples

UNHURRIED = list(HealthCheck)


def contacts(circuit: Circuit) -> list[int]:
    """The contacts of the emergency stop and of the limit switches, by number."""
    return [
        number for number, one in enumerate(circuit.conductors) if one.closed and one.part in ("ES1", "LT", "LB", "TOP")
    ]


def states_of(facts: Facts, bits: int) -> set[tuple[int, ...]]:
    """A set over all digits, state by state."""
    space = facts.spaces.of(range(len(facts.circuit.digits)))
    return {
        tuple(space.values(number)[digit] for digit in space.digits)
        for number in range(space.size)
        if bits >> number & 1
    }


@settings(max_examples=examples(6), suppress_health_check=UNHURRIED, deadline=None)
@given(stopping_plans())
def test_once_a_wire_breaks_all_follows_that_the_judge_sees_follow(text: str) -> None:
    """From every state that he reaches in the sound box, he goes on in the one without the contact."""
    circuit = circuit_of(text)
    facts, sound = analyse(circuit), Judge(circuit).reachable()
    for number in contacts(circuit):
        kept = tuple(one for at, one in enumerate(circuit.conductors) if at != number)
        judge = Judge(circuit._replace(conductors=kept))
        behaviour = once_broken(facts, number).behaviour(range(len(circuit.digits)))
        assert states_of(facts, behaviour.reached) == after_all(sound, judge.successors), circuit.conductors[
            number
        ].name


@settings(max_examples=examples(10), suppress_health_check=UNHURRIED, deadline=None)
@given(stopping_plans())
def test_whatever_follows_of_a_broken_wire_follows_with_what_is_far_left_free(text: str) -> None:
    """Every state that is passed, and every rest, is one of the loosened box; over the same digits as in the sound
    one."""
    circuit = circuit_of(text)
    facts = analyse(circuit)
    for number in contacts(circuit):
        broken = once_broken(facts, number)
        for digit in range(len(circuit.digits)) if broken.loosened else ():
            whole = broken.behaviour({digit})
            assert whole.space.digits == facts.behaviour(whole.space.digits).space.digits
            with following_at_most(4):
                near = broken.loosened.behaviour({digit}) if broken.loosened else whole
            for of_whole, of_near in (
                (whole.reached, near.reached),
                (whole.reached & whole.rest, near.reached & near.rest),
            ):
                far = set(whole.space.digits) - set(near.space.digits)
                seen = facts.spaces.over(whole.space, of_whole).at_some(far)
                assert not seen - facts.spaces.over(near.space, of_near), (text, circuit.digits[digit].name)
