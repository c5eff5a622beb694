"""Parts that have no namesake: which of the other plan's are taken for them, and which aren't."""

from circuitcheck.analysis.matching import match_parts, match_words
from tests.analysis.plans import circuit_of
from tests.analysis.test_matching import CURTAIN

TWO_AXES = """
supply PS 12 V 10 A
axis   deck from low to high
axis   jaw from low to high
"""
ON_AXES = {
    "limits": "limit LS1 nc on deck at low\nlimit LS2 nc on jaw at low\n",
    "motors": "motor M1 12 V stall 5 A drives deck toward low\nmotor M2 12 V stall 5 A drives jaw toward low\n",
}
WIRED_AS_K1 = "relay K3 dpdt coil 12 V 160 ohm with diode\nrung S1.open, LS2.com-nc, K3.A1-A2, PS.-\n"
SPARE = "relay {} dpdt coil 5 V 50 ohm\n"


def without_namesakes(before: str, after: str) -> dict[str, str]:
    """The matches between parts of different names."""
    return {old: new for old, new in match_parts(circuit_of(before), circuit_of(after)).items() if old != new}


def test_words_that_stay_are_themselves_and_the_others_follow_in_order() -> None:
    """As long as there are as many of them; else none of the others is matched."""
    assert match_words(("raise", "off", "lower"), ("off", "up", "down")) == {
        "raise": "up",
        "off": "off",
        "lower": "down",
    }
    assert match_words(("raise", "off", "lower"), ("off", "up")) == {"off": "off"}
    assert match_words(("raise", "lower"), ("lower", "raise")) == {"raise": "raise", "lower": "lower"}


def test_a_namesake_of_another_kind_is_another_part() -> None:
    """But an emergency stop is a button, and a cam a limit."""
    before = "supply PS 12 V 1 A\nbutton B1 nc\naxis wheel turning through park half\nlimit C1 nc on wheel at park\n"
    circuit = circuit_of(before)
    assert match_parts(circuit, circuit_of(before.replace("button B1 nc", "lamp B1 12 V 2 W"))).get("B1") is None
    alike = before.replace("button B1", "estop B1").replace("limit C1", "cam C1")
    assert match_parts(circuit, circuit_of(alike)) == {name: name for name in circuit.parts}


def test_axes_under_other_names_in_another_order_are_known_by_what_is_on_them() -> None:
    """By limits alone, and by motors alone."""
    for on_axes in ON_AXES.values():
        before = TWO_AXES + on_axes
        after = before.replace("axis   deck from low to high\n", "")
        after = after.replace("high\n", "high\naxis   bridge from low to high\n", 1)
        after = after.replace("deck", "bridge").replace("jaw", "mouth")
        assert without_namesakes(before, after) == {"deck": "bridge", "jaw": "mouth"}


def test_equal_parts_that_nothing_tells_apart_are_taken_in_order() -> None:
    """Where there are as many of them on either side; else none is."""
    two, others = CURTAIN + SPARE.format("K8 K9"), CURTAIN + SPARE.format("KA KB")
    assert without_namesakes(two, others) == {"K8": "KA", "K9": "KB"}
    assert without_namesakes(two, CURTAIN + SPARE.format("KA")) == {}


def test_a_part_that_has_its_namesake_is_not_taken_for_one_wired_alike() -> None:
    """A relay was put beside K1 while a lamp went away."""
    assert without_namesakes(CURTAIN + "lamp L1 12 V 2 W\n", CURTAIN + WIRED_AS_K1) == {}
    in_its_place = CURTAIN.replace("K1", "K3") + "relay K1 dpdt coil 12 V 160 ohm with diode\n"
    assert without_namesakes(CURTAIN + "lamp L1 12 V 2 W\n", in_its_place) == {}


def test_a_part_with_half_of_its_terminals_where_they_were_is_another_one() -> None:
    """Terminals that lie on nothing known don't count on either side."""
    before = CURTAIN + "relay K8 spdt coil 12 V 160 ohm\nrung S1.open, K8.A1-A2, PS.-\n"
    after = CURTAIN + "relay K9 spdt coil 12 V 160 ohm\nrung K1.24, K9.A1-A2, PS.-\n"
    assert without_namesakes(before, after) == {}


def test_a_part_with_most_of_its_wires_gone_is_another_one() -> None:
    """What is left of them lies where it lay."""
    before = CURTAIN + "relay K8 spdt coil 12 V 160 ohm\nrung S1.open, K8.A1-A2, PS.-\nwire K8.11 F1.2\n"
    assert without_namesakes(before, CURTAIN + "relay K9 spdt coil 12 V 160 ohm\nwire K9.A2 PS.-\n") == {}


def test_of_two_that_could_be_a_part_the_one_with_more_wires_where_they_were_is() -> None:
    """Whichever stands first in the plan."""
    wires = "wire {0}.A1 S1.open\nwire {0}.A2 PS.-\nwire {0}.11 {1}\nwire {0}.12 {2}\nwire {0}.14 {3}\n"
    before = CURTAIN + "relay K7 spdt coil 12 V 160 ohm\n" + wires.format("K7", "F1.2", "K1.24", "K2.24")
    less = wires.format("K8", "F1.2", "K1.22", "K2.22")
    more = wires.format("K9", "F1.2", "K1.24", "K2.22")
    for both in (less + more, more + less):
        assert without_namesakes(before, CURTAIN + "relay K8 K9 spdt coil 12 V 160 ohm\n" + both) == {"K7": "K9"}
    swapped = (less + more).replace("K8", "K0").replace("K9", "K8").replace("K0", "K9")
    assert without_namesakes(before, CURTAIN + "relay K8 K9 spdt coil 12 V 160 ohm\n" + swapped) == {"K7": "K8"}
