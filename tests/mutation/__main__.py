"""Changes one thing at a time in analysis/ and checks/, and tells which changes no test notices.

    python -m tests.mutation --sample 1000 --seed 1 --processes 2
    python -m tests.mutation --at circuitcheck/analysis/links.py:123

The mutants are a random sample of all of them, the same for the same seed. Tests and modules are imported once; a child
is forked for each mutant, in which the functions concerned get the changed code. There the tests run that come to the
changed line, the quickest and most direct first; the first that fails ends it. A mutant that goes on for ever, or wants
memory without end, counts as noticed. Slow tests don't run, and no more tests than usually take `--seconds`: a mutant
that these pass counts as unnoticed. So does what only tests in processes of their own would notice. What was left, and
why, stands in SURVIVORS.md. Which test comes to which line is measured first, which takes some minutes, and kept.
"""

import argparse
import ast
import gc
import importlib
import os
import pkgutil
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import partial
from math import sqrt
from pathlib import Path
from random import Random
from types import CodeType, FunctionType
from typing import NamedTuple

import pytest
from hypothesis import given, settings, strategies

import circuitcheck
from circuitcheck.plan import parsing
from circuitcheck.plan.grammar import load_parser
from tests.mutation.children import Killed, answers, limit
from tests.mutation.coming import TOP, Run, files, passes, runs
from tests.mutation.mutants import Mutant, compiled, mutants

USED_LATE = ("networkx", "numpy", "oxidd.bdd", "pysat.examples.rc2")
"""What the package imports only where it needs it: here that would be once for each mutant."""

TESTS = (
    *("analysis", "checks", "judge", "reference", "sizing", "certificates", "remedies", "paper", "reports"),
    *("test_examples.py", "test_stories.py", "test_cli.py"),
)
"""All that are about what the rooms find out; what else comes to them does so on its way."""


class Site(NamedTuple):
    """A mutant and where it is; tree: the file that it belongs to."""

    file: Path
    tree: ast.Module
    mutant: Mutant

    def __str__(self) -> str:
        return f"{self.file.relative_to(TOP)}:{self.mutant.line}: {self.mutant.what}"


class Options(NamedTuple):
    """What is asked for on the command line."""

    sample: int
    seed: int
    processes: int
    seconds: float
    kept: Path
    at: list[str]


class Trying:
    """Takes the place of pytest's own run of the tests that it has collected."""

    def __init__(self, options: Options, tables: Path) -> None:
        self._options = options
        self._tables = tables

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        for module in pkgutil.walk_packages(circuitcheck.__path__, "circuitcheck."):
            if not module.name.endswith("__main__"):
                importlib.import_module(module.name)
        for name in USED_LATE:
            importlib.import_module(name)
        # The tests have an empty cache in each child, and to work out the tables takes longer than most tests.
        vars(parsing)["load_parser"] = partial(load_parser, folder=self._tables)
        load_parser(None, self._tables)
        _draws_something()
        functions = _functions()
        # What a collector would look through in each child, and so make copies of.
        gc.collect()
        gc.freeze()
        known = runs(session.items, self._options.kept, self._options.processes)
        _try_all(self._options, session.items, known, functions)
        return True


def main() -> None:
    """Tells each survivor, and the share of mutants that were noticed with its margin (95 %)."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--sample", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=20, help="of tests for each mutant")
    parser.add_argument("--kept", type=Path, default=Path(tempfile.gettempdir()) / "circuitcheck-lines-of-tests",
                        help="file that keeps which test comes to which line")  # fmt: skip
    parser.add_argument("--at", nargs="*", default=[], metavar="FILE[:LINE]", help="all mutants there, no sample")
    options = Options(**vars(parser.parse_args()))
    os.chdir(TOP)
    os.environ["HYPOTHESIS_PROFILE"] = "noticing"
    with tempfile.TemporaryDirectory() as tables:
        plugin = Trying(options, Path(tables))
        status = pytest.main(
            [*(f"tests/{room}" for room in TESTS), "-n0", "-s", "-p", "no:cacheprovider", "-p", "no:faulthandler"],
            plugins=[plugin],
        )
    sys.exit(status)


def _try_all(
    options: Options, tests: Sequence[pytest.Item], known: dict[str, Run], functions: dict[str, list[FunctionType]]
) -> None:
    every = list(_sites())
    if options.at:
        chosen = [site for site in every if any(str(site).startswith(f"{place}:") for place in options.at)]
    else:
        chosen = Random(options.seed).sample(every, min(options.sample, len(every)))
    timed = [(test, known[test.nodeid]) for test in tests if test.nodeid in known]

    def noticing(site: Site) -> str | None:
        put_in(compiled(site.tree, site.mutant, str(site.file)), functions[str(site.file)])
        return _noticing(list(_coming_to(site, timed, options.seconds)))

    survived = stopped = 0
    for tried, (site, noticed) in enumerate(answers(noticing, chosen, options.processes), 1):
        stopped += isinstance(noticed, Killed)
        if noticed is None:
            survived += 1
            print(f"{site}  {ast.unparse(site.mutant.node).splitlines()[0]}", flush=True)
        if tried % 50 == 0 or tried == len(chosen):
            share = 1 - survived / tried
            margin = 1.96 * sqrt(share * (1 - share) / tried)
            print(
                f"{tried} of {len(every):,} mutants tried, {share:.1%} ± {margin:.1%} noticed,"
                f" {stopped} of them by going on for too long",
                flush=True,
            )


def _sites() -> Iterator[Site]:
    for file in files():
        tree = ast.parse(file.read_text(encoding="utf-8"))
        for mutant in mutants(tree):
            yield Site(file, tree, mutant)


def _coming_to(
    site: Site, timed: Sequence[tuple[pytest.Item, Run]], seconds: float
) -> Iterator[tuple[pytest.Item, float]]:
    """The tests that come to a mutant with the time that each usually takes, best first, within the time in all."""
    coming = [(test, run) for test, run in timed if run.comes_to(site.file, site.mutant.lines)]
    for test, run in sorted(coming, key=lambda one: one[1].detour(site.file)):
        seconds -= run.seconds
        yield test, run.seconds
        if seconds < 0:
            return


def _noticing(tests: Sequence[tuple[pytest.Item, float]]) -> str | None:
    """The first of the tests that fails."""
    for number, (test, usual) in enumerate(tests):
        limit(2 + 5 * usual)
        if not passes(test, tests[number + 1][0] if number + 1 < len(tests) else None):
            return test.nodeid
    return None


def put_in(module: CodeType, functions: Sequence[FunctionType]) -> None:
    """Gives functions of a file the code that they have in another form of it; whoever imported them has that too."""
    codes = {(code.co_qualname, code.co_firstlineno): code for code in _codes_within(module)}
    for function in functions:
        function.__code__ = codes[function.__code__.co_qualname, function.__code__.co_firstlineno]


def _codes_within(code: CodeType) -> Iterator[CodeType]:
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield part
            yield from _codes_within(part)


@settings(max_examples=1)
@given(strategies.integers())
def _draws_something(_: int) -> None:
    """At the first draw hypothesis looks for constants in all the modules that there are."""


def _functions() -> dict[str, list[FunctionType]]:
    """All functions that there are, by the file that they stand in."""
    found = defaultdict(list)
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType):
            found[thing.__code__.co_filename].append(thing)
    return found


if __name__ == "__main__":
    main()
