"""The build, step by step: cautions first, then what to do, settings, check, time, and a picture."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.building.build_plan import Step
from scantling.packet.context import Context
from scantling.packet.shown import duration
from scantling.packet.views import state_picture
from scantling.piece.model import PartName

Data = dict[str, object]


def steps(context: Context) -> list[Data]:
    """Every step in order. A step that joins parts carries a picture of the state it leaves."""
    done: set[PartName] = set()
    shown: list[Data] = []
    for step in context.plan.build_plan.steps:
        shown.append(_step(step, context, frozenset(done)))
        done.update(step.joined)
    return shown


def _step(step: Step, context: Context, done: frozenset[PartName]) -> Data:
    picture = _picture(step, context, done)
    return {
        "number": step.number,
        "stage": step.stage.value,
        "title": step.title,
        "text": step.text,
        "parts": context.marks(step.parts),
        "machine": step.machine,
        "settings": list(step.settings),
        "active": duration(step.active),
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


def _picture(step: Step, context: Context, done: frozenset[PartName]) -> tuple[str, str]:
    parts = [part.name for part in context.plan.piece.parts if part.name in step.joined]
    if not parts:
        return "", ""
    fresh = set(parts) - done or set(step.parts)
    drawing = state_picture(context.plan.scene, parts, fresh)
    return drawing.svg, drawing.alt
