"""Every finding of every plan, replayed by the judge; and findings that were tampered with, refused."""

from collections.abc import Iterator
from pathlib import Path
from textwrap import dedent

import pytest
from _pytest.mark.structures import ParameterSet

from circuitcheck.analysis.facts import analyse
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.plan.syntax import Plan
from tests.judge.claims import CLAIMS
from tests.judge.replaying import replay

EXAMPLES = Path(__file__).parents[2] / "examples"

TWO_RELAYS = """
    supply PS 12 V 10 A
    fuse   F1 10 A
    button PB1 PB2 no
    relay  K1 K2 no no coil 12 V 160 ohm with diode
    motor  M1 12 V stall 10 A may coast
    rung   PS.+, F1, PB1, K1.A1-A2, PS.-
    rung   F1.2, PB2, K2.A1-A2, PS.-
    rung   F1.2, K1.13-14, M1.+, K2.23-24, PS.-
    rung   F1.2, K2.13-14, M1.-, K1.23-24, PS.-
"""


def found_in(plan: Plan) -> tuple[Circuit, tuple[Finding, ...]]:
    """The plan's circuit and all that is found in it."""
    circuit = build_circuit(plan)
    return circuit, run_checks(analyse(circuit), all_checks())


def refused(plan: Plan) -> dict[str, str]:
    """What is found and not confirmed, with the reason."""
    circuit, findings = found_in(plan)
    replayed = {finding.what: replay(circuit, finding) for finding in findings}
    return {what: reason for what, reason in replayed.items() if reason}


def examples_of_checks() -> Iterator[ParameterSet]:
    """Every example of every check."""
    for one in all_checks():
        for number, example in enumerate((*one.check.wrong, *one.check.right)):
            yield pytest.param(example.plan, id=f"{one.check.name} {number}")


@pytest.mark.parametrize("text", list(examples_of_checks()))
def test_the_judge_confirms_what_is_found_in_the_examples_of_checks(text: str) -> None:
    """Steps lead to a state with the example, the path is there, and so is what the check claims."""
    assert refused(read_text("a.plan", dedent(text))) == {}


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("[rw]*/*.plan")), ids=lambda path: path.stem)
def test_the_judge_confirms_what_is_found_in_the_examples_for_people(path: Path) -> None:
    """The same for the plans that are shown to people."""
    assert refused(read_plan(path, (EXAMPLES,))) == {}


def test_every_claim_is_that_of_a_check() -> None:
    """No claim is left over from a check that is gone or renamed."""
    assert CLAIMS.keys() <= {one.check.name for one in all_checks()}


def one_short() -> tuple[Circuit, Finding]:
    """A short that takes two relays, and its circuit."""
    circuit, findings = found_in(read_text("a.plan", dedent(TWO_RELAYS)))
    return circuit, next(finding for finding in findings if finding.check == "supply-short")


def test_a_step_that_cannot_be_taken_is_refused() -> None:
    """A relay does not operate before its button is pressed."""
    circuit, finding = one_short()
    tampered = finding._replace(steps=("begin with PS on", "K1 operates", "K2 operates"))
    assert replay(circuit, tampered) == "this step cannot be taken: K1 operates"


def test_a_path_that_is_not_there_is_refused() -> None:
    """A path that leaves out a contact leads nowhere."""
    circuit, finding = one_short()
    gap = tuple(terminal for terminal in finding.path if terminal not in ("K1.13", "K1.14"))
    assert replay(circuit, finding) == ""
    assert replay(circuit, finding._replace(path=gap)) == "the steps lead to a state that does not show it"


def test_a_claim_that_does_not_hold_is_refused() -> None:
    """One relay alone shorts nothing."""
    circuit, finding = one_short()
    steps = ("begin with PS on, PB1 pressed", "K1 operates")
    tampered = finding._replace(steps=steps, path=(), example={"PS": "on", "K1": "operated"})
    assert replay(circuit, tampered) == "the steps lead to a state that does not show it"


RACE = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    button PB1 no
    relay  K1 no nc coil 12 V 160 ohm with diode {first}
    relay  K2 no nc coil 12 V 160 ohm with diode {second}
    lamp   L1 L2 12 V 2 W
    rung   PS.+, F1, PB1, K2.21-22, K1.A1-A2, PS.-
    rung   PB1.14, K1.21-22, K2.A1-A2, PS.-
    rung   F1.2, K1.13-14, L1, PS.-
    rung   F1.2, K2.13-14, L2, PS.-
