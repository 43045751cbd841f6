"""A definition's box, faces, shape and work as they are on one copy: mirrored, moved, turned by quarters."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cached_property

from scantling.piece.model import (
    IDENTITY,
    ArchWork,
    Axis,
    BandWork,
    Box,
    DishWork,
    Edge,
    EdgeWork,
    Face,
    GrooveWork,
    HoleWork,
    Lean,
    Matrix3,
    NotchWork,
    Outline,
    PathPoint,
    PinRowsWork,
    Placement,
    Shape,
    SlotWork,
    Taper,
    Vec3,
    Work,
)
from scantling.piece.resolve.steps import (
    Along,
    Mirror,
    Quarter,
    Shift,
    Step,
    Steps,
    Swivel,
    along,
    face_outside,
)
from scantling.piece.resolve.views import across_and_up, area, runs_down, runs_left


class Image:
    """The way from a definition's frame to a copy's own frame, turns of other than a quarter left out."""

    def __init__(self, steps: Steps) -> None:
        self.steps = steps

    @cached_property
    def ways(self) -> tuple[Along, Along, Along]:
        return (along(self.steps, Axis.WIDE), along(self.steps, Axis.DEEP), along(self.steps, Axis.HIGH))

    def axis(self, inside: Axis) -> Axis:
        return next(outer for outer in Axis if self.ways[outer].axis is inside)

    def face(self, inside: Face) -> Face:
        return face_outside(self.steps, inside)

    def along(self, inside: Axis, at: float) -> float:
        return self.ways[self.axis(inside)].out(at)

    def point(self, p: Vec3) -> Vec3:
        a, b, c = self.ways
        return (a.out(p[a.axis]), b.out(p[b.axis]), c.out(p[c.axis]))

    def inside_point(self, p: Vec3) -> Vec3:
        inside = [0.0, 0.0, 0.0]
        for outer in Axis:
            way = self.ways[outer]
            inside[way.axis] = way.inside(p[outer])
        return (inside[0], inside[1], inside[2])

    def box(self, box: Box) -> Box:
        a, b = self.point(box.low), self.point(box.high)
        low = (min(a[0], b[0]), min(a[1], b[1]), min(a[2], b[2]))
        high = (max(a[0], b[0]), max(a[1], b[1]), max(a[2], b[2]))
        return Box(low, high)

    def placement(self) -> Placement:
        """The rigid motion that turns the copy's own frame into the piece's; none for plain copies."""
        if not any(isinstance(step, Swivel) for step in self.steps):
            return Placement()
        shift = self._whole(self.inside_point((0.0, 0.0, 0.0)))
        columns = [self._whole(self.inside_point(unit)) for unit in IDENTITY]
        return Placement(_turn(columns, shift), shift)

    def _whole(self, point: Vec3) -> Vec3:
        for step in self.steps:
            point = moved(step, point)
        return point

    def shape(self, shape: Shape, box: Box) -> Shape:
        """`box` is the definition's."""
        if shape.is_box:
            return shape
        return replace(
            shape,
            lean=self._lean(shape.lean) if shape.lean else None,
            taper=self._taper(shape.taper) if shape.taper else None,
            outline=self._outline(shape.outline, box) if shape.outline else None,
        )

    def _lean(self, lean: Lean) -> Lean:
        shift = [0.0, 0.0, 0.0]
        for inner in (Axis.WIDE, Axis.DEEP):
            outer = self.axis(inner)
            shift[outer] = self.ways[outer].sign * lean.shift[inner]
        return Lean(self.face(lean.end), (shift[0], shift[1]))

    def _taper(self, taper: Taper) -> Taper:
        start = self.along(taper.end.axis, taper.start)
        return Taper(self.face(taper.end), taper.to, start, frozenset(map(self.face, taper.faces)))

    def _outline(self, outline: Outline, box: Box) -> Outline:
        seen_from = self.face(outline.seen_from)
        if not outline.path:
            return replace(outline, seen_from=seen_from)
        return replace(outline, seen_from=seen_from, path=self._path(outline, seen_from, box))

    def _path(self, outline: Outline, seen_from: Face, box: Box) -> tuple[PathPoint, ...]:
        """Each point carried over; where the image runs the other way round the order is turned too."""
        image = self.box(box)
        points = [
            _from_view(self.point(_in_view(p, outline.seen_from, box)), seen_from, image)
            for p in outline.path
        ]
        bulges = [p.bulge for p in outline.path]
        count = len(points)
        if area(points) * area([(p.across, p.up) for p in outline.path]) < 0:
            points.reverse()
            bulges = [bulges[(count - i) % count] for i in range(count)]
        return tuple(PathPoint(a, u, b) for (a, u), b in zip(points, bulges, strict=True))

    def work(self, work: Work) -> Work:
        match work:
            case EdgeWork():
                edges = tuple(Edge(self.face(e.first), self.face(e.second)) for e in work.edges)
                return replace(work, face=self.face(work.face), edges=edges)
            case GrooveWork():
                return self._groove(work)
            case HoleWork():
                return replace(work, face=self.face(work.face), at=self.point(work.at))
            case SlotWork():
                return replace(
                    work, face=self.face(work.face), at=self.point(work.at), along=self.axis(work.along)
                )
            case NotchWork():
                return NotchWork(self.box(work.box))
            case ArchWork():
                start, stop = sorted((self.along(work.along, work.start), self.along(work.along, work.stop)))
                return ArchWork(self.face(work.face), self.axis(work.along), start, stop, work.rise)
            case DishWork():
                return replace(work, face=self.face(work.face))
            case BandWork():
                return replace(work, face=self.face(work.face))
            case PinRowsWork():
                return self._pins(work)

    def _groove(self, work: GrooveWork) -> GrooveWork:
        across = next(a for a in Axis if a not in (work.along, work.face.axis))
        low, high = sorted((self.along(across, work.low), self.along(across, work.high)))
        start = None if work.start is None else self.along(work.along, work.start)
        stop = None if work.stop is None else self.along(work.along, work.stop)
        if self.ways[self.axis(work.along)].sign < 0:
            start, stop = stop, start
        return GrooveWork(self.face(work.face), self.axis(work.along), low, high, work.deep, start, stop)

    def _pins(self, work: PinRowsWork) -> PinRowsWork:
        rows = tuple(sorted(self.along(work.across, row) for row in work.rows))
        places = tuple(sorted(self.along(work.run, at) for at in work.places))
        return replace(
            work,
            face=self.face(work.face),
            across=self.axis(work.across),
            rows=rows,
            run=self.axis(work.run),
            places=places,
        )


