"""Sawing and milling set-up by set-up: what is set, to what, and what goes through."""

from __future__ import annotations

from collections.abc import Sequence as Many
from itertools import groupby

from scantling.cutting import Sequence, sequence_of
from scantling.cutting.sequence import Doing, Hold, Operation
from scantling.packet.context import Context
from scantling.quantity import listed

Data = dict[str, object]
_TRIM = 0.05  # mm: a fence set to less than this only cleans an edge


def sequence_data(context: Context) -> Data:
    """Rows in order and a sentence on how many set-ups there are; no rows where nothing is cut."""
    found = sequence_of(context.plan.cut_plan, context.plan.shop_as_left)
    runs = [list(run) for _, run in groupby(found.operations, key=lambda op: op.set_up)]
    rows = [_row(number, run, context) for number, run in enumerate(runs, start=1)]
    return {"rows": rows, "words": _words(found) if rows else ""}


def _words(found: Sequence) -> str:
    return (
        f"{found.set_ups} set-ups for all boards together; one board after another it would be "
        f"{found.one_by_one}, and no order has fewer than {found.least}. Every piece has a flat face and a "
        "straight edge before it runs along a fence. Follow the manual of each machine; where it asks for "
        "more than is said here, the manual is right."
    )


def _row(number: int, run: Many[Operation], context: Context) -> Data:
    first = run[0]
    return {
        "number": number,
        "machine": first.machine or "by hand",
        "what": f"{first.doing.value}, {first.hold.value}",
        "setting": _setting(first, context),
        "pieces": listed([_of_stock(stock, list(mine)) for stock, mine in _by_stock(run).items()]),
        "caution": "; ".join(dict.fromkeys(op.caution for op in run if op.caution)),
    }


def _by_stock(run: Many[Operation]) -> dict[str, list[Operation]]:
    by_stock: dict[str, list[Operation]] = {}
    for op in run:
        by_stock.setdefault(op.stock, []).append(op)
    return by_stock


def _of_stock(stock: str, mine: list[Operation]) -> str:
    """By the numbers of its cuts for the saw, by their count for milling."""
    name = stock.replace("#", ", no. ")
    numbers = [str(op.number) for op in mine if op.number]
    if numbers:
        return f"{name} cut{'s' if len(numbers) > 1 else ''} {listed(numbers)}"
    return f"{name}, {len(mine)} pieces" if len(mine) > 1 else f"{name}, 1 piece"


def _setting(op: Operation, context: Context) -> str:
    if op.setting is not None:
        return "clean the edge" if op.setting < _TRIM else context.sizes.both(op.setting)
    if op.doing in (Doing.FLATTEN, Doing.EDGE):
        return "until it is"
    return "as marked" if op.hold is not Hold.STOP else ""
