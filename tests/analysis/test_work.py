"""A plan whose decision diagrams take too much work ends without a verdict, and is told why."""

import pytest

from circuitcheck.analysis import diagrams
from circuitcheck.analysis.states import INTEGERS, Spaces, TooMuchWork
from circuitcheck.cli import main
from circuitcheck.examination import examine_plan
from circuitcheck.plan.reading import read_text
from circuitcheck.plan.source import PlanError
from tests.benchmarks.panels import chain

RING = "supply PS 12 V 10 A\nfuse F1 5 A\nwire PS.+ F1.1\n" + "".join(
    f"relay K{n} dpdt coil 12 V 160 ohm with diode\nbutton B{n} no\n"
    f"rung F1.2, ( B{n} | K{(n + 1) % 10}.11-14 ), K{(n + 7) % 10}.21-22, K{n}.A1-A2, PS.-\n"
    for n in range(10)
)
"""Ten relays, each held by the next and locked out by another: all hang together."""


@pytest.fixture
def little(monkeypatch: pytest.MonkeyPatch) -> None:
    """Next to no work is taken."""
    monkeypatch.setattr(diagrams, "MOST_STEPS", 1_000_000)


@pytest.mark.usefixtures("little")
def test_too_much_work_is_told_with_what_was_asked() -> None:
    """No verdict, and which check it was."""
    with pytest.raises(PlanError) as told:
        examine_plan(read_text("ring.plan", RING), 0.0)
    (problem,) = told.value.problems
    assert problem.what.startswith("looking for ")
    assert problem.what.endswith(" takes more than 1,000,000 steps of work, and no more are taken")
    assert problem.help.startswith("No verdict is given: nothing is guessed or sampled.")


@pytest.mark.usefixtures("little")
def test_it_is_told_at_the_very_same_check_each_time() -> None:
    """Work is counted, not timed."""
    told = set()
    for _ in range(2):
        with pytest.raises(PlanError) as error:
            examine_plan(read_text("ring.plan", RING), 0.0)
        told.add(error.value.problems)
    assert len(told) == 1


def turned_often(states: int, times: int) -> int:
    """A set turned into its opposite and back, so many times."""
    for _ in range(times):
        states = ~states
    return states


def test_work_is_counted_anew_where_something_else_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """What took too much before does not stand in the way of what is asked next."""
    monkeypatch.setattr(diagrams, "MOST_STEPS", 10_000)
    spaces = Spaces((2,) * 40, INTEGERS)
    wide = spaces.where(0, (1,)).over(spaces.of(range(40)))
    with pytest.raises(TooMuchWork):
        turned_often(wide, 1_000)
    spaces.begin_counting()
    assert turned_often(wide, 60) == wide


def test_which_check_is_at_work_is_heard() -> None:
    """In the order in which they run, after what operation reaches."""
    heard: list[str] = []
    examine_plan(read_text("chain.plan", chain(1)), 0.0, hear=heard.append)
    assert heard[0] == "counting what operation reaches"
    assert "looking for supply-short" in heard
    assert heard[1:] == sorted(heard[1:])


def test_nothing_is_told_where_nobody_sits_before_the_screen(
    capsys: pytest.CaptureFixture[str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """stderr is no terminal here."""
    file = tmp_path_factory.mktemp("work") / "chain.plan"
    file.write_text(chain(1), encoding="utf-8")
    main(["check", "--no-cache", str(file)])
    assert capsys.readouterr().err == ""
