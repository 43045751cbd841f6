"""Pricing: the most one bin can earn, proven, and bins that earn nearly so much.

The bound takes `most` of items into account by Lagrangian relaxation alone, a step a bin asked for. It lets
go of how many strips and how much width a panel takes; of bars that only some of the wants must
heed; of less than a cell (1 mm) a cut; and of less than a block (20 cells) in where a segment that meets a
bar starts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.costing import STRIP, WORTH_FULL, WORTH_RIPPED, area_kept
from scantling.cutting.solver.pattern import Priced, Worth
from scantling.cutting.solver.pricing import kernels
from scantling.cutting.solver.pricing.heeding import filled, heeding
from scantling.cutting.solver.pricing.kernels import Floats, Ints
from scantling.cutting.solver.pricing.shapes import Grid, Shape, shapes_of
from scantling.cutting.solver.problem import SCALE, Problem

_CELL = 1 * SCALE
_HAIR = 1e-9
_LESS = 0.8


@dataclass(frozen=True)
class Tables:
    """Strips, segments by start, and the bin, priced on one grid."""

    strips: Floats
    kinds: Ints
    segments: Floats
    bin: Floats
    chosen: Ints


class Pricer:
    """Prices bins of a problem whose items each stand for `most[id]` equal ones (none, if not named).

    Panels may have their `counts` of strips, or fewer if `most` names them.
    """

    def __init__(self, problem: Problem, most: Mapping[int, int]) -> None:
        self._problem = problem
        self._most = {p.id: p.counts[1] for p in problem.panels} | dict(most)
        self._asked = self._only_asked()
        self._grids = [self._pair(stock) for stock in range(len(problem.stocks))]

    def bound(self, stock: int, worth: Worth) -> float:
        """What no bin of the stock earns more than."""
        return self._proven(stock, worth, worth)

    def best(self, stock: int, worth: Worth, *, bins: int = 3) -> Priced:
        """The bound of one stock, and up to `bins` bins of it; all empty if nothing earns."""
        proven, sound = self._grids[stock]
        if not proven.shapes:
            return Priced(0.0, ())
        bound = self._proven(stock, worth, worth)
        found: dict[tuple[tuple[int, int], ...], tuple[float, Bin]] = {}
        asked = worth
        for _ in range(bins):
            raw = _bin(stock, sound, asked)
            kept = self._kept(raw, worth)
            if not kept.segments:
                break
            earned = self.worth_of(kept, worth)
            found.setdefault(_contents(kept), (earned, Bin(stock, 0, kept.segments)))
            if earned >= bound * (1 - 2 * _HAIR):
                break
            asked = self._dearer(raw, asked, worth)
            bound = min(bound, self._proven(stock, asked, worth))
        return Priced(bound, tuple(sorted(found.values(), key=lambda pair: -pair[0])))

    def bins(self, stock: int, worth: Worth, count: int) -> Iterator[tuple[float, Bin]]:
        """Up to `count` bins of the stock that earn much, each with what it earns."""
        sound, asked = self._grids[stock][1], worth
        for _ in range(count if sound.shapes else 0):
            raw = _bin(stock, sound, asked)
            kept = self._kept(raw, worth)
            if not kept.segments:
                return
            yield self.worth_of(kept, worth), Bin(stock, 0, kept.segments)
            asked = self._dearer(raw, asked, worth)

    def _kept(self, raw: Bin, worth: Worth) -> Bin:
        earns = partial(self.worth_of, worth=worth)
        return filled(self._asked, self._most, heeding(self._problem, self._most, raw), worth, earns)

    def worth_of(self, made: Bin, worth: Worth) -> float:
        """What a bin earns."""
        extra = {p.id: p.extra for p in self._problem.panels}
        laid = sum(_earned(spot, worth, extra) for spot in made.spots)
        if not worth.wood:
            return laid
        stock = self._problem.stocks[made.stock]
        strips = sum(spot.length for spot in made.spots if spot.want in extra)
        return laid + worth.wood * stock.rate * (area_kept(stock, made) - STRIP * strips)

    def _only_asked(self) -> Problem:
        """The problem with only those wants of which some are asked for."""
        items = tuple(i for i in self._problem.items if self._most.get(i.id))
        panels = tuple(p for p in self._problem.panels if self._most.get(p.id))
        return replace(self._problem, items=items, panels=panels)

    def _pair(self, stock: int) -> tuple[Grid, Grid]:
        here, shapes = self._problem.stocks[stock], shapes_of(self._asked, stock)
        return Grid(here, shapes, _CELL, is_sound=False), Grid(here, shapes, _CELL, is_sound=True)

    def _dearer(self, raw: Bin, asked: Worth, worth: Worth) -> Worth:
        """Worths at which the next bin holds less of what that one has too much of, or where it has too much
        of nothing, less of all it has; the others' worths go back half of the way.
        """
        there = Counter(s.want for s in raw.spots)
        share = {w: min((self._most.get(w, 0) / n) ** 0.5, 1.0) for w, n in there.items()}
        if min(share.values(), default=1.0) == 1.0:
            share = dict.fromkeys(there, _LESS)
        return replace(
            asked, item=_eased(asked.item, worth.item, share), width=_eased(asked.width, worth.width, share)
        )

    def _proven(self, stock: int, asked: Worth, worth: Worth) -> float:
        """No bin earns more: what is taken off an item's worth it can have at most `most` times."""
        grid = self._grids[stock][0]
        fitting = {s.want for s in grid.shapes if not s.panel}
        off = sum(max(worth.item.get(w, 0.0) - asked.item.get(w, 0.0), 0.0) * self._most[w] for w in fitting)
        lowered = replace(worth, item=asked.item)
        return (float(_tables(grid, lowered).bin.max()) + off) * (1 + _HAIR)


