"""Lengths and defects as a maker writes them in the file's own unit."""

from __future__ import annotations

from scantling.quantity import LengthUnit, Style, format_length
from scantling.quantity.kinds import MM_PER_INCH
from scantling.shop.model import Board, BoardFace, Defect, Shop

FINEST = 16  # of an inch: nobody measures a knot closer


def defect_words(defect: Defect, board: Board, shop: Shop) -> str:
    """`knot 30 to 32 1/2 x 2 to 4 on best`: to the nearest 1/16 in or whole mm, never less than one step.

    What reaches the far end or edge is written `end` or `edge`.
    """
    along = _reach(defect.from_end, defect.to_end, board.length, shop, "end")
    across = _reach(defect.from_edge, defect.to_edge, board.width, shop, "edge")
    face = "" if defect.face is BoardFace.BOTH else f" on {defect.face.value}"
    return f"{defect.kind} {along} x {across}{face}"


def length_words(mm: float, shop: Shop) -> str:
    """A bare number of the file: inches to the nearest 1/16 (or the shop's coarser fraction), whole mm."""
    return _words(round(mm / _step(shop)), shop)


def _reach(start: float, stop: float, limit: float, shop: Shop, far: str) -> str:
    step = _step(shop)
    first, last = sorted((max(0.0, min(start, limit)), max(0.0, min(stop, limit))))
    low, high = round(first / step), round(last / step)
    top = int(limit / step + 1e-6)
    if high >= top or last >= limit - step / 2:
        return f"{_words(min(low, top - 1), shop)} to {far}"
    return f"{_words(low, shop)} to {_words(max(high, low + 1), shop)}"


def _step(shop: Shop) -> float:
    """[mm]"""
    return MM_PER_INCH / min(shop.fraction, FINEST) if shop.unit is LengthUnit.INCHES else 1.0


def _words(steps: int, shop: Shop) -> str:
    style = Style(shop.unit, min(shop.fraction, FINEST))
    return format_length(steps * _step(shop), style).number
