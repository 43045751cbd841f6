"""How long two convex pieces stay apart while one of them moves: planes whose life is a formula.

If two convex pieces are apart, a face of one or the cross of two edges gives a plane between them.
Held still, or held to the mover, such a plane lives until a corner crosses it: along a slide that
is linear, about a line a·cos θ + b·sin θ + c. So time is crossed in jumps and no instant is missed.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, tau

import numpy as np

from scantling.geometry.convex import Convex
from scantling.geometry.kernel import Array
from scantling.piece.model import TOUCH

FINE = 1e-6  # mm: how far past a plane a corner may be and still count as touching
STALL = 1e-9  # mm or rad: planes that die sooner than this are dead
JUMPS = 400


@dataclass(frozen=True, eq=False)
class Turning:
    """A turn by `whole` radians about the z axis of the frame the pieces are in."""

    whole: float

    def rotation(self, at: float) -> Array:
        c, s = np.cos(at), np.sin(at)
        return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])

    def placed(self, piece: Convex, at: float) -> Convex:
        return piece.moved(self.rotation(at), np.zeros(3))

    def lives(self, normals: Array, offsets: Array, verts: Array, slack: float, back: bool) -> Array:
        """For how long every vertex, turning from here, keeps n·p >= offset - slack. (k,)

        `verts` are where they stand now; `back` turns them the other way.
        """
        sense = -1.0 if back else 1.0
        along = normals[:, :2] @ verts[:, :2].T
        across = sense * (normals[:, 1:2] * verts[:, 0] - normals[:, :1] * verts[:, 1])
        level = normals[:, 2:3] * verts[:, 2] - offsets[:, None] + slack
        reach = np.hypot(along, across)
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.where(reach > 0, -level / np.maximum(reach, 1e-300), np.where(level < 0, inf, -inf))
        falls = np.arccos(np.clip(share, -1.0, 1.0))  # below the plane from here to the far side of the turn
        now = np.mod(-np.arctan2(across, along), tau)
        lives = np.where(now < falls, falls - now, np.where(now >= tau - falls, falls + tau - now, 0.0))
        lives = np.where(share < -1.0, inf, np.where(share > 1.0, 0.0, lives))
        return np.asarray(lives.min(1))


@dataclass(frozen=True, eq=False)
class Sliding:
    """A straight move by `whole` mm along unit `direction`."""

    direction: Array
    whole: float

    def placed(self, piece: Convex, at: float) -> Convex:
        return piece.moved(np.eye(3), self.direction * at)

    def lives(self, normals: Array, offsets: Array, verts: Array, slack: float, back: bool) -> Array:
        """As for `Turning`."""
        speed = normals @ self.direction * (-1.0 if back else 1.0)
        room = (normals @ verts.T).min(1) - offsets + slack
        with np.errstate(divide="ignore", invalid="ignore"):
            lives = np.where(speed < 0, room / -speed, inf)
        return np.where(room < 0, 0.0, lives)


Moving = Turning | Sliding


def gap_between(first: Convex, second: Convex) -> float:
    """The widest plane gap; negative: how deep they are in each other (along the best plane). [mm]"""
    normals = _normals(first, second)
    low = (normals @ first.verts.T).min(1) - (normals @ second.verts.T).max(1)
    return float(low.max())


def time_apart(mover: Convex, still: Convex, moving: Moving, start: float = 0.0) -> float | None:
    """When the mover first meets the other piece, from `start` on; None if never in the whole move.

    Pieces that are up to the tolerance in each other at the start count as touching.
    """
    at = start
    slack = FINE
    gap = gap_between(moving.placed(mover, at), still)
    if gap < 0:
        if gap < -TOUCH:
            return at
        slack = FINE - gap
    for _ in range(JUMPS):
        life = _longest(moving.placed(mover, at), still, moving, slack)
        if life < STALL:
            return at
        at += life
        if at >= moving.whole:
            return None
    return at


def _longest(mover: Convex, still: Convex, moving: Moving, slack: float) -> float:
    """Life of the plane that parts them longest from here."""
    normals = _normals(mover, still)
    kept = moving.lives(normals, (normals @ still.verts.T).max(1), mover.verts, slack, False)
    carried = moving.lives(-normals, (-normals @ mover.verts.T).max(1), still.verts, slack, True)
    return float(max(kept.max(), carried.max()))


def _normals(mover: Convex, still: Convex) -> Array:
    """Every direction that can part two convex pieces, both ways round. (k, 3)"""
    crosses = np.cross(mover.edges[:, None], still.edges[None]).reshape(-1, 3)
    long = np.linalg.norm(crosses, axis=1)
    crosses = crosses[long > 1e-7] / long[long > 1e-7, None]
    ways = np.vstack([mover.normals, still.normals, crosses])
    return np.vstack([ways, -ways])
