"""What holds in every circuit, whatever plan it came from; tests call this after each build."""

from circuitcheck.circuit.model import Circuit


def assert_consistent(circuit: Circuit) -> None:
    """Raises AssertionError where an index, a terminal or a value points at nothing."""
    terminals = {terminal for part in circuit.parts.values() for terminal in part.terminals}
    _assert_parts(circuit, terminals)
    for conductor in circuit.conductors:
        assert {conductor.tail, conductor.head} <= terminals, conductor
        assert conductor.tail != conductor.head, conductor
        assert not conductor.part or conductor.part in circuit.parts, conductor
        if conductor.closed:
            values = range(circuit.digits[conductor.closed.digit].radix)
            assert conductor.closed.values <= set(values), conductor
    for load in circuit.loads:
        assert {load.a, load.b} <= terminals, load
        assert load.ohms > 0, load
    for suppressor in circuit.suppressors:
        assert {suppressor.a, suppressor.b} <= terminals, suppressor
    wires = [index for index, conductor in enumerate(circuit.conductors) if conductor.kind == "wire"]
    assert [info.conductor for info in circuit.wires] == wires
    _assert_movers(circuit)


def _assert_parts(circuit: Circuit, terminals: set[str]) -> None:
    assert sum(len(part.marks) for part in circuit.parts.values()) == len(terminals), "two terminals of one name"
    assert len({digit.name for digit in circuit.digits}) == len(circuit.digits), "two digits of one name"
    for name, part in circuit.parts.items():
        assert part.name == name
        assert part.optional <= set(part.terminals), part
    for digit in circuit.digits:
        for moment in digit.moments:
            assert all(start != end and max(start, end) < len(digit.values) for start, end in moment.moves), digit


def _assert_movers(circuit: Circuit) -> None:
    movers = [(one.name, one.digit) for one in circuit.supplies]
    movers += [(one.name, one.digit) for one in circuit.relays]
    movers += [(one.name, one.digit) for one in circuit.axes]
    for name, digit in movers:
        assert circuit.digits[digit].name == name, name
    for relay in circuit.relays:
        for coil in relay.inputs:
            assert circuit.loads[coil.load].part == relay.name, relay
            assert circuit.loads[coil.load].kind == ("input" if coil is relay.control else "coil"), relay
            assert 0 < coil.release_volts < coil.operate_volts, relay
    for motor in circuit.motors:
        assert motor.axis is None or motor.axis < len(circuit.axes), motor
        for winding in motor.windings:
            load = circuit.loads[winding.load]
            assert (load.a, load.b, load.part) == (winding.plus, winding.minus, motor.name), motor
    for limit in circuit.limits:
        assert limit.zones <= set(range(len(circuit.digits[circuit.axes[limit.axis].digit].values))), limit
