"""Answers → a plan that says what it does and why, laid out and commented.

Every motor is driven over relays that, released, short it on itself: it stops at once, when it is told to, at a limit,
in an emergency and when the power fails. What stays where it is put doesn't start a motor when the power returns:
somebody has to press START.
"""

from collections.abc import Iterator

from circuitcheck.beginning.answers import Answers
from circuitcheck.beginning.drives import Drive, drives_of, feed
from circuitcheck.layout.tidying import tidied
from circuitcheck.plan.source import PlanError, Source
from circuitcheck.plan.text import source_of_text

COIL_OHMS = {"12": 90, "24": 430}
"""Of the usual cube relay; common practice, no source."""


def composed(answers: Answers) -> str:
    """The text of the plan."""
    drives = drives_of(answers)
    blocks = [
        [*_head(answers)],
        [f"plan {answers.name}"],
        [*_shared_parts(answers), *_relays(answers, drives)],
        *(list(drive.parts) for drive in drives),
        [*_feed(answers)],
        *(list(drive.rungs) for drive in drives),
        [*_promises(answers, drives)],
    ]
    text = "\n\n".join("\n".join(block) for block in blocks if block) + "\n"
    source = source_of_text(f"{answers.name}.plan", text)
    if not isinstance(source, Source):
        raise PlanError((source,), ())
    return tidied(source)


def _head(answers: Answers) -> Iterator[str]:
    yield f"# {answers.name}: begun with `circuitcheck begin`. Change it to what you have; check it after each change."
    yield "#"
    yield "# Before you solder: put in your motor's stall current and the ohms of your relays' coils: measure both."
    yield "# Choose the fuse for the thinnest wire behind it, and say what wires are: `wire A B : 1.5 mm2 red 0.4 m`."


def _shared_parts(answers: Answers) -> Iterator[str]:
    yield f"supply PS {answers.volts} V 20 A"
    yield "fuse F1 15 A"
    if answers.estop == "yes":
        yield "estop ES1 nc"
    if answers.needs_start:
        yield "button START no"


def _relays(answers: Answers, drives: tuple[Drive, ...]) -> Iterator[str]:
    """Each with its diode built in, cathode at A1, which is why A1 is always the end toward plus."""
    coil = f"coil {answers.volts} V {COIL_OHMS[answers.volts]} ohm with diode"
    for relay in (relay for drive in drives for relay in drive.relays):
        yield f'relay {relay.name} {relay.contacts} {coil} {relay.times} "{relay.label}"'
    if answers.needs_start:
        # Slower than a relay that a controller's contact works, which has to be there first.
        yield f'relay KR dpdt 5 A {coil} operate 12..20 ms release 2..6 ms "ready"'


def _feed(answers: Answers) -> Iterator[str]:
    if answers.estop == "yes":
        yield "# The emergency stop cuts motors and coils alike."
        yield "rung PS.+, F1, ES1"
    else:
        yield "rung PS.+, F1"
    if answers.needs_start:
        yield "# START pulls in KR, which then holds itself; a power failure or the emergency stop lets it go."
        yield f"rung {feed(answers)}, ( START | KR.11-14 ), KR.A1-A2, PS.-"
        yield f"rung {feed(answers)}, KR.21"


def _promises(answers: Answers, drives: tuple[Drive, ...]) -> Iterator[str]:
    yield "# What this plan promises; `circuitcheck check` holds it to that."
    for drive in drives:
        yield f"expect {drive.motor} braked when PS off"
        if answers.estop == "yes":
            yield f"expect {drive.motor} braked when ES1 pressed"
            yield f"after ES1 pressed within settling {drive.motor} stopped"
        yield from drive.promises
        yield f"never {drive.motor} starts when power returns"
