"""What the driver changes, and that the change is where everybody finds it."""

import ast
import os
import signal
from types import FunctionType

from tests.mutation.__main__ import put_in
from tests.mutation.children import Killed, answers
from tests.mutation.mutants import compiled, mutants

TEXT = """
def fits(amps, most):
    return amps <= most

def pairs(parts):
    return [
        part
        for part in parts
        if part
    ]
"""


def module() -> dict[str, FunctionType]:
    """The functions of the text, as an import makes them."""
    made: dict[str, FunctionType] = {}
    exec(compile(TEXT, "fits.py", "exec"), made)
    return {name: made[name] for name in ("fits", "pairs")}


def test_each_mutant_tells_the_line_that_it_changes() -> None:
    """The condition of a comprehension has a place too, and its statement's first line counts with it."""
    assert [(one.line, one.lines, one.what) for one in mutants(ast.parse(TEXT))] == [
        (3, range(3, 4), "nothing is given back"),
        (3, range(3, 4), "LtE is Lt"),
        (6, range(6, 11), "nothing is given back"),
        (9, range(6, 10), "the condition is gone"),
    ]


def test_a_mutant_means_something_else_for_whoever_has_the_function_already() -> None:
    """The functions get other code, so that it doesn't matter who imported them and when."""
    tree = ast.parse(TEXT)
    turned = next(one for one in mutants(tree) if one.what == "LtE is Lt")
    functions = module()
    imported_elsewhere = functions["fits"]
    assert imported_elsewhere(5, 5)
    put_in(compiled(tree, turned, "fits.py"), list(functions.values()))
    assert not imported_elsewhere(5, 5)
    assert imported_elsewhere(4, 5)


def test_a_call_of_what_a_class_builds_on_can_be_gone() -> None:
    """A function gets only code that has the same free names, and super() needs one."""
    text = "class Told(Exception):\n    def __init__(self, what):\n        super().__init__(what)\n"
    made: dict[str, type[Exception]] = {}
    exec(compile(text, "told.py", "exec"), made)
    told, tree = made["Told"], ast.parse(text)
    (gone,) = mutants(tree)
    put_in(compiled(tree, gone, "told.py"), [vars(told)["__init__"]])
    assert (gone.what, told("why").args) == ("a call is gone", ("why",))


def test_what_is_only_asserted_is_not_changed() -> None:
    """Neither what an assertion says, nor that what is zipped has the same length, does anything in a right program."""
    text = "def joined(left, right):\n    assert left > 1\n    list(zip(left, right, strict=True))\n"
    assert [one.what for one in mutants(ast.parse(text))] == ["a call is gone"]


def test_one_mutant_leaves_nothing_behind_for_the_next() -> None:
    """After each the text is what it was."""
    tree = ast.parse(TEXT)
    before = ast.dump(tree)
    for one in mutants(tree):
        compiled(tree, one, "fits.py")
    assert ast.dump(tree) == before


def test_a_child_gives_its_answer_or_is_told_to_be_killed() -> None:
    """What a child does to itself is nothing to its parent."""

    def half(number: int) -> int:
        if number % 2:
            os.kill(os.getpid(), signal.SIGKILL)
        return number // 2

    assert dict(answers(half, range(4), 2)) == {0: 0, 1: Killed(), 2: 1, 3: Killed()}
