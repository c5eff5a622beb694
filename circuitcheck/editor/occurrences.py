"""Where names are described and where they are used: in one file, with what it uses known.

A name is found in every word that it is part of: `R1.K1.11-14` names the fit R1, the relay K1 inside its module, and a
way through it; `S1.com-raise` names the switch and one of its positions.
"""

from collections.abc import Iterator

from circuitcheck.editor.symbols import Occurrence, Symbol, real_file
from circuitcheck.plan.contents import Contents
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import (
    Attribute,
    Axis,
    Claim,
    Combined,
    Condition,
    Fit,
    Fork,
    Module,
    Part,
    Plan,
    Promise,
    Rung,
    Statement,
    Type,
    Wire,
    Word,
)


class _Scope:
    """The names inside a module, or of a plan outside its modules."""

    def __init__(self, statements: tuple[Statement, ...], ports: tuple[Word, ...], file: str, name: str) -> None:
        self.statements = statements
        self.ports = ports
        self.file = real_file(file)
        self.name = name
        self.described: dict[str, Statement] = {}
        for statement in statements:
            if isinstance(statement, Part):
                self.described.update((word.text, statement) for word in statement.names)
            elif isinstance(statement, Axis | Fit):
                self.described[statement.name.text] = statement

    def symbol(self, name: str) -> Symbol:
        """The part, axis, fit or port of that name."""
        return Symbol("part", self.file, self.name, "", name)


def _module_scope(module: Module) -> _Scope:
    return _Scope(module.statements, module.ports, module.name.place.file, module.name.text)


