"""What fits, what is too small or too large, and what the plan would have to say."""

import pytest

from tests.sizing.sized_plans import AROUND, STIFF, one, sizes, told

LAMP = "switch S1 spst positions off on 5 A 30 V\nlamp L1 12 V 24 W\n"


def lamp(supply: str = STIFF, conditions: str = AROUND, fuse: str = "fuse F1 5 A", wire: str = "") -> str:
    """A lamp of 2 A behind a fuse and a switch; `wire` says what the wire from fuse to switch is made of."""
    return (
        f"{supply}{conditions}{fuse}\n{LAMP}wire PS.+ F1.1 : w1\nwire F1.2 S1.com : {wire} w2\nrung S1.on, L1, PS.-\n"
    )


def test_everything_fits_in_a_plan_that_says_enough() -> None:
    """No verdict is missing and nothing stands in for the surroundings."""
    found = sizes(lamp(fuse="fuse F1 5 A blade").replace("on 5 A 30 V", "on 25 A 30 V"))
    assert {sized.verdict for sized in found.every} == {"fits"}
    assert [assumed.part for assumed in found.assumptions] == ["L1"]


def test_a_wire_must_carry_what_its_fuse_lets_through_of_an_overload() -> None:
    """18 A stall through a 15 A fuse: 15 A count, and 1.5 mm2 carries 13.1 A; both standard sizes are proposed."""
    found = sizes(
        STIFF + AROUND + "fuse F1 15 A\nswitch S1 spst positions off on\nmotor M1 12 V stall 18 A\n"
        "wire F1.2 S1.com : w2\nrung PS.+, F1\nrung S1.on, M1, PS.-\n"
    )
    wire = one(found, "w2")
    assert (wire.needs, wire.verdict) == (15, "too small")
    assert "2.5 mm² or 14 AWG" in told(wire)
    fuse = one(found, "F1")
    assert fuse.verdict == "too large"
    assert "One of 10 A protects them and carries what runs" in told(fuse)


def test_a_wire_needs_no_more_than_its_loads_ever_draw() -> None:
    """A coil can't overload its wire, whatever the fuse."""
    found = sizes(lamp(fuse="fuse F1 10 A", wire="0.75 mm2"))
    assert one(found, "w2").needs == pytest.approx(2)


def test_a_thin_wire_is_saved_by_a_short_that_blows_the_fuse_soon() -> None:
    """0.75 mm2 carries 8.5 A. Behind 10 A a stiff supply drives over a hundred through a short at the lamp, a weak one
    hardly more than the fuse holds."""
    assert one(sizes(lamp(fuse="fuse F1 10 A", wire="0.75 mm2")), "F1").verdict == "fits"
    weak = STIFF.replace("20 mohm", "700 mohm")
    assert one(sizes(lamp(weak, fuse="fuse F1 10 A", wire="0.75 mm2")), "F1").verdict == "too large"


def test_a_supply_that_limits_may_never_blow_the_fuse() -> None:
    """12 A flow through a 10 A fuse for as long as they like, and 0.75 mm2 carries 8.5 A."""
    fuse = one(sizes(lamp("supply PS 12 V 10 A limit 12 A\n", fuse="fuse F1 10 A", wire="0.75 mm2")), "F1")
    assert fuse.verdict == "too large"
    assert "a short of 12 A may never open F1" in told(fuse)


def test_what_a_short_draws_is_asked_for() -> None:
    """Without the supply's resistance or limit nobody can tell; the plan is told what to write."""
    fuse = one(sizes(lamp("supply PS 12 V 10 A\n", fuse="fuse F1 10 A", wire="0.75 mm2")), "F1")
    assert fuse.verdict == "not declared"
    assert fuse.write == "`internal 50 mohm` or `limit 12 A` at supply PS"


def test_a_wire_behind_a_smaller_fuse_is_that_one_s() -> None:
    """F1 of 20 A feeds F2 of 2 A, and only F2 answers for the thin wire behind it."""
    found = sizes(
        STIFF + AROUND.replace("wire 1.5 mm2", "wire 4 mm2") + f"fuse F1 20 A\nfuse F2 3 A\n{LAMP}"
        "wire F2.2 S1.com : 0.75 mm2 0.5 m w2\nrung PS.+, F1, F2\nrung S1.on, L1, PS.-\n"
    )
    assert [one(found, name).verdict for name in ("F1", "F2", "w2")] == ["fits"] * 3


