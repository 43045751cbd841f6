"""What to buy: timber and sheets of the cut plan, fittings by the pack, glue, finish and abrasive by area."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from scantling.building.areas import coated, surface_of
from scantling.building.assembling import is_glued
from scantling.building.assembly import is_between_parts
from scantling.building.bench import LITRES, Bench, grouped
from scantling.building.build_plan import ShoppingLine
from scantling.building.finishing import GRITS, UNFINISHED_GRIT
from scantling.building.gluing import is_seam_glued
from scantling.building.naming import numbered
from scantling.cutting.cut_plan import GlueUp, Role, StockLayout
from scantling.joinery.features import HardwareUse
from scantling.piece.model import MaterialKind
from scantling.quantity.kinds import MM_PER_INCH
from scantling.shop.model import BoardForSale, HardwareItem, Supply

GLUE_SPARE = 1.2  # common practice
FINISH_SPARE = 1.15  # common practice
SHEETS_A_SQUARE_METRE = 0.5  # of abrasive, for each grit; common practice, no source
SAME = 0.3  # mm: a fitting this close is the one asked for
SHOP_MADE = frozenset({"glue block", "button", "loose tenon", "spline", "wedge"})


def shopping(bench: Bench) -> tuple[ShoppingLine, ...]:
    """Every line of the list, also what is on hand already."""
    return (*_stock(bench), *_fittings(bench), *_supplies(bench))


def _stock(bench: Bench) -> Iterator[ShoppingLine]:
    bought = [layout for layout in bench.cuts.layouts if layout.bought]
    names = grouped(bought, lambda layout: layout.stock.rpartition("#")[0] or layout.stock)
    for name, layouts in names.items():
        yield _timber(bench, name, layouts)


def _timber(bench: Bench, name: str, layouts: Sequence[StockLayout]) -> ShoppingLine:
    cost = round(sum(layout.price for layout in layouts), 2)
    stock = bench.stock_of(layouts[0])
    size = f"{bench.number(layouts[0].length)} x {bench.show(layouts[0].width)}"
    if isinstance(stock, BoardForSale):
        feet = round(sum(board_feet(lay.length, lay.width, stock.nominal) for lay in layouts), 2)
        note = f"{numbered(len(layouts), 'board')}, about {size}"
        return ShoppingLine(
            "timber", name, feet, "board feet", 0.0, feet, stock.price_per_board_foot, cost, note
        )
    group = "sheets" if layouts[0].kind is MaterialKind.SHEET else "timber"
    unit = "sheets" if group == "sheets" else "sticks"
    count = float(len(layouts))
    item = _with_material(bench, name, layouts[0])
    return ShoppingLine(group, item, count, unit, 0.0, count, layouts[0].price, cost, f"{size} each")


def _with_material(bench: Bench, name: str, layout: StockLayout) -> str:
    """The stack's label with the material, when the label alone does not say it."""
    stock = bench.stock_of(layout)
    material = getattr(stock, "name", "")
    if not material or material in name:
        return name
    sold_as = getattr(stock, "nominal", "") or bench.show(getattr(stock, "label", 0.0))
    return f"{material} {sold_as} ({name})"


def board_feet(length: float, width: float, nominal: str) -> float:
    """Board measure of a board sold as `nominal`; what is thinner than 1 in counts as 1 in.

    Source: board foot = thickness in x width in x length ft / 12, nominal rough thickness (hardwood trade).
    """
    quarters = nominal.partition("/")[0]
    thick = max(1.0, float(quarters) / 4) if quarters.isdigit() else 1.0
    return thick * (width / MM_PER_INCH) * (length / MM_PER_INCH / 12) / 12


def _fittings(bench: Bench) -> Iterator[ShoppingLine]:
    uses = [use for use in bench.machined.hardware if use.kind not in SHOP_MADE]
    by_item = grouped(uses, lambda use: _key(bench, use))
    for (name, known), found in by_item.items():
        need = float(sum(use.count for use in found))
        item = next((i for i in bench.shop.hardware if i.id == name), None) if known else None
        yield _fitting(name, need, item)


def _key(bench: Bench, use: HardwareUse) -> tuple[str, bool]:
    item = item_for(bench, use)
    return (item.id, True) if item else (f"{use.kind} {use.size}".strip(), False)


