"""The recipe: bound, fill in several orders, then take apart and fill again until bound and sheets meet."""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.solver.guillotine import kernel
from scantling.cutting.solver.guillotine.bounds import fewest_sheets
from scantling.cutting.solver.guillotine.problem import SheetProblem
from scantling.cutting.solver.guillotine.solution import Piece, SheetAnswer

Ints = NDArray[np.int64]

_STEPS_AT_ONCE = 200
_HISTORY = 1000  # steps


@dataclass
class _Filled:
    """Sheets as the kernel keeps them: `used` of them, what is put in by number of `pieces`."""

    nodes: Ints
    counts: Ints
    used: int


@dataclass(frozen=True)
class _Pieces:
    """One row for every piece wanted: its number in the problem, size both ways, whether it may turn."""

    numbers: Ints
    sizes: Ints
    turns: Ints
    room: Ints


def solve(problem: SheetProblem, *, seconds: float, seed: int = 0, steps: int = sys.maxsize) -> SheetAnswer:
    """All that is wanted from the fewest sheets found, with a proven bound.

    `seconds`: the clock at which it stops, whatever it has; `steps`: how often something is taken apart at
    most, so that the same is tried on any machine; `seed`: in which order.
    """
    until = time.monotonic() + seconds
    large = problem.too_large
    demand = np.array([0 if n in large else w.demand for n, w in enumerate(problem.wanted)], np.int64)
    pieces = _pieces(problem, demand)
    bound = fewest_sheets(problem, demand)
    state = np.array([seed * 7919 + 88172645463325252], np.int64)
    filled, missing = _filled(problem, pieces, state)
    done = 0
    if not missing:
        done = _improve(filled, pieces, bound, (until, steps), state)
    left = [w.demand if n in large else 0 for n, w in enumerate(problem.wanted)]
    for number in pieces.numbers[missing]:
        left[int(number)] += 1
    unmet = tuple((number, count) for number, count in enumerate(left) if count)
    sheets = tuple(_tree(problem, pieces, filled, sheet) for sheet in range(filled.used))
    return SheetAnswer(problem, sheets, 0 if unmet else bound, unmet, done)


def _pieces(problem: SheetProblem, demand: Ints) -> _Pieces:
    numbers = np.repeat(np.arange(len(demand)), demand)
    sizes = np.array([problem.takes(int(n)) for n in numbers], np.int64).reshape(-1, 2)
    turns = np.array([problem.wanted[int(n)].turns for n in numbers], np.int64)
    return _Pieces(numbers, sizes, turns, np.array(problem.room, np.int64))


def _filled(problem: SheetProblem, pieces: _Pieces, state: Ints) -> tuple[_Filled, list[int]]:
    """Everything in the best of a few orders; and the pieces that found no room on the sheets there are."""
    sizes = pieces.sizes.astype(float)
    keys = (sizes.prod(axis=1), sizes[:, 1], sizes[:, 0], sizes.max(axis=1) ** 1.5 * sizes.min(axis=1))
    tries = [_put_in_order(problem, pieces, np.argsort(-key, kind="stable"), state) for key in keys]
    filled = min(tries, key=lambda each: (len(pieces.numbers) - _laid(each), each.used))
    return filled, _missing(filled, len(pieces.numbers))


