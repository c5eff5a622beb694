"""Small changes to a program's text that make it mean something else."""

import ast
from collections.abc import Iterator
from types import CodeType
from typing import NamedTuple

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
REACKONED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
    ast.LShift: ast.RShift, ast.RShift: ast.LShift, ast.FloorDiv: ast.Mult, ast.Div: ast.Mult, ast.BitXor: ast.BitOr,
}  # fmt: skip


class Mutant(NamedTuple):
    """line: where it stands. lines: from the start of its statement to its end. what: the change in words.

    The change: `field` of `node` gets the value `new`.
    """

    line: int
    lines: range
    what: str
    node: ast.AST
    field: str
    new: object


class Change(NamedTuple):
    """A mutant that doesn't know its place yet."""

    field: str
    new: object
    what: str


def mutants(tree: ast.Module) -> Iterator[Mutant]:
    """Every mutant of a file, one change each; what is only said (texts, types, limits named in capitals, assertions)
    stays."""
    for first, node in _working(tree):
        for change in _changes(node):
            # A comprehension's condition has a place where the comprehension itself has none.
            place = node.ifs[0] if isinstance(node, ast.comprehension) else getattr(node, "test", node)
            line = getattr(place, "lineno", first)
            yield Mutant(
                line,
                range(min(first, line), getattr(place, "end_lineno", line) + 1),
                change.what,
                node,
                change.field,
                change.new,
            )


def compiled(tree: ast.Module, mutant: Mutant, file: str) -> CodeType:
    """The module with the change in it, and every line where it was; the tree is as before."""
    old = getattr(mutant.node, mutant.field)
    setattr(mutant.node, mutant.field, mutant.new)
    try:
        return compile(ast.fix_missing_locations(tree), file, "exec", dont_inherit=True)
    finally:
        setattr(mutant.node, mutant.field, old)


def _working(tree: ast.Module) -> Iterator[tuple[int, ast.AST]]:
    """All that does something, inside functions; with the first line of its statement."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            for statement in node.body:
                yield from _of_own(statement, statement.lineno)


def _of_own(node: ast.AST, first: int) -> Iterator[tuple[int, ast.AST]]:
    """A statement with what is in it, but for functions within, which come by themselves, and what is only asserted."""
    if isinstance(node, ast.FunctionDef | ast.Assert) or _asserts_equal_lengths(node):
        return
    first = node.lineno if isinstance(node, ast.stmt) else first
    yield first, node
    for name, value in ast.iter_fields(node):
        if name not in ("annotation", "returns"):
            for part in value if isinstance(value, list) else [value]:
                if isinstance(part, ast.AST):
                    yield from _of_own(part, first)


def _changes(node: ast.AST) -> Iterator[Change]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in COMPARED:
        old, new = type(node.ops[0]), COMPARED[type(node.ops[0])]
        yield Change("ops", [new()], f"{old.__name__} is {new.__name__}")
    if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in REACKONED and not _of_text(node):
        other = REACKONED[type(node.op)]
        yield Change("op", other(), f"{type(node.op).__name__} is {other.__name__}")
    if isinstance(node, ast.BoolOp):
        other_bool = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield Change("op", other_bool, f"{type(node.op).__name__} is {type(other_bool).__name__}")
        yield Change("values", node.values[1:] * (2 if len(node.values) == 2 else 1), "the first is gone")
    if isinstance(node, ast.If | ast.IfExp | ast.While):
        yield Change("test", ast.UnaryOp(ast.Not(), node.test), "the condition is turned")
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield Change("op", ast.UAdd(), "the sign is gone")
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.Invert):
        yield Change("operand", ast.UnaryOp(node.op, node.operand), f"{type(node.op).__name__} is gone")
    if isinstance(node, ast.Constant) and type(node.value) is int:
        yield Change("value", node.value + 1, f"{node.value} is {node.value + 1}")
    if isinstance(node, ast.Constant) and type(node.value) is bool:
        yield Change("value", not node.value, f"{node.value} is {not node.value}")
    if isinstance(node, ast.comprehension) and node.ifs:
        yield Change("ifs", [], "the condition is gone")
    if isinstance(node, ast.Continue | ast.Break):
        other_way = ast.Break if isinstance(node, ast.Continue) else ast.Continue
        yield Change("__class__", other_way, f"{other_way.__name__} in its place")
    if isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        yield Change("value", _nothing(node.value), "nothing is given back")
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield Change("value", _nothing(node.value), "a call is gone")


def _nothing(instead_of: ast.expr) -> ast.expr:
    """None; beside `__class__` where super() needs it, since a function can only get code with the same free names."""
    none = ast.Constant(None)
    if "super()" not in ast.unparse(instead_of):
        return none
    return ast.BoolOp(ast.And(), [none, ast.Name("__class__", ast.Load())])


def _asserts_equal_lengths(node: ast.AST) -> bool:
    """Is it the strict=True of a zip?"""
    return isinstance(node, ast.keyword) and node.arg == "strict" and isinstance(node.value, ast.Constant)


def _of_text(node: ast.BinOp | ast.AugAssign) -> bool:
    parts = [node.left, node.right] if isinstance(node, ast.BinOp) else [node.value]
    return any(isinstance(part, ast.JoinedStr) or isinstance(getattr(part, "value", None), str) for part in parts)
