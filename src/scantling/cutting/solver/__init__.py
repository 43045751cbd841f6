"""Cutting rectangles and strips from bins, in guillotine stages. Knows items, bins, defects and kerf.

Knows nothing of wood, shops or furniture. Gives problems, fillings of bins and the search for better ones.
"""

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.problem import SCALE, Barred, Item, Panel, Problem, Stock
from scantling.cutting.solver.search import Filling, Search

__all__ = ["SCALE", "Barred", "Bin", "Filling", "Item", "Panel", "Problem", "Search", "Stock"]
