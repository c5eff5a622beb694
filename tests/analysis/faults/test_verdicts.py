"""What faults lead to, whether anybody would notice, and what two of them do together."""

from pathlib import Path
from textwrap import dedent

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.analysis.faults.beside import Beside, roomy_spaces
from circuitcheck.analysis.faults.consequences import worst
from circuitcheck.analysis.faults.fault import Fault, both_at_once, with_fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.faults.verdicts import Judge, Verdict
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.reports.faults_asking import asked_faults
from tests.benchmarks.faults import boxes

EXAMPLES = Path(__file__).parents[3] / "examples"


def example(name: str) -> Circuit:
    """The circuit of an example for people."""
    return build_circuit(read_plan(EXAMPLES / f"{name}.plan", (EXAMPLES,)))


def fault_of(circuit: Circuit, called: str) -> Fault:
    """The fault that is called so."""
    return next(one for one in single_faults(circuit) if one.called == called)


def verdict(circuit: Circuit, called: str) -> Verdict:
    """What it leads to."""
    return Judge(circuit).verdict(fault_of(circuit, called))


def consequence(circuit: Circuit, called: str) -> str:
    """The worst."""
    found = worst(list(verdict(circuit, called).outcomes))
    return found.consequence if found else "holds"


@pytest.mark.parametrize(
    ("called", "expected"),
    [
        ("LS1 stuck free", "overtravel"),
        ("LS1 torn off", "does nothing"),
        ("K1.11-14 welded", "does not stop"),
        ("K1.11-12 open", "brake lost"),
        ("K2.21-22-24 all joined", "supply short"),
        ("K3.21-24 welded", "unexpected motion"),
        ("the wire K2.A2 to PS.- open", "overtravel"),
        ("PS lost", "does nothing"),
        ("K1.21-24 welded", "holds"),
    ],
)
def test_the_drawbridge_with_a_fault_does_its_worst(called: str, expected: str) -> None:
    """Each kind of consequence, as its builder finds it by thinking: a broken return of the direction relay makes it
    rise when told to lower, past its top."""
    assert consequence(example("right/drawbridge"), called) == expected


TRAPPED = """
    supply PS 12 V 10 A
    fuse   F1 5 A
    switch S1 dpdt positions raise off lower
    axis   deck from bottom via half to top
    limit  TOP spdt on deck at top
    limit  LOW spdt on deck at bottom
    diode  D1 D2 10 A
    motor  M1 12 V stall 10 A drives deck toward top may coast
    rung   PS.+, F1, S1.com1
    rung   S1.raise1, M1.+
    rung   M1.-, TOP.com-nc, LOW.com-nc, S1.raise2
    rung   TOP.nc, D1, TOP.com
    rung   LOW.com, D2, LOW.nc
    rung   S1.lower1, S1.raise2
    rung   S1.lower2, S1.raise1
    wire   S1.com2 PS.-
"""


def test_a_back_off_diode_that_opens_traps_the_axis_at_its_limit() -> None:
    """Both limits lie in one lead, each with a diode past it that lets the motor back off: the top's is gone."""
    circuit = build_circuit(read_text("a.plan", dedent(TRAPPED)))
    found = {(one.consequence, one.place) for one in verdict(circuit, "D1 open").outcomes}
    assert ("limit trapped", "top") in found
    assert ("limit trapped", "bottom") not in found


def test_an_axis_that_is_trapped_anyhow_is_no_fault_s_doing() -> None:
    """Without its diode the bottom's limit keeps the sound box from raising the deck again."""
    circuit = build_circuit(read_text("a.plan", dedent(TRAPPED.replace("rung   LOW.com, D2, LOW.nc", ""))))
    found = {(one.consequence, one.place) for one in verdict(circuit, "D1 open").outcomes}
    assert ("limit trapped", "top") in found
    assert ("limit trapped", "bottom") not in found


def test_a_limit_that_is_stuck_lets_the_axis_go_past_its_own_end() -> None:
    """Whatever other places there are between the ends."""
    circuit = build_circuit(read_text("a.plan", dedent(TRAPPED)))
    for limit, end in (("TOP", "top"), ("LOW", "bottom")):
        found = verdict(circuit, f"{limit} stuck free").outcomes
        assert {one.place for one in found if one.consequence == "overtravel"} == {end}


def test_a_relay_that_hangs_on_one_that_moves_otherwise_is_looked_at_in_each_box_by_itself() -> None:
    """Whichever stands first in the plan; what does not hang on it is one in both."""
    text = """
        supply PS 12 V 10 A
        button PB1 PB2 no
        relay  K4 K3 K2 K1 no coil 12 V 160 ohm
        lamp   L1 L2 12 V 2 W
        rung   PS.+, PB1, K1.A1-A2, PS.-
        rung   PS.+, K1.13-14, K2.A1-A2, PS.-
        rung   PS.+, K2.13-14, K3.A1-A2, PS.-
        rung   PS.+, K3.13-14, L1, PS.-
        rung   PS.+, PB2, K4.A1-A2, PS.-
        rung   PS.+, K4.13-14, L2, PS.-
    """
    circuit = build_circuit(read_text("a.plan", dedent(text)))
    fault, spaces = fault_of(circuit, "the coil K1.A1-A2 open"), roomy_spaces(circuit)
    beside = Beside(analyse(circuit, spaces), analyse(with_fault(circuit, fault), spaces), fault)
    assert {circuit.digits[digit].name for digit in beside.copied} == {"K1", "K2", "K3"}


