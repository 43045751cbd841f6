"""Sheets cut from edge to edge into the rectangles wanted, from as few sheets as can be found.

    solve(SheetProblem(SheetKind(2440, 1220), (Rectangle(700, 400, 9, turns=True),), kerf=3), seconds=1)

Ruin and recreate over trees of cuts; bounds by dual feasible functions. Imports numpy and, where it is
installed, numba: import it where it is called from.
"""

from scantling.cutting.solver.guillotine.problem import Rectangle, SheetKind, SheetProblem
from scantling.cutting.solver.guillotine.solution import NOTHING, Piece, SheetAnswer
from scantling.cutting.solver.guillotine.solve import solve

__all__ = ["NOTHING", "Piece", "Rectangle", "SheetAnswer", "SheetKind", "SheetProblem", "solve"]
