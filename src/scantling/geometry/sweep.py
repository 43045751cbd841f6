"""The first thing a lid, door or drawer meets on its way, with no instant left out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil, cos, degrees, radians

import numpy as np
from manifold3d import Manifold

from scantling.geometry.body import Body, placed_solid, vec
from scantling.geometry.convex import Convex, convex_box, hull_of, pieces_of
from scantling.geometry.kernel import Array
from scantling.geometry.motions import after, inverse, motion_placement
from scantling.geometry.parting import Moving, Sliding, Turning, time_apart
from scantling.geometry.poses import (
    carried_by,
    carrier_placement,
    movement_named,
    ordered_steps,
    pose_placements,
)
from scantling.geometry.scene import Hit, Scene
from scantling.piece.model import TOUCH, Box, Movement, PartName, Placement, PoseStep, Slide, Vec3

LEGS = 12  # stretches of a turn that are looked at by boxes first
STILL = Placement()
PRESSED = 0.5  # mm of way past the meeting, to see where it is


def first_hit(
    scene: Scene,
    movement: Movement | str,
    before: Sequence[PoseStep] = (),
    obstacles: Mapping[str, Box] | None = None,
    riders: Mapping[str, Box] | None = None,
) -> Hit | None:
    """The first meeting of what `movement` moves with anything that stands still, or None.

    `before`: steps already done when it begins. `obstacles`: boxes that stand in the room (a wall,
    a thing the piece holds). `riders`: boxes that move along, given where they stand at rest.
    Parts that touch at rest or slide along each other do not count; those that are in each other
    deeper than the tolerance are a hit `at_rest`. Drilled holes and dishes count as filled, unless the
    mover stands in one: that pair is looked at in steps of 2 mm or 2 degrees.
    """
    hits = hits_of(scene, movement, before, obstacles, riders)
    return min(hits, key=lambda hit: (hit.fraction, hit.mover, hit.obstacle), default=None)


def hits_of(
    scene: Scene,
    movement: Movement | str,
    before: Sequence[PoseStep] = (),
    obstacles: Mapping[str, Box] | None = None,
    riders: Mapping[str, Box] | None = None,
) -> tuple[Hit, ...]:
    """For every pair of mover and obstacle that ever meet, their first meeting. As `first_hit`."""
    chosen = movement_named(scene.piece, movement) if isinstance(movement, str) else movement
    sweep = _Sweep(scene, chosen, tuple(before))
    if sweep.moving.whole == 0:
        return ()
    moved = carried_by(scene.piece, chosen)
    movers = [sweep.actor(name) for name in scene.solids if name in moved]
    movers += [_Actor(name, box=box, where=sweep.line) for name, box in (riders or {}).items()]
    stays = [sweep.actor(name) for name in scene.solids if name not in moved]
    stays += [_Actor(name, box=box) for name, box in (obstacles or {}).items()]
    found = []
    for mover in movers:
        for still in sweep.in_reach(mover, stays):
            hit = sweep.meeting(mover, still)
            if hit is not None:
                found.append(hit)
    return tuple(found)


@dataclass(frozen=True, eq=False)
class _Actor:
    """A part or a box that takes part: convex pieces in the frame that `where` places."""

    name: str
    scene: Scene | None = None
    box: Box | None = None
    where: Placement = STILL

    @cached_property
    def hull(self) -> Convex:
        return convex_box(self.box) if self.box else hull_of(self._solid_body)

    @cached_property
    def pieces(self) -> tuple[Convex, ...]:
        return (self.hull,) if self.box else pieces_of(self._solid_body)

    @property
    def is_convex(self) -> bool:
        return len(self.pieces) == 1

    @cached_property
    def solid(self) -> Manifold:
        """The true solid in the piece's frame, holes and all."""
        if self.box:
            return placed_solid(self.where, Manifold.hull_points(self.hull.verts))
        return placed_solid(self.where, self._solid_body.solid)

    @property
    def _solid_body(self) -> Body:
        assert self.scene is not None
        return self.scene.solids[self.name].body


