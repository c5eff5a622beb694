"""What is asked of somebody who begins a plan, and what can be answered."""

import re
from typing import Final, NamedTuple


class Choice(NamedTuple):
    """One answer. word: as it is given on the command line."""

    word: str
    means: str


class Question(NamedTuple):
    """choices: those that there are, the usual one first; none for a name, whose usual answer is `usual`."""

    name: str
    asks: str
    choices: tuple[Choice, ...] = ()
    usual: str = ""

    @property
    def default(self) -> str:
        """What is taken where nothing is answered."""
        return self.choices[0].word if self.choices else self.usual

    def accepts(self, answer: str) -> bool:
        """Whether this can be answered."""
        if self.choices:
            return answer in {choice.word for choice in self.choices}
        return _NAME.fullmatch(answer) is not None


_NAME: Final = re.compile(r"[A-Za-z]\w*", re.ASCII)

QUESTIONS: Final = (
    Question("name", "What is the prop called? (one word)", usual="Prop"),
    Question("volts", "How many volts does it run on?", (
        Choice("12", "12 V, like most car motors"),
        Choice("24", "24 V"),
    )),
    Question("motors", "How many motors?", (
        Choice("1", "one"),
        Choice("2", "two, each with controls of its own"),
    )),
    Question("motion", "What does a motor do?", (
        Choice("between", "it drives something to and fro between two limit switches"),
        Choice("parking", "it turns something one way, and parks it where a cam switch says"),
        Choice("running", "it turns one way as long as it is told to"),
    )),
    Question("control", "Who controls it?", (
        Choice("held", "somebody who holds a switch or button while it shall move"),
        Choice("switch", "a switch that stays where it is put"),
        Choice("buttons", "push buttons: one for each direction, or one to start and one to stop"),
        Choice("controller", "a show controller's dry contact: closed to run or go out, open to stop or come home"),
    )),
    Question("estop", "Is there an emergency stop?", (
        Choice("yes", "a latching red button that cuts everything that moves"),
        Choice("no", "none"),
    )),
)  # fmt: skip
"""In the order in which they are asked."""


class Answers(NamedTuple):
    """An answer to each question, by its name."""

    name: str
    volts: str
    motors: str
    motion: str
    control: str
    estop: str

    @property
    def needs_start(self) -> bool:
        """Whether something commands the motor by itself when the power returns: a control that stays where it is put,
        or a cam that is away from its park. Then nothing moves before somebody presses START."""
        return self.control in ("switch", "controller") or self.motion == "parking"
