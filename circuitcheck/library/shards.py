"""A library divided among several jobs, and their reports put together to one."""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, TypeVar

from circuitcheck.library.json_values import Json, count, each, text
from circuitcheck.library.verdict import Outcome, Unexamined
from circuitcheck.library.verdict_json import problem_of_json, verdict_of_json
from circuitcheck.plan.source import PlanError, Problem, Source
from circuitcheck.plan.text import read_source
from circuitcheck.settings.amiss import LibraryAmiss

One = TypeVar("One")

MOST_SHARDS = 10_000


class Shard(NamedTuple):
    """The `number`th (from 1) of so many jobs."""

    number: int
    of: int

    def part(self, everything: Sequence[One]) -> list[One]:
        """What this job has to do: every so manieth, as plans that lie side by side take about as long."""
        return list(everything[self.number - 1 :: self.of])


def read_shard(text: str) -> Shard:
    """What "2/4" means. Raises ValueError."""
    number, slash, of = text.partition("/")
    if not slash or not 1 <= int(number) <= int(of):
        raise ValueError(text)
    return Shard(int(number), int(of))


def joined(files: Sequence[str], proves: dict[str, str], schema: str) -> list[Outcome]:
    """The outcomes in several JSON reports of `check`, in the order of their plans' files.

    proves: what each check proves, by name. schema: of the reports. Raises LibraryAmiss also where a shard is missing.
    """
    reports = [(file, _report(file, schema)) for file in files]
    _all_there([_understood(file, report, _shard) for file, report in reports])
    outcomes: list[Outcome] = []
    sources: dict[str, Source | None] = {}
    for file, report in reports:
        outcomes += _understood(file, report, lambda one: _outcomes(one, proves, sources))
    return sorted(outcomes, key=lambda one: one.file)


def _report(file: str, schema: str) -> Json:
    try:
        with open(file, encoding="utf-8") as opened:
            report = json.load(opened)
    except OSError as error:
        raise LibraryAmiss(f"{file} can't be read: {(error.strerror or str(error)).lower()}") from None
    except (ValueError, RecursionError):
        raise LibraryAmiss(f"{file} is no JSON") from None
    if not isinstance(report, dict) or report.get("schema") != schema:
        raise LibraryAmiss(f"{file} is no report of circuitcheck check --format json")
    return report


def _understood(file: str, report: Json, read: Callable[[Json], One]) -> One:
    try:
        return read(report)
    except (KeyError, TypeError, ValueError):
        raise LibraryAmiss(f"{file} is no report of this version of circuitcheck") from None


def _shard(report: Json) -> Shard | None:
    if "shard" not in report:
        return None
    number, of = count(report["shard"], "number"), count(report["shard"], "of")
    if not 1 <= number <= of <= MOST_SHARDS:
        raise ValueError(of)
    return Shard(number, of)


def _all_there(found: Sequence[Shard | None]) -> None:
    """A shard that got lost must not look like one in which nothing was found."""
    shards = [shard for shard in found if shard]
    if not shards:
        return
    of = shards[0].of
    numbers = [shard.number for shard in shards]
    missing = [str(number) for number in range(1, of + 1) if number not in numbers]
    if len(shards) < len(found) or any(shard.of != of for shard in shards) or len(set(numbers)) < len(numbers):
        raise LibraryAmiss("These reports are not the shards of one run")
    if missing:
        raise LibraryAmiss(f"of {of} shards {', '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing")


def _outcomes(report: Json, proves: dict[str, str], sources: dict[str, Source | None]) -> list[Outcome]:
    outcomes: list[Outcome] = []
    for verdict in each(report, "plans", lambda plan: verdict_of_json(plan, (), proves)):
        files = dict.fromkeys(place.file for finding in verdict.findings for place in finding.where)
        outcomes.append(verdict._replace(sources=_sources(files, sources)))
    problems: dict[str, list[Problem]] = {}
    for plan, problem in each(
        {"problems": [], **report}, "problems", lambda one: (text(one, "plan"), problem_of_json(one))
    ):
        problems.setdefault(plan, []).append(problem)
    for file, found in problems.items():
        files = dict.fromkeys(problem.place.file for problem in found)
        outcomes.append(Unexamined(file, PlanError(tuple(found), _sources(files, sources))))
    return outcomes


def _sources(files: dict[str, None], known: dict[str, Source | None]) -> tuple[Source, ...]:
    """The lines of those files that are there; reports do without the others."""
    for file in files:
        if file not in known:
            found = read_source(Path(file), file)
            known[file] = None if isinstance(found, Problem) else found
    return tuple(source for file in files if (source := known[file]))
