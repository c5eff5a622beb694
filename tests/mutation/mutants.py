"""Small changes to a program's text that make it mean something else."""

import ast
from collections.abc import Iterator
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
    """line: where in the file. what: the change in words. text: the whole file with it."""

    line: int
    what: str
    text: str


def mutants(text: str) -> Iterator[Mutant]:
    """Every mutant of a file, one change each; what is only said (texts, types, limits named in capitals) stays."""
    tree = ast.parse(text)
    for node in _working(tree):
        for what, undo in _changes(node):
            # Written anew from its tree: comments are gone, lines are told as they stand in the original.
            yield Mutant(getattr(node, "lineno", 0), what, ast.unparse(tree))
            undo()


def _working(tree: ast.Module) -> Iterator[ast.AST]:
    """All that does something, inside functions."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            for statement in node.body:
                yield from _of_own(statement)


def _of_own(node: ast.AST) -> Iterator[ast.AST]:
    """A statement with what is in it, but for functions within, which come by themselves."""
    if isinstance(node, ast.FunctionDef | ast.Assert):
        return
    yield node
    for name, value in ast.iter_fields(node):
        if name not in ("annotation", "returns"):
            for part in value if isinstance(value, list) else [value]:
                if isinstance(part, ast.AST):
                    yield from _of_own(part)


def _changes(node: ast.AST) -> Iterator[tuple[str, "Undo"]]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in COMPARED:
        old = node.ops[0]
        yield _put(node, "ops", [COMPARED[type(old)]()], f"{type(old).__name__} is {COMPARED[type(old)].__name__}")
    if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in REACKONED and not _of_text(node):
        other = REACKONED[type(node.op)]
        yield _put(node, "op", other(), f"{type(node.op).__name__} is {other.__name__}")
    if isinstance(node, ast.BoolOp):
        other_bool = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield _put(node, "op", other_bool, f"{type(node.op).__name__} is {type(other_bool).__name__}")
        yield _put(node, "values", node.values[1:] * (2 if len(node.values) == 2 else 1), "the first is gone")
    if isinstance(node, ast.If | ast.IfExp | ast.While):
        yield _put(node, "test", ast.UnaryOp(ast.Not(), node.test), "the condition is turned")
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield _put(node, "op", ast.UAdd(), "the sign is gone")
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.Invert):
        yield _put(node, "operand", ast.UnaryOp(node.op, node.operand), f"{type(node.op).__name__} is gone")
    if isinstance(node, ast.Constant) and type(node.value) is int:
        yield _put(node, "value", node.value + 1, f"{node.value} is {node.value + 1}")
    if isinstance(node, ast.Constant) and type(node.value) is bool:
        yield _put(node, "value", not node.value, f"{node.value} is {not node.value}")
    if isinstance(node, ast.comprehension) and node.ifs:
        yield _put(node, "ifs", [], "the condition is gone")
    if isinstance(node, ast.Continue | ast.Break):
        other_way = ast.Break if isinstance(node, ast.Continue) else ast.Continue
        yield _put(node, "__class__", other_way, f"{other_way.__name__} in its place")
    if isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        yield _put(node, "value", ast.Constant(None), "nothing is given back")
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield _put(node, "value", ast.Constant(None), "a call is gone")


class Undo:
    """Puts back what was there."""

    def __init__(self, node: ast.AST, name: str, old: object) -> None:
        self._node, self._name, self._old = node, name, old

    def __call__(self) -> None:
        setattr(self._node, self._name, self._old)


def _put(node: ast.AST, name: str, new: object, what: str) -> tuple[str, Undo]:
    undo = Undo(node, name, getattr(node, name))
    setattr(node, name, new)
    return what, undo


def _of_text(node: ast.BinOp | ast.AugAssign) -> bool:
    parts = [node.left, node.right] if isinstance(node, ast.BinOp) else [node.value]
    return any(isinstance(part, ast.JoinedStr) or isinstance(getattr(part, "value", None), str) for part in parts)
