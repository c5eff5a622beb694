"""Part statements → pieces of a circuit: names in full, types filled in, digits and loads numbered."""

from typing import NamedTuple

from circuitcheck.circuit.catalogue.attributes import NOTHING, Given, judge, merge, missing
from circuitcheck.circuit.catalogue.axes_and_limits import read_axis
from circuitcheck.circuit.catalogue.axis_figures import read_axis_load
from circuitcheck.circuit.catalogue.kinds import KINDS
from circuitcheck.circuit.catalogue.pieces import Described, Kind, Pieces
from circuitcheck.circuit.defaults import not_said, taken
from circuitcheck.circuit.figures import Defaulted
from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.model import Axis as ModelAxis
from circuitcheck.circuit.model import PartInfo, Repeated
from circuitcheck.circuit.wording import article, listed, suggestion, suggestion_after
from circuitcheck.plan.source import Place, PlanError, Problem
from circuitcheck.plan.syntax import Attribute, Axis, Defaults, Fit, Part, Type, Word


class Inventory(NamedTuple):
    """Everything that the plan describes.

    pieces: in the plan's order, an axis as a part without terminals. axes: by full name, numbered in order.
    unclear: names that were described but not understood, so that nothing more is said of them.
    repeated: parts described a second time by the name of another of their kind; only the first is in `pieces`.
    defaulted: what parts take from the library's settings.
    """

    pieces: list[Pieces]
    axes: dict[str, tuple[int, ModelAxis]]
    unclear: frozenset[str]
    repeated: tuple[Repeated, ...]
    defaulted: tuple[Defaulted, ...]


MOST_SUPPLIES = 8
MOST_PLACES = 100


def describe_parts(
    flat: list[Scoped], types: dict[str, Type], defaults: Defaults, problems: list[Problem]
) -> Inventory:
    """All parts and axes; adds what is wrong with them to `problems`.

    A part's digit is numbered before its attributes are read, because a limit switch may stand above its axis.
    """
    repeated: list[Repeated] = []
    named = _unique_names(flat, repeated, problems)
    unclear: set[str] = set()
    problems.extend(_too_many_supplies(named))
    digit_numbers = _number_digits(named)
    axes, axis_pieces = _read_axes(named, digit_numbers, problems)
    judged_types = _judge_types(flat, types, problems)
    pieces: list[Pieces] = []
    defaulted: list[Defaulted] = []
    loads = 0
    for full_name, scope, statement, word in named:
        if isinstance(statement, Axis):
            pieces.append(axis_pieces[full_name])
            continue
        said = _said(statement, types, judged_types, problems)
        added = not_said(defaults.supply, said) if said and statement.kind.text == "supply" else ()
        given = said and _completed(statement, word, said, added, problems)
        if given is None:
            unclear.add(full_name)
            continue
        defaulted += taken(full_name, added, defaults.file)
        digit = digit_numbers.get(full_name, -1)
        part = Described(full_name, scope, statement.kind.text, statement.label, word.place, given, digit, loads, axes)
        try:
            piece = KINDS[part.kind].read(part)
        except PlanError as error:
            problems.extend(error.problems)
            unclear.add(full_name)
            continue
        pieces.append(piece)
        loads += len(piece.loads)
    return Inventory(pieces, axes, frozenset(unclear), tuple(repeated), tuple(defaulted))


class Named(NamedTuple):
    """One name that a statement describes: in full, its scope, and the word that gives it."""

    full_name: str
    scope: str
    statement: Part | Axis
    word: Word


def _unique_names(flat: list[Scoped], repeated: list[Repeated], problems: list[Problem]) -> list[Named]:
    """The parts and axes by name, each once. A fitted module takes a name too.

    A part described again as the same kind is kept apart for a check to tell: its wires still have a meaning.
    """
    first: dict[str, tuple[str, Place]] = {}
    named: list[Named] = []
    for scope, statement in flat:
        if not isinstance(statement, Part | Axis | Fit):
            continue
        kind = statement.kind.text if isinstance(statement, Part) else ""
        for word in statement.names if isinstance(statement, Part) else (statement.name,):
            full_name = scope + word.text
            if full_name not in first:
                first[full_name] = (kind, word.place)
                if not isinstance(statement, Fit):
                    named.append(Named(full_name, scope, statement, word))
            elif kind and first[full_name][0] == kind:
                repeated.append(Repeated(full_name, first[full_name][1], word.place))
            else:
                also = ((first[full_name][1], f"{word.text} is first described here."),)
                help = "Each part, axis and fitted module needs a name of its own."
                problems.append(Problem(word.place, f"two parts are named {word.text}", help, also))
    return named


def _number_digits(named: list[Named]) -> dict[str, int]:
    moving = (
        one.full_name
        for one in named
        if isinstance(one.statement, Axis) or getattr(KINDS.get(one.statement.kind.text), "digit", False)
    )
    return {name: number for number, name in enumerate(moving)}


