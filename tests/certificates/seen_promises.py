"""What is claimed of promises, looked at in each state that the judge comes to."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from math import inf

from circuitcheck.certificates.verifier import KEPT, TESTED, promise_words
from circuitcheck.plan.syntax import Claim, Condition, Promise
from tests.certificates.seen import DRIVEN, Seen, following
from tests.judge.claims import directions
from tests.judge.one_state import State
from tests.judge.sequels import starts
from tests.judge.steps import with_value

LAMPS = ("lamp", "buzzer", "solenoid")
MOTOR_WORDS = {"driven": DRIVEN, "stopped": ("braked", "weak", "braked one way", "coasting")}
LAMP_WORDS = {"on": ("lit",), "off": ("glowing", "dark"), "glows": ("glowing",)}
"""Of what a plan says, in the judge's words, where those are others."""


def looks(seen: Seen) -> dict[str, Callable[[], bool]]:
    """How the judge looks at each claim."""
    found: dict[str, Callable[[], bool]] = {}
    for promise in seen.circuit.promises:
        found[KEPT.format(promise_words(promise))] = partial(_is_kept, seen, promise)
        found[TESTED.format(promise_words(promise))] = partial(_is_tested, seen, promise)
    return found


def is_so(seen: Seen, condition: Condition | None, state: State) -> bool:
    """Does the condition hold in the state?"""
    if condition is None:
        return True
    if isinstance(condition, Claim):
        return _is_true(seen, condition, state)
    parts = [is_so(seen, one, state) for one in condition.operands]
    return {"and": all(parts), "or": any(parts), "not": not parts[0]}[condition.operator]


def _is_true(seen: Seen, claim: Claim, state: State) -> bool:
    name, word, circuit = claim.subject.text, claim.value.text, seen.circuit
    kind = circuit.parts[name].kind
    if kind == "axis":
        return _is_placed(seen, claim, state)
    if kind == "motor":
        return seen.word(name, state) in MOTOR_WORDS.get(word, (word,))
    if kind in LAMPS:
        (number,) = (number for number, load in enumerate(circuit.loads) if load.part == name)
        return seen.judge.judged(state).lamps[number] in LAMP_WORDS.get(word, (word,))
    if kind in ("limit", "cam"):
        (limit,) = (one for one in circuit.limits if one.name == name)
        return (state[circuit.axes[limit.axis].digit] in limit.zones) == (word == "pressed")
    (number,) = (number for number, digit in enumerate(circuit.digits) if digit.name == name)
    return circuit.digits[number].value_name(state[number]) == word


def _is_placed(seen: Seen, claim: Claim, state: State) -> bool:
    axis = seen.axis(claim.subject.text)
    place, zone = seen.circuit.digits[axis.digit].values.index(claim.value.text), state[axis.digit]
    outward = -1 if claim.value.text == axis.places[0] else 1
    past = not axis.turning and (zone - place) * outward > 0
    driven_on = zone == place and outward in directions(seen.judge, state, axis)
    return {"at": zone == place, "past": past, "stops at": not past and not driven_on}[claim.verb]


def _looked_at(seen: Seen, promise: Promise) -> Iterable[State]:
    """At rest; for `always` while relays move, too."""
    return filter(seen.judge.is_proper, seen.reached) if promise.keyword == "always" else seen.rests


def _is_kept(seen: Seen, promise: Promise) -> bool:
    if promise.keyword == "after":
        return longest(seen, promise) <= (promise.within.high if promise.within else 0.0)
    if isinstance(promise.condition, Claim) and promise.condition.verb == "starts":
        return not _starts(seen, promise)
    asked = (state for state in _looked_at(seen, promise) if is_so(seen, promise.when, state))
    return all(is_so(seen, promise.condition, state) == (promise.keyword != "never") for state in asked)


def _is_tested(seen: Seen, promise: Promise) -> bool:
    if promise.keyword == "after":
        return any(_beginning(seen, promise))
    return any(is_so(seen, promise.when, state) for state in _looked_at(seen, promise))


def _starts(seen: Seen, promise: Promise) -> set[State]:
    motor, supply = (one.subject.text for one in (promise.condition, promise.when) if isinstance(one, Claim))
    number = [one.name for one in seen.circuit.motors].index(motor)
    digits = {one.digit for one in seen.circuit.supplies if supply in ("power", one.name)}
    return starts(seen.judge, {*seen.reached}, number, frozenset(digits), 1)


def _beginning(seen: Seen, promise: Promise) -> Iterator[State]:
    """Where the case comes to hold, by a step of operation or with power-up."""
    holds = partial(is_so, seen, promise.when)
    yield from filter(holds, seen.judge.beginnings())
    for state in seen.reached:
        if not holds(state):
            yield from filter(holds, seen.judge.successors(state))


Running = tuple[tuple[int, int, float], ...]
"""The timing relays that run: each by its digit, where that goes, and the seconds that it has left."""
Clocked = tuple[State, Running]


def longest(seen: Seen, promise: Promise) -> float:
    """How long it takes at most until the answer is there at a rest, with no hand and no axis moving: timers run side
    by side, each for its own time, and all begin when the case comes to hold."""
    known: dict[Clocked, float] = {}

    def lasting(begun: set[Clocked]) -> float:
        settled = following(begun, partial(_settling, seen))
        return max((from_rest(one) for one in settled if not _settling(seen, one)), default=0.0)

    def from_rest(rest: Clocked) -> float:
        state, running = rest
        if is_so(seen, promise.condition, state):
            return 0.0
        if running and rest not in known:
            known[rest] = inf
            passed = min(seconds for _, _, seconds in running)
            known[rest] = passed + lasting(_run_out(seen, state, running, passed))
        return known.get(rest, inf)

    return lasting({_clocked(seen, state) for state in _beginning(seen, promise)})


def _settling(seen: Seen, here: Clocked) -> set[Clocked]:
    """Relays that move, and hands that come out of the moment between two positions."""
    state, running = here
    between = [number for number, one in enumerate(seen.circuit.digits) if state[number] >= len(one.values)]
    hands = [there for there in seen.judge.successors(state) if any(there[one] != state[one] for one in between)]
    return {_clocked(seen, there, running) for there in (*seen.judge.relays_moved(state), *hands)}


def _run_out(seen: Seen, state: State, running: Running, passed: float) -> set[Clocked]:
    """What comes of a rest when the time has passed that the shortest of its timers, whichever, had left."""
    left = tuple((digit, end, seconds - passed) for digit, end, seconds in running)
    over = [(digit, end) for digit, end, seconds in left if seconds <= 1e-9]
    return {_clocked(seen, with_value(state, digit, end), left) for digit, end in over}


def _clocked(seen: Seen, state: State, running: Running = ()) -> Clocked:
    """A state with its timers: those that ran before go on."""
    relays = {relay.digit: relay for relay in seen.circuit.relays}
    before = {(digit, end): seconds for digit, end, seconds in running}
    timed = [(wish.digit, wish.end) for wish in seen.judge.judged(state).wishes if wish.timed]
    return state, tuple((*one, before.get(one, relays[one[0]].seconds_at(state[one[0]]))) for one in timed)
