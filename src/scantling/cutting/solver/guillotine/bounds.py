"""Fewest sheets that could do, by dual feasible functions of both sizes.

Such a function of a size never lets pieces that fit side by side add up to more than the whole, so pieces
that share a sheet never add up to more than one in the product of two (Fekete and Schepers 2001; functions of
Carlier, Clautiaux and Moukrim 2007; from memory). A piece that may turn counts as the lesser of both ways.
"""

from __future__ import annotations

from math import ceil

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.guillotine.problem import SheetProblem

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
_HAIR = 1e-9
_MOST = 120  # functions of each size


def fewest_sheets(problem: SheetProblem, demand: Ints) -> int:
    """A number of sheets that no plan for this demand can be under."""
    if not demand.any():
        return 0
    sizes = np.array([problem.takes(number) for number in range(len(problem.wanted))], np.int64)
    turns = np.array([want.turns for want in problem.wanted])
    along = _functions(problem.room[0], sizes)
    across = _functions(problem.room[1], sizes)
    best = 0.0
    for flat, upright in along:
        as_wanted = flat * np.stack([each[1] for each in across])
        turned = upright * np.stack([each[0] for each in across])
        least = np.where(turns, np.minimum(as_wanted, turned), as_wanted)
        best = max(best, float((least * demand).sum(axis=1).max()))
    return ceil(best - _HAIR)


def _functions(whole: int, sizes: Ints) -> list[tuple[Floats, Floats]]:
    """Each function of every piece's length and of its width, as shares of the whole; 1 where it is longer.

    A length that does not fit this way does not lie this way: what it counts for does not matter.
    """
    kept = np.minimum(sizes, whole)
    found = [_f2(whole, kept, step) for step in _spread(range(1, whole // 2 + 1))]
    least = sorted({int(size) for size in kept.flat if size <= whole // 2})
    found += [_f0(whole, kept, size) for size in _spread(least)]
    return [(values[:, 0], values[:, 1]) for values in found]


def _f0(whole: int, sizes: Ints, least: int) -> Floats:
    """What leaves no room for `least` counts as the whole, what is shorter than it as nothing."""
    shares = sizes / whole
    shares[sizes > whole - least] = 1.0
    shares[sizes < least] = 0.0
    return shares


def _f2(whole: int, sizes: Ints, step: int) -> Floats:
    """Sizes rounded down to steps, those above the half up to what the rest leaves."""
    steps = whole // step
    doubled = np.where(2 * sizes > whole, 2 * (steps - (whole - sizes) // step), 2 * (sizes // step))
    doubled = np.where(2 * sizes == whole, steps, doubled)
    return np.asarray(doubled / (2 * steps), np.float64)


def _spread(values: range | list[int]) -> list[int]:
    """At most so many of these, evenly spread."""
    if len(values) <= _MOST:
        return list(values)
    return [values[len(values) * n // _MOST] for n in range(_MOST)]
