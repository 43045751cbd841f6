"""Where a piece could lie on the sheets that are open, and what it leaves there: numbers and arrays only."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from scantling.cutting.solver.compiled import compilable
from scantling.cutting.solver.guillotine.tree import (
    ACROSS,
    ANY,
    FILLED,
    FLAWED,
    FREE,
    ITEM,
    KIND,
    LENGTH,
    LIVE,
    MOST_NEW,
    NONE,
    NUMBERED,
    PARENT,
    STAGE,
    WIDTH,
    X,
    Y,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Floats = NDArray[np.float64]

KERF, STAGES, TRIMMING, FIRST_ACROSS, KEEP_LONG, KEEP_WIDE = range(6)  # of the rules
_NOWHERE = (NONE, NONE, 0, 0, 0, 0)


class Job(NamedTuple):
    """A problem in arrays, sizes a kerf larger.

    One row for every piece: `sizes` (n, 2), `turns` (n,), `lies` (n, k): whether it may come from a kind of
    sheet. One row for every kind: `rooms` (k, 2), `costs` (k,), `supplies` (k,). `flaws` (f, 5): kind, then
    where it begins and ends along and across. `rules`: see above.
    """

    sizes: Ints
    turns: Ints
    lies: Ints
    rooms: Ints
    costs: Ints
    supplies: Ints
    flaws: Ints
    rules: Ints


@compilable
def draw(state: Ints) -> float:
    """The next number from 0 to 1 (xorshift; Marsaglia 2003): one that numba and Python make alike."""
    value = state[0]
    value ^= (value << 13) & 0x7FFFFFFFFFFFFFFF
    value ^= value >> 7
    value ^= (value << 17) & 0x7FFFFFFFFFFFFFFF
    state[0] = value
    return float((value >> 10) / 9007199254740992.0)


@compilable
def best_place(
    nodes: Ints, heads: Ints, low: int, high: int, job: Job, item: int, noise: float, skipped: float,
    state: Ints,
) -> tuple[int, int, int, int, int, int]:  # fmt: skip
    """Sheet (from `low` to below `high`), node, turned, first cuts across, how far over and beside the
    node's corner: where a piece leaves what is worth most. Each place is passed over by a chance of
    `skipped`. NONE where it has no room.
    """
    best, best_score = _NOWHERE, np.inf
    area = job.sizes[item, 0] * job.sizes[item, 1]
    for sheet in range(low, high):
        kind = heads[sheet, KIND]
        if kind == NONE or job.lies[item, kind] == 0 or heads[sheet, LIVE] + MOST_NEW > nodes.shape[1]:
            continue
        if job.rooms[kind, 0] * job.rooms[kind, 1] - heads[sheet, FILLED] < area:
            continue
        for node in range(heads[sheet, NUMBERED]):
            if nodes[sheet, node, ITEM] != FREE:
                continue
            for turned in range(1 + job.turns[item]):
                long, wide = job.sizes[item, turned], job.sizes[item, 1 - turned]
                if nodes[sheet, node, LENGTH] < long or nodes[sheet, node, WIDTH] < wide:
                    continue
                if skipped > 0 and draw(state) < skipped:
                    continue
                over, beside = 0, 0
                if heads[sheet, FLAWED] == 1:
                    over, beside = clear_of_flaws(nodes, heads, sheet, node, long, wide, job)
                    if over < 0:
                        continue
                for across in range(2):
                    score = used_up(nodes, sheet, node, long, wide, across, over, beside, job.rules)
                    if noise > 0:
                        score *= 1 + noise * draw(state)
                    if score < best_score:
                        best_score = score
                        best = (sheet, node, turned, across, over, beside)
    return best


@compilable
def clear_of_flaws(
    nodes: Ints, heads: Ints, sheet: int, node: int, long: int, wide: int, job: Job
) -> tuple[int, int]:
    """How far over and beside a node's corner a piece lies clear of flaws with the least lost before it; -1
    where it does not. It begins at the corner or just past a flaw; if past one, something is left before the
    cut that frees it.
    """
    kerf, kind = job.rules[KERF], heads[sheet, KIND]
    left, low = nodes[sheet, node, X], nodes[sheet, node, Y]
    most_over, most_beside = nodes[sheet, node, LENGTH] - long, nodes[sheet, node, WIDTH] - wide
    best_over, best_beside, least = -1, -1, np.inf
    for first in range(-1, len(job.flaws)):
        over = 0 if first < 0 else max(job.flaws[first, 2] - left, kerf + 1)
        if over > most_over:
            continue
        if first >= 0 and (job.flaws[first, 0] != kind or job.flaws[first, 2] <= left):
            continue
        for second in range(-1, len(job.flaws)):
            beside = 0 if second < 0 else max(job.flaws[second, 4] - low, kerf + 1)
            if beside > most_beside:
                continue
            if second >= 0 and (job.flaws[second, 0] != kind or job.flaws[second, 4] <= low):
                continue
            lost = float(over * nodes[sheet, node, WIDTH] + beside * nodes[sheet, node, LENGTH])
            if lost < least and is_clear(
                job, kind, left + over, left + over + long - kerf, low + beside, low + beside + wide - kerf
            ):
                best_over, best_beside, least = over, beside, lost
    return best_over, best_beside


@compilable
def is_clear(job: Job, kind: int, x0: int, x1: int, y0: int, y1: int) -> bool:
    """Whether no flaw of a kind of sheet lies within these places."""
    for flaw in range(len(job.flaws)):
        if (
            job.flaws[flaw, 0] == kind
            and job.flaws[flaw, 1] < x1
            and job.flaws[flaw, 2] > x0
            and job.flaws[flaw, 3] < y1
            and job.flaws[flaw, 4] > y0
        ):
            return False
    return True


@compilable
def used_up(
    nodes: Ints, sheet: int, node: int, long: int, wide: int, across: int, over: int, beside: int, rules: Ints
) -> float:
    """What a free node is worth more than what a piece would leave of it; endless where the stages or the
    first direction forbid it.
    """
    length, width = nodes[sheet, node, LENGTH], nodes[sheet, node, WIDTH]
    stage, made = nodes[sheet, node, STAGE], nodes[sheet, node, ACROSS]
    if nodes[sheet, node, PARENT] == NONE:
        made = ANY
    first = long != length if across == 1 else wide != width
    second = wide != width if across == 1 else long != length
    is_free = made != ANY or rules[FIRST_ACROSS] == ANY or not (first or second)
    if not is_free and rules[FIRST_ACROSS] != (across if first else 1 - across):
        return np.inf
    deepest = stage
    if first and made != across:
        deepest += 1
    if second and (first or made in (across, ANY)):
        deepest += 1
    if stage > rules[STAGES] or deepest > rules[STAGES] + rules[TRIMMING]:
        return np.inf
    inner_counts = 1.0
    outer_counts = 1.0
    if deepest > rules[STAGES]:  # what the last cuts free is waste
        inner_counts = 0.0
        if not second:
            outer_counts = 0.0
    past, past_side = length - over - long, width - beside - wide
    if across == 1:
        outer = worth(over * width) + worth(past * width)
        inner = worth(long * beside) + worth(long * past_side)
    else:
        outer = worth(length * beside) + worth(length * past_side)
        inner = worth(over * wide) + worth(past * wide)
    return worth(length * width) - outer_counts * outer - inner_counts * inner


@compilable
def worth(area: int) -> float:
    """Of something free: one large is worth more than many small."""
    return float(area * sqrt(area))
