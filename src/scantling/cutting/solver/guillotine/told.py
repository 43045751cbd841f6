"""From the arrays of the kernel to trees of cuts in places of the untrimmed sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.cutting.solver.guillotine.solution import CutSheet, Piece
from scantling.cutting.solver.guillotine.tree import (
    ACROSS,
    FIRST,
    FLAWED,
    ITEM,
    KIND,
    LENGTH,
    NEXT,
    NONE,
    TURNED,
    WIDTH,
    X,
    Y,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from scantling.cutting.solver.guillotine.problem import SheetProblem

    Ints = NDArray[np.int64]

Node = list[int]


def told(problem: SheetProblem, numbers: Ints, nodes: Ints, heads: Ints) -> tuple[CutSheet, ...]:
    """Every open sheet; `numbers`: of the rectangle each piece is."""
    names = [int(number) for number in numbers]
    sheets = []
    for sheet, head in enumerate(heads.tolist()):
        if head[KIND] != NONE:
            corner = problem.sheets[head[KIND]].corner(problem.kerf)
            teller = _Teller(nodes[sheet].tolist(), names, problem.kerf, head[FLAWED] == 1)
            sheets.append(CutSheet(head[KIND], teller.piece(0, corner, corner)))
    return tuple(sorted(sheets, key=lambda each: each.kind))


class _Teller:
    """One sheet. Where nothing is flawed the larger pieces are cut off first and what is free comes last, so
    that equal settings follow each other and leftovers lie together.
    """

    def __init__(self, nodes: list[Node], names: list[int], kerf: int, flawed: bool) -> None:
        self.nodes, self.names, self.kerf, self.flawed = nodes, names, kerf, flawed

    def piece(self, number: int, at: tuple[int, int], corner: tuple[int, int]) -> Piece:
        """A node lying at `at`, or where it says from the corner of a flawed sheet."""
        node = self.nodes[number]
        if self.flawed:
            at = (corner[0] + node[X], corner[1] + node[Y])
        size = (node[LENGTH] - self.kerf, node[WIDTH] - self.kerf)
        if node[FIRST] == NONE:
            if node[ITEM] < 0:
                return Piece(*at, *size)
            return Piece(*at, *size, self.names[node[ITEM]], bool(node[TURNED]))
        return self._chain(self._children(number), at, size, corner)

    def _children(self, number: int) -> list[int]:
        found = []
        child = self.nodes[number][FIRST]
        while child != NONE:
            found.append(child)
            child = self.nodes[child][NEXT]
        if self.flawed:
            return found
        extent = LENGTH if self.nodes[found[0]][ACROSS] == 1 else WIDTH
        return sorted(found, key=lambda n: (self._is_free(n), -self.nodes[n][extent], n))

    def _is_free(self, number: int) -> bool:
        return self.nodes[number][FIRST] == NONE and self.nodes[number][ITEM] < 0

    def _chain(
        self, children: list[int], at: tuple[int, int], size: tuple[int, int], corner: tuple[int, int]
    ) -> Piece:
        """The pieces side by side, each cut off in turn."""
        across = self.nodes[children[0]][ACROSS] == 1
        extent, side = (LENGTH, 0) if across else (WIDTH, 1)
        end = at[side] + size[side]
        starts, start = [], at[side]
        for child in children:
            starts.append(start)
            start += self.nodes[child][extent]
        rest: Piece | None = None
        for child, start in zip(reversed(children), reversed(starts), strict=True):
            place = (start, at[1]) if across else (at[0], start)
            piece = self.piece(child, place, corner)
            if min(piece.length, piece.width) <= 0:
                continue  # less than a kerf between two cuts
            until = end if rest is None else (rest.x, rest.y)[side] - self.kerf
            if (piece.x + piece.length, piece.y + piece.width)[side] < until:
                piece = _cut(piece, None, until, across=across)
            rest = piece if rest is None else _cut(piece, rest, end, across=across)
        if rest is None:
            raise AssertionError("a rectangle is cut into nothing")
        return rest


def _cut(piece: Piece, rest: Piece | None, end: int, *, across: bool) -> Piece:
    """What a piece and the rest beyond it are cut from; it ends at `end`."""
    length = end - piece.x if across else piece.length
    width = piece.width if across else end - piece.y
    at = piece.x + piece.length if across else piece.y + piece.width
    parts = (piece,) if rest is None else (piece, rest)
    return Piece(piece.x, piece.y, length, width, across=across, at=at, parts=parts)
