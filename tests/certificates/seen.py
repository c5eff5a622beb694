"""What is claimed in certificates, looked at in each state that the judge comes to."""

from collections.abc import Callable, Iterable
from functools import partial
from itertools import product

import networkx as nx

from circuitcheck.certificates.verifier import (
    BRAKED,
    FOUND,
    FUSED,
    MATCHED,
    NO_SHORT,
    NO_SHORT_MOVING,
    NOT_THROWN,
    OBEYS,
    SETTLES,
    STAYS_STILL,
    SUPPRESSED,
    TURNS_BACK,
    WITHIN_ENDS,
)
from circuitcheck.circuit.model import Axis, Circuit, Terminal
from tests.judge.changeovers import SIDES, in_the_moment
from tests.judge.claims import directions
from tests.judge.one_state import State, view
from tests.judge.steps import Judge

DRIVEN = ("forward", "reverse")


def changed(state: State, there: State) -> int:
    """The one digit that differs."""
    (digit,) = (one for one, value in enumerate(state) if there[one] != value)
    return digit


class Seen:
    """All states that a circuit comes to from power-up, and those among them at rest."""

    def __init__(self, circuit: Circuit) -> None:
        self._judge, self._circuit = Judge(circuit), circuit
        self._reached = self._judge.reachable()
        self._rests = [state for state in self._reached if self._is_rest(state)]

    def holds(self, claim: str) -> bool:
        """Does a claim hold, as far as the judge sees? Relays are taken to move in any order."""
        if claim == NO_SHORT:
            return not any(self._judge.judged(state).shorted for state in self._judge.every_state())
        if claim == NO_SHORT_MOVING:
            return not any(self._is_shorted_in_a_moment(state) for state in self._reached)
        name, _, said = claim.partition(" ")
        begun, ended = OBEYS.split("{}")
        stop = said.removeprefix(begun).removesuffix(ended)
        looks: dict[str, Callable[[str], bool]] = {
            FUSED: self._is_fused,
            MATCHED: self._is_matched,
            SUPPRESSED: self._is_suppressed,
            BRAKED: lambda name: self._words(name, self._rests) <= {*DRIVEN, "braked"},
            NOT_THROWN: self._is_never_thrown,
            STAYS_STILL: self._stays_still,
            WITHIN_ENDS: self._stays_within,
            TURNS_BACK: self._turns_back,
            FOUND: self._is_found,
            SETTLES: self._settles,
        }
        return looks[said](name) if said in looks else not self._words(name, self._pressed(stop)) & {*DRIVEN}

    def _is_rest(self, state: State) -> bool:
        return self._judge.is_proper(state) and self._judge.is_at_rest(state)

    def _word(self, motor: str, state: State) -> str:
        names = [one.name for one in self._circuit.motors]
        return self._judge.judged(state).motors[names.index(motor)]

    def _words(self, motor: str, states: Iterable[State]) -> set[str]:
        return {self._word(motor, state) for state in states}

    def _pressed(self, stop: str) -> list[State]:
        digit = [one.name for one in self._circuit.digits].index(stop)
        return [state for state in self._rests if state[digit] == 1]

    def _is_shorted_in_a_moment(self, state: State) -> bool:
        """Does some position of the poles of relays that may go from here short a supply?"""
        wishes = {wish.digit for wish in self._judge.judged(state).wishes}
        moving = {relay.name for relay in self._circuit.relays if relay.digit in wishes}
        poles = {one.tail: None for one in self._circuit.conductors if one.closed and one.part in moving}
        for places in product(SIDES, repeat=len(poles)):
            then = in_the_moment(self._circuit, dict(zip(poles, places, strict=True)), state)
            if then is not None and then.judged(state).shorted:
                return True
        return False

    def _settles(self, name: str) -> bool:
        (digit,) = (one.digit for one in self._circuit.relays if one.name == name)
        return not any(
            wish.digit == digit and not wish.timed for one in self._rests for wish in self._judge.judged(one).wishes
        )

    def _is_fused(self, name: str) -> bool:
        """Once all fuses are out and all contacts closed, does nothing lead from + to − of the supply any more?"""
        graph: nx.DiGraph[Terminal] = nx.DiGraph()
        for one in self._circuit.conductors:
            if one.kind != "fuse":
                graph.add_edges_from([(one.tail, one.head), *([] if one.one_way else [(one.head, one.tail)])])
        for load in self._circuit.loads:
            graph.add_edges_from([(load.a, load.b), (load.b, load.a)])
        supply = next(one for one in self._circuit.supplies if one.name == name)
        graph.add_edges_from((one.minus, one.plus) for one in self._circuit.supplies if one != supply)
        graph.add_nodes_from([supply.plus, supply.minus])
        return not nx.has_path(graph, supply.plus, supply.minus)

    def _is_matched(self, name: str) -> bool:
        """In every state nothing, or between what it operates at and 110 % of its rated volts?"""
        number = [one.name for one in self._circuit.loads].index(name)
        coil = next(one for relay in self._circuit.relays for one in relay.inputs if one.load == number)
        volts = {abs(self._judge.judged(state).volts[number]) for state in self._judge.every_state()}
        most = 1.1 * self._circuit.loads[number].volts
        return all(one < 1e-6 or coil.operate_volts - 1e-6 <= one <= most + 1e-6 for one in volts)

    def _is_suppressed(self, name: str) -> bool:
        """Is there something straight across the load, and no volts in the direction of a diode there in any state?"""
        number = [one.name for one in self._circuit.loads].index(name)
        load, every = self._circuit.loads[number], list(self._judge.every_state())
        wires = tuple(one for one in self._circuit.conductors if one.kind == "wire")
        joined = view(self._circuit._replace(conductors=wires), every[0]).group
        across = [
            one
            for one in self._circuit.suppressors
            if {joined[one.a], joined[one.b]} == {joined[load.a], joined[load.b]}
        ]
        along = [1 if joined[one.a] == joined[load.a] else -1 for one in across if one.kind == "diode"]
        against = any(way * self._judge.judged(state).volts[number] > 1e-6 for way in along for state in every)
        return len(across) > len(along) or (bool(along) and not against)

    def _is_never_thrown(self, motor: str) -> bool:
        """From no rest at which it is driven one way do a step and then relays lead, past no brake, to a rest at which
        it is driven the other way. A switch that passes off rests there."""
        for state in self._rests:
            before = self._word(motor, state)
            if before in DRIVEN:
                onward = self._judge.successors(state) - {state}
                first = {there for there in onward if not self._passes_off(state, there)}
                passed = self._following(first, self._going_on, lambda there: self._word(motor, there) == "braked")
                other = "reverse" if before == "forward" else "forward"
                if any(self._is_rest(there) and self._word(motor, there) == other for there in passed):
                    return False
        return True

    def _going_on(self, state: State) -> set[State]:
        """Relays, and switches that are between positions."""
        between = [number for number, one in enumerate(self._circuit.digits) if state[number] >= len(one.values)]
        hands = {there for there in self._judge.successors(state) if any(there[one] != state[one] for one in between)}
        return hands | set(self._judge.relays_moved(state))

    def _passes_off(self, state: State, there: State) -> bool:
        number = changed(state, there)
        digit = self._circuit.digits[number]
        if "off" not in digit.values:
            return False
        ends = [there[number]]
        if there[number] >= len(digit.values):
            moves = digit.moments[there[number] - len(digit.values)].moves
            ends = [end for start, end in moves if start == state[number]]
        off = digit.values.index("off")
        return all(min(state[number], end) < off < max(state[number], end) for end in ends)

    def _stays_still(self, motor: str) -> bool:
        """With hands off what springs back, no motor that stands still without power is driven once all supplies are
        on again, in whatever order they return."""
        supplies = [supply.digit for supply in self._circuit.supplies]
        springing = [(number, one.springs_to) for number, one in enumerate(self._circuit.digits)]
        hands_off = [one for one in self._rests if all(to is None or one[number] == to for number, to in springing)]
        dark = {one for one in hands_off if not all(one[digit] for digit in supplies)}
        still = {one for one in dark if self._word(motor, one) not in DRIVEN}

        def by_itself(state: State) -> set[State]:
            own = {*(one.digit for one in self._circuit.relays), *(one.digit for one in self._circuit.axes)}
            onward = [(there, changed(state, there)) for there in self._judge.successors(state) if there != state]
            return {there for there, digit in onward if digit in own or (digit in supplies and there[digit])}

        after = self._following(still, by_itself, lambda _: False)
        lit = [one for one in after if self._is_rest(one) and all(one[digit] for digit in supplies)]
        return not self._words(motor, lit) & {*DRIVEN}

    def _following(
        self, begun: set[State], steps: Callable[[State], set[State]], barred: Callable[[State], bool]
    ) -> set[State]:
        found = {state for state in begun if not barred(state)}
        waiting = list(found)
        while waiting:
            onward = {there for there in steps(waiting.pop()) - found if not barred(there)}
            found |= onward
            waiting += onward
        return found

    def _axis(self, name: str) -> Axis:
        return next(one for one in self._circuit.axes if one.name == name)

    def _outward(self, axis: Axis, state: State) -> set[int]:
        first, last = axis.range
        return {way for way, there in ((1, state[axis.digit] >= last), (-1, state[axis.digit] <= first)) if there}

    def _has_moved(self, axis: Axis, since: State, state: State) -> bool:
        return state[axis.digit] != since[axis.digit]

    def _stays_within(self, name: str) -> bool:
        axis = self._axis(name)
        return not any(self._outward(axis, state) & directions(self._judge, state, axis) for state in self._rests)

    def _is_found(self, name: str) -> bool:
        """From each state of power-up, do steps lead to a zone in which a limit switch of the axis is pressed?"""
        axis = self._axis(name)
        known = {zone for one in self._circuit.limits for zone in one.zones if self._circuit.axes[one.axis] is axis}
        home = {state for state in self._reached if state[axis.digit] in known}
        leading: dict[State, set[State]] = {}
        for state in self._reached:
            for there in self._judge.successors(state):
                leading.setdefault(there, set()).add(state)
        found = self._following(home, lambda state: leading.get(state, set()), lambda _: False)
        return found.issuperset(self._judge.beginnings())

    def _turns_back(self, name: str) -> bool:
        """From each rest at or past an end, steps of all but the axis lead to a rest at which it is driven inward."""
        axis = self._axis(name)
        for state in self._rests:
            inward = {-way for way in self._outward(axis, state)}
            led_to = self._following({state}, self._judge.successors, partial(self._has_moved, axis, state))
            back = any(inward & directions(self._judge, one, axis) and self._is_rest(one) for one in led_to)
            if inward and not back:
                return False
        return True
