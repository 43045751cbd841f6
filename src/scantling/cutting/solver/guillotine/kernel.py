"""Ruin and recreate over sheets cut from edge to edge: numbers and arrays only.

A sheet is a list of nodes. A node is a rectangle: free, or with a piece in its lower corner and the rest cut
into two nodes by one cut along or across. (Sheets in which some cut ends at no single piece's edge are not
of this kind: with very few pieces a sheet may be lost to that.)

Some sheets are emptied, or a node of them, and what lay there put in again, hardest first with some noise,
each where it leaves least; the change stays if it is no worse than what stood some steps ago (late
acceptance, Burke and Bykov 2017).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from scantling.cutting.solver.compiled import compiled

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Floats = NDArray[np.float64]

X, Y, LENGTH, WIDTH, ITEM, TURNED, ACROSS, BEYOND, BESIDE = range(9)  # of a node
FIELDS = 9
FREE = -1
ALWAYS = 1e18  # times as large as any other
FLIPPED = 0.005  # share of the pieces whose first cut is left to chance


@compiled
def draw(state: Ints) -> float:
    """The next number from 0 to 1 (xorshift; Marsaglia 2003): one that numba and Python make alike."""
    value = state[0]
    value ^= (value << 13) & 0x7FFFFFFFFFFFFFFF
    value ^= value >> 7
    value ^= (value << 17) & 0x7FFFFFFFFFFFFFFF
    state[0] = value
    return float((value >> 10) / 9007199254740992.0)


@compiled
def opened(nodes: Ints, counts: Ints, sheet: int, length: int, width: int) -> None:
    """A whole sheet, nothing cut from it."""
    counts[sheet] = 1
    nodes[sheet, 0] = 0
    nodes[sheet, 0, LENGTH] = length
    nodes[sheet, 0, WIDTH] = width
    nodes[sheet, 0, ITEM] = FREE


@compiled
def best_place(
    nodes: Ints, counts: Ints, used: int, size: Ints, turns: bool, noise: float, state: Ints
) -> tuple[int, int, int]:
    """Sheet, node and whether turned where a piece leaves the least beside it; -1 where it has no room."""
    best_sheet, best_node, best_turned, best = -1, -1, 0, np.inf
    for sheet in range(used):
        for node in range(counts[sheet]):
            if nodes[sheet, node, ITEM] != FREE:
                continue
            for turned in range(2 if turns else 1):
                along, across = size[turned], size[1 - turned]
                over = nodes[sheet, node, LENGTH] - along
                beside = nodes[sheet, node, WIDTH] - across
                if over < 0 or beside < 0:
                    continue
                area = nodes[sheet, node, LENGTH] * nodes[sheet, node, WIDTH]
                score = (area - along * across + min(over, beside) * max(along, across)) * (
                    1 + noise * draw(state)
                )
                if score < best:
                    best_sheet, best_node, best_turned, best = sheet, node, turned, score
    return best_sheet, best_node, best_turned


@compiled
def put(
    nodes: Ints,
    counts: Ints,
    sheet: int,
    node: int,
    item: int,
    turned: int,
    along: int,
    across: int,
    bent: float,
) -> None:
    """A piece into the corner of a free node; the rest is cut so that the larger rest is as large as can be.

    `bent`: above 1 cuts across are liked more, below 1 less.
    """
    over = nodes[sheet, node, LENGTH] - along
    beside = nodes[sheet, node, WIDTH] - across
    whole_over = over * nodes[sheet, node, WIDTH]
    whole_beside = beside * nodes[sheet, node, LENGTH]
    first_across = whole_over * bent > whole_beside
    nodes[sheet, node, ITEM] = item
    nodes[sheet, node, TURNED] = turned
    nodes[sheet, node, ACROSS] = 1 if first_across else 0
    nodes[sheet, node, BEYOND] = FREE
    nodes[sheet, node, BESIDE] = FREE
    x, y = nodes[sheet, node, X], nodes[sheet, node, Y]
    if over > 0:
        wide = nodes[sheet, node, WIDTH] if first_across else across
        nodes[sheet, node, BEYOND] = added(nodes, counts, sheet, x + along, y, over, wide)
    if beside > 0:
        long = along if first_across else nodes[sheet, node, LENGTH]
        nodes[sheet, node, BESIDE] = added(nodes, counts, sheet, x, y + across, long, beside)


@compiled
def added(nodes: Ints, counts: Ints, sheet: int, x: int, y: int, length: int, width: int) -> int:
    """The number of a new free node."""
    number = counts[sheet]
    counts[sheet] = number + 1
    nodes[sheet, number] = 0
    nodes[sheet, number, X] = x
    nodes[sheet, number, Y] = y
    nodes[sheet, number, LENGTH] = length
    nodes[sheet, number, WIDTH] = width
    nodes[sheet, number, ITEM] = FREE
    return int(number)


@compiled
def put_in(
    nodes: Ints, counts: Ints, used: int, most: int, order: Ints, sizes: Ints, turns: Ints, room: Ints,
    noise: float, state: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Everything in this order, a new sheet where nothing has room: how many sheets, and what found none."""
    missing = 0
    for item in order:
        sheet, node, turned = best_place(nodes, counts, used, sizes[item], turns[item], noise, state)
        if sheet < 0:
            if used >= most:
                missing += 1
                continue
            sheet, node, turned = used, 0, 0
            opened(nodes, counts, sheet, room[0], room[1])
            used += 1
            if sizes[item, 0] > room[0] or sizes[item, 1] > room[1]:
                turned = 1
        bent = 1.0
        if noise > 0:
            bent += noise * (draw(state) - 0.5) * 4
            if draw(state) < FLIPPED:
                bent = ALWAYS * (draw(state) < 0.5)
        put(nodes, counts, sheet, node, item, turned, sizes[item, turned], sizes[item, 1 - turned], bent)
    return used, missing


