"""What counts as suppression straight across a coil, and what is said of what doesn't."""

import pytest

from tests.checks.test_what_findings_tell import found

COIL = """
supply PS 12 V 10 A
fuse   F1 5 A
switch S1 dpdt positions raise off lower
relay  K1 no coil 12 V 160 ohm
lamp   L1 12 V 2 W
suppressor R1 R2 resistor {ohms} ohm
suppressor D1 diode
suppressor V1 varistor 24 V
connector X1 1 way
splice N1 N2
rung   PS.+, F1, ( S1.raise1 | S1.lower2 )
rung   PS.-, ( S1.raise2 | S1.lower1 )
rung   S1.com1, L1, S1.com2
wire   K1.A1 N1
wire   K1.A2 N2
"""
ONE_WAY = "rung F1.2, N1\nrung N2, PS.-\n"
WEAK = "R1 across K1 has more than 20 times its ohms, too many to take its spike"
BOTH_WAYS = "wire S1.com1 N1\nwire S1.com2 N2\n"
AWAY = "D1 stands across K1 the wrong way round: it conducts while K1 is fed with PS on"
TWO = "D1 stands across K1 one way only, but K1 is fed with both polarities: D1 conducts with PS on, S1 {}"


def told(more: str, ohms: int = 3200) -> list[str]:
    """What is found at the coil."""
    return [one.what for one in found("missing-flyback", COIL.format(ohms=ohms) + more)]


@pytest.mark.parametrize(
    ("across", "ohms", "says"),
    [
        ("rung N1, V1, N2\n", 1, []),
        ("rung N2, R1, N1\n", 3200, []),
        ("rung N1, R1, N2\nrung N1, R2, N2\n", 3201, [WEAK]),
        ("rung N1, V1, X1, N2\n", 1, ["K1 has no diode or other suppressor straight across it"]),
        ("rung N2, D1.anode-cathode, N1\n", 1, []),
        ("rung N1, D1.anode-cathode, N2\n", 1, [AWAY]),
    ],
)  # fmt: skip
def test_a_coil_is_suppressed_by_what_wires_alone_join_to_both_its_ends(
    across: str, ohms: int, says: list[str]
) -> None:
    """Over a connector it doesn't count; a diode counts with its cathode at plus, a resistor up to twenty times."""
    assert told(ONE_WAY + across, ohms) == says


def test_a_coil_that_is_fed_from_its_second_end_has_its_diode_the_other_way_round() -> None:
    """Whatever the ends are called."""
    turned = "rung F1.2, N2\nrung N1, PS.-\n"
    assert told(turned + "rung N2, D1.anode-cathode, N1\n") == [AWAY]
    assert told(turned + "rung N1, D1.anode-cathode, N2\n") == []


@pytest.mark.parametrize(
    ("ends", "position"), [("N1, D1.anode-cathode, N2", "raise"), ("N2, D1.anode-cathode, N1", "lower")]
)
def test_no_diode_suits_a_coil_that_is_fed_both_ways(ends: str, position: str) -> None:
    """It conducts in one of the two."""
    assert told(f"{BOTH_WAYS}rung {ends}\n") == [TWO.format(position)]


def test_a_bare_coil_is_told_with_the_states_in_which_it_is_fed_if_it_ever_is() -> None:
    """Not one without any, nor one whose ends a wire joins, across which nothing counts."""
    (fed,) = found("missing-flyback", COIL.format(ohms=1) + ONE_WAY)
    assert fed.example == {"PS": "on"}
    assert fed.parts == ("K1",)
    (loose,) = found("missing-flyback", COIL.format(ohms=1))
    assert loose.example == {}
    shorted = "rung N2, N1\nrung N2, PS.-\nwire V1.1 N1\nwire V1.2 N1\n"
    (joined,) = found("missing-flyback", COIL.format(ohms=1) + shorted)
    assert joined.what == "K1 has no diode or other suppressor straight across it"
