"""What an editor tells of a part or terminal: in which states, as current runs."""

from functools import cache

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.editor.telling import MOST_ROWS, told_of_part, told_of_terminal
from circuitcheck.plan.reading import read_text

CURTAIN = """\
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 spdt positions open off close
relay  K1 K2 spdt coil 12 V 90 ohm with diode
motor  M1 12 V stall 5 A
lamp   L1 12 V 2 W
rung   PS.+, F1, S1.com-open, K1.A1-A2, PS.-
rung   S1.close, K2.A1-A2, PS.-
rung   F1.2, K1.14-11, M1, K2.11-14, F1.2
rung   K1.12, PS.-
rung   K2.12, PS.-
rung   F1.2, L1, PS.-
"""


@cache
def facts() -> Facts:
    """The curtain, analysed."""
    return analyse(build_circuit(read_text("curtain.plan", CURTAIN)))


def test_a_terminal_is_told_with_the_contacts_that_join_it_to_each_rail() -> None:
    """Never, always, or with what: from +, and on to −, as current runs; not back through a coil's diode."""
    assert list(told_of_terminal(facts(), "K1.11")) == [
        "joined to PS.+ with K1 operated",
        "joined to PS.- with K1 released",
    ]
    assert list(told_of_terminal(facts(), "F1.2")) == ["always joined to PS.+", "never joined to PS.-"]
    assert list(told_of_terminal(facts(), "S1.open")) == ["joined to PS.+ with S1 open", "never joined to PS.-"]


def test_loads_are_told_with_what_feeds_them() -> None:
    """A coil with the switch's position; a lamp that only the supply commands."""
    assert list(told_of_part(facts(), "K1")) == ["fed with PS on, S1 open"]
    assert list(told_of_part(facts(), "L1")) == ["fed with PS on"]
    assert list(told_of_part(facts(), "S1")) == []


def test_a_motor_is_told_with_its_rows_of_the_truth_table() -> None:
    """As Markdown, and not more of them than anybody would read."""
    (table,) = told_of_part(facts(), "M1")
    head, _, *rows = table.splitlines()
    assert head == "| PS | S1 | K1 | K2 | M1 |"
    assert "| on | open | operated | released | forward |" in rows
    assert len(rows) <= MOST_ROWS
