"""What is written, and the syntax that it becomes."""

import pytest

from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import (
    Attribute,
    Axis,
    Claim,
    Combined,
    Condition,
    Fit,
    Fork,
    Part,
    Promise,
    Quantity,
    Rung,
    Wire,
    Word,
)
from circuitcheck.plan.words import EXAMPLES, KINDS
from tests.plan.told import problems_of, statement


def attributes(text: str) -> list[tuple[str, list[str], list[str]]]:
    """The attributes of a part: keyword, words, quantities."""
    part = statement(text)
    assert isinstance(part, Part)
    return [(one.keyword, [word.text for word in one.words], [written(q) for q in one.quantities])
            for one in part.attributes]  # fmt: skip


def written(quantity: Quantity) -> str:
    number = f"{quantity.low:g}" if quantity.low == quantity.high else f"{quantity.low:g}..{quantity.high:g}"
    return f"{number} {quantity.unit}"


def items(branch: tuple[Word | Fork, ...]) -> list[object]:
    return [one.text if isinstance(one, Word) else [items(inner) for inner in one.branches] for one in branch]


def said(condition: Condition | None) -> object:
    if isinstance(condition, Claim):
        return f"{condition.subject.text} {condition.verb} {condition.value.text}"
    return (condition.operator, *map(said, condition.operands)) if isinstance(condition, Combined) else None


@pytest.mark.parametrize("word", [word for word in EXAMPLES if word not in ("module", "port", "end")])
def test_every_example_that_messages_show_is_a_statement(word: str) -> None:
    """Messages say "Written like: …"; what they show can be read."""
    files = [one for one in problems_of(EXAMPLES[word]) if "parts/relays.plan" not in one.what]
    assert files == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_part_can_be_a_type(kind: str) -> None:
    """The grammar's kinds are those that messages offer."""
    assert read_text("drawbridge.plan", f"type mine {kind}").types["mine"].kind.text == kind


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("fuse F1 7.5 A", [("", [], ["7.5 A"])]),
        ("relay K1 dpdt coil 12 V 160 ohm", [("dpdt", [], []), ("coil", [], ["12 V", "160 ohm"])]),
        ("relay K1 no no nc", [("no", [], []), ("no", [], []), ("nc", [], [])]),
        ("relay K1 3pdt with diode", [("3pdt", [], []), ("with", ["diode"], [])]),
        ("relay K1 with resistor 680 ohm", [("with", ["resistor"], ["680 ohm"])]),
        ("relay K1 operate 9.6 V 5..12 ms", [("operate", [], ["9.6 V", "5..12 ms"])]),
        ("relay K1 spdt off-delay 3 s", [("spdt", [], []), ("off-delay", [], ["3 s"])]),
        ("switch S2 dpdt positions raise off lower momentary",
         [("dpdt", [], []), ("positions", ["raise", "off", "lower"], []), ("momentary", [], [])]),
        ("switch S3 2 poles 4 ways positions off low mid high",
         [("", [], ["2 poles"]), ("", [], ["4 ways"]), ("positions", ["off", "low", "mid", "high"], [])]),
        ("switch S4 spst positions off on", [("spst", [], []), ("positions", ["off", "on"], [])]),
        ("switch S4 make-before-break positions on at from free no with",
         [("make-before-break", [], []), ("positions", ["on", "at", "from", "free", "no", "with"], [])]),
        ("motor M1 12V stall 18 A free 1.5 A 40 rpm drives deck toward top",
         [("", [], ["12 V"]), ("stall", [], ["18 A"]), ("free", [], ["1.5 A", "40 rpm"]),
          ("drives", ["deck", "top"], [])]),
        ("motor M2 two-speed may coast case on -",
         [("two-speed", [], []), ("may", ["coast"], []), ("case", ["-"], [])]),
        ("limit LS1 spdt on deck at top", [("spdt", [], []), ("on", ["deck", "top"], [])]),
        ("cam CS1 nc on wheel from park to half", [("nc", [], []), ("on", ["wheel", "park", "half"], [])]),
        ("suppressor V2 resistor 680 ohm", [("resistor", [], ["680 ohm"])]),
        ("suppressor V3 diode", [("diode", [], [])]),
        ("outside OUT2 sinking", [("sinking", [], [])]),
        ("supply PS 12 V internal 50 mohm limit 12 A withstands 15 V",
         [("", [], ["12 V"]), ("internal", [], ["50 mohm"]), ("limit", [], ["12 A"]), ("withstands", [], ["15 V"])]),
        ("relay K1 coil 12 V 0.9 H contacts 10 A 30 V",
         [("coil", [], ["12 V", "0.9 H"]), ("contacts", [], ["10 A", "30 V"])]),
        ("fuse F1 5 A blade", [("", [], ["5 A"]), ("blade", [], [])]),
        ("fuse F1 cartridge slow", [("cartridge", ["slow"], [])]),
        ("motor M1 stall 18 A 6 N m rotor 34 g cm2 gear 60:1 coasts 110 deg brakes in 6 deg",
         [("stall", [], ["18 A", "6 N m"]), ("rotor", [], ["34 g cm2"]), ("gear", [], ["60 :1"]),
          ("coasts", [], ["110 deg"]), ("brakes", [], ["6 deg"])]),
        ("resistor R1 680 Ω 0.25 W", [("", [], ["680 Ω"]), ("", [], ["0.25 W"])]),
    ],
)  # fmt: skip
def test_an_attribute_is_its_keyword_and_what_follows(text: str, expected: list[object]) -> None:
    """Attributes are read without regard to the kind of part, for the circuit to judge."""
    assert attributes(text) == expected