class _Sweep:
    """One movement from where the steps before it have brought everything.

    Everything is brought into the movement's own frame: a turn is about its z axis.
    """

    def __init__(self, scene: Scene, movement: Movement, before: tuple[PoseStep, ...]) -> None:
        self.scene = scene
        self.placements: Mapping[PartName, Placement] = pose_placements(scene.piece, before)
        self.line = carrier_placement(scene.piece, movement, ordered_steps(scene.piece, before))
        self.movement = movement
        self.moving, self.frame = _moving(movement, self.line)

    def actor(self, name: PartName) -> _Actor:
        where = after(self.placements[name], self.scene.solids[name].placement)
        return _Actor(name, self.scene, where=where)

    def own(self, piece: Convex, actor: _Actor) -> Convex:
        """A piece in the movement's frame."""
        where = after(self.frame, actor.where)
        return piece.moved(np.array(where.turn), np.array(where.shift))

    def in_reach(self, mover: _Actor, stays: list[_Actor]) -> list[_Actor]:
        """Those whose boxes the mover's swept boxes enter."""
        boxes = _swept_boxes(self.own(mover.hull, mover), self.moving)
        out = []
        for still in stays:
            hull = self.own(still.hull, still)
            if any((low < hull.high).all() and (high > hull.low).all() for low, high in boxes):
                out.append(still)
        return out

    def meeting(self, mover: _Actor, still: _Actor) -> Hit | None:
        """Their first meeting: by hulls, and where those meet, piece by piece."""
        at = time_apart(self.own(mover.hull, mover), self.own(still.hull, still), self.moving)
        if at is None:
            return None
        if not (mover.is_convex and still.is_convex):
            at = self._by_pieces(mover, still, at)
        if at == 0.0 and self._shared(mover, still, self._pressed) is None:
            at = self._stepwise(mover, still)
        return None if at is None else self._hit(mover, still, at)

    def _by_pieces(self, mover: _Actor, still: _Actor, start: float) -> float | None:
        best: float | None = None
        others = [self.own(piece, still) for piece in still.pieces]
        for piece in mover.pieces:
            own = self.own(piece, mover)
            boxes = _swept_boxes(own, self.moving)
            for other in others:
                if not any((lo < other.high).all() and (hi > other.low).all() for lo, hi in boxes):
                    continue
                at = time_apart(own, other, self.moving, start)
                if at is not None and (best is None or at < best):
                    best = at
        return best

    @property
    def _pressed(self) -> float:
        """A little way (rad or mm), enough for what meets to be seen in each other."""
        return radians(0.5) if isinstance(self.moving, Turning) else PRESSED

    def _stepwise(self, mover: _Actor, still: _Actor) -> float | None:
        """For a mover that stands in a hole or a dish, which its pieces have filled: step by step."""
        steps = ceil(self.moving.whole / (4 * self._pressed))
        places = (self.moving.whole * (i + 1) / steps for i in range(steps))
        return next((at for at in places if self._shared(mover, still, at) is not None), None)

    def _shared(self, mover: _Actor, still: _Actor, at: float) -> Box | None:
        common = placed_solid(self._gone(at), mover.solid) ^ still.solid
        if common.is_empty():
            return None
        if 2 * common.volume() / max(common.surface_area(), 1e-9) < TOUCH / 10:
            return None
        box = common.bounding_box()
        return Box((box[0], box[1], box[2]), (box[3], box[4], box[5]))

    def _gone(self, at: float) -> Placement:
        """Where the movement has brought its parts at `at` (rad or mm)."""
        moved = motion_placement(self.movement.motion, at / self.moving.whole)
        return after(after(self.line, moved), inverse(self.line))

    def _hit(self, mover: _Actor, still: _Actor, at: float) -> Hit:
        pressed = self._shared(mover, still, at + self._pressed)
        spot = pressed.centre if pressed else self._middle_between(mover, still, at)
        shown = degrees(at) if isinstance(self.moving, Turning) else at
        inside = at == 0.0 and self._shared(mover, still, 0.0) is not None
        return Hit(mover.name, still.name, shown, at / self.moving.whole, spot, inside)

    def _middle_between(self, mover: _Actor, still: _Actor, at: float) -> Vec3:
        a = placed_solid(self._gone(at), mover.solid).bounding_box()
        b = still.solid.bounding_box()
        low = [max(a[i], b[i]) for i in range(3)]
        high = [min(a[i + 3], b[i + 3]) for i in range(3)]
        return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)


def _moving(movement: Movement, line: Placement) -> tuple[Moving, Placement]:
    """The motion, and the placement from the piece's frame into the motion's."""
    motion = movement.motion
    if isinstance(motion, Slide):
        way = np.array(line.direction(motion.direction)) * np.sign(motion.distance)
        return Sliding(way, abs(motion.distance)), Placement()
    axis, about = line.direction(motion.axis), line.point(motion.about)
    if motion.angle < 0:
        axis = (-axis[0], -axis[1], -axis[2])
    w = np.array(axis)
    u = np.cross(w, np.eye(3)[int(np.argmin(np.abs(w)))])
    u /= np.linalg.norm(u)
    rows = np.stack([u, np.cross(w, u), w])
    shift = -rows @ np.array(about)
    turn = (vec(rows[0]), vec(rows[1]), vec(rows[2]))
    return Turning(radians(abs(motion.angle))), Placement(turn, vec(shift))


def _swept_boxes(piece: Convex, moving: Moving) -> list[tuple[Array, Array]]:
    """Boxes that together hold all the room a piece goes through."""
    if isinstance(moving, Sliding):
        ends = [moving.placed(piece, 0.0), moving.placed(piece, moving.whole)]
        return [(np.minimum(ends[0].low, ends[1].low), np.maximum(ends[0].high, ends[1].high))]
    step = moving.whole / LEGS
    turned = [moving.placed(piece, step * i) for i in range(LEGS + 1)]
    # Between two stops a corner leaves the chord by at most the arc's rise.
    rise = float(np.hypot(piece.verts[:, 0], piece.verts[:, 1]).max()) * (1 - cos(step / 2))
    grow = np.array([rise, rise, 0.0])
    return [(np.minimum(a.low, b.low) - grow, np.maximum(a.high, b.high) + grow) for a, b in pairwise(turned)]
