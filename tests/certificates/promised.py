"""Random plans that promise something."""

from hypothesis import strategies as st

from circuitcheck.circuit.model import Axis, Circuit
from circuitcheck.circuit.promises import STATE_WORDS
from circuitcheck.plan.source import PlanError
from tests.analysis.boxes import boxes
from tests.analysis.plans import circuit_of, plan_texts
from tests.analysis.test_settling import relay_plans
from tests.analysis.test_vicinity import interlocked

EVERY_WORD = """
supply PS 12 V 10 A
supply PL 2 V 10 A
switch S1 spdt positions full off little
switch S2 dpdt positions down off up
axis   deck from bottom to top
limit  LS1 nc on deck at bottom
motor  M1 24 V stall 5 A drives deck toward bottom
motor  M2 24 V stall 5 A
lamp   L1 24 V 2 W
buzzer BZ1 6 V 0.02 A
diode  D1
wire   PL.- PS.-
wire   S1.full PS.+
wire   S1.little PL.+
rung   S1.com, ( L1 | BZ1 | M2 ), PS.-
rung   M2.-, D1, M2.+
wire   S1.com S2.down1
wire   S2.up2 S2.down1
wire   S2.up1 PS.-
wire   S2.down2 PS.-
rung   S2.com1, M1, S2.com2
"""
"""Of which nearly every word is true in some state."""

NOT_TOLD = """
supply PX PY 12 V 10 A
lamp   L2 L3 L4 12 V 2 W
rung   PX.+, L2, L3, PX.-
rung   L2.2, L4, PY.+
"""
"""The lamps hang together with rails of no common measure: the verifier doesn't tell what they get."""


@st.composite
def promised_plans(draw: st.DrawFn, most: int = 6) -> str:
    """A random plan with some promises about whatever it has."""
    text = draw(plan_texts() | relay_plans() | interlocked() | boxes())
    try:
        circuit = circuit_of(text)
    except PlanError:
        return text
    return "\n".join([text, *draw(st.lists(promises_about(circuit), min_size=1, max_size=most))])


def promises_about(circuit: Circuit) -> st.SearchStrategy[str]:
    """Of every kind; half of them about motors and lamps, which are what others hang on."""
    claims = claims_about(circuit)
    shown = [one for one in claims if circuit.parts[one.split()[0]].kind in ("motor", "lamp", "axis")] or claims
    said = conditions(st.sampled_from(claims) | st.sampled_from(shown))
    lasting = st.builds("{} {}".format, st.sampled_from(("expect", "never", "always")), said)
    within = st.sampled_from(("settling", "settling", "1 s", "2 s", "3 s", "4 s"))
    answers = st.builds("after {} within {} {}".format, said, within, said)
    kinds = [lasting, st.builds("{} when {}".format, lasting, said), answers]
    motors = [f"never {one.name} starts when {supply} returns" for one in circuit.motors for supply in powers(circuit)]
    return st.one_of(*kinds, *([st.sampled_from(motors)] if motors else []))


def powers(circuit: Circuit) -> list[str]:
    """What can return."""
    return ["power", *(one.name for one in circuit.supplies)]


def conditions(claims: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """One claim or a few together."""
    parts = st.one_of(claims, claims, claims.map("not {}".format))
    return st.one_of(claims, st.builds("{} {} {}".format, parts, st.sampled_from(("and", "or")), parts))


def claims_about(circuit: Circuit) -> list[str]:
    """All that can be claimed of the parts of a circuit."""
    values = {digit.name: digit.values for digit in circuit.digits}
    said = [
        f"{name} {word}"
        for name, part in circuit.parts.items()
        if part.kind != "axis"
        for word in STATE_WORDS.get(part.kind, values.get(name, ()))
    ]
    return [*said, *(f"{axis.name} {where}" for axis in circuit.axes for where in places(axis))]


def places(axis: Axis) -> list[str]:
    """Where an axis can be said to be."""
    verbs = ("at", "stops at") if axis.turning else ("at", "past", "stops at")
    return [f"{verb} {place}" for verb in verbs for place in axis.places]
