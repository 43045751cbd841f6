"""The three nested knapsacks of a bin: along a strip, across a segment, along the bin.

Sizes are pitches (size and kerf) in cells: along the grain of `grid` units, across it of `fine` ones. For a
proven bound they are rounded down and a cell stands for every place within it (`is_sound` false); for a bin
that can be cut they are rounded up.

Leftovers earn: `spare` is the fewest cells of one worth keeping, what it earns by the cell, and what it earns
besides; with none worth anything the fewest are more than there are. What is chosen at a cell is a number
from 0, -1 where the cell is left, or -2 less the cell where the leftover that ends here begins.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from scantling.cutting.solver.compiled import compiled

Ints = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]


@compiled
def along_strips(pitches: Ints, worths: Floats, room: int) -> tuple[Floats, Ints]:
    """[width, cells] → most a strip earns, and the kind put last (-1: a cell is left); no worth: below 0."""
    count = worths.shape[0]
    best = np.zeros((count, room + 1))
    kinds = np.full((count, room + 1), -1, np.int64)
    for row in range(count):
        for cell in range(1, room + 1):
            best[row, cell] = best[row, cell - 1]
            for kind in range(pitches.shape[0]):
                left = cell - pitches[kind]
                if (
                    left >= 0
                    and worths[row, kind] > 0
                    and worths[row, kind] + best[row, left] > best[row, cell]
                ):
                    best[row, cell] = worths[row, kind] + best[row, left]
                    kinds[row, cell] = kind
    return best, kinds


@compiled
def mixed_strips(some: Floats, others: Floats, most: int) -> Floats:
    """[width, cells] → most that strips of `most` cells earn whose `some` lie within that many of them."""
    best = np.zeros((some.shape[0], most + 1))
    for row in range(some.shape[0]):
        best[row, 0] = others[row, most]
        for cell in range(1, most + 1):
            best[row, cell] = max(best[row, cell - 1], some[row, cell] + others[row, most - cell])
    return best


@compiled
def runs_between(
    bars: Ints,
    level: int,
    x0: int,
    x1: int,
    length: int,
    low: int,
    high: int,
    kerf: int,
    grid: int,
    is_sound: bool,
) -> Ints:
    """Clear runs (start in units, cells) of a strip at y low..high in a segment that starts at x0 to x1.

    `bars`: x0, x1, y0, y1 and level; only those up to `level` count.
    """
    runs = np.zeros((bars.shape[0] + 1, 2), np.int64)
    at, found = x0, 0
    for number in range(bars.shape[0]):
        if bars[number, 0] >= x0 + length + (kerf if is_sound else 0) or bars[number, 1] <= x1:
            continue
        if bars[number, 2] >= high or bars[number, 3] <= low or bars[number, 4] > level:
            continue
        room = bars[number, 0] - at + (0 if is_sound else kerf)
        if room >= grid:
            runs[found, 0], runs[found, 1] = at, room // grid
            found += 1
        past = max(bars[number, 1], x0 + kerf) if is_sound else bars[number, 1]
        at = max(at, past)
    room = x1 + length - at + kerf
    if room >= grid:
        runs[found, 0], runs[found, 1] = at, room // grid
        found += 1
    return runs[:found]


@compiled
def strip_between(
    strips: Floats,
    mixed: Floats,
    row: int,
    bars: Ints,
    x0: int,
    x1: int,
    length: int,
    low: int,
    high: int,
    kerf: int,
    grid: int,
    is_sound: bool,
) -> tuple[float, int]:
    """Most that one strip at y low..high earns between bars, and at which level: see `across_segment`."""
    most = (length + kerf) // grid
    best, best_level = 0.0, 0
    for level in range(strips.shape[0] if is_sound else 1):
        runs = runs_between(bars, level, x0, x1, length, low, high, kerf, grid, is_sound)
        worth = 0.0
        for run in range(runs.shape[0]):
            worth += strips[level, row, min(runs[run, 1], most)]
        if mixed.shape[0]:
            clear = 0
            runs = runs_between(bars, mixed.shape[0], x0, x1, length, low, high, kerf, grid, is_sound)
            for run in range(runs.shape[0]):
                clear += runs[run, 1]
            worth = min(worth, mixed[row, min(clear, most)])
        if worth > best:
            best, best_level = worth, level
    return best, best_level


@compiled
def across_segment(
    strips: Floats,
    mixed: Floats,
    widths: Ints,
    bars: Ints,
    x0: int,
    x1: int,
    length: int,
    low: int,
    room: int,
    kerfs: Ints,
    grid: int,
    fine: int,
    is_sound: bool,
    spare: Floats,
) -> tuple[Floats, Ints]:
    """[cells] → most the lower part of a segment earns, and its last strip: level times rows, plus row.

    `strips`: [level, row, cells]. A sound strip holds what heeds bars of its level and is cut from what bars
    up to that level leave. A bound takes level 0 for all, and lets what heeds every bar (`mixed`, see
    `mixed_strips`; empty where all heed the same) take no more than those leave. `bars`: those within the
    segment only, by x0; `kerfs`: across and along the grain.
    """
    most = (length + kerfs[0]) // grid
    best, rows = np.zeros(room + 1), np.full(room + 1, -1, np.int64)
    wait = max(-(-kerfs[1] // fine), 1) if is_sound else 1
    free = np.full(room + 1, -np.inf)
    fewest, begun, since = int(spare[0]), -np.inf, 0
    levels, count = strips.shape[0], widths.shape[0]
    for cell in range(1, room + 1):
        free[cell] = free[cell - 1]
        if cell >= wait and best[cell - wait] > free[cell]:
            free[cell] = best[cell - wait]
        best[cell] = free[cell]
        if cell >= fewest:
            if best[cell - fewest] - spare[1] * (cell - fewest) > begun:
                begun, since = best[cell - fewest] - spare[1] * (cell - fewest), cell - fewest
            if begun + spare[1] * cell + spare[2] > best[cell]:
                best[cell], rows[cell] = begun + spare[1] * cell + spare[2], -2 - since
        for row in range(count):
            start = cell - widths[row]
            if start < 0:
                continue
            top = strips[levels - 1, row, most] if is_sound else strips[0, row, most]
            if top <= 0 or best[start] + top <= best[cell]:
                continue
            if not bars.shape[0]:
                best[cell] = best[start] + top
                rows[cell] = (levels - 1) * count + row if is_sound else row
                continue
            floor = low + start * fine
            ceiling = floor + widths[row] * fine - (0 if is_sound else kerfs[1])
            highest = floor if is_sound else floor + fine - 1
            worth, level = strip_between(
                strips, mixed, row, bars, x0, x1, length, highest, ceiling, kerfs[0], grid, is_sound
            )
            if worth > 0 and best[start] + worth > best[cell]:
                best[cell] = best[start] + worth
                rows[cell] = level * count + row
    return best, rows


@compiled
def along_bin(segments: Ints, worths: Floats, room: int, wait: int, spare: Floats) -> tuple[Floats, Ints]:
    """[cells] → most that much of the bin earns, and the segment cut last; `worths`[segment, start]."""
    best, chosen = np.zeros(room + 1), np.full(room + 1, -1, np.int64)
    free = np.full(room + 1, -np.inf)
    fewest, begun, since = int(spare[0]), -np.inf, 0
    for cell in range(1, room + 1):
        free[cell] = free[cell - 1]
        if cell >= wait and best[cell - wait] > free[cell]:
            free[cell] = best[cell - wait]
        best[cell] = free[cell]
        if cell >= fewest:
            if best[cell - fewest] - spare[1] * (cell - fewest) > begun:
                begun, since = best[cell - fewest] - spare[1] * (cell - fewest), cell - fewest
            if begun + spare[1] * cell + spare[2] > best[cell]:
                best[cell], chosen[cell] = begun + spare[1] * cell + spare[2], -2 - since
        for number in range(segments.shape[0]):
            start = cell - segments[number]
            if start < 0 or worths[number, start] <= 0:
                continue
            worth = best[start] + worths[number, start]
            if worth > best[cell]:
                best[cell] = worth
                chosen[cell] = number
    return best, chosen
