"""A table of slips: the line as written with the place marked below it, what is told, and what is advised."""

import pytest

from circuitcheck.plan.source import Place
from tests.plan.told import problems_of

SLIPS = [
    ("rely K1 spdt", "^^^^", "no statement begins with `rely`", "Nearest: relay."),
    ("Relay K1 spdt", "^^^^^", "no statement begins with `Relay`", "Nearest: relay."),
    ("K1 relay spdt", "^^", "no statement begins with `K1`", "The kind comes before the name: relay K1"),
    ("? what", "^", "no statement begins with `?`", "A statement begins with one of: plan, use,"),
    ("wire A.1 B.1 : 0,5 mm2", "               ^^^", "0,5 with a comma", "Write a point: 0.5 mm2"),
    ("axis deck from a to b, 70,5 deg", "                       ^^^^", "70,5 with a comma", "Write a point: 70.5 deg"),
    ("supply PS 12", "          ^^", "12 with no unit", "Write it after the number, like 12 V."),
    ('lamp L1 12 "lamp"', "        ^^", "12 with no unit", "Write it after the number, like 12 V."),
    ("lamp L1 -12 V", "        ^^^", "the number -12", "A number begins with a digit and has no sign: 12"),
    ("lamp L1 .5 A", "        ^^", "the number .5", "A number begins with a digit and has no sign: 0.5"),
    ("lamp L1 1e3 V", "        ^^^", "`1e3` where a quantity such as 12 V is expected", "Write digits, then a unit"),
    ("lamp L1 1234567890123 V", "        ^^^^^^^^^^^^^", "a number of more than 12 digits", "Choose a larger or"),
    ('relay K1 "run', "         ^", "a quote that is not closed", "A text stands between two quotes on one line"),
    ("lamp L1 12 V “run”", "             ^", "the quote `“`", 'Write straight double quotes: "run".'),
    ('lamp L1 12 V "run" 2 W', "                   ^", "`2` after the text in quotes", "The text in quotes comes last"),
    ("wire K1.A1-A2 PS.-", "     ^^^^^^^^", "the passage K1.A1-A2 as an end of a wire",
     "A wire ends at one terminal: K1.A1 or K1.A2. A passage belongs in a rung."),
    ("fit R1 Rev : plus F1.1-2", "                  ^^^^^^", "the passage F1.1-2 as an end of a wire", "A wire ends"),
    ("rung K1.11–14, PS.-", "          ^", "a long dash `–`", "Write the hyphen of the keyboard: -"),
    ("rung K1.A1−A2, PS.-", "          ^", "a long dash `−`", "Write the hyphen of the keyboard: -"),
    ("wire PS.+ -> F1.1", "          ^^", "an arrow `->`", "It isn't needed. Written like: wire PS.+ F1.1"),
    ("rung PS.+ → F1.1", "          ^", "an arrow `→`", "It isn't needed. Written like: rung F1.2, S1"),
    ("wire K1:A1 PS.-", "     ^^^^^", "`K1:A1` where a terminal such as K1.A1 is expected", "Write a point between"),
    ("wire K1.A2 K1. A1", "             ^", "a point apart from its part or mark", "They stand together: K1.A1"),
    ("wire K1.\u200bA1 PS.-", "        ^", "a sign that can't be seen (U+200B)", "Take it away"),
    ("\u200bwire A B", "^", "no statement begins with `\u200b`", "It holds a sign that can't be seen (U+200B)."),
    ("wire A.1 B.1 red", "             ^^^", "`red` after both ends of the wire", "A wire joins two terminals"),
    ("wire A.1", "        ^", "the line ends where a terminal such as K1.A1 is expected", "Written like: wire PS.+"),
    ("rung F1.2, D1 PS.-", "              ^^^^", "no comma before PS.-", "Written like: rung F1.2, "),
    ("rung F1.2", "         ^", "a rung of one item", "A rung joins at least two: rung F1.2, "),
    ("rung F1.2, D1,", "             ^", "nothing after the last `,`", "Go on in the next line, or take it away."),
    ("rung F1.2, D1,  # down", "             ^", "nothing after the last `,`", "Go on in the next line"),
    ("rung F1.2, (PB1 | PB2", "           ^", "a bracket that is not closed", "Close it with `)` before the next"),
    ("rung F1.2, PB1)", "              ^", "a closing bracket that was never opened", "Take it away, or open it"),
    ("relay K1, K2 spdt", "        ^", "a comma between words", "They stand without commas. Written like: relay"),
    ("relay K1 coil=12 V", "             ^", "the sign `=`", "It isn't needed. Written like: relay K1"),
    ("relay", "     ^", "the line ends where a name is expected", "Written like: relay K1 dpdt"),
    ("supply 12 V", "       ^^", "`12` where a name is expected", "A name starts with a letter"),
    ("switch S1 positions 1 2", "                    ^", "`1` where a name is expected", "A name starts with a letter"),
    ("relay K1 spdt coli 12 V", "              ^^^^", "`coli` where an attribute is expected", "Nearest: coil."),
    ("relay K1 coli 12 V", "         ^^^^", "`coli` after the name K1", "Nearest: coil. If it is the name of a part,"),
    ("relay K1 DPDT", "         ^^^^", "`DPDT` after the name K1", "Nearest: dpdt. If it is the name of a part,"),
    ("relay K1 with dode", "              ^^^^", "`dode` where `diode` or `resistor` is expected", "Nearest: diode."),
    ("motor M1 drives deck to top", "                     ^^", "`to` where `toward` is expected", "Written like:"),
    ("limit LS1 on deck top", "                  ^^^", "`top` where `at` or `from` is expected", "Written like: limit"),
    ("type t relais", "       ^^^^^^", "`relais` where a kind of part is expected", "Nearest: relay."),
    ("motor M1 gear 60", "              ^^", "60 with no unit", "Write how often the motor turns for one turn of"),
    ("motor M1 gear 1:60", "              ^", "1 with no unit", "Write how often the motor turns for one turn of the"),
    ("motor M1 brakes 6 deg", "                ^", "`6` where `in` is expected", "Written like: motor M1"),
    ("fuse F1 5 A cartridge quick", "                      ^^^^^", "`quick` where `fast` or `slow` is expected", ""),
    ("fuse F1 5 A cartrige fast", "            ^^^^^^^^", "`cartrige` where an attribute is expected", "Nearest:"),
    ("axis a from b to c, inrtia 2 kg m2", "                    ^^^^^^", "`inrtia` where", "Nearest: inertia."),
    ("conditions ambient warm", "                   ^^^^", "`warm` where a temperature such as 25 °C is expected", ""),
    ("conditions ambient −5 °C", "                   ^", "a long dash `−`", "Write the hyphen of the keyboard: -"),
    ("conditions ambiant 5 °C", "           ^^^^^^^", "`ambiant` where `", "Nearest: ambient."),
    ("conditions insulation -5 °C", "                      ^^", "the number -5", "A number begins with a digit"),
    ("condition ambient 5 °C", "^^^^^^^^^", "no statement begins with `condition`", "Nearest: conditions. Written"),
    ("use parts.plan", "    ^^^^^^^^^^", "`parts.plan` where a text in quotes is expected", "Written like: use"),
    ('plan "Bridge"', "     ^^^^^^^^", '`"Bridge"` where a name is expected', "Written like: plan Drawbridge"),
    ("expect M1 braked if PS off", "                 ^^",
     "`if` where the end of the line, `and`, `or`, `when` or `while`",
     "Written like: expect M1 braked when PS off"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "marked", "what", "help"), SLIPS)
