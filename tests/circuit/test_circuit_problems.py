"""What keeps a plan from being a circuit: each slip of the pen, where the message points, what it says."""

from collections.abc import Callable

import pytest

from circuitcheck.plan.source import Problem

ProblemsOf = Callable[[str], tuple[Problem, ...]]
PARTS = """supply PS 12 V 10 A
relay K1 dpdt coil 12 V 160 ohm
lamp L1 L2 12 V 2 W
switch S1 spdt positions raise lower
axis deck from bottom via middle to top
axis wheel turning through park half
motor M1 12 V stall 18 A
splice N1
type cube relay spdt coil 12 V
module Shutter
  port plus minus
  relay K1 spdt coil 12 V
  rung plus, K1.A1-A2, minus
end
fit R1 Shutter : plus PS.+, minus PS.-
"""

SLIPS = [
    ("wire K1.15 L1.1", "K1.15",
     "no terminal K1.15",
     "K1 is a dpdt relay with A1 A2 11 12 14 21 22 24. Nearest: K1.11, K1.12, K1.14."),
    ("wire K9.1 L1.1", "K9.1",
     "no part K9",
     "Nearest: K1."),
    ("wire K1 L1.1", "K1",
     "K1 has 8 terminals",
     "K1 is a dpdt relay with A1 A2 11 12 14 21 22 24. Write e.g. K1.A1."),
    ("wire N1.1 L1.1", "N1.1",
     "no terminal N1.1",
     "N1 is a single terminal: write N1."),
    ("wire deck L1.1", "deck",
     "deck is an axis, not a terminal",
     "Wires end at the terminals of parts."),
    ("wire L1.1 L1.1", "wire L1.1 L1.1",
     "a wire from L1.1 to itself",
     "Name two different terminals."),
    ("wire R1.K1.19 L1.1", "R1.K1.19",
     "no terminal R1.K1.19",
     "R1.K1 is an spdt relay with A1 A2 11 12 14. Nearest: R1.K1.11, R1.K1.12, R1.K1.14."),
    ("wire R1.K9.A1 L1.1", "R1.K9.A1",
     "no part R1.K9",
     "Nearest: R1.K1."),
    ("wire R1.plux L1.1", "R1.plux",
     "no terminal R1.plux",
     "Nearest: R1.plus."),
    ("wire PS.+ L1.1 : 12 V", "12 V",
     "12 V where a gauge or a length is expected",
     "Write e.g. `: 1.5 mm2 red 0.4 m`, or `18 AWG`."),
    ("wire PS.+ L1.1 : blu", "blu",
     "no colour blu",
     "Nearest: blue. A wire's number has a digit in it, like w12."),
    ("wire PS.+ L1.1 : red black", "black",
     "a second colour for one wire: black",
     "The colour red is given already; keep one of them."),
    ("wire PS.+ L1.1 : w1 w2", "w2",
     "a second number for one wire: w2",
     "The number w1 is given already; keep one of them."),
    ("wire PS.+ L1.1 : 1 mm2 18 AWG", "18 AWG",
     "a gauge (mm2 or AWG) is given twice: 18 AWG",
     "Keep one of them."),
    ("wire PS.+ L1.1 : 18..20 AWG", "18..20 AWG",
     "the range 18..20 AWG where one value is expected",
     "Write one number."),
    ("wire PS.+ L1.1 : 99 AWG", "99 AWG",
     "99 AWG cannot be meant",
     "A gauge (mm2 or AWG) must be above 0 and at most 1,000 mm2."),
    ("rung K1.12-14, L1", "K1.12-14",
     "12 and 14 are both throws",
     "A way through a contact goes between its common and a throw."),
    ("rung K1.11-21, L1", "K1.11-21",
     "no way through K1.11-21",
     "Nothing in the part joins 11 and 21. Its ways are A1-A2, 11-12, 11-14, 21-22 and 21-24."),
    ("rung K1.11-15, L1", "K1.11-15",
     "no terminal K1.15",
     "K1 is a dpdt relay with A1 A2 11 12 14 21 22 24. Nearest: K1.11, K1.12, K1.14."),
    ("rung K1, L1", "K1",
     "K1 has 8 terminals",
     "K1 is a dpdt relay with A1 A2 11 12 14 21 22 24. Write e.g. K1.A1."),
    ("rung S1.raise-lower, L1", "S1.raise-lower",
     "raise and lower are both throws",
     "A way through a contact goes between its common and a throw."),
    ("rung PS, L1", "PS",
     "no way through PS",
     "Nothing in the part joins + and -."),
    ("rung L9, L1", "L9",
     "no part L9",
     "Nearest: L1, L2."),
    ("rung ( L1 | L9 ), N1", "L9",
     "no part L9",
     "Nearest: L1, L2."),
    ("lamp L1 12 V 2 W", "L1",
     "two parts are named L1",
     "Each part, axis and fitted module needs a name of its own."),
    ("axis K1 from a to b", "K1",
     "two parts are named K1",
     "Each part, axis and fitted module needs a name of its own."),
    ("fit S1 Shutter : plus PS.+, minus PS.-", "S1",
     "two parts are named S1",
     "Each part, axis and fitted module needs a name of its own."),
    ("lamp L9 12 V stall 2 A", "stall 2 A",
     "a lamp takes no `stall`",
     "It takes volts, ohms, watts and amps."),
    ("lamp L9 12 V", "L9",
     "lamp L9 has volts only",
     "Write ohms, watts or amps as well, e.g. `lamp L1 12 V 2 W`."),
    ("lamp L9 2 W", "L9",
     "lamp L9 has no volts",
     "Write e.g. `lamp L9 12 V 2 W`."),
    ("lamp L9 12 V 12 V 2 W", "12 V",
     "volts are given twice: 12 V",
     "Keep one of them."),
    ("lamp L9 12 rpm 2 W 12 V", "12 rpm",
     "12 rpm where volts, ohms, watts or amps are expected",
     "A lamp takes volts, ohms, watts or amps."),
    ("lamp L9 12 Vt 2 W", "12 Vt",
     "no unit Vt",
     "Nearest: V, ft."),
    ("lamp L9 0 V 2 W", "0 V",
     "0 V cannot be meant",
     "Volts must be above 0 and at most 1,000 V."),
    ("lamp L9 12000 V 2 W", "12000 V",
     "12000 V cannot be meant",
     "Volts must be above 0 and at most 1,000 V."),
    ("lamp L9 6..12 V 2 W", "6..12 V",
     "the range 6..12 V where one value is expected",
     "Write one number."),
    ("supply PS2 10 A", "PS2",
     "supply PS2 has no volts",
     "Write e.g. `supply PS2 12 V 10 A`."),
    ("relay K9 dpdt", "K9",
     "relay K9 has no `coil`",
     "Write e.g. `relay K9 dpdt coil 12 V 160 ohm`."),
    ("relay K9 dpdt coil 160 ohm", "coil 160 ohm",
     "no volts after `coil`",
     "Write e.g. `relay K9 dpdt coil 12 V 160 ohm`."),
    ("relay K9 dpdt coil 12 V 0 ohm", "0 ohm",
     "0 ohm cannot be meant",
     "Ohms must be above 0 and at most 1,000,000,000 ohm."),
    ("relay K9 coil 12 V 3 s", "3 s",
     "3 s where volts, ohms or watts are expected",
     "`coil` takes volts, ohms or watts."),
    ("relay K9 dpdt coil 12 V coil 24 V", "coil 24 V",
     "`coil` is given twice",
     "Keep one of them."),
    ("relay K9 coil 12 V latching on-delay 3 s", "on-delay 3 s",
     "K9 is both latching and on-delay",
     "Keep one of them."),
    ("relay K9 coil 12 V operate 1 V release 2 V", "release 2 V",
     "K9 would release at 2 V and operate at 1 V",
     "A coil releases at fewer volts than it operates at."),
    ("relay K9 coil 12 V operate 12..5 ms", "12..5 ms",
     "the range 12..5 ms runs backwards",
     "Write the smaller end first."),
    ("relay K9 coil 12 V with resistor", "with resistor",
     "the resistor in K9 has no ohms",
     "Write e.g. `with resistor 680 ohm`."),
    ('relay K9 as cubo "run"', "cubo",
     "no type cubo",
     "Nearest: cube."),
    ("lamp L9 as cube", "cube",
     "cube is a relay type, not a lamp type",
     "There is no type of this kind yet."),
    ("switch S9 spdt", "S9",
     "switch S9 has no `positions`",
     "Write e.g. `switch S9 spdt positions raise lower`."),
    ("switch S9 spdt positions up", "positions up",
     "`positions` with 1 name after it",
     "`positions` takes 2 to 24 names."),
    ("switch S9 positions a b", "S9",
     "switch S9 has no form",
     "Write spst, dpst, spdt, dpdt, 3pdt or 4pdt, or poles and ways: "
     "`switch S9 2 poles 4 ways positions off low mid high`."),
    ("switch S9 spdt positions a b c", "positions a b c",
     "S9 is an spdt switch but has 3 positions that join something",
     "Name 2 positions after `positions`, and one more as `off` where it rests with all open."),
    ("switch S9 spdt positions a a", "a",
     "S9 has two positions named a",
     "Give each its own name."),
    ("switch S9 spdt positions com a", "com",
     "a position named com",
     "com is the mark of the common terminal."),
    ("switch S9 spdt dpdt positions a b", "dpdt",
     "S9 is both spdt and dpdt",
     "Keep one of them."),
    ("switch S9 2 poles 7 ways positions a b", "positions a b",
     "S9 is a switch with 7 ways but has 2 positions that join something",
     "Name 7 positions after `positions`, and one more as `off` where it rests with all open."),
    ("switch S9 1.5 poles 2 ways positions a b", "1.5 poles",
     "1.5 poles is no whole number",
     "Write a whole number of poles."),
    ("button PB9", "PB9",
     "nothing says what contacts PB9 has",
     "Write no, nc, spdt, dpdt, 3pdt or 4pdt, e.g. `button PB9 no`."),
    ("limit LS9 on deck at top", "LS9",
     "nothing says what contacts LS9 has",
     "Write spdt, dpdt, no or nc, e.g. `limit LS9 spdt on deck at top`."),
    ("limit LS9 spdt", "LS9",
     "limit LS9 has no `on`",
     "Write e.g. `limit LS9 spdt on deck at top`."),
    ("limit LS9 spdt on dock at top", "dock",
     "no axis dock",
     "Nearest: deck."),
    ("limit LS9 spdt on deck at tip", "tip",
     "no place tip on deck",
     "Nearest: top."),
    ("motor M9 12 V drives dock toward top", "dock",
     "no axis dock",
     "Nearest: deck."),
    ("motor M9 12 V drives deck toward middle", "middle",
     "middle is not an end of deck",
     "A motor drives toward an end: bottom or top."),
    ("motor M9 12 V drives deck toward tip", "tip",
     "no place tip on deck",
     "Nearest: top."),
    ("motor M9 two-speed 12 V case on +", "+",
     "no brush + on M9",
     "M9 has the brushes low high -."),
    ("axis boom from low to low", "low",
     "boom has two places named low",
     "Give each place a name of its own."),
    ("axis boom from low to high, 70 V", "70 V",
     "70 V where one angle is expected",
     "Write how far the axis turns in all, e.g. `70 deg`."),
    ("axis boom from low to high, 70 deg 80 deg", "80 deg",
     "80 deg where one angle is expected",
     "Write how far the axis turns in all, e.g. `70 deg`."),
    ("outside OUT9", "OUT9",
     "nothing says what contacts OUT9 has",
     "Write contact, sinking or sourcing, e.g. `outside OUT9 contact`."),
    ("outside OUT9 contact sinking", "sinking",
     "OUT9 is both contact and sinking",
     "Keep one of them."),
    ("suppressor V9", "V9",
     "nothing says what V9 is",
     "Write varistor, tvs, rc, resistor or diode, e.g. `suppressor V9 resistor 680 ohm`."),
    ("suppressor V9 varistor tvs", "tvs",
     "V9 is both varistor and tvs",
     "Keep one of them."),
    ("suppressor V9 varistor 3 s", "3 s",
     "3 s where amps, volts or watts are expected",
     "A suppressor takes amps, volts or watts."),
    ("strip X9", "X9",
     "strip X9 has no ways",
     "Write e.g. `strip X9 6 ways`."),
    ("strip X9 900 ways", "900 ways",
     "900 ways cannot be meant",
     "Ways must be above 0 and at most 500 ways."),
    ("fuse F9 12 V", "F9",
     "fuse F9 has no amps",
     "Write e.g. `fuse F9 7.5 A`."),
    ("diode D9 3 ohm", "3 ohm",
     "3 ohm where amps or volts are expected",
     "A diode takes amps or volts."),
    ("fit R9 Shuter : plus PS.+", "Shuter",
     "no module Shuter",
     "Nearest: Shutter."),
    ("fit R9 Shutter : plus PS.+", "fit R9 Shutter : plus PS.+",
     "R9 leaves minus of Shutter unjoined",
     "Add e.g. `minus F1.2` after the colon."),
    ("fit R9 Shutter : plus PS.+, minus PS.-, plux L1.1", "plux",
     "Shutter has no port plux",
     "Nearest: plus."),
    ("fit R9 Shutter : plus PS.+, minus PS.-, plus L1.1", "plus",
     "port plus is joined twice",
     "A port is joined once; join further wires to the terminal that it leads to."),
    ("fit R9 Shutter : plus PS.+, minus PS.9", "PS.9",
     "no terminal PS.9",
     "PS is a supply with + -."),
    ("expect M1 brakedd", "brakedd",
     "M1 is never brakedd",
     "A motor can be forward, reverse, driven, braked, coasting, stopped, weak or shorted."),
    ("expect M9 braked", "M9",
     "no part M9",
     "Nearest: M1."),
    ("expect K1 pressed", "pressed",
     "K1 is never pressed",
     "A relay can be released or operated."),
    ("expect deck at tip", "tip",
     "no place tip on deck",
     "Nearest: top."),
    ("expect deck braked", "deck braked",
     "deck is an axis",
     "Write `deck at PLACE` or `deck stops at PLACE`."),
    ("expect M1 at top", "M1",
     "M1 is no axis",
     "M1 is a motor; `at` is said of an axis."),
    ("expect deck past middle", "middle",
     "middle is not an end of deck",
     "Its ends are bottom and top."),
    ("expect wheel past park", "park",
     "park is not an end of wheel",
     "It turns without an end."),
    ("expect N1 on", "N1",
     "nothing can be said of N1",
     "A splice doesn't change; a promise speaks of what does."),
    ("expect M1 braked when K9 operated", "K9",
     "no part K9",
     "Nearest: K1."),
    ("expect dock at top", "dock",
     "no axis dock",
     "Nearest: deck."),
    ("never R1.K1 pressed", "pressed",
     "R1.K1 is never pressed",
     "A relay can be released or operated."),
]  # fmt: skip
"""A statement after PARTS, the words in it that the message points at, what is found, what helps."""


