"""How far a build is: what is done, what can be done now, what dries, what is left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import Enum

from scantling.building.build_plan import BuildPlan, Step
from scantling.building.schedule import WEEK, schedule, weeks
from scantling.building.ticks import Astray, Tick, step_keys, ticked


class State(Enum):
    DONE = "done"
    READY = "ready now"
    WAITING = "waiting"  # all before it is done, but something is not dry yet
    BLOCKED = "not yet"  # something before it is not done


@dataclass(frozen=True, slots=True)
class Wait:
    """Glue, a finish or wood that needs its time after a step. `what`: for what one waits."""

    step: int
    what: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Standing:
    """One step as it stands. `key`: what a tick is kept under.

    `tick`: there is one; a `changed` one no longer counts. `waits`: what must be dry first, soonest first.
    `needs`: steps that must be done first.
    """

    step: int
    key: str
    state: State
    tick: Tick | None = None
    waits: tuple[Wait, ...] = ()
    needs: tuple[int, ...] = ()


@dataclass(frozen=True)
class Progress:
    """A build at one moment. `drying`: the waits that still matter, soonest over first.

    `minutes_left`: of work at the bench. `finish`: when the last wait is over, at the shop's hours a week.
    """

    standings: tuple[Standing, ...]
    drying: tuple[Wait, ...]
    astray: tuple[Astray, ...]
    minutes_left: float
    finish: datetime

    def of(self, step: int) -> Standing:
        """How a step stands, by its number."""
        return next(standing for standing in self.standings if standing.step == step)

    def steps(self, state: State) -> tuple[int, ...]:
        """Numbers of the steps in that state."""
        return tuple(standing.step for standing in self.standings if standing.state is state)

    @property
    def changed(self) -> tuple[int, ...]:
        """Steps that were done earlier and have changed since."""
        return tuple(s.step for s in self.standings if s.tick is not None and s.tick.changed)


def progress_of(
    plan: BuildPlan, done: Mapping[str, datetime], now: datetime, hours_a_week: float | None = None
) -> Progress:
    """How far a build is at `now`. `done`: when each step was ticked, by the key of `step_keys`.

    `now` and the ticks are times with a zone, or all without one.
    """
    found = ticked(plan.steps, done)
    holding = {number: tick for number, tick in found.by_step.items() if not tick.changed}
    drying = {step.number: wait for step in plan.steps if (wait := _wait(step, holding, now))}
    heeded = _heeded(plan.steps, holding)
    keys = step_keys(plan.steps)
    standings = [
        replace(_standing(step, keys[step.number], holding, drying), tick=found.by_step.get(step.number))
        for step in plan.steps
    ]
    return Progress(
        standings=tuple(standings),
        drying=_soonest(wait for number, wait in drying.items() if number in heeded),
        astray=found.astray,
        minutes_left=sum(step.active for step in plan.steps if step.number not in holding),
        finish=_finish(plan.steps, holding, drying, now, hours_a_week),
    )


def beside(plan: BuildPlan) -> Mapping[int, tuple[int, ...]]:
    """For each step with a wait, the steps the plan does while it dries; none where it dries overnight."""
    slots = {slot.step: slot for slot in plan.schedule}
    drying = {step.number: slots[step.number] for step in plan.steps if step.wait and step.number in slots}
    return {
        number: tuple(n for n, slot in slots.items() if n != number and own.end <= slot.start < own.free_at)
        for number, own in drying.items()
    }


def _wait(step: Step, holding: Mapping[int, Tick], now: datetime) -> Wait | None:
    if step.number not in holding or not step.wait:
        return None
    until = holding[step.number].when + timedelta(minutes=step.wait)
    return Wait(step.number, step.wait_for, until) if until > now else None


def _heeded(steps: Sequence[Step], holding: Mapping[int, Tick]) -> frozenset[int]:
    """Steps whose wait still stops something, or that come last; a coat under another is past waiting for."""
    followed = {number for step in steps for number in step.after}
    stopping = {number for step in steps if step.number not in holding for number in step.after}
    return frozenset(step.number for step in steps if step.number in stopping or step.number not in followed)


def _soonest(waits: Iterable[Wait]) -> tuple[Wait, ...]:
    return tuple(sorted(waits, key=lambda wait: (wait.until, wait.step)))


def _standing(step: Step, key: str, holding: Mapping[int, Tick], drying: Mapping[int, Wait]) -> Standing:
    if step.number in holding:
        return Standing(step.number, key, State.DONE)
    needs = tuple(number for number in step.after if number not in holding)
    waits = _soonest([drying[number] for number in step.after if number in drying])
    state = State.BLOCKED if needs else State.WAITING if waits else State.READY
    return Standing(step.number, key, state, waits=waits, needs=needs)


def _finish(
    steps: Sequence[Step],
    holding: Mapping[int, Tick],
    drying: Mapping[int, Wait],
    now: datetime,
    hours_a_week: float | None,
) -> datetime:
    """The usual sessions from now on: done steps take no time, but their waits run to their end."""
    left = [_as_left(step, holding, drying, now) for step in steps]
    slots = schedule(left, hours_a_week)
    return now + timedelta(minutes=weeks(slots, left, hours_a_week) * WEEK)


def _as_left(step: Step, holding: Mapping[int, Tick], drying: Mapping[int, Wait], now: datetime) -> Step:
    if step.number not in holding:
        return step
    wait = drying.get(step.number)
    minutes = (wait.until - now).total_seconds() / 60 if wait else 0.0
    return replace(step, active=0.0, wait=minutes, after=())
