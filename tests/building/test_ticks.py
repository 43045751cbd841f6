"""Ticks find their steps again after planning anew, and are not lost unseen."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from scantling.building import Stage, Step
from scantling.building.ticks import step_keys, ticked, words_of

THEN = datetime(2026, 3, 1, 9, tzinfo=UTC)
PLANE = Step(1, Stage.THICKNESS, "Plane 4 blanks to thickness", "", ("leg",), "planer", ("3/4 in: 4 legs",))
DRILL = Step(2, Stage.JOINTS, "Drill for dowels: 4 joints", "", ("leg", "rail"), "drill", joints=("a", "b"))
COATS = tuple(
    Step(n + 2, Stage.FINISH, f"Coat {n} of 3: oil", "", ("leg", "rail"), wait=600) for n in (1, 2, 3)
)
STEPS = (PLANE, DRILL, *COATS)


def ticks_of(*steps: Step) -> dict[str, datetime]:
    keys = step_keys(STEPS)
    return {keys[step.number]: THEN + timedelta(hours=step.number) for step in steps}


def test_keys_are_unique_in_an_example(planned):
    _, _, _, build, _ = planned
    keys = step_keys(build.steps)
    assert len(set(keys.values())) == len(build.steps)
    assert all(words_of(keys[step.number]) == step.title for step in build.steps)


@given(st.permutations(range(1, 40)))
def test_renumbering_keeps_the_keys(numbers):
    first = dict(zip((step.title for step in STEPS), sorted(numbers[:5]), strict=True))
    again = [replace(step, number=first[step.title]) for step in STEPS]
    assert set(step_keys(again).values()) == set(step_keys(STEPS).values())


def test_every_tick_is_found_by_its_very_step():
    found = ticked(STEPS, ticks_of(*STEPS))
    assert {n: tick.when for n, tick in found.by_step.items()} == {
        step.number: THEN + timedelta(hours=step.number) for step in STEPS
    }
    assert not any(tick.changed for tick in found.by_step.values())
    assert not found.astray


def test_other_settings_make_it_changed_since():
    thinner = replace(PLANE, settings=("11/16 in: 4 legs",))
    tick = ticked((thinner, *STEPS[1:]), ticks_of(PLANE)).by_step[1]
    assert (tick.changed, tick.when) == (True, THEN + timedelta(hours=1))


def test_the_same_things_in_another_order_are_the_same_step():
    before = replace(PLANE, settings=("3/4 in: leg, 2 rails and a shelf", "1/2 in: 4 slats"))
    after = replace(PLANE, settings=("1/2 in: 4 slats", "3/4 in: a shelf, leg and 2 rails"))
    assert step_keys([before]) == step_keys([after])
    fewer = replace(PLANE, settings=("1/2 in: 4 slats", "3/4 in: a shelf and leg"))
    assert step_keys([before]) != step_keys([fewer])


def test_other_parts_or_machine_make_it_changed_since():
    more = replace(DRILL, title="Drill for dowels: 6 joints", parts=("leg", "rail", "shelf"))
    found = ticked((PLANE, more, *COATS), ticks_of(PLANE, DRILL))
    assert found.by_step[2].changed
    assert not found.by_step[1].changed
    pressed = replace(DRILL, machine="drill press")
    assert ticked((PLANE, pressed, *COATS), ticks_of(DRILL)).by_step[2].changed


def test_an_unchanged_step_is_not_robbed_by_a_changed_one():
    """Two like steps, one of them ticked: the tick goes to the one it was given to."""
    other = replace(PLANE, number=9, parts=("rail",), settings=("1/2 in: 2 rails",))
    first = replace(PLANE, number=1, parts=("shelf",))
    assert set(ticked((first, other), {step_keys([other])[9]: THEN}).by_step) == {9}


def test_a_step_gone_is_told_by_its_words():
    found = ticked(COATS, ticks_of(DRILL, COATS[0]))
    assert [gone.words for gone in found.astray] == ["Drill for dowels: 4 joints"]
    assert set(found.by_step) == {3}


def test_a_coat_more_changes_all_coats():
    four = tuple(replace(step, title=step.title.replace("of 3", "of 4")) for step in COATS)
    found = ticked(four, ticks_of(*COATS[:2]))
    assert {n: tick.changed for n, tick in found.by_step.items()} == {3: True, 4: True}


def test_words_that_are_no_key_are_astray():
    found = ticked(STEPS, {"": THEN, "sand it": THEN, "~": THEN, " ~..": THEN})
    assert not found.by_step
    assert len(found.astray) == 4
