"""The recipe: demand → groups that compete for stock → filled bins → boards with numbered cuts."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import (
    Blank,
    CutPlan,
    Demand,
    GlueUp,
    Need,
    Role,
    StockLayout,
    Unheeded,
    Unmet,
    Way,
)
from scantling.cutting.demand import demand_of
from scantling.cutting.keeping import Keeping, as_before
from scantling.cutting.layout import areas_of, stock_layout
from scantling.cutting.milling import Means, means_of
from scantling.cutting.rack import Rack, rack_left
from scantling.cutting.report import plan_notes, unmet, unmet_panel
from scantling.cutting.sheets import is_of_sheets, sheet_answer, sheet_effort
from scantling.cutting.solver.problem import SCALE, Problem
from scantling.cutting.solver.search import Search
from scantling.cutting.sticks import effort, is_of_sticks, stick_answer
from scantling.cutting.supply import Source, singled_out, sources_for
from scantling.cutting.wants import blank_of, fits, with_widths
from scantling.cutting.ways import Answer, Chooser
from scantling.cutting.wishes import crowded_out, heeded, placed
from scantling.joinery.features import MachinedPiece
from scantling.piece.model import MaterialKind
from scantling.shop.model import Machine, Shop

_EFFORT = 6000  # places taken for each second asked for: what a slow machine does in about that time
LONG = 5.0  # seconds from which boards are looked at longer
_QUICK = 1.0  # seconds of those for the first plan
_FEW_STICKS = 60  # up to here the search for boards finds most plans at once
_FEW_SHEET_PARTS = 8  # up to here the search for boards finds the best offcuts as often
_ALSO_SEARCHED = 3  # so much less it tries beyond
_ONLY_OFFCUTS = 4  # so much less is tried where money cannot be saved
_RUNAWAY = 8.0  # times the seconds asked for (and one) at which the clock stops the search after all


def cut_plan(
    machined: MachinedPiece,
    shop: Shop,
    *,
    seed: int = 0,
    seconds: float = 1.0,
    before: CutPlan | None = None,
) -> CutPlan:
    """A guillotine plan for every part on the shop's stock: owned first, then for the least money.

    The piece's build record is followed: boards left alone and cut up, blanks made and spoiled, parts wanted
    from certain boards; what cannot be followed is told in `unheeded`.

    `seconds` sets how much is tried (a count, so that the same input gives the same plan anywhere);
    `seed` which of equally promising tries come first. `before`: a plan some of which may be marked out
    already; as many blanks as can be stay on their boards, if that costs no money.
    """
    rack = rack_left(shop, machined.piece.record, machined.piece.unit)
    return plan_on(rack, machined, shop, seed=seed, seconds=seconds, before=before)


def plan_on(
    rack: Rack,
    machined: MachinedPiece,
    shop: Shop,
    *,
    seed: int = 0,
    seconds: float = 1.0,
    before: CutPlan | None = None,
) -> CutPlan:
    """As `cut_plan`, on a rack already worked out; `shop` lists all there is."""
    record = machined.piece.record
    left = replace(rack.shop, unit=machined.piece.unit)  # notes in the piece's unit
    demand = demand_of(machined, left)
    stock = _Stock(left, rack.gone)
    heard = [heeded(n, stock.of(n), shop, left, record, means_of(shop.machines)) for n in demand.needs]
    told = (*rack.unheeded, *demand.unheeded, *(each for _, unheeded in heard for each in unheeded))
    demand = replace(demand, needs=tuple(need for need, _ in heard), unheeded=told)
    plan = _planned(demand, stock, seed, seconds, before)
    return replace(plan, unheeded=tuple(placed(plan.unheeded, record)))


def plan_demand(demand: Demand, shop: Shop, *, seed: int = 0, seconds: float = 1.0) -> CutPlan:
    """As `cut_plan`, from a demand already worked out."""
    return _planned(demand, _Stock(shop, {}), seed, seconds, None)


@dataclass
class _Stock:
    """What the rack and the yard have for each need; `gone` as of `Rack`."""

    shop: Shop
    gone: Mapping[str, frozenset[int]]
    _known: dict[tuple[MaterialKind, str, str, float | None], tuple[Source, ...]] = field(
        default_factory=dict
    )

    def of(self, need: Need) -> tuple[Source, ...]:
        """Stock of its material; what it names by number stands alone."""
        key = (need.kind, need.species, need.material, need.label)
        if key not in self._known:
            self._known[key] = sources_for(need, self.shop)
        return singled_out(self._known[key], self.gone, need.only)

    def groups(self, needs: Sequence[Need]) -> list[tuple[tuple[Source, ...], tuple[Need, ...]]]:
        """Needs that compete for the same stock."""
        groups: dict[tuple[MaterialKind, tuple[str, ...]], list[Need]] = {}
        for need in needs:
            key = (need.kind, tuple(dict.fromkeys(source.id for source in self.of(need))))
            groups.setdefault(key, []).append(need)
        return [(self._for(mine), tuple(mine)) for mine in groups.values()]

    def _for(self, needs: Sequence[Need]) -> tuple[Source, ...]:
        names = [name for need in needs for name in need.only]
        return self.of(replace(needs[0], only=tuple(names)))


def _planned(demand: Demand, stock: _Stock, seed: int, seconds: float, before: CutPlan | None) -> CutPlan:
    groups = stock.groups(demand.needs)
    share = seconds * _EFFORT / max(len(demand.needs), 1)
    answers: list[Answer] = []
    unheeded = list(demand.unheeded)
    for sources, needs in groups:
        if sources:
            ask = _Ask(sources, stock.shop.machines, seed, int(share * len(needs)), seconds, before)
            answer, crowded = _heeding(needs, ask)
            answers.append(answer)
            unheeded += crowded
    missing = [need for sources, needs in groups if not sources for need in needs]
    plan = _plan(replace(demand, unheeded=tuple(unheeded)), answers, missing, stock.shop)
    return plan if before is None else as_before(plan, before)


@dataclass(frozen=True)
class _Ask:
    """All that a group's answer depends on, but for its needs."""

    sources: tuple[Source, ...]
    machines: tuple[Machine, ...]
    seed: int
    effort: int
    seconds: float
    before: CutPlan | None


