"""Sizes and warp as the rack says them."""

from __future__ import annotations

from scantling.quantity import Style, dual, format_length, format_money
from scantling.shop.model import Board, BoardFace, Defect, Shop

WARPS = ("bow", "crook", "cup", "twist")


def style_of(shop: Shop) -> Style:
    """How this shop shows lengths."""
    return Style(shop.unit, shop.fraction)


def size_words(board: Board, shop: Shop) -> str:
    """`97 × 7 1/2 × 1 1/16 in`."""
    style = style_of(shop)
    sizes = [format_length(mm, style).number for mm in (board.length, board.width, board.thickness)]
    return " × ".join(sizes) + (" in" if shop.unit.value == "inches" else " mm")


def both(mm: float, shop: Shop) -> str:
    """`3/8 in (9.5 mm)`."""
    return dual(round(mm, 6), style_of(shop))


def number(mm: float, shop: Shop) -> str:
    """`7 1/2`, in the unit of the file."""
    return format_length(round(mm, 6), style_of(shop)).number


def warp_words(board: Board, shop: Shop) -> str:
    """`bow 3/8, cup 1/8`, or that it lies flat."""
    said = [f"{name} {number(value, shop)}" for name in WARPS if (value := getattr(board.warp, name))]
    if board.stations:
        count = len(board.stations)
        said.append(f"told at {count} station{'s' * (count > 1)}")
    return ", ".join(said) or "flat and straight"


def surface_words(board: Board) -> str:
    """`4/4 rough`."""
    return f"{board.nominal} {board.surface.value}".strip()


def price_words(board: Board, shop: Shop) -> str:
    """`for sale, $38.00`, or nothing for a board that is owned."""
    if board.owned:
        return ""
    return f"for sale, {shop.currency}{format_money(board.price)}" if board.price else "for sale"


def defect_told(defect: Defect, board: Board, shop: Shop) -> str:
    """`knot, 30 to 32 1/2 along, 2 to 4 across, on both faces`."""
    end = "the end" if defect.to_end >= board.length else number(defect.to_end, shop)
    edge = "the edge" if defect.to_edge >= board.width else number(defect.to_edge, shop)
    along = f"{number(defect.from_end, shop)} to {end} along"
    across = f"{number(defect.from_edge, shop)} to {edge} across"
    return f"{defect.kind}, {along}, {across}, {FACES[defect.face]}"


FACES = {
    BoardFace.BOTH: "through both faces",
    BoardFace.BEST: "on the best face only",
    BoardFace.OTHER: "on the other face only",
}