class _Index:
    """Gathers the occurrences of one file."""

    def __init__(self, contents: Contents, plan: Plan) -> None:
        self.contents = contents
        self.types = plan.types
        self.modules = plan.modules
        self.file = plan.file

    def all(self) -> Iterator[Occurrence]:
        for one in self.contents.types:
            yield Occurrence(self._type_symbol(one), one.name.place, True)
            yield from self._positions(one.attributes, self._type_symbol(one))
        for module in self.contents.modules:
            scope = _module_scope(module)
            yield Occurrence(self._module_symbol(module), module.name.place, True)
            for port in module.ports:
                yield Occurrence(scope.symbol(port.text), port.place, True)
            yield from self._within(scope)
        yield from self._within(_Scope(self.contents.statements, (), self.file, ""))

    def _type_symbol(self, one: Type) -> Symbol:
        return Symbol("type", real_file(one.name.place.file), "", "", one.name.text)

    def _module_symbol(self, module: Module) -> Symbol:
        return Symbol("module", real_file(module.name.place.file), "", "", module.name.text)

    def _within(self, scope: _Scope) -> Iterator[Occurrence]:
        for statement in scope.statements:
            if isinstance(statement, Part):
                yield from self._part(statement, scope)
            elif isinstance(statement, Axis):
                yield Occurrence(scope.symbol(statement.name.text), statement.name.place, True)
                for place in statement.places:
                    yield Occurrence(_place(scope, statement.name.text, place.text), place.place, True)
            elif isinstance(statement, Wire):
                for end in statement.ends:
                    yield from self._terminal(end, scope)
            elif isinstance(statement, Rung):
                for item in _items(statement.items):
                    yield from self._terminal(item, scope)
            elif isinstance(statement, Fit):
                yield from self._fit(statement, scope)
            elif isinstance(statement, Promise):
                for claim in _claims(statement):
                    yield from self._claim(claim, scope)

    def _part(self, part: Part, scope: _Scope) -> Iterator[Occurrence]:
        for name in part.names:
            yield Occurrence(scope.symbol(name.text), name.place, True)
        found = self.types.get(part.type_name.text) if part.type_name else None
        if part.type_name and found:
            yield Occurrence(self._type_symbol(found), part.type_name.place, False)
        yield from self._positions(part.attributes, scope.symbol(part.names[0].text))
        for attribute in part.attributes:
            if attribute.keyword in ("on", "drives") and attribute.words:
                axis, *places = attribute.words
                yield Occurrence(scope.symbol(axis.text), axis.place, False)
                for place in places:
                    yield Occurrence(_place(scope, axis.text, place.text), place.place, False)

    def _positions(self, attributes: tuple[Attribute, ...], owner: Symbol) -> Iterator[Occurrence]:
        for attribute in attributes:
            for word in attribute.words if attribute.keyword == "positions" else ():
                yield Occurrence(_position(owner, word.text), word.place, True)

    def _fit(self, fit: Fit, scope: _Scope) -> Iterator[Occurrence]:
        yield Occurrence(scope.symbol(fit.name.text), fit.name.place, True)
        module = self.modules.get(fit.module.text)
        if module:
            yield Occurrence(self._module_symbol(module), fit.module.place, False)
        for port, terminal in fit.joins:
            if module:
                yield Occurrence(_module_scope(module).symbol(port.text), port.place, False)
            yield from self._terminal(terminal, scope)

    def _terminal(self, word: Word, scope: _Scope) -> Iterator[Occurrence]:
        """Every name along `R1.K1.11-14`, one after the other."""
        start = 0
        steps = word.text.split(".")
        for number, step in enumerate(steps):
            yield Occurrence(scope.symbol(step), _stretch(word.place, start, len(step)), False)
            start += len(step) + 1
            statement = scope.described.get(step)
            module = self.modules.get(statement.module.text) if isinstance(statement, Fit) else None
            if module is None:
                rest = ".".join(steps[number + 1 :])
                if isinstance(statement, Part):
                    yield from self._marks(statement, scope, rest, word.place, start)
                return
            scope = _module_scope(module)

    def _marks(self, part: Part, scope: _Scope, marks: str, place: Place, start: int) -> Iterator[Occurrence]:
        """The positions among a switch's marks; on the second pole `raise` is marked `raise2`."""
        owner, words = self._positions_of(part, scope)
        for mark in marks.split("-") if owner else ():
            word = mark if mark in words else mark.rstrip("0123456789")
            if owner and word in words:
                yield Occurrence(_position(owner, word), _stretch(place, start, len(word)), False)
            start += len(mark) + 1

    def _positions_of(self, part: Part, scope: _Scope) -> tuple[Symbol | None, frozenset[str]]:
        """What a switch's positions belong to, itself or its type, and their words."""
        one = self.types.get(part.type_name.text) if part.type_name else None
        described = [(scope.symbol(part.names[0].text), part.attributes)]
        described += [(self._type_symbol(one), one.attributes)] if one else []
        for owner, attributes in described:
            words = [word.text for one in attributes if one.keyword == "positions" for word in one.words]
            if words:
                return owner, frozenset(words)
        return None, frozenset()

    def _claim(self, claim: Claim, scope: _Scope) -> Iterator[Occurrence]:
        if claim.verb == "returns" and claim.subject.text not in scope.described:
            return
        yield from self._terminal(claim.subject, scope)
        statement = scope.described.get(claim.subject.text)
        if isinstance(statement, Axis) and claim.verb != "is":
            yield Occurrence(_place(scope, claim.subject.text, claim.value.text), claim.value.place, False)
        elif isinstance(statement, Part):
            owner, words = self._positions_of(statement, scope)
            if owner and claim.value.text in words:
                yield Occurrence(_position(owner, claim.value.text), claim.value.place, False)


def occurrences(contents: Contents, plan: Plan) -> tuple[Occurrence, ...]:
    """Every name in a file. plan: of that file, for the types and modules that it uses."""
    return tuple(_Index(contents, plan).all())


def _place(scope: _Scope, axis: str, place: str) -> Symbol:
    return Symbol("place", scope.file, scope.name, axis, place)


def _position(owner: Symbol, word: str) -> Symbol:
    return Symbol("position", owner.file, owner.scope, f"{owner.kind} {owner.name}", word)


def _stretch(place: Place, start: int, length: int) -> Place:
    """A part of a word's place."""
    column = place.column + start
    return Place(place.file, place.line, column, place.line, column + length)


def _items(items: tuple[Word | Fork, ...]) -> Iterator[Word]:
    for item in items:
        if isinstance(item, Fork):
            for branch in item.branches:
                yield from _items(branch)
        else:
            yield item


def _claims(promise: Promise) -> Iterator[Claim]:
    stack: list[Condition] = [one for one in (promise.condition, promise.when) if one]
    while stack:
        one = stack.pop()
        if isinstance(one, Combined):
            stack.extend(one.operands)
        else:
            yield one
