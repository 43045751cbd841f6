"""In the worker: how the boards of one plan are cut otherwise than those of another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from scantling.desk.build.changes import Change

if TYPE_CHECKING:
    from scantling.cutting.cut_plan import Blank, Placed, StockLayout
    from scantling.packet.context import Context

MOST_PLACES = 4  # of one board: more are counted only


def boards_changed(old: Context, new: Context) -> Iterator[Change]:
    """Boards, sheets and sticks that give something else, or the same from other places."""
    was, will = _by_stock(old), _by_stock(new)
    cut = {used.stock for used in new.plan.piece.record.stock}
    for name in dict.fromkeys([*was, *will]):
        if name not in will:
            yield Change(name, _gives(was[name], old), "noted as cut" if name in cut else "not cut")
        elif name not in was:
            yield Change(name, "to be bought" if will[name].bought else "not cut", _gives(will[name], new))
        else:
            yield from _laid_anew(name, (was[name], old), (will[name], new))


def _by_stock(seen: Context) -> Mapping[str, StockLayout]:
    return {layout.stock: layout for layout in seen.plan.cut_plan.layouts if layout.placed}


def _laid_anew(
    name: str, was: tuple[StockLayout, Context], will: tuple[StockLayout, Context]
) -> Iterator[Change]:
    gave, gives = _gives(*was), _gives(*will)
    if gave != gives:
        yield Change(name, gave, gives)
        return
    before, after = _places(*was), _places(*will)
    if before != after:
        yield Change(name, _words(before - after), _words(after - before))


def _places(layout: StockLayout, seen: Context) -> Counter[str]:
    """What lies where, as a maker reads it off a tape: finer differences are none."""
    blanks = {blank.id: blank for blank in seen.plan.cut_plan.blanks}
    return Counter(_place(placed, blanks[placed.blank], seen) for placed in layout.placed)


def _place(placed: Placed, blank: Blank, seen: Context) -> str:
    from scantling.packet.cut_sheets import blank_label

    said = seen.sizes.plain
    size = f"{said(placed.length)} x {said(placed.width)}"
    return f"{blank_label(blank, seen)} {size} at {said(placed.x)} along, {said(placed.y)} across"


def _words(places: Counter[str]) -> str:
    listed = sorted(places.elements())
    more = len(listed) - MOST_PLACES
    return "; ".join(listed[:MOST_PLACES]) + (f"; and {more} more" if more > 0 else "")


def _gives(layout: StockLayout, seen: Context) -> str:
    from scantling.building.naming import Names

    parts = {blank.id: blank.part for blank in seen.plan.cut_plan.blanks}
    return f"for {Names(seen.plan.piece).counted(parts[placed.blank] for placed in layout.placed)}"
