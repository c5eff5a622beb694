"""What a plan takes from its library's settings where it says nothing itself, and how reports tell of it."""

from collections.abc import Iterable

from circuitcheck.circuit.catalogue.attributes import Given
from circuitcheck.circuit.figures import Defaulted
from circuitcheck.circuit.units import Measure, measure, written
from circuitcheck.plan.syntax import Attribute


def not_said(defaults: Iterable[Attribute], given: Given) -> tuple[Attribute, ...]:
    """Those of the defaults that `given` says nothing about."""
    return tuple(one for one in defaults if not _is_said(one, given))


def taken(part: str, defaults: tuple[Attribute, ...], file: str) -> tuple[Defaulted, ...]:
    """That a part takes them; nothing where there are none."""
    words = " ".join(f"{one.keyword} {written(one.quantities[0])}".strip() for one in defaults)
    return (Defaulted(part, words, file),) if defaults else ()


def _is_said(default: Attribute, given: Given) -> bool:
    if default.keyword:
        return given.has(default.keyword)
    found = measure(default.quantities[0])
    return isinstance(found, Measure) and given.value("", found.dimension) is not None
