"""Writes certificates: the engine's own sets, put so that the verifier can confirm them one by one.

Each part is put before the verifier as soon as it is made. What the verifier can't follow (volts that too many loads
together decide, orders that only relays' times exclude) is left out and named, so a certificate that is written is one
that holds.
"""

import json
from typing import Any

from circuitcheck.certificates.verifier import (
    CALM,
    VERSION,
    Box,
    Net,
    Operation,
    Set,
    all_alike,
    all_settle,
    as_written,
    box_of,
    brought,
    claims_of,
    confirm_calm,
    confirm_no_short,
    proved_at_once,
    seal_of,
)
from circuitcheck.certificates.writing_entries import Cannot, operation_of
from circuitcheck.certificates.writing_sets import Writer
from circuitcheck.circuit.model import Circuit

Json = dict[str, Any]


def certificate_of(circuit: Circuit) -> Json:
    """All that the verifier can confirm of a circuit, and the names of what else could be claimed."""
    box = box_of(circuit)
    writer = Writer(box)
    conduction, moving, proved_anyhow = conduction_of(box)
    calm = next((which for which in CALM if _is_calm(box, which)), None) if conduction else None
    operation, lasting = operation_of(box, calm is not None, moving) if conduction else ([], False)
    proved = {*as_written(circuit), *proved_anyhow, *(claim for one in operation for claim in one.claims)}
    proved |= {*(all_settle(circuit) if calm else ()), *(all_alike(circuit) if lasting else ())}
    certificate = {
        "version": VERSION,
        "sets": writer.lines,
        "conduction": conduction
        and {
            source: {net: writer.number(one) for net, one in sorted(sets.items())}
            for source, sets in conduction.items()
        },
        "calm": calm,
        "operation": [_written(box, writer, one) for one in operation],
        "lasting": lasting,
        "without certificate": [claim for claim in claims_of(circuit) if claim not in proved],
    }
    return certificate | {"seal": seal_of(certificate)}


def certificate_text(certificate: Json) -> str:
    """The file: one line for each set, so that it can be read and compared."""
    return json.dumps(certificate, indent=1, ensure_ascii=False) + "\n"


def _written(box: Box, writer: Writer, one: Operation) -> Json:
    digits = box.circuit.digits
    return {
        "over": [digits[digit].name for digit in sorted(one.digits)],
        "still": {digits[digit].name: digits[digit].values[value] for digit, value in sorted(one.still.items())},
        "reached": writer.number(one.reached),
        "claims": one.claims,
    }


def conduction_of(box: Box) -> tuple[dict[Net, dict[Net, Set]] | None, Set, list[str]]:
    """For each rail that current may come from, in which states it gets to each net; None where that can't be shown.
    With the states in which a supply is shorted while relays move, and all that follows with no operation."""
    try:
        found = {source: _reached_from(box, source) for source in box.sources}
        moving = confirm_no_short(box, found)
        return (found, moving, proved_at_once(box, moving)) if found else (None, 0, [])
    except Cannot:
        return None, 0, []


def _reached_from(box: Box, source: Net) -> dict[Net, Set]:
    """Where conductors lead to from a net: the least sets that solve the verifier's equations."""
    reached: dict[Net, Set] = {source: 1}
    waiting = [source]
    for net in waiting:
        for onward in {way.head for way in box.leaving.get(net, ())}:
            after = brought(box, source, onward, reached)
            if after != reached.get(onward, 0):
                reached[onward] = after
                waiting.append(onward)
    return reached


def _is_calm(box: Box, which: str) -> bool:
    box.sets.begin_anew()
    try:
        confirm_calm(box, which)
    except Cannot:
        return False
    return True
