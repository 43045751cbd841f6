"""How likely the wood comes out as planned, in sentences: the whole, then board by board."""

from __future__ import annotations

import math
from collections.abc import Iterator

from scantling.cutting.chances import BlankChance, BoardChance, RobustYield, robust
from scantling.packet.context import Context

_DOUBTFUL = 0.95  # a board less sure than this is told of
_MOST = 6  # boards told of one by one


def chance_lines(context: Context) -> list[str]:
    """Nothing where no board is cut."""
    cuts = context.plan.cut_plan
    lines = list(lines_of(robust(cuts, context.plan.shop_as_left), context))
    if lines and cuts.unmet:
        lines.insert(1, "Parts that no wood was found for are not counted in this.")
    return lines


def lines_of(found: RobustYield, context: Context) -> Iterator[str]:
    """What was found, in sentences."""
    if not found.boards:
        return
    yield (
        "Boards are never quite what they were read to be. With readings off as usual, every blank of this "
        f"plan comes out in {_of_hundred(found.chance)} "
        f"({found.samples} boards drawn of each, give or take {max(math.ceil(found.error * 100), 1)})."
    )
    doubtful = sorted((b for b in found.boards if b.chance < _DOUBTFUL), key=lambda b: b.chance)
    by_name = {each.blank: each for each in found.doubtful}
    for board in doubtful[:_MOST]:
        yield _board(board, by_name[board.first], context)
    if len(doubtful) > _MOST:
        yield f"{len(doubtful) - _MOST} boards more are in doubt."
    if doubtful:
        yield (
            "Cut those first, mill them and measure: what does not come out can still be planned again from "
            "what is left. Where a board hangs in doubt by its bend, read it again once it is cut to rough "
            "length."
        )


def _board(board: BoardChance, first: BlankChance, context: Context) -> str:
    stock = board.stock.replace("#", ", no. ")
    seen = ", not seen yet" if board.bought else ""
    short = context.sizes.both(first.short)
    all_of_it = f"{stock}{seen}: all of it in {_of_hundred(board.chance)}"
    lacks = f"which lacks {first.lacks} where it fails, {short} on average"
    return f"{all_of_it}. First cut {first.blank}, {lacks}; {_elsewhere(first.elsewhere)}."


def _elsewhere(number: int) -> str:
    if not number:
        return "no other board here or for sale would give it"
    return f"{number} other {'board' if number == 1 else 'boards'} would give it"


def _of_hundred(chance: float) -> str:
    """Never said to be sure when it is not."""
    if 0 < chance < 0.01:
        return "fewer than 1 of 100 tries"
    if 0.99 < chance < 1:
        return "more than 99 of 100 tries"
    return f"{chance * 100:.0f} of 100 tries"
