"""Relays that race have no certificate; those that come to rest alike have one."""

from itertools import combinations

import pytest

from circuitcheck.analysis.facts import analyse
from circuitcheck.certificates.verifier import (
    ALIKE,
    SETTLES,
    Course,
    Operation,
    Refused,
    box_of,
    broken,
    seal_of,
    verify,
)
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.checks import never_settles
from tests.analysis.plans import circuit_of
from tests.certificates.test_certificates import as_read
from tests.certificates.test_entries import entry, is_lasting, is_taken
from tests.certificates.test_moving import left_over

PRIORITY = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no
relay  K1 K2 no nc coil 12 V 160 ohm with diode
lamp   L1 L2 12 V 2 W
rung   PS.+, F1, PB1, K1.A1-A2, PS.-
rung   PB1.14, K1.21-22, K2.A1-A2, PS.-
rung   F1.2, K1.13-14, L1, PS.-
rung   F1.2, K2.13-14, L2, PS.-
"""


def test_relays_that_take_away_what_others_want_may_come_to_the_same_rest_all_the_same() -> None:
    """A lamp's relay is called and cut off again by the quicker one or the slower one: each is followed to its rest."""
    circuit = circuit_of(PRIORITY)
    certificate = as_read(certificate_of(circuit))
    assert not certificate["lasting"]
    assert {f"K1 {ALIKE}", f"K2 {ALIKE}"} <= set(verify(circuit, certificate))


def row(machines: int, before: str, after: str) -> str:
    """Wind machines, each with a button and a relay, whose coil is also fed over contacts of the ones beside it."""
    lines = ["supply PS 12 V 200 A", "fuse F 160 A", "wire PS.+ F.1"]
    for n in range(1, machines + 1):
        locks = [before.format(n - 1)] if n > 1 else []
        locks += [after.format(n + 1)] if n < machines else []
        lines += [f"fuse F{n} 10 A", f"button B{n} no nc", f"relay K{n} 3pdt coil 12 V 160 ohm with diode"]
        lines += [f"motor M{n} 12 V stall 8 A", f"rung F{n}.2, K{n}.14-11, M{n}, PS.-", f"wire K{n}.12 PS.-"]
        lines += [f"rung F.2, F{n}, {', '.join([f'B{n}.13-14', *locks])}, K{n}.A1-A2, PS.-"]
    return "\n".join(lines)


def test_relays_that_all_hang_together_come_to_rest_alike_where_none_takes_away_what_another_wants() -> None:
    """Of two neighbours whose buttons are pressed, only one is ever called. All are too many to be followed at once."""
    circuit = circuit_of(row(14, "B{0}.21-22, K{0}.21-22", "K{}.31-32"))
    certificate = as_read(certificate_of(circuit))
    assert certificate["lasting"]
    assert max(len(one["over"]) for one in certificate["operation"]) < len(circuit.digits)
    assert left_over(circuit, "order-dependent") == []


def test_relays_that_race_leave_their_claims_over_where_they_hang_together_with_others() -> None:
    """With nothing but each other's contacts between them, the quicker one of two neighbours keeps the other off."""
    circuit = circuit_of(row(4, "K{}.21-22", "K{}.31-32"))
    assert left_over(circuit, "order-dependent") == [f"K{n} {ALIKE}" for n in range(1, 5)]


@pytest.mark.parametrize(
    ("first", "second", "left"),
    [
        ("operate 2..5 ms", "operate 8..15 ms", []),
        ("operate 2..9 ms", "operate 8..15 ms", [f"K1 {ALIKE}", f"K2 {ALIKE}"]),
        ("operate 2..5 ms", "", [f"K1 {ALIKE}", f"K2 {ALIKE}"]),
    ],
)
def test_a_race_that_one_relay_always_wins_is_none(first: str, second: str, left: list[str]) -> None:
    """Two relays of a curtain that shut each other out, called together by the power that comes."""
    circuit = circuit_of(
        RACING.replace("relay  K1 K2 nc coil", f"relay  K1 nc {first} coil").replace(
            "with diode\n", f"with diode\nrelay  K2 nc {second} coil 12 V 160 ohm with diode\n", 1
        )
    )
    assert left_over(circuit, "order-dependent") == left


ONCE_SEALED = """
supply PS 12 V 10 A
fuse   F1 5 A
button START spdt
switch S1 spdt positions wait go
relay  K1 no no coil 12 V 160 ohm with diode
relay  K2 K3 no nc coil 12 V 160 ohm with diode
rung   PS.+, F1, START.11-14, K1.A1-A2, PS.-
rung   F1.2, K1.13-14, K1.A1
rung   START.12, S1.com-go, K1.23-24, K3.21-22, K2.A1-A2, PS.-
rung   K1.24, K2.21-22, K3.A1-A2, PS.-
"""


def test_relays_that_race_only_once_another_has_sealed_itself_in_leave_their_claims_over() -> None:
    """At power-up they are not called yet: START cuts them off as long as it is held."""
    assert left_over(circuit_of(ONCE_SEALED), "order-dependent") == [f"K2 {ALIKE}", f"K3 {ALIKE}"]


