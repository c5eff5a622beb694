"""The data of a page, decoded again: what goes into it is what the engine knows."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings

from circuitcheck.analysis.facts import Facts, analyse
from circuitcheck.analysis.lit import Lit
from circuitcheck.analysis.states import Spaces, States
from circuitcheck.analysis.travel import driven
from circuitcheck.examination import examine
from circuitcheck.page.content import page_content
from circuitcheck.page.packed import MOST_STATES, PackedSet, Packing, packed, unpacked
from circuitcheck.reports.page_asking import asked_page, page_of
from circuitcheck.reports.page_json import page_json
from tests.analysis.plans import circuit_of, plan_texts
from tests.profiles import examples
from tests.test_examples import EXAMPLES, RIGHT, WRONG, facts_of


def sets_of(data: dict[str, list[dict[str, str]]], spaces: Spaces) -> list[States]:
    """The sets that a page's JSON holds."""
    fields = ((tuple(one["digits"]), tuple(one["strides"]), one["bits"]) for one in data["sets"])
    return [unpacked(PackedSet(*one), spaces) for one in fields]  # type: ignore[arg-type]


@pytest.mark.parametrize("path", [*RIGHT, *WRONG], ids=lambda path: path.stem)
def test_every_set_comes_back_from_the_json_as_the_engine_has_it(path: Path) -> None:
    """Relays, motors, lamps, axes, conductors and shorts: each by its number, none left out."""
    whole = examine(path, (EXAMPLES / "parts",))
    data = json.loads(page_json(page_of(whole)))
    facts, lookups = whole.facts, data["lookups"]
    sets = sets_of(data, facts.spaces)
    assert data["left_out"] == []
    pairs = [
        (wish["wanted"], move.wanted)
        for relay, moves in zip(lookups["relays"], facts.moves, strict=True)
        for wish, move in zip(relay["wishes"], (one for one in moves if one.wanted), strict=True)
    ]
    pairs += device_pairs(lookups["devices"], facts)
    for number, axis in enumerate(lookups["axes"]):
        pairs += [(way["driven"], driven(facts, number, way["direction"])) for way in axis["ways"]]
    lit = Lit(facts)
    for number, one in enumerate(lookups["conductors"]):
        for numbers, flowing in zip((one["fed"], one["braking"], one["shorting"]), lit[number], strict=True):
            pairs += zip(numbers, flowing.sets, strict=True)
    pairs += [(short["states"], one.states) for short, one in zip(lookups["shorts"], facts.shorts, strict=True)]
    assert pairs
    assert all(sets[number].same_as(states) for number, states in pairs)


def device_pairs(devices: list[dict[str, list[dict[str, object]]]], facts: Facts) -> list[tuple[int, States]]:
    """The set of each word of each motor and lamp, in the page and in the engine."""
    known: list[list[States]] = [list(one.named().values()) for one in facts.motors]
    known += [list(one) for one in facts.lamps.values()]
    pairs = []
    for device, sets in zip(devices, known, strict=True):
        numbers = [word["states"] for word in device["words"]]
        pairs += list(zip(numbers, (states for states in sets if states), strict=True))
    return pairs  # type: ignore[return-value]


@settings(max_examples=examples(30))
@given(plan_texts(most_states=200, most_parts=8))
def test_a_set_that_is_packed_comes_back_whole(text: str) -> None:
    """Of random circuits: what each relay wants, however many states it takes."""
    facts = analyse(circuit_of(text))
    for move in facts.relay_moves:
        assert unpacked(packed(move.wanted), facts.spaces).same_as(move.wanted)


def test_equal_sets_go_once() -> None:
    """Conductors in series carry current in the same states."""
    spaces, packing = Spaces((2, 3)), Packing()
    assert packing.number(spaces.where(1, (2,))) == packing.number(spaces.where(0, (0, 1)) & spaces.where(1, (2,))) == 0
    assert packing.number(spaces.where(1, (1,))) == 1
    assert len(packing.sets) == 2


def test_a_set_that_is_too_wide_is_left_out_and_the_page_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is guessed in its stead."""
    assert MOST_STATES == 1 << 22
    monkeypatch.setattr("circuitcheck.page.packed.MOST_STATES", 8)
    facts = facts_of(EXAMPLES / "right" / "drawbridge.plan")
    assert {"when K1 moves", "what M1 does", "where deck goes"} <= set(page_content(facts, ()).left_out)


def test_the_steps_of_a_finding_end_in_the_state_that_it_is_about() -> None:
    """For everything that is found in operation: each digit that the example names stands there as it says."""
    seen = 0
    for path in WRONG:
        content = page_of(examine(path, (EXAMPLES / "parts",))).content
        for incident in content.incidents:
            if incident.finding.reached == "operation" and incident.steps:
                seen += 1
                last = incident.steps[-1].state
                assert last is not None
                shown = {digit.name: digit.values[at] for digit, at in zip(content.digits, last, strict=True)}
                assert incident.finding.example.items() <= shown.items(), (path.stem, incident.finding.what)
    assert seen > 20


def test_the_way_of_a_short_is_shown_by_its_conductors() -> None:
    """Each is closed in the state shown, and the short's current flows through it."""
    path = EXAMPLES / "wrong" / "gallery_joins_supplies.plan"
    whole = examine(path, (EXAMPLES / "parts",))
    incidents = page_of(whole).content.incidents
    shorted = next(one for one in incidents if one.finding.check == "supply-short")
    assert shorted.conductors
    state = dict(enumerate(shorted.steps[-1].state or ()))
    lit = Lit(whole.facts)
    assert all(state in lit[number].shorting for number in shorted.conductors)


def test_what_leads_through_a_fault_has_no_state_in_the_sound_box() -> None:
    """Those steps are told in words alone."""
    path = EXAMPLES / "wrong" / "gallery_lift_one_limit.plan"
    content = page_of(examine(path, (EXAMPLES / "parts",))).content
    faulty = next(one for one in content.incidents if one.finding.reached == "fault")
    fault = next(place for place, step in enumerate(faulty.steps) if step.words.startswith("fault: "))
    assert all(step.state for step in faulty.steps[:fault])
    assert not any(step.state for step in faulty.steps[fault:])


def test_no_text_of_a_plan_ends_the_element_that_the_data_stand_in(tmp_path: Path) -> None:
    """Neither does it begin a comment or bring a sign along that a screen would act upon."""
    plan = f'{HOSTILE}\nsupply PS 12 V 1 A\nfuse F1 1 A "</script><!--"\nlamp L1 12 V 2 W\nrung PS.+, F1, L1, PS.-\n'
    (tmp_path / "prop.plan").write_text(plan, encoding="utf-8")
    text = page_json(asked_page(str(tmp_path / "prop.plan"), ()))
    assert not {"<", ">", "&"} & set(text)
    assert json.loads(text)["label"] == "</title></script><script>document.title='taken'</script><!-- & \ufffd"


HOSTILE = "plan Lantern \"</title></script><script>document.title='taken'</script><!-- & \u202e\""
