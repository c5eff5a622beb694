"""`circuitcheck size`: whether wires, fuses, contacts and the rest can take what flows."""

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, CLEAN, FOUND, Command, add_library, add_plan
from circuitcheck.commands.output import Writer, add_outputs, in_lines, outputs_of, plainly, progress, write_all

if TYPE_CHECKING:
    from circuitcheck.reports.size_asking import Sizes

ABOUT = f"""\
Tells for each wire, fuse, contact, pin, diode, suppressor, resistor and supply
the most that flows in all states that operation reaches (running, starting,
with a motor held fast), what it can take, and whether that fits; the volts
lost on the way to each motor; and which size would do.

examples:
  circuitcheck size drawbridge.plan
  circuitcheck size drawbridge.plan --explain w8          its arithmetic
  circuitcheck size drawbridge.plan --explain K2.11-M1.+  the same, by its ends
  circuitcheck size --format json=sizes.json drawbridge.plan

what the plan can say for it, all of it optional:
  conditions ambient 5..35 °C, insulation 105 °C, bundled 6 wires
  supply PS 12 V 10 A internal 50 mohm limit 12 A
  relay  K1 dpdt coil 12 V 160 ohm contacts 10 A 30 V 50 mohm
  fuse   F1 7.5 A blade            or cartridge fast, cartridge slow
  motor  M1 12 V stall 18 A 6 N m free 1.5 A 40 rpm
  wire   PS.+ F1.1 : 1.5 mm2 0.4 m 105 °C

which table says what a wire may carry:
  gauges in mm²    IEC 60204-1 Table 6, method B2 (cable in conduit), PVC
  gauges in AWG    33 CFR 183.425 Table 5, by the insulation's temperature
  others           700 circular mils for each ampere
Both tables are cut for the ambient and for the bundle. Where the plan doesn't
say, 40 °C and 6 wires in a bundle are taken; the report says so.

exit status:
  0  nothing is too small or too large (what isn't declared is listed)
  1  something is, or operation shorts a supply
  2  the plan can't be read or has no exact answer, or the call is wrong

{CAUTIONS}"""


def _add(parser: ArgumentParser) -> None:
    add_plan(parser)
    help = "the arithmetic of one wire, by its number (w12) or its ends (F1.2-S1.com)"
    parser.add_argument("--explain", metavar="WIRE", help=help)
    add_library(parser)
    add_outputs(parser, ("text", "json"))


def _run(options: Namespace) -> int:
    from circuitcheck.reports.size_asking import asked_sizes

    outputs = outputs_of(options)
    with progress() as doing:
        doing(options.plan)
        sizes = asked_sizes(Path(options.plan), tuple(options.library))
    write_all(options, outputs, lambda name: _writer(name, sizes, options.explain))
    return CLEAN if sizes.sizing.fits else FOUND


def _writer(name: str, sizes: "Sizes", explain: str | None) -> Writer:
    from circuitcheck.reports.size_asking import wire_asked
    from circuitcheck.reports.size_explaining import explained_json, explained_lines
    from circuitcheck.reports.size_json import size_json
    from circuitcheck.reports.size_text import size_lines

    if explain is not None:
        wire = wire_asked(sizes, explain)
        if name == "json":
            return plainly(explained_json(sizes, wire))
        return in_lines(lambda width: explained_lines(sizes, wire, width))
    return plainly(size_json(sizes)) if name == "json" else in_lines(lambda width: size_lines(sizes, width))


COMMAND = Command("tell whether wires, fuses and contacts can take what flows", ABOUT, _add, _run)
