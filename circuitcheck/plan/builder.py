"""From the grammar's rules to the types of `syntax.py`, while the parser runs.

The parser calls the method named like a rule or a token of `grammar/plan.lark` with what it found. No tree is built
first: turning a tree afterwards would climb it by recursion, and a plan may be as deep or long as its writer likes.
"""

from typing import TYPE_CHECKING, Any, NamedTuple

from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import (
    Acceptance,
    Attribute,
    Axis,
    Claim,
    Combined,
    Condition,
    Conditions,
    Fit,
    Fork,
    Part,
    Promise,
    Quantity,
    Require,
    Rung,
    Title,
    Type,
    Use,
    Wire,
    Word,
)

if TYPE_CHECKING:
    from lark import Token


class ModuleStart(NamedTuple):
    """The line `module Reverser`."""

    name: Word
    place: Place


class Port(NamedTuple):
    """The line `port plus minus a b`, inside a module."""

    names: tuple[Word, ...]
    place: Place


class End(NamedTuple):
    """The line `end`."""

    place: Place


Line = (
    Title
    | Use
    | Type
    | Part
    | Axis
    | Conditions
    | Wire
    | Rung
    | Promise
    | Require
    | Acceptance
    | Fit
    | ModuleStart
    | Port
    | End
)
"""What one line says by itself: `module` and `end` are still lines of their own."""


def between(first: Place, last: Place) -> Place:
    """From the start of `first` to the end of `last`."""
    return Place(first.file, first.line, first.column, last.end_line, last.end_column)


def _unit(token: "Token") -> str:
    """`N  m` and `N·m` are `N m`, `: 1` is `:1`; a sole word is taken as it stands, as most units are."""
    if token.isalpha():
        return str(token)
    return " ".join(token.replace("·", " ").split()).replace(": ", ":")


