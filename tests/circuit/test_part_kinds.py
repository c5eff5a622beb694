"""Each kind of part: its terminals, what joins them, what it weighs in the circuit."""

from collections.abc import Callable

import pytest

from circuitcheck.circuit.catalogue.kinds import KINDS
from circuitcheck.circuit.model import Circuit

Build = Callable[[str], Circuit]

TERMINALS = [
    ("supply PS 12 V 10 A", "PS.+ PS.-"),
    ("fuse F1 7.5 A", "F1.1 F1.2"),
    ("switch S1 spdt positions raise lower", "S1.com S1.raise S1.lower"),
    ("switch S2 dpdt positions raise off lower", "S2.com1 S2.raise1 S2.lower1 S2.com2 S2.raise2 S2.lower2"),
    ("switch S3 1 pole 3 ways positions off low high", "S3.com S3.low S3.high"),
    ("switch S4 spst positions off on", "S4.com S4.on"),
    ("relay K1 latching spdt coil 12 V 160 ohm", "K1.A1 K1.A2 K1.B1 K1.B2 K1.11 K1.12 K1.14"),
    ("diode D1", "D1.anode D1.cathode"),
    ("suppressor V1 varistor", "V1.1 V1.2"),
    ("suppressor V3 diode", "V3.anode V3.cathode"),
    ("resistor R1 680 ohm", "R1.1 R1.2"),
    ("lamp L1 12 V 2 W", "L1.1 L1.2"),
    ("buzzer BZ1 12 V 0.02 A", "BZ1.1 BZ1.2"),
    ("solenoid Y1 12 V 12 ohm", "Y1.1 Y1.2"),
    ("motor M1 12 V stall 18 A", "M1.+ M1.-"),
    ("motor M2 two-speed 12 V stall 18 A case on -", "M2.low M2.high M2.- M2.case"),
    ("connector J1 2 ways", "J1.p1 J1.s1 J1.p2 J1.s2"),
    ("strip X1 3 ways", "X1.1 X1.2 X1.3"),
    ("splice N1", "N1"),
    ("outside OUT1 contact", "OUT1.1 OUT1.2"),
    ("outside OUT2 sinking", "OUT2.out OUT2.com"),
    ("outside OUT3 sourcing", "OUT3.out OUT3.com"),
]


@pytest.mark.parametrize(("statement", "terminals"), TERMINALS)
def test_a_part_has_the_terminals_of_its_kind(build: Build, statement: str, terminals: str) -> None:
    """Terminals are named part, point, mark; a single terminal has the part's own name."""
    (part,) = build(statement).parts.values()
    assert " ".join(part.terminals) == terminals


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"port"}))
def test_the_example_that_messages_show_can_be_written(build: Build, kind: str) -> None:
    """What a message offers as an example is itself understood."""
    axes = "axis deck from bottom to top\naxis wheel turning through park\n"
    circuit = build(axes + KINDS[kind].example)
    assert list(circuit.parts.values())[-1].kind == kind


def test_a_relays_contacts_change_over_when_it_operates(build: Build) -> None:
    """11-12 is closed while K1 is released, 11-14 while it is operated."""
    circuit = build("relay K1 spdt coil 12 V 160 ohm")
    closed = {one.name: set(one.closed.values) for one in circuit.conductors if one.closed}
    assert closed == {"K1.11-12": {0}, "K1.11-14": {1}}
    assert circuit.digits[0].values == ("released", "operated")


def test_a_one_shot_relay_is_operated_only_for_its_time(build: Build) -> None:
    """Once spent it stands as released, though its coil may still be fed."""
    circuit = build("relay K1 spdt one-shot 3 s coil 12 V 160 ohm")
    closed = {one.name: set(one.closed.values) for one in circuit.conductors if one.closed}
    assert circuit.digits[0].values == ("released", "operated", "spent")
    assert closed == {"K1.15-16": {0, 2}, "K1.15-18": {1}}
    assert circuit.relays[0].delay_seconds == 3.0


