"""From the linear program to a plan in whole bins: settle what it is surest of, price anew, and so on."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.master.merged import Merged
from scantling.cutting.solver.master.relaxed import Prices, Relaxed
from scantling.cutting.solver.pricing.pricer import COARSE, Pricer
from scantling.cutting.solver.pricing.heeding import heeding

_GAIN = 1e-7
_SURE = 0.99


@dataclass(frozen=True)
class Dived:
    """`chosen`: choice → way; `bins` hold classes; `left`: what no bin was found for."""

    chosen: dict[int, int]
    bins: tuple[Bin, ...]
    left: Merged


def gaining(relaxed: Relaxed, pricer: Pricer, prices: Prices, bins: int) -> Iterator[Bin]:
    """Bins of every stock still there that would make the program's cost less."""
    for number, stock in enumerate(relaxed.merged.problem.stocks):
        if stock.count == 0:
            continue
        cost = relaxed.aim.fixed(stock) + prices.money * stock.money
        for earned, bin_ in pricer.bins(number, prices.worth, bins):
            if earned > cost * (1 + _GAIN):
                yield bin_


def dive(relaxed: Relaxed, rounds: int, until: float, bins: int = 1) -> Dived:
    """Choices first, then bins; `rounds` of pricing before each is settled."""
    numbers = list(range(len(relaxed.merged.ways)))
    chosen: dict[int, int] = {}
    settled: list[Bin] = []
    while time.monotonic() < until:
        pricer = Pricer(relaxed.merged.problem, relaxed.merged.most, COARSE)
        prices = relaxed.prices()
        for _ in range(rounds):
            if not relaxed.add(gaining(relaxed, pricer, prices, bins)):
                break
            prices = relaxed.prices()
        ways, taken = relaxed.taken()
        now = _surest_ways(relaxed.merged, ways)
        some = [] if now else _surest_bins(relaxed, taken)
        if not now and not some:
            break
        chosen |= {numbers[number]: way for number, way in now.items()}
        numbers = [each for number, each in enumerate(numbers) if number not in now]
        settled += some
        relaxed = after(relaxed, some, now)
    return Dived(chosen, tuple(settled), relaxed.merged)


def _surest_ways(merged: Merged, taken: list[float]) -> dict[int, int]:
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


def after(relaxed: Relaxed, bins: list[Bin], chosen: dict[int, int]) -> Relaxed:
    """The program for what is left, with what is still of use of the bins met."""
    left = relaxed.merged.after(bins, chosen)
    made = Relaxed(left, relaxed.aim)
    most = left.most
    kept = (
        heeding(left.problem, most, b) for b in relaxed.columns if left.problem.stocks[b.stock].count != 0
    )
    made.add(b for b in kept if b.segments)
    return made
