"""Contacts as logic, and a lamp from many places.

Sources: contacts as logic: Lessons in Electric Circuits (T. Kuphaldt), vol. IV ch. 6, Digital/src/ladder.sml. Lamp from
many places: Mathematical Gazette, "Parity lights"; Epp, Discrete Mathematics, ex. 2.4.24; piglix.com
Multiway_switching.
"""

from collections.abc import Callable
from itertools import product

import pytest

from tests.reference.asking import facts_of, is_lit

HEAD = """
supply PS 12 V 10 A
fuse F1 5 A
lamp L1 12 V 2 W
rung PS.+, F1
button A {a}
button B {b}
"""

GATES: dict[str, tuple[str, str, str, Callable[[bool, bool], bool]]] = {
    "OR": ("no", "no", "rung F1.2, ( A | B ), L1, PS.-", lambda a, b: a or b),
    "AND": ("no", "no", "rung F1.2, A, B, L1, PS.-", lambda a, b: a and b),
    "NAND": ("nc", "nc", "rung F1.2, ( A | B ), L1, PS.-", lambda a, b: not (a and b)),
    "NOR": ("nc", "nc", "rung F1.2, A, B, L1, PS.-", lambda a, b: not (a or b)),
    "XOR": (
        "nc no",
        "no nc",
        "rung F1.2, ( A.11-12, B.13-14 | A.23-24, B.21-22 ), L1, PS.-",
        lambda a, b: a != b,
    ),
}


@pytest.mark.parametrize("gate", GATES)
def test_contacts_in_series_and_in_parallel_are_gates(gate: str) -> None:
    """The lamp is lit in exactly the rows of the gate's truth table."""
    a_form, b_form, rung, truth = GATES[gate]
    facts = facts_of(HEAD.format(a=a_form, b=b_form) + rung)
    for a, b in product((False, True), repeat=2):
        words = {"A": "pressed" if a else "released", "B": "pressed" if b else "released"}
        assert is_lit(facts, "L1", **words) == truth(a, b), words


def test_a_normally_closed_contact_inverts() -> None:
    """NOT: lit while the button is released; a relay's NC contact inverts whatever drives its coil."""
    facts = facts_of("""
        supply PS 12 V 10 A
        fuse F1 5 A
        button A nc no
        relay K1 nc coil 12 V 160 ohm with diode
        lamp L1 L2 12 V 2 W
        wire PS.+ F1.1
        rung F1.2, A.11-12, L1, PS.-
        rung F1.2, A.23-24, K1.A1-A2, PS.-
        rung F1.2, K1.11-12, L2, PS.-
    """)
    assert is_lit(facts, "L1", A="released")
    assert not is_lit(facts, "L1", A="pressed")
    assert is_lit(facts, "L2", K1="released")
    assert not is_lit(facts, "L2", K1="operated")


def stairway(places: int) -> str:
    """A lamp switched from so many places: SPDT at both ends, crossing DPDT between."""
    crossing = [f"S{number}" for number in range(2, places)]
    lines = ["supply PS 12 V 10 A", "fuse F1 5 A", "lamp L1 12 V 2 W", "wire PS.+ F1.1"]
    lines += [f"switch S1 S{places} spdt positions down up", "wire F1.2 S1.com"]
    before = ("S1.down", "S1.up")
    for name in crossing:
        lines += [
            f"switch {name} dpdt positions down up",
            f"wire {before[0]} {name}.com1",
            f"wire {before[1]} {name}.com2",
        ]
        lines += [f"wire {name}.down1 {name}.up2", f"wire {name}.down2 {name}.up1"]
        before = (f"{name}.down1", f"{name}.down2")
    lines += [f"wire {before[0]} S{places}.down", f"wire {before[1]} S{places}.up", f"rung S{places}.com, L1, PS.-"]
    return "\n".join(lines)


@pytest.mark.parametrize("places", [2, 3, 4])
def test_a_lamp_from_many_places_is_the_parity_of_all_positions(places: int) -> None:
    """Lit in exactly half of the states; whichever switch is flipped, from every state, changes the lamp."""
    facts = facts_of(stairway(places))
    lit = {}
    for flips in product((0, 1), repeat=places):
        words = {f"S{number}": ("down", "up")[flip] for number, flip in enumerate(flips, 1)}
        lit[flips] = is_lit(facts, "L1", **words)
    assert sum(lit.values()) == 2 ** (places - 1)
    assert all(lit[flips] == (sum(flips) % 2 == 0) for flips in lit)
