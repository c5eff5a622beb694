"""What wires lie in: as the plan's `conditions` say, else a cautious default that every report names."""

from typing import Final, NamedTuple

from circuitcheck.analysis.gauges import Gauge, gauge_of
from circuitcheck.analysis.source import Source
from circuitcheck.circuit.figures import WireInfo
from circuitcheck.circuit.model import Circuit
from circuitcheck.sizing.ampacity import Surroundings
from circuitcheck.sizing.draws import Assumption

AMBIENT_CELSIUS: Final = 40.0
BUNDLED: Final = 6
DEFAULT = Source("a cautious default of this tool", "common practice")


class Lying(NamedTuple):
    """A wire as sizing sees it. ends: "F1.2-S1.com". gauge: None where the plan says none, or one that no table has
    (`strange` tells it, in mm2). metres: 0 where the plan says nothing."""

    info: WireInfo
    ends: str
    gauge: Gauge | None
    strange: float
    metres: float
    around: Surroundings

    @property
    def name(self) -> str:
        """Its number and its ends."""
        return f"{self.info.number} {self.ends}".strip()

    @property
    def hottest(self) -> float:
        """The temperature that its copper may reach: what its insulation stands, 70 °C where the plan says nothing."""
        return self.around.insulation_celsius or 70.0


def wires_lying(circuit: Circuit) -> tuple[Lying, ...]:
    """Every wire of a circuit with its gauge, length and surroundings."""
    return tuple(_lying(circuit, info) for info in circuit.wires)


def _lying(circuit: Circuit, info: WireInfo) -> Lying:
    said, conductor = circuit.conditions, circuit.conductors[info.conductor]
    ambient = said.ambient_celsius[1] if said.ambient_celsius else AMBIENT_CELSIUS
    insulation = info.insulation_celsius or said.insulation_celsius
    around = Surroundings(ambient, insulation, said.bundled or BUNDLED, said.table)
    area = info.area_mm2 or said.area_mm2
    gauge = gauge_of(area) if area else None
    ends = f"{conductor.tail}-{conductor.head}"
    return Lying(info, ends, gauge, 0.0 if gauge else area, info.metres or said.metres, around)


def surroundings_assumed(circuit: Circuit) -> tuple[Assumption, ...]:
    """What stands in for conditions that the plan lacks."""
    said = circuit.conditions
    found = [Assumption(one.part, one.words, "", Source(one.file, "settings")) for one in circuit.defaulted]
    if said.ambient_celsius is None:
        taken = f"up to {AMBIENT_CELSIUS:g} °C around the wires"
        found.append(Assumption("conditions", taken, "`conditions ambient 5..35 °C`", DEFAULT))
    if said.bundled is None:
        taken = f"{BUNDLED} wires that carry current in one bundle"
        found.append(Assumption("conditions", taken, "`conditions bundled 6 wires`", DEFAULT))
    if said.insulation_celsius is None and any(not info.insulation_celsius for info in circuit.wires):
        taken = "insulation that stands 70 °C on mm² wires (PVC), 60 °C on AWG wires"
        found.append(Assumption("conditions", taken, "`conditions insulation 105 °C`", DEFAULT))
    return tuple(found)
