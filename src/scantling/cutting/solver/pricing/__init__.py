"""What one bin can earn at given prices: proven, and bins that earn nearly so much."""

from scantling.cutting.solver.pricing.heeding import heeding
from scantling.cutting.solver.pricing.pricer import COARSE, FINE, Pricer

__all__ = ["COARSE", "FINE", "Pricer", "heeding"]
