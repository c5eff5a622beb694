"""The names and positions in a story, found in the circuit, or what is wrong with them."""

from circuitcheck.circuit.model import Circuit, Digit, PartInfo
from circuitcheck.circuit.wording import article, listed, sentence, suggestion
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.story_lines import Phrase
from circuitcheck.plan.syntax import Word


class Unclear(Exception):
    """A phrase that can't be understood."""

    def __init__(self, place: Place, what: str, help: str) -> None:
        super().__init__(what)
        self.problem = Problem(place, what, help)


def value_of(digit: Digit, phrase: Phrase, words: list[Word]) -> int:
    """The value that these words of a phrase give to a digit."""
    text = " ".join(word.text for word in words)
    if text in digit.values:
        return digit.values.index(text)
    if not words:
        raise Unclear(phrase.place, f"nothing says where {digit.name} goes", _can_be(digit))
    noun, on = ("place", "on") if digit.kind == "axis" else ("position", "at")
    if text in {moment.name for moment in digit.moments}:
        help = f"{digit.name} passes it on the way; `slowly` after its new position lets relays move meanwhile."
        raise Unclear(phrase.place, f"{digit.name} can't stay {text}", help)
    near = nearest(text, digit.values)
    help = f"Nearest: {', '.join(near)}." if near else _can_be(digit)
    raise Unclear(words[0].place, f"no {noun} {text} {on} {digit.name}", help)


def _can_be(digit: Digit) -> str:
    return f"{digit.name} can be {listed(digit.values, 'or')}."


def digit_number(circuit: Circuit, name: Word, rest: tuple[Word, ...] = ()) -> int:
    """The digit of this name. `rest`: the words after it, where it may have been meant to follow them."""
    names = [digit.name for digit in circuit.digits]
    if name.text in names:
        return names.index(name.text)
    info = circuit.parts.get(name.text)
    if info is not None:
        raise Unclear(name.place, f"{name.text} is nothing that can be worked", _what_moves(circuit, info))
    if rest and rest[0].text in names:
        ending = [word.text for word in rest if word.text != "to"] + [name.text] * (len(rest) == 1)
        raise Unclear(name.place, f"no part {name.text}", f"The name comes first: `{' '.join(ending)}`.")
    workable = [digit.name for digit in circuit.digits if digit.kind != "relay"]
    raise Unclear(name.place, f"no part {name.text}", suggestion(name.text, workable))


def _what_moves(circuit: Circuit, info: PartInfo) -> str:
    limit = next((one for one in circuit.limits if one.name == info.name), None)
    if limit is not None:
        axis = circuit.axes[limit.axis]
        return f"{info.name} is pressed by {axis.name}: write e.g. `{axis.name} to {axis.places[-1]}`."
    motor = next((one for one in circuit.motors if one.name == info.name), None)
    if motor is not None and motor.axis is not None:
        return f"{info.name} turns when it is fed; `run {circuit.axes[motor.axis].name}` lets it move what it drives."
    return f"{sentence(article(info.kind))} follows from the rest: work a control, a supply or an outside contact."