def test_a_fuse_that_current_goes_round_as_well_guards_nothing_behind_it() -> None:
    """Over the other pole of the switch: a motor held fast draws its 8 A however small the fuse."""
    text = STIFF + AROUND + "fuse F1 3 A\nswitch S1 dpst positions off on 10 A 30 V\nmotor M1 12 V stall 8 A\n"
    text += "wire M1.- PS.- : w1\nrung PS.+, F1, S1.com1-on1, M1\n"
    assert one(sizes(text), "w1").needs == pytest.approx(3)
    assert one(sizes(text + "rung PS.+, S1.com2-on2, M1.+\n"), "w1").needs == pytest.approx(8)


def test_a_fuse_carries_three_quarters_of_its_rating_for_long() -> None:
    """2 A for long need 3 A, not 2.5 A."""
    assert one(sizes(lamp(fuse="fuse F1 3 A")), "F1").verdict == "fits"
    small = one(sizes(lamp(fuse="fuse F1 2 A")), "F1")
    assert small.verdict == "too small"
    assert "3 A" in told(small)


def test_a_fuse_must_hold_for_the_time_of_a_start() -> None:
    """18 A are 180 % of 10 A: it holds 0.15 s at least; a heavy load takes longer, a light one less."""
    text = STIFF + AROUND + (
        "fuse F1 10 A\nswitch S1 spst positions off on\naxis deck from bottom to top, inertia {} kg m2\n"
        "motor M1 12 V stall 18 A 20 N m free 1 A 40 rpm drives deck toward top\nrung PS.+, F1, S1, M1, PS.-\n"
    )  # fmt: skip
    assert one(sizes(text.format("0.1")), "F1").verdict == "fits"
    slow = one(sizes(text.format("2")), "F1")
    assert slow.verdict == "too small"
    assert "holds that is 20 A" in told(slow)


def test_a_start_of_unknown_length_is_told_as_such() -> None:
    """The gate is told, and that nobody knows how long the start takes."""
    fuse = one(sizes(STIFF + AROUND + "fuse F1 10 A\nswitch S1 spst positions off on\nmotor M1 12 V stall 18 A\n"
                     "rung PS.+, F1, S1, M1, PS.-\n"), "F1")  # fmt: skip
    assert "holds 0.15 s at least" in told(fuse)
    assert "isn't told" in told(fuse)


def test_a_contact_must_make_a_cold_filament() -> None:
    """2 A warm are 20 A cold (Omron load types): 5 A are too few."""
    contact = one(sizes(lamp()), "S1.com-on")
    assert contact.needs == pytest.approx(20)
    assert contact.verdict == "too small"


def test_from_24_volts_up_a_contact_that_breaks_a_coil_counts_for_half() -> None:
    """24 V and 0.5 A of a solenoid ask for 1 A; at 12 V half an ampere does."""
    text = (
        "supply PS {} V 5 A\nfuse F1 2 A\nbutton PB1 no {} 30 V\nsolenoid Y1 {} V 0.5 A\nrung PS.+, F1, PB1, Y1, PS.-\n"
    )
    assert one(sizes(text.format(24, "0.8 A", 24)), "PB1.13-14").verdict == "too small"
    assert one(sizes(text.format(12, "0.8 A", 12)), "PB1.13-14").verdict == "fits"


def test_a_contact_must_stand_the_volts() -> None:
    """30 A at 14 V are not for 24 V."""
    text = "supply PS 24 V 5 A\nfuse F1 2 A\nbutton PB1 no 30 A 14 V\nlamp L1 24 V 6 W\nrung PS.+, F1, PB1, L1, PS.-\n"
    contact = one(sizes(text), "PB1.13-14")
    assert contact.verdict == "too small"
    assert "It is rated 14 V and needs 24 V." in contact.remarks


def test_a_contact_without_a_rating_is_asked_for_one_that_would_do() -> None:
    """The next rating that contacts are sold for, in the plan's own words."""
    contact = one(sizes(lamp().replace(" 5 A 30 V", "")), "S1.com-on")
    assert (contact.verdict, contact.write) == ("not declared", "`20 A 30 V` at switch S1")