def test_a_pulse_relay_is_operated_and_pauses_in_turn(build: Build) -> None:
    """While it pauses its contacts stand as released; without a pause of its own it pauses for as long as it pulses."""
    circuit = build("relay K1 spdt pulse 2 s pause 1 s coil 12 V 160 ohm\nrelay K2 pulse 2 s coil 12 V")
    closed = {one.name: set(one.closed.values) for one in circuit.conductors if one.closed}
    assert circuit.digits[0].values == ("released", "operated", "pausing")
    assert closed == {"K1.15-16": {0, 2}, "K1.15-18": {1}}
    assert [relay.seconds_at(value) for relay in circuit.relays for value in (1, 2)] == [2.0, 1.0, 2.0, 2.0]


def test_a_latching_relay_has_a_second_coil_that_resets_it(build: Build) -> None:
    """A1 A2 operates it, B1 B2 releases it; both are loads of their own."""
    circuit = build("lamp L1 12 V 2 W\nrelay K1 latching coil 12 V 160 ohm")
    relay = circuit.relays[0]
    assert relay.reset is not None
    assert [circuit.loads[coil.load].a for coil in (relay.coil, relay.reset)] == ["K1.A1", "K1.B1"]


def test_a_relay_without_operate_and_release_volts_gets_cautious_ones(build: Build) -> None:
    """80 % of rated (Omron MY, omron-ap.com relay glossary) and 5 % (IEC 61810-1, from memory)."""
    coil = build("relay K1 coil 12 V 160 ohm").relays[0].coil
    assert coil.operate_volts == pytest.approx(9.6)
    assert coil.release_volts == pytest.approx(0.6)


def test_a_relays_times_and_volts_are_taken_from_the_plan(build: Build) -> None:
    """Ranges of times stay ranges, in seconds."""
    relay = build("relay K1 coil 12 V operate 9 V 5..12 ms release 1.2 V 2..5 ms").relays[0]
    assert (relay.coil.operate_volts, relay.coil.release_volts) == (9.0, 1.2)
    assert (relay.operate_seconds, relay.release_seconds) == ((0.005, 0.012), (0.002, 0.005))


@pytest.mark.parametrize(
    ("statement", "ohms", "assumed"),
    [
        ("relay K1 coil 12 V 160 ohm", 160.0, False),
        ("relay K1 coil 12 V", 160.0, True),
        ("lamp L1 12 V 2 W", 72.0, False),
        ("buzzer BZ1 12 V 0.02 A", 600.0, False),
        ("solenoid Y1 12 V 12 ohm", 12.0, False),
        ("motor M1 12 V stall 18 A", 12 / 18, False),
        ("motor M1 12 V free 1.5 A", 12 / 15, True),
        ("motor M1 12 V", 1.2, True),
    ],
)
def test_a_load_has_ohms_from_whatever_the_plan_gives(build: Build, statement: str, ohms: float, assumed: bool) -> None:
    """Watts and amps become ohms; where the plan gives nothing the default is marked as assumed."""
    (load,) = build(statement).loads
    assert load.ohms == pytest.approx(ohms)
    assert load.assumed is assumed


def test_coils_and_solenoids_are_inductive_and_lamps_are_not(build: Build) -> None:
    """Only what makes a spike when it is cut off needs something to take the spike."""
    circuit = build("relay K1 coil 12 V\nsolenoid Y1 12 V 12 ohm\nlamp L1 12 V 2 W\nmotor M1 12 V stall 18 A")
    assert [load.name for load in circuit.loads if load.inductive] == ["K1", "Y1"]


def test_a_resistor_built_into_a_relay_loads_the_coils_ends(build: Build) -> None:
    """It is a load beside the coil, and takes the coil's spike."""
    circuit = build("relay K1 coil 12 V 160 ohm with resistor 680 ohm")
    assert [(load.kind, load.ohms) for load in circuit.loads] == [("coil", 160.0), ("resistor", 680.0)]
    assert [(one.kind, one.built_in, one.ohms) for one in circuit.suppressors] == [("resistor", True, 680.0)]