def test_a_part_statement_may_describe_several_parts_of_a_type() -> None:
    """Names, type and label each keep to their own field."""
    part = statement('relay K1 K2 as cube12 dpdt "run"')
    assert isinstance(part, Part)
    assert [name.text for name in part.names] == ["K1", "K2"]
    assert part.type_name is not None
    assert (part.kind.text, part.type_name.text, part.label) == ("relay", "cube12", "run")


@pytest.mark.parametrize("name", ["on", "key", "coil", "spdt", "Klappe_ä", "relay", "wire", "as"])
def test_a_part_may_be_named_by_any_word(name: str) -> None:
    """Where only a name can stand, a word of the language is a name."""
    part = statement(f"limit {name} spdt on at at at")
    assert isinstance(part, Part)
    assert part.names[0].text == name


def test_a_value_knows_its_place_in_the_file() -> None:
    """Places count lines and columns from 1, their end column is exclusive, on any line of the file."""
    part = statement("# the fuse\n\n\tfuse F1 7.5 A   # beside the battery")
    assert isinstance(part, Part)
    assert part.place == Place("drawbridge.plan", 3, 2, 3, 15)
    assert part.names[0].place == Place("drawbridge.plan", 3, 7, 3, 9)
    assert part.attributes == (
        Attribute("", (), (Quantity(7.5, 7.5, "A", place := Place("drawbridge.plan", 3, 10, 3, 15)),), place),
    )


def test_a_wire_has_gauge_colour_length_and_number_in_any_order() -> None:
    """What follows the colon is sorted into words and quantities."""
    wire = statement("wire PS.+ R1.K1.A1 : green/yellow 1.5 mm² w12 0.4 m no")
    assert isinstance(wire, Wire)
    assert [end.text for end in wire.ends] == ["PS.+", "R1.K1.A1"]
    assert [word.text for word in wire.words] == ["green/yellow", "w12", "no"]
    assert [written(quantity) for quantity in wire.quantities] == ["1.5 mm²", "0.4 m"]


def test_a_rung_holds_forks_of_branches() -> None:
    """Brackets nest, and a branch is a series path of its own."""
    rung = statement("rung F1.2, ( PB1 | K3.13-14, (D1 | M1.+--) ), K3.A1-A2, PS.-")
    assert isinstance(rung, Rung)
    assert items(rung.items) == ["F1.2", [["PB1"], ["K3.13-14", [["D1"], ["M1.+--"]]]], "K3.A1-A2", "PS.-"]
    assert rung.items[1].place == Place("drawbridge.plan", 1, 12, 1, 45)


@pytest.mark.parametrize(
    ("text", "places", "turning"),
    [
        ("axis deck from bottom to top, 70 deg", ["bottom", "top"], False),
        ("axis deck from bottom via middle via high to top", ["bottom", "middle", "high", "top"], False),
        ("axis deck from turning to to", ["turning", "to"], False),
        ("axis wheel turning through park half", ["park", "half"], True),
    ],
)
def test_an_axis_has_its_places_in_order(text: str, places: list[str], turning: bool) -> None:
    """Linear and turning axes differ in one field."""
    axis = statement(text)
    assert isinstance(axis, Axis)
    assert ([place.text for place in axis.places], axis.turning) == (places, turning)


def test_a_fit_joins_ports_to_terminals() -> None:
    """The joins keep their order."""
    fit = statement("fit R1 Reverser : plus F1.2,\n  minus PS.-,\n  lamp M1.+")
    assert isinstance(fit, Fit)
    assert [(port.text, terminal.text) for port, terminal in fit.joins] == [
        ("plus", "F1.2"), ("minus", "PS.-"), ("lamp", "M1.+"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "condition", "when"),
    [
        ("expect M1 braked when PS off", "M1 is braked", "PS is off"),
        ("expect deck stops at top", "deck stops at top", None),
        ("never deck past top", "deck past top", None),
        ("never M1 driven when ES1 pressed and not (S1 raise or deck at top)", "M1 is driven",
         ("and", "ES1 is pressed", ("not", ("or", "S1 is raise", "deck at top")))),
        ("never A on or B on and R1.K1 operated", ("or", "A is on", ("and", "B is on", "R1.K1 is operated")), None),
    ],
)  # fmt: skip
def test_a_promise_has_conditions(text: str, condition: object, when: object) -> None:
    """`not` binds closer than `and`, `and` closer than `or`."""
    promise = statement(text)
    assert isinstance(promise, Promise)
    assert (said(promise.condition), said(promise.when)) == (condition, when)


@pytest.mark.parametrize(
    "text",
    [
        "rung F1.2,\n  D1,   # the diode\n\n  # and down\n  PS.-",
        "rung F1.2, (D1 |\nD2\n), PS.-",
        "rung F1.2, (\nD1 | D2), PS.-",
        "wire F1.2 PS.- :\n  red",
        "never (M1 driven or\nM2 driven)",
        "expect (S1 raise or\n  lamp lit)",
    ],
)
def test_a_statement_goes_on_after_a_comma_a_bar_a_colon_and_inside_brackets(text: str) -> None:
    """Lines that belong together make one statement."""
    assert statement(text).place.end_line == text.count("\n") + 1


def test_blanks_of_any_kind_part_words() -> None:
    """Tabs and the no-break space of copied text count as blanks; so do all kinds of line ends."""
    plan = read_text("drawbridge.plan", "\ufefffuse\tF1\u00a07.5 A\r\nfuse F2 5 A\rfuse F3 5 A\n")
    assert [one.place.line for one in plan.statements] == [1, 2, 3]
