"""Relay coils at temperature, against the makers' own examples.

Sources: babcockinc.com/babcock/relay.news.html (320 ohm, 13 V); schrackrelays.com/kilovac/appnotes/voltages.asp (16 V
at 25 °C); te.com "Temperature considerations for DC relays" (90 ohm, 6.5 V at 20 °C; what its copy cuts off is worked
out from its own rule); leachcorp.com note 102 (a chart, which differs by 0.4 %).
"""

import pytest

from circuitcheck.analysis.copper import copper_factor
from circuitcheck.analysis.warm_coils import starved_coils
from circuitcheck.checks import starved_coil
from circuitcheck.checks.check import Evidence
from tests.reference.asking import facts_of


@pytest.mark.parametrize(
    ("cold", "base", "celsius", "published", "slack"),
    [
        (320, 25, 125, 443.3, 0.1),
        (13, 25, 125, 18, 0.05),
        (16, 25, 85, 19.7, 0.05),
        (16, 25, 100, 20.6, 0.05),
        (16, 25, -25, 12.9, 0.05),
        (90, 20, 85, 113, 0.05),
        (6.5, 20, 85, 8.16, 0.01),
        (290, 25, 125, 403.3, 0.004 * 403.3),
    ],
)
def test_ohms_and_volts_at_temperature(
    cold: float, base: float, celsius: float, published: float, slack: float
) -> None:
    """Resistance and operate volts rise alike, with copper."""
    assert cold * copper_factor(celsius, base) == pytest.approx(published, abs=slack)


def starved(ambient: int) -> list[Evidence]:
    """What the check finds of a relay that picks up at 16 V at 25 °C, on 20 V, at an ambient."""
    at_20 = 16 / copper_factor(25)
    plan = f"""
        conditions ambient 0..{ambient} °C
        supply PS 20 V 5 A
        button PB1 no
        relay  K1 no coil 26.5 V 700 ohm operate {at_20:.3f} V with diode
        lamp   L1 24 V 2 W
        rung   PS.+, PB1, K1.A1-A2, PS.-
        rung   PS.+, K1.13-14, L1, PS.-
    """
    return list(starved_coil.find(facts_of(plan)))


def test_a_twenty_volt_supply_works_at_85_degrees_and_fails_at_100() -> None:
    """The maker's own conclusion."""
    assert not starved(85)
    (found,) = starved(100)
    assert found.what.startswith("K1 does not get the 20.6 V that it needs at 100 °C: 20 V are left")


def test_a_plan_that_tells_no_figures_has_no_starved_coil() -> None:
    """Nothing is guessed: no ambient, no lengths, no resistances."""
    assert not list(
        starved_coil.find(
            facts_of("""
                supply PS 12 V 5 A
                button PB1 no
                relay  K1 no coil 12 V 160 ohm operate 11.9 V with diode
                lamp   L1 12 V 2 W
                rung   PS.+, PB1, K1.A1-A2, PS.-
                rung   PS.+, K1.13-14, L1, PS.-
            """)
        )
    )


def test_what_another_load_draws_lowers_the_volts_in_the_wire_that_both_share() -> None:
    """Ohm's law: the lamp's current through the common wire is what the coil gets less."""
    (found,) = starved_coils(
        facts_of("""
            supply PS 12 V 5 A
            button PB1 no
            relay  K1 no coil 12 V 160 ohm operate 11.9 V with diode
            lamp   L1 12 V 24 W
            wire   PS.+ PB1.13 : 0.5 mm2 4 m
            rung   PB1.14, K1.A1-A2, PS.-
            rung   PB1.14, L1, PS.-
        """),
        20.0,
    )
    ohms = 4 * 0.0175 / 0.5
    assert found.alone == pytest.approx(12 - ohms * 12 / 160, abs=0.01)
    assert found.volts == pytest.approx(found.alone - ohms * 2, abs=0.05)
