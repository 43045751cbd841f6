"""The recipe: demand → groups that compete for stock → filled bins → boards with numbered cuts."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import Blank, CutPlan, Demand, GlueUp, Need, Role, StockLayout, Unmet, Way
from scantling.cutting.demand import demand_of
from scantling.cutting.layout import areas_of, stock_layout
from scantling.cutting.milling import Means, means_of
from scantling.cutting.report import unmet
from scantling.cutting.solver.problem import SCALE
from scantling.cutting.solver.search import Filling, Search
from scantling.cutting.supply import Source, sources_for
from scantling.cutting.wants import Group, blank_of, group_of, with_widths
from scantling.joinery.features import MachinedPiece
from scantling.piece.model import MaterialKind
from scantling.shop.model import Shop

_EFFORT = 4000  # wants put in anew for each second asked for: what a slow machine does in about that time
_RUNAWAY = 4.0  # times the seconds asked for at which the clock stops the search after all


@dataclass(frozen=True)
class Answer:
    """One group of needs, solved."""

    group: Group
    filling: Filling
    chosen: tuple[tuple[Need, Way], ...]


def cut_plan(machined: MachinedPiece, shop: Shop, *, seed: int = 0, seconds: float = 1.0) -> CutPlan:
    """A guillotine plan for every part on the shop's stock: owned first, then for the least money.

    `seconds` sets how much is tried (a count, so that the same input gives the same plan anywhere);
    `seed` which of equally promising tries come first.
    """
    return plan_demand(demand_of(machined, shop), shop, seed=seed, seconds=seconds)


def plan_demand(demand: Demand, shop: Shop, *, seed: int = 0, seconds: float = 1.0) -> CutPlan:
    """As `cut_plan`, from a demand already worked out."""
    groups = _grouped(demand.needs, shop)
    total = max(len(demand.needs), 1)
    until = time.monotonic() + _RUNAWAY * seconds
    answers = [
        _solved(needs, sources, shop, seed, int(seconds * _EFFORT * len(needs) / total), until)
        for sources, needs in groups
        if sources
    ]
    missing = [need for sources, needs in groups if not sources for need in needs]
    return _plan(demand, answers, missing, shop)


def _grouped(needs: Sequence[Need], shop: Shop) -> list[tuple[tuple[Source, ...], list[Need]]]:
    groups: dict[tuple[MaterialKind, tuple[str, ...]], tuple[tuple[Source, ...], list[Need]]] = {}
    known: dict[tuple[MaterialKind, str, str, float | None], tuple[Source, ...]] = {}
    for need in needs:
        key = (need.kind, need.species, need.material, need.label)
        if key not in known:
            known[key] = sources_for(need, shop)
        ids = (need.kind, tuple(s.id for s in known[key]))
        groups.setdefault(ids, (known[key], []))[1].append(need)
    return list(groups.values())


def _solved(
    needs: list[Need], sources: tuple[Source, ...], shop: Shop, seed: int, effort: int, until: float
) -> Answer:
    means = means_of(shop.machines)
    chosen = {need.part: _first_way(need, sources, means) for need in needs}
    best = _filled(needs, chosen, sources, means, seed)
    best = _other_ways(needs, best, sources, means, seed)
    search = Search(best.group.problem, seed)
    return replace(best, filling=search.improve(best.filling, effort, until))


def _filled(
    needs: list[Need], chosen: Mapping[str, Way], sources: tuple[Source, ...], means: Means, seed: int
) -> Answer:
    pairs = tuple((need, chosen[need.part]) for need in needs)
    group = group_of(pairs, sources, means)
    return Answer(group, Search(group.problem, seed).fill(), pairs)


def _first_way(need: Need, sources: tuple[Source, ...], means: Means) -> Way:
    return next((way for way in need.ways if _possible(need, way, sources, means)), need.ways[0])


def _possible(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> bool:
    problem = group_of([(need, way)], sources, means).problem
    return all(item.fits for item in problem.items) and all(any(p.widest) for p in problem.panels)


def _other_ways(
    needs: list[Need], best: Answer, sources: tuple[Source, ...], means: Means, seed: int
) -> Answer:
    """Where something is missing or must be bought, try each kind of part in its other ways."""
    for definition in dict.fromkeys(need.definition for need in needs if len(need.ways) > 1):
        if best.filling.cost[:2] == (0, 0):
            break
        mine = [need for need in needs if need.definition == definition]
        for way in range(len(mine[0].ways)):
            if not _possible(mine[0], mine[0].ways[way], sources, means):
                continue
            chosen = {need.part: w for need, w in best.chosen} | {n.part: n.ways[way] for n in mine}
            tried = _filled(needs, chosen, sources, means, seed)
            if tried.filling.cost[:2] < best.filling.cost[:2]:
                best = tried
    return best


def _plan(demand: Demand, answers: list[Answer], missing: list[Need], shop: Shop) -> CutPlan:
    blanks: list[Blank] = []
    layouts: list[StockLayout] = []
    glue_ups: list[GlueUp] = []
    unmets = [unmet(blank_of(n, n.ways[0], 1, 1, n.ways[0].width, ""), (), shop) for n in missing]
    bound = 0.0
    for answer in answers:
        made, boards, glued, lacking = _told(answer, shop)
        blanks += made
        layouts += boards
        glue_ups += glued
        unmets += lacking
        lacks = {u.blank.part for u in lacking}
        bound += least_money([n for n, _ in answer.chosen if n.part not in lacks], answer.group.sources)
    money = round(sum(l.price for l in layouts if l.bought), 2)
    order = {need.part: number for number, need in enumerate(demand.needs)}
    used = {s.id: s for a in answers for s in a.group.sources}
    return CutPlan(
        blanks=tuple(sorted(blanks, key=lambda b: (order[b.part], b.index))),
        layouts=tuple(layouts),
        glue_ups=tuple(sorted(glue_ups, key=lambda g: order[g.part])),
        unmet=tuple(unmets),
        areas=areas_of(tuple(layouts)),
        money=money,
        bound=math.floor(bound * 100 + 1e-6) / 100,
        board_feet=round(sum(used[l.stock.split("#")[0]].board_feet for l in layouts), 2),
        status=_status(unmets, money, bound),
        notes=demand.notes,
    )


def _status(unmets: list[Unmet], money: float, bound: float) -> str:
    if unmets:
        return "partly impossible"
    return "optimal" if money <= bound + 0.005 else "feasible"


def _told(answer: Answer, shop: Shop) -> tuple[list[Blank], list[StockLayout], list[GlueUp], list[Unmet]]:
    group, filling = answer.group, answer.filling
    means = means_of(shop.machines)
    staves = _staves(answer)
    layouts = [
        stock_layout(group, bin_, key[1], {k[1:]: b for k, b in staves.items() if k[0] == key}, means)
        for key, bin_ in sorted(filling.bins.items())
    ]
    lacking = [blank for want in filling.unmet for blank in _lacking(answer, want)]
    whole = [blank for want in group.wants.values() for blank in want.blanks]
    made = [*whole, *staves.values()]
    gone = {blank.id for blank in lacking}
    blanks = sorted((b for b in made if b.id not in gone), key=lambda b: (b.part, b.index))
    unmets = [unmet(blank, group.sources, shop) for blank in lacking]
    return blanks, layouts, _glue_ups(answer, blanks), unmets


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


def _lacking(answer: Answer, want: int) -> list[Blank]:
    group = answer.group
    if want in group.wants:
        return list(group.wants[want].blanks)
    need, way = group.panels[want]
    rest = way.width - answer.filling.widths[want] / SCALE
    width = min(max(rest, way.stave[0]), way.stave[1])
    blank = blank_of(need, way, 0, way.counts[0], width, "stave")
    return [replace(blank, id=f"{need.part} missing stave")]


def _glue_ups(answer: Answer, blanks: list[Blank]) -> list[GlueUp]:
    by_part: dict[str, list[Blank]] = {}
    for blank in blanks:
        by_part.setdefault(blank.part, []).append(blank)
    ways = {need.part: way for need, way in answer.chosen}
    return [
        GlueUp(part, ways[part].role, tuple(b.id for b in mine), ways[part].axis)
        for part, mine in by_part.items()
        if ways[part].role is not Role.WHOLE and len(mine) > 1
    ]