@pytest.mark.parametrize(("statement", "marked", "what", "help"), SLIPS, ids=[slip[0] for slip in SLIPS])
def test_a_slip_is_told_in_the_plans_own_words(
    problems_of: ProblemsOf, statement: str, marked: str, what: str, help: str
) -> None:
    """One problem for one slip, at the words that hold it, with what was expected."""
    (problem,) = problems_of(PARTS + statement)
    assert (problem.what, problem.help) == (what, help)
    assert problem.place.line == PARTS.count("\n") + 1
    assert statement[problem.place.column - 1 : problem.place.end_column - 1] == marked


@pytest.mark.parametrize(
    ("statement", "line", "sentence"),
    [
        ("lamp L1 12 V 2 W", 3, "L1 is first described here."),
        ("lamp L9 as cube", 9, "cube is described here."),
        ("fit R9 Shutter : plus PS.+", 10, "Shutter has the ports plus minus."),
        ("fit R9 Shutter : plus PS.+, plus PS.+, minus PS.-", 16, "plus is first joined here."),
        ("relay K9 coil 12 V coil 24 V", 16, "`coil` is first given here."),
    ],
)
def test_a_problem_shows_the_other_place_that_belongs_to_it(
    problems_of: ProblemsOf, statement: str, line: int, sentence: str
) -> None:
    """Each place has a sentence of its own."""
    (problem,) = problems_of(PARTS + statement)
    ((place, said),) = problem.also
    assert (place.line, said) == (line, sentence)


