"""In the worker: the steps of a build as a maker reads them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context
from scantling.desk.build.sheet_view import boards_of

if TYPE_CHECKING:
    from scantling.building import Step
    from scantling.desk.working import Asked
    from scantling.packet.context import Context
    from scantling.piece.model import PartName


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part by the mark it has on drawings and labels."""

    name: str
    mark: str


@dataclass(frozen=True, slots=True)
class TimerOffer:
    """A wait that can be timed: what for (`label`: with the step), how long in words, and in minutes."""

    what: str
    label: str
    words: str
    minutes: float


@dataclass(frozen=True, slots=True)
class StepView:
    """One step. `parts`: those that can be measured or lost at it. `beside`: steps done during its wait.

    `buys`: wood is brought home, no work at the bench. `boards`: what is marked or sawn, to be drawn.
    """

    number: int
    key: str
    stage: str
    title: str
    text: str
    machine: str
    settings: tuple[str, ...]
    parts: tuple[PartShown, ...]
    active: str
    wait: str
    wait_for: str
    check: str
    cautions: tuple[str, ...]
    after: tuple[int, ...]
    beside: tuple[int, ...]
    buys: bool
    boards: tuple[str, ...]
    timers: tuple[TimerOffer, ...]
    alt: str


@dataclass(frozen=True, slots=True)
class BuildView:
    """All steps in order. `must_fix`: findings that stop the build; `notes`: on the plan as a whole."""

    name: str
    steps: tuple[StepView, ...]
    must_fix: int
    notes: tuple[str, ...]


def build_view(asked: Asked) -> BuildView:
    """The steps of a piece. Raises ReadError where it cannot be planned."""
    from scantling.building.progress import beside
    from scantling.building.ticks import step_keys

    seen = context(asked)
    plan = seen.plan.build_plan
    keys, meanwhile = step_keys(plan.steps), beside(plan)
    return BuildView(
        name=seen.plan.piece.name,
        steps=tuple(
            _step(step, keys[step.number], meanwhile.get(step.number, ()), seen) for step in plan.steps
        ),
        must_fix=len(seen.plan.must_fix),
        notes=plan.notes,
    )


def _step(step: Step, key: str, meanwhile: tuple[int, ...], seen: Context) -> StepView:
    from scantling.building import Stage
    from scantling.packet.shown import bound, duration, work_time

    parts = () if step.stage in (Stage.BUY, Stage.CHOOSE) else step.parts
    return StepView(
        number=step.number,
        key=key,
        stage=step.stage.value,
        title=bound(step.title),
        text=bound(step.text),
        machine=step.machine,
        settings=tuple(map(bound, step.settings)),
        parts=tuple(PartShown(name, seen.items.marks.get(name, "")) for name in parts),
        active=work_time(step.active),
        wait=duration(step.wait) if step.wait else "",
        wait_for=step.wait_for,
        check=bound(step.check),
        cautions=step.cautions,
        after=step.after,
        beside=meanwhile,
        buys=step.stage is Stage.BUY,
        boards=boards_of(step, seen),
        timers=tuple(_timers(step, seen)),
        alt=_alt(step, seen),
    )


def _timers(step: Step, seen: Context) -> list[TimerOffer]:
    """The step's own wait, and before it the time in clamps where that is shorter.

    Wood that was bought lies for days: the page tells of it, and nothing rings.
    """
    from scantling.building import Stage
    from scantling.building.bench import Bench
    from scantling.packet.shown import duration

    if not step.wait or step.stage is Stage.BUY:
        return []
    what = step.wait_for.partition(";")[0]
    whole = TimerOffer(what, f"{step.title}: {what}", duration(step.wait), step.wait)
    glue = Bench(seen.plan.machined, seen.plan.cut_plan, seen.plan.shop).glue
    if step.stage not in (Stage.GLUE_UP, Stage.ASSEMBLE) or step.wait <= glue.clamp_minutes:
        return [whole]
    clamps = f"{glue.name} in clamps"
    short = TimerOffer(clamps, f"{step.title}: {clamps}", duration(glue.clamp_minutes), glue.clamp_minutes)
    return [short, whole]


def step_picture(asked: Asked, number: int) -> str:
    """The picture of one step as SVG, "" for a number that no step has.

    A step that joins parts shows the state it leaves, what it adds in full tone; any other shows the whole
    piece with its parts in full tone.
    """
    from scantling.packet.views import state_picture

    seen = context(asked)
    step = next((step for step in seen.plan.build_plan.steps if step.number == number), None)
    if step is None:
        return ""
    shown, fresh = _shown(step, seen)
    return state_picture(seen.gallery, shown, fresh, (110.0, 90.0)).svg


def part_picture(asked: Asked, part: str) -> str:
    """The whole piece with one part in full tone, as SVG."""
    from scantling.packet.views import state_picture

    seen = context(asked)
    return state_picture(
        seen.gallery, [each.name for each in seen.plan.piece.parts], {part}, (90.0, 70.0)
    ).svg


def _shown(step: Step, seen: Context) -> tuple[list[PartName], frozenset[PartName]]:
    from scantling.packet.steps import added

    parts = [part.name for part in seen.plan.piece.parts]
    if not step.joined:
        return parts, frozenset(step.parts or parts)
    before = [frozenset(s.joined) for s in seen.plan.build_plan.steps if s.number < step.number]
    return [name for name in parts if name in step.joined], added(step.joined, before)


def _alt(step: Step, seen: Context) -> str:
    """The picture in words, short: the parts themselves are listed beside it."""
    shown, fresh = _shown(step, seen)
    if not step.joined:
        return f"The whole piece, {len(fresh)} of {len(shown)} parts in full colour: those of this step."
    return f"{len(shown)} parts together, {len(fresh)} of them new in this step, in full colour."
