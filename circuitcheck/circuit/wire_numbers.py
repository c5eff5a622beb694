"""The number by which each wire goes: on labels, in lists and drawings, and in `size --explain`."""

from circuitcheck.circuit.model import Circuit


def wire_numbers(circuit: Circuit) -> tuple[str, ...]:
    """Of each of the circuit's wires, in their order: the number that the plan gives it, else the next free one of
    w1, w2 …

    A number that the plan gives stays when the plan grows; the free ones are counted anew.
    """
    given = {info.number for info in circuit.wires}
    numbers, count = [], 0
    for info in circuit.wires:
        if info.number:
            numbers.append(info.number)
            continue
        count += 1
        while f"w{count}" in given:
            count += 1
        numbers.append(f"w{count}")
    return tuple(numbers)
