"""The faults that are supposed, held against the published lists: each row is supposed, or left out for a reason.

Source: ISO 13849-2 annex D, its tables of faults and fault exclusions for conductors, terminals, connectors, switches,
relays and discrete parts, from memory; that wires in an enclosure or a duct may be left out also stands in a safety
relay's manual (Schmersal PSC1 p. 160). "Never" means that the list has no reason for leaving the fault out.
"""

import pytest

from circuitcheck.analysis.faults.published import LEFT_OUT, SUPPOSED

NEVER = (
    "wire open",
    "pin open",
    "contact does not close",
    "relay stuck operated",
    "relay stuck released",
    "coil open",
    "diode open",
    "diode shorted",
)
"""A wire, a pin or a coil breaks; a contact doesn't close; an armature sticks; a diode fails either way."""

WITH_A_REASON = {
    "wire to frame": "enclosure",
    "terminals touching": "spacing",
    "pins touching": "spacing",
    "contact does not open": "direct opening",
    "both throws closed": "forcibly guided",
    "coil shorted": "single-layer or potted",
    "load shorted": "film or single-layer",
}
"""Supposed here, since a plan doesn't tell; a builder may leave them out for this reason."""

LEFT_OUT_HERE = {
    "a short between wires": "enclosure",
    "plugged into the wrong place": "keyed",
    "all three of a changeover joined": "insulation",
    "a short between separate contacts": "insulation",
    "a contact that does not open": "direct opening",
}
"""Left out here, for this reason."""


@pytest.mark.parametrize("kind", NEVER)
def test_what_may_never_be_left_out_is_supposed(kind: str) -> None:
    """And no reason is offered for leaving it out."""
    (row,) = [row for row in SUPPOSED if row.kind == kind]
    assert row.leave_out_when == ""


@pytest.mark.parametrize(("kind", "reason"), WITH_A_REASON.items())
def test_what_may_be_left_out_is_supposed_with_the_reason_beside_it(kind: str, reason: str) -> None:
    """A builder who knows better can say so."""
    (row,) = [row for row in SUPPOSED if row.kind == kind]
    assert reason in row.leave_out_when


@pytest.mark.parametrize(("what", "reason"), LEFT_OUT_HERE.items())
def test_what_is_left_out_has_the_reason_of_the_list(what: str, reason: str) -> None:
    """Nothing is dropped in silence."""
    rows = [row for row in LEFT_OUT if row.what.startswith(what)]
    assert rows
    assert all(reason in row.why for row in rows)


def test_every_row_names_its_source() -> None:
    """The standard, or that it is the trade's own."""
    assert all(row.source for row in (*SUPPOSED, *LEFT_OUT))
