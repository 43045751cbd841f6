"""The most that can be cut from a rectangle where each piece has its price, any number of each: exact.

A table over all lengths and widths that pieces laid side by side can come to (normal patterns; Herz 1972,
Christofides and Whitlock 1977): what is left beyond them is of no use to any piece.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from scantling.cutting.solver.compiled import compilable

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

EMPTY, ALONG = -1, -2  # nothing; cut along at the place kept beside it; ACROSS: below
ACROSS = -3


def places(sizes: Ints, room: int) -> Ints:
    """All sums of these sizes up to `room`, 0 first."""
    met = np.zeros(room + 1, np.bool_)
    met[0] = True
    for size in sorted({int(size) for size in sizes if size <= room}):
        shift = size
        while shift <= room:  # once, twice, four times more, ...
            met[shift:] |= met[:-shift].copy()
            shift *= 2
    return np.flatnonzero(met).astype(np.int64)


@compilable
def table(
    along: Ints, across: Ints, below_along: Ints, below_across: Ints, sizes: Ints, prices: Ints
) -> tuple[Ints, Ints, Ints]:
    """Most worth for every place along and across; what is done there (a piece, or a cut) and where.

    `below_along`: for every length the number of the last place not beyond it. `sizes` (n, 2): a piece that
    may turn stands there twice.
    """
    worth = np.zeros((len(along), len(across)), np.int64)
    done = np.full((len(along), len(across)), EMPTY, np.int64)
    at = np.zeros((len(along), len(across)), np.int64)
    for piece in range(len(sizes)):
        if sizes[piece, 0] > along[-1] or sizes[piece, 1] > across[-1]:
            continue
        i, j = below_along[sizes[piece, 0]], below_across[sizes[piece, 1]]
        if prices[piece] > worth[i, j]:
            worth[i, j] = prices[piece]
            done[i, j] = piece
    for i in range(len(along)):
        for j in range(len(across)):
            best, how, where = worth[i, j], done[i, j], at[i, j]
            if i > 0 and worth[i - 1, j] > best:
                best, how, where = worth[i - 1, j], ACROSS, i - 1
            if j > 0 and worth[i, j - 1] > best:
                best, how, where = worth[i, j - 1], ALONG, j - 1
            for cut in range(1, i):
                if 2 * along[cut] > along[i]:
                    break
                value = worth[cut, j] + worth[below_along[along[i] - along[cut]], j]
                if value > best:
                    best, how, where = value, ACROSS, cut
            for cut in range(1, j):
                if 2 * across[cut] > across[j]:
                    break
                value = worth[i, cut] + worth[i, below_across[across[j] - across[cut]]]
                if value > best:
                    best, how, where = value, ALONG, cut
            worth[i, j], done[i, j], at[i, j] = best, how, where
    return worth, done, at
