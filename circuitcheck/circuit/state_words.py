"""What a state written in a call means in a circuit, or what is wrong with it."""

from circuitcheck.circuit.model import Circuit
from circuitcheck.circuit.wording import article, listed, sentence, suggestion
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import PlanError, Problem
from circuitcheck.plan.state_words import Setting, StateText


def understand_state(circuit: Circuit, text: StateText) -> dict[str, str]:
    """Positions by the names of digits; each is one that its digit has. Raises PlanError with every problem."""
    known = {digit.name: number for number, digit in enumerate(circuit.digits)}
    given: dict[str, Setting] = {}
    problems: list[Problem] = []
    for setting in text.settings:
        name, position = setting
        problem = _problem_of(circuit, known.get(name.text), setting)
        before = given.setdefault(name.text, setting)
        if problem is None and before.position.text != position.text:
            what = f"{name.text}={position.text} contradicts {name.text}={before.position.text}"
            also = ((before.name.place, f"{name.text} is first set here."),)
            problem = Problem(position.place, what, "It stands in one position: take one of the two away.", also)
        problems += [problem] if problem else []
    if problems:
        raise PlanError(tuple(problems), (text.source,))
    return {name: setting.position.text for name, setting in given.items()}


def _problem_of(circuit: Circuit, number: int | None, setting: Setting) -> Problem | None:
    if number is None:
        return _unknown_name(circuit, setting)
    digit = circuit.digits[number]
    positions = [digit.value_name(value) for value in range(digit.radix)]
    word = setting.position
    if word.text in positions:
        return None
    near = nearest(word.text, positions)
    help = f"Nearest: {', '.join(near)}." if near else f"{digit.name} can be {listed(digit.values, 'or')}."
    return Problem(
        word.place, f"no {'place' if digit.kind == 'axis' else 'position'} {word.text} on {digit.name}", help
    )


def _unknown_name(circuit: Circuit, setting: Setting) -> Problem:
    name = setting.name
    info = circuit.parts.get(name.text)
    if info is None:
        names = [digit.name for digit in circuit.digits]
        return Problem(name.place, f"no part {name.text}", suggestion(name.text, names))
    limit = next((one for one in circuit.limits if one.name == name.text), None)
    if limit is not None:
        axis = circuit.axes[limit.axis]
        zone = circuit.digits[axis.digit].values[min(limit.zones, default=axis.range[0])]
        help = f"{axis.name} presses it: write e.g. {axis.name}={zone}."
    else:
        help = f"{sentence(article(info.kind))} follows from the rest: name a control, a supply, an axis or a relay."
    return Problem(name.place, f"{name.text} has no positions of its own", help)
