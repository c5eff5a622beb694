"""What has to be bought, and what the lid says of fuses."""

from pathlib import Path

import pytest

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.paper.fuse_card import FuseLine, fuse_card
from circuitcheck.paper.part_words import part_words
from circuitcheck.paper.parts_list import parts_list
from circuitcheck.plan.reading import read_plan, read_text
from circuitcheck.reports.book_words import fuse_verdict, replacement_words
from circuitcheck.sizing.sizing import Sizing, size_circuit

EXAMPLES = Path(__file__).parents[2] / "examples"
LANTERN = """
supply PS 12 V 10 A internal 50 mohm
fuse   F1 {rating}
switch S1 S2 spst positions off on
lamp   L1 L2 12 V 24 W
rung   PS.+, F1, S1, L1, PS.-
rung   F1.2, S2, L2, PS.-
conditions wire {gauge} 0.3 m
"""


def lantern(rating: str, gauge: str = "0.5 mm2") -> Facts:
    """The lantern behind a fuse."""
    return analyse(build_circuit(read_text("lantern.plan", LANTERN.format(rating=rating, gauge=gauge))))


def sized(rating: str, gauge: str = "0.5 mm2") -> Sizing:
    """Its sizes."""
    return size_circuit(lantern(rating, gauge))


def line(rating: str, gauge: str = "0.5 mm2") -> FuseLine:
    """What is told of its fuse."""
    return fuse_card(facts := lantern(rating, gauge), size_circuit(facts))[0]


@pytest.mark.parametrize(
    ("described", "words"),
    [
        ("relay X dpdt coil 12 V 160 ohm with diode", "relay, changeover, 2 poles, coil 12 V 160 ohm, with diode"),
        ("relay X no nc coil 24 V on-delay 3 s", "relay, 1 make contact, 1 break contact, coil 24 V, on-delay 3 s"),
        ("switch X spdt momentary positions up off down",
         "switch, 1 pole, 3 positions (up, off, down), springs back to off"),
        ("switch X 2 poles 3 ways positions off a b c 3 A", "switch, rotary, 2 poles, 4 positions (off, a, b, c), 3 A"),
        ("estop X nc", "emergency stop button, 1 break contact, stays pressed until it is reset"),
        ("fuse X 5 A cartridge slow", "fuse, cartridge, slow, 5 A"),
        ("suppressor X resistor 680 ohm", "suppressor, resistor, 680 ohm"),
        ("connector X 6 ways 16 A", "plug and socket, 6 ways, 16 A"),
    ],
)  # fmt: skip
def test_a_part_is_told_as_one_would_ask_for_it(described: str, words: str) -> None:
    """Kind, form, ratings; neither a name nor a brand."""
    circuit = build_circuit(read_text("part.plan", f"supply PS 12 V\n{described}\n"))
    assert part_words(circuit, circuit.parts["X"]) == words


def test_parts_that_are_alike_are_counted_up_and_told_what_they_must_carry() -> None:
    """Two switches of which the plan gives no rating; 2 A run, and a cold filament takes ten times that."""
    sizing = sized("5 A")
    switches = next(item for item in parts_list(sizing.circuit, sizing) if item.what.startswith("switch"))
    assert (switches.names, round(switches.must_carry)) == (("S1", "S2"), 20)


def test_a_fuse_is_replaced_by_nothing_but_its_like() -> None:
    """What the plan says nothing of is taken for a blade."""
    assert line("5 A").feeds == ("L1", "L2")
    assert replacement_words(line("5 A")) == "5 A blade (ISO 8820-3 type C), nothing else"
    assert replacement_words(line("2 A cartridge slow")).startswith("2 A cartridge, slow (T) (IEC 60127-2")


def test_a_fuse_that_doesnt_fit_is_no_answer_for_the_lid() -> None:
    """Thin wires need a smaller one, 4 A that run a larger one; the card says so instead of passing it on."""
    assert fuse_verdict(line("7.5 A")).startswith("Too large for its wires")
    assert fuse_verdict(line("2 A", "2.5 mm2")).startswith("Too small for what it feeds")


def test_what_a_fuse_feeds_is_told_without_sizes_as_with_them() -> None:
    """Where no currents can be worked out, what goes dead with a fuse tells the same in every example."""
    for path in sorted(EXAMPLES.glob("right/*.plan")):
        facts = analyse(build_circuit(read_plan(path, (EXAMPLES,))))
        named = fuse_card(facts, size_circuit(facts))
        assert [(one.name, one.feeds) for one in fuse_card(facts, None)] == [(one.name, one.feeds) for one in named]
