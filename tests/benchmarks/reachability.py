"""How fast all reachable states are found, against a breadth-first search state by state in plain Python.

Run: python -m tests.benchmarks.reachability

Relays that hold themselves and shut each other out, worked by buttons; wired at random (fixed seed). The supply is a
control too, so 12 relays with 11 buttons and a supply are 2^24 states. The plain search works out in each state where
conductors lead from + and from −, and so what each relay wants; "by tables" it is given that beforehand, so that
nothing but the search itself is compared; "judge" is the tests' plain code over networkx, which works out volts, motors
and lamps as well. Where a search would take long, its time is extrapolated from reached states taken at random to all
that are reached. Seconds are the processor's, for all ways alike; those of the sets are for the whole analysis.
"""

import json
import random
import resource
import subprocess
import sys
import time
from collections import deque
from collections.abc import Callable
from typing import NamedTuple

from circuitcheck.analysis.behaviour import Behaviour
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.circuit.building import build_circuit
from circuitcheck.circuit.model import Circuit
from circuitcheck.plan.reading import read_text
from tests.judge.steps import Judge

SIZES = ((6, 6), (8, 8), (10, 10), (12, 11), (12, 12))
MOST_SEARCHED = 100_000


Wishes = Callable[[int], list[int]]
"""The digits of the relays that want to move in a state."""


class Measured(NamedTuple):
    """seconds and peak megabytes of the sets; the plain ways' seconds for all reached states."""

    states: int
    reached: int
    rounds: int
    seconds: float
    peak_mb: float
    judge: float
    plain: float
    by_tables: float


