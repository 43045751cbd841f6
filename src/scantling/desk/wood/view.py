"""In the worker: the wood plan in words, numbers and drawings."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from scantling.desk.working.plans import plan_of
from scantling.errors import ReadError

if TYPE_CHECKING:
    from scantling.cutting import CutPlan, StockLayout
    from scantling.desk.working import Asked
    from scantling.packet.context import Context
    from scantling.packet.ways import WayShown
    from scantling.plan import Plan

Rows = tuple[dict[str, Any], ...]
_NUMBER = re.compile(r"#(\d+)")


@dataclass(frozen=True, slots=True)
class Sums:
    """What it comes to, in words. `bound`: no plan of this piece from this stock can cost less."""

    money: str
    bound: str
    board_feet: str
    used: str
    flatness: str
    status: str


@dataclass(frozen=True, slots=True)
class BlankShown:
    """A blank on its board: what it can be milled to there, what the warp takes, what is to spare."""

    label: str
    part: str
    rough: str
    milled: str
    flat: str = ""
    lost: str = ""
    spare: str = ""


@dataclass(frozen=True, slots=True)
class StockShown:
    """One board, sheet or stick. `sheet`: its drawing and cuts, as in the packet."""

    stock: str
    sheet: dict[str, Any]
    bought: bool
    used: str
    blanks: tuple[BlankShown, ...]
    offcuts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part and its wood. `wish`: the board it is wanted from; `grain`: "may turn", "stays" or ""."""

    part: str
    label: str
    stock: tuple[str, ...]
    could: tuple[str, ...]
    wish: str
    grain: str
    on_sheet: bool


@dataclass(frozen=True, slots=True)
class Idle:
    """Stock of the rack that this plan does not cut. `left`: because the maker said so."""

    stock: str
    what: str
    left: bool


@dataclass(frozen=True, slots=True)
class WoodView:
    """The page. `told`: what is otherwise than before the last wish."""

    name: str
    sums: Sums
    shares: Rows
    sheets: tuple[StockShown, ...]
    parts: tuple[PartShown, ...]
    idle: tuple[Idle, ...]
    glue_ups: Rows
    unmet: Rows
    unheeded: tuple[tuple[str, str], ...]
    buy: Rows
    notes: tuple[str, ...]
    chances: tuple[str, ...]
    sequence: dict[str, Any]
    told: tuple[str, ...]


def wood_view(asked: Asked, before: Asked | None = None) -> WoodView:
    """The wood plan. Raises ReadError where the piece cannot be planned."""
    from scantling.packet.chances import chance_lines
    from scantling.packet.context import context_of
    from scantling.packet.cut_sheets import cut_sheets_singly, glue_ups, unmet
    from scantling.packet.lists import shopping_groups
    from scantling.packet.sequence_rows import sequence_data

    plan = plan_of(asked)
    context, cuts = context_of(plan), plan.cut_plan
    drawn = cut_sheets_singly(context)
    return WoodView(
        name=plan.piece.name,
        sums=_sums(cuts, plan),
        shares=_shares(cuts, context),
        sheets=tuple(_stock(l, s, context) for l, s in zip(cuts.layouts, drawn, strict=True)),
        parts=_parts(context),
        idle=tuple(_idle(plan)),
        glue_ups=tuple(shown(glue_ups(context))),
        unmet=tuple(shown(unmet(context))),
        unheeded=tuple((shown(u.reason), shown(u.best)) for u in cuts.unheeded),
        buy=tuple(shown(g) for g in shopping_groups(context) if g["group"] in ("timber", "sheets")),
        notes=tuple(shown(cuts.notes)),
        chances=tuple(shown(chance_lines(context))),
        sequence=shown(sequence_data(context)),
        told=_told(plan, before),
    )


def routes_view(asked: Asked) -> tuple[WayShown, ...]:
    """The ways to come by the wood, side by side: takes a moment."""
    from scantling.packet.ways import ways_of

    return tuple(
        replace(
            way, flatness=shown(way.flatness), cannot=tuple((part, shown(why)) for part, why in way.cannot)
        )
        for way in ways_of(plan_of(asked))
    )


def shown(words: Any) -> Any:
    """Words for the page: no size torn at a line's end, the second of a stack as its "no. 2"."""
    from scantling.packet.shown import bound

    if isinstance(words, str):
        return words if words.startswith("<svg") else bound(_NUMBER.sub(r", no. \1", words))
    if isinstance(words, dict):
        return {key: shown(value) for key, value in words.items()}
    return [shown(each) for each in words] if isinstance(words, list | tuple) else words


def _sums(cuts: CutPlan, plan: Plan) -> Sums:
    from scantling.cutting import flatness_of, share_used
    from scantling.packet.shown import amount, money
    from scantling.quantity import Style

    currency = plan.shop.currency
    return Sums(
        money=money(cuts.money, currency),
        bound=money(cuts.bound, currency),
        board_feet=amount(cuts.board_feet),
        used=f"{share_used(cuts) * 100:.0f} %",
        flatness=shown(flatness_of(cuts, Style(plan.piece.unit, plan.shop.fraction)).words),
        status=_STATUS.get(cuts.status, cuts.status),
    )


