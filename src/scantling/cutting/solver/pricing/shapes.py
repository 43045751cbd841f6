"""What can lie in one stock, and the same in cells of the pricing's grid."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from scantling.cutting.solver.bin import margins, wander
from scantling.cutting.solver.costing import STRIP
from scantling.cutting.solver.pattern import Worth
from scantling.cutting.solver.pricing.kernels import Floats, Ints
from scantling.cutting.solver.problem import SCALE, Item, Panel, Problem, Stock

_NEVER = 10**9  # cells
CLEAR, NOWHERE = -1, -2
_BLOCK = 20 * SCALE  # within which a bound does not ask where a segment that meets a bar starts
_STRIDE = 60 * SCALE  # between the places at which a sound one is tried near a bar
_STEP = 4 * SCALE  # between the widths of a panel's strips that are tried
_WITHIN = 1 * SCALE  # widths of a panel's strips that a bound takes as one


Sizes = TypeVar("Sizes", int, Ints)


@dataclass(frozen=True, slots=True)
class Shape:
    """A want as it may lie: `least` to `most` wide, `extra` of it without worth; `panel`: its width earns."""

    want: int
    length: int
    least: int
    most: int
    care: int
    extra: int = 0
    panel: bool = False

    def taken(self, room: int) -> int:
        """Width it takes of a room, 0 if the room is too narrow."""
        return min(room, self.most) if room >= self.least else 0

    def worths(self, rooms: Ints, worth: Worth, rate: float) -> Floats:
        """What it earns in strips that wide of wood of a `rate`; nothing where it does not fit or costs more
        than it earns.
        """
        fits = (rooms >= self.least).astype(np.float64)
        if not self.panel:
            return fits * max(worth.item.get(self.want, 0.0), 0.0)
        useful = np.minimum(rooms, self.most) - self.extra
        each = worth.strip.get(self.want, 0.0) - worth.wood * rate * STRIP * self.length
        earned: Floats = np.maximum(useful * worth.width.get(self.want, 0.0) + each, 0.0)
        return fits * earned


def shapes_of(problem: Problem, stock: int) -> tuple[Shape, ...]:
    """Every way a want may lie in that stock."""
    turned = problem.stocks[stock].turned
    found = [s for i in problem.items if stock in i.fits for s in _of_item(i, turned)]
    found += [_of_panel(p, p.widest[stock]) for p in problem.panels if p.widest[stock] >= p.least]
    return tuple(found)


def _of_item(item: Item, turned: bool) -> Iterable[Shape]:
    sizes = {(item.width, item.length) if turned else (item.length, item.width)}
    if item.turns:
        sizes |= {(width, length) for length, width in sizes}
    return (Shape(item.id, length, width, width, item.care) for length, width in sorted(sizes))


def _of_panel(panel: Panel, widest: int) -> Shape:
    most = min(panel.most, widest) + panel.extra
    return Shape(panel.id, panel.length, panel.least + panel.extra, most, panel.care, panel.extra, panel=True)


@dataclass(frozen=True, slots=True)
class Window:
    """A segment that starts within cells `first` to `last` (x0 to x1 in units), and the bars it meets."""

    first: int
    last: int
    x0: int
    x1: int
    bars: Ints


@dataclass(frozen=True)
class Grid:
    """One stock in cells, of `cell` units along the grain and `fine` ones across it: rounded up to what can
    be cut (`is_sound`) or down for a bound.
    """

    stock: Stock
    shapes: tuple[Shape, ...]
    cell: int
    fine: int
    is_sound: bool

    def cells(self, size: int) -> int:
        """Cells a length takes, its kerf included."""
        return -(-size // self.cell) if self.is_sound else size // self.cell

    def fine_cells(self, size: int) -> int:
        """Cells a width takes, its kerf included."""
        return -(-size // self.fine) if self.is_sound else size // self.fine

    @property
    def block(self) -> int:
        """Cells within which a bound does not ask where a segment that meets a bar starts."""
        return max(_BLOCK // self.cell, 1)

    @property
    def step(self) -> int:
        """Cells between the widths of a panel's strips."""
        return max((_STEP if self.is_sound else _WITHIN) // self.fine, 1)

    @cached_property
    def start(self) -> int:
        ends = self.stock.ends[0]
        return max(ends, self.stock.kerf_across) if ends else 0

    @cached_property
    def room(self) -> int:
        return max(
            (self.stock.length - self.stock.ends[1] - self.start + self.stock.kerf_across) // self.cell, 0
        )

    @cached_property
    def lengths(self) -> tuple[int, ...]:
        """Lengths a segment may have."""
        whole = sorted({s.length for s in self.shapes})
        if self.is_sound:
            kerf = self.stock.kerf_across
            whole = sorted({self.cells(length + kerf) * self.cell - kerf for length in whole})
        return tuple(length for length in whole if self.cells(length + self.stock.kerf_across) <= self.room)

    @cached_property
    def pitches(self) -> Ints:
        """Of the segments, as `lengths`."""
        kerf = self.stock.kerf_across
        return np.array([max(self.cells(n + kerf), 1) for n in self.lengths], np.int64)

    @cached_property
    def along(self) -> Ints:
        """Of each shape along a strip."""
        kerf = self.stock.kerf_across
        return np.array([max(self.cells(s.length + kerf), 1) for s in self.shapes], np.int64)

    @cached_property
    def widths(self) -> Ints:
        """Pitches a strip may have."""
        kerf, widest = self.stock.kerf_along, (self.stock.width + self.stock.kerf_along) // self.fine
        found: set[int] = set()
        for shape in self.shapes:
            low, high = self.fine_cells(shape.least + kerf), self.fine_cells(shape.most + kerf)
            found.update(range(low, high + 1, self.step), (high,))
        return np.array(sorted(w for w in found if 0 < w <= widest), np.int64)

    def room_in(self, width: Sizes, within: int = 1) -> Sizes:
        """Units across that a strip of that pitch, or of so many from it on, can have at most."""
        return width * self.fine - self.stock.kerf_along + (0 if self.is_sound else within * self.fine - 1)

    def across(self, length: int) -> tuple[int, int]:
        """Where a segment's usable width starts, and its cells."""
        low, high = margins(self.stock, length)
        return low, max((high - low + self.stock.kerf_along) // self.fine, 0)

    @cached_property
    def cares(self) -> tuple[int, ...]:
        """How choosy the shapes are, each once."""
        return tuple(sorted({s.care for s in self.shapes}))

    @cached_property
    def barred(self) -> tuple[tuple[int, int, int, int, int], ...]:
        """All that bars any shape, with the number of the least choosy of `cares` that must heed it."""
        choosiest = self.cares[-1] if self.cares else -1
        return tuple(
            sorted(
                (b.x0, b.x1, b.y0, b.y1, next(n for n, care in enumerate(self.cares) if b.level <= care))
                for b in self.stock.barred
                if b.level <= choosiest
            )
        )

    def bars(self, length: int, x0: int, x1: int) -> Ints:
        """Those a segment of that length meets wherever within x0 to x1 it starts, its bend added."""
        slack = wander(self.stock, length)
        met = [
            (a, b, c - slack, d + slack, level)
            for a, b, c, d, level in self.barred
            if a < x0 + length + self._tail and b > x1
        ]
        return np.array(met, np.int64).reshape(-1, 5)

    @property
    def _tail(self) -> int:
        return self.stock.kerf_across if self.is_sound else 0

    @cached_property
    def windows(self) -> tuple[tuple[Window, ...], ...]:
        """For each of `lengths`: where it meets bars. A sound one is priced at the first cell of a block."""
        return tuple(
            tuple(w for w in self._windows(number) if len(w.bars)) for number in range(len(self.lengths))
        )

    def _windows(self, number: int) -> Iterator[Window]:
        last = self.room - int(self.pitches[number])
        for first in self._trials(number, last) if self.is_sound else range(0, last + 1, self.block):
            final = first if self.is_sound else min(first + self.block - 1, last)
            x0 = self.start + first * self.cell
            x1 = x0 if self.is_sound else self.start + final * self.cell + self.cell - 1
            yield Window(first, final, x0, x1, self.bars(self.lengths[number], x0, x1))

    def _trials(self, number: int, last: int) -> list[int]:
        """Where a sound segment is tried: past each bar, before each bar, and every so often."""
        length = self.lengths[number] + self._tail
        past = {-(-(bar[1] - self.start) // self.cell) for bar in self.barred}
        before = {(bar[0] - length - self.start) // self.cell for bar in self.barred}
        return sorted(
            {cell for cell in past | before if 0 <= cell <= last}
            | {*range(0, last + 1, _STRIDE // self.cell)}
        )

    @cached_property
    def owners(self) -> Ints:
        """[length, start cell] → which of its windows that is; CLEAR where it meets no bar, NOWHERE where no
        segment of that length starts or is tried.
        """
        found = np.full((len(self.lengths), self.room + 1), NOWHERE, np.int64)
        for number, row in enumerate(found):
            row[self._clear(number)] = CLEAR
            for owner, window in enumerate(self.windows[number]):
                row[window.first : window.last + 1] = owner
        return found

    def _clear(self, number: int) -> Ints:
        cells = np.arange(max(self.room - int(self.pitches[number]) + 1, 0))
        if not self.is_sound or self.across(self.lengths[number])[1] <= 0:
            return cells  # those of a block that meets bars are looked at once more
        starts, is_clear = self.start + cells * self.cell, np.ones(len(cells), np.bool_)
        for x0, x1, *_ in self.barred:
            is_clear &= (starts + self.lengths[number] + self._tail <= x0) | (starts >= x1)
        return cells[is_clear]

    def worths(self, worth: Worth) -> Floats:
        """[strip width, shape] → what it earns."""
        item, panel = self.room_in(self.widths), self.room_in(self.widths, self.step)
        columns = [s.worths(panel if s.panel else item, worth, self.stock.rate) for s in self.shapes]
        return np.array(columns, np.float64).reshape(len(self.shapes), len(self.widths)).T.copy()

    def heeds(self, care: int) -> npt.NDArray[np.bool_]:
        """[shape] → whether it heeds no bars but those of that care."""
        return np.array([s.care <= care for s in self.shapes], np.bool_)

    def spare(self, least: int, kerf: int, rate: float, cell: int) -> Floats:
        """What a leftover of at least so many units earns at a rate a unit: see `kernels`."""
        more = 0 if self.is_sound else cell
        fewest = max(-(-(least + kerf - more) // cell), 1) if rate > 0 else _NEVER
        return np.array([fewest, rate * cell, rate * (more - kerf)])
