"""Large neighbourhoods: some bins are opened again, priced and put together anew with some not yet used."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.master.dive import after, dive, gaining
from scantling.cutting.solver.pricing.pricer import COARSE, Pricer
from scantling.cutting.solver.master.merged import Merged
from scantling.cutting.solver.master.relaxed import Aim, Relaxed
from scantling.cutting.solver.pricing.heeding import heeding

_SHORT = 1e-6


@dataclass(frozen=True)
class Plan:
    """Every choice's way, and whole bins of classes that meet all that is asked for; `cost` by the aim."""

    chosen: dict[int, int]
    bins: tuple[Bin, ...]
    cost: float


def cost_of(merged: Merged, aim: Aim, chosen: dict[int, int], bins: Sequence[Bin]) -> float:
    panels = {p.id for p in merged.problem.panels}
    against = sum(merged.ways[number][way].against for number, way in chosen.items())
    return against + sum(
        aim.cost(merged.problem.stocks[b.stock], b, sum(s.length for s in b.spots if s.want in panels))
        for b in bins
    )


@dataclass
class Improver:
    merged: Merged
    aim: Aim
    columns: list[Bin]
    seed: int
    loss: object = None

    def __post_init__(self) -> None:
        self.random = random.Random(self.seed)

    def improved(self, plan: Plan, steps: int, until: float, rounds=3, verbose=False) -> Plan:
        best = plan
        for step in range(steps):
            if time.monotonic() > until:
                break
            t = time.process_time()
            tried = self._tried(best, rounds)
            if verbose:
                print(
                    step,
                    round(tried.cost) if tried else None,
                    round(best.cost),
                    len(self.columns),
                    round(time.process_time() - t, 2),
                    round(time.process_time(), 1),
                    flush=True,
                )
            if tried is not None and tried.cost < best.cost - 1e-9:
                best = tried
        return best

    def _tried(self, plan: Plan, rounds: int) -> Plan | None:
        draw, merged = self.random, self.merged
        chosen = dict(plan.chosen)
        opened = set()
        if merged.ways and draw.random() < 0.6:
            for number in draw.sample(sorted(chosen), min(len(chosen), draw.randint(1, 2))):
                asks = merged.ways[number][chosen.pop(number)].asks
                opened |= {kind for _, kind in asks}
        size = min(draw.randint(2, 4), len(plan.bins))
        holds = [n for n, b in enumerate(plan.bins) if opened & b.strip_widths.keys()]
        freed = set(draw.sample(holds, min(len(holds), size)))
        weights = [
            max(self.loss(b), 0.0) + 1e-3 * self.aim.cost(merged.problem.stocks[b.stock], b, 0)
            for b in plan.bins
        ]
        while len(freed) < size:
            freed.add(draw.choices(range(len(plan.bins)), weights)[0])
        kept = [b for n, b in enumerate(plan.bins) if n not in freed]
        names = [n for n in range(len(merged.ways)) if n not in chosen]
        sub = merged.after(kept, chosen)
        if any(n < 0 for (word, _), n in sub.always.items() if word in {"item", "width"}):
            kept = self._trimmed(kept, chosen)
            sub = merged.after(kept, chosen)
        pools = {merged.problem.stocks[plan.bins[n].stock].pool for n in freed}
        unused = [s.pool for s in sub.problem.stocks if s.count != 0 and s.pool not in pools]
        pools |= set(draw.sample(unused, min(len(unused), draw.randint(1, 4))))
        stocks = tuple(s if s.pool in pools else replace(s, count=0) for s in sub.problem.stocks)
        sub = replace(sub, problem=replace(sub.problem, stocks=stocks))
        spent = sum(merged.problem.stocks[b.stock].money for b in kept)
        aim = replace(self.aim, limit=self.aim.limit - spent)
        relaxed = Relaxed(sub, aim)
        most = sub.most
        relaxed.add(
            b
            for b in (
                heeding(sub.problem, most, b)
                for b in [*self.columns, *plan.bins]
                if stocks[b.stock].count != 0
            )
            if b.segments
        )
        before = len(relaxed.columns)
        pricer = Pricer(sub.problem, most, COARSE)
        for _ in range(rounds):
            prices = relaxed.prices()
            if not relaxed.add(gaining(relaxed, pricer, prices, 1)):
                break
        relaxed.prices()
        if (
            relaxed._solver.getObjectiveValue()
            > plan.cost
            - cost_of(merged, self.aim, {n: w for n, w in plan.chosen.items() if n in chosen}, kept)
            - 1e-6
        ):
            return None
        self.columns += relaxed.columns[before:]
        ways, bins = relaxed.whole(100, 2.0)
        left = sub.after(bins, dict(enumerate(ways)))
        if any(n > _SHORT for (word, _), n in left.always.items() if word in {"item", "width"}):
            return None
        chosen |= {names[n]: way for n, way in enumerate(ways)}
        bins = tuple(self._trimmed([*kept, *bins], chosen))
        return Plan(chosen, bins, cost_of(merged, self.aim, chosen, bins))

    def _trimmed(self, bins: Sequence[Bin], chosen: dict[int, int]) -> list[Bin]:
        """Bins with only as many of each class as is asked for."""
        left = Counter(self.merged.after([], chosen).always)
        made = []
        for b in bins:
            sub = self.merged.after(made, chosen)
            cut = heeding(sub.problem, sub.most, b)
            if cut.segments:
                made.append(cut)
        return made
