"""The recipe: demand → groups that compete for stock → filled bins → boards with numbered cuts."""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import Blank, CutPlan, Demand, GlueUp, Need, Role, StockLayout, Unmet, Way
from scantling.cutting.demand import demand_of
from scantling.cutting.layout import areas_of, stock_layout
from scantling.cutting.milling import Means, means_of
from scantling.cutting.report import plan_notes, unmet, unmet_panel
from scantling.cutting.solver.problem import SCALE, Problem
from scantling.cutting.solver.search import Search
from scantling.cutting.supply import Source, sources_for
from scantling.cutting.wants import blank_of, fits, with_widths
from scantling.cutting.ways import Answer, Chooser
from scantling.joinery.features import MachinedPiece
from scantling.piece.model import MaterialKind
from scantling.shop.model import Machine, Shop

_EFFORT = 6000  # places taken for each second asked for: what a slow machine does in about that time
_RUNAWAY = 8.0  # times the seconds asked for (and one) at which the clock stops the search after all


def cut_plan(machined: MachinedPiece, shop: Shop, *, seed: int = 0, seconds: float = 1.0) -> CutPlan:
    """A guillotine plan for every part on the shop's stock: owned first, then for the least money.

    `seconds` sets how much is tried (a count, so that the same input gives the same plan anywhere);
    `seed` which of equally promising tries come first.
    """
    told = replace(shop, unit=machined.piece.unit)  # notes in the piece's unit
    return plan_demand(demand_of(machined, shop), told, seed=seed, seconds=seconds)


def plan_demand(demand: Demand, shop: Shop, *, seed: int = 0, seconds: float = 1.0) -> CutPlan:
    """As `cut_plan`, from a demand already worked out."""
    groups = _grouped(demand.needs, shop)
    share = seconds * _EFFORT / max(len(demand.needs), 1)
    answers = [
        _solved(tuple(needs), sources, shop.machines, seed, int(share * len(needs)), seconds)
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


@lru_cache(maxsize=64)
def _solved(
    needs: tuple[Need, ...],
    sources: tuple[Source, ...],
    machines: tuple[Machine, ...],
    seed: int,
    effort: int,
    seconds: float,
) -> Answer:
    """The best filling found; remembered, for an edit seldom touches every group of a piece."""
    until = time.monotonic() + _RUNAWAY * (1 + seconds)
    return Chooser(needs, sources, means_of(machines), seed, effort, until).answer()


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
        notes=(*demand.notes, *plan_notes(layouts, shop)),
    )


def _status(unmets: list[Unmet], money: float, bound: float) -> str:
    if unmets:
        return "partly impossible"
    return "optimal" if money <= bound + 0.005 else "feasible"


def _told(answer: Answer, shop: Shop) -> tuple[list[Blank], list[StockLayout], list[GlueUp], list[Unmet]]:
    group, filling = answer.group, answer.filling
    staves = _staves(answer)
    layouts = [
        stock_layout(group, bin_, key[1], {k[1:]: b for k, b in staves.items() if k[0] == key}, shop)
        for key, bin_ in sorted(filling.bins.items())
    ]
    whole = [b for number, want in group.wants.items() if number not in filling.unmet for b in want.blanks]
    blanks = [*whole, *staves.values()]
    unmets = [lacking for want in filling.unmet for lacking in _lacking(answer, want, shop)]
    return blanks, layouts, _glue_ups(answer, blanks, means_of(shop.machines)), unmets


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
    for part, mine in by_part.items():
        need, way = made[part]
        if way.role is not Role.WHOLE and len(mine) > 1:
            why = _why(need, way, answer.group.sources, means)
            glued.append(GlueUp(part, way.role, tuple(b.id for b in mine), way.axis, why))
    return glued


def _why(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> str:
    """Why a part is glued up."""
    if need.ways[0].role is not Role.WHOLE:
        return "so the piece file asks"
    if not fits(need, need.ways[0], sources, means):
        lack = "thick" if way.role is Role.LAYER else "wide and flat"
        return f"no board here gives it whole: none is {lack} enough once milled"
    return "a board would give it whole, but this way less has to be bought"
