"""Areas of wood to sand and to coat, from the boxes of the parts. m²."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.model import Axis, Box, Face, Part, PartName, Piece, Vec3

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
    boxes = [part.box for part in piece.parts]
    return sum(
        _face_area(part.box, face) / MM2_PER_M2
        for part in piece.parts
        for face in Face
        if not any(_before(box, face, part.box) for box in boxes if box is not part.box)
    )


def _face_area(box: Box, face: Face) -> float:
    a, b = (box.size(axis) for axis in Axis if axis is not face.axis)
    return a * b


def _before(box: Box, face: Face, own: Box) -> bool:
    """Whether `box` stands before the middle of `own`'s face."""
    beyond = (box.face(face) - own.face(face)) * face.sign
    return beyond > 1e-6 and all(_spans(box, axis, own.centre) for axis in Axis if axis is not face.axis)


def _spans(box: Box, axis: Axis, at: Vec3) -> bool:
    return box.low[axis] < at[axis] < box.high[axis]


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