def _turn(columns: list[Vec3], shift: Vec3) -> Matrix3:
    rows = [[columns[j][i] - shift[i] for j in range(3)] for i in range(3)]
    return (
        (rows[0][0], rows[0][1], rows[0][2]),
        (rows[1][0], rows[1][1], rows[1][2]),
        (rows[2][0], rows[2][1], rows[2][2]),
    )


def moved(step: Step, p: Vec3) -> Vec3:
    """A point carried by one step, turns of any angle included."""
    q = list(p)
    match step:
        case Mirror():
            q[step.axis] = 2 * step.about() - q[step.axis]
        case Shift():
            q[step.axis] += step.by()
        case Quarter():
            q = [step.signs[i] * p[step.axes[i]] for i in range(3)]
        case Swivel():
            return swivelled(step, p)
    return (q[0], q[1], q[2])


def swivelled(step: Swivel, p: Vec3) -> Vec3:
    """A point turned right-handed about a line along one of the three ways."""
    about, angle = step.about(), math.radians(step.angle())
    a, b = (step.axis + 1) % 3, (step.axis + 2) % 3
    cos, sin = math.cos(angle), math.sin(angle)
    u, v = p[a] - about[a], p[b] - about[b]
    q = list(p)
    q[a] = about[a] + cos * u - sin * v
    q[b] = about[b] + sin * u + cos * v
    return (q[0], q[1], q[2])


def _in_view(p: PathPoint, seen_from: Face, box: Box) -> Vec3:
    across, up = across_and_up(seen_from)
    at = [box.low[0], box.low[1], box.low[2]]
    at[across] = box.high[across] - p.across if runs_left(seen_from) else box.low[across] + p.across
    at[up] = box.high[up] - p.up if runs_down(seen_from) else box.low[up] + p.up
    return (at[0], at[1], at[2])


def _from_view(at: Vec3, seen_from: Face, box: Box) -> tuple[float, float]:
    across, up = across_and_up(seen_from)
    along_axis = box.high[across] - at[across] if runs_left(seen_from) else at[across] - box.low[across]
    return along_axis, box.high[up] - at[up] if runs_down(seen_from) else at[up] - box.low[up]
