"""The recipe: price loosely until nothing gains, prove, start from the best plan at hand, and improve it."""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.master.improve import Improver
from scantling.cutting.solver.master.merged import Merged
from scantling.cutting.solver.master.relaxed import Aim, Prices, Relaxed
from scantling.cutting.solver.master.whole import Plan, dived, plan_of, useful
from scantling.cutting.solver.pattern import Priced
from scantling.cutting.solver.pricing import COARSE, FINE, Pricer

_GAIN = 1e-7
_COARSE, _FINE = 60, 4  # rounds of pricing


@dataclass(frozen=True)
class Root:
    """The program once nothing more gains, its prices, and what it proves."""

    relaxed: Relaxed
    prices: Prices
    bound: float

    def loss(self, bin_: Bin) -> float:
        """What a bin costs more than it earns."""
        worth, need = self.prices.worth, {p.id: p.extra for p in self.relaxed.merged.problem.panels}
        earned = sum(
            worth.item[spot.want]
            if spot.want not in need
            else (spot.width - need[spot.want]) * worth.width[spot.want] + worth.strip[spot.want]
            for spot in bin_.spots
        )
        return self.relaxed.cost(bin_) - earned


def root(merged: Merged, aim: Aim, bins: Iterable[Bin], until: float) -> Root:
    """Bins priced as if there were no end of every want: what they prove holds all the more."""
    relaxed = Relaxed(merged, aim)
    relaxed.add(bins)
    for cells, rounds in ((COARSE, _COARSE), (FINE, _FINE)):
        pricer = Pricer(merged.problem, merged.most, cells)
        for _ in range(rounds):
            prices = relaxed.prices()
            if time.monotonic() >= until or not relaxed.add(_gaining(relaxed, pricer, prices)):
                break
    prices = relaxed.prices()
    if time.monotonic() < until:
        stocks = range(len(merged.problem.stocks))
        relaxed.prove(prices, tuple(Priced(pricer.bound(n, prices.worth), ()) for n in stocks))
    return Root(relaxed, prices, relaxed.bound)


def _gaining(relaxed: Relaxed, pricer: Pricer, prices: Prices) -> list[Bin]:
    found = []
    for number, stock in enumerate(relaxed.merged.problem.stocks):
        earned, bin_ = pricer.loose(number, prices.worth)
        if earned > (relaxed.aim.fixed(stock) + prices.money * stock.money) * (1 + _GAIN):
            found.append(bin_)
    return found


def improved(top: Root, plans: Sequence[Plan], steps: int, seed: int, until: float) -> Plan:
    """The best plan met from these and from one made by the program itself."""
    merged, aim = top.relaxed.merged, top.relaxed.aim
    met = [*useful(merged, top.relaxed.columns), *(bin_ for plan in plans for bin_ in plan.bins)]
    relaxed = Relaxed(merged, aim)
    relaxed.add(met)
    made = plan_of(merged, aim, *dived(relaxed, 1))
    best = min([*plans, *([made] if made else [])], key=lambda plan: plan.cost)
    return Improver(merged, aim, met, top.loss, seed).improved(best, steps, until)