def _eased(
    asked: Mapping[int, float], worth: Mapping[int, float], share: Mapping[int, float]
) -> dict[int, float]:
    return {w: a * share[w] if share.get(w, 1.0) < 1 else (a + worth[w]) / 2 for w, a in asked.items()}


def _contents(made: Bin) -> tuple[tuple[int, int], ...]:
    """Equal for bins that give the same."""
    return tuple(sorted((spot.want, spot.width) for spot in made.spots))


def _earned(spot: Spot, worth: Worth, extra: Mapping[int, int]) -> float:
    if spot.want not in extra:
        return worth.item.get(spot.want, 0.0)
    useful = spot.width - extra[spot.want]
    return useful * worth.width.get(spot.want, 0.0) + worth.strip.get(spot.want, 0.0)


def _tables(grid: Grid, worth: Worth) -> Tables:
    longest = int(max(grid.pitches, default=0))
    strips, kinds = kernels.along_strips(grid.along, grid.worths(worth), longest)
    segments = np.full((len(grid.lengths), grid.room + 1), -1.0)
    for number, length in enumerate(grid.lengths):
        low, room = grid.across(length)
        if room > 0:
            _price_starts(grid, strips, number, low, room, segments, worth.wood)
    wait = _wait(grid, grid.stock.kerf_across)
    bins, chosen = kernels.along_bin(grid.pitches, segments, grid.room, wait, _spare_ends(grid, worth.wood))
    return Tables(strips, kinds, segments, bins, chosen)


def _spare_ends(grid: Grid, wood: float) -> Floats:
    """What leftovers as wide as the bin earn."""
    stock = grid.stock
    return grid.spare(stock.keep[0], stock.kerf_across, wood * stock.rate * WORTH_FULL * stock.width)


def _spare_bands(grid: Grid, length: int, wood: float) -> Floats:
    """What bands left of a segment of that length earn."""
    stock = grid.stock
    rate = wood * stock.rate * WORTH_RIPPED * length if length >= stock.keep[0] else 0.0
    return grid.spare(stock.keep[1], stock.kerf_along, rate)


