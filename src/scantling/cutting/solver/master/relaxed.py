"""The linear program over bins and ways of making things, and the least money it proves.

A column is one bin with all that lies in it, or one way of a choice. Rows: every item once, every panel its
width from no more strips than allowed, every choice one way, every pool its supply. The bound is Lagrange's,
from the most a bin of each pool can earn at the program's prices; stock without end scales the prices down
until none of it earns more than it costs (Farley 1990; from memory). Wants of a way count if it is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

import highspy
import numpy as np

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.pattern import Priced, Worth
from scantling.cutting.solver.problem import Problem

_DEAR = 1000.0  # a want left out costs this many of the dearest bin
_HAIR = 1e-6


@dataclass
class Relaxed:
    """The program over the bins met so far."""

    problem: Problem
    columns: list[Bin] = field(default_factory=list)
    bound: float = 0.0

    def __post_init__(self) -> None:
        problem = self.problem
        self._items = {item.id: row for row, item in enumerate(problem.items)}
        self._panels = {p.id: len(self._items) + row for row, p in enumerate(problem.panels)}
        wants = len(self._items) + len(self._panels)
        self._strips = {p.id: wants + row for row, p in enumerate(problem.panels)}
        self._need = {p.id: p.need for p in problem.panels}
        self._extra = {p.id: p.extra for p in problem.panels}
        self._choices = wants + len(self._panels)
        pools = sorted({stock.pool for stock in problem.stocks})
        self._pools = {pool: self._choices + len(problem.choices) + n for n, pool in enumerate(pools)}
        self._supply = {stock.pool: stock.count for stock in problem.stocks}
        self._known: set[tuple[int, object]] = set()
        self._solver = self._program(wants)
        self.first = self._solver.getNumCol()

    def add(self, bins: Iterable[Bin]) -> int:
        """Take in bins not met before; how many there were."""
        before = len(self.columns)
        for bin_ in bins:
            key = (bin_.stock, bin_.segments)
            if bin_.segments and key not in self._known:
                self._known.add(key)
                self.columns.append(bin_)
                self._column(self.problem.stocks[bin_.stock].money, self._gives(bin_))
        return len(self.columns) - before

    def prices(self) -> Worth:
        """What everything is worth at the best mix of the bins met."""
        self._solver.run()
        dual = np.array(self._solver.getSolution().row_dual)
        item = {w: max(float(dual[row]), 0.0) for w, row in self._items.items()}
        width = {w: max(float(dual[row]), 0.0) / self._need[w] for w, row in self._panels.items()}
        strip = {w: min(float(dual[row]), 0.0) for w, row in self._strips.items()}
        return Worth(item, width, strip)

    def prove(self, worth: Worth, priced: tuple[Priced, ...]) -> None:
        """Raise the bound by what no bin can earn more than; `priced`: of every stock, at these prices."""
        stocks = self.problem.stocks
        endless = [(s.money, p.bound) for s, p in zip(stocks, priced, strict=True) if s.count is None]
        scale = min([1.0, *(money / most for money, most in endless if most > money)])
        loss: dict[int, float] = {}
        for stock, p in zip(stocks, priced, strict=True):
            if stock.count is not None:
                lost = stock.count * max(scale * p.bound - stock.money, 0.0)
                loss[stock.pool] = max(loss.get(stock.pool, 0.0), lost)
        value = scale * self._asked(worth) - sum(loss.values())
        self.bound = max(self.bound, value - _HAIR * (1 + abs(value) + sum(loss.values())))

    def whole(self, nodes: int, seconds: float) -> list[Bin]:
        """Bins of the best plan in whole bins among those met, as far as so many nodes of branching tell."""
        solver = highspy.Highs()
        solver.setOptionValue("log_to_console", False)
        solver.passModel(self._solver.getLp())
        number = solver.getNumCol()
        kinds = np.full(number, highspy.HighsVarType.kInteger)
        solver.changeColsIntegrality(number, np.arange(number, dtype=np.int32), kinds)
        for option, value in (("mip_max_nodes", nodes), ("time_limit", seconds), ("threads", 1)):
            solver.setOptionValue(option, value)
        solver.run()
        taken = solver.getSolution().col_value[self.first :]
        return [bin_ for bin_, times in zip(self.columns, taken, strict=False) for _ in range(round(times))]

    def _asked(self, worth: Worth) -> float:
        """What all that is wanted is worth, each choice by its cheapest way."""
        by_want = dict(worth.item)
        for panel in self.problem.panels:
            strips = worth.strip[panel.id] * panel.counts[1]
            by_want[panel.id] = worth.width[panel.id] * panel.need + strips
        chosen = {want for choice in self.problem.choices for way in choice.ways for want in way}
        always = sum(value for want, value in by_want.items() if want not in chosen)
        ways = (min(sum(map(by_want.__getitem__, w)) for w in c.ways) for c in self.problem.choices)
        return always + sum(ways)

    def _program(self, wants: int) -> highspy.Highs:
        solver = highspy.Highs()
        solver.setOptionValue("log_to_console", False)
        self._solver = solver
        chosen = {want for choice in self.problem.choices for way in choice.ways for want in way}
        for want in (*self._items, *self._panels):
            solver.addRow(0.0 if want in chosen else 1.0, highspy.kHighsInf, 0, [], [])
        for panel in self.problem.panels:
            most = 0 if panel.id in chosen else panel.counts[1]
            solver.addRow(-highspy.kHighsInf, most, 0, [], [])
        for _ in self.problem.choices:
            solver.addRow(1.0, 1.0, 0, [], [])
        for pool in self._pools:
            count = self._supply[pool]
            solver.addRow(-highspy.kHighsInf, highspy.kHighsInf if count is None else count, 0, [], [])
        dear = _DEAR * max(1.0, *(stock.money for stock in self.problem.stocks))
        for row in range(wants):
            self._column(dear, {row: 1.0})
        for number, choice in enumerate(self.problem.choices):
            for way in choice.ways:
                self._column(0.0, {self._choices + number: 1.0, **self._takes(way)})
        return solver

    def _takes(self, way: frozenset[int]) -> dict[int, float]:
        most = {p.id: p.counts[1] for p in self.problem.panels}
        rows = {(self._items | self._panels)[want]: -1.0 for want in way}
        return rows | {self._strips[want]: -float(most[want]) for want in way if want in most}

    def _gives(self, bin_: Bin) -> dict[int, float]:
        rows = {self._pools[self.problem.stocks[bin_.stock].pool]: 1.0}
        for want, (width, count) in bin_.strip_widths.items():
            if want in self._items:
                rows[self._items[want]] = float(count)
            else:
                rows[self._panels[want]] = (width - count * self._extra[want]) / self._need[want]
                rows[self._strips[want]] = float(count)
        return rows

    def _column(self, cost: float, rows: dict[int, float]) -> None:
        index, value = np.array(list(rows), np.int32), np.array(list(rows.values()))
        self._solver.addCol(cost, 0.0, highspy.kHighsInf, len(rows), index, value)


def attainable(least: float, prices: Iterable[float]) -> float:
    """The least multiple, not under `least`, of what divides all prices; all sums spent are such.

    `least` itself where a price is not of whole cents, or all are nothing.
    """
    cents = [price * 100 for price in prices]
    if any(abs(price - round(price)) > _HAIR for price in cents):
        return least
    unit = math.gcd(*map(round, cents)) / 100
    return math.ceil(least / unit - _HAIR) * unit if unit else least
