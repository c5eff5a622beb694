"""Modules that are the same but for their names: what is asked of one needn't be asked of the others."""

import re
from collections.abc import Iterator
from itertools import chain

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from circuitcheck.analysis import facts
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.likeness import Likeness, of_each
from circuitcheck.checks.check import Finding
from circuitcheck.checks.registry import all_checks, run_checks
from tests.analysis.plans import CONTROLS, PASSIVE, RELAYS, bus_plan_texts, circuit_of, plan_texts
from tests.benchmarks.panels import panel
from tests.profiles import examples

DRAWBRIDGE = """
switch S1 spdt positions raise off lower
axis   deck from bottom to top
limit  LS1 nc on deck at top
limit  LS2 nc on deck at bottom
relay  K1 dpdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 10 A drives deck toward top
rung   PS.+, S1.com-raise, LS1, K1.A1-A2, PS.-
rung   PS.+, K1.14-11, M1, K1.21-22, PS.-
wire   K1.12 PS.-
wire   K1.24 PS.-
"""


def repeated(text: str, copies: int) -> str:
    """The plan so many times over, supplies and buses only once: part KA1 of the first copy is KB1 in the second."""
    lines = text.strip().splitlines()
    shared = [line for line in lines if in_copy(line, "A") == line]
    own = [line for line in lines if line not in shared]
    return "\n".join([*shared, *(in_copy("\n".join(own), copy) for copy in "ABCD"[:copies])])


def in_copy(text: str, copy: str) -> str:
    """A plan's text, or what is told of it, with the parts of one copy: the same length and in the same order."""
    text = re.sub(r"\b(deck|wheel)\b", rf"\1{copy}", text)
    return re.sub(r"(?<![-.\w])(?!PS)([A-Z]+)(\d+)\b", rf"\g<1>{copy}\g<2>", text)


def nothing_alike(known: Facts) -> Facts:
    """The same facts, with each thing akin to itself alone, so that everything is asked of everything."""
    of, at = known.likeness
    known.likeness = Likeness(
        {one: (place, 0) for place, one in enumerate(of)}, {one: (place, 1) for place, one in enumerate(at)}
    )
    return known


def found_in(known: Facts) -> tuple[Finding, ...]:
    """What all checks find."""
    return run_checks(known, all_checks())


def test_all_is_found_in_a_panel() -> None:
    """Four motors, two and two locked with each other, behind one bus: three of them have what the first has."""
    circuit = circuit_of(panel(4))
    known = analyse(circuit)
    assert known.likeness.of["motor", 0] == known.likeness.of["motor", 2]
    findings = found_in(known)
    assert findings == found_in(nothing_alike(analyse(circuit)))
    assert len([one for one in findings if one.check == "wrong-way-pulse"]) == 4


@st.composite
def joined_copies(draw: st.DrawFn) -> str:
    """A plan three times over, with a part or two that lead from copy to copy or that all might share."""
    lines = [repeated(draw(plan_texts(most_states=8, most_parts=4)), 3)]
    places = ["PS.+", "PS.-", *(f"N{copy}{number}" for copy in "ABC" for number in range(1, 4))]
    for number in range(draw(st.integers(0, 2))):
        choice = draw(st.sampled_from((*CONTROLS[:8], *PASSIVE[:8], *RELAYS[:3])))
        name = f"{choice.prefix}X{number}"
        lines.append(choice.statement.format(name))
        lines += [f"wire {name}.{mark} {draw(st.sampled_from(places))}" for mark in choice.marks.split()]
    return "\n".join(lines)


@pytest.mark.slow
@settings(max_examples=examples(40))
@given(joined_copies())
def test_all_is_found_that_asking_each_part_would_find(text: str) -> None:
    """What isn't asked of a copy would have found nothing there either."""
    circuit = circuit_of(text)
    assert found_in(analyse(circuit)) == found_in(nothing_alike(analyse(circuit)))


@pytest.mark.slow
@settings(max_examples=examples(40))
@given(bus_plan_texts(most_states=24, most_branches=2), st.integers(2, 3))
def test_all_is_found_behind_buses(text: str, copies: int) -> None:
    """The same where branches hang on a bus that may float, and every bus is a border."""
    circuit = circuit_of(repeated(text, copies))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(facts, "NARROW", 1)
        assert found_in(analyse(circuit)) == found_in(nothing_alike(analyse(circuit)))


def told(findings: tuple[Finding, ...]) -> Iterator[tuple[object, ...]]:
    """What is told of the parts of one copy. Counts of combinations are of the whole box; loads with both ends at one
    rail are told together, whichever copy they are of."""
    for one in findings:
        if one.check != "shorted-load" and not any(part.startswith("PS") for part in one.parts):
            yield one.check, one.severity, one.reached, one.what, one.parts, one.example, one.steps, one.path


@pytest.mark.slow
@settings(max_examples=examples(40))
@given(plan_texts(most_states=16, most_parts=5))
def test_each_copy_has_the_findings_of_the_plan_alone(text: str) -> None:
    """A module doesn't know of those beside it."""
    assume(not analyse(circuit_of(text)).shorted)
    together = told(found_in(analyse(circuit_of(repeated(text, 2)))))
    alone = [told(found_in(analyse(circuit_of(in_copy(text, copy))))) for copy in "AB"]
    assert sorted(together, key=repr) == sorted(chain(*alone), key=repr)


