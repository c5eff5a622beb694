"""What a circuit is made of.

A circuit is a graph of terminals. Conductors join terminals (wires, contacts, fuses, connector pins; diodes one way);
loads stand between terminals and take current (coils, motors, lamps, resistors). What changes while the prop is worked
is a digit: a switch's position, a relay's armature, an axis' zone, a supply, an outside contact. A conductor that
opens and closes names the digit that moves it and the values at which it is closed.

    Digit      S1, values raise lower, and the moment between them
    Conductor  S1.com - S1.raise, closed where digit 0 has value 0
    Load       K1.A1 - K1.A2, 160 ohm

All quantities are in SI units: volts, amperes, ohms, metres, seconds; areas in mm2, turns in rpm, angles in degrees.
"""

from typing import NamedTuple

from circuitcheck.circuit.figures import AxisFigures, Conditions, Defaulted, MotorFigures, WireInfo
from circuitcheck.plan.source import Place
from circuitcheck.plan.syntax import Acceptance, Promise, Require

Terminal = str
"""A terminal's full name: the part's name, a point, the mark on the part ("K1.11", "B1.K1.A1", "PS.+").

A part with a single terminal (a splice, a module's port) has the mark "" and its terminal the part's own name."""


class Moment(NamedTuple):
    """What a hand switch passes through on its way: `moves` are the (from, to) values whose way leads through it."""

    name: str
    moves: frozenset[tuple[int, int]]


class Digit(NamedTuple):
    """One thing that stands in one of several positions.

    kind: "control" (worked by hand), "outside" (changes by itself), "relay", "axis" or "supply"; where it is supposed
        that nothing moves it, "stuck".
    values: the positions it can rest in, numbered from 0. A supply's are off, on; a relay's released, operated
        (and spent for a one-shot, pausing for a pulse relay); an axis' are its zones in order, for a linear axis one
        past each end as well.
    moments: passed only on the way between positions; numbered after the values.
    springs_to: the value that it goes back to when a hand lets go; None where it stays.
    """

    name: str
    kind: str
    values: tuple[str, ...]
    moments: tuple[Moment, ...] = ()
    springs_to: int | None = None

    @property
    def radix(self) -> int:
        """How many values a state can give this digit, moments included."""
        return len(self.values) + len(self.moments)

    def value_name(self, value: int) -> str:
        """The word for a value or moment."""
        if value < len(self.values):
            return self.values[value]
        return self.moments[value - len(self.values)].name


class Closed(NamedTuple):
    """When a contact is closed: where digit number `digit` has one of `values` (moments are numbered after values)."""

    digit: int
    values: frozenset[int]


class Conductor(NamedTuple):
    """Joins `tail` and `head` with no resistance that matters.

    part: the part it belongs to, "" for a wire. A one-way conductor passes current from tail to head only.
    closed: None for one that is always closed. place: the wire's or the part's place in the text.
    kind: "wire", "contact", "fuse", "pin", "diode" or "bond" (a motor's brush on its case); "touch" where two things
    are supposed to touch that should not.
    """

    tail: Terminal
    head: Terminal
    kind: str
    part: str
    place: Place
    closed: Closed | None = None
    one_way: bool = False

    @property
    def name(self) -> str:
        """ "K1.11-14" for a contact, "the wire PS.+ to F1.1" for a wire."""
        if not self.part:
            return f"the wire {self.tail} to {self.head}"
        return f"{self.tail}-{self.head.rsplit('.', 1)[1]}"


class Load(NamedTuple):
    """Takes current between `a` and `b`.

    kind: "coil", "input" (of a timing relay), "solenoid", "motor", "lamp", "buzzer" or "resistor". A motor has one load
    for each winding.
    ohms: at rest, cold; `assumed` where the plan gives none and the catalogue's default was taken.
    volts: rated; 0 for a resistor. inductive: cutting it makes a spike that must be suppressed (a motor's is not
    counted here: its own brake and contacts see to it).
    """

    name: str
    part: str
    kind: str
    a: Terminal
    b: Terminal
    volts: float
    ohms: float
    assumed: bool
    inductive: bool
    place: Place


class Coil(NamedTuple):
    """A relay's coil: `load` is its index in Circuit.loads. It operates from `operate_volts` up and, once operated,
    stays so until the volts fall below `release_volts` (either polarity). henries: 0 where the plan gives none."""

    load: int
    operate_volts: float
    release_volts: float
    henries: float = 0.0


