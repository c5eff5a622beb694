"""Where a ladder, read as it is printed, says something else of a state than the analysis does."""

from collections.abc import Iterable, Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.reports.ladder_asking import Redrawn, redrawn
from circuitcheck.reports.ladder_svg import ladder_svg
from circuitcheck.reports.ladder_text import ladder_lines
from circuitcheck.reports.styled import plain_text
from tests.ladder import drawing_reader, text_reader
from tests.ladder.reading import Reader, Way

State = dict[int, int]
WIDTHS = (60, 80, 140)


def readings(drawn: Redrawn) -> dict[str, list[Way]]:
    """The ladder read from the drawing, and from text of several widths."""
    found = {"drawing": drawing_reader.ways_of(ladder_svg(drawn))}
    for width in WIDTHS:
        found[f"text of {width} columns"] = text_reader.ways_of(plain_text(ladder_lines(drawn, width)))
    return found


def disagreements(facts: Facts, states: Iterable[State]) -> Iterator[str]:
    """One line for each load and state. With several supplies, which of them feeds a load is left open, and a brake
    over several rails; what takes part in that is worked out by its volts alone. A brake through
    a relay's own diode is left out of ladders."""
    read, reader = readings(redrawn(facts)), Reader(facts.circuit)
    for state in states:
        for output, ways in read.items():
            for found in (*_fed_differs(facts, reader, ways, state), *_shorts_differ(facts, reader, ways, state)):
                yield f"{output}, {state}: {found}"
            for found in _brakes_differ(facts, reader, ways, state):
                yield f"{output}, {state}: {found}"


def _fed_differs(facts: Facts, reader: Reader, ways: list[Way], state: State) -> Iterator[str]:
    if state in facts.shorted:
        return
    names = _rail_names(facts)
    live = {(names[one.high], names[one.low]) for one in facts.differences if state in one.live}
    drawn = {
        (load, forward) for way in ways for load, forward, high, low in reader.fed(way, state) if (high, low) in live
    }
    single = len(facts.circuit.supplies) == 1
    for number, feeding in enumerate(facts.feeding):
        if number in facts.regions.tangled or (not single and state in feeding.open):
            continue
        forward, backward = ((number, ahead) in drawn for ahead in (True, False))
        known = [any(state in one.forward for one in feeding.fed), any(state in one.backward for one in feeding.fed)]
        if [forward, backward] != known if single else any((forward, backward)) != any(known):
            yield f"{facts.circuit.loads[number].name} drawn as fed {forward, backward}, is fed {known}"


def _rail_names(facts: Facts) -> dict[int, str]:
    found: dict[int, list[str]] = {}
    for supply in facts.circuit.supplies:
        for end in (supply.plus, supply.minus):
            found.setdefault(facts.conduction.network.nets[end], []).append(end)
    return {net: " ".join(dict.fromkeys(ends)) for net, ends in found.items()}


def _shorts_differ(facts: Facts, reader: Reader, ways: list[Way], state: State) -> Iterator[str]:
    if len(facts.circuit.supplies) != 1 or state[facts.circuit.supplies[0].digit] == 0:
        return
    supply = facts.circuit.supplies[0]
    drawn = any((supply.plus, supply.minus) in reader.joins(way, state) for way in ways)
    if (
        drawn != (state in facts.shorted)
        and facts.conduction.network.nets[supply.plus] != facts.conduction.network.nets[supply.minus]
    ):
        yield f"drawn as {'shorted' if drawn else 'sound'}"


def _brakes_differ(facts: Facts, reader: Reader, ways: list[Way], state: State) -> Iterator[str]:
    if state in facts.shorted:
        return
    drawn = {number for way in ways for number in reader.braked(way, state)}
    one_way = any(one.one_way for one in facts.circuit.conductors)
    for motor, does in zip(facts.circuit.motors, facts.motors, strict=True):
        shown = any(winding.load in drawn for winding in motor.windings)
        if shown and state not in does.braked and state not in does.driven:
            yield f"{motor.name} drawn as braked, is not"
        if state in does.braked and not shown and not one_way and len(facts.circuit.supplies) == 1:
            yield f"{motor.name} is braked, drawn as not"
