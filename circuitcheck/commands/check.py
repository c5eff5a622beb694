"""`circuitcheck check`: what is wrong with plans."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck.commands.command import CAUTIONS, WRONG, Command, WrongCall, add_library
from circuitcheck.commands.outcomes import add_telling, tell_outcomes
from circuitcheck.commands.output import counting, outputs_of, remark

if TYPE_CHECKING:
    from circuitcheck.library.asking import Asked
    from circuitcheck.library.cache import Cache
    from circuitcheck.library.shards import Shard

ABOUT = f"""\
Looks through every combination of contacts in each plan, and through all that
operation can lead to, and tells what is wrong: where in the plan, which way
the current runs, how to see it happen, and what to do about it.

examples:
  circuitcheck check drawbridge.plan
  circuitcheck check plans/                  every *.plan in there, folders too
  circuitcheck check --fail-on error plans/  warnings are told, but don't fail
  circuitcheck check --format text --format json=findings.json drawbridge.plan
  circuitcheck check - < drawbridge.plan     a plan that is piped in
  circuitcheck check --format github --format sarif=circuitcheck.sarif plans/
                                             for a CI service
  circuitcheck check --changed-since origin/main plans/
                                             only what a change touches
  circuitcheck check --shard 2/4 --format json=2.json plans/
                                             one of four jobs side by side
  circuitcheck check --baseline old.json plans/
                                             only new findings fail
  circuitcheck check --certificate deck.certificate drawbridge.plan
                                             proofs that a program of one file
                                             confirms (see below)

formats:
  text, json   for reading, and for programs of your own
  lines        file:line:column: severity: check: text, for editors
  markdown     the summary of a CI job, or a comment on a pull request
  github       annotations of GitHub Actions
  gitlab       code quality report of GitLab
  junit        JUnit XML: a suite for each plan, a case for each check
  sarif        SARIF 2.1.0, for code scanning

settings: the nearest circuitcheck.toml, or pyproject.toml with the table
[tool.circuitcheck], from the plan's folder upward to its repository's:
  fail-on = "error"                    the failing severity
  library = ["parts"]                  folders of shared parts
  [checks]                             on (true) or off (false), everywhere
  idle-contact = false
  [paths."old/*"]                      the same for plans there
  supply-without-fuse = false
  [defaults]                           what plans take that don't say
  supply = "10 A internal 50 mohm"
  ambient = "5..35 °C"
  table = "IEC 60204-1"                the sizes that `size` proposes

accepting: in the plan, with the reason (circuitcheck explain unused-acceptance)
  accept unbraked-stop on M2 because "a fan may run on"

certificate: what each check proves, as sets of states from which it follows:
  python -m circuitcheck.certificates.verifier drawbridge.plan deck.certificate
confirms it with none of the engine's code. What has no certificate is told.

cache: a plan that nothing has changed for, nor for what it uses, isn't
examined again; its verdict is kept in your own cache folder.

exit status:
  0  nothing at or above the failing severity
  1  findings at or above it
  2  a plan can't be read or has no exact answer, or the call is wrong

severities:
  error    it happens in operation and does harm
  warning  a fault in waiting, or a part that does nothing
  note     worth knowing; so is all that operation never gets to by itself

{CAUTIONS}"""


SEVERITIES = ("error", "warning", "note")


def _add(parser: ArgumentParser) -> None:
    help = "a plan, a folder of plans, or - for one that is piped in"
    parser.add_argument("plans", nargs="+", metavar="PLAN", help=help)
    help = "the least severity that gives exit status 1 (usually warning: a right plan has none)"
    parser.add_argument("--fail-on", choices=SEVERITIES, help=help)
    add_library(parser)
    help = "only plans that a change since this revision touches, also through what they use"
    parser.add_argument("--changed-since", metavar="REVISION", help=help)
    help = "the Kth of N parts of the plans, for jobs side by side; `circuitcheck join` puts their JSON together"
    parser.add_argument("--shard", type=_shard, metavar="K/N", help=help)
    parser.add_argument("--no-cache", action="store_true", help="examine every plan anew, and keep nothing")
    help = "write what proves the verdict of one plan, for the verifier"
    parser.add_argument("--certificate", metavar="FILE", help=help)
    add_telling(parser)


def _shard(text: str) -> "Shard":
    from circuitcheck.library.shards import read_shard

    try:
        return read_shard(text)
    except ValueError:
        raise ArgumentTypeError(f'"{text}" is no part of a whole, like 2/4') from None


def _run(options: Namespace) -> int:
    from circuitcheck.library.checking import check_all

    outputs = outputs_of(options)
    asked = _asked(options)
    if options.certificate is not None and (len(asked) != 1 or asked[0].file == "-"):
        raise WrongCall("a certificate is about one plan in a file; name just that one")
    with counting() as hear:
        outcomes = check_all(asked, None if options.no_cache else _cache(), hear)
    status = tell_outcomes(options, outputs, outcomes, options.shard)
    if options.certificate is not None and status != WRONG:
        _certify(options.certificate, asked[0])
    return status


def _asked(options: Namespace) -> "list[Asked]":
    from circuitcheck.library.asking import plans_asked

    asked = plans_asked(options.plans, tuple(options.library), options.fail_on or "")
    if options.changed_since is not None:
        asked = _touched(asked, options.changed_since)
    return options.shard.part(asked) if options.shard else asked


def _certify(file: str, asked: "Asked") -> None:
    """Writes the certificate of a plan, and tells check by check what it proves and what it doesn't."""
    from circuitcheck.certificates.verifier import claims_by_check
    from circuitcheck.certificates.writing import certificate_of, certificate_text
    from circuitcheck.circuit.building import build_circuit
    from circuitcheck.plan.reading import read_plan

    circuit = build_circuit(read_plan(Path(asked.file), asked.roots))
    certificate = certificate_of(circuit)
    with open(file, "w", encoding="utf-8", newline="\n") as stream:
        stream.write(certificate_text(certificate))
    left = certificate["without certificate"]
    remark(f"{file} proves, as the verifier confirms, of what each check claims:")
    for check, claims in sorted(claims_by_check(circuit).items()):
        over = [claim for claim in claims if claim in left]
        told = f"{len(claims) - len(over)} of {len(claims)}" if claims else "nothing to prove"
        remark(f"  {check:<22}{told}")
        for claim in over:
            remark(f"    no certificate: {claim}")


def _touched(asked: "list[Asked]", revision: str) -> "list[Asked]":
    from circuitcheck.library.changes import Untold, changes_since, touched

    try:
        changed = touched(asked, changes_since(revision))
    except Untold as error:
        remark(f"{error}, so every plan is checked.")
        return asked
    remark(f"{len(changed)} of {len(asked)} plans are touched by what changed since {revision}.")
    return changed


def _cache() -> "Cache":
    from circuitcheck.library.cache import Cache
    from circuitcheck.plan.grammar import cache_folder

    return Cache(cache_folder())


COMMAND = Command("tell what is wrong with plans", ABOUT, _add, _run)
