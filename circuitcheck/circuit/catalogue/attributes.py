"""What may be said of a part, and a part's attributes judged by it.

Each kind of part lists its attributes as `Shape`s. `judge` holds a statement against that list and gives a `Given`:
quantities in SI units by keyword and dimension, words by keyword. Readers of the catalogue then only ask a `Given`.
"""

from typing import NamedTuple

from circuitcheck.circuit.units import Measure, measure, noun, written
from circuitcheck.circuit.wording import article, listed, sentence, suggestion
from circuitcheck.plan.source import Place, Problem
from circuitcheck.plan.syntax import Attribute, Quantity, Word


class Shape(NamedTuple):
    """What follows one keyword.

    dimensions: of its quantities, each given once at most. needs: those that can't be left out.
    words: the least and the most words. choices: what the words can be, empty for names of the plan's own.
    repeats: the keyword may be given several times (a relay's contacts). ranged: the dimensions of which a range
    (`5..12 ms`) has a meaning here. required: a part without this keyword makes no sense.
    """

    dimensions: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    words: tuple[int, int] = (0, 0)
    choices: tuple[str, ...] = ()
    repeats: bool = False
    ranged: tuple[str, ...] = ()
    required: bool = False


FLAG = Shape()
CONTACT = Shape(repeats=True)


class Given(NamedTuple):
    """A part's attributes, judged.

    measures: by keyword ("" for bare ones), in the order written. words: by keyword. keywords: all of them in order,
    repeated ones repeatedly. places: where each keyword stands.
    """

    measures: dict[str, tuple[Measure, ...]]
    words: dict[str, tuple[Word, ...]]
    keywords: tuple[str, ...]
    places: dict[str, Place]

    def has(self, keyword: str) -> bool:
        """Whether the plan gives this attribute."""
        return keyword in self.places

    def value(self, keyword: str, dimension: str) -> float | None:
        """The value of that dimension after the keyword, None where the plan gives none."""
        span = self.span(keyword, dimension)
        return span and span[1]

    def span(self, keyword: str, dimension: str) -> tuple[float, float] | None:
        """The (least, greatest) of that dimension after the keyword, None where the plan gives none."""
        spans = ((one.low, one.high) for one in self.measures.get(keyword, ()) if one.dimension == dimension)
        return next(spans, None)

    def flags(self) -> tuple[str, ...]:
        """The keywords that stand alone, in order."""
        return tuple(key for key in self.keywords if not self.words.get(key) and not self.measures.get(key))

    def ratings(self) -> dict[str, float]:
        """Every quantity by name: "amps" for a bare one, "stall_amps" after a keyword."""
        found: dict[str, float] = {}
        for keyword, measures in self.measures.items():
            for one in measures:
                name = f"{keyword.replace('-', '_')}_{one.dimension}" if keyword else one.dimension
                found.setdefault(name, one.high)
        return found


NOTHING = Given({}, {}, (), {})


def judge(noun_of_part: str, shapes: dict[str, Shape], attributes: tuple[Attribute, ...],
          problems: list[Problem]) -> Given:  # fmt: skip
    """The attributes of one statement held against the shapes of the part's kind; adds what is wrong to `problems`."""
    measures: dict[str, tuple[Measure, ...]] = {}
    words: dict[str, tuple[Word, ...]] = {}
    places: dict[str, Place] = {}
    for attribute in attributes:
        keyword, shape = attribute.keyword, shapes.get(attribute.keyword)
        if shape is None:
            problems.append(_not_taken(noun_of_part, shapes, attribute))
            continue
        if keyword and keyword in places and not shape.repeats:
            also = ((places[keyword], f"`{keyword}` is first given here."),)
            help = _as_one(shape, measures.get(keyword, ()), attribute)
            problems.append(Problem(attribute.place, f"`{keyword}` is given twice", help, also))
            continue
        places[keyword] = attribute.place
        words[keyword] = attribute.words
        problems.extend(_words_amiss(keyword, shape, attribute))
        for quantity in attribute.quantities:
            owner = _owner(quantity, keyword, shapes) if len(attribute.quantities) > 1 else keyword
            found = _measured(noun_of_part, owner, shapes, quantity, measures.get(owner, ()))
            if isinstance(found, Problem):
                problems.append(found)
            else:
                measures[owner] = (*measures.get(owner, ()), found)
    return Given(measures, words, tuple(attribute.keyword for attribute in attributes if attribute.keyword), places)


def _as_one(shape: Shape, before: tuple[Measure, ...], again: Attribute) -> str:
    """How to write a keyword once that is given twice, its quantities behind one another where each is another."""
    found = [measure(quantity) for quantity in again.quantities]
    dimensions = [one.dimension for one in found if not isinstance(one, Problem)]
    given = [one.dimension for one in before]
    if not dimensions or not set(dimensions) <= set(shape.dimensions) - set(given):
        return "Keep one of them."
    return f"Write it once, with {listed([noun(one) for one in (*given, *dimensions)], 'and')} behind it."


def merge(base: Given, over: Given, exclusive: tuple[str, ...]) -> Given:
    """A type's attributes with those of a part on top.

    A keyword given at the part replaces the type's; bare quantities replace those of their dimension; of the
    `exclusive` keywords (forms, contacts) the part's take the place of all the type's.
    """
    dropped = {key for key in exclusive if any(over.has(other) for other in exclusive)} | set(over.keywords)
    bare = over.measures.get("", ())
    kept = tuple(one for one in base.measures.get("", ()) if one.dimension not in {other.dimension for other in bare})
    measures = {key: value for key, value in base.measures.items() if key and key not in dropped} | over.measures
    measures[""] = kept + bare
    words = {key: value for key, value in base.words.items() if key not in dropped} | over.words
    keywords = (*(key for key in base.keywords if key not in dropped), *over.keywords)
    places = {key: place for key, place in base.places.items() if key not in dropped} | over.places
    return Given(measures, words, keywords, places)


