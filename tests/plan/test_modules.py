"""Titles, modules, types: what a file is made of."""

import pytest

from circuitcheck.plan.reading import read_text
from tests.plan.told import problems_of

REVERSER = "module Reverser\nport plus minus\nport a b\nrelay K1 dpdt coil 12 V 160 ohm\nwire plus K1.12\nend\n"


def test_a_module_keeps_its_ports_and_statements_to_itself() -> None:
    """The plan's own statements are without those of its modules."""
    plan = read_text("drawbridge.plan", f"plan Drawbridge\n{REVERSER}fuse F1 5 A")
    module = plan.modules["Reverser"]
    assert [port.text for port in module.ports] == ["plus", "minus", "a", "b"]
    assert (len(module.statements), len(plan.statements)) == (2, 1)
    assert (module.place.line, module.place.end_line) == (2, 7)


def test_a_type_is_known_by_its_name() -> None:
    """Types stand beside the statements, not among them."""
    plan = read_text("drawbridge.plan", "type cube12 relay spdt coil 12 V 90 ohm\nrelay K1 as cube12")
    assert [one.keyword for one in plan.types["cube12"].attributes] == ["spdt", "coil"]
    assert len(plan.statements) == 1


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ("module Reverser\nport a", 1, "the module Reverser has no end"),
        ("fuse F1 5 A\nend", 2, "an end with no module before it"),
        ("module A\nmodule B\nend", 1, "the module A has no end"),
        ("port plus", 1, "a port outside a module"),
        ("module A\ntype b relay\nend", 2, "a type inside the module A"),
        ('module A\nuse "b.plan"\nend', 2, "a use inside the module A"),
        ("module A\nconditions ambient 5 °C\nend", 2, "conditions inside the module A"),
        ("module A\nplan B\nend", 2, "a title inside the module A"),
        ("plan A\nplan B", 2, "a second `plan` statement"),
        ("fuse F1 5 A\nplan A", 2, "`plan` after other statements"),
        ("type a relay\ntype a lamp", 2, "a second type named a"),
        (f"{REVERSER}{REVERSER}", 7, "a second module named Reverser"),
    ],
)
def test_what_stands_where_it_cannot_is_told(text: str, line: int, what: str) -> None:
    """One problem each, at the statement concerned."""
    (problem,) = problems_of(text)
    assert (problem.place.line, problem.what) == (line, what)


def test_a_name_given_twice_tells_both_places() -> None:
    """The problem stands at the second, and shows the first."""
    (problem,) = problems_of("type a relay\ntype a lamp")
    assert [(place.line, place.column, sentence) for place, sentence in problem.also] == [
        (1, 6, "The first is described here.")
    ]
