"""What the page tells in a browser, against the engine, in every state of every example."""

from collections.abc import Iterator, Mapping
from itertools import pairwise, product
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser

from circuitcheck.analysis.behaviour import behave
from circuitcheck.analysis.devices import WEAK_SHARE, LampStates
from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.held import held_in
from circuitcheck.analysis.lit import InAny, Lit
from circuitcheck.analysis.states import States
from circuitcheck.analysis.whereabouts import Whereabouts
from circuitcheck.circuit.model import Load
from circuitcheck.examination import examine
from circuitcheck.reports.page_asking import page_of
from tests.analysis.test_lit import states_at_work
from tests.benchmarks.panels import panel
from tests.page.browser import open_page, save
from tests.test_examples import EXAMPLES, RIGHT, WRONG

pytestmark = pytest.mark.slow

EVERY_STATE = """radices => {
  const { lookup } = document.body.circuitcheck;
  const told = [];
  const walk = (state) => {
    if (state.length < radices.length) {
      for (let value = 0; value < radices[state.length]; value += 1) walk([...state, value]);
      return;
    }
    const { shorts, rest, words, wishes, steps, flows, loads } = lookup(state);
    const moves = (all) => all.map((one) => [one.digit, one.start, one.end]);
    told.push([shorts, rest, words, moves(wishes), moves(steps), flows, loads]);
  };
  walk([]);
  return told;
}"""
"""What the page's own script says of every state, the last digit's value changing fastest."""

Move = tuple[int, int, int]


class Told(NamedTuple):
    """Of one state. rest: None in a shorted state, in which it is no question."""

    shorts: list[int]
    rest: bool | None
    words: list[str]
    wishes: list[Move]
    steps: list[Move]
    flows: list[str]
    loads: list[str]


@pytest.mark.parametrize("path", [*RIGHT, *WRONG], ids=lambda path: path.stem)
def test_the_page_tells_what_the_engine_knows_in_every_state(path: Path, chromium: Browser, tmp_path: Path) -> None:
    """Shorts, rest, motors and lamps, what relays want, every step that may follow, what flows in each conductor."""
    whole = examine(path, (EXAMPLES / "parts",))
    opened = open_page(chromium, save(tmp_path, page_of(whole)))
    radices = [digit.radix for digit in whole.circuit.digits]
    told = opened.page.evaluate(EVERY_STATE, radices)
    opened.page.context.close()
    states = [dict(enumerate(values)) for values in product(*map(range, radices))]
    assert len(told) == len(states)
    for state, page, engine in zip(states, told, every_state(whole.facts, states), strict=True):
        assert as_told(page, bool(engine.shorts)) == engine, state
    assert opened.complaints == []


FLOWS = "states => states.map((state) => document.body.circuitcheck.lookup(state).flows)"


def test_the_page_lights_four_motors_behind_one_stop_as_each_single_state_has_it(
    chromium: Browser, tmp_path: Path
) -> None:
    """There are 80 million states, so a few dozen are compared; nothing is left out for being wide."""
    plan = tmp_path / "panel.plan"
    plan.write_text(panel(4))
    whole = examine(plan)
    opened = open_page(chromium, save(tmp_path, page_of(whole)))
    states = list(states_at_work(whole.circuit, 40))
    told = opened.page.evaluate(FLOWS, [list(state.values()) for state in states])
    opened.page.context.close()
    for state, flows in zip(states, told, strict=True):
        held = Lit(analyse(held_in(whole.circuit, state)))
        engine = [held[number]._asdict() for number in range(len(flows))]
        assert flows == [one_of({kind: one[kind] for kind in KINDS}, state) for one in engine], state
    assert {"fed", "braking", ""} <= {flow for flows in told for flow in flows}
    assert page_of(whole).content.left_out == ()


KINDS = ("shorting", "fed", "braking")
"""What comes first is shown."""

TIMED = ("right/drawbridge", "right/curtain", "wrong/curtain_race", "wrong/roar_relay_chatters")
"""Plans whose relays have times, race, or never settle."""

WORKED_AT_RANDOM = """async ([seed, mode, count, pause]) => {
  let drawn = seed;
  const random = (many) => { drawn = (drawn * 48271) % 2147483647; return drawn % many; };
  document.querySelector(`#mode input[value=${mode}]`).click();
  for (let number = 0; number < count; number += 1) {
    const next = [...document.querySelectorAll("#next button:not([disabled])")];
    const hands = [...document.querySelectorAll("#controls input[type=radio]:not(:checked), #controls button")];
    const offered = next.length && random(3) ? next : hands;
    if (offered.length) offered[random(offered.length)].click();
    if (pause) await new Promise((resolve) => setTimeout(resolve, random(pause)));
  }
  return document.body.circuitcheck.run().entries.map((entry) => entry.state);
}"""
"""Works whatever can be worked, or lets one of the offered steps come; by a generator of random numbers of its own
(Park and Miller 1988, "minimal standard"). Gives every state that the page went through."""


