"""Names in a plan, as written → terminals and ways through parts, or what is wrong with them."""

from typing import NamedTuple

from circuitcheck.circuit.catalogue.pieces import Pieces
from circuitcheck.circuit.model import PartInfo, Terminal
from circuitcheck.circuit.wording import article, description, shortened, suggestion_after
from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Word

Pair = frozenset[Terminal]


class Names(NamedTuple):
    """What the parts of a circuit answer to.

    parts: by full name. passable: pairs of terminals of one part that current can pass between. throws: terminals that
    a contact joins to a common. fits: names of fitted modules. unclear: names of parts and fits that were described but
    not understood; nothing is said of them.
    """

    parts: dict[str, PartInfo]
    passable: frozenset[Pair]
    throws: frozenset[Terminal]
    fits: frozenset[str]
    unclear: frozenset[str]


def gather_names(pieces: list[Pieces], unclear: frozenset[str]) -> Names:
    """The names of everything that was understood."""
    joined = [(one.tail, one.head) for piece in pieces for one in piece.conductors]
    joined += [(load.a, load.b) for piece in pieces for load in piece.loads]
    joined += [(suppressor.a, suppressor.b) for piece in pieces for suppressor in piece.suppressors]
    throws = frozenset(one.head for piece in pieces for one in piece.conductors if one.closed)
    parts = {piece.info.name: piece.info for piece in pieces}
    fits = frozenset(name.rpartition(".")[0] for name in parts) - {""}
    return Names(parts, frozenset(frozenset(pair) for pair in joined), throws, fits, unclear)


def terminal(word: Word, scope: str, names: Names, problems: list[Problem]) -> Terminal | None:
    """The full name of the terminal that `word` names; None, with a problem unless the part is unclear."""
    whole = names.parts.get(scope + word.text)
    if whole is not None:
        if whole.marks == ("",):
            return whole.name
        problems.append(_not_one_terminal(word, whole, scope))
        return None
    part_name, _, mark = word.text.rpartition(".")
    info = names.parts.get(scope + part_name)
    if info is None:
        _no_part(word, part_name, scope, names, problems)
        return None
    if mark in info.marks and mark:
        return f"{info.name}.{mark}"
    if marks_of_passage(mark, info):
        help = f"{word.text} is a way through {part_name}; a wire ends at one terminal, and a rung passes both."
        problems.append(Problem(word.place, f"{word.text} is not one terminal", help))
    else:
        problems.append(_no_terminal(word, part_name, mark, info))
    return None


def passage(word: Word, scope: str, names: Names, problems: list[Problem]) -> tuple[Terminal, Terminal] | None:
    """Where a rung's item lets current in and out: both are the same for a terminal."""
    whole = names.parts.get(scope + word.text)
    if whole is not None and len(whole.marks) == 2:
        return _passable(word, whole, (whole.marks[0], whole.marks[1]), names, problems)
    part_name, _, mark = word.text.rpartition(".")
    info = names.parts.get(scope + part_name)
    if whole is None and info is not None and mark not in info.marks and "-" in mark:
        marks = marks_of_passage(mark, info)
        if marks:
            return _passable(word, info, marks, names, problems)
        unknown = next((one for one in mark.split("-") if one not in info.marks), mark)
        problems.append(_no_terminal(word, part_name, unknown, info))
        return None
    found = terminal(word, scope, names, problems)
    return (found, found) if found else None


def marks_of_passage(text: str, info: PartInfo) -> tuple[str, str] | None:
    """ "11-14" → 11 and 14; a motor's brush is called - itself, so every hyphen is tried."""
    for place, letter in enumerate(text):
        pair = (text[:place], text[place + 1 :])
        if letter == "-" and pair[0] in info.marks and pair[1] in info.marks:
            return pair
    return None


def _passable(word: Word, info: PartInfo, marks: tuple[str, str], names: Names,
              problems: list[Problem]) -> tuple[Terminal, Terminal] | None:  # fmt: skip
    a, b = (f"{info.name}.{mark}" for mark in marks)
    if frozenset((a, b)) in names.passable:
        return a, b
    if a in names.throws and b in names.throws:
        what = f"{marks[0]} and {marks[1]} are both throws"
        help = "A way through a contact goes between its common and a throw."
    else:
        what = f"no way through {word.text}"
        shown = shortened([f"{a}-{b}" for a, b in _ways(info, names)])
        help = f"Nothing in the part joins {marks[0]} and {marks[1]}." + (f" Its ways: {shown}." if shown else "")
    problems.append(Problem(word.place, what, help))
    return None


def _ways(info: PartInfo, names: Names) -> list[tuple[str, str]]:
    marks = info.marks
    pairs = [(a, b) for place, a in enumerate(marks) for b in marks[place + 1 :]]
    return [pair for pair in pairs if frozenset(f"{info.name}.{mark}" for mark in pair) in names.passable]


def _no_part(word: Word, part_name: str, scope: str, names: Names, problems: list[Problem]) -> None:
    if is_unclear(word.text, scope, names):
        return
    inside = f"{scope}{part_name}."
    if scope + part_name in names.fits:
        known = [name.removeprefix(scope) for name in names.parts if name.startswith(inside)]
        problems.append(Problem(word.place, f"no terminal {word.text}", suggestion_after(problems, word.text, known)))
    else:
        wanted = part_name or word.text
        problems.append(Problem(word.place, f"no part {wanted}", nearest_parts(wanted, scope, names, problems)))


def nearest_parts(wanted: str, scope: str, names: Names, problems: list[Problem]) -> str:
    """The parts that a name may have meant, as a sentence."""
    return suggestion_after(problems, wanted, (one.removeprefix(scope) for one in names.parts if one.startswith(scope)))


def is_unclear(text: str, scope: str, names: Names) -> bool:
    """Whether the name, or a fit that it leads through, was described but not understood."""
    steps = text.split(".")
    return any(scope + ".".join(steps[:count]) in names.unclear for count in range(1, len(steps) + 1))


def _not_one_terminal(word: Word, info: PartInfo, scope: str) -> Problem:
    if not info.marks:
        what = f"{word.text} is {article(info.kind)}, not a terminal"
        return Problem(word.place, what, "Wires end at the terminals of parts.")
    help = f"{description(info).removeprefix(scope)}. Write e.g. {word.text}.{info.marks[0]}."
    return Problem(word.place, f"{word.text} has {len(info.marks)} terminals", help)


def _no_terminal(word: Word, part_name: str, mark: str, info: PartInfo) -> Problem:
    shown = f"{part_name}.{mark}"
    if info.marks == ("",):
        return Problem(word.place, f"no terminal {shown}", f"{part_name} is a single terminal: write {part_name}.")
    near = ", ".join(f"{part_name}.{other}" for other in nearest(mark, info.marks))
    help = f"{description(info._replace(name=part_name))}."
    return Problem(word.place, f"no terminal {shown}", f"{help} Nearest: {near}." if near else help)