def test_a_short_is_told_with_whether_a_fuse_lies_on_every_way() -> None:
    """With F1 every way has one; with the fuse bridged none has."""
    text = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 5 W\nrung PS.+, F1, PB1, L1, PS.-\n"
    fused, bare = (build_circuit(read_text("a.plan", one)) for one in (text, f"{text}wire F1.1 F1.2\n"))
    assert [one.unfused for one in verdict(fused, "L1 shorted").shorts] == [False]
    assert [one.unfused for one in verdict(bare, "L1 shorted").shorts] == [True]


def test_on_which_side_of_the_fuse_two_terminals_touch_decides_whether_it_blows() -> None:
    """The strip has minus beside what lies behind the fuse, and minus beside what lies before it."""
    text = """
        supply PS 12 V 10 A
        fuse   F1 5 A
        strip  X1 3 ways
        button PB1 no
        lamp   L1 12 V 5 W
        wire   PS.+ X1.1
        wire   PS.- X1.2
        rung   X1.1, F1, X1.3, PB1, L1, X1.2
    """
    circuit = build_circuit(read_text("a.plan", dedent(text)))
    judge = Judge(circuit)
    unfused = {
        called: any(one.unfused for one in judge.verdict(fault_of(circuit, called)).shorts)
        for called in ("X1.1 touches X1.2", "X1.2 touches X1.3")
    }
    assert unfused == {"X1.1 touches X1.2": True, "X1.2 touches X1.3": False}


def test_a_fault_that_shows_in_ordinary_use_is_noticed_by_what_shows_it() -> None:
    """A lamp contact that stays open is seen by its lamp alone."""
    circuit = example("right/drawbridge")
    assert verdict(circuit, "K1.21-24 open").noticed_by == ("L1",)


def test_a_fault_that_takes_two_buttons_at_once_to_show_is_hidden() -> None:
    """The curtain's buttons shut each other out by a contact each; pressed one after the other nothing is missed."""
    circuit = example("right/curtain")
    assert verdict(circuit, "OPEN.11-12 welded").noticed_by == ()
    assert verdict(circuit, "OPEN.23-24 welded").noticed_by == ("M1",)


def test_a_second_limit_hides_that_the_first_is_stuck_until_it_sticks_too() -> None:
    """Each alone holds and is hidden; both together drive the lift past the gallery."""
    circuit = example("right/gallery_lift")
    first, second = (fault_of(circuit, f"{name} stuck free") for name in ("TOP", "TOP2"))
    for one in (first, second):
        assert consequence(circuit, one.called) == "holds"
        assert verdict(circuit, one.called).noticed_by == ()
    together = worst(list(Judge(circuit).verdict(both_at_once(first, second)).outcomes))
    assert together is not None
    assert (together.consequence, together.place) == ("overtravel", "gallery")


def test_pairs_find_what_two_faults_do_to_a_limit() -> None:
    """Asked for, the report tells both limits of the gallery lift stuck, and says how many pairs were tried."""
    report = asked_faults(EXAMPLES / "right" / "gallery_lift.plan", (EXAMPLES,), pairs=True)
    assert report.pairs is not None
    assert "TOP stuck free and TOP2 stuck free" in {one.fault.called for one in report.pairs}
    assert report.tried_pairs > len(report.pairs)


def test_wires_in_one_series_share_a_verdict() -> None:
    """Which of them breaks makes no difference, so it is looked at once."""
    circuit = example("right/touring_drawbridge")
    judge = Judge(circuit)
    for called in ("J1.p1-s1 open", "the wire J1.s1 to X1.1 open", "the wire LS1.nc to X1.3 open", "LS1.com-nc open"):
        judge.verdict(fault_of(circuit, called))
    assert judge.distinct == 1


def test_a_fault_in_one_box_looks_at_no_other() -> None:
    """Of twelve drives on one supply a welded contact concerns its own, whose digits are all that is counted."""
    circuit = boxes(12, behind_stop=False)
    (outcome, *_) = verdict(circuit, "K71.11-14 welded").outcomes
    names = {circuit.digits[digit % len(circuit.digits)].name for digit in outcome.joint.space.digits}
    assert names <= {"PS", "S7", "K71", "K72", "deck7"}


def test_twelve_relays_take_no_longer_a_fault_than_two() -> None:
    """Six drives on one supply leave six times the circuits of one, and no wider questions."""
    one, six = Judge(boxes(1, behind_stop=False)), Judge(boxes(6, behind_stop=False))
    widths = []
    for judge in (one, six):
        for fault in single_faults(judge.circuit):
            if fault.kind not in ("supply lost", "supply reversed"):
                widths += [outcome.joint.space.size for outcome in judge.verdict(fault).outcomes]
        widths.append(0)
    edge = widths.index(0)
    assert max(widths[edge:]) == max(widths[:edge])
    assert six.distinct <= 6 * one.distinct


def test_a_coil_that_shorts_one_of_six_drives_behind_one_stop_is_judged() -> None:
    """Behind the stop's bus some diode or other always leads there; which one hangs on 13 relays, and is not asked."""
    found = verdict(boxes(6, behind_stop=True), "the coil K62.A1-A2 shorted")
    assert not found.undecided
    assert [one.consequence for one in found.outcomes][:1] == ["supply short"]
