"""Fill bins: hardest wants first, then take some bins apart and fill them again, keeping what is better.

The search is measured in places taken, not in seconds, so that a machine's speed does not change a plan;
the clock only stops a search that would run away.
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from scantling.cutting.solver.bin import Bin, Offer, Offers, put, without
from scantling.cutting.solver.costing import STRIP, value_used
from scantling.cutting.solver.offers import Widths, item_offer, key_of, labelled, panel_offer, strip_widths
from scantling.cutting.solver.problem import SCALE, Item, Panel, Problem, Stock

Key = tuple[int, int]  # pool, copy
Cost = tuple[int, float, int, float]  # area unmet, money, moved from their homes, value used up
_MONEY = 3.0 * SCALE**2  # weight of money against value used up
_MOVED = 0.5 * SCALE**2  # weight of one thing that lay elsewhere before, as of money
_SHORT = 1e3  # weight of area that found no place
_FRESH_MONEY = 1e12  # a bin that costs money is opened only where no other has room
_STALE = 50  # steps without anything better after which the search starts afresh
_HISTORY = 40  # late acceptance: a filling may be as bad as the one this many steps ago
_NOISE = 0.5
_USUAL = 40  # stocks that are asked for one place taken; asking more counts for more


@dataclass(frozen=True)
class Filling:
    """Bins with something in them, and what found no place.

    `smooth`: what the search goes by. Money counts by how full a bought bin is, so that emptying one pays
    before it is empty.
    """

    bins: Mapping[Key, Bin]
    cost: Cost
    smooth: float
    unmet: tuple[int, ...]  # wants (items, or panels not wide enough)
    widths: Mapping[int, int]  # panel → width reached


@dataclass
class Search:
    """One run over one problem; `fill` gives a filling, `improve` a better one."""

    problem: Problem
    seed: int
    _fresh: dict[int, Bin] = field(default_factory=dict)
    _worth: dict[int, tuple[Bin, tuple[float, float, float]]] = field(default_factory=dict)
    _offers: dict[tuple[int, ...], tuple[Offers, Offers]] = field(default_factory=dict)
    _taken_of: dict[tuple[int, ...], Widths] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.random = random.Random(self.seed)
        self.taken = 0  # places taken so far: what effort is measured in
        wants: list[Item | Panel] = [*self.problem.items, *self.problem.panels]
        self.wants = {want.id: want for want in wants}
        self._fresh = {s: Bin(s, -1) for s in range(len(self.problem.stocks))}
        self._homed = {want for want, _ in self.problem.homes}
        self._keys = {item.id: key_of(item) for item in self.problem.items}
        self._givers = {want.id: _givers(want) for want in wants}
        self.order = sorted(self.wants.values(), key=self._hardness)

    def fill(self) -> Filling:
        """Everything, hardest first, each where it wastes least."""
        return self._filled({}, [w.id for w in self.order], 0.0)

    def resume(self, bins: Mapping[Key, Bin]) -> Filling:
        """What lies in these bins stays there; the rest is put in, hardest first."""
        laid = {spot.want for bin_ in bins.values() for spot in bin_.spots}
        loose = [w.id for w in self.order if w.id not in laid or isinstance(w, Panel)]
        return self._filled(dict(bins), loose, 0.0)

    def improve(self, filling: Filling, effort: int, until: float) -> Filling:
        """The best filling met while `effort` places are taken, or until the clock says `until`."""
        best = current = filling
        history = [filling.smooth] * _HISTORY
        step = spent = since = 0
        while spent < effort and current.bins and time.monotonic() < until:
            bins, loose = self._taken_apart(current) if since < _STALE else self._all_apart()
            before = self.taken
            tried = self._filled(bins, loose, _NOISE)
            spent += self.taken - before
            slot = step % _HISTORY
            if since >= _STALE:
                current, history, since = tried, [tried.smooth] * _HISTORY, 0
            elif tried.smooth <= max(current.smooth, history[slot]):
                current = tried
            history[slot] = current.smooth
            since = 0 if current.cost < best.cost else since + 1
            best = min(best, current, key=lambda f: f.cost)
            step += 1
        return best

    def _all_apart(self) -> tuple[dict[Key, Bin], list[int]]:
        """Nothing cut yet: to start afresh where taking apart a little leads nowhere."""
        return {}, self._shuffled(set(self.wants))

    def _hardness(self, want: Item | Panel) -> tuple[bool, int, int, int, int]:
        if isinstance(want, Panel):
            choice, across = sum(w > 0 for w in want.widest), want.least + want.extra
        else:
            choice, across = len(want.fits), want.width
        length = max(want.length, across) if isinstance(want, Item) and want.turns else want.length
        return (not want.tied, -length * across if self._sheets else -length, choice, -across, want.id)

    @property
    def _sheets(self) -> bool:
        return any(stock.turned for stock in self.problem.stocks)

    def _taken_apart(self, filling: Filling) -> tuple[dict[Key, Bin], list[int]]:
        """Some bins emptied, often one that costs money; their wants, in an order to put them in again."""
        bins = dict(filling.bins)
        keys = sorted(bins)
        bought = [k for k in keys if self._stock(bins[k]).money]
        chosen = {self.random.choice(bought if bought and self.random.random() < 0.5 else keys)}
        chosen |= {self.random.choice(keys) for _ in range(self.random.randint(0, 2))}
        loose = {spot.want for key in chosen for spot in bins.pop(key).spots} | set(filling.unmet)
        for want in sorted(loose):
            if isinstance(self.wants[want], Panel) and self.random.random() < 0.5:
                _take_out(bins, want)
        return bins, self._shuffled(loose)

    def _shuffled(self, loose: set[int]) -> list[int]:
        """Hardest first by one of three measures, with some neighbours exchanged."""
        order = [w.id for w in self.order if w.id in loose]
        measure = self.random.randrange(4)
        if measure:
            order.sort(key=lambda w: -_size(self.wants[w], measure))
        for _ in range(self.random.randint(0, len(order) // 2)):
            a = self.random.randrange(len(order))
            b = min(a + 1, len(order) - 1)
            order[a], order[b] = order[b], order[a]
        return order

    def _filled(self, bins: dict[Key, Bin], wants: list[int], noise: float) -> Filling:
        bins = dict(bins)
        unmet = [w for w in wants if not self._put_in(bins, self.wants[w], noise)]
        widths = {p.id: self._reached(bins, p)[0] for p in self.problem.panels}
        short = sum(
            (w.need - widths[w.id]) * w.length if isinstance(w, Panel) else w.length * w.width
            for w in map(self.wants.__getitem__, unmet)
        )
        worth = [self._bin_cost(b) for b in bins.values()]
        money, value = round(sum(w[0] for w in worth), 2), sum(w[1] for w in worth)
        moved = sum(self._moved(key, bin_) for key, bin_ in bins.items()) if self._homed else 0
        smooth = _SHORT * short + _MOVED * moved + sum(w[2] for w in worth)
        return Filling(bins, (short, money, moved, value), smooth, tuple(sorted(unmet)), widths)

    def _moved(self, key: Key, bin_: Bin) -> int:
        """How many things lie here whose home is elsewhere."""
        homes = self.problem.homes
        return sum(p.want in self._homed and (p.want, key) not in homes for p in bin_.spots)

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
        self.taken += max(len(self._givers[want.id]) // _USUAL, 1)
        offered = self._offers_for(want, have, count)
        draw = self.random.random
        best: tuple[float, Key | None, Bin, Offer] | None = None
        used = Counter(pool for pool, _ in bins)
        for key, bin_ in bins.items():
            offer = offered(bin_)
            if offer is not None:
                score = offer.score * (1 + noise * draw())
                if best is None or score < best[0]:
                    best = (score, key, bin_, offer)
        for number in self._givers[want.id]:
            stock = self.problem.stocks[number]
            if stock.count is not None and used[stock.pool] >= stock.count:
                continue
            offer = offered(self._fresh[number])
            if offer is not None:
                score = offer.score * (1 + noise * draw()) + stock.money * _FRESH_MONEY
                if best is None or score < best[0]:
                    best = (score, None, self._fresh[number], offer)
        if best is None:
            return False
        _, key_, bin_, offer = best
        if key_ is None:
            key_ = self._new_key(bins, self._stock(bin_).pool)
            bin_ = Bin(bin_.stock, key_[1], offers=bin_.offers)
        bins[key_] = self._put(bin_, labelled(offer, want.id))
        return True

    def _put(self, bin_: Bin, offer: Offer) -> Bin:
        """The bin with the offer taken, remembering what others that were cut up alike have offered."""
        made = put(bin_, offer)
        key = (id(bin_.offers), offer.segment, offer.strip, *offer.spot[1:])
        _, offers = self._offers.setdefault(key, (bin_.offers, made.offers))
        return Bin(made.stock, made.copy, made.segments, offers)

    def _new_key(self, bins: Mapping[Key, Bin], pool: int) -> Key:
        taken = {copy for used, copy in bins if used == pool}
        return pool, next(c for c in range(len(taken) + 1) if c not in taken)

    def _offers_for(self, want: Item | Panel, have: int, count: int) -> Callable[[Bin], Offer | None]:
        """What a bin offers a want. Asked very often: what does not depend on the bin is worked out here."""
        stocks = self.problem.stocks
        if isinstance(want, Panel):
            return self._strip_offers(want, have, count)
        fits, shape = want.fits, self._keys[want.id]

        def of_item(bin_: Bin) -> Offer | None:
            if bin_.stock not in fits:
                return None
            if shape in bin_.offers:
                return bin_.offers[shape]
            return item_offer(stocks[bin_.stock], bin_, want, shape)

        return of_item

    def _strip_offers(self, panel: Panel, have: int, count: int) -> Callable[[Bin], Offer | None]:
        """What a bin offers the next strip of a panel."""
        stocks, widest, key = self.problem.stocks, panel.widest, (-1, panel.id, have, count)

        def of_strip(bin_: Bin) -> Offer | None:
            if not widest[bin_.stock]:
                return None
            if key in bin_.offers:
                return bin_.offers[key]
            stock = stocks[bin_.stock]
            widths = self._widths(panel, have, count, panel.widest_on(bin_.stock), stock.kerf_along)
            return panel_offer(stock, bin_, panel, widths, key)

        return of_strip

    def _widths(self, panel: Panel, have: int, count: int, widest: int, kerf: int) -> Widths:
        key = (panel.id, have, count, widest, kerf)
        if key not in self._taken_of:
            self._taken_of[key] = strip_widths(panel, have, count, widest, kerf)
        return self._taken_of[key]

    def _bin_cost(self, bin_: Bin) -> tuple[float, float, float]:
        """Money, value used up, and what the search goes by."""
        known = self._worth.get(id(bin_))
        if known is None or known[0] is not bin_:
            self._worth[id(bin_)] = known = (bin_, self._worked_out(bin_))
        return known[1]

    def _worked_out(self, bin_: Bin) -> tuple[float, float, float]:
        stock = self._stock(bin_)
        strips = sum(isinstance(self.wants[p.want], Panel) * p.length for p in bin_.spots)
        value = value_used(stock, bin_, strips)
        if not stock.money:
            return 0.0, value, value
        full = sum(p.length * p.width for p in bin_.spots) / (stock.length * stock.width)
        return stock.money, value, _MONEY * stock.money * full**0.5 + stock.rate * STRIP * strips

    def _reached(self, bins: Mapping[Key, Bin], panel: Panel) -> tuple[int, int]:
        """Width made up of a panel so far, and of how many strips."""
        found = [b.strip_widths[panel.id] for b in bins.values() if panel.id in b.strip_widths]
        count = sum(number for _, number in found)
        return sum(width for width, _ in found) - count * panel.extra, count

    def _stock(self, bin_: Bin) -> Stock:
        return self.problem.stocks[bin_.stock]


def _givers(want: Item | Panel) -> list[int]:
    """Stocks that can give it."""
    if isinstance(want, Item):
        return sorted(want.fits)
    return [stock for stock, widest in enumerate(want.widest) if widest]


def _size(want: Item | Panel, measure: int) -> int:
    width = want.width if isinstance(want, Item) else want.least + want.extra
    return {1: want.length, 2: want.length * width}.get(measure, width)


def _take_out(bins: dict[Key, Bin], want: int) -> None:
    """Remove every strip of a panel that cannot be made wide enough: half a panel is none."""
    for key, bin_ in list(bins.items()):
        if any(spot.want == want for spot in bin_.spots):
            bins[key] = without(bin_, frozenset({want}))
            if not bins[key].segments:
                del bins[key]