def test_a_braked_motor_s_current_goes_through_the_resting_contact() -> None:
    """K1.11-12 carries nothing while the motor runs, and 9 A for a moment when it is shorted on itself."""
    found = sizes(
        STIFF + AROUND + "fuse F1 5 A\nbutton PB1 no 1 A 30 V\nrelay K1 spdt coil 12 V 160 ohm contacts 8 A 30 V\n"
        "motor M1 12 V stall 9 A\nrung PS.+, F1, PB1, K1.A1-A2, PS.-\nrung F1.2, K1.14\nrung K1.11, M1, PS.-\n"
        "rung K1.12, PS.-\n"
    )
    contacts = one(found, "K1.11-12")
    assert contacts.needs == pytest.approx(9)
    assert contacts.verdict == "too small"
    assert contacts.currents.running.amount == 0


@pytest.mark.parametrize(
    ("rated", "verdict"), [("1 A 400 V", "fits"), ("0.05 A 400 V", "too small"), ("1 A 30 V", "too small")]
)
def test_a_diode_across_a_coil_takes_its_current_and_blocks_the_volts(rated: str, verdict: str) -> None:
    """75 mA, and three times 12 V reverse."""
    found = sizes(
        f"{STIFF}{AROUND}fuse F1 1 A\nbutton PB1 no\nrelay K1 spdt coil 12 V 160 ohm\ndiode D1 {rated}\n"
        "rung PS.+, F1, PB1, K1.A1-A2, PS.-\nwire D1.cathode K1.A1\nwire D1.anode K1.A2\n"
    )
    diode = one(found, "D1")
    assert (diode.kind, diode.verdict) == ("suppressor", verdict)


def test_a_supply_must_give_what_runs_and_is_told_what_its_relays_hold() -> None:
    """Two coils of 75 mA."""
    text = "supply PS 12 V {}\nfuse F1 1 A\nrelay K1 K2 spdt coil 12 V 160 ohm with diode\n"
    text += "switch S1 spst positions off on\nrung PS.+, F1, S1, K1.A1-A2, PS.-\nrung S1.on, K2.A1-A2, PS.-\n"
    assert one(sizes(text.format("0.1 A")), "PS").verdict == "too small"
    plenty = one(sizes(text.format("1 A")), "PS")
    assert plenty.verdict == "fits"
    assert "The relays held at once take 0.15 A of it." in plenty.remarks
    assert one(sizes(text.format("")), "PS").write == "its amps, like `supply PS 12 V 10 A`"


def test_a_resistor_must_stand_its_heat() -> None:
    """12 V across 10 ohm are 14.4 W."""
    text = STIFF + AROUND + "fuse F1 5 A\nbutton PB1 no\nresistor R1 10 ohm {}\nrung PS.+, F1, PB1, R1, PS.-\n"
    resistor = one(sizes(text.format("5 W")), "R1")
    assert resistor.needs == pytest.approx(14.4)
    assert resistor.verdict == "too small"
    assert one(sizes(text.format("")), "R1").write == "`10 ohm 50 W` at resistor R1"


def test_the_drop_to_a_motor_is_that_of_its_wires_at_their_hottest() -> None:
    """4 m of 1.5 mm2 (IEC 60228: 13.3 ohm/km) at 105 °C, 0.393 % a kelvin (IEC 60028), and 20 milliohm of the supply:
    90.9 milliohm, 2 A of 12 V running; stalled 90.9 against the motor's 1500."""
    found = sizes(
        STIFF + AROUND.replace("0.5 m", "1 m") + "fuse F1 5 A\nbutton PB1 no\nmotor M1 12 V stall 8 A\n"
        "rung PS.+, F1, PB1, M1, PS.-\n"
    )
    ohms = 0.0133 * 4 * (1 + 0.00393 * 85) + 0.02
    assert one(found, "M1").needs == pytest.approx(100 * 2 * ohms / 12)
    assert f"Stalled it is {100 * ohms / (ohms + 1.5):.2g} %" in told(one(found, "M1"))


def test_a_gauge_that_no_table_has_gets_no_verdict() -> None:
    """The next sizes are named; nothing is guessed."""
    wire = one(sizes(lamp(wire="1.3 mm2")), "w2")
    assert (wire.verdict, wire.can) == ("not declared", None)
    assert "No table has a wire of 1.3 mm². The next size is 1.5 mm² or 16 AWG." in wire.remarks


