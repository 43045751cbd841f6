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
from functools import cache as cached
from functools import partial

import numpy as np

from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.costing import STRIP, WORTH_FULL, WORTH_RIPPED, area_kept
from scantling.cutting.solver.pattern import Priced, Worth
from scantling.cutting.solver.pricing import kernels
from scantling.cutting.solver.pricing.heeding import filled, heeding, well_placed
from scantling.cutting.solver.pricing.kernels import Floats, Ints
from scantling.cutting.solver.pricing.shapes import NOWHERE as _NOWHERE
from scantling.cutting.solver.pricing.shapes import Grid, Shape, Window, shapes_of
from scantling.cutting.solver.problem import SCALE, Problem

_LOOKS = {False: 100, True: 8}  # at windows, for a bound and for a bin that can be cut
COARSE = (SCALE, SCALE)  # cells along and across the grain
FINE = (SCALE // 2, SCALE // 5)
_HAIR = 1e-9
_LESS = 0.8


_NONE = np.zeros((0, 0))


@dataclass(frozen=True)
class Along:
    """Strips, [level, width, cells]: see `kernels`; `parts`: what heeds every bar, and the others."""

    best: Floats
    kinds: Ints
    parts: tuple[Floats, Floats] | None


@dataclass(frozen=True)
class Tables:
    """Strips, segments by start, and the bin, priced on one grid."""

    along: Along
    segments: Floats
    bin: Floats
    chosen: Ints


class Pricer:
    """Prices bins of a problem whose items each stand for `most[id]` equal ones (none, if not named).

    Panels may have their `counts` of strips, or fewer if `most` names them.
    """

    def __init__(self, problem: Problem, most: Mapping[int, int], cells: tuple[int, int] = FINE) -> None:
        self._problem = problem
        self._most = {p.id: p.counts[1] for p in problem.panels} | dict(most)
        self._asked, self._cells = self._only_asked(), cells
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

    def loose(self, stock: int, worth: Worth) -> tuple[float, Bin]:
        """A bin that earns much, as if there were no end of every want; with what it earns."""
        sound = self._grids[stock][1]
        raw = _bin(stock, sound, worth) if sound.shapes else Bin(stock, 0)
        segments = tuple(s for s in map(_bare, raw.segments) if s.strips)
        made = well_placed(self._problem, Bin(stock, 0, segments))
        return self.worth_of(made, worth), made

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
        earns, well = partial(self.worth_of, worth=worth), well_placed(self._problem, raw)
        return filled(self._asked, self._most, heeding(self._problem, self._most, well), worth, earns)

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
        proven, sound = (Grid(here, shapes, *self._cells, is_sound) for is_sound in (False, True))
        return proven, sound

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


def _bare(segment: Segment) -> Segment:
    """Without strips in which nothing lies."""
    return replace(segment, strips=tuple(s for s in segment.strips if s.spots))


def _contents(made: Bin) -> tuple[tuple[int, int], ...]:
    """Equal for bins that give the same."""
    return tuple(sorted((spot.want, spot.width) for spot in made.spots))


def _earned(spot: Spot, worth: Worth, extra: Mapping[int, int]) -> float:
    if spot.want not in extra:
        return worth.item.get(spot.want, 0.0)
    useful = spot.width - extra[spot.want]
    return useful * worth.width.get(spot.want, 0.0) + worth.strip.get(spot.want, 0.0)


def _tables(grid: Grid, worth: Worth) -> Tables:
    longest, worths = int(max(grid.pitches, default=0)), grid.worths(worth)
    by_care = [worths * grid.heeds(care) for care in grid.cares]
    if grid.is_sound:
        pairs = [kernels.along_strips(grid.along, each, longest) for each in by_care]
    else:
        pairs = [kernels.along_strips(grid.along, worths, longest)]
    along = Along(np.stack([p[0] for p in pairs]), np.stack([p[1] for p in pairs]), None)
    if not grid.is_sound and len(grid.cares) > 1:
        others = by_care[-2]
        some, rest = (kernels.along_strips(grid.along, w, longest)[0] for w in (worths - others, others))
        along = replace(along, parts=(some, rest))
    return _along_bin(grid, along, worth.wood)


def _along_bin(grid: Grid, along: Along, wood: float) -> Tables:
    """Bars are looked at only where the best bin meets them, for without them a segment earns no less."""
    priced = [_Priced(grid, along, number, wood) for number in range(len(grid.lengths))]
    clear = np.array([p.clear for p in priced]).reshape(-1, 1)
    segments = np.where(grid.owners == _NOWHERE, -1.0, clear)
    wait, spare = _wait(grid.stock.kerf_across, grid.cell, grid.is_sound), _spare_ends(grid, wood)
    looked = np.zeros((len(priced), grid.owners.max(initial=0) + 1), np.bool_)
    for _ in range(_LOOKS[grid.is_sound]):
        best, chosen = kernels.along_bin(grid.pitches, segments, grid.room, wait, spare)
        met = {(n, int(grid.owners[n, at])) for n, at in _steps(best, chosen, grid.pitches, wait)}
        new = [(n, owner) for n, owner in met if owner >= 0 and not looked[n, owner]]
        if not new:
            return Tables(along, segments, best, chosen)
        for number, owner in new:
            window = grid.windows[number][owner]
            segments[number, window.first : window.last + 1] = priced[number].at(window)
            looked[number, owner] = True
    if grid.is_sound:
        seen = np.take_along_axis(looked, np.maximum(grid.owners, 0), axis=1)
        segments[(grid.owners >= 0) & ~seen] = -1.0
    best, chosen = kernels.along_bin(grid.pitches, segments, grid.room, wait, spare)
    return Tables(along, segments, best, chosen)


class _Priced:
    """Segments of one length: `clear` is what one earns that meets no bar."""

    def __init__(self, grid: Grid, along: Along, number: int, wood: float) -> None:
        self._across = partial(_across, grid, along, grid.lengths[number], wood)
        self._mixed = cached(partial(_mixed, grid, along, grid.lengths[number]))
        self.clear = float(self._across(np.zeros((0, 5), np.int64), grid.start, grid.start)[0].max())

    def at(self, window: Window) -> float:
        """What one earns that meets the bars of a window."""
        return float(self._across(window.bars, window.x0, window.x1, self._mixed())[0].max())


def _spare_ends(grid: Grid, wood: float) -> Floats:
    """What leftovers as wide as the bin earn."""
    stock = grid.stock
    rate = wood * stock.rate * WORTH_FULL * stock.width
    return grid.spare(stock.keep[0], stock.kerf_across, rate, grid.cell)


def _spare_bands(grid: Grid, length: int, wood: float) -> Floats:
    """What bands left of a segment of that length earn."""
    stock = grid.stock
    rate = wood * stock.rate * WORTH_RIPPED * length if length >= stock.keep[0] else 0.0
    return grid.spare(stock.keep[1], stock.kerf_along, rate, grid.fine)


def _mixed(grid: Grid, along: Along, length: int) -> Floats:
    if along.parts is None:
        return _NONE
    return kernels.mixed_strips(*along.parts, (length + grid.stock.kerf_across) // grid.cell)


def _across(
    grid: Grid,
    along: Along,
    length: int,
    wood: float,
    bars: Ints,
    x0: int,
    x1: int,
    mixed: Floats = _NONE,
) -> tuple[Floats, Ints]:
    kerfs = np.array([grid.stock.kerf_across, grid.stock.kerf_along], np.int64)
    spare = _spare_bands(grid, length, wood)
    low, room = grid.across(length)
    return kernels.across_segment(
        along.best,
        mixed,
        grid.widths,
        bars,
        x0,
        x1,
        length,
        low,
        room,
        kerfs,
        grid.cell,
        grid.fine,
        grid.is_sound,
        spare,
    )


def _bin(stock: int, grid: Grid, worth: Worth) -> Bin:
    """The bin that earns most on a sound grid."""
    tables = _tables(grid, worth)
    segments = [
        _segment(grid, tables, grid.lengths[number], grid.start + cell * grid.cell, worth.wood)
        for number, cell in _steps(
            tables.bin, tables.chosen, grid.pitches, _wait(grid.stock.kerf_across, grid.cell, grid.is_sound)
        )
    ]
    return Bin(stock, 0, tuple(sorted(segments, key=lambda s: s.x0)))


def _wait(kerf: int, cell: int, is_sound: bool) -> int:
    """Least cells that can be left open between two cuts."""
    return max(-(-kerf // cell), 1) if is_sound else 1


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
    bars = grid.bars(length, x0, x0)
    best, rows = _across(grid, tables.along, length, wood, bars, x0, x0)
    wait, low = _wait(grid.stock.kerf_along, grid.fine, grid.is_sound), grid.across(length)[0]
    widths = np.tile(grid.widths, len(tables.along.best))
    strips = [
        _strip(grid, tables.along, row, length, x0, low + at * grid.fine, bars)
        for row, at in _steps(best, rows, widths, wait)
    ]
    return Segment(x0, x0 + length, tuple(sorted(strips, key=lambda s: s.y0)))


def _strip(grid: Grid, along: Along, number: int, length: int, x0: int, y0: int, bars: Ints) -> Strip:
    level, row = divmod(number, len(grid.widths))
    top, kerf = y0 + int(grid.widths[row]) * grid.fine, grid.stock.kerf_across
    runs = kernels.runs_between(bars, level, x0, x0, length, y0, top, kerf, grid.cell, True)
    kinds = along.kinds[level, row]
    spots = tuple(s for start, cells in runs for s in _spots(grid, kinds, row, int(start), int(cells), y0))
    return Strip(y0, y0 + grid.room_in(int(grid.widths[row])), spots)


def _spots(grid: Grid, kinds: Ints, row: int, x: int, cells: int, y0: int) -> Iterator[Spot]:
    cells = min(cells, len(kinds) - 1)
    width = grid.room_in(int(grid.widths[row]))
    while cells > 0:
        kind = int(kinds[cells])
        if kind < 0:
            cells -= 1
            continue
        shape: Shape = grid.shapes[kind]
        yield Spot(shape.want, x, y0, shape.length, shape.taken(width))
        x += int(grid.along[kind]) * grid.cell
        cells -= int(grid.along[kind])