def _read_axes(named: list[Named], digit_numbers: dict[str, int],
               problems: list[Problem]) -> tuple[dict[str, tuple[int, ModelAxis]], dict[str, Pieces]]:  # fmt: skip
    axes: dict[str, tuple[int, ModelAxis]] = {}
    pieces: dict[str, Pieces] = {}
    for full_name, _, statement, word in named:
        if isinstance(statement, Axis):
            places = tuple(dict.fromkeys(place.text for place in statement.places))
            problems.extend(_places_amiss(statement))
            digit_number = digit_numbers[full_name]
            axis, digit = read_axis(full_name, places, statement.turning, digit_number)
            load = read_axis_load(statement, problems)
            axis = axis._replace(degrees=load.degrees, springs_back=statement.springs_back, figures=load.figures)
            axes[full_name] = (len(axes), axis)
            info = PartInfo(full_name, "axis", "", (), frozenset(), load.ratings, word.place)
            pieces[full_name] = Pieces(info, digits=(digit,))
    return axes, pieces


def _places_amiss(axis: Axis) -> list[Problem]:
    if len(axis.places) > MOST_PLACES:
        what = f"{axis.name.text} has more than {MOST_PLACES} places"
        return [
            Problem(axis.places[MOST_PLACES].place, what, "Name only those where a switch stands, or a story ends.")
        ]
    help = "Give each place a name of its own."
    return [
        Problem(place.place, f"{axis.name.text} has two places named {place.text}", help)
        for number, place in enumerate(axis.places)
        if place.text in {other.text for other in axis.places[:number]}
    ]


def _too_many_supplies(named: list[Named]) -> list[Problem]:
    """Loops through supplies are told one by one, and there may be more of them with each than all before."""
    supplies = [one for one in named if isinstance(one.statement, Part) and one.statement.kind.text == "supply"]
    if len(supplies) <= MOST_SUPPLIES:
        return []
    help = "Make a plan for each box that has supplies of its own."
    return [Problem(supplies[MOST_SUPPLIES].word.place, f"more than {MOST_SUPPLIES} supplies in one plan", help)]


def _judge_types(flat: list[Scoped], types: dict[str, Type], problems: list[Problem]) -> dict[str, Given | None]:
    """The attributes of every type that some part uses, each judged once; None for a type that has problems."""
    used = {one.statement.type_name.text for one in flat if isinstance(one.statement, Part) and one.statement.type_name}
    judged: dict[str, Given | None] = {}
    for name, one in types.items():
        if name in used and one.kind.text in KINDS:
            found: list[Problem] = []
            given = judge(KINDS[one.kind.text].noun, KINDS[one.kind.text].takes, one.attributes, found)
            judged[name] = None if found else given
            problems.extend(found)
    return judged


def _said(part: Part, types: dict[str, Type], judged: dict[str, Given | None],
          problems: list[Problem]) -> Given | None:  # fmt: skip
    """A part's attributes on top of its type's; None where the part or its type has problems."""
    kind = KINDS.get(part.kind.text)
    if kind is None:
        what = f"no kind of part {part.kind.text}"
        problems.append(Problem(part.kind.place, what, suggestion(part.kind.text, KINDS)))
        return None
    before = len(problems)
    base = _type_attributes(part, types, judged, problems)
    if base is None:
        return None
    given = merge(base, judge(kind.noun, kind.takes, part.attributes, problems), kind.forms)
    return None if len(problems) > before else given


def _completed(part: Part, word: Word, said: Given, defaults: tuple[Attribute, ...],
               problems: list[Problem]) -> Given | None:  # fmt: skip
    """With the defaults beneath what is said of the part; None where it lacks something all the same."""
    kind, found = KINDS[part.kind.text], list[Problem]()
    given = merge(judge(kind.noun, kind.takes, defaults, found), said, kind.forms)
    example = kind.example.replace(f" {kind.example.split()[1]} ", f" {word.text} ", 1)
    found += missing(part.kind.text, word.text, example, kind.takes, given, word.place)
    found += _formless(kind, word, example, given)
    problems.extend(found)
    return None if found else given


def _type_attributes(part: Part, types: dict[str, Type], judged: dict[str, Given | None],
                     problems: list[Problem]) -> Given | None:  # fmt: skip
    if part.type_name is None:
        return NOTHING
    found = types.get(part.type_name.text)
    if found is None:
        what = f"no type {part.type_name.text}"
        problems.append(Problem(part.type_name.place, what, suggestion_after(problems, part.type_name.text, types)))
        return NOTHING
    if found.kind.text != part.kind.text:
        what = f"{found.name.text} is {article(found.kind.text)} type, not {article(part.kind.text)} type"
        same = [name for name, one in types.items() if one.kind.text == part.kind.text]
        help = f"Types of this kind are {listed(same, 'and')}." if same else "There is no type of this kind yet."
        also = ((found.name.place, f"{found.name.text} is described here."),)
        problems.append(Problem(part.type_name.place, what, help, also))
        return NOTHING
    return judged[found.name.text]


def _formless(kind: Kind, word: Word, example: str, given: Given) -> list[Problem]:
    if not kind.needs_form or any(given.has(form) for form in kind.forms):
        return []
    what = f"nothing says what {word.text} is"
    if kind.noun != "suppressor":
        what = f"nothing says what contacts {word.text} has"
    return [Problem(word.place, what, f"Write {listed(kind.forms, 'or')}, e.g. `{example}`.")]
