"""The few solid shapes that parts and cutters are made of, as plain data. Part's own frame, mm.

They are stated exactly (arcs are arcs); `kernel` makes meshes of them, `step` exact surfaces.
"""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Box, Vec3

Corner = tuple[float, float, float]  # u, v, and how far the line *to* it bulges to its right
Ring3 = tuple[Vec3, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """A plane to draw in: point (u, v, w) lies at origin + u·`u` + v·`v` + w·`w`; right-handed."""

    origin: Vec3
    u: Vec3
    v: Vec3
    w: Vec3

    def point(self, a: float, b: float, c: float) -> Vec3:
        o, u, v, w = self.origin, self.u, self.v, self.w
        return (
            o[0] + a * u[0] + b * v[0] + c * w[0],
            o[1] + a * u[1] + b * v[1] + c * w[1],
            o[2] + a * u[2] + b * v[2] + c * w[2],
        )


@dataclass(frozen=True, slots=True)
class Round:
    """A circle (or an ellipse, when the radii differ) about (`u`, `v`)."""

    u: float
    v: float
    radius_u: float
    radius_v: float


@dataclass(frozen=True, slots=True)
class Loop:
    """Corners in anticlockwise order, joined by lines and arcs."""

    corners: tuple[Corner, ...]


Outer = Loop | Round


@dataclass(frozen=True, slots=True)
class Prism:
    """A profile drawn in `frame`, standing from `low` to `high` along its w. `hole` is left out of it."""

    frame: Frame
    outer: Outer
    low: float
    high: float
    hole: Outer | None = None


@dataclass(frozen=True, slots=True)
class Loft:
    """Rings of as many corners each, joined by ruled faces; anticlockwise seen from the last."""

    rings: tuple[Ring3, ...]


@dataclass(frozen=True, slots=True)
class Stick:
    """A round or oval stick along w of `frame`: (w, section) at each station, joined straight."""

    frame: Frame
    stations: tuple[tuple[float, Round], ...]


@dataclass(frozen=True, slots=True)
class Bowl:
    """Half an ellipsoid below the plane of `frame`, and a drum as high on its rim.

    Radii along u, v and down along -w.
    """

    frame: Frame
    radii: Vec3


@dataclass(frozen=True, slots=True)
class Rim:
    """What edge work takes from a shaped board all round: between the edge of `outer` and a profile.

    `profile`: (inward from the edge, down from w = `level`, rounded) from the broad face to the edge face;
    where `rounded`, the line *to* that corner is a quarter round, convex from outside.
    `level` is the broad face, `side` +1 when the wood lies below it, -1 when above.
    """

    frame: Frame
    outer: Outer
    level: float
    side: int
    profile: tuple[tuple[float, float, bool], ...]


@dataclass(frozen=True, slots=True)
class Plane:
    """Everything on the side `normal` (unit) points to is cut away."""

    point: Vec3
    normal: Vec3


Primitive = Prism | Loft | Stick | Bowl | Rim

UNIT = (
    (1.0, 0.0, 0.0),
    (0.0, 1.0, 0.0),
    (0.0, 0.0, 1.0),
)
REACH = 1.0  # mm a cutter goes past the face it opens
LEVEL = Frame((0.0, 0.0, 0.0), *UNIT)


def along_axis(axis: int) -> Frame:
    """The frame whose w is that axis, and whose u and v are the next two in turn."""
    return Frame((0.0, 0.0, 0.0), UNIT[(axis + 1) % 3], UNIT[(axis + 2) % 3], UNIT[axis])


def rectangle(u1: float, v1: float, u2: float, v2: float) -> Loop:
    """A rectangle by opposite corners, low one first."""
    return Loop(((u1, v1, 0.0), (u2, v1, 0.0), (u2, v2, 0.0), (u1, v2, 0.0)))


def block(box: Box) -> Prism:
    """A plain box."""
    low, high = box.low, box.high
    return Prism(LEVEL, rectangle(low[0], low[1], high[0], high[1]), low[2], high[2])


def anticlockwise(corners: tuple[Corner, ...]) -> Loop:
    """The loop through `corners` turned the right way round; bulges outward stay outward."""
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    if area > 0:
        return Loop(corners)
    turned = corners[::-1]
    bulges = [turned[i - 1][2] for i in range(len(turned))]
    return Loop(tuple((c[0], c[1], bulge) for c, bulge in zip(turned, bulges, strict=True)))
