"""Modules put in place, and part types filled in."""

from collections.abc import Callable

from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Claim

Build = Callable[[str], Circuit]
ProblemsOf = Callable[[str], tuple[Problem, ...]]
SHUTTER = """module Shutter
  port plus minus
  axis leaf from shut to open
  relay K1 spdt coil 12 V 160 ohm
  motor M1 12 V stall 4 A drives leaf toward open
  limit LS1 nc on leaf at open
  rung plus, K1.A1-A2, minus
  never M1 driven when K1 released and leaf at open
end
supply PS 12 V 10 A
"""


def test_a_fitted_module_brings_its_parts_under_its_own_name(build: Build) -> None:
    """Parts, ports, axes, digits, loads: all carry the fit's name in front."""
    circuit = build(SHUTTER + "fit R1 Shutter : plus PS.+, minus PS.-")
    assert list(circuit.parts) == ["PS", "R1.plus", "R1.minus", "R1.leaf", "R1.K1", "R1.M1", "R1.LS1"]
    assert [digit.name for digit in circuit.digits] == ["PS", "R1.leaf", "R1.K1"]
    assert [axis.name for axis in circuit.axes] == ["R1.leaf"]
    assert [load.name for load in circuit.loads] == ["R1.K1", "R1.M1"]


def test_ports_are_single_terminals_joined_by_wires(build: Build) -> None:
    """The fit wires each port to its outer terminal, the module wires it inside."""
    circuit = build(SHUTTER + "fit R1 Shutter : plus PS.+, minus PS.-")
    assert circuit.parts["R1.plus"].terminals == ("R1.plus",)
    wires = [(one.tail, one.head) for one in circuit.conductors if one.kind == "wire"]
    assert wires == [("R1.plus", "PS.+"), ("R1.minus", "PS.-"), ("R1.plus", "R1.K1.A1"), ("R1.K1.A2", "R1.minus")]


def test_promises_of_a_module_are_made_for_each_fit(build: Build) -> None:
    """Their names are in full."""
    circuit = build(SHUTTER + "fit R1 Shutter : plus PS.+, minus PS.-")
    (promise,) = circuit.promises
    assert isinstance(promise.condition, Claim)
    assert promise.condition.subject.text == "R1.M1"


def test_two_fits_of_one_module_share_nothing(build: Build) -> None:
    """Each has its own parts and its own axis."""
    circuit = build(SHUTTER + "fit R1 Shutter : plus PS.+, minus PS.-\nfit R2 Shutter : plus PS.+, minus PS.-")
    assert [motor.axis for motor in circuit.motors] == [0, 1]
    assert [axis.name for axis in circuit.axes] == ["R1.leaf", "R2.leaf"]


def test_terminals_inside_a_fitted_module_can_be_reached(build: Build) -> None:
    """By the fit's name, the part's name and the mark; in rungs too."""
    circuit = build(SHUTTER + "fit R1 Shutter : plus PS.+, minus PS.-\nrung PS.+, R1.K1.11-14, R1.M1, R1.minus")
    assert ("R1.K1.14", "R1.M1.+") in {(one.tail, one.head) for one in circuit.conductors}


def test_modules_may_fit_other_modules(build: Build) -> None:
    """Names grow from the outside in."""
    outer = "module Pair\nport plus minus\nfit A Shutter : plus plus, minus minus\nend\n"
    circuit = build(SHUTTER + outer + "fit R1 Pair : plus PS.+, minus PS.-")
    assert circuit.parts["R1.A.K1"].terminals[0] == "R1.A.K1.A1"


def test_a_module_that_holds_itself_is_refused(problems_of: ProblemsOf) -> None:
    """Directly or through another: the circle is named."""
    text = "module Left\nfit A Right\nend\nmodule Right\nfit B Left\nend\nfit R1 Left"
    (problem,) = problems_of(text)
    assert problem.what == "Left would hold itself"
    assert problem.help == "Left fits Right fits Left, without an end. Take one of these fits away."


def test_modules_that_multiply_beyond_all_measure_are_refused(problems_of: ProblemsOf) -> None:
    """Ten levels of ten fits each would be ten thousand million lamps."""
    levels = ["module Level0\nlamp L1 12 V 2 W\nend"]
    for level in range(1, 11):
        fits = "\n".join(f"fit A{number} Level{level - 1}" for number in range(10))
        levels.append(f"module Level{level}\n{fits}\nend")
    (problem,) = problems_of("\n".join([*levels, "fit R1 Level10", "wire R1.L9.1 R1.L1.1"]))
    assert problem.what == "more than 20,000 parts up to here"


def test_a_problem_in_a_module_is_told_once_however_often_it_is_fitted(problems_of: ProblemsOf) -> None:
    """It stands at one place in the text, and is said in that place's words."""
    text = "module M\nlamp L1 12 V 2 W\nwire L1.1 L1.9\nend\nfit R1 M\nfit R2 M"
    (problem,) = problems_of(text)
    assert problem.what == "no terminal L1.9"


def test_a_part_takes_what_its_type_says(build: Build) -> None:
    """Form, coil and built-in diode come from the type."""
    circuit = build("type cube12 relay spdt coil 12 V 90 ohm with diode\nrelay K1 K2 as cube12")
    assert [load.ohms for load in circuit.loads] == [90.0, 90.0]
    assert circuit.parts["K2"].marks == ("A1", "A2", "11", "12", "14")
    assert [one.part for one in circuit.suppressors] == ["K1", "K2"]


def test_what_the_part_says_overrides_its_type(build: Build) -> None:
    """A keyword takes the place of the type's, a form that of the type's form; the rest stays."""
    circuit = build("type cube12 relay spdt coil 12 V 90 ohm with diode\nrelay K1 as cube12 dpdt coil 24 V 320 ohm")
    assert circuit.parts["K1"].features == ("dpdt",)
    assert [(load.volts, load.ohms) for load in circuit.loads] == [(24.0, 320.0)]
    assert len(circuit.suppressors) == 1


def test_a_bare_quantity_overrides_only_its_own_dimension(build: Build) -> None:
    """A brighter lamp of the same type keeps its volts."""
    (load,) = build("type bulb lamp 12 V 2 W\nlamp L1 as bulb 4 W").loads
    assert (load.volts, load.ohms) == (12.0, 36.0)
