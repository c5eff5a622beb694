"""What is seen of a box under power, on boxes for which that is plain."""

import pytest

from circuitcheck.analysis.bench.candidates import Boxes, under_power
from circuitcheck.analysis.bench.powered import points_of
from circuitcheck.analysis.bench.readings import OVERLOAD, UNSETTLED, Reading
from circuitcheck.analysis.bench.settings import WITH, WITHOUT, Setting, settings_of
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of

BOX = """
supply PS 12 V 10 A
switch S1 spdt positions raise off lower
button PB1 no
relay  K1 spdt coil 12 V 160 ohm with diode
motor  M1 12 V stall 5 A
buzzer BZ1 12 V 0.02 A
rung   PS.+, PB1, K1.A1-A2, PS.-
rung   S1.raise, M1, PS.-
rung   PS.+, K1.14-11, BZ1, PS.-
wire   PS.+ S1.com
"""


def set_to(circuit: Circuit, stage: str, **words: str) -> Setting:
    """Everything at rest but what is named; a button may be tapped."""
    rest = settings_of(circuit, stage).rest
    values, tapped = list(rest.values), []
    for number, digit in enumerate(circuit.digits):
        word = words.get(digit.name)
        if word == "tapped":
            tapped.append((number, digit.values.index("pressed")))
        elif word:
            values[number] = digit.values.index(word)
    return Setting(tuple(values), tuple(tapped))


def seen(text: str, stage: str = WITH, **words: str) -> dict[str, Reading]:
    """What is seen of a sound box, by name."""
    circuit = circuit_of(text)
    found = Boxes(circuit, ()).powered(None, stage).seen(set_to(circuit, stage, **words))
    return {point.name: reading for point, reading in found.items()}


def test_what_a_box_does_is_seen_once_its_relays_are_at_rest() -> None:
    """The buzzer sounds over the relay's contact; the motor runs with the selector."""
    assert seen(BOX) == {"M1": "coasting", "BZ1": "off", "K1": "released"}
    assert seen(BOX, PB1="pressed")["BZ1"] == "on"
    assert seen(BOX, PB1="pressed")["K1"] == "operated"
    assert seen(BOX, S1="raise")["M1"] == "forward"


def test_volts_are_read_where_a_motor_was_and_at_each_supply() -> None:
    """With their sign, red on what the plan calls +; nothing where nothing leads."""
    assert [seen(BOX, WITHOUT, S1=word)["M1"] for word in ("raise", "off")] == [pytest.approx(12), 0.0]
    turned = BOX.replace("rung   S1.raise, M1, PS.-", "wire S1.raise M1.-\nwire M1.+ PS.-")
    assert seen(turned, WITHOUT, S1="raise")["M1"] == pytest.approx(-12)
    assert seen(BOX, WITHOUT)["PS"] == 12
    assert seen(BOX, WITHOUT, PS="off")["PS"] == 0


def test_a_supply_that_is_reversed_reads_less_than_nothing() -> None:
    """Red is on what the plan calls +."""
    circuit = circuit_of("supply PS 12 V 10 A\nlamp L1 12 V 2 W\nrung PS.+, L1, PS.-\n")
    faults = [one for one in single_faults(circuit) if one.called == "PS reversed"]
    found = Boxes(circuit, faults).powered(0, WITHOUT).seen(set_to(circuit, WITHOUT))
    assert {point.name: reading for point, reading in found.items()} == {"L1": "lit", "PS": -12}


def test_a_lamp_is_lit_where_a_buzzer_is_on() -> None:
    """Whichever stands first in the plan."""
    beside = BOX + "lamp L1 12 V 2 W\nrung K1.11, L1, PS.-\n"
    lamp_first = beside.replace("relay  K1", "lamp L0 12 V 2 W\nrelay  K1") + "rung K1.11, L0, PS.-\n"
    for text in (beside, lamp_first):
        on, off = seen(text, PB1="pressed"), seen(text)
        assert [(on[name], off[name]) for name in ("L1", "BZ1")] == [("lit", "dark"), ("on", "off")]


