"""A certificate that was changed in any one place is refused."""

from collections.abc import Iterator
from typing import Any

import pytest

from circuitcheck.certificates.verifier import Refused, seal_of, verify
from circuitcheck.certificates.writing import certificate_of
from circuitcheck.circuit.model import Circuit
from tests.analysis.plans import circuit_of
from tests.certificates.test_certificates import EXAMPLES, as_read, example


def changes(value: Any) -> Iterator[Any]:
    """The value with each one thing in it changed: an entry gone, doubled, of another name, or itself changed."""
    if isinstance(value, dict):
        for key in value:
            yield {other: one for other, one in value.items() if other != key}
            yield {f"{other}x" if other == key else other: one for other, one in value.items()}
            yield {other: None if other == key else one for other, one in value.items()}
            yield from ({**value, key: changed} for changed in changes(value[key]))
        yield dict(reversed(value.items())) if len(value) > 1 else {}
        yield {**value, "more": "| 1"}
    elif isinstance(value, list):
        for place, one in enumerate(value):
            yield value[:place] + value[place + 1 :]
            yield [*value[:place], one, *value[place:]]
            yield from ([*value[:place], changed, *value[place + 1 :]] for changed in changes(one))
        yield value[::-1] if len(value) > 1 else ["more"]
        yield [*value, "more"]
    elif isinstance(value, str):
        yield from changes_of_text(value)
    elif isinstance(value, int):
        yield from ({*range(value + 3)} - {value})
        yield str(value)
    else:
        yield "more"


def changes_of_text(text: str) -> Iterator[str]:
    """Each sign gone, doubled or another one, and each word gone."""
    for place, sign in enumerate(text):
        yield text[:place] + text[place + 1 :]
        yield text[:place] + sign + text[place:]
        yield from (text[:place] + other + text[place + 1 :] for other in "02 |K" if other != sign)
    words = text.split()
    yield from (" ".join([*words[:place], *words[place + 1 :]]) for place in range(len(words)) if len(words) > 1)


def refuses_every_change(circuit: Circuit) -> int:
    """How many changes of its certificate the verifier refuses; a change that it does not refuse fails."""
    certificate, many = as_read(certificate_of(circuit)), 0
    for changed in changes(certificate):
        if changed != certificate:
            with pytest.raises(Refused):
                verify(circuit, changed)
            many += 1
    return many


def refuses_what_is_sealed_anew(circuit: Circuit) -> int:
    """How many changes it refuses that bear a seal of their own; of one that it takes no more comes than is true."""
    certificate = as_read(certificate_of(circuit))
    proved, many = set(verify(circuit, certificate)), 0
    for changed in changes(certificate):
        if changed != certificate:
            try:
                assert proved.issuperset(verify(circuit, {**changed, "seal": seal_of(changed)}))
            except Refused:
                many += 1
    return many


LAMP = """
supply PS 12 V 10 A
fuse   F1 3 A
relay  K1 no coil 12 V 160 ohm with diode
button B1 no
lamp   L1 12 V 2 W
rung   PS.+, F1, B1, K1.A1-A2, PS.-
rung   F1.2, K1.13-14, L1, PS.-
never  L1 lit when B1 released
"""
LARGER = ("dragon_roar", "lighthouse_shutter", "gallery_lift", "dragon_wing", "lighthouse_two_supplies")


def test_a_certificate_changed_in_any_one_place_is_refused() -> None:
    """Any sign of it, any state of any set, any entry gone, doubled, renamed or out of order."""
    assert refuses_every_change(circuit_of(LAMP)) > 500


def test_a_changed_certificate_that_is_sealed_anew_proves_nothing_more() -> None:
    """Nearly all are refused: an equation leaves nothing over."""
    assert refuses_what_is_sealed_anew(circuit_of(LAMP)) > 500


@pytest.mark.slow
@pytest.mark.parametrize("name", LARGER)
def test_a_larger_certificate_changed_in_any_one_place_is_refused(name: str) -> None:
    """Of plans with motors, axes and two supplies."""
    assert refuses_every_change(example(EXAMPLES / "right" / f"{name}.plan")) > 500


@pytest.mark.slow
def test_a_changed_certificate_of_an_example_that_is_sealed_anew_proves_nothing_more() -> None:
    """The dragon's roar."""
    assert refuses_what_is_sealed_anew(example(EXAMPLES / "right" / "dragon_roar.plan")) > 500