def missing(noun_of_part: str, name: str, example: str, shapes: dict[str, Shape], given: Given,
            place: Place) -> list[Problem]:  # fmt: skip
    """What the shapes need and the part doesn't have: required keywords, and quantities after those that are given."""
    found = []
    for keyword, shape in shapes.items():
        if shape.required and not given.has(keyword):
            found.append(Problem(place, f"{noun_of_part} {name} has no `{keyword}`", f"Write e.g. `{example}`."))
        for dimension in shape.needs if not keyword or given.has(keyword) else ():
            if given.value(keyword, dimension) is None:
                # After a keyword the place may be in a type, which speaks for many parts.
                what = f"no {dimension} after `{keyword}`" if keyword else f"{noun_of_part} {name} has no {dimension}"
                where = given.places[keyword] if keyword else place
                found.append(Problem(where, what, f"Write e.g. `{example}`."))
    return found


def _dimension_fits(quantity: Quantity, shape: Shape) -> bool:
    found = measure(quantity)
    return isinstance(found, Problem) or found.dimension in shape.dimensions


def _owner(quantity: Quantity, keyword: str, shapes: dict[str, Shape]) -> str:
    """In `stall 18 A 12 V` the volts are the motor's own: of several quantities those that the keyword doesn't take."""
    fits = _dimension_fits(quantity, shapes[keyword])
    return "" if not fits and "" in shapes and _dimension_fits(quantity, shapes[""]) else keyword


def _measured(noun_of_part: str, keyword: str, shapes: dict[str, Shape], quantity: Quantity,
              before: tuple[Measure, ...]) -> Measure | Problem:  # fmt: skip
    found, shape = measure(quantity), shapes[keyword]
    if isinstance(found, Problem):
        return found
    if found.dimension not in shape.dimensions:
        return _wrong_dimension(noun_of_part, keyword, shapes, quantity, found.dimension)
    if any(one.dimension == found.dimension for one in before):
        what = f"{noun(found.dimension)} {_are(noun(found.dimension))} given twice: {written(quantity)}"
        return Problem(found.place, what, "Keep one of them.")
    if found.low != found.high and found.dimension not in shape.ranged:
        return Problem(found.place, f"the range {written(quantity)} where one value is expected", "Write one number.")
    return found


def _wrong_dimension(noun_of_part: str, keyword: str, shapes: dict[str, Shape], quantity: Quantity,
                     given: str) -> Problem:  # fmt: skip
    """A quantity of the dimension `given` where `keyword` doesn't take it; with what was meant, if that can be told."""
    subject, dimensions = f"`{keyword}`" if keyword else article(noun_of_part), shapes[keyword].dimensions
    expected = listed([noun(dimension) for dimension in dimensions], "or")
    what = f"{written(quantity)} where {expected} {_are(expected)} expected"
    if not dimensions:
        what, expected = f"{written(quantity)} where no quantity is expected", "none"
    slip = next((hint for (wanted, wrong), hint in SLIPS.items() if wanted in dimensions and wrong == given), "")
    owners = [f"`{other}`" for other, shape in shapes.items() if other and given in shape.dimensions]
    meant = slip or (f"It can stand after {listed(owners, 'or')}." if 0 < len(owners) <= MOST_OWNERS else "")
    return Problem(quantity.place, what, f"{sentence(subject)} takes {expected}. {meant}".rstrip())


SLIPS = {
    ("celsius", "degrees"): "A temperature is in °C or degC.",
    ("degrees", "celsius"): "An angle is in deg.",
    ("mm2", "metres"): "An area is in mm2.",
    ("henries", "kg_m2"): "An inductance is in H or mH.",
    ("kg_m2", "mm2"): "Write it with its mass, e.g. 34 g cm2.",
}
"""(expected, given) dimension → what was probably meant."""
MOST_OWNERS = 2


def _are(noun: str) -> str:
    return "is" if noun.startswith(("a ", "an ")) else "are"


def _words_amiss(keyword: str, shape: Shape, attribute: Attribute) -> list[Problem]:
    least, most = shape.words
    count = len(attribute.words)
    if count < least:
        names = f"{count or 'no'} name{'s' * (count != 1)}"
        return [Problem(attribute.place, f"`{keyword}` with {names} after it", _expects(keyword, shape))]
    if count > most:
        extra = attribute.words[most]
        return [Problem(extra.place, f"{extra.text} after `{keyword}`", _expects(keyword, shape))]
    return [Problem(word.place, f"{word.text} after `{keyword}`", suggestion(word.text, shape.choices))
            for word in attribute.words if shape.choices and word.text not in shape.choices]  # fmt: skip


def _expects(keyword: str, shape: Shape) -> str:
    least, most = shape.words
    if most == 0:
        return f"`{keyword}` takes no name." if keyword else "A name can't stand here."
    if shape.choices:
        return f"`{keyword}` takes {listed(shape.choices, 'or')}."
    return f"`{keyword}` takes {least} names." if least == most else f"`{keyword}` takes {least} to {most} names."


def _not_taken(noun_of_part: str, shapes: dict[str, Shape], attribute: Attribute) -> Problem:
    bare = shapes.get("", FLAG).dimensions
    takes = [*(noun(dimension) for dimension in bare), *(f"`{key}`" for key in shapes if key)]
    taken = f"it takes {listed(takes, 'and')}" if takes else "it takes no attributes"
    shown = f"`{attribute.keyword}`" if attribute.keyword else written(attribute.quantities[0])
    return Problem(attribute.place, f"{article(noun_of_part)} takes no {shown}", f"{sentence(taken)}.")
