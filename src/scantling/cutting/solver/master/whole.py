"""Plans in whole bins of classes: what they cost, and how the rest is put together once some is settled."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.master.merged import Merged
from scantling.cutting.solver.master.relaxed import Aim, Prices, Relaxed
from scantling.cutting.solver.pricing import COARSE, Pricer, heeding

_GAIN = 1e-7
_SURE = 0.99
_NODES = 100
_SECONDS = 20.0  # at which even so few nodes are given up

Ways = Mapping[int, int]
"""Number of a choice → number of the way taken."""


@dataclass(frozen=True)
class Plan:
    """Every choice's way, and bins of classes that meet all that is asked for; `cost` by the aim."""

    chosen: Ways
    bins: tuple[Bin, ...]
    cost: float


def plan_of(merged: Merged, aim: Aim, chosen: Ways, bins: Iterable[Bin]) -> Plan | None:
    """The plan these make, with nothing over in it; None where something is missing."""
    kept = tuple(trimmed(merged, chosen, bins))
    if is_missing(merged.after(kept, chosen)):
        return None
    return Plan(chosen, kept, cost_of(merged, aim, chosen, kept))


def cost_of(merged: Merged, aim: Aim, chosen: Ways, bins: Iterable[Bin]) -> float:
    """What ways and bins cost by the aim."""
    against = sum(merged.ways[number][way].against for number, way in chosen.items())
    return aim.against * against + sum(aim.cost_in(merged.problem, bin_) for bin_ in bins)


def is_missing(left: Merged) -> bool:
    """Whether anything is still asked for."""
    return any(number > 0 for (word, _), number in left.always.items() if word in {"item", "width"})


def trimmed(merged: Merged, chosen: Ways, bins: Iterable[Bin]) -> Iterator[Bin]:
    """Bins with only as many of each class as the ways chosen ask for."""
    left = merged.after((), chosen)
    for bin_ in bins:
        kept = heeding(left.problem, left.most, bin_)
        if kept.segments:
            left = left.after([kept], {})
            yield kept


def priced(relaxed: Relaxed, rounds: int, bins: int = 1) -> None:
    """So many rounds of pricing, or until nothing gains, and the program solved."""
    pricer = Pricer(relaxed.merged.problem, relaxed.merged.most, COARSE)
    prices = relaxed.prices()
    for _ in range(rounds):
        if not relaxed.add(gaining(relaxed, pricer, prices, bins)):
            return
        prices = relaxed.prices()


def gaining(relaxed: Relaxed, pricer: Pricer, prices: Prices, bins: int) -> Iterator[Bin]:
    """Bins of every stock still there that would make the program's cost less."""
    for number, stock in enumerate(relaxed.merged.problem.stocks):
        if stock.count == 0:
            continue
        cost = relaxed.aim.fixed(stock) + prices.money * stock.money
        for earned, bin_ in pricer.bins(number, prices.worth, bins):
            if earned > cost * (1 + _GAIN):
                yield bin_


def branched(relaxed: Relaxed) -> tuple[Ways, tuple[Bin, ...]]:
    """The best in whole bins among those met, as far as a little branching tells."""
    ways, bins = relaxed.whole(_NODES, _SECONDS)
    return dict(enumerate(ways)), tuple(bins)


def dived(relaxed: Relaxed, rounds: int) -> tuple[Ways, tuple[Bin, ...]]:
    """What the program is surest of is settled, choices first, and the rest priced anew, until all is."""
    numbers = list(range(len(relaxed.merged.ways)))
    chosen: dict[int, int] = {}
    settled: list[Bin] = []
    while True:
        priced(relaxed, rounds)
        ways, taken = relaxed.taken()
        now = _surest_ways(relaxed.merged, ways)
        some = [] if now else _surest_bins(relaxed, taken)
        if not now and not some:
            return chosen, tuple(settled)
        chosen |= {numbers[number]: way for number, way in now.items()}
        numbers = [each for number, each in enumerate(numbers) if number not in now]
        settled += some
        relaxed = _after(relaxed, some, now)


def _surest_ways(merged: Merged, taken: list[float]) -> Ways:
    """All choices the program has made, and the one it has most nearly made."""
    best: list[tuple[float, int, int]] = []
    at = 0
    for number, ways in enumerate(merged.ways):
        share, way = max((taken[at + w], -w) for w in range(len(ways)))
        best.append((share, number, -way))
        at += len(ways)
    most = max(best, default=None)
    return {number: way for share, number, way in best if share > _SURE or (share, number, way) == most}


def _surest_bins(relaxed: Relaxed, taken: list[float]) -> list[Bin]:
    """All bins that are taken whole, or the one most nearly so."""
    whole = [
        b for b, times in zip(relaxed.columns, taken, strict=True) for _ in range(int(times + 1 - _SURE))
    ]
    if whole:
        return whole
    share, most = max(zip(taken, range(len(taken)), strict=True), default=(0.0, 0))
    return [relaxed.columns[most]] if share > 1 - _SURE else []


def _after(relaxed: Relaxed, bins: list[Bin], chosen: Ways) -> Relaxed:
    """The program for what is left, with what is still of use of the bins met."""
    made = Relaxed(relaxed.merged.after(bins, chosen), relaxed.aim.less(relaxed.merged.problem, bins))
    made.add(useful(made.merged, relaxed.columns))
    return made


def useful(merged: Merged, bins: Iterable[Bin]) -> Iterator[Bin]:
    """What of each bin is asked for, where its stock is still there."""
    most = merged.most
    for bin_ in bins:
        if merged.problem.stocks[bin_.stock].count != 0:
            kept = heeding(merged.problem, most, bin_)
            if kept.segments:
                yield kept
