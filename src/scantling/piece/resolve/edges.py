"""Edges of a part by the words a maker uses: `top`, `front top`, `every edge`."""

from __future__ import annotations

from scantling.piece.language.phrases import EdgeOf
from scantling.piece.model import Axis, Edge, Face
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.shapes import paired_faces
from scantling.piece.resolve.tree import Thing


def edges_of_face(face: Face) -> tuple[Edge, ...]:
    """The four edges round a face."""
    return tuple(Edge(face, other) for other in Face if other.axis is not face.axis)


def every_edge() -> tuple[Edge, ...]:
    """The twelve edges of a box."""
    faces = list(Face)
    return tuple(Edge(a, b) for i, a in enumerate(faces) for b in faces[i + 1 :] if a.axis is not b.axis)


def edges_named(asker: Asker, edge: EdgeOf) -> tuple[Face, tuple[Edge, ...]]:
    """The face a profile is worked from, and its edges.

    One face word means the four edges round it; two mean the edge between them.
    """
    if edge.of is not None:
        raise asker.error("work is on this part alone", edge, "take `of ...` out")
    if edge.faces == ("every",):
        broad = _broad_faces(asker)
        return broad, every_edge()
    named = [paired_faces(asker, word) for word in edge.faces]
    if len(named) == 1:
        if len(named[0]) == 1:
            return named[0][0], edges_of_face(named[0][0])
        return named[0][0], (Edge(named[0][0], named[0][1]),)
    pairs = [Edge(a, b) for a in named[0] for b in named[1] if a.axis is not b.axis]
    if not pairs:
        raise asker.error("these two faces do not meet in an edge", edge, "name two neighbours: `front top`")
    return pairs[0].first, tuple(pairs)


def _broad_faces(asker: Asker) -> Face:
    assert asker.thing is not None
    thin = thick_of(asker.thing)
    return next(face for face in (Face.TOP, Face.FRONT, Face.RIGHT) if face.axis is thin)


def thick_of(thing: Thing) -> Axis:
    """The thinner of the two axes across the grain."""
    grain = thing.common.workings.grain(thing)
    return min((a for a in Axis if a is not grain), key=lambda a: (round(thing.reach(a).size, 3), a))