@compiled
def filled_areas(nodes: Ints, counts: Ints, used: int, areas: Ints) -> Ints:
    """Area of the pieces on each sheet."""
    found = np.zeros(used, np.int64)
    for sheet in range(used):
        for node in range(counts[sheet]):
            if nodes[sheet, node, ITEM] != FREE:
                found[sheet] += areas[nodes[sheet, node, ITEM]]
    return found


@compiled
def cost_of(filled: Ints, whole: int) -> float:
    """Sheets, less a reward for uneven filling: a sheet nearly empty is nearly saved."""
    total = 0.0
    for area in filled:
        share = area / whole
        total += 1 - 0.5 * share * share
    return total


@compiled
def improved(
    nodes: Ints, counts: Ints, used: int, now: Ints, now_counts: Ints, now_used: int,
    sizes: Ints, turns: Ints, room: Ints, enough: int, begun: int, steps: int, state: Ints, history: Floats,
) -> tuple[int, int, int]:  # fmt: skip
    """Go on from `now`, after `begun` steps, for so many more, or until `enough` sheets do.

    `nodes` and `counts` become the best met. Gives how many sheets that has, how many `now` has, and the
    steps taken in all.
    """
    areas = sizes[:, 0] * sizes[:, 1]
    whole = room[0] * room[1]
    most = len(nodes)
    cost = cost_of(filled_areas(now, now_counts, now_used, areas), whole)
    best = cost_of(filled_areas(nodes, counts, used, areas), whole)
    tried, tried_counts = nodes.copy(), counts.copy()
    for step in range(begun, begun + steps):
        if used <= enough:
            return used, now_used, step
        tried[:now_used] = now[:now_used]
        tried_counts[:now_used] = now_counts[:now_used]
        kept, loose = ruined(tried, tried_counts, now_used, areas, state)
        order = ordered(loose, sizes, state)
        made, missing = put_in(
            tried, tried_counts, kept, most, order, sizes, turns, room, 0.3 * draw(state), state
        )
        if missing:
            continue
        new = cost_of(filled_areas(tried, tried_counts, made, areas), whole)
        slot = step % len(history)
        if new <= cost or new <= history[slot]:
            now[:made], now_counts[:made] = tried[:made], tried_counts[:made]
            now_used, cost = made, new
        history[slot] = cost
        if cost < best - 1e-9:
            best, used = cost, now_used
            nodes[:used], counts[:used] = now[:used], now_counts[:used]
    return used, now_used, begun + steps


@compiled
def ruined(nodes: Ints, counts: Ints, used: int, areas: Ints, state: Ints) -> tuple[int, Ints]:
    """Some sheets taken out, the emptiest often among them, and parts of others: how many sheets are left,
    and what lay where nothing lies now.
    """
    filled = filled_areas(nodes, counts, used, areas)
    out = np.zeros(used, np.bool_)
    if draw(state) < 0.5:
        out[np.argmin(filled)] = True
    for _ in range(int(draw(state) * 4)):
        out[int(draw(state) * used)] = True
    loose = np.empty(counts[:used].sum(), np.int64)
    found = 0
    for _ in range(int(draw(state) * 4)):
        sheet = int(draw(state) * used)
        if not out[sheet]:
            found = pruned(nodes, counts, sheet, int(draw(state) * counts[sheet]), loose, found)
    kept = 0
    for sheet in range(used):
        if out[sheet]:
            found = pruned(nodes, counts, sheet, 0, loose, found)
        else:
            if kept != sheet:
                nodes[kept, : counts[sheet]] = nodes[sheet, : counts[sheet]]
                counts[kept] = counts[sheet]
            kept += 1
    return kept, loose[:found]


@compiled
def pruned(nodes: Ints, counts: Ints, sheet: int, root: int, loose: Ints, found: int) -> int:
    """A node made free again; the nodes within it go, and what lay there is added to `loose`."""
    count = counts[sheet]
    gone = np.zeros(count, np.bool_)
    place = np.empty(count, np.int64)
    for node in range(root, count):  # a node comes after the one it is cut from
        if nodes[sheet, node, ITEM] == FREE:
            continue
        if node != root and not gone[node]:
            continue
        loose[found] = nodes[sheet, node, ITEM]
        found += 1
        for field in (BEYOND, BESIDE):
            if nodes[sheet, node, field] != FREE:
                gone[nodes[sheet, node, field]] = True
    nodes[sheet, root, ITEM] = FREE
    kept = 0
    for node in range(count):
        if gone[node]:
            continue
        place[node] = kept
        nodes[sheet, kept] = nodes[sheet, node]
        kept += 1
    for node in range(kept):
        if nodes[sheet, node, ITEM] != FREE:
            for field in (BEYOND, BESIDE):
                if nodes[sheet, node, field] != FREE:
                    nodes[sheet, node, field] = place[nodes[sheet, node, field]]
    counts[sheet] = kept
    return found


@compiled
def ordered(loose: Ints, sizes: Ints, state: Ints) -> Ints:
    """Largest first by one of four measures, a little shuffled."""
    measure = int(draw(state) * 4)
    blur = 0.5 * draw(state)
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
