"""Where along a board told at stations a blank may lie, in the solver's terms.

What a longer piece over the same place loses is no less, so a stretch of starts is open where one piece over
all of it is flat enough, and closed where what all of its pieces share is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, partial

from scantling.cutting.cut_plan import Way
from scantling.cutting.milling import Means, Timber, thickness_left, thickness_lost
from scantling.cutting.solver.problem import SCALE, Runs, down, up
from scantling.cutting.supply import Source

_HAIR = 1e-6
_STEP = 5.0  # mm: no finer between a place that is flat enough and one that is not
_WIDTHS = 4  # steps between the narrowest stave of a panel and the widest


def runs_on(source: Source, length: float, width: float, thickness: float, means: Means) -> Runs | None:
    """Where a blank of these rough sizes may start on a board told at stations; None: anywhere, or nowhere.

    Up to a kerf each way may stay on it.
    """
    if source.timber is None or not source.timber.stations:
        return None
    ends = source.bin.ends
    span = (ends[0] / SCALE, source.length - ends[1] / SCALE - length)
    size = (length + source.across.kerf, width + source.along.kerf)
    return _runs(source.timber, *size, thickness - _HAIR, means, *span)


@lru_cache(maxsize=4096)
def _runs(
    timber: Timber, length: float, width: float, thickness: float, means: Means, low: float, high: float
) -> Runs:
    def is_flat(start: float, end: float) -> bool:
        lost = thickness_lost(timber, end - start, width, start)
        return thickness_left(timber, length, width, lost, means) >= thickness

    def opened(a: float, b: float) -> Iterator[tuple[float, float]]:
        if is_flat(a, min(b + length, timber.length)):
            yield a, b
        elif b - a > _STEP and (b >= a + length or is_flat(b, min(a + length, timber.length))):
            yield from opened(a, (a + b) / 2)
            yield from opened((a + b) / 2, b)

    joined: list[tuple[int, int]] = []
    for a, b in opened(low, high) if low <= high else ():
        start, end = up(a), down(b)
        if joined and start <= joined[-1][1] + 1:
            joined[-1] = joined[-1][0], end
        elif start <= end:
            joined.append((start, end))
    return tuple(joined)


def staves_on(
    source: Source, way: Way, length: float, extra: float, means: Means
) -> tuple[float, float, Runs]:
    """Greatest useful stave width a board told at stations has a place for; the width that makes most of it,
    and where along it staves no wider may start: narrower ones may lie in more places.
    """
    least, most = way.stave[0], min(way.stave[1], source.width - extra - source.along.kerf)
    tried = [least + (most - least) * n / _WIDTHS for n in range(_WIDTHS + 1)] if most > least else [least]
    runs = partial(runs_on, source, length, thickness=way.thickness, means=means)
    found = [(width, runs(width=width + extra) or ()) for width in tried if width <= most]
    pitch = up(length + source.across.kerf)
    best = max(found, key=lambda each: (each[0] * _pieces(each[1], pitch), each[0]), default=(0.0, ()))
    widest = max((width for width, where in found if where), default=0.0)
    return (widest, *best) if best[1] else (0.0, 0.0, ())


def _pieces(runs: Runs, pitch: int) -> int:
    """How many pieces may lie one after another where starts are open."""
    count, free = 0, 0
    for low, high in runs:
        first = max(low, free)
        more = (high - first) // pitch + 1 if first <= high else 0
        count, free = count + more, first + more * pitch if more else free
    return count
