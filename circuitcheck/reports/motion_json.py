"""A motion for other programs; `motion.schema.json` beside this file says what they can rely on.

Ranges are [least, greatest]; null stands for no end. Angles are degrees of the motor's output shaft.
"""

import json
from math import isinf
from typing import Any

from circuitcheck.analysis.motion.answers import Motion, Sense, Stop
from circuitcheck.analysis.motion.contact_times import TRANSFER
from circuitcheck.analysis.motion.known import Wanted
from circuitcheck.analysis.motion.stops import Part
from circuitcheck.checks.narration import digit_words
from circuitcheck.checks.ranges_told import DEGREES
from circuitcheck.circuit.figures import Span
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.motion_asking import Moved
from circuitcheck.reports.motion_words import ALWAYS_TAKEN, RPM, axis_of, in_order, taken


def motion_json(moved: Moved) -> str:
    """The whole report, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it."""
    report = {
        "schema": SCHEMA,
        "file": moved.file,
        "plan": moved.name,
        "fits": moved.fits,
        "shorts": moved.shorts,
        "transfer_seconds": list(TRANSFER),
        "motors": [_motor(moved.circuit, motion) for motion in moved.motions],
        "taken": list(ALWAYS_TAKEN),
    }
    return json.dumps(report, indent=2) + "\n"


def _motor(circuit: Circuit, motion: Motion) -> dict[str, Any]:
    motor = circuit.motors[motion.motor]
    axis = axis_of(circuit, motor)
    return {
        "motor": motor.name,
        "axis": axis.name if axis else None,
        "directions": [_sense(circuit, sense) for sense in motion.senses],
        "start_lacks": _wanted(motion.start_wanted),
        "relays": [_relay(circuit, motion, number) for number in sorted(motion.times)],
        "taken": list(taken(circuit, motion)),
    }


def _relay(circuit: Circuit, motion: Motion, number: int) -> dict[str, Any]:
    times = motion.times[number]
    return {
        "relay": circuit.relays[number].name,
        "release_seconds": _span(times.release),
        "release_from_plan": times.release_told,
        "operate_seconds": _span(times.operate),
        "operate_from_plan": times.operate_told,
        "diode_across_coil": times.slowed,
    }


def _sense(circuit: Circuit, sense: Sense) -> dict[str, Any]:
    start = sense.start
    return {
        "direction": "forward" if sense.direction > 0 else "reverse",
        "volts": _span(sense.volts),
        "drive_ohms": _span((0.0, sense.drive.ohms)),
        "brake_ohms": _span((0.0, sense.brake.ohms)),
        "unmeasured_wires": list(dict.fromkeys((*sense.drive.unmeasured, *sense.brake.unmeasured))),
        "start": start and {"amps": _span(start.amps), "seconds": _span(start.seconds), "rpm": _span(start.speed, RPM)},
        "braked_turns_on_rpm": sense.creeps and _span(sense.creeps, RPM),
        "too_many_orders": sense.too_many,
        "stops": [_stop(circuit, stop) for stop in in_order(sense.stops)],
    }


def _stop(circuit: Circuit, stop: Stop) -> dict[str, Any]:
    return {
        "causes": [
            {
                "kind": cause.kind,
                "what": digit_words(circuit, cause.digit, cause.end),
                "switches": [circuit.limits[one].name for one in cause.limits],
            }
            for cause in stop.causes
        ],
        "does": list(stop.way.does),
        "begins_seconds": [_span(one) for one in stop.way.begins],
        "relays": [circuit.relays[one].name for one in stop.way.relays],
        "parts": [_part(part) for part in stop.parts],
        "whole": stop.whole and _part(stop.whole),
        "room": stop.room
        and {
            "kind": stop.room.kind,
            "switches": list(stop.room.switches),
            "degrees": stop.room.radians and _span(stop.room.radians, DEGREES),
        },
        "verdict": stop.verdict or None,
        "lacks": _wanted(stop.wanted),
        "reversing_amps": stop.amps and _span(stop.amps),
    }


def _part(part: Part) -> dict[str, Any]:
    return {"does": part.does, "degrees": _span(part.turns, DEGREES), "seconds": _span(part.lasts)}


def _wanted(wanted: tuple[Wanted, ...]) -> list[dict[str, str]]:
    return [{"part": one.part, "attribute": one.attribute} for one in dict.fromkeys(wanted)]


def _span(span: Span, factor: float = 1.0) -> list[float | None]:
    """To 9 digits, so that the same plan gives the same text on every machine."""
    return [None if isinf(one) else float(f"{one * factor:.9g}") for one in span]
