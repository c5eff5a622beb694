"""A library divided among several jobs, and their reports put together to one."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple, TypeVar

from circuitcheck.library.verdict import Outcome, Unexamined
from circuitcheck.library.verdict_json import Json, problem_of_json, verdict_of_json
from circuitcheck.plan.source import PlanError, Problem, Source
from circuitcheck.plan.text import read_source
from circuitcheck.settings.amiss import LibraryAmiss

One = TypeVar("One")


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
    _all_there(reports)
    outcomes: list[Outcome] = []
    sources: dict[str, Source | None] = {}
    for file, report in reports:
        try:
            outcomes += _outcomes(report, proves, sources)
        except (KeyError, TypeError, ValueError):
            raise LibraryAmiss(f"{file} is no report of this version of circuitcheck") from None
    return sorted(outcomes, key=lambda one: one.file)


def _report(file: str, schema: str) -> Json:
    try:
        with open(file, encoding="utf-8") as opened:
            report = json.load(opened)
    except OSError as error:
        raise LibraryAmiss(f"{file} can't be read: {(error.strerror or str(error)).lower()}") from None
    except ValueError:
        raise LibraryAmiss(f"{file} is no JSON") from None
    if not isinstance(report, dict) or report.get("schema") != schema:
        raise LibraryAmiss(f"{file} is no report of circuitcheck check --format json")
    return report


def _all_there(reports: Sequence[tuple[str, Json]]) -> None:
    """A shard that got lost must not look like one in which nothing was found."""
    shards = [(file, Shard(*report["shard"].values())) for file, report in reports if "shard" in report]
    if not shards:
        return
    of = shards[0][1].of
    numbers = [shard.number for _, shard in shards]
    missing = [str(number) for number in range(1, of + 1) if number not in numbers]
    if len(shards) < len(reports) or any(shard.of != of for _, shard in shards) or len(set(numbers)) < len(numbers):
        raise LibraryAmiss("These reports are not the shards of one run")
    if missing:
        raise LibraryAmiss(f"of {of} shards {', '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing")


def _outcomes(report: Json, proves: dict[str, str], sources: dict[str, Source | None]) -> list[Outcome]:
    outcomes: list[Outcome] = []
    for plan in report["plans"]:
        verdict = verdict_of_json(plan, (), proves)
        files = dict.fromkeys(place.file for finding in verdict.findings for place in finding.where)
        outcomes.append(verdict._replace(sources=_sources(files, sources)))
    problems: dict[str, list[Problem]] = {}
    for one in report.get("problems", []):
        problems.setdefault(one["plan"], []).append(problem_of_json(one))
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
