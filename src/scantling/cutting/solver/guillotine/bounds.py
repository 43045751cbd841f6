"""Least cost that could do: a price for every piece such that no sheet can hold more than it costs.

A dual feasible function of a size never lets pieces that fit side by side add up to more than the whole, so
pieces that share a sheet never add up to more than one in the product of two (Fekete and Schepers 2001;
functions of Carlier, Clautiaux and Moukrim 2007; from memory). A piece that may turn counts as the lesser of
both ways. A price holds for every kind of sheet at once: the least that any kind gives it. Where there are
few of a kind, more may be asked of it, and that much is taken off again for each there is.

What is proven holds for sheets without flaws, any number of stages and any first direction, and so for
stricter rules as well: flaws, stages and a first direction are not counted in.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.guillotine.problem import SheetProblem

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
_HAIR = 1e-9
_MOST = 120  # functions of each size
_WORK = 20_000_000  # products of two functions, over all pieces
_FEW = 20_000  # sums of costs that are listed


def least_cost(problem: SheetProblem, demand: Ints) -> int:
    """A cost that no plan for this demand can be under; all of it can be had."""
    if not demand.any():
        return 0
    asked_for = [number for number in range(len(demand)) if demand[number]]
    shares = [_Shares(problem, kind, asked_for) for kind in range(len(problem.sheets))]
    wanted = demand[asked_for]
    best = max(_proven(problem, shares, asked, wanted) for asked in _askings(problem))
    takes = np.array([problem.takes(number) for number in asked_for], np.int64)
    area = int((takes.prod(axis=1) * wanted).sum())
    return _payable(problem, ceil(best - _HAIR * max(1.0, best)), area)


def _askings(problem: SheetProblem) -> Iterator[Floats]:
    """What each kind of sheet might be asked to bring in: its cost, or more where there are only so many."""
    areas = np.array([long * wide for long, wide in problem.rooms], float)
    costs = np.array([sheet.cost for sheet in problem.sheets], float)
    few = np.array([sheet.supply is not None for sheet in problem.sheets])
    for rate in sorted(set((costs / areas).tolist())):
        yield np.where(few, np.maximum(costs, rate * areas), costs)


def _proven(problem: SheetProblem, shares: list[_Shares], asked: Floats, demand: Ints) -> float:
    """What the pieces come to at prices at which no kind of sheet holds more than is asked of it."""
    limits = np.stack([share.by_area(value) for share, value in zip(shares, asked, strict=True)])
    for kind, share in enumerate(shares):
        others = np.delete(limits, kind, axis=0).min(axis=0, initial=np.inf)
        limits[kind] = share.best(asked[kind], others, demand)
    spare = sum(
        (sheet.supply or 0) * (value - sheet.cost)
        for sheet, value in zip(problem.sheets, asked, strict=True)
        if sheet.supply is not None
    )
    return float((limits.min(axis=0) * demand).sum()) - float(spare)


class _Shares:
    """What shares of a kind of sheet the pieces can be counted for; endless where they do not lie on it."""

    def __init__(self, problem: SheetProblem, kind: int, numbers: list[int]) -> None:
        self.room = problem.rooms[kind]
        self.sizes = np.array([problem.takes(n) for n in numbers], np.int64)
        turned = self.sizes[:, ::-1]
        may_turn = np.array([problem.wanted[n].turns for n in numbers])
        open_to = np.array([problem.lies_on(n, kind) for n in numbers])
        self.lies = (self.sizes <= self.room).all(axis=1) & open_to
        self.lies_turned = (turned <= self.room).all(axis=1) & may_turn & open_to

    def by_area(self, value: float) -> Floats:
        """Prices by area alone where a whole sheet is to hold no more than `value`."""
        shares = self.sizes.prod(axis=1) / float(np.prod(self.room))
        return np.where(self.lies | self.lies_turned, shares * value, np.inf)

    def best(self, value: float, limits: Floats, demand: Ints) -> Floats:
        """Prices, none over its limit, that come to most where a sheet is to hold no more than `value`."""
        most = int(min(_MOST, 1 + (_WORK / len(self.sizes)) ** 0.5 / 2))
        along = _functions(self.room[0], self.sizes, most)
        across = _functions(self.room[1], self.sizes, most)
        wide, wide_turned = (np.stack([each[n] for each in across]) for n in (1, 0))
        best, most_worth = self.by_area(value), -1.0
        for flat, upright in along:
            as_wanted = np.where(self.lies, flat * wide * value, np.inf)
            turned = np.where(self.lies_turned, upright * wide_turned * value, np.inf)
            prices = np.minimum(as_wanted, turned)
            worth = (np.minimum(prices, limits) * demand).sum(axis=1)
            first = int(worth.argmax())
            if worth[first] > most_worth:
                best, most_worth = prices[first], float(worth[first])
        return best


def _functions(whole: int, sizes: Ints, most: int) -> list[tuple[Floats, Floats]]:
    """Each function of every piece's length and of its width, as shares of the whole.

    A length that does not fit this way does not lie this way: what it counts for does not matter.
    """
    kept = np.minimum(sizes, whole)
    found = [_f2(whole, kept, step) for step in _spread(range(1, whole // 2 + 1), most)]
    least = sorted({int(size) for size in kept.flat if size <= whole // 2})
    found += [_f0(whole, kept, size) for size in _spread(least, most)]
    found.append(kept / whole)
    return [(values[:, 0], values[:, 1]) for values in found]


def _f0(whole: int, sizes: Ints, least: int) -> Floats:
    """What leaves no room for `least` counts as the whole, what is shorter than it as nothing."""
    shares = sizes / whole
    shares[sizes > whole - least] = 1.0
    shares[sizes < least] = 0.0
    return np.asarray(shares, np.float64)


def _f2(whole: int, sizes: Ints, step: int) -> Floats:
    """Sizes rounded down to steps, those above the half up to what the rest leaves."""
    steps = whole // step
    doubled = np.where(2 * sizes > whole, 2 * (steps - (whole - sizes) // step), 2 * (sizes // step))
    doubled = np.where(2 * sizes == whole, steps, doubled)
    return np.asarray(doubled / (2 * steps), np.float64)


def _spread(values: range | list[int], most: int) -> list[int]:
    """At most so many of these, evenly spread."""
    if len(values) <= most:
        return list(values)
    return [values[len(values) * n // most] for n in range(most)]


def _payable(problem: SheetProblem, least: int, area: int) -> int:
    """The least sum of costs not under `least` of sheets that have that area together."""
    kinds = [
        (sheet.cost, long * wide, sheet.supply)
        for sheet, (long, wide) in zip(problem.sheets, problem.rooms, strict=True)
    ]
    ways = 1
    for _, one, supply in kinds:
        ways *= 1 + min(-(-area // one), area if supply is None else supply)
    if len(kinds) > 1 and ways > _FEW:
        return least
    return min(_sums(kinds, least, area), default=least)


def _sums(kinds: list[tuple[int, int, int | None]], least: int, area: int) -> Iterator[int]:
    """Costs of sheets that have that area and cost no less, none in vain."""
    (cost, one, supply), *others = kinds
    enough = max(-(-area // one), -(-least // cost) if cost else 0, 0)
    if not others:
        if supply is None or enough <= supply:
            yield max(enough * cost, 0)
        return
    for count in range(min(enough, enough if supply is None else supply) + 1):
        for rest in _sums(others, least - count * cost, area - count * one):
            yield count * cost + rest
