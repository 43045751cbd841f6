"""Solids, contacts, sweeps, hidden lines and shaded regions of a machined piece.

Knows shapes and where they stand; knows nothing of strength, boards or screens.
Gives scenes, answers in mm, mm² and mm³ in the piece's frame, and pictures as SVG and GLB.
"""

from scantling.geometry.drawing import LineDrawing, Region, ShadedPicture
from scantling.geometry.view import View

__all__ = ["LineDrawing", "Region", "ShadedPicture", "View"]