def test_every_diode_can_take_a_spike(build: Build) -> None:
    """A diode passes current one way, whether it was bought as a diode or as a suppressor."""
    circuit = build("diode D1\nsuppressor V1 diode")
    assert [(one.a, one.b) for one in circuit.suppressors] == [("D1.anode", "D1.cathode"), ("V1.anode", "V1.cathode")]
    assert all(conductor.one_way for conductor in circuit.conductors)


def test_the_windings_of_a_two_speed_motor_share_the_minus_brush(build: Build) -> None:
    """The high brush stalls at 1.5 times the current of the low one."""
    circuit = build("motor M1 two-speed 12 V stall 10 A")
    low, high = circuit.motors[0].windings
    assert (low.plus, high.plus, low.minus, high.minus) == ("M1.low", "M1.high", "M1.-", "M1.-")
    assert [load.ohms for load in circuit.loads] == [pytest.approx(1.2), pytest.approx(0.8)]


def test_a_brush_on_the_case_is_bonded_to_it(build: Build) -> None:
    """The case is a terminal always joined to that brush, and may stay without a wire."""
    circuit = build("motor M1 12 V stall 18 A case on - may coast")
    (bond,) = circuit.conductors
    assert (bond.tail, bond.head, bond.kind) == ("M1.-", "M1.case", "bond")
    assert circuit.parts["M1"].optional == {"M1.case"}
    assert circuit.motors[0].may_coast


def test_a_sinking_output_draws_and_a_sourcing_output_feeds(build: Build) -> None:
    """One-way: from out to com, and from com to out, while on; a dry contact passes both ways."""
    circuit = build("outside A1 contact\noutside A2 sinking\noutside A3 sourcing")
    ways = [(conductor.tail, conductor.head, conductor.one_way) for conductor in circuit.conductors]
    assert ways == [("A1.1", "A1.2", False), ("A2.out", "A2.com", True), ("A3.com", "A3.out", True)]
    assert {digit.kind for digit in circuit.digits} == {"outside"}


def test_a_terminal_strip_joins_nothing_and_a_connector_joins_each_pair(build: Build) -> None:
    """Strips hold wires apart; plug and socket pins of one number are joined."""
    circuit = build("strip X1 2 ways\nconnector J1 2 ways")
    assert [(conductor.name, conductor.kind) for conductor in circuit.conductors] == [
        ("J1.p1-s1", "pin"),
        ("J1.p2-s2", "pin"),
    ]


def test_digits_stand_in_the_order_of_the_plan(build: Build) -> None:
    """A limit switch above its axis still names the axis' digit."""
    circuit = build("limit LS1 no on deck at top\nsupply PS 12 V\naxis deck from bottom to top\nbutton PB1 no")
    assert [digit.name for digit in circuit.digits] == ["PS", "deck", "PB1"]
    assert [one.closed.digit for one in circuit.conductors if one.closed] == [1, 2]


def test_spare_contacts_may_stay_unwired_but_coil_ends_may_not(build: Build) -> None:
    """Contacts of relays, pins and ways are optional; what a part can't work without is not."""
    circuit = build("relay K1 spdt coil 12 V\nswitch S1 spst positions off on\nbutton PB1 no\nstrip X1 2 ways")
    optional = {name: set(part.optional) for name, part in circuit.parts.items()}
    assert optional == {"K1": {"K1.11", "K1.12", "K1.14"}, "S1": set(), "PB1": set(), "X1": {"X1.1", "X1.2"}}


def test_ratings_are_in_si_units_under_their_keywords_names(build: Build) -> None:
    """Milliamps become amps, minutes seconds."""
    parts = build("fuse F1 500 mA\nrelay K1 spdt on-delay 2 min coil 12 V").parts
    assert parts["F1"].ratings == {"amps": 0.5}
    assert parts["K1"].ratings == {"on_delay_seconds": 120.0, "coil_volts": 12.0}


def test_features_are_the_words_that_stand_alone(build: Build) -> None:
    """They tell a momentary key switch from a plain one."""
    circuit = build("switch S1 spdt key momentary positions raise lower")
    assert circuit.parts["S1"].features == ("spdt", "key", "momentary")
