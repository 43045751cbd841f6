"""The three nested knapsacks of a bin: along a strip, across a segment, along the bin.

Sizes are pitches (size and kerf) in cells of `grid` units. A proven bound rounds pitches down and lets a
cell stand for every place within it (`is_sound` false); a bin that can be cut rounds them up.

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
def runs_between(
    bars: Ints, x0: int, x1: int, length: int, low: int, high: int, kerf: int, grid: int, is_sound: bool
) -> Ints:
    """Clear runs (start in units, cells) of a strip at y low..high in a segment that starts at x0 to x1."""
    runs = np.zeros((bars.shape[0] + 1, 2), np.int64)
    at, found = x0, 0
    for number in range(bars.shape[0]):
        if bars[number, 0] >= x0 + length + (kerf if is_sound else 0) or bars[number, 1] <= x1:
            continue
        if bars[number, 2] >= high or bars[number, 3] <= low:
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
def across_segment(
    strips: Floats,
    widths: Ints,
    bars: Ints,
    x0: int,
    x1: int,
    length: int,
    low: int,
    room: int,
    kerfs: Ints,
    grid: int,
    is_sound: bool,
    spare: Floats,
) -> tuple[Floats, Ints]:
    """[cells] → most the lower part of a segment earns, and the row of its last strip.

    `bars`: those within the segment only; `kerfs`: across and along the grain.
    """
    most = (length + kerfs[0]) // grid
    best, rows = np.zeros(room + 1), np.full(room + 1, -1, np.int64)
    wait = max(-(-kerfs[1] // grid), 1) if is_sound else 1
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
                best[cell], rows[cell] = begun + spare[1] * cell + spare[2], -2 - since
        for row in range(widths.shape[0]):
            start = cell - widths[row]
            if start < 0:
                continue
            worth = strips[row, most]
            if bars.shape[0] and best[start] + worth > best[cell]:
                floor = low + start * grid
                ceiling = floor + widths[row] * grid - (0 if is_sound else kerfs[1])
                highest = floor if is_sound else floor + grid - 1
                runs = runs_between(bars, x0, x1, length, highest, ceiling, kerfs[0], grid, is_sound)
                worth = 0.0
                for run in range(runs.shape[0]):
                    worth += strips[row, min(runs[run, 1], most)]
            if worth > 0 and best[start] + worth > best[cell]:
                best[cell] = best[start] + worth
                rows[cell] = row
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