@pytest.mark.parametrize("path", [*RIGHT, *WRONG], ids=lambda path: path.stem)
def test_every_step_that_the_page_takes_is_one_that_the_engine_allows(
    path: Path, chromium: Browser, tmp_path: Path
) -> None:
    """In the order in which they come, as far as relays' times leave it: chosen at random, one after the other."""
    facts, states = worked_at_random(chromium, tmp_path, path, [1, "step", 120, 0])
    assert disallowed(facts, states) == []
    assert len(states) > 1


@pytest.mark.parametrize("name", TIMED)
def test_steps_that_come_by_their_times_are_allowed_as_well(name: str, chromium: Browser, tmp_path: Path) -> None:
    """In real time, with hands that don't wait for relays."""
    path = EXAMPLES / f"{name}.plan"
    facts, states = worked_at_random(chromium, tmp_path, path, [3, "real", 40, 60])
    assert disallowed(facts, states) == []
    assert len(states) > 2


def worked_at_random(
    chromium: Browser, folder: Path, path: Path, how: list[object]
) -> tuple[Facts, list[dict[int, int]]]:
    """The states that the page of a plan went through."""
    whole = examine(path, (EXAMPLES / "parts",))
    opened = open_page(chromium, save(folder, page_of(whole)))
    states = opened.page.evaluate(WORKED_AT_RANDOM, how)
    opened.page.context.close()
    assert opened.complaints == []
    return whole.facts, [dict(enumerate(state)) for state in states]


def disallowed(facts: Facts, states: list[dict[int, int]]) -> list[Move]:
    """The steps that the engine's own walk doesn't have where it has come to by then."""
    whereabouts, found = Whereabouts(facts, states[0]), []
    for before, state in pairwise(states):
        (digit,) = [one for one in state if before[one] != state[one]]
        if (digit, state[digit]) not in whereabouts.quick_moves([digit]) + whereabouts.slow_moves([digit]):
            found.append((digit, before[digit], state[digit]))
        whereabouts = whereabouts.after(digit, before[digit], state[digit])
    return found


def as_told(told: list[Any], shorted: bool) -> Told:
    """The page's answer, moves in order."""
    shorts, rest, words, wishes, steps, flows, loads = told
    return Told(shorts, None if shorted else rest, words, in_order(wishes), in_order(steps), flows, loads)


def in_order(moves: list[list[int]]) -> list[Move]:
    """As the engine's are compared."""
    return sorted((digit, start, end) for digit, start, end in moves)


def every_state(facts: Facts, states: list[dict[int, int]]) -> Iterator[Told]:
    """The engine's answer."""
    circuit = facts.circuit
    behaviour = facts.behaviour(range(len(circuit.digits)))
    space, motors = behaviour.space, list(enumerate(facts.motors))
    usual = behave(circuit, space, list(facts.relay_moves), {}, motors, facts.shorted)
    lit, lamps = Lit(facts), facts.lamps
    flows = [lit[number] for number in range(len(circuit.conductors))]
    words: list[dict[str, States]] = [one.named() for one in facts.motors]
    words += [lamp_words(circuit.loads[number], does) for number, does in lamps.items()]
    for state in states:
        number = space.number(state)
        shorts = [place for place, short in enumerate(facts.shorts) if state in short.states]
        yield Told(
            shorts,
            None if shorts else bool(behaviour.rest >> number & 1),
            ["shorted" if shorts else one_of(does, state) for does in words],
            sorted(
                (circuit.relays[move.relay].digit, move.start, move.end)
                for move in facts.relay_moves
                if state in move.wanted
            ),
            sorted((step.digit, step.start, step.end) for step in usual.steps if step.allowed >> number & 1),
            [one_of({"shorting": f.shorting, "fed": f.fed, "braking": f.braking}, state) for f in flows],
            ["" if shorts else load_word(facts, load, state) for load in range(len(circuit.loads))],
        )


def one_of(sets: Mapping[str, States | InAny], state: dict[int, int]) -> str:
    """The first set that a state is in, "" for none."""
    return next((word for word, states in sets.items() if state in states), "")


def load_word(facts: Facts, number: int, state: dict[int, int]) -> str:
    """Whether a load stands at volts that count, or is a winding of a motor that is braked."""
    load = facts.circuit.loads[number]
    for fed in facts.volts[number]:
        if fed.volts >= WEAK_SHARE * load.volts and state in fed.forward:
            return "forward"
    for fed in facts.volts[number]:
        if fed.volts >= WEAK_SHARE * load.volts and state in fed.backward:
            return "backward"
    motors = zip(facts.circuit.motors, facts.motors, strict=True)
    braked = (one.load for motor, does in motors if state in does.braked for one in motor.windings)
    return "braking" if number in braked else ""


def lamp_words(load: Load, does: LampStates) -> dict[str, States]:
    """What gives no light is on, weak or off."""
    words = ("lit", "glowing", "dark") if load.kind == "lamp" else ("on", "weak", "off")
    return dict(zip(words, does, strict=True))
