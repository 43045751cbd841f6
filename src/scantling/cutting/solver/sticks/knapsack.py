"""The most valuable filling of one room: a knapsack with so many of each thing at most, solved exactly.

Depth first by value for length, cut off where the room left at the best rate still to come cannot win
(Martello and Toth 1990, chapter 3, from memory); a table over lengths where that takes too long.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from scantling.cutting.solver.compiled import compiled

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

QUICK = 2_000  # turns of the search by depth after which a good filling is good enough
_PATIENCE = 200_000
_TABLE = 4_000_000  # longest table kept


def best_fill(takes: Ints, values: Ints, most: Ints, room: int) -> tuple[int, Ints]:
    """The greatest sum of `values` (whole, not negative), and how many of each that takes.

    Where neither way comes to an end the value is a bound from above, and the counts the best met.
    """
    value, counts, ended = good_fill(takes, values, most, room, _PATIENCE)
    if not ended and room <= _TABLE:
        return by_table(takes, values, most, room)
    if not ended:
        rate = max(Fraction(int(v), int(t)) for v, t in zip(values, takes, strict=True))
        return int(room * rate), counts
    return value, counts


def good_fill(takes: Ints, values: Ints, most: Ints, room: int, patience: int) -> tuple[int, Ints, bool]:
    """The best filling met in so many turns, and whether there is none better."""
    order = np.lexsort((takes, -values / takes))
    kept = order[(values[order] > 0) & (takes[order] <= room) & (most[order] > 0)]
    counts = np.zeros(len(takes), np.int64)
    if not len(kept):
        return 0, counts, True
    value, found, ended = by_depth(takes[kept], values[kept], most[kept], room, patience)
    counts[kept] = found
    return int(value), counts, bool(ended)


@compiled
def by_depth(takes: Ints, values: Ints, most: Ints, room: int, patience: int) -> tuple[int, Ints, bool]:
    """Best value first, kinds sorted by value for length; whether the search came to its end."""
    kinds = len(takes)
    counts = np.zeros(kinds, np.int64)
    best_counts = np.zeros(kinds, np.int64)
    stack = np.zeros(kinds, np.int64)  # kinds taken, in order
    least = takes.copy()  # shortest from here on
    for k in range(kinds - 2, -1, -1):
        least[k] = min(takes[k], least[k + 1])
    best, value, left, begin, depth = 0, 0, room, 0, 0
    for _ in range(patience):
        for k in range(begin, kinds):
            if left < least[k]:
                break
            count = min(most[k], left // takes[k])
            if count:
                counts[k] = count
                left -= count * takes[k]
                value += count * values[k]
                stack[depth] = k
                depth += 1
        if value > best:
            best = value
            best_counts[:] = counts
        begin = -1
        while depth:
            k = stack[depth - 1]
            counts[k] -= 1
            left += takes[k]
            value -= values[k]
            if k + 1 < kinds and value + left * values[k + 1] // takes[k + 1] > best:
                begin = k + 1
                depth -= counts[k] == 0
                break
            left += counts[k] * takes[k]
            value -= counts[k] * values[k]
            counts[k] = 0
            depth -= 1
        if begin < 0:
            return best, best_counts, True
    return best, best_counts, False


def by_table(takes: Ints, values: Ints, most: Ints, room: int) -> tuple[int, Ints]:
    """The same from a table of the best value for every room, each kind split into powers of two."""
    packs = [(k, times) for k in range(len(takes)) for times in _packs(int(min(most[k], room // takes[k])))]
    best = np.zeros(room + 1, np.int64)
    used = np.zeros((len(packs), room + 1), np.bool_)
    for number, (k, times) in enumerate(packs):
        size = int(takes[k]) * times
        with_it = best[:-size] + int(values[k]) * times
        used[number, size:] = with_it > best[size:]
        best[size:] = np.maximum(best[size:], with_it)
    counts, left = np.zeros(len(takes), np.int64), room
    for number in range(len(packs) - 1, -1, -1):
        if used[number, left]:
            k, times = packs[number]
            counts[k] += times
            left -= int(takes[k]) * times
    return int(best[room]), counts


def _packs(most: int) -> list[int]:
    """Numbers that add up, some or all of them, to every number up to `most`."""
    found, step = [], 1
    while most > 0:
        found.append(min(step, most))
        most -= step
        step *= 2
    return found
