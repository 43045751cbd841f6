"""`front toward top 100 deg, about: top back of lid board`: edges by their faces, turns without signs."""

from __future__ import annotations

from collections.abc import Callable

from scantling.piece.language.phrases import EdgeOf, Turn, Words
from scantling.piece.model import Axis, Face, Vec3, face_of
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.faces import FACE_OF_WORD, Reader, extent
from scantling.piece.resolve.narrowing import agreed, meant
from scantling.piece.resolve.steps import Swivel
from scantling.piece.resolve.wanting import size_in
from scantling.quantity.kinds import Kind


def turn_axis(asker: Asker, turn: Turn) -> tuple[Axis, int]:
    """The axis a face turns about when it goes toward another, and the right-handed sense.

    The cross product of the two outward normals: front (0, -1, 0) toward top (0, 0, 1) turns about
    (-1, 0, 0).
    """
    face, toward = _face(asker, turn.face, turn), _face(asker, turn.toward, turn)
    if face.axis is toward.axis:
        raise asker.error(
            f"`{turn.face} toward {turn.toward}` is no turn", turn, "the two faces must be neighbours"
        )
    axis = next(a for a in Axis if a not in (face.axis, toward.axis))
    right_handed = (face.axis + 1) % 3 == toward.axis
    return axis, face.sign * toward.sign * (1 if right_handed else -1)


def _face(asker: Asker, word: str, words: Words) -> Face:
    if word not in FACE_OF_WORD:
        raise asker.error(f"`{word}` is no face", words, "write left, right, front, back, top or bottom")
    return FACE_OF_WORD[word]


def swivel_of(asker: Asker, turn: Turn, what: str, about: EdgeOf | None = None) -> Swivel:
    """The turn a phrase asks for; the edge it turns about is worked out when asked."""
    edge = about or turn.about
    axis, sense = turn_axis(asker, turn)
    if edge is None:
        raise asker.error("about which edge?", turn, _edge_to_add(what))
    faces = _edge_faces(asker, edge, axis)
    return Swivel(
        axis, lambda: sense * size_in(asker, turn.angle, Kind.ANGLE), _point(asker, edge, faces), what
    )


def _edge_to_add(what: str) -> str:
    return "add `about: top back of board`" if what == "swing" else "add `about bottom back`"


def _edge_faces(asker: Asker, edge: EdgeOf, axis: Axis) -> tuple[Face, ...]:
    faces = tuple(_face(asker, word, edge) for word in edge.faces)
    if len(faces) != 2 or {f.axis for f in faces} != set(Axis) - {axis}:
        across = " and ".join(
            "left or right" if a is Axis.WIDE else "front or back" if a is Axis.DEEP else "top or bottom"
            for a in Axis
            if a is not axis
        )
        raise asker.error(
            f"it turns about an edge that runs {axis.word}", edge, f"name the edge by two faces: {across}"
        )
    return faces


def _point(asker: Asker, edge: EdgeOf, faces: tuple[Face, ...]) -> Callable[[], Vec3]:
    def work() -> Vec3:
        point = [0.0, 0.0, 0.0]
        for axis in Axis:
            point[axis] = edge_place(asker, edge, next((f for f in faces if f.axis is axis), None), axis)
        return (point[0], point[1], point[2])

    return work


def edge_place(asker: Asker, edge: EdgeOf, face: Face | None, axis: Axis) -> float:
    """Where an edge lies along an axis; along its own run, its middle."""
    if edge.of is None:
        box = asker.box(axis)
        return box.middle if face is None else (box.low if face.sign < 0 else box.high)
    seen = meant(asker, edge.of)
    if face is None:
        reaches = [extent(s, axis) for s in seen]
        return (min(r.low for r in reaches) + max(r.high for r in reaches)) / 2
    return agreed(asker, edge.of, seen, lambda s: Reader(asker, edge).face(s, face)[0], edge)


def unit(axis: Axis, sign: int) -> Vec3:
    """The unit vector along an axis, that way."""
    return face_of(axis, sign).normal
