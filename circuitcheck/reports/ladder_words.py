"""What is written over rungs and ways, and where contacts stand: the same in text and in a drawing."""

from collections.abc import Iterator

from circuitcheck.circuit.model import Circuit, Relay
from circuitcheck.ladder.drawn import Passed, leaves
from circuitcheck.ladder.rungs import Ladder, Rung, Way
from circuitcheck.ladder.symbols import is_break

READING = (
    "Every rung is one load with all that lies between it and the rails, redrawn from the wires; contacts that feed "
    "several loads stand on the rung of each. Beside a relay contact's name stands, in brackets, the rung of its coil. "
    "Points (o) of one name on a rung are one net. Contacts are drawn with nothing worked: relays released, buttons "
    "let go, limits not pressed; {} is closed then, and so is what has a / before it in the lists. A switch that stays "
    "where it is put has its contacts drawn open, with the position that closes each."
)
EMPTY_LADDER = "No part of this plan takes current, so there is no rung to draw."
LIGHT = "Lit: = carries the current of a load, ~ of a motor that brakes itself, # of a short."
DRAWING_LIGHT = (
    "Thick: carries the current of a load; in long dashes, of a motor that brakes itself; in short ones, of a short. "
    "Contacts that are closed have a bar straight through them."
)


def rung_title(circuit: Circuit, rung: Rung) -> str:
    """ "K1 “run”: relay", or what a rung shows that nobody meant."""
    if rung.kind != "load" or rung.load is None:
        return f"{'SHORT' if rung.kind == 'short' else 'SNEAK PATH'}: {rung.words}"
    load = circuit.loads[rung.load]
    info = circuit.parts[load.part]
    label = f' "{info.label}"' if info.label else ""
    mark = load.a.removeprefix(f"{load.part}.")
    several = sum(one.part == load.part for one in circuit.loads) > 1
    relay = next((one for one in circuit.relays if one.name == load.part), None)
    function = f"{relay.function} " if relay and relay.function != "plain" else ""
    return f"{load.part}{label} {function}{info.kind}{f' at {mark}' if several else ''}"


def way_title(circuit: Circuit, rung: Rung, way: Way) -> str:
    """ "forward", "braked over PS.-"; "" where there is nothing to tell apart."""
    motor = rung.load is not None and circuit.loads[rung.load].kind == "motor"
    turning = ("forward" if way.forward else "reverse") if motor else ""
    if way.kind == "braked":
        return f"shorted on itself over {way.over}" if way.over else "shorted on itself"
    if way.kind == "series":
        return f"{turning} in series with other loads".strip()
    return "nothing ever feeds it" if way.kind == "idle" else turning


Stands = dict[int, tuple[int, ...]]
"""The line numbers of the rungs on which each conductor stands."""


def where_they_stand(ladder: Ladder) -> Stands:
    """For every conductor that is drawn, in order."""
    found: dict[int, dict[int, None]] = {}
    for number, rung in enumerate(ladder.rungs, 1):
        for way in rung.ways:
            for leaf in leaves(way.drawn):
                if isinstance(leaf, Passed):
                    found.setdefault(leaf.conductor, {})[number] = None
    return {conductor: tuple(numbers) for conductor, numbers in found.items()}


def contacts_words(circuit: Circuit, stands: Stands, part: str) -> list[str]:
    """Each contact of a part: "11-14 on 3 5", "/11-12 on 4", "21-22 nowhere"."""
    words = []
    for number, one in enumerate(circuit.conductors):
        if one.part == part and one.closed is not None:
            sign = "/" if is_break(circuit, one) else ""
            rungs = " ".join(map(str, stands.get(number, ())))
            words.append(f"{sign}{one.name.removeprefix(f'{part}.')} {f'on {rungs}' if rungs else 'nowhere'}")
    return words


def relay_of(circuit: Circuit, rung: Rung) -> Relay | None:
    """The relay whose contacts are listed at this rung: that of its coil."""
    if rung.kind != "load":
        return None
    return next((relay for relay in circuit.relays if relay.coil.load == rung.load), None)


def others_with_contacts(circuit: Circuit) -> Iterator[str]:
    """The parts with contacts that are no relays, in the plan's order."""
    relays = {relay.name for relay in circuit.relays}
    parts = dict.fromkeys(one.part for one in circuit.conductors if one.closed is not None)
    yield from (part for part in parts if part not in relays)


def elsewhere_words(circuit: Circuit, ladder: Ladder) -> Iterator[str]:
    """Where the contacts of other parts stand, and what stands on no rung, a sentence each."""
    stands = where_they_stand(ladder)
    for part in others_with_contacts(circuit):
        yield f"{part}: {'; '.join(contacts_words(circuit, stands, part))}"
    idle = idle_words(circuit, ladder)
    if idle:
        yield f"On no rung: {', '.join(idle)}"


def idle_words(circuit: Circuit, ladder: Ladder) -> list[str]:
    """What stands on no rung, contacts aside (their own lists say so)."""
    kinds = [circuit.conductors[number] for number in ladder.idle]
    return [one.name for one in kinds if one.closed is None]
