"""The build, step by step: cautions first, then what to do, settings, check, time, and a picture."""

from __future__ import annotations

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
        "after": list(step.after),
        "check": step.check,
        "cautions": list(step.cautions),
        "svg": picture[0],
        "alt": picture[1],
    }


def _picture(step: Step, context: Context, done: frozenset[PartName]) -> tuple[str, str]:
    parts = [part.name for part in context.plan.piece.parts if part.name in step.joined]
    if not parts:
        return "", ""
    fresh = set(parts) - done or set(step.parts)
    drawing = state_picture(context.plan.scene, parts, fresh)
    return drawing.svg, drawing.alt