def _price_starts(
    grid: Grid, strips: Floats, number: int, low: int, room: int, segments: Floats, wood: float
) -> None:
    """Fill in one segment's worth for every cell it may start in."""
    length, row = grid.lengths[number], segments[number]
    none = np.zeros((0, 4), np.int64)
    spare = _spare_bands(grid, length, wood)
    clear = float(_across(grid, strips, length, low, room, none, grid.start, grid.start, spare)[0].max())
    row[grid.clear_starts[number]] = clear
    if clear <= 0:
        return
    for window in grid.windows[number]:
        value = _across(grid, strips, length, low, room, window.bars, window.x0, window.x1, spare)[0].max()
        row[window.first : window.last + 1] = value


def _across(
    grid: Grid, strips: Floats, length: int, low: int, room: int, bars: Ints, x0: int, x1: int, spare: Floats
) -> tuple[Floats, Ints]:
    kerfs = np.array([grid.stock.kerf_across, grid.stock.kerf_along], np.int64)
    return kernels.across_segment(
        strips, grid.widths, bars, x0, x1, length, low, room, kerfs, grid.cell, grid.is_sound, spare
    )


def _bin(stock: int, grid: Grid, worth: Worth) -> Bin:
    """The bin that earns most on a sound grid."""
    tables = _tables(grid, worth)
    segments = [
        _segment(grid, tables, grid.lengths[number], grid.start + cell * grid.cell, worth.wood)
        for number, cell in _steps(
            tables.bin, tables.chosen, grid.pitches, _wait(grid, grid.stock.kerf_across)
        )
    ]
    return Bin(stock, 0, tuple(sorted(segments, key=lambda s: s.x0)))


def _wait(grid: Grid, kerf: int) -> int:
    """Least cells that can be left open between two cuts."""
    return max(-(-kerf // grid.cell), 1) if grid.is_sound else 1


def _steps(best: Floats, chosen: Ints, sizes: Ints, wait: int) -> Iterator[tuple[int, int]]:
    """What was chosen and in which cell it starts, from the end back; leftovers are stepped over."""
    cell = int(np.argmax(best))
    while cell > 0 and best[cell] > 0:
        number = int(chosen[cell])
        if number < 0:
            cell = -2 - number if number < -1 else int(np.argmax(best[: cell - wait + 1]))
            continue
        cell -= int(sizes[number])
        yield number, cell


def _segment(grid: Grid, tables: Tables, length: int, x0: int, wood: float) -> Segment:
    low, room = grid.across(length)
    bars = grid.bars(length, x0, x0)
    spare = _spare_bands(grid, length, wood)
    best, rows = _across(grid, tables.strips, length, low, room, bars, x0, x0, spare)
    wait = _wait(grid, grid.stock.kerf_along)
    strips = [
        _strip(grid, tables, row, length, x0, low + at * grid.cell, bars)
        for row, at in _steps(best, rows, grid.widths, wait)
    ]
    return Segment(x0, x0 + length, tuple(sorted(strips, key=lambda s: s.y0)))


def _strip(grid: Grid, tables: Tables, row: int, length: int, x0: int, y0: int, bars: Ints) -> Strip:
    pitch = int(grid.widths[row]) * grid.cell
    kerf = grid.stock.kerf_across
    runs = kernels.runs_between(bars, x0, x0, length, y0, y0 + pitch, kerf, grid.cell, True)
    spots = tuple(s for start, cells in runs for s in _spots(grid, tables, row, int(start), int(cells), y0))
    return Strip(y0, y0 + grid.room_in(int(grid.widths[row])), spots)


def _spots(grid: Grid, tables: Tables, row: int, x: int, cells: int, y0: int) -> Iterator[Spot]:
    cells = min(cells, tables.kinds.shape[1] - 1)
    width = grid.room_in(int(grid.widths[row]))
    while cells > 0:
        kind = int(tables.kinds[row, cells])
        if kind < 0:
            cells -= 1
            continue
        shape: Shape = grid.shapes[kind]
        yield Spot(shape.want, x, y0, shape.length, shape.taken(width))
        x += int(grid.along[kind]) * grid.cell
        cells -= int(grid.along[kind])
