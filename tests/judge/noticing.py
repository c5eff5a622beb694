"""Whether a fault is noticed, pair of states by pair of states: the second opinion on analysis/faults/noticing.py."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial

import networkx as nx

from tests.judge.besides import DRIVEN, Besides, Pair
from tests.judge.one_state import State
from tests.judge.steps import Judge

Does = Callable[[Judge, State], str]
"""What a device does in a state, as far as it counts here."""


def noticed_by(boxes: Besides) -> set[str]:
    """The devices by which a fault is noticed; "short" is the name of one that blows a fuse."""
    devices = dict(_devices(boxes))
    shorts = {
        pair
        for pair in boxes.next
        if boxes.faulty.judged(pair.faulty).shorted and not boxes.sound.judged(pair.faulty).shorted
    }
    found = set()
    for name, does in devices.items():
        apart = {pair for pair in boxes.lasting() if does(boxes.sound, pair.sound) != does(boxes.faulty, pair.faulty)}
        if apart and _always_comes(boxes, apart | shorts, [does]):
            found.add(name)
    if shorts and _always_comes(boxes, shorts, list(devices.values())):
        found.add("short")
    return found


def _devices(boxes: Besides) -> Iterator[tuple[str, Does]]:
    circuit = boxes.sound.circuit
    for number, motor in enumerate(circuit.motors):
        yield motor.name, partial(_stop_or_run, number)
    for number in boxes.sound.judged(next(iter(boxes.reached))).lamps:
        yield circuit.loads[number].name, partial(_lit, number)


def _stop_or_run(number: int, judge: Judge, state: State) -> str:
    word = judge.judged(state).motors[number]
    return word if word in (*DRIVEN, "braked") else ""


def _lit(number: int, judge: Judge, state: State) -> str:
    word = judge.judged(state).lamps[number]
    return word if word == "lit" else ""


def _always_comes(boxes: Besides, shows: set[Pair], devices: list[Does]) -> bool:
    """Does ordinary use lead there from wherever it has led, but for where it would never wake a sound box either?"""
    ways: nx.DiGraph[Pair] = nx.DiGraph()
    ways.add_nodes_from(boxes.next)
    ways.add_edges_from(
        (pair, there)
        for pair, following in boxes.next.items()
        if _is_calm(boxes, pair.sound)
        for there in following
        if not _presses_a_stop(boxes, pair.sound, there.sound)
    )
    begun = [pair for pair in boxes.begun if _is_calm(boxes, pair.sound) and not _is_stopped(boxes, pair)]
    usual = {pair for pair in _led(ways, begun) if _is_calm(boxes, pair.sound)}
    if not usual & shows:
        return False
    missed = usual.intersection(boxes.lasting()) - _led(ways.reverse(copy=False), shows)
    return not any(_wakes(boxes, pair.sound, devices) for pair in missed)


def _led(ways: "nx.DiGraph[Pair]", begun: Iterable[Pair]) -> set[Pair]:
    """Some pairs and all that follow."""
    found = set(begun)
    return found.union(*nx.bfs_layers(ways, list(found))) if found else found


def _wakes(boxes: Besides, start: State, devices: list[Does]) -> bool:
    """Does ordinary use lead the sound box to where one of the devices is on?"""
    found, waiting = {start}, [start]
    while waiting:
        state = waiting.pop()
        if any(does(boxes.sound, state) in (*DRIVEN, "lit") for does in devices):
            return True
        for there in boxes.sound.successors(state) if _is_calm(boxes, state) else ():
            if there not in found and not _presses_a_stop(boxes, state, there):
                found.add(there)
                waiting.append(there)
    return False


def _is_calm(boxes: Besides, state: State) -> bool:
    """Is at most one control worked that springs back? What sticks needs no hand."""
    homes = (digit.springs_to for digit in boxes.sound.circuit.digits)
    return sum(home not in (None, value) for home, value in zip(homes, state, strict=True)) <= 1


def _emergency_stops(boxes: Besides) -> list[int]:
    circuit = boxes.sound.circuit
    stops = {name for name, info in circuit.parts.items() if info.kind == "estop"}
    return [number for number, digit in enumerate(circuit.digits) if digit.name in stops]


def _presses_a_stop(boxes: Besides, before: State, after: State) -> bool:
    return any(before[number] != after[number] == 1 for number in _emergency_stops(boxes))


def _is_stopped(boxes: Besides, pair: Pair) -> bool:
    """Is an emergency stop pressed that doesn't stick?"""
    digits = boxes.faulty.circuit.digits
    return any(digits[number].kind != "stuck" and pair.sound[number] == 1 for number in _emergency_stops(boxes))
