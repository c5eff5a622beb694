"""What a part is, in the words in which one would ask for it over a counter: kind, form, ratings; no brand."""

from collections.abc import Iterator
from typing import Final

from circuitcheck.circuit.catalogue.contacts import single_contacts
from circuitcheck.circuit.model import Circuit, PartInfo

NOUNS: Final = {
    "button": "push button", "estop": "emergency stop button", "limit": "limit switch", "cam": "cam switch",
    "connector": "plug and socket", "strip": "terminal strip", "outside": "contact of another device",
    "port": "joint (splice or terminal) for a module's port",
}  # fmt: skip
CONTACTS: Final = {"no": "make contact", "nc": "break contact", "spdt": "changeover contact"}
"""The terms of IEC 60050-444."""
SWITCHES: Final = {"spst": "1 pole", "dpst": "2 poles", "spdt": "1 pole", "dpdt": "2 poles", "3pdt": "3 poles",
                   "4pdt": "4 poles"}  # fmt: skip
UNITS: Final = (
    ("volts", "V"), ("amps", "A"), ("watts", "W"), ("ohms", "ohm"), ("rpm", "rpm"), ("newton_metres", "N m"),
)  # fmt: skip
"""The quantities that one buys by, in the order in which they are said."""
SWITCHING: Final = ("relay", "switch", "button", "estop", "limit", "cam", "connector", "outside")
"""The kinds of which the ohms are those of their contacts, which nobody asks for."""
ASKED_FOR: Final = (
    ("coil", "coil"), ("", ""), ("contacts", "contacts"), ("stall", "stalled"), ("free", "running free"),
    ("limit", "limits at"), ("withstands", "withstands"), ("resistor", ""),
)  # fmt: skip
"""Keyword of the plan → how a part's quantities after it are called."""


def part_words(circuit: Circuit, info: PartInfo) -> str:
    """ "relay, changeover, 2 poles, coil 12 V 160 ohm, with diode"."""
    bare = "contacts" if info.kind == "relay" else ""
    ratings = (f"{called or bare} {said}".strip() for keyword, called in ASKED_FOR if (said := _said(info, keyword)))
    return ", ".join([NOUNS.get(info.kind, info.kind), *_forms(circuit, info), *ratings, *_besides(circuit, info)])


def _said(info: PartInfo, keyword: str) -> str:
    of_contacts = keyword == "contacts" or (not keyword and info.kind in SWITCHING)
    units = [(name, unit) for name, unit in UNITS if not (of_contacts and name == "ohms")]
    names = ((f"{keyword}_{name}" if keyword else name, unit) for name, unit in units)
    return " ".join(f"{info.ratings[name]:g} {unit}" for name, unit in names if name in info.ratings)


def _forms(circuit: Circuit, info: PartInfo) -> Iterator[str]:
    """What contacts it has, how many ways, what sort of fuse."""
    if info.kind == "switch":
        yield from _switch(circuit, info)
    elif info.kind == "suppressor":
        yield from (word for word in ("varistor", "tvs", "rc", "resistor", "diode") if _is(info, word))
    elif info.kind == "fuse":
        yield "cartridge" if "cartridge" in info.features else "blade"
        yield from (word for word in ("fast", "slow") if word in info.features)
    elif info.kind in ("relay", "button", "estop", "limit", "cam"):
        singles = single_contacts(info.features)
        if singles and set(singles) == {"spdt"}:
            yield from ("changeover", "1 pole" if len(singles) == 1 else f"{len(singles)} poles")
        else:
            counted = ((singles.count(single), words) for single, words in CONTACTS.items())
            yield from (f"{number} {words}{'s' * (number > 1)}" for number, words in counted if number)
    elif "ways" in info.ratings:
        yield f"{info.ratings['ways']:g} ways"


def _is(info: PartInfo, word: str) -> bool:
    return word in info.features or any(name.startswith(f"{word}_") for name in info.ratings)


def _switch(circuit: Circuit, info: PartInfo) -> Iterator[str]:
    digit = next(one for one in circuit.digits if one.name == info.name)
    form = next((SWITCHES[word] for word in info.features if word in SWITCHES), "")
    poles = info.ratings.get("poles", 1)
    yield form or (f"rotary, {poles:g} poles" if poles > 1 else "rotary, 1 pole")
    yield f"{len(digit.values)} positions ({', '.join(digit.values)})"
    if digit.springs_to is not None:
        yield f"springs back to {digit.values[digit.springs_to]}"


def _besides(circuit: Circuit, info: PartInfo) -> Iterator[str]:
    """What is built in, and what makes it special."""
    flags = {"key": "with a key", "make-before-break": "make-before-break", "two-speed": "two-speed"}
    yield from (words for flag, words in flags.items() if flag in info.features)
    if info.kind == "estop" and "momentary" not in info.features:
        yield "stays pressed until it is reset"
    for relay in circuit.relays:
        if relay.name == info.name and relay.function != "plain":
            time = f" {relay.delay_seconds:g} s" if relay.delay_seconds else ""
            yield f"{relay.function}{time}"
            if relay.control is not None:
                yield "with a control input"
    built_in = (one for one in circuit.suppressors if one.built_in and one.part == info.name)
    yield from dict.fromkeys(f"with {one.kind}" + (f" {one.ohms:g} ohm" if one.ohms else "") for one in built_in)
