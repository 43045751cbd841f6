"""How far a build is: states, waits that overlap, hours left, the day it is finished."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.building import BuildPlan, Cost, Stage, Step
from scantling.building.progress import State, beside, progress_of
from scantling.building.schedule import schedule
from scantling.building.ticks import step_keys

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
CURE = 24 * 60.0
STEPS = (
    Step(1, Stage.THICKNESS, "Plane", "", ("a", "b"), "planer", active=60),
    Step(2, Stage.GLUE_UP, "Glue up", "", ("a",), active=30, wait=CURE, wait_for="glue to cure", after=(1,)),
    Step(3, Stage.JOINTS, "Groove b", "", ("b",), "router", active=40, after=(1,)),
    Step(4, Stage.ASSEMBLE, "Join", "", ("a", "b"), active=20, wait=60, wait_for="glue", after=(2, 3)),
)  # fmt: skip


def build(steps=STEPS, hours=8.0):
    return BuildPlan(
        steps, (), Cost(0, 0, 0, 0, 0, ""), sum(s.active for s in steps), 0, schedule(steps, hours)
    )


def done_at(**times):
    keys = step_keys(STEPS)
    return {keys[int(name[1:])]: time for name, time in times.items()}


def ago(**how_long):
    return NOW - timedelta(**how_long)


def test_at_first_only_what_comes_after_nothing_is_ready():
    progress = progress_of(build(), {}, NOW)
    assert progress.steps(State.READY) == (1,)
    assert progress.of(4).needs == (2, 3)
    assert progress.minutes_left == 150


def test_work_goes_on_while_glue_cures():
    progress = progress_of(build(), done_at(s1=ago(hours=3), s2=ago(hours=2)), NOW)
    assert progress.steps(State.READY) == (3,)
    assert [(w.step, w.what, w.until) for w in progress.drying] == [
        (2, "glue to cure", ago(hours=2) + timedelta(hours=24))
    ]
    assert progress.of(4).state is State.BLOCKED
    assert progress.minutes_left == 60


def test_a_step_with_all_done_waits_until_it_is_dry():
    done = done_at(s1=ago(hours=3), s2=ago(hours=2), s3=ago(hours=1))
    standing = progress_of(build(), done, NOW).of(4)
    assert standing.state is State.WAITING
    assert standing.waits[0].until == NOW + timedelta(hours=22)
    assert progress_of(build(), done, NOW + timedelta(hours=22)).of(4).state is State.READY


def test_a_wait_that_stops_nothing_any_more_is_not_told():
    done = done_at(s1=ago(hours=5), s2=ago(hours=4), s3=ago(hours=3), s4=ago(minutes=10))
    assert [wait.step for wait in progress_of(build(), done, NOW).drying] == [4]


def test_a_changed_step_counts_as_not_done_and_is_told():
    wider = (STEPS[0], STEPS[1], replace(STEPS[2], settings=("wider",)), STEPS[3])
    progress = progress_of(build(wider), done_at(s1=ago(hours=5), s3=ago(hours=2)), NOW)
    assert progress.changed == (3,)
    assert progress.of(3).state is State.READY
    assert progress.minutes_left == 90


def test_the_last_day_is_when_the_last_wait_ends():
    """All done but the last wait: it ends an hour after the tick, whatever the week's hours."""
    done = done_at(s1=ago(days=9), s2=ago(days=8), s3=ago(days=8), s4=ago(minutes=15))
    assert progress_of(build(), done, NOW).finish == NOW + timedelta(minutes=45)


def test_sessions_of_a_week_set_the_day():
    """4 h a week is one session a week: 60, 30 and 40 min now, 20 min and an hour's wait in the next."""
    finish = progress_of(build(hours=4.0), {}, NOW, 4.0).finish
    assert NOW + timedelta(days=7) < finish < NOW + timedelta(days=8)


def test_what_the_plan_does_while_glue_cures():
    assert beside(build()) == {2: (3,), 4: ()}


@given(st.sets(st.integers(1, 4)), st.floats(0, 3000))
def test_every_step_is_in_just_one_state(ticked, minutes):
    keys = step_keys(STEPS)
    progress = progress_of(build(), {keys[n]: ago(minutes=minutes) for n in ticked}, NOW)
    states = [progress.steps(state) for state in State]
    assert sorted(n for numbers in states for n in numbers) == [1, 2, 3, 4]
    assert set(progress.steps(State.DONE)) == ticked
    assert progress.finish >= NOW


def test_an_example_begins_somewhere_and_ends(planned):
    _, _, _, plan, shop = planned
    assert progress_of(plan, {}, NOW, shop.hours_a_week).steps(State.READY)
    done = dict.fromkeys(step_keys(plan.steps).values(), ago(days=365))
    progress = progress_of(plan, done, NOW, shop.hours_a_week)
    assert progress.minutes_left == 0
    assert progress.finish == NOW
    assert not progress.drying


def test_times_with_and_without_a_zone_are_not_mixed():
    with pytest.raises(TypeError):
        progress_of(build(), done_at(s2=datetime(2026, 3, 1)), NOW)
