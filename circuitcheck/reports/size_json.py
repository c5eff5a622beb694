"""Sizes for other programs; `size.schema.json` beside this file says what they can rely on."""

import json
from typing import Any

from circuitcheck.checks.narration import example_words
from circuitcheck.circuit.model import Circuit
from circuitcheck.reports.findings_json import SCHEMA
from circuitcheck.reports.size_asking import Sizes
from circuitcheck.reports.size_words import tables_used
from circuitcheck.sizing.greatest import Greatest
from circuitcheck.sizing.sized import Sized
from circuitcheck.sizing.wires import SizedWire


def size_json(sizes: Sizes) -> str:
    """The whole report, ending in a line end. Signs outside ASCII are escaped, so that any encoding carries it."""
    sizing = sizes.sizing
    report = {
        "schema": SCHEMA,
        "file": sizes.file,
        "plan": sizes.name,
        "fits": sizing.fits,
        "shorts": sizing.shorts,
        "wires": [_wire(sizing.circuit, wire) for wire in sizing.wires],
        "parts": [_sized(sizing.circuit, one) for one in (*sizing.parts, *sizing.drops)],
        "assumptions": [
            {"part": one.part, "taken": one.taken, "write": one.write, "source": str(one.source)}
            for one in sizing.assumptions
        ],
        "tables": tables_used(sizes),
    }
    return json.dumps(report, indent=2) + "\n"


def _wire(circuit: Circuit, wire: SizedWire) -> dict[str, Any]:
    capacity, lying = wire.capacity, wire.lying
    table = {
        "amps": capacity.row_amps,
        "condition": capacity.condition,
        "source": str(capacity.source),
        "factors": [{"value": round(f.value, 4), "why": f.why, "source": str(f.source)} for f in capacity.factors],
    } if capacity else None  # fmt: skip
    return _sized(circuit, wire.sized) | {
        "number": lying.info.number,
        "ends": list(circuit.conductors[lying.info.conductor][:2]),
        "mm2": round(lying.gauge.area_mm2, 4) if lying.gauge else None,
        "metres": lying.metres or None,
        "table": table,
    }


def _sized(circuit: Circuit, one: Sized) -> dict[str, Any]:
    return {
        "kind": one.kind,
        "name": one.name,
        "made": one.made,
        **{label: _greatest(circuit, found) for label, found in one.currents._asdict().items()},
        "needs": _figure(one.needs),
        "takes": None if one.can is None else _figure(one.can),
        "unit": one.unit,
        "verdict": one.verdict,
        "remarks": list(one.remarks),
        "write": one.write,
    }


def _greatest(circuit: Circuit, found: Greatest) -> dict[str, Any]:
    return {
        "amps": _figure(found.amount),
        "exact": found.exact,
        "loads": {circuit.loads[part.load].name: _figure(part.amount) for part in found.parts},
        "state": None if found.state is None else example_words(circuit, found.state),
    }


def _figure(value: float) -> float:
    """Six digits that count: the same on every machine."""
    return float(f"{value:.6g}")