def _put_in_order(problem: SheetProblem, pieces: _Pieces, order: Ints, state: Ints) -> _Filled:
    """Room for twice the sheets that areas ask for, and twice that again until it is enough."""
    count = len(pieces.numbers)
    limit = count if problem.sheet.supply is None else min(problem.sheet.supply, count)
    area = int(pieces.sizes.prod(axis=1).sum())
    most = min(limit, 2 * (area // int(pieces.room.prod()) + 2))
    while True:
        filled, missing = _put_on(most, pieces, order, state)
        if not missing or most >= limit:
            return filled
        most = min(limit, 2 * most)


def _put_on(most: int, pieces: _Pieces, order: Ints, state: Ints) -> tuple[_Filled, int]:
    """On so many sheets at most; and how many pieces found no room there."""
    most_nodes = 2 * min(len(order), _most_on_a_sheet(pieces)) + 1
    nodes = np.zeros((most, most_nodes, kernel.FIELDS), np.int64)
    counts = np.zeros(most, np.int64)
    sizes, turns, room = pieces.sizes, pieces.turns, pieces.room
    used, missing = kernel.put_in(nodes, counts, 0, most, order, sizes, turns, room, 0.0, state)
    return _Filled(nodes, counts, int(used)), int(missing)


def _most_on_a_sheet(pieces: _Pieces) -> int:
    """Of the smallest pieces."""
    areas = np.sort(pieces.sizes.prod(axis=1))
    return int(np.searchsorted(np.cumsum(areas), pieces.room.prod(), side="right"))


def _laid(filled: _Filled) -> int:
    return sum(len(_items(filled, sheet)) for sheet in range(filled.used))


def _items(filled: _Filled, sheet: int) -> Ints:
    items = filled.nodes[sheet, : filled.counts[sheet], kernel.ITEM]
    laid: Ints = items[items != kernel.FREE]
    return laid


def _missing(filled: _Filled, count: int) -> list[int]:
    laid = {int(item) for sheet in range(filled.used) for item in _items(filled, sheet)}
    return [piece for piece in range(count) if piece not in laid]


def _improve(best: _Filled, pieces: _Pieces, bound: int, limit: tuple[float, int], state: Ints) -> int:
    """Steps taken."""
    until, steps = limit
    now, now_used = _Filled(best.nodes.copy(), best.counts.copy(), best.used), best.used
    history = np.full(_HISTORY, float(best.used))
    done = 0
    while done < steps and best.used > bound and time.monotonic() < until:
        best.used, now_used, done = kernel.improved(
            best.nodes, best.counts, best.used, now.nodes, now.counts, now_used,
            pieces.sizes, pieces.turns, pieces.room, bound, done, min(_STEPS_AT_ONCE, steps - done),
            state, history,
        )  # fmt: skip
    return int(done)


def _tree(problem: SheetProblem, pieces: _Pieces, filled: _Filled, sheet: int) -> Piece:
    """A sheet as a tree of cuts, from its last node back: a node comes after what it is cut from."""
    made: dict[int, Piece] = {}
    nodes = filled.nodes[sheet, : filled.counts[sheet]].tolist()
    for number in range(len(nodes) - 1, -1, -1):
        made[number] = _node(problem, pieces, nodes[number], made)
    return made[0]


def _node(problem: SheetProblem, pieces: _Pieces, node: list[int], made: dict[int, Piece]) -> Piece:
    """What the kernel made of one rectangle; its sizes there are a kerf more each way."""
    kerf = problem.kerf
    whole = Piece(node[kernel.X], node[kernel.Y], node[kernel.LENGTH] - kerf, node[kernel.WIDTH] - kerf)
    if node[kernel.ITEM] == kernel.FREE:
        return whole
    turned = bool(node[kernel.TURNED])
    long, wide = pieces.sizes[node[kernel.ITEM]].tolist()[:: -1 if turned else 1]
    wanted = int(pieces.numbers[node[kernel.ITEM]])
    corner = Piece(whole.x, whole.y, long - kerf, wide - kerf, wanted, turned)
    first = bool(node[kernel.ACROSS])
    inner = _cut(_lower(whole, corner, across=first), corner, _rest(node, made, not first), across=not first)
    return _cut(whole, inner, _rest(node, made, first), across=first)


def _rest(node: list[int], made: dict[int, Piece], across: bool) -> Piece | None:
    """What lies beyond the cut across, or beside the one along."""
    number = node[kernel.BEYOND if across else kernel.BESIDE]
    return None if number == kernel.FREE else made[number]


def _lower(whole: Piece, corner: Piece, *, across: bool) -> Piece:
    """What the first cut leaves round the corner piece."""
    if across:
        return Piece(whole.x, whole.y, corner.length, whole.width)
    return Piece(whole.x, whole.y, whole.length, corner.width)


def _cut(whole: Piece, below: Piece, rest: Piece | None, *, across: bool) -> Piece:
    """A piece cut in two. Of what is no wider than the kerf nothing is left."""
    if (whole.length, whole.width) == (below.length, below.width):
        return below
    beyond = (rest,) if rest is not None and min(rest.length, rest.width) > 0 else ()
    at = whole.x + below.length if across else whole.y + below.width
    return Piece(whole.x, whole.y, whole.length, whole.width, across=across, at=at, parts=(below, *beyond))
