"""In the worker: how far a build is, as a maker is told it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context
from scantling.errors import ScantlingError

if TYPE_CHECKING:
    from scantling.building.progress import Progress
    from scantling.building.ticks import Ticked
    from scantling.desk.working import Asked
    from scantling.packet.context import Context

Stamped = tuple[tuple[str, datetime], ...]  # keys of steps with a time, as the ledger holds them


@dataclass(frozen=True, slots=True)
class StepState:
    """How one step stands. `word`: "done", "ready", "waiting" or "not yet".

    `ticked_as`, `ticked_at`: its tick, also one that no longer holds (`changed`). `note_as`: what its note is
    kept under.
    """

    word: str
    ticked_as: str = ""
    ticked_at: datetime | None = None
    changed: bool = False
    needs: tuple[int, ...] = ()
    waits: tuple[Drying, ...] = ()
    note_as: str = ""


@dataclass(frozen=True, slots=True)
class Drying:
    """A wait that runs after a step."""

    step: int
    what: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Gone:
    """A tick or a note whose step is no longer in the plan."""

    key: str
    words: str
    when: datetime


@dataclass(frozen=True, slots=True)
class StandingView:
    """`now`: the step to look at first. `finish`: at the hours of `week`.

    `sawn`: boards whose cuts are all ticked; `begun`: those of which one is.
    """

    steps: Mapping[int, StepState]
    now: int
    done: int
    drying: tuple[Drying, ...]
    astray: tuple[Gone, ...]
    lost_notes: tuple[Gone, ...]
    left: str
    finish: datetime
    week: str
    sawn: tuple[str, ...]
    begun: tuple[str, ...]


def standing_view(asked: Asked, ticks: Stamped, notes: Stamped, now: datetime) -> StandingView:
    """How the build stands at `now`."""
    from scantling.building.ticks import ticked
    from scantling.packet.shown import work_time

    seen = context(asked)
    plan = seen.plan.build_plan
    progress = _progress(seen, ticks, now)
    noted = ticked(plan.steps, dict(notes))
    states = _states(progress, noted)
    spent = _spent(asked)
    return StandingView(
        steps=states,
        now=_first(states),
        done=sum(state.word == "done" for state in states.values()),
        drying=tuple(Drying(w.step, w.what, w.until) for w in progress.drying),
        astray=tuple(
            Gone(gone.key, gone.words, gone.when) for gone in progress.astray if gone.key not in spent
        ),
        lost_notes=tuple(Gone(gone.key, gone.words, gone.when) for gone in noted.astray),
        left=work_time(progress.minutes_left),
        finish=progress.finish,
        week=_week(seen),
        sawn=_sawn(seen, states),
        begun=_begun(seen, states),
    )


@dataclass(frozen=True, slots=True)
class Proposal:
    """A step to do in the time there is. `words`: how much of it, and why it."""

    step: int
    title: str
    active: str
    whole: bool
    why: str


def proposals(asked: Asked, ticks: Stamped, now: datetime, minutes: int) -> tuple[Proposal, ...]:
    """What to do when there are `minutes`."""
    from scantling.building.spare_time import suggestions
    from scantling.packet.shown import work_time

    seen = context(asked)
    plan = seen.plan.build_plan
    by_number = {step.number: step for step in plan.steps}
    return tuple(
        Proposal(s.step, by_number[s.step].title, work_time(by_number[s.step].active), s.whole, s.why)
        for s in suggestions(plan, _progress(seen, ticks, now), minutes)
    )


def _progress(seen: Context, ticks: Stamped, now: datetime) -> Progress:
    from scantling.building.progress import progress_of

    return progress_of(seen.plan.build_plan, dict(ticks), now, seen.plan.shop.hours_a_week)


def _states(progress: Progress, noted: Ticked) -> dict[int, StepState]:
    from scantling.building.progress import State

    words = {State.DONE: "done", State.READY: "ready", State.WAITING: "waiting", State.BLOCKED: "not yet"}
    return {
        s.step: StepState(
            word=words[s.state],
            ticked_as=s.tick.key if s.tick else "",
            ticked_at=s.tick.when if s.tick else None,
            changed=bool(s.tick and s.tick.changed),
            needs=s.needs,
            waits=tuple(Drying(w.step, w.what, w.until) for w in s.waits),
            note_as=noted.by_step[s.step].key if s.step in noted.by_step else "",
        )
        for s in progress.standings
    }


def _spent(asked: Asked) -> frozenset[str]:
    """Ticks of sawing that the record took over: their boards are noted as cut, so no step saws them."""
    from scantling.building import Stage
    from scantling.building.ticks import step_keys

    if asked.record is None:
        return frozenset()
    try:
        steps = context(replace(asked, record=None)).plan.build_plan.steps
    except ScantlingError:
        return frozenset()
    sawing = (Stage.BUY, Stage.CHOOSE, Stage.ROUGH_CUT)
    keys = step_keys(steps)
    return frozenset(keys[step.number] for step in steps if step.stage in sawing)


def _first(states: Mapping[int, StepState]) -> int:
    """The first step that is ready, else the first that is not done, else the last."""
    for word in ("ready", "waiting", "not yet"):
        found = [number for number, state in states.items() if state.word == word]
        if found:
            return min(found)
    return max(states, default=0)


def _week(seen: Context) -> str:
    from scantling.building.schedule import USUAL_HOURS

    said = seen.plan.shop.hours_a_week
    return f"{said:g} hours a week" if said else f"{USUAL_HOURS:g} hours a week (the shop file does not say)"


def _begun(seen: Context, states: Mapping[int, StepState]) -> tuple[str, ...]:
    """No step saws a board that is noted as cut, so none of those is here."""
    done = [step for step in seen.plan.build_plan.steps if states[step.number].word == "done"]
    return tuple(dict.fromkeys(name for step in done for name in step.stock))


def _sawn(seen: Context, states: Mapping[int, StepState]) -> tuple[str, ...]:
    open_stock = {
        name
        for step in seen.plan.build_plan.steps
        for name in step.stock
        if states[step.number].word != "done"
    }
    names = (layout.stock for layout in seen.plan.cut_plan.layouts if layout.placed)
    sawing = {name for step in seen.plan.build_plan.steps for name in step.stock}
    return tuple(name for name in dict.fromkeys(names) if name in sawing - open_stock)