_STATUS = {
    "optimal": "nothing less can be spent: proven",
    "feasible": "a good plan; a cheaper one is not ruled out",
    "partly impossible": "some parts have no wood",
}


def _shares(cuts: CutPlan, context: Context) -> Rows:
    areas, whole = cuts.areas, cuts.areas.stock or 1.0
    pairs = (
        ("parts", areas.blanks),
        ("saw kerf", areas.kerf),
        ("offcuts kept", areas.offcuts),
        ("waste", areas.waste),
    )
    return tuple(
        {"label": label, "words": shown(f"{context.sizes.area(area)}, {area / whole * 100:.0f} %")}
        for label, area in pairs
    )


def _stock(layout: StockLayout, sheet: dict[str, Any], context: Context) -> StockShown:
    from scantling.cutting import layout_facts
    from scantling.packet.cut_sheets import blank_label

    facts, sizes = layout_facts(context.plan.cut_plan, layout), context.sizes

    def size(mm: float | None) -> str:
        return "" if mm is None else shown(sizes.one(mm))

    blanks = tuple(
        BlankShown(
            label=blank_label(each.blank, context),
            part=each.part,
            rough=shown(f"{sizes.plain(each.blank.rough_width)} × {sizes.plain(each.blank.rough_length)}"),
            milled=shown(sizes.three((each.blank.thickness, each.blank.width, each.blank.length))),
            flat=size(each.flat),
            lost=size(each.lost),
            spare=size(each.spare),
        )
        for each in facts.blanks
    )
    offcuts = tuple(
        shown(f"{sizes.plain(piece.width)} × {sizes.plain(piece.length)}") for piece in facts.offcuts
    )
    return StockShown(layout.stock, shown(sheet), layout.bought, f"{facts.used * 100:.0f} %", blanks, offcuts)


def _parts(context: Context) -> tuple[PartShown, ...]:
    cuts, could = context.plan.cut_plan, _stock_for_parts(context.plan)
    parts = {blank.id: blank.part for blank in cuts.blanks}
    stock: dict[str, dict[str, None]] = {}
    for layout in cuts.layouts:
        for placed in layout.placed:
            stock.setdefault(parts[placed.blank], {})[layout.stock] = None
    names = dict.fromkeys([*parts.values(), *(u.blank.part for u in cuts.unmet)])
    return tuple(_part(name, tuple(stock.get(name, ())), could.get(name, ()), context) for name in names)


def _part(name: str, stock: tuple[str, ...], could: tuple[str, ...], context: Context) -> PartShown:
    noted = next((m for m in context.plan.piece.record.measured if m.part == name), None)
    return PartShown(
        part=name,
        label=context.named(name),
        stock=stock,
        could=could,
        wish=", ".join(noted.stock) if noted else "",
        grain=noted.grain.value if noted and noted.grain else "",
        on_sheet=context.plan.piece.part(name).material.kind.name == "SHEET",
    )


def _stock_for_parts(plan: Plan) -> dict[str, tuple[str, ...]]:
    """What could serve each part, by name, as the planner sees it."""
    from scantling.cutting import demand_of, rack_left
    from scantling.cutting.supply import sources_for

    shop = rack_left(plan.shop, plan.piece.record, plan.piece.unit).shop
    needs = demand_of(plan.machined, plan.shop).needs
    return {need.part: tuple(dict.fromkeys(s.id for s in sources_for(need, shop))) for need in needs}


def _idle(plan: Plan) -> Iterable[Idle]:
    from scantling.packet.shown import Sizes
    from scantling.piece.model import StockUse
    from scantling.quantity import Style
    from scantling.shop.model import Board, Sheet

    sizes = Sizes(Style(plan.piece.unit, plan.shop.fraction))
    used = {layout.stock.split("#")[0] for layout in plan.cut_plan.layouts}
    left = {s.stock for s in plan.piece.record.stock if s.use is StockUse.LEAVE}
    able = {name for names in _stock_for_parts(plan).values() for name in names}
    stocks: tuple[Board | Sheet, ...] = (*plan.shop.boards, *plan.shop.sheets)
    for stock in stocks:
        if stock.owned and stock.id not in used and stock.id in able | left:
            size = sizes.three((stock.thickness, stock.width, stock.length))
            wood = stock.species if isinstance(stock, Board) else stock.name
            yield Idle(stock.id, shown(f"{wood}, {size}"), stock.id in left)


def _told(plan: Plan, before: Asked | None) -> tuple[str, ...]:
    from scantling.cutting import compare
    from scantling.packet.shown import money

    if before is None:
        return ()
    try:
        was = plan_of(before)
    except ReadError:
        return ()
    found = compare(was.cut_plan, plan.cut_plan)
    said = found.sentences(lambda value: money(value, plan.shop.currency))
    return tuple(shown(sentence) for sentence in said)
