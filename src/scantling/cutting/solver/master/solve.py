"""Price bins until none gains, and prove."""

from __future__ import annotations

import time

from scantling.cutting.solver.master.relaxed import Relaxed
from scantling.cutting.solver.pattern import Priced
from scantling.cutting.solver.pricing import Pricer

_GAIN = 1e-7


def priced(relaxed: Relaxed, rounds: int, until: float, verbose=False, bins=2) -> int:
    """How many rounds were done."""
    pricer = Pricer(relaxed.merged.problem, relaxed.merged.most)
    stocks = relaxed.merged.problem.stocks
    for done in range(rounds):
        if time.monotonic() >= until:
            return done
        prices = relaxed.prices()
        new = []
        for number, stock in enumerate(stocks):
            cost = relaxed.aim.fixed(stock) + prices.money * stock.money
            new += [b for earned, b in pricer.bins(number, prices.worth, bins) if earned > cost * (1 + _GAIN)]
        added = relaxed.add(new)
        if verbose:
            print(
                done,
                len(relaxed.columns),
                relaxed._solver.getObjectiveValue(),
                relaxed.bound,
                len(new),
                round(time.process_time(), 2),
            )
        if not added or done % 10 == 9:
            relaxed.prove(
                prices, tuple(Priced(pricer.bound(n, prices.worth), ()) for n in range(len(stocks)))
            )
        if not added:
            return done + 1
    return rounds
