"""Finish schedule, seasonal movement note and the safety page."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files

from scantling.building.assembling import is_glued
from scantling.building.bench import Bench
from scantling.building.build_plan import Stage
from scantling.packet.context import Context
from scantling.packet.shown import amount, duration, work_time
from scantling.piece.model import MaterialKind
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


def movement(context: Context) -> Data:
    """The air it was worked out for, what must stay free to move, and what the checks say of the rest."""
    found = [f.message for f in context.plan.findings if f.check == "seasonal movement"]
    return {
        "air": _air_words(context),
        "free": _sliding_notes(context) + _floating_notes(context),
        "told": list(dict.fromkeys(found)),
    }


def _air_words(context: Context) -> str:
    air = context.plan.piece.room.air
    if not air:
        return ""
    warmth = format_temperature(air.temperature, context.sizes.style)
    return (
        f"Worked out for air between {format_ratio(air.dry)} and {format_ratio(air.damp)} "
        f"relative humidity at {warmth}."
    )


def _floating_notes(context: Context) -> list[str]:
    """Solid panels that lie in their grooves without glue, each named once."""
    plan = context.plan
    bench = Bench(plan.machined, plan.cut_plan, plan.shop_as_left)
    kinds = {part.name: part.material.kind for part in plan.piece.parts}
    floating = dict.fromkeys(
        joint.first
        for joint in plan.piece.joints
        if joint.method == "groove"
        and kinds.get(joint.first) is MaterialKind.SOLID
        and not is_glued(bench, joint)
    )
    return [f"Leave {context.named(name)} free in its grooves, no glue there." for name in floating]


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
