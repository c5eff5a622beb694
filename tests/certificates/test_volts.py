"""The volts that the verifier works out for loads in series, behind resistors and diodes, are those that the judge
finds in each state."""

from functools import partial

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from circuitcheck.certificates.verifier import MATCHED, Moment, box_of, told, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import bus_plan_texts, circuit_of, plan_texts
from tests.certificates.test_certificates import answer, as_read
from tests.judge.steps import Judge
from tests.profiles import examples

PARTS = (
    "lamp {} 12 V 2 W",
    "lamp {} 6 V 0.5 W",
    "resistor {} 100 ohm",
    "relay {} no coil 12 V 160 ohm with diode",
    "relay {} no coil 12 V 300 ohm",
    "motor {} 12 V stall 2 A may coast",
    "diode {}",
    "diode {}",
    "switch {} spst positions off on",
    "button {} nc",
)
MARKS = {"relay": "A1-A2", "diode": "anode-cathode"}


@st.composite
def networks(draw: st.DrawFn) -> str:
    """Loads, diodes and a few contacts between one or two supplies and a few splices, with which all hangs together."""
    supplies = draw(st.sampled_from((1, 1, 1, 2)))
    lines = ["supply PS 12 V 10 A", "supply PS2 5 V 10 A\nwire PS.- PS2.-"][:supplies]
    nets = ["N1", "N2", "N3", "PS.+", "PS.-", "PS2.+"][: 4 + supplies]
    lines.append("splice N1 N2 N3")
    digits = 0
    for number in range(draw(st.integers(3, 9))):
        part = draw(st.sampled_from(PARTS if digits < 5 else PARTS[:3] + PARTS[5:8]))
        digits += part.split()[0] in ("relay", "switch", "button")
        name = f"P{number}"
        start, end = draw(st.permutations(nets))[:2]
        lines += [part.format(name), f"rung {start}, {name}{_marks(part)}, {end}"]
    return "\n".join(lines)


def _marks(part: str) -> str:
    mark = MARKS.get(part.split()[0])
    return f".{mark}" if mark else ""


def told_volts(circuit: Circuit) -> "list[tuple[str, float | None, float]]":
    """Of each load in each state that is not shorted: its name, the verifier's volts (None: they don't follow), and
    the judge's."""
    box, judge, found = box_of(circuit), Judge(circuit), []
    answers = [told(box, ("volts", one), partial(Moment.volts, number=one)) for one in range(len(circuit.loads))]
    for state in judge.every_state():
        seen = judge.judged(state)
        if not seen.shorted:
            for load, told_of, volts in zip(circuit.loads, answers, seen.volts, strict=True):
                found.append((load.name, answer(box, told_of, state), volts))
    return found


@settings(max_examples=examples(30), suppress_health_check=list(HealthCheck), deadline=None)
@given(networks() | networks() | plan_texts() | bus_plan_texts())
def test_volts_follow_as_the_judge_solves_them(text: str) -> None:
    """To a millionth of a volt with one supply; with several, whether a diode's volts count is a matter of taste where
    conductors feed a load, and they do where the judge sees any way round through other loads."""
    circuit = circuit_of(text)
    near = 1e-6 if len(circuit.supplies) == 1 else 1.5
    wrong = [one for one in told_volts(circuit) if one[1] is not None and abs(one[1] - one[2]) > near]
    assert wrong == [], text


FED_TWICE = """
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 PB2 no
relay  K1 no coil 12 V 90 ohm with diode
resistor R1 {ohms} ohm
lamp   L1 12 V 2 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   F1.2, PB2, R1, K1.A1
rung   F1.2, K1.13-14, L1, PS.-
"""


@pytest.mark.parametrize("ohms", [1, 90, 900])
def test_a_coil_that_a_resistor_feeds_too_is_held_to_what_conductors_bring_it(ohms: int) -> None:
    """Whatever it gets through the resistor is for other checks; all else of the lantern's relay follows."""
    circuit = circuit_of(FED_TWICE.format(ohms=ohms))
    assert set(verify(circuit, as_read(certificate_of(circuit)))) >= {
        f"K1 {MATCHED}",
        "K1 comes to rest after each change",
    }


def test_a_coil_on_wrong_volts_is_not_matched_because_a_resistor_feeds_it_too() -> None:
    """A coil for 24 V on 12 V, past the resistor."""
    circuit = circuit_of(FED_TWICE.format(ohms=90).replace("coil 12 V 90", "coil 24 V 300"))
    assert f"K1 {MATCHED}" in certificate_of(circuit)["without certificate"]


def test_a_coil_behind_diodes_that_all_block_gets_nothing() -> None:
    """Of a trapdoor's relay that is switched at both ends, with a diode from − to the one end, across it, and to +."""
    circuit = circuit_of("""
supply PS 12 V 10 A
button PB1 no
relay  K1 no coil 12 V 160 ohm
diode  D1 D2 D3
splice N1 N2
rung   PS.-, D1, N1, D2, N2, D3, PS.+
rung   N2, K1.A1-A2, N1
""")
    assert all(judged == 0 for _, _, judged in told_volts(circuit))
    assert all(told in (None, 0) for _, told, _ in told_volts(circuit))
