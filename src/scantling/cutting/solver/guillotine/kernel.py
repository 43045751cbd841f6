"""Ruin and recreate on sheets that may cost no more than a budget: numbers and arrays only.

Some sheets are emptied, or parts of them, and all that is loose put in again, hardest first with some noise,
each where it leaves what is worth most. What finds no room stays loose. A change stays if it is no worse
than what stood now or some steps ago (late acceptance; Burke and Bykov 2017). Once nothing is loose the
budget has been met, and the caller sets a lower one (goals as of Gardeyn and Wauters 2022; from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from scantling.cutting.solver.compiled import compilable
from scantling.cutting.solver.guillotine.places import (
    KEEP_LONG,
    KEEP_WIDE,
    KERF,
    Job,
    best_place,
    draw,
    is_clear,
    worth,
)
from scantling.cutting.solver.guillotine.tree import (
    FILLED,
    FLAWED,
    FREE,
    ITEM,
    KIND,
    LENGTH,
    NONE,
    NUMBERED,
    VOID,
    WIDTH,
    X,
    Y,
    opened,
    pruned,
    put,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Floats = NDArray[np.float64]
    Flags = NDArray[np.bool_]

_SKIPPED = 0.01  # chance that a place is passed over
_NOISE = 0.3
_ANY_KIND = 0.03  # chance that a new sheet is of any kind
_ANY_ORDER = 0.01  # chance that pieces are put in nearly in any order
_EMPTIED = 0.9  # share of its cost that a sheet nearly free is as good as saved of
_WINDOW = 40  # sheets looked at in one step
_EVEN = 0.05  # what a sheet wholly free is worth, as a share of a sheet's area that is loose


@compilable
def put_in(
    nodes: Ints, heads: Ints, low: int, high: int, job: Job, order: Ints, budget: int, noise: float,
    skipped: float, touched: Flags, state: Ints,
) -> int:  # fmt: skip
    """Everything in this order on the sheets from `low` to below `high`, on new ones where nothing has room
    and the budget allows it: how many found none. These come to stand first in `order`.
    """
    missing = 0
    for item in order:
        sheet, node, turned, across, over, beside = best_place(
            nodes, heads, low, high, job, item, noise, skipped, state
        )
        if sheet == NONE:
            sheet, node, turned, across, over, beside = on_new(nodes, heads, job, item, budget, noise, state)
        if sheet == NONE:
            order[missing] = item
            missing += 1
            continue
        touched[sheet] = True
        long, wide = job.sizes[item, turned], job.sizes[item, 1 - turned]
        put(nodes, heads, sheet, node, item, turned, long, wide, across, over, beside)
    return missing


@compilable
def on_new(
    nodes: Ints, heads: Ints, job: Job, item: int, budget: int, noise: float, state: Ints
) -> tuple[int, int, int, int, int, int]:
    """A place on a sheet opened for a piece, of a kind that costs little for its size; NONE without any."""
    slot = NONE
    left = job.supplies.copy()
    for sheet in range(len(heads)):
        if heads[sheet, KIND] != NONE:
            left[heads[sheet, KIND]] -= 1
            budget -= job.costs[heads[sheet, KIND]]
        elif slot == NONE:
            slot = sheet
    keys = np.empty(len(left))
    is_any = noise > 0 and draw(state) < _ANY_KIND
    for kind in range(len(left)):
        area = job.rooms[kind, 0] * job.rooms[kind, 1]
        keys[kind] = (
            draw(state) if is_any else (job.costs[kind] + 1e-9) / area * (1 + 4 * noise * draw(state))
        )
    for kind in np.argsort(keys, kind="mergesort"):
        if slot == NONE or left[kind] <= 0 or job.lies[item, kind] == 0 or job.costs[kind] > budget:
            continue
        flawed = 0
        for flaw in range(len(job.flaws)):
            if job.flaws[flaw, 0] == kind:
                flawed = 1
        opened(nodes, heads, slot, kind, job.rooms[kind, 0], job.rooms[kind, 1], flawed)
        place = best_place(nodes, heads, slot, slot + 1, job, item, noise, 0.0, state)
        if place[0] != NONE:
            return place
        heads[slot, KIND] = NONE
    return NONE, NONE, 0, 0, 0, 0


@compilable
def looked_at(heads: Ints, state: Ints) -> tuple[int, int]:
    """Of many sheets, some that stand next to each other: from, to below."""
    if len(heads) <= _WINDOW:
        return 0, len(heads)
    low = int(draw(state) * (len(heads) - _WINDOW + 1))
    return low, low + _WINDOW


@compilable
def ruined(
    nodes: Ints, heads: Ints, low: int, high: int, loose: Ints, found: int, touched: Flags, state: Ints
) -> int:
    """Some sheets from `low` to below `high` taken out, the emptiest often among them, and parts of others:
    how many are loose.
    """
    open_ = low + np.flatnonzero(heads[low:high, KIND] != NONE)
    if len(open_) == 0:
        return found
    if draw(state) < 0.3:
        least = open_[0]
        for sheet in open_:
            if heads[sheet, FILLED] < heads[least, FILLED]:
                least = sheet
        found = closed(nodes, heads, least, loose, found, touched)
    for _ in range(int(draw(state) * 3)):
        found = closed(nodes, heads, open_[int(draw(state) * len(open_))], loose, found, touched)
    for _ in range(1 + int(draw(state) * 4)):
        sheet = open_[int(draw(state) * len(open_))]
        if heads[sheet, KIND] != NONE:
            node = int(draw(state) * heads[sheet, NUMBERED])
            if nodes[sheet, node, ITEM] != FREE and nodes[sheet, node, ITEM] != VOID:
                touched[sheet] = True
                found = pruned(nodes, heads, sheet, node, loose, found)
                if nodes[sheet, 0, ITEM] == FREE:
                    heads[sheet, KIND] = NONE
    return found


@compilable
def closed(nodes: Ints, heads: Ints, sheet: int, loose: Ints, found: int, touched: Flags) -> int:
    """A sheet put back whole."""
    if heads[sheet, KIND] == NONE:
        return found
    touched[sheet] = True
    found = pruned(nodes, heads, sheet, 0, loose, found)
    heads[sheet, KIND] = NONE
    return found


@compilable
def ordered(loose: Ints, sizes: Ints, state: Ints) -> Ints:
    """Largest first by one of four measures, a little shuffled."""
    measure = int(draw(state) * 4)
    blur = 0.5 * draw(state) if draw(state) > _ANY_ORDER else 2.0
    keys = np.empty(len(loose), np.float64)
    for number, item in enumerate(loose):
        long, wide = float(sizes[item, 0]), float(sizes[item, 1])
        size = long * wide
        if measure == 1:
            size = wide * wide
        elif measure == 2:
            size = long * long
        elif measure == 3:
            size = max(long, wide) ** 2
        keys[number] = -size * (1 + blur * (draw(state) - 0.5))
    return loose[np.argsort(keys, kind="mergesort")]


@compilable
def spent(heads: Ints, job: Job) -> int:
    """What the open sheets cost."""
    total = 0
    for sheet in range(len(heads)):
        if heads[sheet, KIND] != NONE:
            total += job.costs[heads[sheet, KIND]]
    return total


@compilable
def left_on(heads: Ints, sheet: int, job: Job) -> float:
    """Square of the free share of an open sheet: better one nearly empty than two half full."""
    if heads[sheet, KIND] == NONE:
        return 0.0
    kind = heads[sheet, KIND]
    share = 1 - heads[sheet, FILLED] / float(job.rooms[kind, 0] * job.rooms[kind, 1])
    return float(share * share)


@compilable
def improved(
    nodes: Ints, heads: Ints, loose: Ints, count: int, job: Job, budget: int, begun: int, steps: int,
    history: Floats, state: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Go on after `begun` steps for so many more, or until nothing is loose; how many are, all steps taken.

    `loose`: room for every piece; the first `count` are loose. `history` is endless where this is begun.
    """
    areas = job.sizes[:, 0] * job.sizes[:, 1]
    whole = float(np.max(job.rooms[:, 0] * job.rooms[:, 1]))
    tried, tried_heads, tried_loose = np.empty_like(nodes), np.empty_like(heads), np.empty_like(loose)
    shares, tried_shares = np.empty(len(heads)), np.empty(len(heads))
    for sheet in range(len(heads)):
        shares[sheet] = left_on(heads, sheet, job)
    touched = np.ones(len(heads), np.bool_)
    copied(nodes, heads, shares, tried, tried_heads, tried_shares, touched)
    cost = areas[loose[:count]].sum() / whole - _EVEN * shares.sum()
    if history[0] == np.inf:
        history[:] = cost
    for step in range(begun, begun + steps):
        if count == 0:
            return count, step
        tried_loose[:count] = loose[:count]
        low, high = looked_at(heads, state)
        found = ruined(tried, tried_heads, low, high, tried_loose, count, touched, state)
        order = ordered(tried_loose[:found], job.sizes, state)
        missing = put_in(
            tried, tried_heads, low, high, job, order, budget, _NOISE * draw(state), _SKIPPED, touched, state
        )
        for sheet in range(len(heads)):
            if touched[sheet]:
                tried_shares[sheet] = left_on(tried_heads, sheet, job)
        new = areas[order[:missing]].sum() / whole - _EVEN * tried_shares.sum()
        slot = step % len(history)
        if new <= cost or new <= history[slot]:
            cost, count = new, missing
            loose[:count] = order[:count]
            copied(tried, tried_heads, tried_shares, nodes, heads, shares, touched)
        else:
            copied(nodes, heads, shares, tried, tried_heads, tried_shares, touched)
        history[slot] = min(cost, history[slot])
    return count, begun + steps


