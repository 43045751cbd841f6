"""Convex pieces of bodies, for sweeps: together they hold all of the body's wood.

A body is split along the planes of its inward corners. Drilled holes and dishes count as filled.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from manifold3d import Manifold

from scantling.geometry.body import Body, body_of
from scantling.geometry.kernel import Array
from scantling.geometry.mesh import Mesh, mesh_of
from scantling.geometry.primitives import Bowl
from scantling.piece.model import Box

HOLLOW = 1e-3  # mm: an inward corner shallower than this is none
MOST_PIECES = 300  # what is left after so many is taken as its hull
MOST_FACES = 60_000  # triangles looked at in all, after which it is taken so too
MOST_PLANES = 4  # tried on one piece: a plane may shave off no more than a speck
SPECK = 1e-3  # mm³
HAIR = 1e-6  # mm


@dataclass(frozen=True, eq=False)
class Convex:
    """Corners (v, 3), and the directions that can part it from another: of faces and of edges."""

    verts: Array
    normals: Array
    edges: Array

    @cached_property
    def low(self) -> Array:
        return np.asarray(self.verts.min(0))

    @cached_property
    def high(self) -> Array:
        return np.asarray(self.verts.max(0))

    def moved(self, turn: Array, shift: Array) -> Convex:
        """The piece after p -> turn·p + shift."""
        return Convex(self.verts @ turn.T + shift, self.normals @ turn.T, self.edges @ turn.T)


def convex_box(box: Box) -> Convex:
    """A plain box as a convex piece."""
    low, high = box.low, box.high
    spans = [(low[a], high[a]) for a in range(3)]
    verts = np.array([(x, y, z) for x in spans[0] for y in spans[1] for z in spans[2]])
    return Convex(verts, np.eye(3), np.eye(3))


@lru_cache(maxsize=1024)
def hull_of(body: Body) -> Convex:
    """The convex hull of a body."""
    return _convex(mesh_of(body.bare.hull()))


@lru_cache(maxsize=1024)
def pieces_of(body: Body) -> tuple[Convex, ...]:
    """Convex pieces that together are the body (holes and dishes filled)."""
    done: list[Manifold] = []
    waiting = _undished(body).decompose()
    seen = 0
    while waiting:
        piece = waiting.pop()
        mesh = mesh_of(piece)
        seen += len(mesh.tris)
        room = seen < MOST_FACES and len(done) + len(waiting) < MOST_PIECES
        halves = _halves(piece, mesh) if room else []
        waiting += halves
        if not halves:
            done.append(piece.hull())
    return tuple(_convex(mesh_of(piece)) for piece in done)


def _halves(piece: Manifold, mesh: Mesh) -> list[Manifold]:
    """The parts of a piece on both sides of a plane; none for a convex piece, or where no plane parts it."""
    for normal, offset in _inward_planes(mesh):
        halves = [part for half in piece.split_by_plane(normal, offset) for part in half.decompose()]
        halves = [part for part in halves if part.volume() > SPECK]
        if len(halves) > 1:
            return halves
    return []


def _undished(body: Body) -> Manifold:
    recipe = body.recipe
    kept = tuple(take for take in recipe.takes if not isinstance(take, Bowl))
    if len(kept) == len(recipe.takes):
        return body.bare
    return body_of(replace(recipe, takes=kept)).bare


def _inward_planes(mesh: Mesh) -> list[tuple[Array, float]]:
    """Planes of faces at the longest inward corners, the longest first; none for a convex mesh."""
    first, second = mesh.twins
    tris, verts = mesh.tris, mesh.verts
    over = np.roll(tris, -2, 1).ravel()[second]  # the corner of the second triangle off the edge
    rise = ((verts[over] - verts[tris.ravel()[first]]) * mesh.normals[first // 3]).sum(1)
    inward = np.flatnonzero(rise > HOLLOW)
    if not len(inward):
        return []
    start, end = tris.ravel()[first[inward]], np.roll(tris, -1, 1).ravel()[first[inward]]
    long = np.linalg.norm(verts[start] - verts[end], axis=1)
    best = np.argsort(-np.round(long, 6), kind="stable")[:MOST_PLANES]
    normals = mesh.normals[first[inward[best]] // 3]
    # A hair outside the face: right in it, the split leaves a skin of no thickness.
    offsets = (normals * verts[start[best]]).sum(1) + HAIR
    return list(zip(normals, offsets.tolist(), strict=True))


def _convex(mesh: Mesh) -> Convex:
    edges = mesh.edges
    along = mesh.verts[edges.ends[:, 0]] - mesh.verts[edges.ends[:, 1]]
    used = np.unique(mesh.tris)
    return Convex(mesh.verts[used], _directions(mesh.normals[np.unique(edges.sides)]), _directions(along))


def _directions(vectors: Array) -> Array:
    """Unit vectors, each line once whichever way it points."""
    long = np.linalg.norm(vectors, axis=1)
    units = vectors[long > 1e-9] / long[long > 1e-9, None]
    rounded = np.round(units, 7) + 0.0
    first = np.argmax(np.abs(rounded) > 1e-6, axis=1)
    signs = np.sign(rounded[np.arange(len(rounded)), first])
    _, index = np.unique(rounded * signs[:, None], axis=0, return_index=True)
    return np.asarray(units[np.sort(index)])
