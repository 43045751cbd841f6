"""All bins at once: the least money, by a linear program over patterns, and whole plans from it."""

from scantling.cutting.solver.master.solve import Mastered, solve

__all__ = ["Mastered", "solve"]
