"""The linear program over bins and ways of making things, and the least cost it proves.

A column is one bin with all that lies in it, or one way of a choice. Rows: of every class of equal items the
number wanted, of every class of panels their width and how many strips make it, every choice one way, every
pool its supply, and the money there is. The bound is Lagrange's, from the most a bin of each pool can earn
at the program's prices; where stock without end would earn more than it costs, the prices are scaled down
(Farley 1990; from memory). Wants of a way count if it is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import highspy
import numpy as np

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.costing import OPENED, WORTH_FULL, value_used
from scantling.cutting.solver.master.merged import Asked, Merged
from scantling.cutting.solver.pattern import Priced, Worth
from scantling.cutting.solver.problem import Problem, Stock

_DEAR = 1000.0  # a want left out costs this many of the dearest bin
_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Aim:
    """What is made least: so much of the money, so much of the value of wood used up, so much of what the
    ways weigh, while no more money than `limit` is spent.
    """

    money: float
    wood: float
    against: float
    limit: float = math.inf

    def fixed(self, stock: Stock) -> float:
        """What a bin costs before its leftovers are counted."""
        whole = stock.length * stock.width + OPENED
        return self.money * stock.money + self.wood * stock.rate * whole

    def cost_in(self, problem: Problem, bin_: Bin) -> float:
        """What a bin costs."""
        stock, panels = problem.stocks[bin_.stock], {p.id for p in problem.panels}
        strips = sum(spot.length for spot in bin_.spots if spot.want in panels)
        return self.money * stock.money + self.wood * value_used(stock, bin_, strips)

    def less(self, problem: Problem, bins: Iterable[Bin]) -> Aim:
        """The aim once these bins are paid for."""
        if math.isinf(self.limit):
            return self
        return replace(self, limit=self.limit - sum(problem.stocks[b.stock].money for b in bins))


@dataclass(frozen=True, slots=True)
class Prices:
    """What everything is worth at the best mix of the bins met; `money`: of a unit more to spend."""

    worth: Worth
    fewest: Mapping[int, float]
    money: float


@dataclass
class Relaxed:
    """The program over the bins met so far."""

    merged: Merged
    aim: Aim
    columns: list[Bin] = field(default_factory=list)
    bound: float = 0.0

    def __post_init__(self) -> None:
        problem, ways = self.merged.problem, self.merged.ways
        self._need = {p.id: p.need for p in problem.panels}
        names = [
            *(("item", i.id) for i in problem.items),
            *((word, p.id) for p in problem.panels for word in ("width", "fewest", "strips")),
            *(("choice", number) for number in range(len(ways))),
            *(("pool", pool) for pool in sorted({stock.pool for stock in problem.stocks})),
            ("money", 0),
        ]
        self._rows = {name: row for row, name in enumerate(names)}
        self._known: set[tuple[int, object]] = set()
        self._solver = self._program()
        self.first = self._solver.getNumCol()

    def add(self, bins: Iterable[Bin]) -> int:
        """Take in bins not met before; how many there were."""
        before = len(self.columns)
        for bin_ in bins:
            key = (bin_.stock, bin_.segments)
            if bin_.segments and key not in self._known:
                self._known.add(key)
                self.columns.append(bin_)
                self._column(self.cost(bin_), self._gives(bin_))
        return len(self.columns) - before

    def cost(self, bin_: Bin) -> float:
        """What a bin costs by the aim."""
        return self.aim.cost_in(self.merged.problem, bin_)

    def prices(self) -> Prices:
        """Solve, and tell what everything is worth."""
        self._solver.run()
        dual = np.array(self._solver.getSolution().row_dual)
        up, down = np.maximum(dual, 0.0), np.minimum(dual, 0.0)
        rows = self._rows
        item = {i.id: float(up[rows["item", i.id]]) for i in self.merged.problem.items}
        width = {p: float(up[rows["width", p]]) / need for p, need in self._need.items()}
        fewest = {p: float(up[rows["fewest", p]]) for p in self._need}
        strip = {p: fewest[p] + float(down[rows["strips", p]]) for p in self._need}
        return Prices(Worth(item, width, strip, self.aim.wood), fewest, float(-down[rows["money", 0]]))

    def prove(self, prices: Prices, priced: tuple[Priced, ...]) -> None:
        """Raise the bound by what no bin can earn more than; `priced`: of every stock, at these prices."""
        pairs = list(zip(self.merged.problem.stocks, priced, strict=True))
        endless = [(s, p) for s, p in pairs if s.count is None]
        scale = min([1.0, *(self._scale(s, p, prices) for s, p in endless)])
        loss: dict[int, float] = {}
        for stock, p in pairs:
            if stock.count is not None:
                earned = scale * p.bound + (1 - scale) * self._bare(stock)
                lost = stock.count * max(earned - self._fixed(stock, scale * prices.money), 0.0)
                loss[stock.pool] = max(loss.get(stock.pool, 0.0), lost)
        spent = prices.money * self.aim.limit if prices.money else 0.0
        value = self._asked(prices, scale) - scale * spent - sum(loss.values())
        self.bound = max(self.bound, value - _HAIR * (1 + abs(value) + sum(loss.values())))

    def _fixed(self, stock: Stock, money: float) -> float:
        return self.aim.fixed(stock) + money * stock.money

    def _bare(self, stock: Stock) -> float:
        """Most that a bin with nothing in it earns."""
        return self.aim.wood * stock.rate * WORTH_FULL * stock.length * stock.width

    def _scale(self, stock: Stock, priced: Priced, prices: Prices) -> float:
        """Greatest share of the prices at which no such bin earns more than it costs."""
        bare, cost = self._bare(stock), self.aim.fixed(stock)
        over = priced.bound - prices.money * stock.money - bare
        return (cost - bare) / over if over > cost - bare else 1.0

    def taken(self) -> tuple[list[float], list[float]]:
        """How much of each way (in the order of the choices) and of each bin the last solution takes."""
        values = self._solver.getSolution().col_value
        ways = sum(map(len, self.merged.ways))
        return list(values[self.first - ways : self.first]), list(values[self.first :])

    @property
    def value(self) -> float:
        """Cost of the last solution."""
        return float(self._solver.getObjectiveValue())

    def whole(self, nodes: int, seconds: float) -> tuple[list[int], list[Bin]]:
        """The best plan in whole bins among those met, as far as so many nodes of branching tell: the way
        of each choice, and its bins.
        """
        solver = highspy.Highs()
        solver.setOptionValue("log_to_console", False)
        solver.passModel(self._solver.getLp())
        number = solver.getNumCol()
        ways = sum(map(len, self.merged.ways))
        whole = np.arange(self.first - ways, number, dtype=np.int32)
        solver.changeColsIntegrality(len(whole), whole, np.full(len(whole), highspy.HighsVarType.kInteger))
        for option, value in (("mip_max_nodes", nodes), ("time_limit", seconds), ("threads", 1)):
            solver.setOptionValue(option, value)
        solver.run()
        values = solver.getSolution().col_value
        bins = zip(self.columns, values[self.first :], strict=False)
        return self._ways_of(values), [bin_ for bin_, times in bins for _ in range(round(times))]

    def _ways_of(self, values: list[float]) -> list[int]:
        at = self.first - sum(map(len, self.merged.ways))
        chosen = []
        for ways in self.merged.ways:
            chosen.append(max(range(len(ways)), key=lambda n: values[at + n]))
            at += len(ways)
        return chosen

    def _asked(self, prices: Prices, scale: float) -> float:
        """What all that is wanted is worth, each choice by its cheapest way."""
        worth = prices.worth
        each = {("item", kind): value for kind, value in worth.item.items()}
        each |= {("width", kind): value for kind, value in worth.width.items()}
        each |= {("fewest", kind): value for kind, value in prices.fewest.items()}
        each |= {("strips", kind): value - prices.fewest[kind] for kind, value in worth.strip.items()}

        def value(asks: Asked) -> float:
            return scale * sum(each[name] * number for name, number in asks.items())

        ways = (
            min(value(way.asks) + self.aim.against * way.against for way in ways) for ways in self.merged.ways
        )
        return value(self.merged.always) + sum(ways)

    def _program(self) -> highspy.Highs:
        solver = highspy.Highs()
        solver.setOptionValue("log_to_console", False)
        self._solver = solver
        for low, high in map(self._limits, self._rows):
            solver.addRow(low, high, 0, [], [])
        stocks = self.merged.problem.stocks
        dear = _DEAR * max(1.0, *(self.aim.fixed(stock) for stock in stocks))
        for (word, _), row in self._rows.items():
            if word in {"item", "width", "fewest"}:
                self._column(dear, {row: 1.0})
        for number, ways in enumerate(self.merged.ways):
            for way in ways:
                asks = {self._rows[name]: -self._share(name, v) for name, v in way.asks.items()}
                self._column(self.aim.against * way.against, {self._rows["choice", number]: 1.0, **asks})
        return solver

    def _share(self, name: tuple[str, int], number: float) -> float:
        """A number as its row counts it: widths as shares of one panel's."""
        return number / self._need[name[1]] if name[0] == "width" else float(number)

    def _limits(self, name: tuple[str, int]) -> tuple[float, float]:
        word, key = name
        match word:
            case "choice":
                return 1.0, 1.0
            case "pool":
                counts = {s.pool: s.count for s in self.merged.problem.stocks}
                count = counts[key]
                return -highspy.kHighsInf, highspy.kHighsInf if count is None else count
            case "money":
                return -highspy.kHighsInf, min(self.aim.limit, highspy.kHighsInf)
        asked = self._share(name, self.merged.always.get(name, 0))
        return (-highspy.kHighsInf, asked) if word == "strips" else (asked, highspy.kHighsInf)

    def _gives(self, bin_: Bin) -> dict[int, float]:
        stock = self.merged.problem.stocks[bin_.stock]
        given = {self._rows[name]: self._share(name, v) for name, v in self.merged.gives(bin_).items()}
        return {self._rows["pool", stock.pool]: 1.0, self._rows["money", 0]: stock.money, **given}

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
