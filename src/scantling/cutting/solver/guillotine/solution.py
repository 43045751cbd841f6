"""Sheets as trees of cuts; every fact of them is worked out afresh."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.cutting.solver.guillotine.problem import SheetProblem

NOTHING = -1


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle that exists at some moment: cut in two, a piece wanted, or left over.

    `across`: the cut runs across the length, at `at`; the kerf lies beyond it. `parts`: the pieces below and
    beyond it. `wanted`: the number of the rectangle it is, `turned` if it lies across.
    """

    x: int
    y: int
    length: int
    width: int
    wanted: int = NOTHING
    turned: bool = False
    across: bool = False
    at: int = 0
    parts: tuple[Piece, ...] = ()

    def leaves(self) -> Iterator[Piece]:
        """Pieces that are cut no further."""
        todo = [self]
        while todo:
            piece = todo.pop()
            todo += reversed(piece.parts)
            if not piece.parts:
                yield piece


@dataclass(frozen=True)
class SheetAnswer:
    """`bound`: no fewer sheets can give all that is wanted; 0 where something is unmet.

    `unmet`: (number of the rectangle, how many). `steps`: how often something was taken apart.
    """

    problem: SheetProblem
    sheets: tuple[Piece, ...]
    bound: int
    unmet: tuple[tuple[int, int], ...] = ()
    steps: int = 0

    @property
    def value(self) -> int:
        """How many sheets are cut into."""
        return len(self.sheets)

    @property
    def proven(self) -> bool:
        """Whether no fewer can do."""
        return not self.unmet and self.value <= self.bound