class Builder:
    """Makes syntax of what the parser finds in the statement at `statement`, which is set before each parse.

    The parser counts lines from the statement's first, and knows no file: both are put right here.
    """

    def __init__(self) -> None:
        self.statement = Place("", 1, 1, 1, 1)

    def place_of(self, token: "Token") -> Place:
        """Where a token of the parser stands in its file."""
        above = self.statement.line - 1
        line, end_line = token.line or 1, token.end_line or 1
        return Place(self.statement.file, line + above, token.column or 1, end_line + above, token.end_column or 1)

    def word(self, token: "Token") -> Word:
        """A token as a word of the plan."""
        return Word(str(token), self.place_of(token))

    NAME = TERMINAL = PASSAGE = COLOUR = VALUE = KIND = word
    WITH = ON = DRIVES = MAY = COAST = CASE = BRUSH = BUILT_IN = CARTRIDGE = SPEED = BRAKES = POSITIONS = word
    EXPECT = NEVER = ALWAYS = AFTER = SETTLING = STARTS = RETURNS = NOT = AT = PAST = STOPS = OPEN = CLOSE = word

    def TEXT(self, token: "Token") -> Word:
        return Word(token[1:-1], self.place_of(token))

    def quantity(self, found: list[Any]) -> Quantity:
        number, unit = found
        low, _, high = number.partition("..")
        place = between(self.place_of(number), self.place_of(unit))
        return Quantity(float(low), float(high or low), _unit(unit), place)

    # Attributes

    def attributes(self, found: list[Any]) -> tuple[Attribute, ...]:
        lists = (one if isinstance(one, list) else [one] for one in found if one is not None)
        return tuple(attribute for one in lists for attribute in one)

    def rating(self, found: list[Any]) -> Attribute:
        return Attribute("", (), (found[0],), found[0].place)

    def flag(self, found: list[Any]) -> Attribute:
        return Attribute(str(found[0]), (), (), self.place_of(found[0]))

    choice = flag

    def measured(self, found: list[Any]) -> Attribute:
        token, *quantities = found
        return Attribute(str(token), (), tuple(quantities), between(self.place_of(token), quantities[-1].place))

    def released(self, found: list[Any]) -> list[Attribute]:
        """The figure after the comma is an attribute of its own, as it holds for another wiring."""
        _, *quantities, slower, word = found
        usual = Attribute("release", (), tuple(quantities), between(quantities[0].place, quantities[-1].place))
        return [usual, Attribute("release with diode", (), (slower,), between(slower.place, word.place))]

    def placed(self, found: list[Any]) -> Attribute:
        keyword, *rest = found
        words = tuple(one for one in rest if isinstance(one, Word))
        quantities = tuple(one for one in rest if isinstance(one, Quantity))
        return Attribute(keyword.text, words, quantities, between(keyword.place, rest[-1].place))

    positions = placed

    # Statements

    def title(self, found: list[Any]) -> Title:
        name, label = found
        return Title(name, label.text if label else "", self.statement)

    def use(self, found: list[Any]) -> Use:
        return Use(found[0], self.statement)

    def module(self, found: list[Any]) -> ModuleStart:
        return ModuleStart(found[0], self.statement)

    def port(self, found: list[Any]) -> Port:
        return Port(tuple(found), self.statement)

    def end(self, _found: list[Any]) -> End:
        return End(self.statement)

    def part(self, found: list[Any]) -> Part:
        kind, *names, type_name, attributes, label = found
        return Part(kind, tuple(names), type_name, attributes, label.text if label else "", self.statement)

    def type(self, found: list[Any]) -> Type:
        name, kind, attributes = found
        return Type(name, kind, attributes, self.statement)

    def axis(self, found: list[Any]) -> Axis:
        name, *rest = (one for one in found if one is not None)
        attributes = tuple(one for one in rest if isinstance(one, Attribute))
        places = tuple(one for one in rest if isinstance(one, Word))
        return Axis(name, places, False, attributes, self.statement, springs_back=True in rest)

    load = condition = measured

    def springs_back(self, _found: list[Any]) -> bool:
        return True

    def turning_axis(self, found: list[Any]) -> Axis:
        return self.axis(found)._replace(turning=True)

    def conditions(self, found: list[Any]) -> Conditions:
        return Conditions(tuple(found), self.statement)

    def wire(self, found: list[Any]) -> Wire:
        tail, head, *rest = (one for one in found if one is not None)
        words = tuple(one for one in rest if isinstance(one, Word))
        quantities = tuple(one for one in rest if isinstance(one, Quantity))
        return Wire((tail, head), words, quantities, self.statement)

    def rung(self, found: list[Any]) -> Rung:
        return Rung(tuple(found), self.statement)

    def branch(self, found: list[Any]) -> tuple[Word | Fork, ...]:
        return tuple(found)

    def fork(self, found: list[Any]) -> Fork:
        opened, *branches, closed = found
        return Fork(tuple(branches), between(opened.place, closed.place))

    def join(self, found: list[Any]) -> tuple[Word, Word]:
        port, terminal = found
        return port, terminal

    def fit(self, found: list[Any]) -> Fit:
        name, module, *joins = (one for one in found if one is not None)
        return Fit(name, module, tuple(joins), self.statement)

    def accept(self, found: list[Any]) -> Acceptance:
        check, _, part, reason = found
        return Acceptance(check, part, reason, self.statement)

    # Promises

    def claim(self, found: list[Any]) -> Claim:
        subject, *between_them, value = found
        verb = {"": "is", "at": "at", "past": "past", "stops": "stops at"}[between_them[0].text if between_them else ""]
        return Claim(subject, verb, value, between(subject.place, value.place))

    def either(self, found: list[Any]) -> Combined:
        return Combined("or", tuple(found), between(found[0].place, found[-1].place))

    def both(self, found: list[Any]) -> Combined:
        return Combined("and", tuple(found), between(found[0].place, found[-1].place))

    def negated(self, found: list[Any]) -> Combined:
        word, operand = found
        return Combined("not", (operand,), between(word.place, operand.place))

    def promise(self, found: list[Any]) -> Promise:
        keyword, condition, when = found
        conditions: tuple[Condition, Condition | None] = (condition, when)
        return Promise(keyword.text, *conditions, self.statement)

    def response(self, found: list[Any]) -> Promise:
        keyword, when, within, condition = found
        return Promise(keyword.text, condition, when, self.statement, within if isinstance(within, Quantity) else None)

    def never_past(self, found: list[Any]) -> Require:
        axis, end = found
        return Require(axis, end, self.statement)

    def still_works(self, found: list[Any]) -> Require:
        return Require(found[0], None, self.statement)

    def restart(self, found: list[Any]) -> Promise:
        keyword, motor, starts, supply, returns = found
        start = Claim(motor, "starts", starts._replace(text=""), between(motor.place, starts.place))
        cause = Claim(supply, "returns", returns._replace(text=""), between(supply.place, returns.place))
        return Promise(keyword.text, start, cause, self.statement)
