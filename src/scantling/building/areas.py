"""Areas of wood to sand and to coat, from the boxes of the parts. m²."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.piece.model import Part, PartName, Piece, Vec3

MM2_PER_M2 = 1e6


def surface(part: Part) -> float:
    """All six faces of a part's box. [m²]"""
    wide, deep, high = part.box.sizes
    return 2 * (wide * deep + deep * high + high * wide) / MM2_PER_M2


def surface_of(piece: Piece, names: Iterable[PartName]) -> float:
    """All faces of these parts. [m²]"""
    return sum(surface(piece.part_by_name[name]) for name in names)


def outside(piece: Piece) -> float:
    """Faces that see the room: nothing of the piece stands straight before their middle. [m²]

    An estimate from boxes: a face half covered counts whole or not at all.
    """
    boxes = [(part.box.low, part.box.high) for part in piece.parts]
    return sum(_open_area(boxes, at, axis) for at in range(len(boxes)) for axis in range(3)) / MM2_PER_M2


def _open_area(boxes: Sequence[tuple[Vec3, Vec3]], own: int, axis: int) -> float:
    """Area of the low and the high face of one box across `axis`, where nothing stands before them. [mm²]"""
    low, high = boxes[own]
    a, b = (other for other in range(3) if other != axis)
    at_a, at_b = (low[a] + high[a]) / 2, (low[b] + high[b]) / 2
    before = [
        box
        for box in boxes
        if box[0][a] < at_a < box[1][a] and box[0][b] < at_b < box[1][b] and box is not boxes[own]
    ]
    faces = all(box[0][axis] >= low[axis] for box in before) + all(
        box[1][axis] <= high[axis] for box in before
    )
    return faces * (high[a] - low[a]) * (high[b] - low[b])


def coated(piece: Piece, over: tuple[str, ...]) -> float:
    """Area of one coat over "all", "outside" or the parts named. [m²]"""
    if "outside" in over:
        return outside(piece)
    if "all" in over or not over:
        return surface_of(piece, piece.part_by_name)
    return surface_of(piece, parts_coated(piece, over))


def parts_coated(piece: Piece, over: tuple[str, ...]) -> tuple[PartName, ...]:
    """The parts a coat goes over; all of them for "all" and "outside"."""
    if "outside" in over or "all" in over or not over:
        return tuple(piece.part_by_name)
    named = {" ".join(words.lower().split()) for words in over}
    return tuple(p.name for p in piece.parts if p.name.lower() in named or p.definition.lower() in named)
