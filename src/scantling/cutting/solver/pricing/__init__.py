"""What one warped, defective bin can earn at most, and bins that earn nearly so much."""

from scantling.cutting.solver.pricing.pricer import Pricer

__all__ = ["Pricer"]
