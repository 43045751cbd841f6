"""The parts list and the shopping list as CSV, with mm as numbers for other programs."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from typing import TYPE_CHECKING

from scantling.packet.context import Context, context_of
from scantling.packet.lists import has_no_price
from scantling.packet.part_words import grain_words, material_words, thickness_width_length
from scantling.packet.shown import amount
from scantling.piece.model import Part
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan

PART_HEADS = (
    "item",
    "name",
    "quantity",
    "left hand",
    "right hand",
    "thickness mm",
    "width mm",
    "length mm",
    "cut thickness mm",
    "cut width mm",
    "cut length mm",
    "thickness",
    "width",
    "length",
    "cut length",
    "material",
    "grain",
    "parts",
)
SHOPPING_HEADS = ("group", "item", "need", "unit", "on hand", "buy", "price each", "cost", "currency", "note")


def parts_csv(plan: Plan, units: LengthUnit | None = None) -> bytes:
    """One row a different part; sizes in mm to 0.1 and in the packet's unit."""
    context = context_of(plan, units)
    return _csv(PART_HEADS, (_part_cells(index, context) for index in range(len(context.items.items))))


def _part_cells(index: int, context: Context) -> list[str]:
    item, sizes = context.items.items[index], context.sizes
    machined, part = item.first, item.first.part
    shown, cut = (_true(part, thickness_width_length(part, box)) for box in (part.box, machined.cut_box))
    hands = (len(item.drawn), len(item.mirrored)) if item.handed else (0, 0)
    return [
        str(item.number),
        item.name,
        str(item.quantity),
        *(str(count) for count in hands),
        *(f"{size:.1f}" for size in (*shown, *cut)),
        *(sizes.plain(size) for size in (*shown, cut[2])),
        material_words(part),
        grain_words(part),
        "; ".join(copy.name for copy in item.parts),
    ]


def _true(part: Part, sizes: tuple[float, float, float]) -> tuple[float, float, float]:
    """With the length of a leaning stick along the stick."""
    return (sizes[0], sizes[1], sizes[2] * part.true_ratio)


def shopping_csv(plan: Plan) -> bytes:
    """One row a purchase."""
    currency = plan.build_plan.cost.currency
    rows = (
        [
            line.group,
            line.item,
            amount(line.need),
            line.unit,
            amount(line.on_hand),
            amount(line.buy),
            *(("", "") if has_no_price(line) else (f"{line.price_each:.2f}", f"{line.cost:.2f}")),
            currency,
            line.note,
        ]
        for line in plan.build_plan.shopping
    )
    return _csv(SHOPPING_HEADS, rows)


def _csv(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """UTF-8 with a byte order mark, so that spreadsheets read it as such."""
    text = StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows([_harmless(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8-sig")


def _harmless(cell: str) -> str:
    """A text that a spreadsheet would take for a formula gets an apostrophe before it."""
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell
