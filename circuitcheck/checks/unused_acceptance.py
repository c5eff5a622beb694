"""An `accept` statement that there is nothing to accept for."""

from collections.abc import Iterator

from circuitcheck.analysis.facts import Facts
from circuitcheck.checks.check import Check, Evidence, Example, Finding
from circuitcheck.circuit.wording import suggestion
from circuitcheck.plan.syntax import Acceptance

CHECK = Check(
    name="unused-acceptance",
    severity="warning",
    finds="An `accept` statement whose check finds nothing on that part, or that names no check.",
    proves="Each `accept` statement still has something that it accepts.",
    why="Left in the plan, it would hide the same fault when a later change brings it back.",
    how="The check that is named is looked at for findings that the part belongs to. Where that check is turned off, "
    "nothing is said. A module's acceptance is used where any fit of the module in this plan needs it.",
    remedy="Take the statement away, or correct the name of the check or of the part.",
    limits="In a file that is used, one that this plan doesn't need is a note: another plan may need it.",
    wrong=(
        Example(
            "the fan was given a brake, and the acceptance was left behind",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            relay  K1 spdt coil 12 V 160 ohm with diode
            motor  M1 12 V stall 3 A
            rung   PS.+, F1, PB1, K1.A1-A2, PS.-
            rung   F1.2, K1.14-11, M1, PS.-
            wire   K1.12 PS.-
            accept unbraked-stop on M1 because "a fan may run on"   #! unused-acceptance
            """,
        ),
        Example(
            "a check of that name does not exist",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, L1, PS.-
            accept unbraked-stops on L1 because "it is a lamp"      #! unused-acceptance
            """,
        ),
    ),
    right=(
        Example(
            "a fan that may run on, said beside it with the reason",
            """
            supply PS 12 V 10 A
            fuse   F1 5 A
            button PB1 no
            motor  M1 12 V stall 3 A may coast
            lamp   L1 12 V 2 W
            rung   PS.+, F1, PB1, M1, PS.-
            rung   F1.2, L1, PS.-
            accept load-always-on on L1 because "it shows that the power is on"
            """,
        ),
    ),
)


def find(facts: Facts) -> Iterator[Evidence]:
    """Statement by statement; one in a module stands for all fits of that module."""
    statements: dict[object, list[Acceptance]] = {}
    for acceptance in facts.circuit.acceptances:
        statements.setdefault(acceptance.place, []).append(acceptance)
    found: dict[str, tuple[Finding, ...] | None] = {}
    for alike in statements.values():
        name = alike[0].check.text
        if name not in found:
            found[name] = _findings_of(facts, name)
        parts = tuple(one.part.text for one in alike)
        findings = found[name]
        if findings is None:
            yield _of_no_check(alike[0], parts)
        elif not any(part in finding.parts for finding in findings for part in parts):
            used = alike[0].place.file != facts.circuit.file
            what = f"{parts[0]} has {name} accepted, and {name} finds nothing there"
            yield Evidence(what=what, parts=parts, places=(alike[0].place,), severity="note" if used else "")


def _findings_of(facts: Facts, name: str) -> tuple[Finding, ...] | None:
    """What the check of that name finds; None where there is no such check, or where it is this one."""
    from circuitcheck.checks.registry import all_checks, findings_of

    check = next((one for one in all_checks() if one.check.name == name != CHECK.name), None)
    return tuple(findings_of(facts, check)) if check else None


def _of_no_check(acceptance: Acceptance, parts: tuple[str, ...]) -> Evidence:
    from circuitcheck.checks.registry import check_names

    name = acceptance.check.text
    what = f"{parts[0]} has {name} accepted, which is no check that can be accepted"
    names = [one for one in check_names() if one != CHECK.name]
    return Evidence(what=what, parts=parts, places=(acceptance.check.place,), remedy=suggestion(name, names))