def test_a_wire_that_says_nothing_is_asked_for_its_gauge() -> None:
    """Missing figures alone are no failure."""
    found = sizes(lamp(conditions="").replace("on 5 A 30 V", "on 25 A 30 V"))
    assert one(found, "w2").write.startswith("its gauge")
    assert found.fits
    assert {assumed.part for assumed in found.assumptions} == {"conditions", "L1"}


def test_a_place_as_hot_as_the_insulation_stands_leaves_no_current() -> None:
    """70 °C around PVC."""
    hot = "conditions ambient 70 °C, bundled 2 wires, wire 1.5 mm2 0.5 m\n"
    wire = one(sizes(lamp(conditions=hot)), "w2")
    assert (wire.can, wire.verdict) == (0, "too small")


def test_a_bundle_that_no_table_has_gets_no_verdict() -> None:
    """33 CFR 183.425 ends at 24 wires."""
    wire = one(sizes(lamp(conditions=AROUND.replace("bundled 2", "bundled 30"))), "w2")
    assert wire.verdict == "not declared"
    assert "No table has a factor for 30 wires in one bundle" in told(wire)


def test_a_plan_that_shorts_its_supply_never_fits() -> None:
    """What flows through the button's short is in no figure, so nothing may be told as if all were well."""
    plan = lamp().replace("on 5 A 30 V", "on 25 A 30 V")
    assert sizes(plan).fits
    shorting = sizes(plan + "button PB1 no\nrung F1.2, PB1, PS.-\n")
    assert shorting.shorts
    assert not shorting.fits


def test_a_supply_that_feeds_nothing_has_no_verdict() -> None:
    """Neither that it fits nor that its amps are missing."""
    assert one(sizes("supply PS 12 V\n"), "PS").verdict == "no current"


def test_insulation_that_stands_no_more_than_the_place_is_what_must_change() -> None:
    """At 70 °C the tables leave a wire for 70 °C nothing, whatever its size."""
    found = sizes(lamp(conditions="conditions ambient 70 °C, insulation 70 °C, bundled 2 wires, wire 1 mm2 0.5 m\n"))
    assert "take insulation that stands more" in told(one(found, "w2"))
    assert "No fuse of its kind is small enough" not in told(one(found, "F1"))


def test_a_fuse_that_neither_holds_the_start_nor_saves_its_wires_asks_for_thicker_ones() -> None:
    """18 A for a long start through 15 A: a smaller one, which would save 1.5 mm2, would hold it even less."""
    found = sizes(
        STIFF + AROUND + "fuse F1 10 A\nswitch S1 spst positions off on\naxis deck from bottom to top, 90 deg, "
        "inertia 20 kg m2\nmotor M1 12 V stall 18 A 20 N m free 1.5 A 40 rpm drives deck toward top may coast\n"
        "wire F1.2 S1.com : 0.75 mm2 w2\nrung PS.+, F1\nrung S1.on, M1, PS.-\n"
    )
    assert one(found, "F1").verdict == "too large"
    assert "would not hold: take thicker wires" in told(one(found, "F1"))
    assert "protects them and carries what runs" not in told(one(found, "F1"))


def test_a_wire_that_only_a_brake_uses_is_told_what_flows_for_a_moment() -> None:
    """A size is proposed for the current of the brake, which lasts for a moment, not for 0 A."""
    found = sizes(
        "supply PS 12 V 20 A\nfuse F1 15 A\nswitch S1 spdt positions drive brake\nmotor M1 12 V stall 18 A\n"
        "wire S1.brake PS.- : w3\nrung PS.+, F1, S1.drive\nrung S1.com, M1, PS.-\n"
    )
    assert "For 18 A that flow for a moment only take 0.34 mm² or 22 AWG" in told(one(found, "w3"))


def test_a_common_wire_back_counts_with_what_each_load_s_own_fuse_lets_through() -> None:
    """One of two motors that stall at 18 A is held fast: 10 A flow through its fuse for long, and 4.5 A run beside."""
    found = sizes(
        STIFF + AROUND + "fuse F1 F2 10 A\nmotor M1 M2 12 V stall 18 A may coast\nsplice N1\nwire N1 PS.- : w5\n"
        "rung PS.+, F1, M1, N1\nrung PS.+, F2, M2, N1\n"
    )
    assert one(found, "w5").currents.stalled.amount == pytest.approx(22.5)
    assert one(found, "w5").needs == pytest.approx(14.5)
