"""From a bin priced as if a want might lie in it any number of times to one that gives what is asked for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping

from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip, put
from scantling.cutting.solver.offers import item_offer, key_of
from scantling.cutting.solver.pattern import Worth
from scantling.cutting.solver.problem import Item, Panel, Problem, runs_of


def well_placed(problem: Problem, made: Bin) -> Bin:
    """The bin without what lies where it may not, and strips no wider than they may be there."""
    wants: dict[int, Item | Panel] = {
        w.id: w for w in problem.wants if runs_of(w.places, made.stock) is not None
    }
    if not wants:
        return made

    def kept(spot: Spot) -> Spot | None:
        want = wants.get(spot.want)
        if want is None:
            return spot
        if not _may_lie(want, made.stock, spot):
            return None
        most = want.widest_on(made.stock) + want.extra if isinstance(want, Panel) else want.width
        return spot._replace(width=min(spot.width, most))

    return _kept(made, kept)


def _may_lie(want: Item | Panel, stock: int, spot: Spot) -> bool:
    runs = runs_of(want.places, stock) or ()
    return spot.length == want.length and any(low <= spot.x <= high for low, high in runs)


def heeding(problem: Problem, most: Mapping[int, int], made: Bin) -> Bin:
    """The bin without more of a want than asked for."""
    left = dict(most)
    panels = {p.id: p for p in problem.panels}
    need = {p.id: p.need for p in problem.panels}
    for panel in problem.panels:
        left[panel.id] = min(left.get(panel.id, 0), panel.counts[1])

    def kept(spot: Spot) -> Spot | None:
        panel = panels.get(spot.want)
        if left.get(spot.want, 0) <= 0:
            return None
        if panel is not None and need[panel.id] <= 0:
            return None
        left[spot.want] -= 1
        if panel is None:
            return spot
        useful = max(min(spot.width - panel.extra, need[panel.id]), panel.least)
        need[panel.id] -= useful
        return spot._replace(width=useful + panel.extra)

    return _kept(made, kept)


def filled(
    problem: Problem, most: Mapping[int, int], made: Bin, worth: Worth, earns: Callable[[Bin], float]
) -> Bin:
    """The bin with further items put where there is room, those that earn most by their area first.

    `earns`: what a bin earns in all; an item that spoils more of a leftover than it earns stays out.
    """
    there = Counter(s.want for s in made.spots)
    fitting = [i for i in problem.items if made.stock in i.fits and worth.item.get(i.id, 0.0) > 0]
    for item in sorted(fitting, key=lambda i: -worth.item[i.id] / (i.length * i.width)):
        for _ in range(most.get(item.id, 0) - there[item.id]):
            more = _with_one(problem, made, item)
            if more is None or (worth.wood and earns(more) <= earns(made)):
                break
            made = more
    return made


def _with_one(problem: Problem, made: Bin, item: Item) -> Bin | None:
    offer = item_offer(problem.stocks[made.stock], made, item, key_of(item))
    return None if offer is None else put(made, offer)


def _kept(made: Bin, kept: Callable[[Spot], Spot | None]) -> Bin:
    segments = []
    for segment in made.segments:
        strips = []
        for strip in segment.strips:
            spots = tuple(s for s in map(kept, strip.spots) if s is not None)
            if spots:
                strips.append(Strip(strip.y0, strip.y1, spots))
        if strips:
            segments.append(Segment(segment.x0, segment.x1, tuple(strips)))
    return Bin(made.stock, made.copy, tuple(segments))
