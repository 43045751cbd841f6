"""Finish schedule, seasonal movement note and the safety page."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files

from scantling.building.build_plan import Stage
from scantling.packet.context import Context
from scantling.packet.shown import amount, duration, work_time
from scantling.quantity import format_ratio, format_temperature, listed

Data = dict[str, object]


def finish_rows(context: Context) -> list[Data]:
    """What goes on, how often and where."""
    return [
        {
            "finish": coats.finish,
            "coats": amount(coats.coats),
            "over": "everywhere"
            if coats.over == ("all",)
            else listed([context.named(n) for n in coats.over]),
        }
        for coats in context.plan.piece.finish
    ]


def finish_steps(context: Context) -> list[Data]:
    """The steps of sanding and finishing with their waits."""
    return [
        {
            "number": step.number,
            "title": step.title,
            "active": work_time(step.active),
            "wait": f"{duration(step.wait)}, {step.wait_for}".removesuffix(", ") if step.wait else "none",
        }
        for step in context.plan.build_plan.steps
        if step.stage in (Stage.SAND, Stage.FINISH)
    ]


def movement_notes(context: Context) -> list[str]:
    """What may slide, what moves, and the air it was worked out for."""
    plan = context.plan
    notes = []
    air = plan.piece.room.air
    if air:
        warmth = format_temperature(air.temperature, context.sizes.style)
        notes.append(
            f"Worked out for air between {format_ratio(air.dry)} and {format_ratio(air.damp)} "
            f"relative humidity at {warmth}."
        )
    notes += _sliding_notes(context)
    notes += [f.message for f in plan.findings if f.check == "seasonal movement"]
    return list(dict.fromkeys(notes))


def _sliding_notes(context: Context) -> list[str]:
    """One line for each kind of fixing that slides, with every place it stands in."""
    places: dict[tuple[str, str], list[str]] = {}
    for use in context.plan.machined.hardware:
        if not use.fixed:
            travel = f", {context.sizes.both(use.travel)} either way" if use.travel else ""
            parts = listed([context.named(part) for part in use.parts])
            places.setdefault((f"{use.kind} ({use.size})", travel), []).append(parts)
    return [_sliding_words(what, travel, where) for (what, travel), where in places.items()]


def _sliding_words(what: str, travel: str, where: list[str]) -> str:
    between = "; ".join(filter(None, dict.fromkeys(where)))
    return f"Leave each {what} free to slide{travel}, no glue there{': ' if between else ''}{between}."


def safety(context: Context) -> list[Data]:
    """The safety page, with the cautions of this very build at its end."""
    groups: list[Data] = list(_usual_cautions())
    own = list(dict.fromkeys(line for step in context.plan.build_plan.steps for line in step.cautions))
    if own:
        groups.append({"title": "In this build", "lines": own})
    return groups


@cache
def _usual_cautions() -> tuple[Data, ...]:
    """The trade's usual cautions in our words; `source` in the file says what they rest on."""
    text = files("scantling.packet").joinpath("safety.json").read_text(encoding="utf-8")
    return tuple(json.loads(text)["groups"])
