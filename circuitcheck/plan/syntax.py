"""The statements of a plan, as written. One type for each statement; each keeps its place.

Names are not resolved here and units are not judged: `circuit/` does both, so that it can say what it knows.
"""

from typing import NamedTuple

from circuitcheck.plan.source import Place, Source


class Word(NamedTuple):
    """A name, keyword or reference as written: `K1`, `drawbridge`, `K1.A1`, `K1.11-14`."""

    text: str
    place: Place


class Quantity(NamedTuple):
    """`low` and `high` differ only where the plan gives a range (`5..12 ms`); `unit` as written, its words one blank
    apart. That of a ratio is ":1"."""

    low: float
    high: float
    unit: str
    place: Place


class Attribute(NamedTuple):
    """One attribute of a part: its keyword, then whatever followed it.

    `7.5 A` is the bare attribute: keyword "", one quantity. `coil 12 V 160 ohm` is keyword "coil", two quantities.
    `positions raise off lower` is keyword "positions", three words. `drives deck toward top` is keyword "drives",
    words deck and top. A flag (`momentary`) is a keyword alone.
    """

    keyword: str
    words: tuple[Word, ...]
    quantities: tuple[Quantity, ...]
    place: Place


class Title(NamedTuple):
    """`plan Drawbridge "Raises and lowers the deck"`"""

    name: Word
    label: str
    place: Place


class Use(NamedTuple):
    """`use "shared/relays.plan"`: `path` is without its quotes."""

    path: Word
    place: Place


class Type(NamedTuple):
    """`type cube12 relay spdt coil 12 V 90 ohm`: a part described once, used by `relay K1 as cube12`."""

    name: Word
    kind: Word
    attributes: tuple[Attribute, ...]
    place: Place


class Part(NamedTuple):
    """`relay K1 K2 as cube12 dpdt coil 12 V 160 ohm "run"`: one statement may describe several equal parts."""

    kind: Word
    names: tuple[Word, ...]
    type_name: Word | None
    attributes: tuple[Attribute, ...]
    label: str
    place: Place


class Axis(NamedTuple):
    """`axis deck from bottom via middle to top, 70 deg, springs back`, or `axis wheel turning through park half`.

    attributes: how far it goes (bare) and what is said of its load (`friction 0.5 N m`).
    """

    name: Word
    places: tuple[Word, ...]
    turning: bool
    attributes: tuple[Attribute, ...]
    place: Place
    springs_back: bool = False


class Conditions(NamedTuple):
    """`conditions ambient 5..35 °C, insulation 105 °C, bundled 6 wires, wire 1 mm2 0.5 m`: what holds for all wires."""

    attributes: tuple[Attribute, ...]
    place: Place


class Wire(NamedTuple):
    """`wire PS.+ F1.1 : 1.5 mm2 red 0.4 m 105 °C`: `words` are colour and number, `quantities` the rest."""

    ends: tuple[Word, Word]
    words: tuple[Word, ...]
    quantities: tuple[Quantity, ...]
    place: Place


class Fork(NamedTuple):
    """`( PB1.13-14 | K3.13-14 )` within a rung: parallel branches."""

    branches: tuple[tuple["Word | Fork", ...], ...]
    place: Place


class Rung(NamedTuple):
    """`rung F1.2, S1.com-raise, ( PB1 | K3.13-14 ), K1.A1-A2, PS.-`: a series path."""

    items: tuple[Word | Fork, ...]
    place: Place


class Module(NamedTuple):
    """`module Reverser` … `end`: `ports` in order, `statements` of its inside."""

    name: Word
    ports: tuple[Word, ...]
    statements: tuple["Statement", ...]
    place: Place


class Fit(NamedTuple):
    """`fit R1 Reverser : plus F1.2, minus PS.-`: a module put in place, each port joined to a terminal."""

    name: Word
    module: Word
    joins: tuple[tuple[Word, Word], ...]
    place: Place


class Claim(NamedTuple):
    """`M1 braked`, `deck at top`, `PS off`, `deck stops at top`: `verb` is "is", "at", "past" or "stops at".

    In `M1 starts` and `power returns` the verb says all, and `value` is empty.
    """

    subject: Word
    verb: str
    value: Word
    place: Place


class Combined(NamedTuple):
    """`and`, `or` (several operands) or `not` (one operand)."""

    operator: str
    operands: tuple["Condition", ...]
    place: Place


class Promise(NamedTuple):
    """`expect CONDITION [when CONDITION]`, the same with `never` or `always`, `never M1 starts when power returns`.

    `after CONDITION within 1 s CONDITION` has what comes first as `when`; `within` is None where it says `settling`.
    """

    keyword: str
    condition: "Condition"
    when: "Condition | None"
    place: Place
    within: Quantity | None = None


class Acceptance(NamedTuple):
    """`accept unbraked-stop on M2 because "a fan may run on"`: `part` is in full once the circuit is built."""

    check: Word
    part: Word
    reason: Word
    place: Place


class Require(NamedTuple):
    """`require one fault never drives deck past top`: `subject` is the axis, `past` the end of it.

    `require ES1 works after one fault`: `subject` is the emergency stop, `past` is None.
    """

    subject: Word
    past: Word | None
    place: Place


Condition = Claim | Combined
Statement = Title | Use | Type | Part | Axis | Conditions | Wire | Rung | Module | Fit | Promise | Require | Acceptance


class Defaults(NamedTuple):
    """What a library's settings, in `file`, say for plans that don't.

    supply: of a supply, conditions: of the `conditions`, an attribute for each figure. table: the table whose sizes of
    wire are proposed, "" for all.
    """

    supply: tuple[Attribute, ...] = ()
    conditions: tuple[Attribute, ...] = ()
    table: str = ""
    file: str = ""


NO_DEFAULTS = Defaults()


class Plan(NamedTuple):
    """A plan with all that it uses.

    statements: those of the plan's own file, without `use` and module bodies.
    types, modules: what the file and the files it uses describe, by name.
    sources: every file read, the plan's own first. defaults: what counts where it says nothing.
    """

    file: str
    title: Title | None
    statements: tuple[Statement, ...]
    types: dict[str, Type]
    modules: dict[str, Module]
    sources: tuple[Source, ...]
    defaults: Defaults = NO_DEFAULTS
