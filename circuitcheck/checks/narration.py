"""States and stories in the plan's own words."""

from typing import TYPE_CHECKING, Final

from circuitcheck.analysis.single_state import Change, State, Story
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.syntax import Claim, Combined, Condition

if TYPE_CHECKING:
    from circuitcheck.analysis.faults.fault import Fault
    from circuitcheck.analysis.faults.shortest import FaultStory


def example_words(circuit: Circuit, state: State) -> dict[str, str]:
    """{"S1": "raise", "deck": "top"}, in the plan's order."""
    return {circuit.digits[number].name: circuit.digits[number].value_name(state[number]) for number in sorted(state)}


def state_words(circuit: Circuit, state: State) -> str:
    """ "S1 raise, K1 operated, deck at top"; "anything" for no digit at all."""
    named = [digit_words(circuit, number, state[number]) for number in sorted(state)]
    return ", ".join(named) if named else "anything"


def digit_words(circuit: Circuit, number: int, value: int) -> str:
    """ "S1 raise", "deck at top", "deck past top"."""
    digit = circuit.digits[number]
    word = digit.value_name(value)
    plain = digit.kind != "axis" or word.split()[0] in ("past", "between", "away")
    return f"{digit.name} {word}" if plain else f"{digit.name} at {word}"


def condition_words(condition: Condition) -> str:
    """A condition as the plan words it, with brackets where and and or meet."""
    if isinstance(condition, Claim):
        verb = "" if condition.verb == "is" else f"{condition.verb} "
        return f"{condition.subject.text} {verb}{condition.value.text}".rstrip()
    inner = [
        f"({condition_words(one)})" if isinstance(one, Combined) and one.operator != "not" else condition_words(one)
        for one in condition.operands
    ]
    return f"not {inner[0]}" if condition.operator == "not" else f" {condition.operator} ".join(inner)


def story_words(circuit: Circuit, story: Story) -> tuple[str, ...]:
    """What to do and what happens, a line a step, from the beginning on."""
    beginning = {
        number: value for number, value in story.beginning.items() if value or circuit.digits[number].kind != "relay"
    }
    return (f"begin with {state_words(circuit, beginning)}", *(change_words(circuit, one) for one in story.changes))


def change_words(circuit: Circuit, change: Change) -> str:
    """ "turn S1 to raise", "K1 operates", "deck moves to top", "PS fails"."""
    digit = circuit.digits[change.digit]
    word = digit.value_name(change.end)
    if digit.kind == "relay":
        return f"{digit.name} {_relay_verb(word)}"
    if digit.kind == "axis":
        return f"{digit.name} moves {'to ' if word.split()[0] not in ('past', 'between', 'away') else ''}{word}"
    if digit.kind == "supply":
        return f"{digit.name} {'fails' if word == 'off' else 'is switched on'}"
    if digit.kind == "outside":
        return f"{digit.name} turns {word}"
    if word in ("pressed", "released"):
        return f"{'press' if word == 'pressed' else 'release'} {digit.name}"
    return f"turn {digit.name} to {word}" if change.end < len(digit.values) else f"{digit.name} passes {word}"


def _relay_verb(word: str) -> str:
    return {"operated": "operates", "released": "releases", "spent": "ends its pulse", "pausing": "pauses"}[word]


FAULT: Final = "fault: "
"""What a step begins with at which something fails."""


def fault_story_words(circuit: Circuit, fault: "Fault", story: "FaultStory") -> tuple[str, ...]:
    """The same of a fault: what leads to it, the fault itself, and what follows. A control that sticks is worked all
    the same."""
    after = []
    for change in story.after:
        sticks = change.digit >= len(circuit.digits)
        said = change_words(circuit, change._replace(digit=change.digit % len(circuit.digits)))
        after.append(f"{said}: it stays as it is" if sticks else said)
    return (*story_words(circuit, story.before), f"{FAULT}{fault.called}", *after)
