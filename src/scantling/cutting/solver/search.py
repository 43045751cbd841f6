"""Fill bins: hardest wants first, then take some bins apart and fill them again, keeping what is better.

The search is measured in wants put in, not in seconds, so that a machine's speed does not change a plan;
the clock only stops a search that would run away.
"""

from __future__ import annotations

import random
import time
from collections.abc import Mapping
from dataclasses import dataclass, field

from scantling.cutting.solver.bin import Bin, Offer, free_lengths, free_widths, put, without
from scantling.cutting.solver.offers import item_offer, panel_offer
from scantling.cutting.solver.problem import Item, Panel, Problem, Stock

Key = tuple[int, int]  # pool, copy
Cost = tuple[int, float, float]  # area unmet, money, value used up
_HISTORY = 12  # late acceptance: a filling may be as bad as the one this many steps ago
_NOISE = 0.25


@dataclass(frozen=True)
class Filling:
    """Bins with something in them, and what found no place."""

    bins: Mapping[Key, Bin]
    cost: Cost
    unmet: tuple[int, ...]  # wants (items, or panels not wide enough)
    widths: Mapping[int, int]  # panel → width reached


@dataclass
class Search:
    """One run over one problem; `fill` gives a filling, `improve` a better one."""

    problem: Problem
    seed: int
    _fresh: dict[int, Bin] = field(default_factory=dict)
    _worth: dict[int, tuple[Bin, tuple[float, float]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.random = random.Random(self.seed)
        wants: list[Item | Panel] = [*self.problem.items, *self.problem.panels]
        self.wants = {want.id: want for want in wants}
        self._fresh = {s: Bin(s, -1) for s in range(len(self.problem.stocks))}
        self.order = sorted(self.wants.values(), key=self._hardness)

    def fill(self) -> Filling:
        """Everything, hardest first, each where it wastes least."""
        return self._filled({}, [w.id for w in self.order], 0.0)

    def improve(self, filling: Filling, effort: int, until: float) -> Filling:
        """The best filling met while `effort` wants are put in anew, or until the clock says `until`."""
        best = current = filling
        history = [filling.cost] * _HISTORY
        step = spent = 0
        while spent < effort and current.bins and time.monotonic() < until:
            bins, loose = self._taken_apart(current)
            spent += len(loose)
            tried = self._filled(bins, loose, _NOISE)
            slot = step % _HISTORY
            if tried.cost <= current.cost or tried.cost <= history[slot]:
                current = tried
            history[slot] = current.cost
            best = min(best, current, key=lambda f: f.cost)
            step += 1
        return best

    def _hardness(self, want: Item | Panel) -> tuple[int, int, int, int]:
        if isinstance(want, Panel):
            choice, across = sum(w > 0 for w in want.widest), want.least + want.extra
        else:
            choice, across = len(want.fits), want.width
        length = max(want.length, across) if isinstance(want, Item) and want.turns else want.length
        return (-length * across if self._sheets else -length, choice, -across, want.id)

    @property
    def _sheets(self) -> bool:
        return any(stock.turned for stock in self.problem.stocks)

    def _taken_apart(self, filling: Filling) -> tuple[dict[Key, Bin], list[int]]:
        bins = dict(filling.bins)
        keys = sorted(bins)
        bought = [k for k in keys if self._stock(bins[k]).money]
        chosen = {self.random.choice(bought if bought and self.random.random() < 0.5 else keys)}
        chosen |= {self.random.choice(keys) for _ in range(self.random.randint(0, 2))}
        loose = {spot.want for key in chosen for spot in bins.pop(key).spots} | set(filling.unmet)
        panels = frozenset(
            w for w in loose if isinstance(self.wants[w], Panel) and self.random.random() < 0.5
        )
        if panels:
            bins = {
                k: without(b, panels) if any(p.want in panels for p in b.spots) else b
                for k, b in bins.items()
            }
            bins = {k: b for k, b in bins.items() if b.segments}
        order = [w.id for w in self.order if w.id in loose]
        for _ in range(self.random.randint(0, len(order) // 2)):
            a = self.random.randrange(len(order))
            b = min(a + 1, len(order) - 1)
            order[a], order[b] = order[b], order[a]
        return bins, order

    def _filled(self, bins: dict[Key, Bin], wants: list[int], noise: float) -> Filling:
        bins = dict(bins)
        unmet = [w for w in wants if not self._put_in(bins, self.wants[w], noise)]
        widths = {p.id: self._reached(bins, p)[0] for p in self.problem.panels}
        short = sum(
            (w.need - widths[w.id]) * w.length if isinstance(w, Panel) else w.length * w.width
            for w in map(self.wants.__getitem__, unmet)
        )
        worth = [self._bin_cost(b) for b in bins.values()]
        cost = (short, sum(m for m, _ in worth), sum(v for _, v in worth))
        return Filling(bins, cost, tuple(sorted(unmet)), widths)

    def _put_in(self, bins: dict[Key, Bin], want: Item | Panel, noise: float) -> bool:
        if isinstance(want, Item):
            return self._take(bins, want, 0, 0, noise)
        have, count = self._reached(bins, want)
        while have < want.need:
            if not self._take(bins, want, have, count, noise):
                _take_out(bins, want.id)
                return False
            have, count = self._reached(bins, want)
        return True

    def _take(self, bins: dict[Key, Bin], want: Item | Panel, have: int, count: int, noise: float) -> bool:
        best: tuple[float, Key, Bin, Offer] | None = None
        for key, bin_ in (*bins.items(), *self._fresh_bins(bins)):
            offer = self._offer(bin_, want, have, count)
            if offer is None:
                continue
            score = offer.score * (1 + noise * self.random.random())
            if not bin_.segments:
                score += self._stock(bin_).money * 1e12
            if best is None or score < best[0]:
                best = (score, key, bin_, offer)
        if best is None:
            return False
        _, key, bin_, offer = best
        bins[key] = put(bin_ if bin_.segments else Bin(bin_.stock, key[1]), offer)
        return True

    def _offer(self, bin_: Bin, want: Item | Panel, have: int, count: int) -> Offer | None:
        stock = self._stock(bin_)
        if isinstance(want, Item):
            return item_offer(stock, bin_, want) if bin_.stock in want.fits else None
        return panel_offer(stock, bin_, want, have, count) if want.widest[bin_.stock] else None

    def _fresh_bins(self, bins: dict[Key, Bin]) -> list[tuple[Key, Bin]]:
        used: dict[int, set[int]] = {}
        for pool, copy in bins:
            used.setdefault(pool, set()).add(copy)
        fresh = []
        for number, stock in enumerate(self.problem.stocks):
            taken = used.get(stock.pool, set())
            if stock.count is None or len(taken) < stock.count:
                copy = next(c for c in range(len(taken) + 1) if c not in taken)
                fresh.append(((stock.pool, copy), self._fresh[number]))
        return fresh

    def _reached(self, bins: Mapping[Key, Bin], panel: Panel) -> tuple[int, int]:
        widths = [p.width - panel.extra for b in bins.values() for p in b.spots if p.want == panel.id]
        return sum(widths), len(widths)

    def _stock(self, bin_: Bin) -> Stock:
        return self.problem.stocks[bin_.stock]

    def _bin_cost(self, bin_: Bin) -> tuple[float, float]:
        known = self._worth.get(id(bin_))
        if known is None or known[0] is not bin_:
            stock = self._stock(bin_)
            self._worth[id(bin_)] = known = (bin_, (stock.money, stock.rate * area_used(stock, bin_)))
        return known[1]


def _take_out(bins: dict[Key, Bin], want: int) -> None:
    """Remove every strip of a panel that cannot be made wide enough: half a panel is none."""
    for key, bin_ in list(bins.items()):
        if any(spot.want == want for spot in bin_.spots):
            bins[key] = without(bin_, frozenset({want}))
            if not bins[key].segments:
                del bins[key]


def area_used(stock: Stock, bin_: Bin) -> float:
    """Area of a bin less what is left in pieces worth keeping."""
    kept = sum((b - a) * stock.width for a, b in free_lengths(stock, bin_.segments) if b - a >= stock.keep[0])
    for segment in bin_.segments:
        if segment.x1 - segment.x0 >= stock.keep[0]:
            bands = (b - a for a, b in free_widths(stock, segment) if b - a >= stock.keep[1])
            kept += sum(bands) * (segment.x1 - segment.x0)
    # A stretch taken from the end of a long board is dearer than the same area from a short one.
    return stock.length * stock.width - 0.9 * kept
