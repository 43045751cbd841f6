"""Large neighbourhoods: some bins and choices are opened again, priced with some stock not yet used, and put
together anew.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.master.merged import Merged
from scantling.cutting.solver.master.relaxed import Aim, Relaxed
from scantling.cutting.solver.master.whole import (
    Plan,
    Ways,
    branched,
    cost_of,
    dived,
    plan_of,
    priced,
    trimmed,
    useful,
)

_OPENED = (2, 5)  # bins
_OTHERS = 6  # stocks not used yet
_CHOICES = 2
_CHANGED = 0.6  # of the neighbourhoods open choices again
_ROUNDS = 3
_HISTORY = 12  # late acceptance: a plan may be as dear as the one this many steps ago
_NEAR = 1.01  # a neighbourhood is left whose program shows no plan this near to the one in hand


@dataclass
class Improver:
    """`columns`: bins met so far; `loss`: what a bin costs more than it earns at the best prices."""

    merged: Merged
    aim: Aim
    columns: list[Bin]
    loss: Callable[[Bin], float]
    seed: int

    def __post_init__(self) -> None:
        self.random = random.Random(self.seed)

    def improved(self, plan: Plan, steps: int, until: float) -> Plan:
        """The best plan met in so many steps, or until the clock says `until`."""
        best = current = plan
        history = [plan.cost] * _HISTORY
        for step in range(steps):
            if time.monotonic() >= until:
                break
            tried = self._tried(current)
            slot = step % _HISTORY
            if tried is not None and tried.cost <= max(current.cost, history[slot]):
                current = tried
            history[slot] = current.cost
            best = min(best, current, key=lambda plan: plan.cost)
        return best

    def _tried(self, plan: Plan) -> Plan | None:
        open_ = self._opened_choices(plan)
        chosen = {number: way for number, way in plan.chosen.items() if number not in open_}
        freed = self._freed(plan, open_)
        kept = [bin_ for number, bin_ in enumerate(plan.bins) if number not in freed]
        kept = list(trimmed(self.merged, chosen, kept)) if open_ else kept
        relaxed = self._program([plan.bins[n] for n in freed], kept, chosen)
        before = len(relaxed.columns)
        priced(relaxed, _ROUNDS)
        self.columns += relaxed.columns[before:]
        if relaxed.value + cost_of(self.merged, self.aim, chosen, kept) > _NEAR * plan.cost:
            return None
        ways, bins = branched(relaxed) if self.random.random() < 0.5 else dived(relaxed, _ROUNDS)
        names = sorted(open_)
        ways = {**chosen, **{names[number]: way for number, way in ways.items()}}
        return plan_of(self.merged, self.aim, ways, [*kept, *bins]) if len(ways) == len(plan.chosen) else None

    def _opened_choices(self, plan: Plan) -> set[int]:
        if not plan.chosen or self.random.random() >= _CHANGED:
            return set()
        count = min(self.random.randint(1, _CHOICES), len(plan.chosen))
        return set(self.random.sample(sorted(plan.chosen), count))

    def _freed(self, plan: Plan, open_: set[int]) -> list[int]:
        """Numbers of bins: first such as hold what the opened choices asked for, then such as lose much."""
        draw = self.random
        size = min(draw.randint(*_OPENED), len(plan.bins))
        asked = {kind for number in open_ for _, kind in self.merged.ways[number][plan.chosen[number]].asks}
        holding = [n for n, bin_ in enumerate(plan.bins) if asked & bin_.strip_widths.keys()]
        freed = set(draw.sample(holding, min(len(holding), size)))
        weights = [
            max(self.loss(b), 0.0) + 1e-3 * self.aim.cost_in(self.merged.problem, b) for b in plan.bins
        ]
        while len(freed) < size:
            freed.add(draw.choices(range(len(plan.bins)), weights)[0])
        return sorted(freed)

    def _program(self, freed: Iterable[Bin], kept: list[Bin], chosen: Ways) -> Relaxed:
        left = self._fewer_stocks(self.merged.after(kept, chosen), freed)
        relaxed = Relaxed(left, self.aim.less(self.merged.problem, kept))
        relaxed.add(useful(left, [*self.columns, *freed]))
        return relaxed

    def _fewer_stocks(self, left: Merged, freed: Iterable[Bin]) -> Merged:
        """With the stocks of the freed bins and a few others."""
        stocks = left.problem.stocks
        pools = {stocks[bin_.stock].pool for bin_ in freed}
        others = sorted({s.pool for s in stocks if s.count != 0} - pools)
        pools |= set(self.random.sample(others, min(len(others), self.random.randint(1, _OTHERS))))
        fewer = tuple(s if s.pool in pools else replace(s, count=0) for s in stocks)
        return replace(left, problem=replace(left.problem, stocks=fewer))
