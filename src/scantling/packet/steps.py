"""The build, step by step: cautions first, then what to do, settings, check, time, and a picture."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.building.build_plan import Step
from scantling.packet.context import Context
from scantling.packet.shown import duration, work_time
from scantling.packet.views import state_picture
from scantling.piece.model import PartName

Data = dict[str, object]


def steps(context: Context) -> list[Data]:
    """Every step in order. A step that joins parts carries a picture of the state it leaves."""
    joined: list[frozenset[PartName]] = []
    shown: list[Data] = []
    for step in context.plan.build_plan.steps:
        shown.append(_step(step, context, added(step.joined, joined)))
        joined.append(frozenset(step.joined))
    return shown


def added(now: Iterable[PartName], before: Sequence[frozenset[PartName]]) -> frozenset[PartName]:
    """What a step adds to the largest assembly it goes on from; all of it when it starts one."""
    parts = frozenset(now)
    whole = [group for group in before if len(group) > 1 and group < parts]
    return parts - max(whole, key=len, default=frozenset())


def _step(step: Step, context: Context, fresh: frozenset[PartName]) -> Data:
    picture = _picture(step, context, fresh)
    return {
        "number": step.number,
        "stage": step.stage.value,
        "title": step.title,
        "text": step.text,
        "parts": context.marks(step.parts),
        "machine": step.machine,
        "settings": list(step.settings),
        "active": work_time(step.active),
        "wait": duration(step.wait) if step.wait else "",
        "wait_for": step.wait_for,
        "after": number_ranges(step.after),
        "check": step.check,
        "cautions": list(step.cautions),
        "svg": picture[0],
        "alt": picture[1],
    }


def number_ranges(numbers: Iterable[int]) -> str:
    """Step numbers as one reads them: "2, 4 to 7"."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(_run_words(run) for run in runs)


def _run_words(run: list[int]) -> str:
    return f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run))


def _picture(step: Step, context: Context, fresh: frozenset[PartName]) -> tuple[str, str]:
    parts = [part.name for part in context.plan.piece.parts if part.name in step.joined]
    if not parts:
        return "", ""
    drawing = state_picture(context.gallery, parts, fresh)
    return drawing.svg, drawing.alt