def item_for(bench: Bench, use: HardwareUse) -> HardwareItem | None:
    """The shop's fitting for a use: the one named, else the first of its kind that has its sizes."""
    items = bench.shop.hardware
    if use.item is not None:
        return next((item for item in items if item.id == use.item), None)
    return next((item for item in items if item.kind == use.kind and _has_sizes(item, use)), None)


def _has_sizes(item: HardwareItem, use: HardwareUse) -> bool:
    have = dict(item.sizes)
    return all(name not in have or abs(have[name] - size) <= SAME for name, size in use.sizes)


def _fitting(name: str, need: float, item: HardwareItem | None) -> ShoppingLine:
    if item is None:
        note = "not in the shop file: its price is not known"
        return ShoppingLine("hardware", name, need, "pieces", 0.0, need, 0.0, 0.0, note)
    packs = ceil(max(0.0, need - item.on_hand) / item.pack)
    notes = [f"{packs} x pack of {item.pack}" if item.pack > 1 and packs else ""]
    notes.append(f"fixed with {item.screws} screws" if item.screws else "")
    return ShoppingLine(
        "hardware",
        name,
        need,
        "pieces",
        float(item.on_hand),
        float(packs * item.pack),
        item.price / item.pack,
        round(packs * item.price, 2),
        "; ".join(note for note in notes if note),
    )


def _supplies(bench: Bench) -> Iterator[ShoppingLine]:
    litres = glue_litres(bench)
    if litres > 0:
        yield _supply(bench.glue.name, litres, "litre", bench.glue_supply)
    for coats in bench.piece.finish:
        supply, spread = bench.supply_named(coats.finish), bench.coverage(coats.finish)
        area = coated(bench.piece, coats.over) * coats.coats
        yield _supply(
            coats.finish, area / spread * FINISH_SPARE, "litre", supply, f"{bench.area(area)} in all coats"
        )
    yield _abrasive(bench)


def _supply(name: str, need: float, unit: str, supply: Supply | None, note: str = "") -> ShoppingLine:
    if supply is None:
        said = "not in the shop file: its price is not known"
        words = "; ".join(part for part in (note, said) if part)
        return ShoppingLine("supplies", name, round(need, 2), unit, 0.0, round(need, 2), 0.0, 0.0, words)
    wanted = need / LITRES.get(supply.unit, 1.0)
    buy = float(ceil(max(0.0, wanted - supply.on_hand) - 1e-9))
    return ShoppingLine(
        "supplies",
        supply.id,
        round(wanted, 2),
        supply.unit,
        supply.on_hand,
        buy,
        supply.price,
        round(buy * supply.price, 2),
        note,
    )


def glue_litres(bench: Bench) -> float:
    """Glue for every seam and every glued joint: area x spread, and a fifth over."""
    area = sum(_seam_area(bench, g) for g in bench.cuts.glue_ups if is_seam_glued(bench, g))
    joints = {j.id for j in bench.piece.joints if is_between_parts(j) and is_glued(bench, j)}
    area += sum(lay.glued_area for lay in bench.machined.layouts if lay.joint in joints)
    return area / 1e6 * bench.glue.spread / bench.glue.kg_a_litre * GLUE_SPARE


def _seam_area(bench: Bench, glue_up: GlueUp) -> float:
    """Area of the glue lines between neighbouring blanks. [mm²]"""
    blanks = [bench.blanks[name] for name in glue_up.blanks]
    across = [b.width if glue_up.role is Role.LAYER else b.thickness for b in blanks]
    return sum(b.length * wide for b, wide in zip(blanks[1:], across[1:], strict=True))


def _abrasive(bench: Bench) -> ShoppingLine:
    last = bench.finish.last_grit if bench.finish else UNFINISHED_GRIT
    grits = sum(grit <= last for grit in GRITS)
    need = ceil(surface_of(bench.piece, bench.piece.part_by_name) * grits * SHEETS_A_SQUARE_METRE)
    supply = next((s for s in bench.shop.supplies if "sandpaper" in s.kind or "abrasive" in s.kind), None)
    return _supply("sandpaper", float(need), "sheet", supply, f"{grits} grits up to {last}")
