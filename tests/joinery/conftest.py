"""Small hand-built pieces: parts as boxes, joints by the names of two parts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import Place
from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPiece
from scantling.piece.model import (
    Axis,
    Box,
    Face,
    Glue,
    Joint,
    JointSettings,
    Material,
    MaterialKind,
    Part,
    Piece,
    face_of,
)
from scantling.quantity import LengthUnit
from scantling.shop.model import Shop

PLACE = Place("fixture.yaml", 1, 1)
OAK = Material("wood", "white oak", MaterialKind.SOLID, "oak, white")
PLY = Material("ply", "birch plywood 18", MaterialKind.SHEET, "birch plywood", thick=18.0, label=18.0)


class Joiner:
    """Builds parts, joints and pieces for a test."""

    oak, ply, place = OAK, PLY, PLACE

    def part(self, name, low, high, grain=None, material=OAK, **more):
        box = Box(tuple(map(float, low)), tuple(map(float, high)))
        longest = max(Axis, key=lambda a: box.size(a))
        return Part(name, name, box, material, longest if grain is None else grain, PLACE, **more)

    def joint(self, first, second, method, face=None, line=1, **settings):
        """`first` goes into `second` across the face they share."""
        face = face or next(
            f
            for f in Face
            if abs(first.box.face(f) - second.box.face(f.opposite)) < 0.05 and self._meet(first, second, f)
        )
        area = first.box.intersection(second.box)
        name = f"{first.name}/{second.name}/{method}"
        made = JointSettings(**settings)
        return Joint(name, first.name, second.name, method, face, face.opposite, area, made, line, PLACE)

    def _meet(self, first, second, face):
        common = first.box.intersection(second.box)
        return common is not None and all(common.size(a) > 1 for a in Axis if a != face.axis)

    def piece(self, parts, joints=(), unit=LengthUnit.MM, **more):
        low = tuple(min(p.box.low[i] for p in parts) for i in range(3))
        high = tuple(max(p.box.high[i] for p in parts) for i in range(3))
        return Piece("fixture", unit, Box(low, high), tuple(parts), tuple(joints), **more)

    def machined(self, parts, joints=(), shop=None, **more) -> MachinedPiece:
        return machine_piece(self.piece(parts, joints, **more), shop or Shop("shed", LengthUnit.MM))

    def glue(self, extent="all", where="", length=0.0):
        return Glue(extent, where, length)

    def mirrored(self, part, axis, about, name):
        """The mirror image of a part, as a copy on the other side."""
        low, high = part.box.low[axis], part.box.high[axis]
        box = part.box.with_span(axis, 2 * about - high, 2 * about - low)
        words = {"left": "right", "front": "back"}
        copies = tuple(words.get(word, word) for word in part.copy_words)
        return replace(part, name=name, box=box, mirrored=not part.mirrored, copy_words=copies)

    def opposite(self, face, axis):
        return face_of(face.axis, -face.sign) if face.axis == axis else face


@pytest.fixture
def bench_of():
    return Joiner()
