"""Cutting stock in one dimension, to a proven optimum: sticks of several lengths, costs and supplies.

    solve(StickProblem((Stick(2440, cost=9),), (Length(610, 7),), kerf=3), seconds=1) -> StickAnswer

Column generation with exact pricing bounds the cost from below in whole numbers; diving finds the cuts.
Imports HiGHS and, where it is installed, numba: import it where it is called from.
"""

from scantling.cutting.solver.sticks.problem import Length, Stick, StickProblem
from scantling.cutting.solver.sticks.solution import Cut, StickAnswer
from scantling.cutting.solver.sticks.solve import solve

__all__ = ["Cut", "Length", "Stick", "StickAnswer", "StickProblem", "solve"]
