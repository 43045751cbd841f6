"""Where a want could lie in a bin, and what it would use up there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache

from scantling.cutting.solver.bin import (
    Alike,
    Bin,
    Offer,
    Segment,
    Spot,
    bars_over,
    clear_bands,
    free_lengths,
    free_runs,
    free_widths,
    margins,
    starts,
    wander,
)
from scantling.cutting.solver.problem import SCALE, Barred, Item, Panel, Runs, Stock, runs_of

Widths = Callable[[int], int]  # room across → width taken of it, 0 if it is too narrow
_SLIVER = 30 * SCALE  # a leftover band narrower than this is as good as waste
_TAIL = 0.4  # share of an open stretch beside an item that later items usually do not use
_FRESH = 0.02  # cutting into a whole board, by its area: rather finish one that is open


def item_offer(stock: Stock, bin_: Bin, item: Item, key: Alike) -> Offer | None:
    """The least wasteful place for an item, or None; the bin remembers it for all items of that `key`."""
    shapes = {(item.length, item.width)} if not stock.turned else {(item.width, item.length)}
    within = runs_of(item.places, bin_.stock)
    if item.turns and within is None:
        shapes |= {(w, l) for l, w in shapes}
    found = [
        offer
        for length, width in sorted(shapes)
        for offer in _offers(stock, bin_, item.id, length, item.care, _exactly(width), within)
    ]
    bin_.offers[key] = best = min(found, key=lambda o: o.score, default=None)
    return best


def key_of(item: Item) -> Alike:
    """Equal for items that a bin has the same place for."""
    return item.length, item.width, item.care, item.turns, item.places


def labelled(offer: Offer, want: int) -> Offer:
    """The offer as for that want."""
    spot = offer.spot
    return offer if spot.want == want else offer._replace(spot=spot._replace(want=want))


def panel_offer(stock: Stock, bin_: Bin, panel: Panel, widths: Widths, key: Alike) -> Offer | None:
    """The place for one more strip of a panel that wastes least for the width it adds, or None.

    `widths`: see `strip_widths`; the bin remembers the place under `key`.
    """
    extra = panel.extra
    within = runs_of(panel.places, bin_.stock)
    found = _offers(stock, bin_, panel.id, panel.length, panel.care, widths, within)
    best = min(found, key=lambda o: o.score / (o.spot.width - extra), default=None)
    if best is not None:
        best = best._replace(score=best.score / (best.spot.width - extra))
    bin_.offers[key] = best
    return best


def strip_widths(panel: Panel, have: int, count: int, widest: int, kerf: int) -> Widths:
    """How much of a given room the next strip of a panel takes.

    An even share of what the panel still wants; all of the room where what would be left beside it is of
    no use, or where the room is narrower than that share. Never so much or so little that the strips still
    to come could not make up the rest. Each room is worked out once.

    `have`: width reached by the `count` strips so far.
    """
    rest = panel.need - have
    ahead = range(max(panel.counts[0] - count, 1), panel.counts[1] - count + 1)
    ranges: list[tuple[int, int]] = []
    for left in ahead:
        low, high = _feasible(panel, rest, left, min(panel.most, widest))
        if low <= high:
            ranges.append((low, high))
        if low == panel.least:
            break  # with more strips still to come the range only shrinks within this one
    even = next((-(-rest // left) for left in ahead if -(-rest // left) <= panel.most), panel.most)

    @cache
    def taken(room: int) -> int:
        space = room - panel.extra
        beside = space - even - kerf
        wish = even if beside >= panel.least + panel.extra else min(space, even * 5 // 4)
        options = [max(low, min(wish, high, space)) for low, high in ranges if low <= space]
        best = min(options, key=lambda width: abs(width - wish), default=0)
        return best + panel.extra if best else 0

    return taken


def _feasible(panel: Panel, rest: int, left: int, most: int) -> tuple[int, int]:
    """Least and most width of a strip when `left` strips, this one included, must make up the rest.

    Strips of the least width may make up more than the rest.
    """
    low = max(rest - (left - 1) * panel.most, panel.least)
    return low, min(max(rest - (left - 1) * panel.least, panel.least), most)


def _exactly(width: int) -> Widths:
    return lambda room: width if room >= width else 0


def _offers(
    stock: Stock, bin_: Bin, want: int, length: int, care: int, widths: Widths, within: Runs | None
) -> Iterator[Offer]:
    for number, segment in enumerate(bin_.segments):
        if segment.x1 - segment.x0 >= length:
            yield from _in_strips(stock, segment, number, want, length, care, widths, within)
            yield from _in_segment(stock, segment, number, want, length, care, widths, within)
    yield from _in_bin(stock, bin_, want, length, care, widths, within)


def _in_strips(
    stock: Stock,
    segment: Segment,
    number: int,
    want: int,
    length: int,
    care: int,
    widths: Widths,
    within: Runs | None,
) -> Iterator[Offer]:
    slack = wander(stock, segment.x1 - segment.x0)
    for index, strip in enumerate(segment.strips):
        room = strip.y1 - strip.y0
        width = widths(room)
        if not width:
            continue
        for run in free_runs(stock, segment, strip):
            for x in starts(stock, run, length, care, within):
                bars = bars_over(stock, x, _reach(stock, run, x, length), care, slack)
                if any(b.y0 < strip.y0 + width and b.y1 > strip.y0 for b in bars):
                    continue
                left = run[1] - run[0] - length
                waste = (room - width) * length + (0.5 * left * room if left < stock.keep[0] else 0)
                spot = Spot(want, x, strip.y0, length, width)
                yield Offer(stock.rate * (length * width + waste), spot, number, index)
                break


def _in_segment(
    stock: Stock,
    segment: Segment,
    number: int,
    want: int,
    length: int,
    care: int,
    widths: Widths,
    within: Runs | None,
) -> Iterator[Offer]:
    whole = segment.x1 - segment.x0
    slack = wander(stock, whole)
    run = (segment.x0, segment.x1)
    for band in free_widths(stock, segment):
        if not widths(band[1] - band[0]):
            continue
        for x in starts(stock, run, length, care, within):
            bars = bars_over(stock, x, _reach(stock, run, x, length), care, slack)
            spot = _first_fit(stock, band, bars, want, x, length, widths)
            if spot is None:
                continue
            beside = band[1] - band[0] - spot.width
            waste = _TAIL * (whole - length) * spot.width + (beside * whole if beside < _SLIVER else 0)
            waste += (spot.y - band[0]) * whole
            yield Offer(stock.rate * (length * spot.width + waste), spot, number)
            break


def _in_bin(
    stock: Stock, bin_: Bin, want: int, length: int, care: int, widths: Widths, within: Runs | None
) -> Iterator[Offer]:
    band = margins(stock, length)
    if not widths(band[1] - band[0]):
        return
    slack = wander(stock, length)
    fresh = 0.0 if bin_.segments else _FRESH * stock.length * stock.width
    for run in free_lengths(stock, bin_.segments):
        for x in starts(stock, run, length, care, within):
            bars = bars_over(stock, x, _reach(stock, run, x, length), care, slack)
            spot = _first_fit(stock, band, bars, want, x, length, widths)
            if spot is None:
                continue
            beside = stock.width - spot.width
            left = run[1] - x - length
            waste = (1.0 if beside < _SLIVER else _TAIL) * beside * length + (x - run[0]) * stock.width
            waste += 0.5 * left * stock.width if left < stock.keep[0] else 0
            yield Offer(stock.rate * (length * spot.width + waste + fresh), spot)
            break


def _first_fit(
    stock: Stock,
    band: tuple[int, int],
    bars: list[Barred],
    want: int,
    x: int,
    length: int,
    widths: Widths,
) -> Spot | None:
    for low, high in clear_bands(stock, band, bars):
        width = widths(high - low)
        # Less than a kerf left over stays on the piece, so nothing barred may lie in it.
        if width and (high == band[1] or band[1] - low - width >= stock.kerf_along):
            return Spot(want, x, low, length, width)
    return None


def _reach(stock: Stock, run: tuple[int, int], x: int, length: int) -> int:
    """Where a piece starting at x will end: less than a kerf left of the run stays on it."""
    return run[1] if run[1] - x - length < stock.kerf_across else x + length
