"""The fewest tests of small contact networks, against what is known of them.

Of a network of contacts that is only looked at from its two ends, every open contact needs a path on which it lies and
beside which nothing is closed, every welded one a cut on which it lies and beside which nothing is open ("a-tests" and
"b-tests": I. and Z. Kohavi, Detection of multiple faults in combinational logic networks, IEEE Transactions on
Computers C-21, 1972; the networks and their counts are worked out from that, both from memory).
"""

from textwrap import dedent

import pytest

from circuitcheck.analysis.bench.candidates import Boxes, without_power
from circuitcheck.analysis.bench.covering import Cover, least_cover
from circuitcheck.analysis.bench.settings import OFF, settings_of
from circuitcheck.analysis.faults.listing import single_faults
from circuitcheck.circuit.building import build_circuit
from circuitcheck.plan.reading import read_text

BRIDGE = """
    splice IN OUT TOP FOOT
    rung IN, A, TOP, C, OUT
    rung IN, B, FOOT, D, OUT
    rung TOP, E, FOOT
"""
NETWORKS = {
    "three in series": ("A B C", "rung IN, A, B, C, OUT", 4),
    "three side by side": ("A B C", "rung IN, ( A | B | C ), OUT", 4),
    "two pairs in series": ("A B C D", "rung IN, ( A | B ), ( C | D ), OUT", 4),
    "a bridge of five": ("A B C D E", BRIDGE, 4),
}
"""Contacts, wiring, and how many tests there must be: paths and cuts."""


def cover_from_outside(contacts: str, wiring: str) -> Cover:
    """The least cover of all open and welded contacts by readings between IN and OUT."""
    ends = "" if "splice" in wiring else "splice IN OUT\n"
    plan = f"{ends}{''.join(f'button {name} no{chr(10)}' for name in contacts.split())}{dedent(wiring)}\n"
    circuit = build_circuit(read_text("network.plan", plan))
    faults = [one for one in single_faults(circuit) if one.kind in ("contact does not open", "contact does not close")]
    boxes = Boxes(circuit, faults)
    boxes.terminals = ("IN", "OUT")
    found = without_power(boxes, settings_of(circuit, OFF))
    assert all(any(one.shows >> number & 1 for one in found) for number in range(len(faults)))
    return least_cover([one.shows for one in found])


@pytest.mark.parametrize("name", NETWORKS)
def test_a_contact_network_needs_as_many_tests_as_the_textbook_says(name: str) -> None:
    """One path for each that no other path makes up for, one cut likewise; and it is proved that fewer won't do."""
    contacts, wiring, count = NETWORKS[name]
    cover = cover_from_outside(contacts, wiring)
    assert (len(cover.chosen), cover.at_least) == (count, count)
