"""What drilled holes take from a body: by formula where one is square to a flat face and clear of all else.

A polygon of a hole's sides keeps the circle's area, so that the formula and the solid agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import pi

import numpy as np

from scantling.geometry.kernel import Array
from scantling.geometry.mesh import Mesh
from scantling.geometry.primitives import Prism, Round
from scantling.piece.model import Vec3

WIDER = 1.03  # corners of the coarsest polygon with a circle's area lie 1.024 radii out
NESTED = 0.95  # a hole so much narrower than another on its line lies wholly in its polygon
LEVEL = 1e-7  # mm: what lies so near counts as level, or on one line
SQUARE = 1 - 1e-12  # cosine
Triangle = list[list[float]]  # three corners


@dataclass(frozen=True, slots=True)
class Bore:
    """The wood a plain hole takes: a cylinder along `axis` from `low` to `high` about the middle `at`."""

    axis: int
    at: Vec3
    radius: float
    low: float
    high: float

    @property
    def volume(self) -> float:
        return pi * self.radius**2 * (self.high - self.low)

    @property
    def centre(self) -> Vec3:
        at = list(self.at)
        at[self.axis] = (self.low + self.high) / 2
        return (at[0], at[1], at[2])


def bores_in(mesh: Mesh, holes: Sequence[Prism]) -> tuple[tuple[Bore, ...], tuple[Prism, ...]]:
    """The plain ones of `holes` as the wood they take from a body, and those that must be cut to know."""
    if not holes:
        return (), ()
    boxes = _boxes(holes)
    triangles: list[Triangle] = mesh.verts[mesh.tris].tolist()
    bores = [
        _bore(hole, [triangles[i] for i in near])
        for hole, near in zip(holes, _near(mesh, boxes), strict=True)
    ]
    plain = _apart(bores, boxes)
    kept = sorted(plain.values(), key=lambda bore: -bore.radius)
    odd = tuple(hole for i, hole in enumerate(holes) if i not in plain)
    return tuple(piece for i, bore in enumerate(kept) for piece in _left_by(kept[:i], bore)), odd


def less_bores(volume: float, centre: Vec3, bores: Sequence[Bore]) -> tuple[float, Vec3]:
    """Volume and centre of a body without the wood of `bores`."""
    left = volume - sum(bore.volume for bore in bores)
    gone = [sum(bore.volume * bore.centre[a] for bore in bores) for a in range(3)]
    at = [(volume * centre[a] - gone[a]) / max(left, 1e-300) for a in range(3)]
    return left, (at[0], at[1], at[2])


def _is_square(hole: Prism) -> bool:
    return max(map(abs, hole.frame.w)) > SQUARE


def _axis(hole: Prism) -> int:
    return max(range(3), key=lambda a: abs(hole.frame.w[a]))


def _boxes(holes: Sequence[Prism]) -> tuple[Array, Array]:
    """Low and high corners of boxes a little wider than the holes. (n, 3) each"""
    ends = np.array([[hole.frame.point(0.0, 0.0, w) for w in (hole.low, hole.high)] for hole in holes])
    grow = np.array([[WIDER * _radius(hole)] * 3 for hole in holes])
    for i, hole in enumerate(holes):
        grow[i, _axis(hole)] *= not _is_square(hole)
    return ends.min(1) - grow, ends.max(1) + grow


def _radius(hole: Prism) -> float:
    assert isinstance(hole.outer, Round)
    return hole.outer.radius_u


def _near(mesh: Mesh, boxes: tuple[Array, Array]) -> list[list[int]]:
    """For each hole the triangles whose boxes enter its own."""
    corners = mesh.verts[mesh.tris]
    low, high = corners.min(1), corners.max(1)
    near = ((low[None] < boxes[1][:, None]) & (high[None] > boxes[0][:, None])).all(2)
    return [np.flatnonzero(row).tolist() for row in near]


def _bore(hole: Prism, near: Sequence[Triangle]) -> Bore | None:
    """The wood from the face a hole enters to its end, or to the face it leaves by; None if it is not plain.

    All triangles `near` must lie square across the hole: then each face covers the whole of it or nothing.
    """
    axis, start = _axis(hole), hole.frame.point(0.0, 0.0, hole.low)
    if not _is_square(hole) or any(max(p[axis] for p in t) - min(p[axis] for p in t) > LEVEL for t in near):
        return None
    way = 1 if hole.frame.w[axis] > 0 else -1
    met = [
        (triangle[0][axis], facing * way) for triangle in near if (facing := _facing(triangle, axis, start))
    ]
    entries = {level for level, facing in met if facing < 0}
    exits = {level for level, facing in met if facing > 0}
    if len(entries) != 1 or len(exits) > 1:
        return None
    enters = entries.pop()
    leaves = exits.pop() if exits else hole.frame.point(0.0, 0.0, hole.high)[axis]
    ends = sorted((enters, leaves))
    return Bore(axis, start, _radius(hole), ends[0], ends[1]) if (leaves - enters) * way > 0 else None


def _facing(triangle: Triangle, axis: int, point: Vec3) -> int:
    """Whether a triangle square to `axis` faces up it (1) or down (-1); 0 where it does not cover `point`."""
    u, v = (axis + 1) % 3, (axis + 2) % 3
    turns = []
    for here, then in pairwise((*triangle, triangle[0])):
        along = then[u] - here[u], then[v] - here[v]
        slack = LEVEL * (abs(along[0]) + abs(along[1]))
        turn = along[0] * (point[v] - here[v]) - along[1] * (point[u] - here[u])
        turns.append((turn > slack) - (turn < -slack))
    return 0 if {1, -1} <= set(turns) else max(turns, key=abs)


def _apart(bores: Sequence[Bore | None], boxes: tuple[Array, Array]) -> dict[int, Bore]:
    """The plain bores by number that enter no other hole, but for plain ones on the same line."""
    low, high = boxes
    enter = ((low[:, None] < high[None]) & (high[:, None] > low[None])).all(2) & ~np.eye(
        len(bores), dtype=bool
    )
    meet: list[list[int]] = np.argwhere(enter).tolist()
    plain = {i: bore for i, bore in enumerate(bores) if bore is not None}
    for i, j in meet:
        if not _on_one_line(bores[i], bores[j]):
            plain.pop(i, None)
    while odd := {i for i, j in meet if i in plain and j not in plain}:
        plain = {i: bore for i, bore in plain.items() if i not in odd}
    return plain


def _on_one_line(one: Bore | None, other: Bore | None) -> bool:
    """Whether one of two bores lies in the other's line, and well inside it or as wide."""
    if one is None or other is None or one.axis != other.axis:
        return False
    off = max(abs(one.at[a] - other.at[a]) for a in range(3) if a != one.axis)
    narrow, wide = sorted((one.radius, other.radius))
    return off < LEVEL and (narrow < NESTED * wide or narrow == wide)


def _left_by(wider: Sequence[Bore], bore: Bore) -> list[Bore]:
    """What a bore takes that the wider ones on its line have left."""
    pieces = [bore]
    for other in wider:
        if _on_one_line(other, bore):
            cut = [(piece, (piece.low, other.low), (other.high, piece.high)) for piece in pieces]
            pieces = [
                replace(piece, low=max(low, piece.low), high=min(high, piece.high))
                for piece, *spans in cut
                for low, high in spans
                if min(high, piece.high) > max(low, piece.low)
            ]
    return pieces
