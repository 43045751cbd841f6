"""Sheet goods: parts to their sheets for the least money, proven, then from the fewest and with the best
offcuts.

Cut in three stages, and trimmed: slices of the sheet, strips of a slice, parts of a strip.
"""

from __future__ import annotations

import math
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from scantling.cutting.cut_plan import Need
from scantling.cutting.milling import Means
from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.problem import SCALE, Item, Stock
from scantling.cutting.solver.search import Key, Search
from scantling.cutting.sticks import Effort
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, group_of
from scantling.cutting.ways import Answer
from scantling.piece.model import MaterialKind

if TYPE_CHECKING:
    from scantling.cutting.solver.guillotine import Flaw, Piece, SheetAnswer, SheetProblem

_CENTS = 100
_HAIR = 1e-6  # 19.99 is 1999 cents
_CENT = 10_000_000  # a cent weighs as much as so many square decimetres of sheet
_DM2 = (100 * SCALE) ** 2
_OPENED = 6  # dm² that breaking into one more sheet weighs
_STAGES = 3
_TRIED = 300  # steps a second
_Kind = tuple[int, int, bool, frozenset[int]]


def is_of_sheets(needs: Sequence[Need], sources: Sequence[Source]) -> bool:
    """Whether these are parts of one kind of sheet, each made in one way."""
    return bool(sources) and all(n.kind is MaterialKind.SHEET and len(n.ways) == 1 for n in needs)


def sheet_effort(seed: int, seconds: float, until: float) -> Effort:
    """What a slow machine does in about so many seconds."""
    return Effort(seed, round(_TRIED * seconds), until)


def sheet_answer(
    needs: tuple[Need, ...], sources: tuple[Source, ...], means: Means, tried: Effort
) -> Answer | None:
    """The cheapest way found to cut these; None where some of it cannot be had."""
    pairs = tuple((need, need.ways[0]) for need in needs)
    group = group_of(pairs, sources, means)
    alike = _alike(group.problem.items)
    answer = _solved(group, list(alike), [len(ids) for ids in alike.values()], tried)
    if answer.unmet:
        return None
    bins = dict(_bins(group, answer, [list(ids) for ids in alike.values()]))
    filling = Search(group.problem, tried.seed).resume(bins)
    return Answer(group, filling, pairs, proven=answer.bound // _CENT / _CENTS)


def _alike(items: Sequence[Item]) -> dict[_Kind, list[int]]:
    """Numbers of the items of each size that may turn alike and come from the same sheets."""
    alike: dict[_Kind, list[int]] = defaultdict(list)
    for item in items:
        alike[item.length, item.width, item.turns, item.fits].append(item.id)
    return dict(alike)


def _solved(group: Group, kinds: list[_Kind], counts: list[int], tried: Effort) -> SheetAnswer:
    from scantling.cutting.solver.guillotine import solve

    seconds = tried.until - time.monotonic()
    return solve(_problem(group, kinds, counts), seconds=seconds, seed=tried.seed, steps=tried.steps)


def _problem(group: Group, kinds: list[_Kind], counts: list[int]) -> SheetProblem:
    """Every pool of sheets is one kind; both ways of cutting it up first are open."""
    from scantling.cutting.solver.guillotine import Rectangle, SheetKind, SheetProblem

    stocks = group.problem.stocks
    whole = _whole(stocks)
    number = {stocks[n].pool: kind for kind, n in enumerate(whole)}
    sheets = tuple(
        SheetKind(s.length, s.width, _cost(s), s.count, (*s.ends, *s.edges), _flaws(s))
        for s in (stocks[n] for n in whole)
    )
    wanted = tuple(
        Rectangle(long, wide, count, turns, tuple(sorted({number[stocks[n].pool] for n in fits})))
        for (long, wide, turns, fits), count in zip(kinds, counts, strict=True)
    )
    kerf = max(max(s.kerf_across, s.kerf_along) for s in stocks)
    keep = max((s.keep for s in stocks), default=(0, 0))
    return SheetProblem(sheets, wanted, kerf, _STAGES, keep=keep)


def _whole(stocks: Sequence[Stock]) -> list[int]:
    """Of each pool the stock that lies as in the shop."""
    return [number for number, stock in enumerate(stocks) if not stock.turned]


def _cost(stock: Stock) -> int:
    """Cents, rounded down so that what is proven of them holds for the price itself; then area."""
    cents = math.floor(stock.money * _CENTS + _HAIR)
    return cents * _CENT + math.ceil(stock.length * stock.width / _DM2) + _OPENED


def _flaws(stock: Stock) -> tuple[Flaw, ...]:
    from scantling.cutting.solver.guillotine import Flaw

    return tuple(Flaw(b.x0, b.x1, b.y0, b.y1) for b in stock.barred)


def _bins(group: Group, answer: SheetAnswer, left: list[list[int]]) -> Iterator[tuple[Key, Bin]]:
    """The sheets as bins. One whose first cuts run along is a bin of the stock that is turned."""
    stocks = group.problem.stocks
    whole, used = _whole(stocks), defaultdict[int, int](int)
    for sheet in answer.sheets:
        pool, turned = stocks[whole[sheet.kind]].pool, bool(sheet.whole.parts) and not sheet.whole.across
        number = next(n for n, s in enumerate(stocks) if (s.pool, s.turned) == (pool, turned))
        key = (pool, used[sheet.kind])
        used[sheet.kind] += 1
        yield key, Bin(number, key[1], tuple(_segments(sheet.whole, turned, left)))


def _segments(whole: Piece, turned: bool, left: list[list[int]]) -> Iterator[Segment]:
    """A sheet stage by stage; `left`: numbers of the items of each rectangle that are not laid yet."""
    for segment in _side_by_side(whole, across=not turned):
        strips = []
        for strip in _side_by_side(segment, across=turned):
            pieces = [_wanted(run) for run in _side_by_side(strip, across=not turned)]
            spots = [_spot(piece, left[piece.wanted].pop(0), turned) for piece in pieces]
            _, low, _, wide = _turned(strip, turned)
            strips.append(Strip(low, low + wide, tuple(spots)))
        start, _, long, _ = _turned(segment, turned)
        yield Segment(start, start + long, tuple(strips))


def _side_by_side(piece: Piece, *, across: bool) -> Iterator[Piece]:
    """What it is cut into by cuts of one direction, leftovers left out."""
    if piece.parts and piece.across == across:
        for part in piece.parts:
            yield from _side_by_side(part, across=across)
    elif any(leaf.wanted >= 0 for leaf in piece.leaves()):
        yield piece


def _wanted(run: Piece) -> Piece:
    """The one piece that is trimmed from a run."""
    return next(leaf for leaf in run.leaves() if leaf.wanted >= 0)


def _spot(piece: Piece, item: int, turned: bool) -> Spot:
    return Spot(item, *_turned(piece, turned))


def _turned(piece: Piece, turned: bool) -> tuple[int, int, int, int]:
    """Place and size as the stock sees them."""
    if turned:
        return piece.y, piece.x, piece.width, piece.length
    return piece.x, piece.y, piece.length, piece.width
