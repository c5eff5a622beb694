"""The resistance of a load, from whichever of its ratings the plan gives."""

from circuitcheck.circuit.catalogue.attributes import Given

LOAD_DIMENSIONS = ("volts", "ohms", "watts", "amps")


def resistance(given: Given, keyword: str, volts: float) -> float | None:
    """Ohms at rated volts: as given, or from watts or amps; None where the plan gives none of them."""
    ohms, watts, amps = (given.value(keyword, dimension) for dimension in ("ohms", "watts", "amps"))
    if ohms is not None:
        return ohms
    if watts is not None:
        return volts**2 / watts
    return volts / amps if amps is not None else None