def test_all_problems_of_a_plan_are_told_at_once_in_order(problems_of: ProblemsOf) -> None:
    """Parts, wires and promises alike."""
    text = "expect L9 lit\nlamp L1 12 V 2 X\nwire L1.9 L2.1\nlamp L2 12 V 2 W\nwire L2.1 L2.9"
    assert [problem.what for problem in problems_of(text)] == ["no part L9", "no unit X", "no terminal L2.9"]


def test_nothing_more_is_said_of_a_part_that_was_not_understood(problems_of: ProblemsOf) -> None:
    """Its wires, its rungs and its promises would only repeat the same slip."""
    text = PARTS + "relay K9 spdt\nwire K9.A1 PS.+\nrung K9.11-14, L1\nnever K9 operated"
    assert [problem.what for problem in problems_of(text)] == ["relay K9 has no `coil`"]


def test_nothing_is_said_of_the_inside_of_a_module_that_is_not_there(problems_of: ProblemsOf) -> None:
    """Only the fit is at fault."""
    text = PARTS + "fit R9 Shuter : plus PS.+\nwire R9.K1.A1 PS.+\nnever R9.K1 operated"
    assert [problem.what for problem in problems_of(text)] == ["no module Shuter"]


def test_a_slip_in_a_type_is_told_once_where_the_type_stands(problems_of: ProblemsOf) -> None:
    """However many parts use the type."""
    (problem,) = problems_of("type cube relay spdt coil 12 s\nrelay K1 as cube\nrelay K2 as cube")
    assert (problem.what, problem.place.line) == ("12 s where volts, ohms or watts are expected", 1)


@pytest.mark.parametrize("word", ["invalid", "unexpected", "token", "node", "edge", "bit", "None", "NamedTuple"])
def test_messages_keep_to_the_words_of_the_trade(word: str) -> None:
    """No word of a programmer's stands in what a builder reads."""
    for _, _, what, help in SLIPS:
        assert word not in f"{what} {help}".split()
