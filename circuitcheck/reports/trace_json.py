"""A trace for other programs; `trace.schema.json` beside this file says what they can rely on."""

import json
from typing import Any

from circuitcheck.checks.narration import example_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.trace_asking import Told
from circuitcheck.reports.trace_words import moves_words, remarks_words


def trace_json(told: Told) -> str:
    """The whole trace, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it."""
    actions = [action.phrase.text for action in told.trace.actions]
    done = told.trace.steps[-1].action + 1 if told.trace.broken_off else len(actions)
    report = {
        "schema": SCHEMA,
        "file": told.file,
        "plan": told.name,
        "actions": actions,
        "steps": [_step(told, number) for number in range(len(told.trace.steps))],
        "broken_off": told.trace.broken_off,
        "not_come_to": actions[done:],
    }
    return json.dumps(report, indent=2) + "\n"


def _step(told: Told, number: int) -> dict[str, Any]:
    step, shown, circuit = told.trace.steps[number], told.shown[number], told.trace.circuit
    return {
        "step": number,
        "action": step.action if step.action >= 0 else None,
        "what": moves_words(told, number),
        "moved": _moved(circuit, step.change.digit, step.change.start, step.change.end) if step.change else None,
        "state": example_words(circuit, step.state),
        "motors": shown.motors,
        "lamps": shown.lamps,
        "conducts": {name: list(way) for name, way in shown.ways.items()},
        "shorted": step.shorted,
        "remarks": [
            {"kind": kind, "what": what}
            for kind, what in zip(_kinds(told, number), remarks_words(told, number), strict=True)
        ],
    }


def _moved(circuit: Circuit, digit: int, start: int, end: int) -> dict[str, str]:
    named = circuit.digits[digit]
    return {"name": named.name, "from": named.value_name(start), "to": named.value_name(end)}


def _kinds(told: Told, number: int) -> list[str]:
    step = told.trace.steps[number]
    return [remark.kind for remark in step.remarks] + ["shorted"] * step.shorted
