"""A triangle mesh with the names of its faces: flat facets with loops, and the edges worth drawing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import cos, radians

import numpy as np
from manifold3d import Manifold

from scantling.geometry.kernel import FACETS, Array, Whole
from scantling.piece.model import Vec3

CREASE = cos(radians(5.0))  # two faces that meet flatter than this run into each other: no line
FLAT = 1 - 1e-9  # cosine above which two triangles lie in one plane


@dataclass(frozen=True, eq=False)
class Facets:
    """Flat faces: `normal` (n, 3) outward units, `offset` (n,) with n·p = offset, `area` (n,) mm².

    `curved` (n,): a facet of a curved surface. `border` (h, 2): the half-edges round the facets,
    those of facet i from `first[i]` to `first[i + 1]`.
    """

    normal: Array
    offset: Array
    area: Array
    curved: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    border: Whole
    first: Whole

    def boxes(self, points: Array) -> tuple[Array, Array]:
        """Low and high corners of every facet, its vertices standing at `points`. (n, 3) each"""
        corners = points[self.border[:, 0]]
        starts = self.first[:-1]
        return np.minimum.reduceat(corners, starts), np.maximum.reduceat(corners, starts)

    def loops(self, i: int) -> list[Whole]:
        """Index loops into the vertices round one facet, outer ones anticlockwise seen from outside."""
        after: dict[int, list[int]] = {}
        for start, end in self.border[self.first[i] : self.first[i + 1]].tolist():
            after.setdefault(start, []).append(end)
        return _chained(after)


@dataclass(frozen=True, eq=False)
class Edges:
    """Edges between unlike triangles: `ends` (n, 2) vertices, `sides` (n, 2) triangles.

    `sharp` (n,): drawn from anywhere; the others only where the surface turns away from the eye.
    """

    ends: Whole
    sides: Whole
    sharp: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]


@dataclass(frozen=True, eq=False)
class Mesh:
    """`verts` (v, 3) mm, `tris` (t, 3) anticlockwise from outside, `facet` (t,) label of the flat face."""

    verts: Array
    tris: Whole
    facet: Whole

    @cached_property
    def doubled(self) -> Array:
        """Normals of the triangles, as long as twice their area. (t, 3)"""
        a, b, c = (self.verts[self.tris[:, i]] for i in range(3))
        return np.cross(b - a, c - a)

    @cached_property
    def normals(self) -> Array:
        """Unit normals of the triangles. (t, 3)"""
        long = np.linalg.norm(self.doubled, axis=1)
        return np.asarray(self.doubled / np.maximum(long, 1e-300)[:, None])

    @cached_property
    def volume(self) -> float:
        """Volume enclosed. [mm³]"""
        return float(self._tetrahedra.sum())

    @cached_property
    def centre(self) -> Vec3:
        """Centre of the enclosed volume. [mm]"""
        around = (self.verts[self.tris].sum(1) + self._middle) / 4
        at = (self._tetrahedra[:, None] * around).sum(0) / max(self.volume, 1e-300)
        return (float(at[0]), float(at[1]), float(at[2]))

    @cached_property
    def _middle(self) -> Array:
        return np.asarray(self.verts.mean(0))

    @cached_property
    def _tetrahedra(self) -> Array:
        """Signed volumes of the tetrahedra from the middle to each triangle. (t,)"""
        from_middle = self.verts[self.tris[:, 0]] - self._middle
        return np.asarray((self.doubled * from_middle).sum(1) / 6)

    @cached_property
    def twins(self) -> tuple[Whole, Whole]:
        """For each edge its two half-edges, numbered 3·triangle + side. (e,), (e,)"""
        start, end = self.tris.ravel(), np.roll(self.tris, -1, 1).ravel()
        key = np.minimum(start, end) * len(self.verts) + np.maximum(start, end)
        order = np.lexsort((start > end, key))
        return order[0::2], order[1::2]

    @cached_property
    def edges(self) -> Edges:
        """The edges where triangles of different planes meet."""
        first, second = self.twins
        sides = np.stack([first // 3, second // 3], 1)
        start, end = self.tris.ravel(), np.roll(self.tris, -1, 1).ravel()
        bend = (self.normals[sides[:, 0]] * self.normals[sides[:, 1]]).sum(1)
        surface = self.facet // FACETS
        unlike = surface[sides[:, 0]] != surface[sides[:, 1]]
        kept = bend < FLAT
        ends = np.stack([start[first], end[first]], 1)
        return Edges(ends[kept], sides[kept], (unlike & (bend < CREASE))[kept])

    @cached_property
    def facets(self) -> Facets:
        """Every flat face with its border."""
        names, group = np.unique(self.facet, return_inverse=True)
        count = len(names)
        sums = [np.bincount(group, self.doubled[:, a], count) for a in range(3)]
        normal = np.stack(sums, 1).astype(np.float64)
        long = np.linalg.norm(normal, axis=1)
        normal /= np.maximum(long, 1e-300)[:, None]
        first = np.zeros(count, dtype=np.int64)
        first[group[::-1]] = self.tris[::-1, 0]
        offset = (normal * self.verts[first]).sum(1)
        _, surface, facets = np.unique(names // FACETS, return_inverse=True, return_counts=True)
        border, starts = self._border(group, count)
        return Facets(normal, offset, long / 2, facets[surface] > 1, border, starts)

    def _border(self, group: Whole, count: int) -> tuple[Whole, Whole]:
        """Half-edges between unlike facets, sorted by facet, and where each facet's begin."""
        first, second = self.twins
        unlike = group[first // 3] != group[second // 3]
        half = np.concatenate([first[unlike], second[unlike]])
        half = half[np.lexsort((half, group[half // 3]))]
        steps = np.stack([self.tris.ravel()[half], np.roll(self.tris, -1, 1).ravel()[half]], 1)
        return steps, np.searchsorted(group[half // 3], np.arange(count + 1))


def _chained(after: dict[int, list[int]]) -> list[Whole]:
    """Closed loops from steps vertex -> next vertices. Empties `after`."""
    loops = []
    while after:
        start = next(iter(after))
        loop, here = [], start
        while here in after:
            loop.append(here)
            steps = after[here]
            then = steps.pop()
            if not steps:
                del after[here]
            here = then
        loops.append(np.array(loop, dtype=np.int64))
    return loops


def mesh_of(solid: Manifold) -> Mesh:
    """The mesh of a solid, each triangle labelled by source, surface and facet."""
    mesh = solid.to_mesh64()
    verts = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    tris = np.asarray(mesh.tri_verts, dtype=np.int64)
    index = np.asarray(mesh.run_index, dtype=np.int64)
    runs = (index[1:] - index[:-1]) // 3
    source = np.repeat(np.asarray(mesh.run_original_id, dtype=np.int64), runs)
    label = np.asarray(mesh.face_id, dtype=np.int64)
    return Mesh(verts, tris, source * (FACETS * FACETS) + label)