def test_copies_of_a_module_are_alike() -> None:
    """Each motor of three equal drawbridges is akin to the others, and so is each of their contacts."""
    known = analyse(circuit_of("supply PS 12 V 10 A\n" + repeated(DRAWBRIDGE, 3)))
    assert len({known.likeness.of["motor", number] for number in range(3)}) == 1
    contacts = [number for number, one in enumerate(known.circuit.conductors) if one.kind == "contact"]
    assert len({known.likeness.of["conductor", number] for number in contacts}) == len(contacts) // 3


def test_a_module_that_differs_in_one_figure_is_not_alike() -> None:
    """One relay takes more volts: nothing that is found of its drawbridge tells of the other's."""
    text = repeated(DRAWBRIDGE, 2).replace("KB1 dpdt coil 12 V 160 ohm", "KB1 dpdt coil 12 V 160 ohm operate 10 V")
    likeness = analyse(circuit_of(f"supply PS 12 V 10 A\n{text}")).likeness
    assert likeness.of["motor", 0] != likeness.of["motor", 1]


def test_a_module_with_a_wire_to_another_is_one_with_it() -> None:
    """A relay that locks out the drawbridge beside it: only pairs can be swapped."""
    text = repeated(DRAWBRIDGE, 4) + "\nwire MA1.+ MB1.+\nwire MC1.+ MD1.+"
    likeness = analyse(circuit_of(f"supply PS 12 V 10 A\n{text}")).likeness
    kin = [likeness.of["motor", number] for number in range(4)]
    assert kin[:2] == kin[2:]
    assert kin[0] != kin[1]


def test_each_motor_is_asked_about_the_emergency_stop_of_each_module() -> None:
    """Either motor has its own stop, which stops it, and which the other motor doesn't mind."""
    own = "estop ES1 nc\nbutton PB1 no\nmotor M1 12 V stall 5 A may coast\nrung PS.+, ES1, PB1, M1, PS.-"
    findings = found_in(analyse(circuit_of("supply PS 12 V 10 A\n" + repeated(own, 2))))
    assert {one.parts for one in findings if one.check == "emergency-stop"} == {("ESA1", "MB1"), ("ESB1", "MA1")}


def test_nothing_is_asked_of_the_kin_of_what_nothing_is_found_of() -> None:
    """Of three equal motors only the first is looked at; where something is found, each is."""
    likeness = analyse(circuit_of("supply PS 12 V 10 A\n" + repeated(DRAWBRIDGE, 3))).likeness
    asked: list[int] = []

    def nothing(number: int) -> Iterator[str]:
        asked.append(number)
        yield from ()

    assert list(likeness.of_each("motor", nothing)) == []
    assert asked == [0]
    assert list(likeness.of_each("motor", lambda number: iter((number,)))) == [0, 1, 2]


def akin(text: str, kind: str = "motor") -> bool:
    """Are the first two things of a kind alike?"""
    likeness = analyse(circuit_of(f"supply PS 12 V 10 A\n{text}")).likeness
    return likeness.of[kind, 0] == likeness.of[kind, 1]


def test_modules_that_differ_in_what_only_a_part_is_told_are_not_alike() -> None:
    """A fuse for more amps, though it conducts as the other does."""
    text = repeated("fuse F1 5 A\nbutton PB1 no\nmotor M1 12 V stall 5 A\nrung PS.+, PB1, F1, M1, PS.-", 2)
    assert akin(text)
    assert not akin(text.replace("FB1 5 A", "FB1 6 A"))


def test_motors_that_drive_each_other_s_axes_are_in_one_module() -> None:
    """Each hangs together with the limits before the other one."""
    text = repeated(DRAWBRIDGE, 2)
    crossed = text.replace("drives deckA", "drives other").replace("drives deckB", "drives deckA")
    assert akin(text)
    assert not akin(crossed.replace("drives other", "drives deckB"))


def test_what_is_asked_about_something_that_has_kin_is_asked_of_each() -> None:
    """A question about two things has the same answer elsewhere only while the other one stands still."""
    known = analyse(circuit_of("supply PS 12 V 10 A\nbutton PB9 no\n" + repeated(DRAWBRIDGE, 3)))
    digit = {one.name: number for number, one in enumerate(known.circuit.digits)}

    def asked_of(name: str) -> list[int]:
        asked: list[int] = []

        def nothing(number: int) -> Iterator[str]:
            asked.append(number)
            yield from ()

        assert list(known.likeness.of_each("motor", nothing, ("digit", digit[name]))) == []
        return asked

    assert asked_of("PS") == [0]
    assert asked_of("PB9") == [0]
    assert asked_of("SB1") == [0, 1, 2]


def test_after_one_that_needn_t_be_asked_the_next_one_is() -> None:
    """Kin may stand anywhere among the others."""
    asked: list[int] = []

    def nothing(number: int) -> Iterator[str]:
        asked.append(number)
        yield from ()

    assert list(of_each([1, 3, 2, 5, 4], lambda number: number % 2, nothing)) == []
    assert asked == [1, 2]