def panel(relays: int, buttons: int) -> str:
    """A plan: relays in pairs that shut each other out, each pulled in by a button or by a working contact, its own or
    one of an earlier pair's."""
    chance = random.Random(relays)
    lines = ["supply PS 12 V 10 A"]
    lines += [f"button PB{number} no" for number in range(buttons)]
    lines += [f"relay K{number} no nc coil 12 V 160 ohm" for number in range(relays)]
    for number in range(relays):
        holding = chance.choice([*range(number // 2 * 2), number])
        lines.append(
            f"rung PS.+, ( PB{number % buttons} | K{holding}.13-14 ), K{number ^ 1}.21-22, K{number}.A1-A2, PS.-"
        )
    return "\n".join(lines)


def search(circuit: Circuit, wishes: Wishes) -> set[int]:
    """Reached states, one at a time. A state is a number, a digit a power of two."""
    controls = [1 << number for number, digit in enumerate(circuit.digits) if digit.kind != "relay"]
    found = {0}
    for digit in controls:
        found |= {state + digit for state in found}
    waiting = deque(found)
    while waiting:
        state = waiting.popleft()
        for digit in wishes(state) or controls:
            there = state ^ digit
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found


def seconds_for_all(circuit: Circuit, wishes: Wishes, behaviour: Behaviour) -> float:
    """What the search takes; SystemExit where it reaches other states than the sets."""
    reached = behaviour.reached.bit_count()
    begun = time.process_time()
    if reached <= MOST_SEARCHED:
        found = search(circuit, wishes)
        seconds = time.process_time() - begun
        if sum(1 << state for state in found) != behaviour.reached:
            raise SystemExit(f"the plain search reaches {len(found)} states, the sets {reached}")
        return seconds
    some = reached_at_random(behaviour, MOST_SEARCHED // 4)
    controls = [1 << number for number, digit in enumerate(circuit.digits) if digit.kind != "relay"]
    begun, found = time.process_time(), set()
    for state in some:
        for digit in wishes(state) or controls:
            found.add(state ^ digit)
    seconds = (time.process_time() - begun) / len(some) * reached
    if any(not behaviour.reached >> state & 1 for state in list(found)[:1_000]):
        raise SystemExit("the plain search reaches a state that the sets do not")
    return seconds


def seconds_of_the_judge(circuit: Circuit, behaviour: Behaviour) -> float:
    """What the judge would take, from some states at random."""
    judge, some = Judge(circuit), reached_at_random(behaviour, 300)
    states = [tuple(state >> number & 1 for number in range(len(circuit.digits))) for state in some]
    begun = time.process_time()
    for state in states:
        judge.judged(state)
    return (time.process_time() - begun) / len(states) * behaviour.reached.bit_count()


def reached_at_random(behaviour: Behaviour, count: int) -> list[int]:
    """Some of the reached states, each as likely as any other."""
    digits = bin(behaviour.reached)[:1:-1]
    return random.Random(1).sample([number for number, one in enumerate(digits) if one == "1"], count)


def wishes_by_tables(facts: Facts) -> Wishes:
    """One look-up for each relay, in what the sets know of it."""
    tables = []
    for move in facts.relay_moves:
        own = move.wanted.space
        places = [(1 << digit, stride) for digit, stride in zip(own.digits, own.strides, strict=True)]
        wanted = [bool(move.wanted.bits >> number & 1) for number in range(own.size)]
        tables.append((wanted, places, 1 << facts.circuit.relays[move.relay].digit))

    def wishes(state: int) -> list[int]:
        return [
            digit for wanted, places, digit in tables if wanted[sum(own for one, own in places if state & one)]
        ]  # fmt: skip

    return wishes


def wishes_by_conduction(circuit: Circuit) -> Wishes:
    """Where closed conductors lead from + and from −, worked out anew in each state."""
    always: dict[str, list[str]] = {}
    contacts = []
    for one in circuit.conductors:
        if one.closed is None:
            always.setdefault(one.tail, []).append(one.head)
            always.setdefault(one.head, []).append(one.tail)
        else:
            contacts.append((1 << one.closed.digit, 1 in one.closed.values, one.tail, one.head))
    (supply,) = circuit.supplies
    coils = [(circuit.loads[one.coil.load].a, circuit.loads[one.coil.load].b, 1 << one.digit) for one in circuit.relays]

    def flooded(start: str, closed: dict[str, list[str]]) -> set[str]:
        found, waiting = {start}, [start]
        while waiting:
            here = waiting.pop()
            for there in (*always.get(here, ()), *closed.get(here, ())):
                if there not in found:
                    found.add(there)
                    waiting.append(there)
        return found

    def wishes(state: int) -> list[int]:
        closed: dict[str, list[str]] = {}
        for digit, when_on, tail, head in contacts:
            if bool(state & digit) == when_on:
                closed.setdefault(tail, []).append(head)
                closed.setdefault(head, []).append(tail)
        fed: set[str] = flooded(supply.plus, closed) if state >> supply.digit & 1 else set()
        back = flooded(supply.minus, closed)
        return [digit for a, b, digit in coils if (a in fed and b in back) != bool(state & digit)]

    return wishes


def measure(relays: int, buttons: int) -> Measured:
    """Both ways, in this process; the sets go first, so that the peak is their own."""
    circuit = build_circuit(read_text("panel.plan", panel(relays, buttons)))
    begun = time.process_time()
    facts = analyse(circuit)
    behaviour = facts.behaviour(range(len(circuit.digits)))
    seconds = time.process_time() - begun
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    if behaviour.rest != behaviour.settled:
        raise SystemExit("relays go round for ever on this panel: the plain search knows no rest there")
    return Measured(
        behaviour.space.size,
        behaviour.reached.bit_count(),
        len(behaviour.rounds),
        seconds,
        peak_mb,
        seconds_of_the_judge(circuit, behaviour),
        seconds_for_all(circuit, wishes_by_conduction(circuit), behaviour),
        seconds_for_all(circuit, wishes_by_tables(facts), behaviour),
    )


def measured_apart(relays: int, buttons: int) -> Measured:
    """The same in a process of its own, whose memory is nobody else's."""
    command = [sys.executable, "-m", "tests.benchmarks.reachability", str(relays), str(buttons)]
    return Measured(*json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout))


def main() -> None:
    """Prints the table."""
    print(
        f"{'relays':>7} {'buttons':>8} {'states':>11} {'reached':>10} {'rounds':>7} {'sets s':>8} {'peak MB':>8} "
        f"{'judge s':>9} {'times':>7} {'plain s':>9} {'times':>7} {'by tables s':>12} {'times':>7}"
    )
    for relays, buttons in SIZES:
        one = measured_apart(relays, buttons)
        times = (f"{each:>9.1f} {each / one.seconds:>7,.0f}" for each in (one.judge, one.plain, one.by_tables))
        print(
            f"{relays:>7} {buttons:>8} {one.states:>11,} {one.reached:>10,} {one.rounds:>7} {one.seconds:>8.4f} "
            f"{one.peak_mb:>8.0f} {' '.join(times)}{'  extrapolated' if one.reached > MOST_SEARCHED else ''}"
        )


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(json.dumps(measure(int(sys.argv[1]), int(sys.argv[2]))))
    else:
        main()
