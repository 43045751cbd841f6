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
    count = len(pieces.numbers)
    most = count if problem.sheet.supply is None else min(problem.sheet.supply, count)
    most_nodes = 2 * min(count, _most_on_a_sheet(pieces)) + 1
    nodes = np.zeros((most, most_nodes, kernel.FIELDS), np.int64)
    counts = np.zeros(most, np.int64)
    used, _ = kernel.put_in(
        nodes, counts, 0, most, order, pieces.sizes, pieces.turns, pieces.room, 0.0, state
    )
    return _Filled(nodes, counts, int(used))


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


def _improve(filled: _Filled, pieces: _Pieces, bound: int, limit: tuple[float, int], state: Ints) -> int:
    """Steps taken."""
    until, steps = limit
    done = 0
    history = np.full(_HISTORY, float(filled.used))
    while done < steps and filled.used > bound and time.monotonic() < until:
        at_once = min(_STEPS_AT_ONCE, steps - done)
        filled.used, taken = kernel.improved(
            filled.nodes, filled.counts, filled.used, pieces.sizes, pieces.turns, pieces.room, bound, at_once,
            state, history,
        )  # fmt: skip
        done += int(taken)
    return done


def _tree(problem: SheetProblem, pieces: _Pieces, filled: _Filled, sheet: int) -> Piece:
    """A sheet as a tree of cuts."""
    return _node(problem, pieces, filled.nodes[sheet], 0)


def _node(problem: SheetProblem, pieces: _Pieces, nodes: Ints, number: int) -> Piece:
    """What the kernel made of one rectangle; its sizes there are a kerf more each way."""
    node, kerf = nodes[number].tolist(), problem.kerf
    whole = Piece(node[kernel.X], node[kernel.Y], node[kernel.LENGTH] - kerf, node[kernel.WIDTH] - kerf)
    if node[kernel.ITEM] == kernel.FREE:
        return whole
    number = int(pieces.numbers[node[kernel.ITEM]])
    turned = bool(node[kernel.TURNED])
    long, wide = pieces.sizes[node[kernel.ITEM]].tolist()[:: -1 if turned else 1]
    corner = Piece(whole.x, whole.y, long - kerf, wide - kerf, number, turned)
    rests = {
        across: [_node(problem, pieces, nodes, node[field])] if node[field] != kernel.FREE else []
        for across, field in ((True, kernel.BEYOND), (False, kernel.BESIDE))
    }
    first = bool(node[kernel.ACROSS])
    between = _lower(whole, corner, across=first)
    inner = _cut(between, corner, rests[not first], across=not first)
    return _cut(whole, inner, rests[first], across=first)


def _lower(whole: Piece, corner: Piece, *, across: bool) -> Piece:
    """What the first cut leaves round the corner piece."""
    if across:
        return Piece(whole.x, whole.y, corner.length, whole.width)
    return Piece(whole.x, whole.y, whole.length, corner.width)


def _cut(whole: Piece, below: Piece, rest: list[Piece], *, across: bool) -> Piece:
    """A piece cut in two. Of what is no wider than the kerf nothing is left."""
    if (whole.length, whole.width) == (below.length, below.width):
        return below
    beyond = tuple(piece for piece in rest if min(piece.length, piece.width) > 0)
    at = whole.x + below.length if across else whole.y + below.width
    return Piece(whole.x, whole.y, whole.length, whole.width, across=across, at=at, parts=(below, *beyond))
