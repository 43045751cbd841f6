"""Sheets as trees of cuts in arrays of whole numbers: pieces put in and taken out again.

A node is a rectangle: free, a piece wanted, or cut into others side by side by cuts of one direction, which
are cut in the other direction. Sizes count a kerf to every piece. On a sheet without flaws only sizes mean
anything: side by side may be in any order, so a node keeps all that is free of it in one. On one with flaws
pieces stay where they were put.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from scantling.cutting.solver.compiled import compilable

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

# Of a node. STAGE and ACROSS are of the cuts it was made by; those of the whole sheet are 0 and the other
# direction than its own cuts have, or ANY.
PARENT, FIRST, NEXT, ITEM, TURNED, STAGE, ACROSS, X, Y, LENGTH, WIDTH = range(11)
FIELDS = 11
FREE, CUT, VOID = -1, -2, -3  # in place of an item
NONE, ANY = -1, -1
# Of a sheet: nodes numbered so far, first of those not in use (by NEXT), number in use, area put in.
KIND, NUMBERED, VACANT, LIVE, FILLED, FLAWED = range(6)
HEADS = 6
MOST_NEW = 7  # nodes made by putting one piece in


@compilable
def opened(nodes: Ints, heads: Ints, sheet: int, kind: int, length: int, width: int, flawed: int) -> None:
    """A whole sheet, nothing cut from it."""
    heads[sheet, KIND] = kind
    heads[sheet, NUMBERED] = 1
    heads[sheet, VACANT] = NONE
    heads[sheet, LIVE] = 1
    heads[sheet, FILLED] = 0
    heads[sheet, FLAWED] = flawed
    _written(nodes, sheet, 0, NONE, 0, ANY, 0, 0, length, width)


@compilable
def _written(
    nodes: Ints, sheet: int, node: int, parent: int, stage: int, across: int, x: int, y: int,
    long: int, wide: int,
) -> None:  # fmt: skip
    nodes[sheet, node, PARENT] = parent
    nodes[sheet, node, FIRST] = NONE
    nodes[sheet, node, NEXT] = NONE
    nodes[sheet, node, ITEM] = FREE
    nodes[sheet, node, TURNED] = 0
    nodes[sheet, node, STAGE] = stage
    nodes[sheet, node, ACROSS] = across
    nodes[sheet, node, X] = x
    nodes[sheet, node, Y] = y
    nodes[sheet, node, LENGTH] = long
    nodes[sheet, node, WIDTH] = wide


@compilable
def _new_like(nodes: Ints, heads: Ints, sheet: int, other: int) -> int:
    """A new free node of the place and size of another, cut from the same."""
    number = heads[sheet, VACANT]
    if number == NONE:
        number = heads[sheet, NUMBERED]
        heads[sheet, NUMBERED] += 1
    else:
        heads[sheet, VACANT] = nodes[sheet, number, NEXT]
    heads[sheet, LIVE] += 1
    _written(
        nodes, sheet, number, nodes[sheet, other, PARENT], nodes[sheet, other, STAGE],
        nodes[sheet, other, ACROSS], nodes[sheet, other, X], nodes[sheet, other, Y],
        nodes[sheet, other, LENGTH], nodes[sheet, other, WIDTH],
    )  # fmt: skip
    return int(number)


@compilable
def _dropped(nodes: Ints, heads: Ints, sheet: int, node: int) -> None:
    """A node no longer in use."""
    nodes[sheet, node, ITEM] = VOID
    nodes[sheet, node, NEXT] = heads[sheet, VACANT]
    heads[sheet, VACANT] = node
    heads[sheet, LIVE] -= 1


@compilable
def sliced(nodes: Ints, heads: Ints, sheet: int, node: int, across: int, offset: int, size: int) -> int:
    """Cut a free node so that a piece of this size begins at this offset: the number of that piece."""
    extent, place = (LENGTH, X) if across == 1 else (WIDTH, Y)
    if size == nodes[sheet, node, extent]:
        return node
    if nodes[sheet, node, ACROSS] != across or nodes[sheet, node, PARENT] == NONE:
        child = _new_like(nodes, heads, sheet, node)
        nodes[sheet, node, ITEM] = CUT
        nodes[sheet, node, FIRST] = child
        if nodes[sheet, node, PARENT] == NONE:
            nodes[sheet, node, ACROSS] = 1 - across
        nodes[sheet, child, PARENT] = node
        nodes[sheet, child, STAGE] = nodes[sheet, node, STAGE] + 1
        nodes[sheet, child, ACROSS] = across
        node = child
    if offset > 0:
        node = _parted(nodes, heads, sheet, node, extent, place, offset)
    if size < nodes[sheet, node, extent]:
        _parted(nodes, heads, sheet, node, extent, place, size)
    return node


@compilable
def _parted(nodes: Ints, heads: Ints, sheet: int, node: int, extent: int, place: int, at: int) -> int:
    """A node in two, side by side: the number of the second."""
    beyond = _new_like(nodes, heads, sheet, node)
    nodes[sheet, beyond, NEXT] = nodes[sheet, node, NEXT]
    nodes[sheet, node, NEXT] = beyond
    nodes[sheet, beyond, place] += at
    nodes[sheet, beyond, extent] -= at
    nodes[sheet, node, extent] = at
    return beyond


@compilable
def put(
    nodes: Ints, heads: Ints, sheet: int, node: int, item: int, turned: int, long: int, wide: int,
    across: int, over: int, beside: int,
) -> None:  # fmt: skip
    """A piece into a free node, so far over and beside its corner, the first cuts across or along."""
    if across == 1:
        node = sliced(nodes, heads, sheet, node, 1, over, long)
        node = sliced(nodes, heads, sheet, node, 0, beside, wide)
    else:
        node = sliced(nodes, heads, sheet, node, 0, beside, wide)
        node = sliced(nodes, heads, sheet, node, 1, over, long)
    nodes[sheet, node, ITEM] = item
    nodes[sheet, node, TURNED] = turned
    heads[sheet, FILLED] += long * wide


@compilable
def pruned(nodes: Ints, heads: Ints, sheet: int, root: int, loose: Ints, found: int) -> int:
    """A node made free, and one with what is free beside it; what lay there is added to `loose`."""
    found = _emptied(nodes, heads, sheet, root, loose, found)
    nodes[sheet, root, ITEM] = FREE
    nodes[sheet, root, FIRST] = NONE
    node = root
    while nodes[sheet, node, PARENT] != NONE:
        parent = nodes[sheet, node, PARENT]
        _joined(nodes, heads, sheet, parent)
        only = nodes[sheet, parent, FIRST]
        if nodes[sheet, only, NEXT] != NONE:
            return found
        _dropped(nodes, heads, sheet, only)
        nodes[sheet, parent, ITEM] = FREE
        nodes[sheet, parent, FIRST] = NONE
        node = parent
    nodes[sheet, node, ACROSS] = ANY
    return found


@compilable
def _emptied(nodes: Ints, heads: Ints, sheet: int, root: int, loose: Ints, found: int) -> int:
    """Everything within a node dropped, from the deepest up."""
    node = root
    while True:
        while nodes[sheet, node, ITEM] == CUT and nodes[sheet, node, FIRST] != NONE:
            node = nodes[sheet, node, FIRST]
        if nodes[sheet, node, ITEM] >= 0:
            loose[found] = nodes[sheet, node, ITEM]
            found += 1
            heads[sheet, FILLED] -= nodes[sheet, node, LENGTH] * nodes[sheet, node, WIDTH]
        if node == root:
            return found
        parent = nodes[sheet, node, PARENT]
        nodes[sheet, parent, FIRST] = nodes[sheet, node, NEXT]
        _dropped(nodes, heads, sheet, node)
        node = parent


@compilable
def _joined(nodes: Ints, heads: Ints, sheet: int, parent: int) -> None:
    """What is free side by side becomes one; on a sheet without flaws wherever it lies."""
    free = before = NONE
    node = nodes[sheet, parent, FIRST]
    while node != NONE:
        following = nodes[sheet, node, NEXT]
        if nodes[sheet, node, ITEM] != FREE:
            if heads[sheet, FLAWED] == 1:
                free = NONE
            before = node
        elif free == NONE:
            free = before = node
        else:
            extent = LENGTH if nodes[sheet, node, ACROSS] == 1 else WIDTH
            nodes[sheet, free, extent] += nodes[sheet, node, extent]
            nodes[sheet, before, NEXT] = following
            _dropped(nodes, heads, sheet, node)
        node = following
