"""From what is seen of a small box to its fault, and what to read next."""

from math import inf

from circuitcheck.analysis.bench.candidates import Boxes
from circuitcheck.analysis.bench.readings import UNSETTLED, Point
from circuitcheck.analysis.bench.settings import OFF, STAGES, WITH, WITHOUT
from circuitcheck.analysis.bench.symptoms import Explained, Observation, Symptom, explain
from circuitcheck.analysis.bench.telling import Question, most_telling
from circuitcheck.analysis.doing import nobody
from circuitcheck.analysis.faults.fault import Fault
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

BOX = """
supply PS 12 V 5 A
button PB1 no
lamp   L1 12 V 2 W
rung   PS.+, PB1, L1, PS.-
"""
LIT = Point("lamp", "L1")
ACROSS = Point("ohms", "", "L1.1", "L1.2")


def faults_of(circuit: Circuit, *called: str) -> list[Fault]:
    """The faults of these names, in this order; all where none is named."""
    every = {one.called: one for one in single_faults(circuit)}
    return [every[name] for name in called or every]


def explained(text: str, symptoms: list[Symptom], *called: str) -> Explained:
    """By which of these faults."""
    circuit = circuit_of(text)
    return explain(Boxes(circuit, faults_of(circuit, *called)), symptoms, nobody)


def names(found: Explained) -> set[str]:
    """How the faults are called."""
    return {one.called for one in found.boxes.faults}


def pressed(text: str, stage: str, point: Point, *readings: float | str) -> Symptom:
    """What is seen while the button is held, or read without power."""
    circuit = circuit_of(text)
    number = next(number for number, digit in enumerate(circuit.digits) if digit.name == "PB1")
    return Symptom(((number, ((1, False),)),), (Observation(point, frozenset(readings)),), stage)


def test_what_a_meter_reads_without_power_is_held_against_the_sound_box() -> None:
    """An open lamp reads as nothing, which no sound one does, whichever faults are asked about."""
    found = explained(BOX, [pressed(BOX, OFF, ACROSS, inf)])
    assert names(found) == {"L1 open"}
    assert (found.pairs, found.tried, found.sound) == (False, 0, ())
    assert names(explained(BOX, [pressed(BOX, OFF, ACROSS, inf)], "L1 open")) == {"L1 open"}


def test_what_a_sound_box_shows_as_well_tells_of_no_fault() -> None:
    """Then it is said how a sound one is set to show it."""
    for symptom in (pressed(BOX, OFF, ACROSS, 72.0), pressed(BOX, WITH, LIT, "lit")):
        found = explained(BOX, [symptom])
        assert names(found) == set()
        assert [one.values[1] for one in found.sound] == [1]
    assert explained(BOX, [pressed(BOX, WITH, LIT, "lit"), pressed(BOX, OFF, ACROSS, inf)]).sound == ()


def test_a_fault_has_to_fit_all_that_is_seen_and_one_thing_that_is_not_sound() -> None:
    """A lamp that stays dark: its own ohms, as they should be, tell that it isn't the lamp."""
    dark = pressed(BOX, WITH, LIT, "dark")
    asked = "L1 open", "PB1.13-14 open", "PB1.13-14 welded"
    assert names(explained(BOX, [dark], *asked)) == {"L1 open", "PB1.13-14 open"}
    assert names(explained(BOX, [dark, pressed(BOX, OFF, ACROSS, 72.0)], *asked)) == {"PB1.13-14 open"}
    assert names(explained(BOX, [pressed(BOX, OFF, ACROSS, 72.0), dark], *asked)) == {"PB1.13-14 open"}


def test_a_fault_with_which_a_box_is_as_a_sound_one_explains_nothing() -> None:
    """The lamp is lit, nobody told when: that tells nothing against a fault with which it is lit as it should be."""
    lit = Symptom((), (Observation(LIT, frozenset({"lit"})),))
    assert names(explained(BOX, [lit], "PS reversed", "PB1.13-14 welded")) == {"PB1.13-14 welded"}


def test_what_is_not_steady_may_be_seen_so_and_a_figure_as_one_nearby() -> None:
    """Any of the readings will do."""
    seen = Observation(ACROSS, frozenset({72.0, 5.0}))
    assert [seen.fits({ACROSS: reading}) for reading in (72.5, 5.1, 30.0, UNSETTLED)] == [True, True, False, True]


def test_each_fault_is_called_before_it_is_tried() -> None:
    """The likeliest first; then pairs."""
    circuit, called = circuit_of(BOX), list[str]()
    boxes = Boxes(circuit, faults_of(circuit, "PB1.13-14 welded", "L1 open"))
    two = [pressed(BOX, WITH, LIT, word) for word in ("dark", "current limit")]
    found = explain(boxes, two, called.append)
    assert names(found) == set()
    assert called == ["L1 open", "PB1.13-14 welded"]
    assert found.tried == 0


def test_pairs_are_tried_the_likeliest_first() -> None:
    """Two wires, then a wire and a lamp, then two lamps."""
    text = BOX + "lamp L2 12 V 2 W\nrung PB1.14, L2, PS.-\n"
    circuit, called = circuit_of(text), list[str]()
    wires = ["the wire PB1.14 to L1.1 open", "the wire PB1.14 to L2.1 open"]
    both = [pressed(text, WITH, Point("lamp", lamp), "dark") for lamp in ("L1", "L2")]
    found = explain(Boxes(circuit, faults_of(circuit, "L2 open", *wires, "L1 open")), both, called.append)
    assert called[:4] == [*wires, "L2 open", "L1 open"]
    assert called[4:] == [one.called for one in found.boxes.faults]
    assert [one.count("wire") for one in called[4:]] == [2, 1, 1, 0]


