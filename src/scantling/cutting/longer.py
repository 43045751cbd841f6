"""Looking longer: the ways parts are made and the boards they come from are settled together, with a bound.

The quick plan tries one choice of ways after another. Here every way of every part is in one program with
all boards (`solver.master`); it proves how little money and wood any plan needs, and improves the plan board
by board.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.master import Aim, Merged, Plan, attainable, improved, merged, plan_of, root
from scantling.cutting.solver.problem import SCALE, Choice, Item, Panel, Problem
from scantling.cutting.solver.search import Key, Search
from scantling.cutting.wants import Group, group_of
from scantling.cutting.ways import Answer, Chooser

_MONEY = 20.0  # times wood used up that money weighs: less to buy comes first
_WOOD = 1 / SCALE**2
_STEPS = 8  # neighbourhoods tried for each second asked for: what a slow machine does in about that time


def looked_longer(chooser: Chooser, quick: Answer, seconds: float, until: float) -> Answer:
    """The best answer found, no worse than the quick one, with what is proven of its money and weight."""
    if quick.filling.unmet:
        return quick
    posed = _Posed(chooser)
    spent = quick.filling.cost[1]
    aim = Aim(_MONEY if spent else 0.0, _WOOD, 1.0, spent)
    start = posed.plan(quick, aim)
    top = root(posed.merged, aim, start.bins, until)
    found = improved(top, [start], round(_STEPS * seconds), chooser.seed, until)
    best = min(quick, posed.answer(found), key=_aim)
    met = top.relaxed.columns
    if not spent:
        return replace(best, least_weight=top.bound)
    least = root(posed.merged, Aim(0.0, _WOOD, 1.0, best.filling.cost[1]), met, until).bound
    return replace(best, proven=posed.least_money(met, until), least_weight=least)


def _aim(answer: Answer) -> tuple[int, float]:
    """Nothing missing, then money and weight."""
    short, money, *_ = answer.filling.cost
    return short, _MONEY * money + answer.weight


@dataclass
class _Posed:
    """All the ways of a chooser's parts in one problem, and its plans as answers."""

    chooser: Chooser

    def __post_init__(self) -> None:
        self._open = [number for number, ways in enumerate(self.chooser.open) if len(ways) > 1]
        self.merged: Merged = merged(self._problem())

    def plan(self, answer: Answer, aim: Aim) -> Plan:
        """An answer's bins as a plan."""
        ways = {need.part: way for need, way in answer.chosen}
        chosen = {}
        for number, kind in enumerate(self._open):
            need = self.chooser.kinds[kind][0]
            options = [self.chooser.ways[need.part][way] for way in self.chooser.open[kind]]
            chosen[number] = options.index(ways[need.part])
        problem = answer.group.problem
        classes = {want.id: self.merged.class_of(want) for want in problem.wants}
        bins = [_renamed(b, lambda spot: classes[spot.want]) for b in answer.filling.bins.values()]
        made = plan_of(self.merged, aim, chosen, bins)
        assert made is not None
        return made

    def answer(self, plan: Plan) -> Answer:
        """A plan's bins as an answer."""
        choice = [ways[0] for ways in self.chooser.open]
        for number, kind in enumerate(self._open):
            choice[kind] = self.chooser.open[kind][plan.chosen[number]]
        answer = self.chooser.started(tuple(choice))
        search = Search(answer.group.problem, self.chooser.seed)
        return replace(
            answer, filling=search.resume(_keyed(answer.group, _named(plan, self.merged, answer.group)))
        )

    def least_money(self, bins: Iterable[Bin], until: float) -> float:
        """Money that must be spent whichever way parts are made."""
        least = root(self.merged, Aim(1.0, 0.0, 0.0), bins, until).bound
        return attainable(least, (stock.money for stock in self.merged.problem.stocks))

    def _problem(self) -> Problem:
        self._items: list[Item] = []
        self._panels: list[Panel] = []
        kinds = list(enumerate(self.chooser.kinds))
        self._taken([(kind, self.chooser.open[kind][0]) for kind, _ in kinds if kind not in self._open])
        choices = tuple(
            Choice(
                tuple(self._taken([(kind, way)]) for way in self.chooser.open[kind]),
                tuple(self.chooser.against(kind, way) for way in self.chooser.open[kind]),
            )
            for kind in self._open
        )
        stocks = tuple(source.bin for source in self.chooser.sources)
        return Problem(stocks, tuple(self._items), tuple(self._panels), choices=choices)

    def _taken(self, kinds: list[tuple[int, int]]) -> frozenset[int]:
        """The wants of some kinds of parts, each made in the way of that number."""
        pairs = [
            (need, self.chooser.ways[need.part][way])
            for kind, way in kinds
            for need in self.chooser.kinds[kind]
        ]
        problem = group_of(pairs, self.chooser.sources, self.chooser.means).problem
        first = len(self._items) + len(self._panels)
        items = [replace(item, id=first + n) for n, item in enumerate(problem.items)]
        panels = [replace(panel, id=first + len(items) + n) for n, panel in enumerate(problem.panels)]
        self._items += items
        self._panels += panels
        return frozenset(range(first, first + len(items) + len(panels)))


def _named(plan: Plan, merged: Merged, group: Group) -> Iterator[Bin]:
    """Bins of wants from bins of classes: every want in one place, strips shared out among panels alike."""
    items: dict[int, list[int]] = defaultdict(list)
    panels: dict[int, list[_Wanting]] = defaultdict(list)
    for item in group.problem.items:
        items[merged.class_of(item)].append(item.id)
    for panel in group.problem.panels:
        panels[merged.class_of(panel)].append(_Wanting(panel.id, panel.need, panel.counts[1]))
    extra = {merged.class_of(p): p.extra for p in group.problem.panels}

    def want(spot: Spot) -> int:
        if spot.want in items:
            return items[spot.want].pop()
        neediest = max(panels[spot.want], key=lambda p: (p.strips > 0, p.need))
        neediest.need -= spot.width - extra[spot.want]
        neediest.strips -= 1
        return neediest.id

    return (_renamed(bin_, want) for bin_ in plan.bins)


@dataclass
class _Wanting:
    """What a panel still lacks."""

    id: int
    need: int
    strips: int


def _renamed(bin_: Bin, want: Callable[[Spot], int]) -> Bin:
    segments = tuple(
        Segment(
            segment.x0,
            segment.x1,
            tuple(
                Strip(strip.y0, strip.y1, tuple(spot._replace(want=want(spot)) for spot in strip.spots))
                for strip in segment.strips
            ),
        )
        for segment in bin_.segments
    )
    return Bin(bin_.stock, bin_.copy, segments)


def _keyed(group: Group, bins: Iterable[Bin]) -> dict[Key, Bin]:
    keyed: dict[Key, Bin] = {}
    copies: dict[int, int] = defaultdict(int)
    for bin_ in bins:
        pool = group.problem.stocks[bin_.stock].pool
        keyed[(pool, copies[pool])] = Bin(bin_.stock, copies[pool], bin_.segments)
        copies[pool] += 1
    return keyed