def test_a_relay_that_moves_at_once_is_before_a_timer() -> None:
    """Both are fed at power-up, and either breaks the other's coil."""
    text = """
        supply PS 12 V 10 A
        relay  K1 spdt on-delay 3 s coil 12 V 160 ohm with diode
        relay  K2 spdt coil 12 V 160 ohm with diode
        rung   PS.+, K2.11-12, K1.A1-A2, PS.-
        rung   PS.+, K1.15-16, K2.A1-A2, PS.-
    """
    assert seen(text) == {"K1": "released", "K2": "operated"}
    assert seen(text.replace("on-delay 3 s", "").replace("15-16", "11-12")) == {"K1": UNSETTLED, "K2": UNSETTLED}


def test_a_timer_runs_out_in_the_end() -> None:
    """Once nothing else wants to move."""
    text = "supply PS 12 V 10 A\nrelay K1 spdt on-delay 3 s coil 12 V 160 ohm\nrung PS.+, K1.A1-A2, PS.-"
    assert seen(text)["K1"] == "operated"


def test_relays_that_go_round_are_not_seen_steady() -> None:
    """Anything on the way may be met."""
    text = "supply PS 12 V 10 A\nrelay K1 spdt coil 12 V 160 ohm with diode\nrung PS.+, K1.11-12, K1.A1-A2, PS.-"
    assert seen(text)["K1"] == UNSETTLED


def test_what_is_tapped_leaves_what_it_did() -> None:
    """A relay that holds itself stays operated; one that doesn't is released again."""
    held = """
        supply PS 12 V 10 A
        button PB1 no
        relay  K1 spdt coil 12 V 160 ohm
        rung   PS.+, ( PB1 | K1.11-14 ), K1.A1-A2, PS.-
    """
    assert [seen(held)["K1"], seen(held, PB1="tapped")["K1"]] == ["released", "operated"]
    assert seen(held.replace("( PB1 | K1.11-14 )", "PB1"), PB1="tapped")["K1"] == "released"


def test_a_shorted_box_shows_nothing_but_that_it_is() -> None:
    """Whichever way relays get there; where only some ways do, nothing is seen steady."""
    text = BOX + "wire S1.lower PS.-\n"
    assert set(seen(text, S1="lower").values()) == {OVERLOAD}
    assert OVERLOAD not in seen(text, S1="off").values()
    race = """
        supply PS 12 V 10 A
        relay  K1 K2 dpdt coil 12 V 160 ohm with diode
        rung   PS.+, K2.11-12, K1.A1-A2, PS.-
        rung   PS.+, K1.11-12, K2.A1-A2, PS.-
        rung   PS.+, K1.21-24, PS.-
    """
    assert set(seen(race).values()) == {UNSETTLED}


def test_nothing_is_looked_for_where_a_sound_box_is_shorted_or_never_steady() -> None:
    """There a fault may show, but nobody would look."""
    circuit = circuit_of(BOX + "wire S1.lower PS.-\n")
    faults = single_faults(circuit)
    found = under_power(Boxes(circuit, faults), settings_of(circuit, WITH), range(len(faults)))
    assert found
    assert {one.expected for one in found}.isdisjoint({OVERLOAD, UNSETTLED})
    assert any(one.setting.values == set_to(circuit, WITH, S1="raise").values for one in found)


def test_what_is_looked_at_stands_in_the_plan_s_order() -> None:
    """Motors run with them connected; without them, volts are read in their place and at the supply."""
    circuit = circuit_of(BOX + "motor M2 12 V stall 5 A\nwire M2.- PS.-\nwire M2.+ S1.lower\n")
    connected = [(one.kind, one.name) for one in points_of(circuit, WITH)]
    assert connected == [("motor", "M1"), ("motor", "M2"), ("lamp", "BZ1"), ("relay", "K1")]
    apart = [(one.kind, one.name, one.red, one.black) for one in points_of(circuit, WITHOUT)]
    assert sorted(apart[:2]) == [("volts", "M1", "M1.+", "M1.-"), ("volts", "M2", "M2.+", "M2.-")]
    assert apart[2:] == [("lamp", "BZ1", "", ""), ("relay", "K1", "", ""), ("volts", "PS", "PS.+", "PS.-")]
