"""Units, loads and surroundings as written, and the syntax that they become."""

import pytest

from circuitcheck.plan.syntax import Axis, Conditions, Part, Quantity, Wire
from tests.plan.told import statement


def written(quantity: Quantity) -> str:
    """A quantity as the tests below name it."""
    return f"{quantity.low:g}{f'..{quantity.high:g}' if quantity.high != quantity.low else ''} {quantity.unit}"


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("6 N m", "N m"), ("6 N   m", "N m"), ("6 N\tm", "N m"), ("6N\u00a0m", "N m"), ("6 N·m", "N m"),
        ("34 g  cm²", "g cm²"), ("0.3 kg m2", "kg m2"), ("8 oz in", "oz in"), ("1..2 lb ft", "lb ft"),
        ("60:1", ":1"), ("60 : 1", ":1"), ("58..62:1", ":1"), ("6 kg cm", "kg cm"), ("6 N", "N"), ("6 mm²", "mm²"),
    ],
)  # fmt: skip
def test_a_unit_of_several_words_is_one_unit(text: str, unit: str) -> None:
    """However many blanks there are between its words; what stands behind it isn't part of it."""
    part = statement(f"motor M1 stall {text} free 1 A")
    assert isinstance(part, Part)
    stall, free = part.attributes
    assert [quantity.unit for quantity in stall.quantities] == [unit]
    assert free.keyword == "free"


def test_a_word_behind_a_quantity_is_no_unit_of_it() -> None:
    """`in` and `m` are units and may be other words: only what makes a unit together is taken together."""
    part = statement("motor M1 12 V brakes in 6 deg")
    assert isinstance(part, Part)
    assert [one.keyword for one in part.attributes] == ["", "brakes"]
    wire = statement("wire A B : 1 m m1 2 mm2")
    assert isinstance(wire, Wire)
    assert [word.text for word in wire.words] == ["m1"]


def test_an_axis_has_its_way_and_its_load_behind_commas() -> None:
    """In any order; what springs back says so last."""
    axis = statement("axis c from a to b, 2.4 m, drum 60 mm, friction 0.2 N m, overtravel 30 mm, springs back")
    assert isinstance(axis, Axis)
    assert [(one.keyword, written(one.quantities[0])) for one in axis.attributes] == [
        ("", "2.4 m"), ("drum", "60 mm"), ("friction", "0.2 N m"), ("overtravel", "30 mm"),
    ]  # fmt: skip
    assert axis.springs_back


def test_conditions_go_on_over_lines_and_below_zero() -> None:
    """A line that begins with `wire` is still theirs if it stands in."""
    conditions = statement("conditions ambient -15..-5 °C,\n  wire 1 mm2 0.5 m,\n  bundled 6 wires")
    assert isinstance(conditions, Conditions)
    assert [(one.keyword, [written(q) for q in one.quantities]) for one in conditions.attributes] == [
        ("ambient", ["-15..-5 °C"]), ("wire", ["1 mm2", "0.5 m"]), ("bundled", ["6 wires"]),
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["limit2", "drum", "ambient", "slow", "inertia", "bundled"])
def test_a_name_may_begin_with_or_be_a_word_of_figures(name: str) -> None:
    """Names in a list end only where a whole word is an attribute."""
    part = statement(f"lamp L1 {name} 12 V 2 W")
    assert isinstance(part, Part)
    assert [word.text for word in part.names] == ["L1", name]
