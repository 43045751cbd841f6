"""Dimension lumber: every length to its stick for the least money, proven.

Among plans for one sum, the one that cuts into least length of stick is taken.
"""

from __future__ import annotations

import math
import time
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.cutting.cut_plan import Need
from scantling.cutting.milling import Means
from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.problem import SCALE, Item
from scantling.cutting.solver.search import Key, Search
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, group_of
from scantling.cutting.ways import Answer
from scantling.piece.model import MaterialKind

if TYPE_CHECKING:
    from scantling.cutting.solver.sticks import StickAnswer, StickProblem

_CENTS = 100
_HAIR = 1e-6  # 19.99 is 1999 cents
_TRIED = 100  # linear programs a second
_SHORTER = 10_000  # a cent weighs as much as so many decimetres of stick
_DECIMETRE = 100 * SCALE


def is_of_sticks(needs: Sequence[Need], sources: Sequence[Source]) -> bool:
    """Whether these are lengths of one section that may come from any of the sticks."""
    return bool(sources) and all(need.kind is MaterialKind.LUMBER and not need.only for need in needs)


@dataclass(frozen=True, slots=True)
class Effort:
    """How much is tried: so many `steps` (of a solver's own kind), unless the clock says `until` before."""

    seed: int
    steps: int
    until: float


def effort(seed: int, seconds: float, until: float) -> Effort:
    """What a slow machine does in about so many seconds."""
    return Effort(seed, round(_TRIED * seconds), until)


def stick_answer(
    needs: tuple[Need, ...], sources: tuple[Source, ...], means: Means, tried: Effort
) -> Answer | None:
    """The cheapest way to cut these; None where some of it cannot be had, or is no stick's whole section."""
    pairs = tuple((need, need.ways[0]) for need in needs)
    group = group_of(pairs, sources, means)
    kinds = _kinds(group)
    if kinds is None:
        return None
    cheapest = _solved(group, list(kinds), tried, shorter=0)
    if cheapest.unmet:
        return None
    kept = cheapest
    if len(sources) > 1:
        shortest = _solved(group, list(kinds), tried, shorter=1)
        kept = min((shortest, cheapest), key=lambda answer: (bool(answer.unmet), _money(group, answer)))
    filling = Search(group.problem, tried.seed).resume(_bins(group, kept, kinds))
    return Answer(group, filling, pairs, proven=cheapest.bound / _CENTS)


def _kinds(group: Group) -> dict[int, list[int]] | None:
    """Numbers of the items of each length; None where a length may not lie wherever there is room for it."""
    stocks = group.problem.stocks
    kinds: dict[int, list[int]] = defaultdict(list)
    for item in group.problem.items:
        if item.fits != {n for n, s in enumerate(stocks) if item.length <= s.length - sum(s.ends)}:
            return None
        kinds[item.length].append(item.id)
    return dict(kinds)


def _solved(group: Group, lengths: list[int], tried: Effort, *, shorter: int) -> StickAnswer:
    from scantling.cutting.solver.sticks import solve

    seconds = tried.until - time.monotonic()
    problem = _problem(group, lengths, shorter)
    return solve(problem, seconds=seconds, seed=tried.seed, steps=tried.steps)


def _problem(group: Group, lengths: list[int], shorter: int) -> StickProblem:
    from scantling.cutting.solver.sticks import Length, Stick, StickProblem

    demand: dict[int, int] = defaultdict(int)
    for item in group.problem.items:
        demand[item.length] += 1
    stocks = group.problem.stocks
    sticks = tuple(Stick(s.length, _cost(s.money, s.length, shorter), s.count, s.ends) for s in stocks)
    wanted = tuple(Length(length, demand[length]) for length in lengths)
    return StickProblem(sticks, wanted, max(s.kerf_across for s in stocks))


def _cost(money: float, length: int, shorter: int) -> int:
    """In whole cents, rounded down: what is proven of them must hold for the price itself."""
    cents = math.floor(money * _CENTS + _HAIR)
    return cents * _SHORTER + math.ceil(length / _DECIMETRE) if shorter else cents


def _money(group: Group, answer: StickAnswer) -> float:
    return sum(cut.times * group.problem.stocks[cut.stick].money for cut in answer.cuts)


def _bins(group: Group, answer: StickAnswer, kinds: dict[int, list[int]]) -> dict[Key, Bin]:
    """The sticks as bins, each length a segment of its own."""
    left = {length: list(items) for length, items in kinds.items()}
    items = {item.id: item for item in group.problem.items}
    bins: dict[Key, Bin] = {}
    used: dict[int, int] = defaultdict(int)
    for cut in answer.cuts:
        for _ in range(cut.times):
            laid = [(items[left[answer.problem.wanted[n].length].pop(0)], at) for n, at in answer.laid(cut)]
            key = (group.problem.stocks[cut.stick].pool, used[cut.stick])
            used[cut.stick] += 1
            bins[key] = Bin(cut.stick, key[1], tuple(_segment(item, at) for item, at in laid))
    return bins


def _segment(item: Item, at: int) -> Segment:
    spot = Spot(item.id, at, 0, item.length, item.width)
    return Segment(at, at + item.length, (Strip(0, item.width, (spot,)),))
