"""Everything the packet says, as plain data that print and page share. No layout, no files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.packet.care import finish_rows, finish_steps, movement, safety
from scantling.packet.chances import chance_lines
from scantling.packet.context import Context, context_of
from scantling.packet.cut_sheets import cut_sheets, glue_ups, unmet
from scantling.packet.front import choices, findings, must_fix_count, named_sizes, summary
from scantling.packet.lists import costs, parts_rows, shopping_groups
from scantling.packet.part_sheets import part_sheets
from scantling.packet.scales import scale_words
from scantling.packet.sequence_rows import sequence_data
from scantling.packet.shown import amount, bound, money, work_time
from scantling.packet.steps import steps
from scantling.packet.views import Drawing, cover_pictures, exploded_view, general_views, pose_picture
from scantling.packet.ways import WAY_HEADS, WAY_NOTE
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan

Data = dict[str, object]


def packet_data(plan: Plan, units: LengthUnit | None = None) -> Data:
    """All texts, rows and drawings (as SVG) of one packet; nothing but str, int, bool, list and dict."""
    context = context_of(plan, units)
    data = _bound(_sections(context))
    assert isinstance(data, dict)
    return data


def _bound(value: object) -> object:
    """No size is torn at a line's end, in any text but the drawings'."""
    if isinstance(value, str):
        return value if value.startswith("<svg") else bound(value)
    if isinstance(value, list):
        return [_bound(item) for item in value]
    if isinstance(value, dict):
        return {key: _bound(item) for key, item in value.items()}
    return value


def _sections(context: Context) -> Data:
    plan = context.plan
    return {
        **_head(context),
        "summary": summary(context),
        "sizes": named_sizes(context),
        "choices": choices(context),
        "findings": findings(context),
        "parts": parts_rows(context),
        "shopping": shopping_groups(context),
        "costs": costs(context),
        "cutting": _cutting(context),
        "sheets": part_sheets(context),
        "general": _drawing(general_views(plan.scene, context.sizes)),
        "poses": [
            {"name": pose.name, **_drawing(pose_picture(context.gallery, pose.name))}
            for pose in plan.piece.poses
            if pose.steps
        ],
        "exploded": _drawing(exploded_view(context.gallery, context.items)),
        "steps": steps(context),
        "build_notes": list(plan.build_plan.notes),
        "finish": finish_rows(context),
        "finish_steps": finish_steps(context),
        "movement": movement(context),
        "safety": safety(context),
    }


def _head(context: Context) -> Data:
    plan = context.plan
    wide, deep, high = plan.piece.overall.sizes
    return {
        "name": plan.piece.name,
        "note": plan.piece.note,
        "shop": plan.shop.name,
        "unit": context.sizes.unit_word,
        "foreign": context.foreign,
        "size_line": f"{context.sizes.three((wide, deep, high))} {context.sizes.unit_word}",
        "must_fix": must_fix_count(context),
        "cover": [_drawing(picture) for picture in cover_pictures(context.gallery)],
        "time": work_time(plan.build_plan.active_minutes),
    }


def _drawing(drawing: Drawing) -> Data:
    scale = scale_words(drawing.scale) if drawing.scale else ""
    return {"svg": drawing.svg, "alt": drawing.alt, "scale": scale}


def weight_words(context: Context) -> str:
    """What the plan uses up of solid wood beside what any plan must; "" where that was not worked out."""
    plan, currency = context.plan.cut_plan, context.plan.shop.currency
    if not plan.weight_bound:
        return ""
    least = money(plan.weight_bound, currency)
    return (
        f"Wood used up and gluing weigh {money(plan.weight, currency)}; no plan for the same money weighs "
        f"less than {least}."
    )


def _ways(context: Context) -> Data:
    """Ways to come by the wood: a table, and below it what each hangs on and cannot make."""
    notes = [
        f"{way.name}: {way.flatness}{f'; cannot be made: {way.lacks}' if way.lacks else ''}"
        for way in context.ways
    ]
    return {
        "heads": [head for head, _ in WAY_HEADS],
        "rows": [[getattr(way, key) for _, key in WAY_HEADS] for way in context.ways],
        "notes": [WAY_NOTE, *notes],
    }


def _cutting(context: Context) -> Data:
    plan, sizes, currency = context.plan.cut_plan, context.sizes, context.plan.shop.currency
    areas = plan.areas
    shares = [
        ("blanks", areas.blanks),
        ("saw kerf", areas.kerf),
        ("offcuts kept", areas.offcuts),
        ("waste", areas.waste),
    ]
    whole = areas.stock or 1.0
    return {
        "layouts": cut_sheets(context),
        "glue_ups": glue_ups(context),
        "unmet": unmet(context),
        "shares": [
            {"label": label, "words": f"{sizes.area(area)}, {area / whole * 100:.0f} %"}
            for label, area in shares
        ],
        "money": money(plan.money, currency),
        "bound": money(plan.bound, currency) if plan.bound > 0 else "",
        "weight": weight_words(context),
        "board_feet": amount(plan.board_feet),
        "status": plan.status,
        "notes": list(plan.notes),
        "chances": chance_lines(context),
        "sequence": sequence_data(context),
        "ways": _ways(context),
    }
