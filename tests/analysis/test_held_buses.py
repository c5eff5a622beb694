"""Which buses stand at a rail or carry nothing at all, on plans small enough to tell it by hand."""

from typing import NoReturn

import pytest

from circuitcheck.analysis import facts
from circuitcheck.analysis.conduction import Conduction
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.held_buses import find_held_buses
from circuitcheck.analysis.influence import digits_of
from circuitcheck.analysis.states import TooWide
from tests.analysis.plans import circuit_of
from tests.analysis.test_buses import BOX

SECOND = """
splice BUS2
switch S4 S5 S6 spst positions off on
lamp L4 L5 12 V 2 W
rung BUS2, S5.com-on, L4, PS.-
rung BUS2, S6.com-on, L5, PS.-
"""


@pytest.fixture(autouse=True)
def _finely(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every piece is cut, which else only wide ones are."""
    monkeypatch.setattr(facts, "NARROW", 1)


def held(found: Facts) -> dict[str, dict[str, set[str]]]:
    """By rail the buses that it ever holds, with the digits on which that depends."""
    nets = found.conduction.network.nets
    names = {nets[terminal]: terminal for terminal in ("PS.+", "PS.-", *(one for one in nets if "BUS" in one))}
    digits = found.circuit.digits
    return {
        names[rail]: {
            names[one.net].split(".")[0]: {digits[digit].name for digit in digits_of(one.held.tight())}
            for one in row
            if one.net != rail
        }
        for rail, row in found.regions.buses.at.items()
    }


@pytest.mark.parametrize(
    ("more", "at_plus", "at_minus"),
    [
        ("", {"BUS": {"ES"}}, {}),
        (SECOND + "rung BUS, S4.com-on, BUS2\n", {"BUS": {"ES"}, "BUS2": {"ES", "S4"}}, {}),
        (SECOND + "lamp L6 12 V 2 W\nrung BUS, L6, BUS2\n", {"BUS": {"ES"}}, {}),
        (SECOND + "diode D1\nrung BUS, D1, BUS2\n", {"BUS": {"ES"}}, {}),
        (SECOND + "rung PS.-, S4.com-on, BUS2\n", {"BUS": {"ES"}}, {"BUS2": {"S4"}}),
        (SECOND + "rung BUS, S4.com-on, BUS2\nlamp L6 12 V 2 W\nrung PS.+, L6, BUS\n", {}, {}),
    ],
    ids=["one", "one behind the other", "over a lamp", "over a diode", "at minus", "a lamp past the stop"],
)
def test_a_bus_is_held_where_contacts_alone_bring_current_to_it(
    more: str, at_plus: dict[str, set[str]], at_minus: dict[str, set[str]]
) -> None:
    """Where a load or a diode may do so as well it floats, and what hangs on it alone does so too."""
    found = analyse(circuit_of(BOX + more))
    assert held(found) == {"PS.+": at_plus, "PS.-": at_minus}
    assert len(found.regions.buses.nets) == len(at_plus) + len(at_minus)


def test_a_bus_behind_which_there_is_more_than_can_be_counted_is_not_taken_as_held(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its branches are one question then."""
    found = analyse(circuit_of(BOX))

    def too_wide(*_: object) -> NoReturn:
        raise TooWide((0, 1), 4)

    monkeypatch.setattr(Conduction, "joins_directly", too_wide)
    assert not find_held_buses(found.circuit, found.conduction, found.differences).nets