class Relay(NamedTuple):
    """function: "plain", "latching", "on-delay", "off-delay", "one-shot" or "pulse".

    coil operates it; a latching relay keeps its position until `reset` (None for all others) releases it. A timing
    relay may have a `control` input besides: then the coil is its supply only, and the input works it.
    delay_seconds: of a timing relay, else 0; of a pulse relay that for which it is operated, and pause_seconds that for
    which it then isn't. operate_seconds and release_seconds: (least, greatest), None if not given;
    release_with_diode_seconds: the same where a plain diode stands across the coil.
    make_before_break: while it travels, its changeover poles touch both sides instead of none.
    """

    name: str
    digit: int
    function: str
    coil: Coil
    reset: Coil | None
    delay_seconds: float
    operate_seconds: tuple[float, float] | None
    release_seconds: tuple[float, float] | None
    make_before_break: bool = False
    release_with_diode_seconds: tuple[float, float] | None = None
    pause_seconds: float = 0.0
    control: Coil | None = None

    @property
    def inputs(self) -> tuple[Coil, ...]:
        """All that it has, its coil first."""
        return tuple(one for one in (self.coil, self.reset, self.control) if one)

    def seconds_at(self, value: int) -> float:
        """How long a timing relay stays where it is, at this value of its digit, until its time has run out."""
        return self.pause_seconds if self.function == "pulse" and value == 2 else self.delay_seconds


class Supply(NamedTuple):
    """`digit` is off or on. 0 where the plan says nothing: of amps, of its internal resistance, of the current at which
    it limits, and of the volts that it withstands at its terminals."""

    name: str
    plus: Terminal
    minus: Terminal
    volts: float
    amps: float
    digit: int
    internal_ohms: float = 0.0
    limit_amps: float = 0.0
    withstands_volts: float = 0.0


class Winding(NamedTuple):
    """The armature between a motor's brush `plus` and its brush `minus`: forward when plus is the positive one."""

    plus: Terminal
    minus: Terminal
    load: int


class Motor(NamedTuple):
    """windings: one, or two for a two-speed motor (low, high), whose minus brush is common.

    axis: the index in Circuit.axes of what it drives, or None; forward drives it toward higher zones when `upward`.
    """

    name: str
    windings: tuple[Winding, ...]
    volts: float
    may_coast: bool
    axis: int | None
    upward: bool
    figures: MotorFigures = MotorFigures()


class Axis(NamedTuple):
    """A way that a motor moves something along. `places` as declared; the zones are its digit's values.

    range: (first, last) zone that belongs to it; a linear axis has one zone of overtravel on either side of them. A
    turning axis has none: all its zones belong to it and the last is followed by the first. springs_back: when its
    drive ends it may go back off the switch that ended it.
    """

    name: str
    digit: int
    places: tuple[str, ...]
    turning: bool
    range: tuple[int, int]
    degrees: float
    springs_back: bool = False
    figures: AxisFigures = AxisFigures()


class Limit(NamedTuple):
    """A limit or cam switch: pressed while digit number Axis.digit of `axis` is in one of `zones`."""

    name: str
    axis: int
    zones: frozenset[int]


class Suppressor(NamedTuple):
    """Something that can take a coil's spike between `a` and `b`.

    kind: "diode" (a is its anode, b its cathode), "resistor", "varistor", "tvs" or "rc". built_in: inside its relay.
    """

    part: str
    kind: str
    a: Terminal
    b: Terminal
    ohms: float
    built_in: bool


class PartInfo(NamedTuple):
    """A part as the plan describes it. `ratings` by name in SI units ({"amps": 7.5, "coil_volts": 12.0}).

    kind: the plan's keyword ("relay", "cam"), or "port"; an axis is listed too, with no terminals.
    marks: its terminals' marks in the order in which the part's kind lists them. Terminals listed in `optional` may be
    left without a wire (the unused throw of a changeover pole).
    features: what it is in words, as written: form, contacts, `momentary`, `latching` ("dpdt", "momentary").
    """

    name: str
    kind: str
    label: str
    marks: tuple[str, ...]
    optional: frozenset[str]
    ratings: dict[str, float]
    place: Place
    features: tuple[str, ...] = ()

    @property
    def terminals(self) -> tuple[Terminal, ...]:
        """The full names of its terminals, in order."""
        return tuple([f"{self.name}.{mark}" if mark else self.name for mark in self.marks])


class Repeated(NamedTuple):
    """A part that the plan describes a second time, `again`, under the name of another of the same kind, `first`."""

    name: str
    first: Place
    again: Place


class Circuit(NamedTuple):
    """A whole plan, flattened: modules are put in place, part types filled in, names unique.

    parts: by name, in the plan's order. digits: in the plan's order; a state is one value for each of them.
    """

    name: str
    label: str
    file: str
    parts: dict[str, PartInfo]
    digits: tuple[Digit, ...]
    conductors: tuple[Conductor, ...]
    wires: tuple[WireInfo, ...]
    loads: tuple[Load, ...]
    supplies: tuple[Supply, ...]
    relays: tuple[Relay, ...]
    motors: tuple[Motor, ...]
    axes: tuple[Axis, ...]
    limits: tuple[Limit, ...]
    suppressors: tuple[Suppressor, ...]
    promises: tuple[Promise, ...]
    repeated: tuple[Repeated, ...] = ()
    conditions: Conditions = Conditions()
    acceptances: tuple[Acceptance, ...] = ()
    requirements: tuple[Require, ...] = ()
    defaulted: tuple[Defaulted, ...] = ()