@compilable
def copied(
    nodes: Ints, heads: Ints, shares: Floats, to: Ints, to_heads: Ints, to_shares: Floats, touched: Flags
) -> None:
    """The sheets touched, from one to the other; none is touched then."""
    for sheet in range(len(heads)):
        if touched[sheet]:
            to_heads[sheet] = heads[sheet]
            to_shares[sheet] = shares[sheet]
            if heads[sheet, KIND] != NONE:
                used = heads[sheet, NUMBERED]
                to[sheet, :used] = nodes[sheet, :used]
            touched[sheet] = False


@compilable
def all_in(
    nodes: Ints, heads: Ints, best: Ints, best_heads: Ints, job: Job, budget: int, for_cost: bool, begun: int,
    steps: int, history: Floats, state: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Go on for so many steps with nothing loose, within the budget, to less cost or to better leftovers.

    `best` is what it begins with and becomes the best met. All steps taken, and by which of them it last
    became better (0: by none).
    """
    count = len(heads)
    tried, tried_heads = np.empty_like(nodes), np.empty_like(heads)
    loose = np.empty(len(job.sizes), np.int64)
    good, tried_good = np.empty(count), np.empty(count)
    for sheet in range(count):
        good[sheet] = goodness(nodes, heads, sheet, job, for_cost)
    touched = np.ones(count, np.bool_)
    copied(nodes, heads, good, tried, tried_heads, tried_good, touched)
    now, better = good.sum(), 0
    most = 0.0
    for sheet in range(count):
        most += goodness(best, best_heads, sheet, job, for_cost)
    least = spent(best_heads, job)
    if history[0] == np.inf:
        history[:] = now
    for step in range(begun, begun + steps):
        low, high = looked_at(heads, state)
        found = ruined(tried, tried_heads, low, high, loose, 0, touched, state)
        order = ordered(loose[:found], job.sizes, state)
        missing = put_in(
            tried, tried_heads, low, high, job, order, budget, _NOISE * draw(state), _SKIPPED, touched, state
        )
        for sheet in range(count):
            if touched[sheet]:
                tried_good[sheet] = goodness(tried, tried_heads, sheet, job, for_cost)
        new, slot = tried_good.sum(), step % len(history)
        if missing == 0 and (new >= now or new >= history[slot]):
            now = new
            copied(tried, tried_heads, tried_good, nodes, heads, good, touched)
        else:
            copied(nodes, heads, good, tried, tried_heads, tried_good, touched)
        history[slot] = max(now, history[slot])
        cost = spent(heads, job)
        if cost < least or (cost == least and now > most):
            least, most, better = cost, now, step
            best[:], best_heads[:] = nodes, heads
    return begun + steps, better


@compilable
def goodness(nodes: Ints, heads: Ints, sheet: int, job: Job, for_cost: bool) -> float:
    """What an open sheet counts for."""
    if heads[sheet, KIND] == NONE:
        return 0.0
    if for_cost:
        return float(-job.costs[heads[sheet, KIND]] * (1 - _EMPTIED * left_on(heads, sheet, job)))
    return kept_of(nodes, heads, sheet, job)


@compilable
def kept_of(nodes: Ints, heads: Ints, sheet: int, job: Job) -> float:
    """What the free pieces of a sheet that are worth keeping are worth; those with a flaw are not."""
    if heads[sheet, KIND] == NONE:
        return 0.0
    kerf, found = job.rules[KERF], 0.0
    for node in range(heads[sheet, NUMBERED]):
        if nodes[sheet, node, ITEM] != FREE:
            continue
        long, wide = nodes[sheet, node, LENGTH] - kerf, nodes[sheet, node, WIDTH] - kerf
        if max(long, wide) < job.rules[KEEP_LONG] or min(long, wide) < job.rules[KEEP_WIDE]:
            continue
        x, y = nodes[sheet, node, X], nodes[sheet, node, Y]
        if heads[sheet, FLAWED] == 0 or is_clear(job, heads[sheet, KIND], x, x + long, y, y + wide):
            found += worth(long * wide)
    return found
