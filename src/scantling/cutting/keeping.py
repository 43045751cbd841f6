"""A plan made again with the least change: what lies on a board stays there, the rest finds its place.

Bins are read back from the boards of the plan before; only what costs money is moved.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import Blank, CutPlan, Need, Piece2D, Placed, Role, StockLayout, Way
from scantling.cutting.layout import areas_of
from scantling.cutting.milling import Means
from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip, bars_over, margins, wander, without
from scantling.cutting.solver.problem import SCALE, Item, Panel, Stock, runs_of
from scantling.cutting.solver.search import Key, Search
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, group_of
from scantling.cutting.ways import Answer
from scantling.piece.model import PartName

_UNIT = 2  # of the solver: what rounding may take from a size
_HAIR = 1e-6  # mm
Rect = tuple[float, float, float, float]  # x, y, length, width [mm]


@dataclass(frozen=True)
class Keeping:
    """Needs that compete for the same stock, and the plan before. `effort`: places taken at most."""

    needs: tuple[Need, ...]
    sources: tuple[Source, ...]
    means: Means
    before: CutPlan
    seed: int
    effort: int
    until: float

    def answer(self, ways: Mapping[PartName, Way]) -> Answer | None:
        """As few blanks as can be on another board than before; None if all are new.

        Parts are made as they were to be before, but for those with another of these `ways`.
        """
        chosen = tuple((n, ways.get(n.part) or _way_before(n, self.before)) for n in self.needs)
        group = group_of(chosen, self.sources, self.means)
        bins = _without_spare(group, dict(_bins(group, self.before)))
        if not bins:
            return None
        homes = frozenset((spot.want, key) for key, bin_ in bins.items() for spot in bin_.spots)
        group = replace(group, problem=replace(group.problem, homes=homes))
        search = Search(group.problem, self.seed)
        filling = search.resume(bins)
        short, money, *_ = filling.cost
        if short or money > least_money(self.needs, self.sources):
            filling = search.improve(filling, self.effort, self.until)
        return Answer(group, filling, chosen)


def as_before(plan: CutPlan, before: CutPlan) -> CutPlan:
    """The plan with its cuts in the order they had on boards where nothing has changed."""
    known = {layout.stock: layout for layout in before.layouts}
    layouts = tuple(
        old if (old := known.get(new.stock)) and _is_same(new, old) else new for new in plan.layouts
    )
    return replace(plan, layouts=layouts, areas=areas_of(layouts))


def _is_same(new: StockLayout, old: StockLayout) -> bool:
    def told(layout: StockLayout) -> tuple[object, ...]:
        stock = (layout.length, layout.width, layout.thickness, layout.bought, layout.price)
        saws = {(cut.machine, cut.kerf) for cut in layout.cuts if cut.machine}
        return stock, saws, sorted(layout.flat), sorted((p.blank, *_rect(p)) for p in layout.placed)

    return told(new) == told(old)


def _way_before(need: Need, before: CutPlan) -> Way:
    """The way a part was to be made before, where it still is one."""
    mine = [blank for blank in (*before.blanks, *before.made) if blank.part == need.part]
    roles = {blank.role for blank in mine}
    alike = [way for way in need.ways if way.role in roles and _counts(way, len(mine))]
    return next(iter(alike), need.ways[0])


def _counts(way: Way, blanks: int) -> bool:
    return way.role is Role.STAVE or way.count + len(way.made) == blanks


def _bins(group: Group, before: CutPlan) -> Iterator[tuple[Key, Bin]]:
    """Boards of the plan before as bins, with what is still wanted of them."""
    blanks = {blank.id: blank for blank in before.blanks}
    for layout in before.layouts:
        for number, copy in _stocks_of(layout, group.sources):
            stock = group.sources[number].bin
            segments = _segments(list(_spots(group, number, layout, blanks)), stock)
            if segments:
                yield (stock.pool, copy), Bin(number, copy, segments)
                break


def _without_spare(group: Group, bins: dict[Key, Bin]) -> dict[Key, Bin]:
    """Panels that want other staves now than they had are begun again."""
    spare = frozenset(panel.id for panel in group.problem.panels if _has_spare(panel, bins.values()))
    kept = {key: without(bin_, spare) if spare else bin_ for key, bin_ in bins.items()}
    return {key: bin_ for key, bin_ in kept.items() if bin_.segments}


def _has_spare(panel: Panel, bins: Iterable[Bin]) -> bool:
    widths = [s.width - panel.extra for bin_ in bins for s in bin_.spots if s.want == panel.id]
    return len(widths) > panel.counts[1] or (bool(widths) and sum(widths) - min(widths) >= panel.need)


def _stocks_of(layout: StockLayout, sources: Sequence[Source]) -> Iterator[tuple[int, int]]:
    """The stock a board was, and which of its copies; both ways a sheet may be cut up."""
    for number, source in enumerate(sources):
        most = source.bin.count or _copies(layout)
        for copy in range(most):
            if source.name_of(copy) == layout.stock:
                yield number, copy


def _copies(layout: StockLayout) -> int:
    number = layout.stock.rpartition("#")[2]
    return int(number) if number.isdecimal() else 1


def _spots(group: Group, number: int, layout: StockLayout, blanks: dict[str, Blank]) -> Iterator[Spot]:
    """What lies on a board and is still wanted in that size and from that stock."""
    stock = group.sources[number].bin
    items = {item.id: item for item in group.problem.items}
    for want, rect in _items_laid(group, layout):
        item = items[want]
        if number in item.fits:
            yield from (s for s in _item_spot(item, rect, stock) if _is_sound(stock, s, item, number))
    panels = {group.panels[panel.id][0].part: panel for panel in group.problem.panels}
    for placed in layout.placed:
        blank = blanks.get(placed.blank)
        if blank is not None and blank.role is Role.STAVE and blank.part in panels:
            panel = panels[blank.part]
            laid = _stave_spot(panel, blank, number, _rect(placed), stock)
            yield from (s for s in laid if _is_sound(stock, s, panel, number))


def _items_laid(group: Group, layout: StockLayout) -> Iterator[tuple[int, Rect]]:
    wanted = {frozenset(b.id for b in want.blanks): number for number, want in group.wants.items()}
    gangs = [(_held(piece, layout), _rect(piece)) for piece in layout.pieces if piece.flattened is not None]
    alone = [(frozenset({placed.blank}), _rect(placed)) for placed in layout.placed]
    for laid, is_gang in ((gangs, True), (alone, False)):
        for blanks, rect in laid:
            number = wanted.get(blanks)
            if number is not None and group.wants[number].gang is is_gang:
                yield number, rect


def _held(gang: Piece2D, layout: StockLayout) -> frozenset[str]:
    """The blanks cut from a gang."""
    x, y = gang.x + gang.length + _HAIR, gang.y + gang.width + _HAIR
    return frozenset(
        p.blank
        for p in layout.placed
        if gang.x - _HAIR <= p.x and p.x + p.length <= x and gang.y - _HAIR <= p.y and p.y + p.width <= y
    )


def _rect(laid: Placed | Piece2D) -> Rect:
    return laid.x, laid.y, laid.length, laid.width


def _item_spot(item: Item, rect: Rect, stock: Stock) -> Iterator[Spot]:
    x, y, length, width = _in_bin(rect, stock)
    lying = (item.width, item.length) if stock.turned else (item.length, item.width)
    shapes = [lying, lying[::-1]] if item.turns else [lying]
    found = [size for size in shapes if size[0] <= length + _UNIT and size[1] <= width + _UNIT]
    yield from (Spot(item.id, x, y, *size) for size in found[:1])


def _stave_spot(panel: Panel, blank: Blank, number: int, rect: Rect, stock: Stock) -> Iterator[Spot]:
    x, y, length, _ = _in_bin(rect, stock)
    width = round(blank.rough_width * SCALE)
    widest = min(panel.widest_on(number), panel.most)
    if panel.length <= length + _UNIT and panel.least <= width - panel.extra <= widest:
        yield Spot(panel.id, x, y, panel.length, width)


def _in_bin(rect: Rect, stock: Stock) -> tuple[int, int, int, int]:
    x, y, length, width = (round(value * SCALE) for value in rect)
    return (y, x, width, length) if stock.turned else (x, y, length, width)


def _is_sound(stock: Stock, spot: Spot, want: Item | Panel, number: int) -> bool:
    """Whether it still lies within the stock, on nothing barred and where it may."""
    runs, care = runs_of(want.places, number), want.care
    if runs is not None and not any(low - _UNIT <= spot.x <= high + _UNIT for low, high in runs):
        return False
    low, high = margins(stock, spot.length)
    across = low - _UNIT <= spot.y and spot.y + spot.width <= high + _UNIT
    start, end = stock.ends[0], stock.length - stock.ends[1]
    along = start - _UNIT <= spot.x and spot.x + spot.length <= end + _UNIT
    bars = bars_over(stock, spot.x, spot.x + spot.length, care, wander(stock, spot.length))
    return across and along and not any(b.y0 < spot.y + spot.width and b.y1 > spot.y for b in bars)


def _segments(spots: list[Spot], stock: Stock) -> tuple[Segment, ...]:
    """Spots as crosscut segments of ripped strips; () where they do not come apart so."""
    segments = tuple(_segment(mine) for mine in _runs(spots, _along))
    return segments if all(_comes_apart(segment, stock) for segment in segments) else ()


def _segment(spots: list[Spot]) -> Segment:
    strips = tuple(
        Strip(min(s.y for s in row), max(s.y + s.width for s in row), tuple(sorted(row, key=_along)))
        for row in _runs(spots, _across)
    )
    return Segment(min(s.x for s in spots), max(s.x + s.length for s in spots), strips)


def _along(spot: Spot) -> tuple[int, int]:
    return spot.x, spot.x + spot.length


def _across(spot: Spot) -> tuple[int, int]:
    return spot.y, spot.y + spot.width


def _runs(spots: Iterable[Spot], reach: Callable[[Spot], tuple[int, int]]) -> list[list[Spot]]:
    """Spots that lie over one another one way, together, in order."""
    runs: list[list[Spot]] = []
    end = 0
    for spot in sorted(spots, key=reach):
        if not runs or reach(spot)[0] >= end:
            runs.append([])
        runs[-1].append(spot)
        end = max(end, reach(spot)[1]) if len(runs[-1]) > 1 else reach(spot)[1]
    return runs


def _comes_apart(segment: Segment, stock: Stock) -> bool:
    """Whether nothing in a strip lies beside another: each is freed by a crosscut."""
    return all(
        before.x + before.length + stock.kerf_across <= after.x + _UNIT
        for strip in segment.strips
        for before, after in pairwise(strip.spots)
    )