def test_two_wires_may_be_open_at_once_but_no_part_has_two_faults() -> None:
    """A wire belongs to no part."""
    text = BOX + "lamp L2 12 V 2 W\nrung PB1.14, L2, PS.-\n"
    both = [pressed(text, WITH, Point("lamp", lamp), "dark") for lamp in ("L1", "L2")]
    wires = [one.called for one in single_faults(circuit_of(text)) if one.called.startswith("the wire PB1.14 to L")]
    assert len(wires) == 2
    found = explained(text, both, *wires)
    assert (found.tried, len(names(found))) == (1, 1)


def test_where_no_single_fault_fits_pairs_of_different_parts_are_tried() -> None:
    """Two lamps are dark, each for itself."""
    text = BOX + "lamp L2 12 V 2 W\nrung PS.+, PB1, L2, PS.-\n"
    both = [pressed(text, WITH, Point("lamp", lamp), "dark") for lamp in ("L1", "L2")]
    found = explained(text, both, "L1 open", "L2 open", "L1 shorted", "PB1.13-14 welded")
    assert (names(found), found.pairs, found.tried) == ({"L1 open and L2 open"}, True, 1)


def asked_next(text: str, stages: tuple[str, ...], *called: str) -> Question | None:
    """The reading that tells most between these faults."""
    circuit = circuit_of(text)
    return most_telling(Boxes(circuit, faults_of(circuit, *called)), stages)


def test_a_reading_is_asked_for_that_tells_the_faults_apart() -> None:
    """With the meter without power, by eye under power; what is answered leaves the faults that fit."""
    by_meter = asked_next(BOX, STAGES, "L1 open", "PB1.13-14 open", "L1 shorted")
    assert by_meter is not None
    assert by_meter.settings.stage == OFF
    assert sorted(len(by_meter.left(reading)) for reading in by_meter.readings) == [1, 1, 1]
    by_eye = asked_next(BOX, (WITH,), "PB1.13-14 welded", "L1 open")
    assert by_eye is not None
    assert (by_eye.point, by_eye.readings) == (LIT, ("lit", "dark"))
    assert [by_eye.left(reading) for reading in ("lit", "dark", UNSETTLED)] == [[0], [1], [0, 1]]


def test_the_first_stage_with_a_good_question_is_asked_the_best_of_all_where_none_is_good() -> None:
    """Of three faults one apart from two is good enough without power; of four, one apart from three isn't."""
    text = BOX + "supply PS2 5 V 1 A\nlamp L2 5 V 2 W\nrung PS2.+, L2, PS2.-\n"
    three, four = ("L1 open", "PS lost", "PS reversed"), ("L1 open", "PS lost", "PS reversed", "PS2 lost")
    found = [asked_next(text, STAGES, *three), asked_next(text, STAGES, *four), asked_next(text, (OFF,), *four)]
    assert [one and one.settings.stage for one in found] == [OFF, WITHOUT, OFF]


def test_nothing_is_asked_for_between_faults_that_read_alike() -> None:
    """By eye, two that keep a lamp dark; with a meter, two that make it a splice."""
    assert asked_next(BOX, (WITH,), "L1 open", "PB1.13-14 open") is None
    assert asked_next(BOX, (OFF,), "PB1 stuck pressed", "PB1 stuck pressed") is None


def test_a_reading_that_tells_three_apart_is_asked_for_before_one_that_tells_one_from_two() -> None:
    """Across one of three resistors, or across all of them."""
    text = "supply PS 12 V 5 A\nresistor R1 100 ohm\nresistor R2 300 ohm\nresistor R3 700 ohm\n"
    text += "switch S1 spst positions off on\nrung PS.+, S1.com-on, R1, R2, R3, PS.-\n"
    found = asked_next(text, (OFF,), "R1 shorted", "R2 shorted", "R3 shorted")
    assert found is not None
    assert [len(found.left(reading)) for reading in found.readings] == [1, 1, 1]


UNSTEADY = """
supply PS 12 V 10 A
relay  K1 spdt coil 12 V 160 ohm
rung   PS.+, K1.11-12, K1.A1-A2, PS.-
wire   PS.+ K1.A1
"""
"""Without its last wire the relay breaks its own coil for ever."""


def test_what_is_not_steady_tells_nothing_apart() -> None:
    """It may be read so or so: between it and two that are steady a meter tells more."""
    goes_round = "the wire PS.+ to K1.A1 open"
    assert asked_next(UNSTEADY, (WITH,), goes_round, "the coil K1.A1-A2 open") is None
    three = goes_round, "the coil K1.A1-A2 open", "K1.11-12 open"
    by_eye, any_way = asked_next(UNSTEADY, (WITH,), *three), asked_next(UNSTEADY, (WITH, OFF), *three)
    assert by_eye is not None
    assert by_eye.readings == (UNSETTLED, "released", "operated")
    assert any_way is not None
    assert any_way.settings.stage == OFF


def test_a_stage_in_which_nothing_is_told_apart_leaves_the_question_of_the_one_before() -> None:
    """Three faults are one to the meter, and all four keep the lamp dark."""
    found = asked_next(BOX, (OFF, WITH), "L1 open", "L1 open", "L1 open", "PB1.13-14 open")
    assert found is not None
    assert found.settings.stage == OFF


def test_a_diode_is_tried_where_ohms_tell_nothing() -> None:
    """No ohmmeter has the volts for a diode: open or not reads alike."""
    text = BOX.replace("PB1, L1", "PB1, D1, L1") + "diode D1\n"
    found = asked_next(text, (OFF,), "D1 open", "PS lost")
    assert found is not None
    assert (found.point.kind, found.point.red, found.point.black) == ("diode", "D1.anode", "D1.cathode")