def _heeding(needs: tuple[Need, ...], ask: _Ask) -> tuple[Answer, list[Unheeded]]:
    """The answer with as many wishes met as there is room for."""
    dropped: list[Need] = []
    while True:
        answer = _solved(needs, ask)
        lacking = answer.parts_lacking
        lost = [need for need in needs if need.only and need.part in lacking]
        if not lost:
            return answer, [crowded_out(n, [*needs, *dropped]) for n in dropped if not _lies_among(n, answer)]
        dropped += lost
        needs = tuple(replace(need, only=()) if need in lost else need for need in needs)


def _lies_among(need: Need, answer: Answer) -> bool:
    """Whether all of a part lies on the stock it names after all."""
    wants = {n for n, want in answer.group.wants.items() if any(b.part == need.part for b in want.blanks)}
    wants |= {number for number, (panel, _) in answer.group.panels.items() if panel.part == need.part}
    bins = [b for b in answer.filling.bins.values() if any(spot.want in wants for spot in b.spots)]
    return bool(bins) and all(answer.group.sources[b.stock].is_among(need.only) for b in bins)


@lru_cache(maxsize=64)
def _solved(needs: tuple[Need, ...], ask: _Ask) -> Answer:
    """The best filling found; remembered, for an edit seldom touches every group of a piece."""
    until = time.monotonic() + _RUNAWAY * (1 + ask.seconds)
    means = means_of(ask.machines)
    if ask.before is None:
        return _fresh(needs, ask, means, until)
    keeping = Keeping(needs, ask.sources, means, ask.before, ask.seed, ask.effort // 4, until)
    kept = keeping.answer({})
    if kept is not None and kept.is_all_for(least_money(needs, ask.sources)):
        return kept
    fresh = _fresh(needs, ask, means, until)
    lacking = kept.parts_lacking if kept is not None else set()
    others = {need.part: way for need, way in fresh.chosen if need.part in lacking}
    again = keeping.answer(others) if others else None
    best = min((each for each in (kept, again, fresh) if each), key=lambda each: each.filling.cost[:2])
    same = best.filling.cost[:2] == fresh.filling.cost[:2]
    return replace(best, proven=fresh.proven, least_weight=fresh.least_weight if same else 0.0)


def _fresh(needs: tuple[Need, ...], ask: _Ask, means: Means, until: float) -> Answer:
    """As if nothing were marked out yet; sticks to a proven end where a quick plan is not proven best, sheets
    as the better of two searches has them.
    """
    if is_of_sheets(needs, ask.sources):
        return _of_sheets(needs, ask, means, until)
    if ask.seconds >= LONG and needs[0].kind is MaterialKind.SOLID:
        return _longer(needs, ask, means, until)
    of_sticks = is_of_sticks(needs, ask.sources)
    if not of_sticks or len(needs) <= _FEW_STICKS:
        quick = Chooser(needs, ask.sources, means, ask.seed, ask.effort, until).answer()
        if not of_sticks or quick.is_all_for(least_money(needs, ask.sources)):
            return quick
    proven = stick_answer(needs, ask.sources, means, effort(ask.seed, ask.seconds, until))
    return proven or Chooser(needs, ask.sources, means, ask.seed, ask.effort, until).answer()


def _of_sheets(needs: tuple[Need, ...], ask: _Ask, means: Means, until: float) -> Answer:
    tried = ask.effort if len(needs) <= _FEW_SHEET_PARTS else ask.effort // _ALSO_SEARCHED
    quick = Chooser(needs, ask.sources, means, ask.seed, tried, until).answer()
    seconds = ask.seconds / (_ONLY_OFFCUTS if quick.is_all_for(least_money(needs, ask.sources)) else 1)
    other = sheet_answer(needs, ask.sources, means, sheet_effort(ask.seed, seconds, until))
    if other is None:
        return quick
    better = min(quick, other, key=lambda answer: answer.filling.cost)
    return replace(better, proven=other.proven)


def _longer(needs: tuple[Need, ...], ask: _Ask, means: Means, until: float) -> Answer:
    from scantling.cutting.longer import looked_longer

    chooser = Chooser(needs, ask.sources, means, ask.seed, int(_EFFORT * _QUICK), until)
    return looked_longer(chooser, chooser.answer(), ask.seconds, until)


def _plan(demand: Demand, answers: list[Answer], missing: list[Need], shop: Shop) -> CutPlan:
    blanks: list[Blank] = []
    layouts: list[StockLayout] = []
    glue_ups: list[GlueUp] = list(demand.glue_ups)
    unmets = [unmet(blank_of(n, n.ways[0], 1, 1, n.ways[0].width, ""), (), shop) for n in missing]
    bound = 0.0
    for answer in answers:
        made, boards, glued, lacking = _told(answer, demand.made, shop)
        blanks += made
        layouts += boards
        glue_ups += glued
        unmets += lacking
        lacks = {u.blank.part for u in lacking}
        met = [n for n, _ in answer.chosen if n.part not in lacks]
        bound += max(least_money(met, answer.group.sources), answer.proven)
    money = round(sum(l.price for l in layouts if l.bought), 2)
    weight, weight_bound = _weight(answers)
    order = {need.part: number for number, need in enumerate(demand.needs)}
    last = len(order)
    used = {s.id: s for a in answers for s in a.group.sources}
    return CutPlan(
        blanks=tuple(sorted(blanks, key=lambda b: (order[b.part], b.index))),
        layouts=tuple(layouts),
        glue_ups=tuple(sorted(glue_ups, key=lambda g: order.get(g.part, last))),
        unmet=tuple(unmets),
        areas=areas_of(tuple(layouts)),
        money=money,
        bound=math.floor(bound * 100 + 1e-6) / 100,
        board_feet=round(sum(used[l.stock.split("#")[0]].board_feet for l in layouts), 2),
        status=_status(unmets, money, bound),
        notes=(*demand.notes, *plan_notes(layouts, blanks, shop)),
        made=demand.made,
        unheeded=demand.unheeded,
        weight=weight,
        weight_bound=weight_bound,
    )


def _weight(answers: list[Answer]) -> tuple[float, float]:
    """What the plan weighs in solid wood and glue-ups, and what is proven of it: see `CutPlan`."""
    solid = [a for a in answers if a.chosen[0][0].kind is MaterialKind.SOLID]
    known = all(answer.least_weight for answer in solid)
    bound = math.floor(sum(answer.least_weight for answer in solid) * 100) / 100 if known else 0.0
    return round(sum(answer.weight for answer in solid), 2), bound


def _status(unmets: list[Unmet], money: float, bound: float) -> str:
    if unmets:
        return "partly impossible"
    return "optimal" if money <= bound + 0.005 else "feasible"


def _told(
    answer: Answer, made: tuple[Blank, ...], shop: Shop
) -> tuple[list[Blank], list[StockLayout], list[GlueUp], list[Unmet]]:
    group, filling = answer.group, answer.filling
    staves = _staves(answer)
    layouts = [
        stock_layout(group, bin_, key[1], {k[1:]: b for k, b in staves.items() if k[0] == key}, shop)
        for key, bin_ in sorted(filling.bins.items())
    ]
    whole = [b for number, want in group.wants.items() if number not in filling.unmet for b in want.blanks]
    blanks = [*whole, *staves.values()]
    unmets = [lacking for want in filling.unmet for lacking in _lacking(answer, want, shop)]
    return blanks, layouts, _glue_ups(answer, [*made, *blanks], means_of(shop.machines)), unmets


def _staves(answer: Answer) -> dict[tuple[tuple[int, int], int, int, int], Blank]:
    """Every stave laid, by bin, panel and place; numbered in the order of boards."""
    group = answer.group
    found: dict[int, list[tuple[tuple[int, int], int, int, int]]] = {}
    for key, bin_ in sorted(answer.filling.bins.items()):
        for spot in bin_.spots:
            if spot.want in group.panels:
                found.setdefault(spot.want, []).append((key, spot.x, spot.y, spot.width))
    named = {}
    for panel, places in found.items():
        extra = next(p.extra for p in group.problem.panels if p.id == panel)
        blanks = with_widths(group, panel, [(width - extra) / SCALE for *_, width in places])
        for (key, x, y, _), blank in zip(places, blanks, strict=True):
            named[(key, panel, x, y)] = blank
    return named


def _lacking(answer: Answer, want: int, shop: Shop) -> list[Unmet]:
    group = answer.group
    if want in group.wants:
        item = next(i for i in group.problem.items if i.id == want)
        alone = Search(Problem(group.problem.stocks, (item,)), 0).fill()
        barred = bool(item.fits and alone.unmet)
        return [unmet(blank, group.sources, shop, barred=barred) for blank in group.wants[want].blanks]
    panel = next(p for p in group.problem.panels if p.id == want)
    return [unmet_panel(group.panels[want][0], panel, group.sources, shop)]


def _glue_ups(answer: Answer, blanks: list[Blank], means: Means) -> list[GlueUp]:
    by_part: dict[str, list[Blank]] = {}
    for blank in blanks:
        by_part.setdefault(blank.part, []).append(blank)
    made = {need.part: (need, way) for need, way in answer.chosen}
    glued = []
    for part in made.keys() & by_part.keys():
        (need, way), mine = made[part], by_part[part]
        if way.role is not Role.WHOLE and len(mine) > 1:
            why = _why(need, way, answer.group.sources, means)
            glued.append(GlueUp(part, way.role, tuple(b.id for b in mine), way.axis, why))
    return glued


def _why(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> str:
    """Why a part is glued up."""
    if way.made:
        return "the rest of it is cut already"
    if need.ways[0].role is not Role.WHOLE:
        return "so the piece file asks"
    if not fits(need, need.ways[0], sources, means):
        lack = "thick" if way.role is Role.LAYER else "wide and flat"
        return f"no board here gives it whole: none is {lack} enough once milled"
    return "a board would give it whole, but this way less has to be bought"
