"""The steps of a trace in the plan's own words."""

from collections.abc import Sequence

from circuitcheck.analysis.at_work import AtWork
from circuitcheck.analysis.tracing import Remark, Taken
from circuitcheck.analysis.whereabouts import End
from circuitcheck.checks.narration import change_words, digit_words, state_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import listed
from circuitcheck.reports.trace_asking import Told

ENDS_HERE = "The story ends here."


def moves_words(told: Told, number: int) -> str:
    """What moves in a step: "turn S1 to raise", "K1 operates", "begin with PS on, S1 lower", "run deck"."""
    step = told.trace.steps[number]
    if step.change is not None:
        return change_words(told.trace.circuit, step.change)
    if step.action >= 0:
        return told.trace.actions[step.action].phrase.text
    circuit = told.trace.circuit
    settings = {digit: value for digit, value in step.state.items() if value or circuit.digits[digit].kind != "relay"}
    return f"begin with {state_words(circuit, settings)}"


def changes_words(told: Told, number: int) -> list[str]:
    """What motors and lamps do differently since the step before: ["M1 forward", "L1 lit"]; all at the beginning."""
    now, before = _words(told.shown[number]), _words(told.shown[number - 1]) if number else {}
    return [f"{name} {word}" for name, word in now.items() if before.get(name) != word]


def conducts_anew(told: Told, number: int) -> dict[str, tuple[str, ...]]:
    """The ways that current takes since this step, by what it feeds; no way where it feeds that no longer."""
    now, before = told.shown[number].ways, told.shown[number - 1].ways if number else {}
    anew = {name: way for name, way in now.items() if before.get(name) != way}
    return anew | {name: () for name in before if name not in now}


def _words(shown: AtWork) -> dict[str, str]:
    return shown.motors | shown.lamps


def remarks_words(told: Told, number: int) -> list[str]:
    """What else there is to say of a step, as sentences."""
    circuit, step = told.trace.circuit, told.trace.steps[number]
    said = [_remark_words(circuit, step, remark, told.shown[number]) for remark in step.remarks]
    if step.shorted:
        said.append(f"A supply is shorted: no load lies in the current's way. {ENDS_HERE}")
    return said


def left_out_words(told: Told) -> str:
    """The actions that were not come to; "" where all were done."""
    last = told.trace.steps[-1].action
    left = [action.phrase.text for action in told.trace.actions[last + 1 :]]
    return f"Not come to: {', '.join(left)}." if left and told.trace.broken_off else ""


def _remark_words(circuit: Circuit, step: Taken, remark: Remark, shown: AtWork) -> str:
    names = listed([circuit.digits[digit].name for digit in remark.digits], "and")
    stands = listed([digit_words(circuit, digit, step.state[digit]) for digit in remark.digits], "and")
    if remark.kind == "orders":
        return _orders_words(circuit, remark.ends, names)
    if remark.kind == "undecided":
        return f"{names} go round in this order and would come to rest in another: {_preferring(names)}. {ENDS_HERE}"
    said = {
        "already": f"{stands} already.",
        "nothing moves": f"Nothing moves: {_why_not(circuit, remark.digits, names)}.",
        "never settles": f"This goes on for ever: {names} never come{'s' if len(remark.digits) == 1 else ''} to rest.",
        "for ever": f"From here on it repeats for ever, with {stands} again.",
        "missed": f"It gets no further: {stands}, {_motors_of(circuit, remark.digits, shown)}. {ENDS_HERE}",
        "timing": f"{_times_words(circuit, remark.digits)}; `wait` lets it run out.",
        "stalled": f"{stands}, and is driven on there: {_motors_of(circuit, remark.digits, shown)}.",
    }
    return said[remark.kind]


def _orders_words(circuit: Circuit, ends: Sequence[End], names: str) -> str:
    depends = "It depends on which relay is quicker"
    if not names:
        rests = {"settles": "rest", "shorted": "a short", "never settles": "no rest at all"}
        return f"{depends} whether they come to {listed(dict.fromkeys(rests[end.how] for end in ends), 'or')}."
    how = {"settles": "", "shorted": " (shorted)", "never settles": " (never at rest)"}
    places = [state_words(circuit, end.positions) + how[end.how] for end in ends]
    shown = places[:4] + ([f"{len(places) - 4} more"] if len(places) > 4 else [])
    return f"{depends}: {'; or '.join(shown)}. Choose with e.g. `{names.split()[-1]} first`."


def _preferring(names: str) -> str:
    return f"prefer one, like `{names.split()[0].rstrip(',')} first`"


def _why_not(circuit: Circuit, digits: Sequence[int], names: str) -> str:
    if not digits:
        return "there is nothing of the kind in the plan"
    if circuit.digits[digits[0]].kind == "axis":
        return f"nothing drives {names}"
    return f"no time of {names} is running"


def _motors_of(circuit: Circuit, digits: Sequence[int], shown: AtWork) -> str:
    axes = [number for number, axis in enumerate(circuit.axes) if axis.digit in digits]
    return listed([f"{motor.name} {shown.motors[motor.name]}" for motor in circuit.motors if motor.axis in axes], "and")


def _times_words(circuit: Circuit, digits: Sequence[int]) -> str:
    relays = [relay for relay in circuit.relays if relay.digit in digits]
    return listed([f"{relay.name}'s time of {relay.delay_seconds:g} s runs" for relay in relays], "and")
