"""One bin while it is being filled: crosscut segments, strips ripped from them, blanks along a strip.

Every state is immutable; putting something in gives a new one, so a search can go back for nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from scantling.cutting.solver.problem import Barred, Runs, Stock


class Spot(NamedTuple):
    """An item (or a strip for a panel) lying at x, y."""

    want: int
    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class Strip:
    y0: int
    y1: int
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Segment:
    x0: int
    x1: int
    strips: tuple[Strip, ...]


class Offer(NamedTuple):
    """A place found for a want: `score` is the value it uses up, waste it causes included.

    `segment`, `strip`: indices of those it joins, -1 for a new one.
    """

    score: float
    spot: Spot
    segment: int = -1
    strip: int = -1


Alike = tuple[object, ...]  # of a want that may lie there, equal for those with the same place
Offers = dict[Alike, Offer | None]


@dataclass(frozen=True)
class Bin:
    """A bin of stock number `stock`, copy number `copy`.

    `offers` remembers answers already worked out; bins of one stock that are cut up alike may share them.
    """

    stock: int
    copy: int
    segments: tuple[Segment, ...] = ()
    offers: Offers = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        return tuple(p for g in self.segments for s in g.strips for p in s.spots)

    @cached_property
    def strip_widths(self) -> dict[int, tuple[int, int]]:
        """For every want: width of all that lies here of it, and in how many places."""
        found: dict[int, tuple[int, int]] = {}
        for spot in self.spots:
            width, count = found.get(spot.want, (0, 0))
            found[spot.want] = (width + spot.width, count + 1)
        return found


def put(bin_: Bin, offer: Offer) -> Bin:
    """The bin with the offer taken."""
    spot = offer.spot
    if offer.segment < 0:
        made = Segment(spot.x, spot.x + spot.length, (Strip(spot.y, spot.y + spot.width, (spot,)),))
        return Bin(bin_.stock, bin_.copy, tuple(sorted((*bin_.segments, made), key=lambda g: g.x0)))
    segment = bin_.segments[offer.segment]
    changed = Segment(segment.x0, segment.x1, _with_spot(segment, offer))
    segments = (*bin_.segments[: offer.segment], changed, *bin_.segments[offer.segment + 1 :])
    return Bin(bin_.stock, bin_.copy, segments)


def _with_spot(segment: Segment, offer: Offer) -> tuple[Strip, ...]:
    spot = offer.spot
    if offer.strip < 0:
        made = Strip(spot.y, spot.y + spot.width, (spot,))
        return tuple(sorted((*segment.strips, made), key=lambda s: s.y0))
    strip = segment.strips[offer.strip]
    longer = Strip(strip.y0, strip.y1, tuple(sorted((*strip.spots, spot), key=lambda p: p.x)))
    return (*segment.strips[: offer.strip], longer, *segment.strips[offer.strip + 1 :])


def without(bin_: Bin, wants: frozenset[int]) -> Bin:
    """The bin with some wants taken out; strips and segments left empty go too."""
    segments = []
    for segment in bin_.segments:
        strips = []
        for strip in segment.strips:
            spots = tuple(p for p in strip.spots if p.want not in wants)
            if spots:
                strips.append(Strip(strip.y0, strip.y1, spots))
        if strips:
            segments.append(Segment(segment.x0, segment.x1, tuple(strips)))
    return Bin(bin_.stock, bin_.copy, tuple(segments))


def margins(stock: Stock, length: int) -> tuple[int, int]:
    """Usable y range of a straight-edged segment of that length: the edges and half its crook each side."""
    bent = wander(stock, length)
    low, high = stock.edges[0] + bent, stock.edges[1] + bent
    return (max(low, stock.kerf_along) if low else 0), stock.width - high


def wander(stock: Stock, length: int) -> int:
    """How far the edge of a bent segment strays from its straightened line, either way."""
    if not stock.crook:
        return 0
    return -(-stock.crook * length * length // (2 * stock.length * stock.length))


def free_lengths(stock: Stock, segments: tuple[Segment, ...]) -> list[tuple[int, int]]:
    """Stretches of the bin not yet crosscut, end waste and kerf taken off."""
    start = max(stock.ends[0], stock.kerf_across) if stock.ends[0] else 0
    free = []
    for segment in segments:
        if segment.x0 - stock.kerf_across > start:
            free.append((start, segment.x0 - stock.kerf_across))
        start = segment.x1 + stock.kerf_across
    if stock.length - stock.ends[1] > start:
        free.append((start, stock.length - stock.ends[1]))
    return free


def free_widths(stock: Stock, segment: Segment) -> list[tuple[int, int]]:
    """Bands of a segment not yet ripped into strips, crook and kerf taken off."""
    start, end = margins(stock, segment.x1 - segment.x0)
    free = []
    for strip in segment.strips:
        if strip.y0 - stock.kerf_along > start:
            free.append((start, strip.y0 - stock.kerf_along))
        start = strip.y1 + stock.kerf_along
    if end > start:
        free.append((start, end))
    return free


def free_runs(stock: Stock, segment: Segment, strip: Strip) -> list[tuple[int, int]]:
    """Stretches of a strip with nothing on them, kerf taken off."""
    start = segment.x0
    free = []
    for spot in strip.spots:
        if spot.x - stock.kerf_across > start:
            free.append((start, spot.x - stock.kerf_across))
        start = spot.x + spot.length + stock.kerf_across
    if segment.x1 > start:
        free.append((start, segment.x1))
    return free


def starts(
    stock: Stock, run: tuple[int, int], length: int, care: int, within: Runs | None = None
) -> list[int]:
    """Where along a run an item may begin: at its start, or just past something barred.

    `within`: the stretches in which it may at all, else anywhere; then at the start of each too.
    """
    low, high = run
    last = high - length
    if low > last:
        return []
    if within is not None:
        return _starts_within(stock, run, last, care, within)
    if not stock.against[care]:
        return [low]
    past = {max(bar.x1, low + stock.kerf_across) for bar in stock.against[care] if low < bar.x1 <= last}
    return [low, *sorted(x for x in past if low < x <= last)] if past else [low]


def _starts_within(stock: Stock, run: tuple[int, int], last: int, care: int, within: Runs) -> list[int]:
    low = run[0]
    free = low + stock.kerf_across
    past = {max(bar.x1, free) for bar in stock.against[care] if low < bar.x1 <= last}
    opened = {max(first, free) for first, _ in within if first > low}
    tried = {low} | past | opened
    return sorted(x for x in tried if x <= last and any(first <= x <= end for first, end in within))


def bars_over(stock: Stock, x0: int, x1: int, care: int, slack: int) -> list[Barred]:
    """What is barred within x0..x1, widened by `slack` across (the edge of a bent segment wanders)."""
    if not stock.against[care]:
        return []
    return [
        Barred(b.x0, b.x1, b.y0 - slack, b.y1 + slack, b.level)
        for b in stock.against[care]
        if b.x0 < x1 and b.x1 > x0
    ]


def clear_bands(stock: Stock, band: tuple[int, int], bars: list[Barred]) -> list[tuple[int, int]]:
    """Parts of a band that nothing barred touches; past a bar there must be room for the kerf."""
    if not bars:
        return [band]
    clear = []
    start = band[0]
    for bar in sorted(bars, key=lambda b: (b.y0, b.y1)):
        if bar.y0 > start:
            clear.append((start, min(bar.y0, band[1])))
        if bar.y1 > start:
            start = max(bar.y1, band[0] + stock.kerf_along)
        if start >= band[1]:
            return clear
    clear.append((start, band[1]))
    return clear
