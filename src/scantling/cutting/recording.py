"""What cutting up a board gave, in the words of a build record: all that later plans need of this one."""

from __future__ import annotations

import json
import math
import re
from dataclasses import dataclass

from scantling.cutting.cut_plan import Blank, CutPlan, Piece2D, StockLayout
from scantling.quantity import MM_PER_INCH, LengthUnit, Style, format_length

_HAIR = 1e-6
_FRACTION = 32
_PLAIN_KEY = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9/.()#-]| (?![#-]))*")


@dataclass(frozen=True, slots=True)
class BoardWords:
    """One line under `boards` of a build record: `stock: words`. Quotes stand where YAML wants them."""

    stock: str
    words: str

    @property
    def line(self) -> str:
        return f"{self.stock}: {self.words}"


def board_cut(plan: CutPlan, layout: StockLayout, unit: LengthUnit) -> BoardWords:
    """A board cut up as planned: its blanks and offcuts. `unit`: of bare numbers in the record.

    Sizes are rounded down, to 1/32 in or 0.1 mm; a blank's thickness is what it is to be milled to.
    """
    blanks = {blank.id: blank for blank in plan.blanks}
    pieces = [piece for piece in layout.pieces if piece.use == "blank"]
    cut = ", ".join(f"{piece.blank}: {_blank_size(piece, blanks[piece.blank], unit)}" for piece in pieces)
    offcuts = [piece for piece in layout.pieces if piece.use == "offcut"]
    left = f", left: [{', '.join(_offcut(piece, unit) for piece in offcuts)}]" if offcuts else ""
    return BoardWords(_key(layout.stock), f"{{cut: {{{cut}}}{left}}}")


def board_left_alone(stock: str) -> BoardWords:
    """A board kept for something else."""
    return BoardWords(_key(stock), "leave")


def _key(stock: str) -> str:
    return stock if _PLAIN_KEY.fullmatch(stock) else json.dumps(stock, ensure_ascii=False)


def _blank_size(piece: Piece2D, blank: Blank, unit: LengthUnit) -> str:
    """Along its grain first, however it lay on a sheet."""
    lies_along = piece.length >= blank.rough_length - 0.1 and piece.width >= blank.rough_width - 0.1
    long, wide = (piece.length, piece.width) if lies_along else (piece.width, piece.length)
    thick = format_length(blank.thickness, Style(unit, 2 * _FRACTION)).number
    return f"{_down(long, unit)} x {_down(wide, unit)} x {thick}"


def _offcut(piece: Piece2D, unit: LengthUnit) -> str:
    size = f"{_down(piece.length, unit)} x {_down(piece.width, unit)}"
    x, y = (format_length(at, Style(unit, _FRACTION)).number for at in (piece.x, piece.y))
    return f"{size} at {x} x {y}"


def _down(mm: float, unit: LengthUnit) -> str:
    step = 0.1 if unit is LengthUnit.MM else MM_PER_INCH / _FRACTION
    return format_length(math.floor(mm / step + _HAIR) * step, Style(unit, _FRACTION)).number
