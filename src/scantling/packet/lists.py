"""The parts list and the shopping list, as rows for print, page and CSV."""

from __future__ import annotations

from scantling.building.build_plan import BuildPlan, ShoppingLine
from scantling.packet.context import Context
from scantling.packet.items import Item
from scantling.packet.joint_words import joint_notes
from scantling.packet.part_words import (
    grain_words,
    length_words,
    material_words,
    thickness_width_length,
    width_words,
)
from scantling.packet.shown import amount, money

Data = dict[str, object]


def parts_rows(context: Context) -> list[Data]:
    """One row a different part."""
    return [_part_row(item, context) for item in context.items.items]


def _part_row(item: Item, context: Context) -> Data:
    machined, sizes = item.first, context.sizes
    part = machined.part
    thick, _, _ = thickness_width_length(part, part.box)
    hands = f"{len(item.drawn)} L, {len(item.mirrored)} R" if item.handed else ""
    return {
        "number": item.number,
        "name": item.name,
        "quantity": item.quantity,
        "hands": hands,
        "thick": sizes.plain(thick),
        "wide": width_words(machined, sizes.plain),
        "long": length_words(machined, sizes.plain),
        "material": material_words(part),
        "grain": grain_words(part),
        "joints": "; ".join(
            dict.fromkeys(note.split(",")[0].lower() for note in joint_notes(machined, context))
        ),
    }


def shopping_groups(context: Context) -> list[Data]:
    """Lines under their group, each group with its sum."""
    build = context.plan.build_plan
    groups: dict[str, list[ShoppingLine]] = {}
    for line in build.shopping:
        groups.setdefault(line.group, []).append(line)
    return [
        {
            "group": group,
            "lines": [_shopping_row(line, build.cost.currency) for line in lines],
            "sum": money(sum(line.cost for line in lines), build.cost.currency),
        }
        for group, lines in groups.items()
    ]


def has_no_price(line: ShoppingLine) -> bool:
    """Whether this must be bought and nobody knows for how much."""
    return line.buy > 0 and not line.price_each and not line.cost


def unpriced_words(build: BuildPlan) -> str:
    """How much of the list the sums leave out: "7 lines of the shopping list have no price"; else empty."""
    count = sum(map(has_no_price, build.shopping))
    if not count:
        return ""
    lines, have = ("line", "has") if count == 1 else ("lines", "have")
    return f"{count} {lines} of the shopping list {have} no price"


def _shopping_row(line: ShoppingLine, currency: str) -> Data:
    wanted, unknown = line.buy > 0, has_no_price(line)
    return {
        "item": line.item,
        "wanted": wanted,
        "need": _counted(line.need, line.unit),
        "on_hand": amount(line.on_hand),
        "buy": _counted(line.buy, line.unit) if wanted else "none",
        "each": "not known" if unknown else money(line.price_each, currency),
        "cost": money(line.cost, currency) if wanted and not unknown else "",
        "note": line.note,
    }


def _counted(value: float, unit: str) -> str:
    """An amount with its unit: "1 piece", "6 pieces"."""
    words = unit.removesuffix("s") if value == 1 else unit
    return f"{amount(value)} {words}"


def costs(context: Context) -> list[Data]:
    """What it comes to."""
    build = context.plan.build_plan
    cost, unpriced = build.cost, unpriced_words(build)
    rows = [
        ("Timber, sheets and hardware to buy", money(cost.bought, cost.currency)),
        ("Glue, finish and abrasive to buy", money(cost.supplies, cost.currency)),
        ("To spend", "; ".join(filter(None, (money(cost.total, cost.currency), unpriced)))),
        ("Stock used from the rack", money(cost.from_rack, cost.currency)),
    ]
    if cost.labour:
        rows.append((f"Labour, {amount(cost.hours)} h", money(cost.labour, cost.currency)))
    return [{"label": label, "words": words} for label, words in rows]