def test_a_slip_is_told_for_what_it_is(written: str, marked: str, what: str, help: str) -> None:
    """Each slip gives one problem, at the marked place, with the advice that fits it."""
    (problem,) = problems_of(written)
    place = (problem.place.column, max(problem.place.end_column, problem.place.column + 1))
    assert place == (marked.index("^") + 1, len(marked) + 1)
    assert problem.what.startswith(what)
    assert problem.help.startswith(help)


@pytest.mark.parametrize("written", [written for written, *_ in SLIPS])
def test_a_message_speaks_the_language_of_the_builder(written: str) -> None:
    """No message names the machinery that found the slip."""
    (problem,) = problems_of(written)
    told = f"{problem.what} {problem.help}".lower()
    shunned = ("invalid", "unexpected", "token", "node", "parse", "none", "regex", "__", "$end")
    assert [word for word in shunned if word in told] == []


def test_every_bad_line_of_a_file_is_told_and_the_rest_is_read() -> None:
    """A bad line doesn't hide the next one's faults."""
    problems = problems_of('rely K1\nfuse F1 5 A\nlamp L1 0,5 A\nrelay K2 "run\nwire A B C\ntype a relay\ntype a lamp')
    assert [problem.place.line for problem in problems] == [1, 3, 4, 5, 7]


@pytest.mark.parametrize("unfinished", ["rung A, B,", "rung A, (B | C", "wire A B :", "never (A on", "fit R1 M : a B,"])
def test_an_unfinished_statement_does_not_swallow_the_next(unfinished: str) -> None:
    """What is told is the unfinished statement; the lines after it are read as usual."""
    problems = problems_of(f"{unfinished}\nwire F1.2 PS.- : 0,5 mm2\n")
    assert [problem.place.line for problem in problems] == [1, 2]


def test_a_place_on_a_later_line_of_a_statement_is_told_there() -> None:
    """Statements that go on over lines keep the places of their lines."""
    (problem,) = problems_of("fuse F1 5 A\nrung F1.2,\n   ( PB1 |\n     K3.13–14 )\n")
    assert problem.place == Place("drawbridge.plan", 4, 11, 4, 12)
