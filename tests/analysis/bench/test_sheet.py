"""What a bench sheet tells of faults that it can't show."""

import pytest

from circuitcheck.analysis.bench import candidates
from circuitcheck.analysis.bench.settings import OFF, WITHOUT
from circuitcheck.analysis.bench.sheet import Sheet, bench_sheet
from circuitcheck.analysis.doing import nobody
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.analysis.states import Spaces, TooWide
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

BOX = circuit_of("supply PS 12 V 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, PB1, L1, PS.-\n")
DOUBLED = """
supply PS 12 V 5 A
lamp   L1 12 V 2 W
splice N1
rung   PS.+, L1, PS.-
rung   PS.+, N1, L1.1
"""
FAULTS = {one.called: one for one in single_faults(BOX)}


def sheet(*called: str) -> Sheet:
    """The sheet of the box for these faults."""
    return bench_sheet(BOX, [FAULTS[name] for name in called], nobody)


def too_wide_with_a_fault(circuit: Circuit, spaces: Spaces | None = None) -> Facts:
    """Only the sound box can be worked out."""
    if circuit.supplies != BOX.supplies or len(circuit.conductors) != len(BOX.conductors):
        raise TooWide((0,), 1)
    return analyse(circuit, spaces)


def test_a_fault_is_shown_in_the_first_stage_that_can_show_it() -> None:
    """Without power what a meter reads; a supply that is dead, only under power."""
    found = sheet("L1 open", "PS lost")
    shown = {
        stage.settings.stage: {one.fault.called for line in stage.lines for one in line.shows} for stage in found.stages
    }
    assert shown == {OFF: {"L1 open"}, WITHOUT: {"PS lost"}}
    assert (found.unseen, found.undecided) == ((), ())
    assert [stage.at_least for stage in found.stages] == [1, 1]


def test_a_stage_in_which_nothing_shows_has_no_lines() -> None:
    """A meter reads the same of a supply that is dead, and of no fault at all."""
    assert [len(stage.lines) for stage in sheet("PS lost").stages] == [0, 1]
    assert [stage.lines for stage in sheet().stages] == [(), ()]


def test_a_fault_that_changes_nothing_is_unseen() -> None:
    """Any of the wires of two ways side by side."""
    doubled = circuit_of(DOUBLED)
    faults = [one for one in single_faults(doubled) if "wire" in one.called]
    found = bench_sheet(doubled, faults, nobody)
    assert [one.called for one in found.unseen] == [
        "the wire PS.+ to L1.1 open", "the wire PS.+ to N1 open", "the wire N1 to L1.1 open",
    ]  # fmt: skip
    assert found.undecided == ()


def test_a_fault_is_undecided_where_it_can_t_be_worked_out_what_the_box_does_with_it() -> None:
    """What is read without power shows it all the same."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(candidates, "analyse", too_wide_with_a_fault)
        found = sheet("L1 open", "PS lost")
    assert [one.called for one in found.undecided] == ["PS lost"]
    assert found.unseen == ()


def test_lines_with_little_to_set_come_first() -> None:
    """A button that doesn't close shows only while it is held."""
    lines = sheet("PB1.13-14 open", "L1 open", "PB1.13-14 welded").stages[0].lines
    assert [line.setting.values[1] for line in lines] == sorted(line.setting.values[1] for line in lines)
    assert {line.setting.values[1] for line in lines} == {0, 1}


def test_each_stage_is_told_before_it_is_worked_out() -> None:
    """Without motors there are two."""
    told: list[str] = []
    bench_sheet(BOX, list(FAULTS.values()), told.append)
    assert told == [OFF, WITHOUT]
