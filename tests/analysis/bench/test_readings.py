"""When two readings count as different, at the very limits."""

from math import inf

from circuitcheck.analysis.bench.readings import (
    LEAST_OHMS,
    LEAST_RATIO,
    MOST_OHMS,
    SLACK,
    UNSETTLED,
    alike,
    is_open,
    shows_apart,
    told_apart,
)


def test_ohms_are_told_apart_by_more_than_an_ohm_and_more_than_a_share() -> None:
    """What is just as far apart isn't far enough, whichever is named first."""
    for low, high, apart in (
        (0.0, LEAST_OHMS + SLACK, False),
        (0.0, LEAST_OHMS + SLACK / 2, False),
        (0.0, 1.1, True),
        (10.0, LEAST_RATIO * 10.0 + SLACK, False),
        (10.0, 13.1, True),
        (2.0, 2.9, False),
    ):
        assert told_apart(low, high) is told_apart(high, low) is apart, (low, high)


def test_volts_of_different_signs_are_told_apart_by_more_than_a_volt() -> None:
    """Close to nothing, a sign is no difference."""
    assert [told_apart(-0.5, 0.5), told_apart(-0.5, 0.75), told_apart(-12.0, 12.0)] == [False, True, True]


def test_more_ohms_than_a_meter_shows_are_all_one() -> None:
    """The most that it shows is another reading, which is no open circuit."""
    assert told_apart(MOST_OHMS, inf)
    assert not told_apart(2 * MOST_OHMS, inf)
    assert not told_apart(MOST_OHMS / 1.2, MOST_OHMS)
    assert [is_open(one) for one in (MOST_OHMS, MOST_OHMS + 1, inf, "dark")] == [False, True, True, False]


def test_what_is_not_steady_shows_nothing_for_sure() -> None:
    """A word against a figure does."""
    assert not shows_apart("lit", UNSETTLED)
    assert shows_apart("lit", "dark")
    assert shows_apart("lit", 12.0)
    assert not shows_apart(12.0, 12.5)


def test_readings_that_run_into_each_other_are_one_group() -> None:
    """Numbers from low to high, then words, each once."""
    read: list[float | str] = [72.0, "lit", 5.0, 72.5, 5.5, "dark", 6.2, "lit"]
    assert alike(read) == [(5.0, 5.5, 6.2), (72.0, 72.5), ("lit",), ("dark",)]
    assert alike([]) == []
