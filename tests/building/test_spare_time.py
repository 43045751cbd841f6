"""What is proposed for half an hour."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from scantling.building import BuildPlan, Cost, Stage, Step
from scantling.building.progress import State, progress_of
from scantling.building.schedule import schedule
from scantling.building.spare_time import suggestions
from scantling.building.ticks import step_keys

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
CURE = 24 * 60.0
STEPS = (
    Step(1, Stage.JOINTS, "Bore", "", ("a",), "drill", active=25),
    Step(2, Stage.JOINTS, "Groove", "", ("b",), "router", active=20),
    Step(3, Stage.SHAPE, "Chamfer", "", ("c",), "router", active=25),
    Step(4, Stage.GLUE_UP, "Glue up d", "", ("d",), active=30, wait=CURE, wait_for="it to cure; in the warm"),
    Step(5, Stage.FLATTEN, "Flatten", "", ("e",), "planer", active=110, wait=CURE),
    Step(6, Stage.ASSEMBLE, "Glue up f", "", ("f",), active=90, wait=60),
    Step(7, Stage.SAND, "Sand", "", ("a", "b"), active=20, after=(1, 2)),
)  # fmt: skip


def plan(steps=STEPS):
    return BuildPlan(steps, (), Cost(0, 0, 0, 0, 0, ""), 0, 0, schedule(steps, 8))


def proposed(minutes, steps=STEPS, **done):
    keys = step_keys(steps)
    times = {keys[int(name[1:])]: NOW - timedelta(minutes=ago) for name, ago in done.items()}
    return suggestions(plan(steps), progress_of(plan(steps), times, NOW), minutes)


def test_what_starts_a_long_wait_comes_first_then_what_shares_a_machine():
    whole = [s.step for s in proposed(30) if s.whole]
    assert whole == [4, 2, 3, 1]


def test_it_says_why():
    by_step = {s.step: s.why for s in proposed(30)}
    assert by_step[4] == "Done now, the wait for it to cure runs while you are away."
    assert by_step[2] == "Step 3 can follow on the router. One step waits for it."


def test_bringing_wood_home_is_no_work_for_half_an_hour():
    errand = Step(8, Stage.BUY, "Bring boards home", "", active=20, wait=CURE)
    assert 8 not in {s.step for s in proposed(30, (*STEPS, errand))}


def test_a_machine_still_set_up_comes_before_others():
    found = proposed(30, s3=5)
    assert [s.step for s in found if s.whole] == [4, 2, 1]
    assert found[1].why.startswith("The router was used last and may still be set up.")


def test_long_work_is_begun_but_glue_is_not():
    """110 min on a machine, 10 of them set-up (`times.csv`): of the other 100 there are 50 in an hour."""
    begun = [s for s in proposed(60) if not s.whole]
    assert [(s.step, s.share) for s in begun] == [(5, 0.5)]
    assert "half of it fits, set-up included" in begun[0].why


def test_nothing_fits_in_no_time():
    assert proposed(0) == ()


def test_only_ready_work_is_proposed(planned):
    _, _, _, build, _ = planned
    progress = progress_of(build, {}, NOW)
    for minutes in (15, 30, 60, 120):
        found = suggestions(build, progress, minutes)
        assert {s.step for s in found} <= set(progress.steps(State.READY))
        active = {step.number: step.active for step in build.steps}
        assert all(active[s.step] <= minutes for s in found if s.whole)
        assert found == suggestions(build, progress, minutes)
