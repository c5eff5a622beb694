"""Defaults of a library: what its plans take that don't say, in the words in which a plan would say it.

    [defaults]
    supply = "10 A internal 50 mohm"     # what a supply doesn't say itself
    ambient = "5..35 °C"                 # where no conditions tell it
    table = "IEC 60204-1"                # the table whose sizes `size` proposes

They are read without the grammar, since a verdict that is kept needs none.
"""

import re
from collections.abc import Iterator

from circuitcheck.circuit.catalogue.attributes import Shape, judge
from circuitcheck.circuit.catalogue.supplies_and_fuses import SUPPLY_TAKES
from circuitcheck.circuit.surroundings import TAKES
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Attribute, Defaults, Quantity
from circuitcheck.plan.text import whole_file
from circuitcheck.settings.amiss import LibraryAmiss
from circuitcheck.settings.reading import Reader, shown

KEYS = ("supply", "ambient", "table")
_NUMBER = r"\d{1,12}(?:\.\d{1,12})?"
_FIGURE = re.compile(rf"(?:([a-z-]+)\s+)?({_NUMBER})\s*([^\W\d_]+)\s*")
_TEMPERATURE = re.compile(rf"(-?{_NUMBER})(?:\.\.(-?{_NUMBER}))?\s*(°[CF]|deg[CF])")


def read_defaults(reader: Reader, table: object) -> Defaults:
    """What the table says, held against what a plan may say there. Raises LibraryAmiss."""
    known = reader.table(table, "defaults")
    reader.only(known, KEYS, "defaults", "default")
    texts = {key: reader.text(value, f"defaults.{key}") for key, value in known.items()}
    supply = tuple(_supply(reader, texts["supply"])) if "supply" in texts else ()
    conditions = (_ambient(reader, texts["ambient"]),) if "ambient" in texts else ()
    _refuse_what_no_plan_may_say(reader, "supply", "supply", SUPPLY_TAKES, supply)
    _refuse_what_no_plan_may_say(reader, "ambient", "conditions", TAKES, conditions)
    if "table" in texts:
        _see_that_it_is_known(reader, texts["table"])
    return Defaults(supply, conditions, texts.get("table", ""), shown(reader.file))


def _supply(reader: Reader, text: str) -> Iterator[Attribute]:
    place, start = whole_file(shown(reader.file)), 0
    while found := _FIGURE.match(text, start):
        keyword, number, unit = found.groups()
        yield Attribute(keyword or "", (), (Quantity(float(number), float(number), unit, place),), place)
        start = found.end()
    if start < len(text) or not start:
        reader.refuse("defaults.supply", text, 'what a supply says, like "10 A internal 50 mohm",')


def _ambient(reader: Reader, text: str) -> Attribute:
    found = _TEMPERATURE.fullmatch(text.strip())
    if not found:
        reader.refuse("defaults.ambient", text, 'a temperature like "5..35 °C"')
    low, high, unit = found.groups()
    place = whole_file(shown(reader.file))
    return Attribute("ambient", (), (Quantity(float(low), float(high or low), unit, place),), place)


def _refuse_what_no_plan_may_say(
    reader: Reader, key: str, noun: str, takes: dict[str, Shape], said: tuple[Attribute, ...]
) -> None:
    problems: list[Problem] = []
    judge(noun, takes, said, problems)
    for one in problems:
        raise LibraryAmiss(f"{reader.named(f'defaults.{key}')}: {one.what}. {one.help}")


def _see_that_it_is_known(reader: Reader, table: str) -> None:
    from circuitcheck.sizing.ampacity import TABLES

    if table not in TABLES:
        reader.refuse("defaults.table", table, f"one of {', '.join(TABLES)}")