"""


def the_race(first: str = "", second: str = "") -> tuple[Circuit, tuple[Finding, ...]]:
    """Two relays that shut each other out, and the race between them where there is one."""
    circuit, findings = found_in(read_text("a.plan", dedent(RACE.format(first=first, second=second))))
    return circuit, tuple(finding for finding in findings if finding.check == "order-dependent")


def test_a_race_that_times_leave_open_is_confirmed_within_them() -> None:
    """Ranges that overlap leave both orders."""
    circuit, (finding,) = the_race("operate 5..9 ms release 2 ms", "operate 8..12 ms release 2 ms")
    assert replay(circuit, finding) == ""


def test_a_race_that_times_exclude_is_refused() -> None:
    """Of 5..7 ms and 8..12 ms the second never is the quicker one."""
    _, (finding,) = the_race()
    circuit, findings = the_race("operate 5..7 ms release 2 ms", "operate 8..12 ms release 2 ms")
    assert findings == ()
    assert replay(circuit, finding) == "the steps lead to a state that does not show it"


def test_a_story_that_times_exclude_is_refused() -> None:
    """K2 does not operate at the same press as K1 if it is surely the slower one."""
    circuit, _ = the_race("operate 5..7 ms release 2 ms", "operate 8..12 ms release 2 ms")
    told = one_short()[1]._replace(
        check="none",
        path=(),
        example={"K2": "operated", "K1": "released"},
        steps=("begin with PS on, PB1 released", "press PB1", "K2 operates"),
    )
    assert replay(circuit, told) == "relays' times exclude these steps"
    assert replay(the_race()[0], told) == ""


BUZZER_IN_TIME = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    button PB1 no
    relay  K1 nc nc coil 12 V 160 ohm with diode {first}
    relay  K2 no nc coil 12 V 160 ohm with diode {second}
    lamp   L1 12 V 2 W
    rung   PS.+, F1, PB1, K1.11-12, K2.21-22, K1.A1-A2, PS.-
    rung   PB1.14, ( K1.21-22 | K2.13-14 ), K2.A1-A2, PS.-
    rung   PB1.14, L1, PS.-
"""


def test_an_endless_round_that_only_times_keep_going_is_confirmed() -> None:
    """K1 buzzes; a K2 that is slower than each buzz never comes to end it, one without times may."""
    plan = BUZZER_IN_TIME.format(first="operate 5 ms release 5 ms", second="operate 40 ms release 1 ms")
    circuit, findings = found_in(read_text("a.plan", dedent(plan)))
    finding = next(finding for finding in findings if finding.check == "never-settles")
    assert replay(circuit, finding) == ""
    untimed, findings = found_in(read_text("a.plan", dedent(BUZZER_IN_TIME.format(first="", second=""))))
    assert [one for one in findings if one.check == "never-settles"] == []
    assert replay(untimed, finding) == "the steps lead to a state that does not show it"


WELDING = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    estop  ES1 nc
    button PB1 no
    relay  K1 spdt coil 12 V 160 ohm with diode
    motor  M1 12 V stall 5 A
    rung   PS.+, F1, ES1, PB1, K1.A1-A2, PS.-
    rung   F1.2, K1.14-11, M1, PS.-
    wire   K1.12 PS.-
"""


def test_what_a_stuck_relay_does_is_confirmed_and_what_it_does_not_do_is_refused() -> None:
    """K1 keeps the motor driven stuck operated, and only if it had operated before."""
    circuit, findings = found_in(read_text("a.plan", dedent(WELDING)))
    finding = next(finding for finding in findings if finding.reached == "fault")
    assert replay(circuit, finding) == ""
    begun, *_ = finding.steps
    assert replay(circuit, finding._replace(steps=(begun, "K1 sticks operated"))) == (
        "this step cannot be taken: K1 sticks operated"
    )


CLOSING = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    estop  ES1 no
    switch S1 spst positions off on
    relay  K1 no nc coil 12 V 160 ohm with diode
    motor  M1 12 V stall 5 A may coast
    rung   PS.+, F1, ES1, K1.A1-A2, PS.-
    rung   F1.2, S1, K1.21-22, M1, PS.-
"""


def test_what_a_broken_wire_does_is_confirmed_and_what_it_does_not_do_is_refused() -> None:
    """A stop that works by closing is lost once its wire breaks; the sound box stops, and before it breaks nothing is
    lost."""
    circuit, findings = found_in(read_text("a.plan", dedent(CLOSING)))
    finding = next(finding for finding in findings if "with a wire to it broken" in finding.what)
    assert replay(circuit, finding) == ""
    assert "fault: ES1.13-14 open" in finding.steps
    sound = finding._replace(steps=("begin with PS on, ES1 released, S1 on", "press ES1", "K1 operates"))
    assert replay(circuit, sound) == "the steps lead to a state that does not show it"