RACING = """
supply PS 12 V 10 A
button PB1 PB2 no
relay  K1 K2 nc coil 12 V 160 ohm with diode
rung   PS.+, PB1, K2.11-12, K1.A1-A2, PS.-
rung   PS.+, PB2, K1.11-12, K2.A1-A2, PS.-
"""


def test_a_race_is_overlooked_over_no_digits() -> None:
    """Nor do states that are reached while relays are parked rule it out."""
    box = box_of(circuit_of(RACING))
    supply, *others = range(len(box.circuit.digits))
    assert box.names[supply] == "PS"
    for count in range(len(others) + 1):
        for some in combinations(others, count):
            digits = frozenset((supply, *some))
            for claim in broken(Course(box, digits, {}), True, 0):
                assert not claim.endswith(ALIKE) or not is_taken(box, entry(box, digits, {}, claim), True, 0)
    assert not is_lasting(box, [])
    assert not is_lasting(box, [Operation(frozenset({supply}), {others[0]: 0}, 0, [])])


def test_of_relays_of_which_it_does_not_follow_what_they_want_it_is_not_said_that_it_lasts() -> None:
    """Where it is never told what one of them wants, none seems to take it away."""
    box = box_of(circuit_of(PRIORITY))
    _, second = box.circuit.relays
    assert not is_lasting(box._replace(told={("wants", second.digit): {None: 1}}), [])
    assert is_lasting(box._replace(told={("wants", second.digit): {(): 1}}), [])


def test_that_relays_come_to_rest_alike_is_claimed_once_and_only_where_no_supply_is_shorted() -> None:
    """A certificate that says it of all relays, and of one again, or of a plan that is not followed, is refused."""
    circuit = circuit_of(row(2, "B{0}.21-22, K{0}.21-22", "K{}.31-32"))
    certificate = as_read(certificate_of(circuit))
    certificate["operation"][0]["claims"].append(f"K1 {ALIKE}")
    with pytest.raises(Refused, match="claimed twice"):
        verify(circuit, certificate | {"seal": seal_of(certificate)})
    shorted = circuit_of(
        "supply PS 12 V 10 A\nrelay K1 no coil 12 V 160 ohm\nwire PS.+ PS.-\nrung PS.+, K1.A1-A2, PS.-"
    )
    certificate = as_read(certificate_of(shorted)) | {"lasting": True}
    certificate["without certificate"].remove(f"K1 {ALIKE}")
    with pytest.raises(Refused, match="no supply is ever shorted"):
        verify(shorted, certificate | {"seal": seal_of(certificate)})


RING = """
supply PS 12 V 10 A
fuse   F1 5 A
button PB1 no nc
relay  KA no coil 12 V 160 ohm operate 1 ms release 11 ms
relay  KB no coil 12 V 160 ohm operate 1 ms release 1 ms
relay  K1 K2 K3 K4 no coil 12 V 160 ohm {times}
rung   PS.+, F1, PB1.13-14, KA.A1-A2, PS.-
rung   F1.2, PB1.21-22, KB.A1-A2, PS.-
rung   F1.2, KA.13-14, KB.13-14, K1.A1-A2, PS.-
rung   F1.2, K4.13-14, K1.A1
rung   F1.2, K1.13-14, K2.A1-A2, PS.-
rung   F1.2, K2.13-14, K3.A1-A2, PS.-
rung   F1.2, K3.13-14, K4.A1-A2, PS.-
"""


def test_relays_whose_times_keep_them_going_round_are_not_certified_to_come_to_rest() -> None:
    """Letting the button go sends a pulse into a ring of the lighthouse's relays. They would rest in the order in which
    it grows or dies, and so they do where no times exclude that order."""
    for times, found in (("operate 5 ms release 5 ms", True), ("", False)):
        circuit = circuit_of(RING.format(times=times))
        assert bool(list(never_settles.find(analyse(circuit)))) == found
        left = certificate_of(circuit)["without certificate"]
        assert [f"{name} {SETTLES}" in left for name in ("K1", "K2", "K3", "K4")] == [found] * 4


CHATTERING = """
supply PS 12 V 10 A
switch S1 spst positions off on
relay  K1 4pdt coil 12 V 160 ohm {}
relay  K2 4pdt coil 12 V 160 ohm {}
rung   PS.+, S1, K2.11-12, K1.11-12, K1.A1-A2, PS.-
rung   PS.+, ( K1.31-34 | K2.31-34 ), K2.A1-A2, PS.-
"""


def test_a_relay_too_slow_to_stop_another_one_that_chatters_is_not_counted_on() -> None:
    """It would have to move while the other one is operated, which is never for long enough."""
    for times, found in ((("operate 1 ms release 1 ms", "operate 9 ms"), True), (("", "operate 9 ms"), False)):
        circuit = circuit_of(CHATTERING.format(*times))
        assert bool(list(never_settles.find(analyse(circuit)))) == found
        left = certificate_of(circuit)["without certificate"]
        assert [f"{name} {SETTLES}" in left for name in ("K1", "K2")] == [found] * 2
