"""How likely a cut plan comes out of boards that are not quite what they were read to be."""

from scantling.cutting.chances.readings import Spread
from scantling.cutting.chances.robust import BlankChance, BoardChance, RobustYield, robust

__all__ = ["BlankChance", "BoardChance", "RobustYield", "Spread", "robust"]
