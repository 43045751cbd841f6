"""Sheets cut from edge to edge into the rectangles wanted, for the least cost that can be found.

    solve(SheetProblem((SheetKind(2440, 1220),), (Rectangle(700, 400, 9, turns=True),), kerf=3), seconds=1)

Ruin and recreate over trees of cuts; bounds by dual feasible functions. Imports numpy and, where it is
installed, numba: import it where it is called from.
"""

from scantling.cutting.solver.guillotine.problem import Flaw, Rectangle, SheetKind, SheetProblem
from scantling.cutting.solver.guillotine.solution import NOTHING, CutSheet, Piece, SheetAnswer
from scantling.cutting.solver.guillotine.solve import solve

__all__ = [
    "NOTHING",
    "CutSheet",
    "Flaw",
    "Piece",
    "Rectangle",
    "SheetAnswer",
    "SheetKind",
    "SheetProblem",
    "solve",
]
