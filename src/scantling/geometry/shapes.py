"""A part's box and shape as primitives: lean, taper, section, outline. Part's own frame, mm."""

from __future__ import annotations

from math import cos, hypot, pi, sin

from scantling.geometry.primitives import (
    Corner,
    Frame,
    Loft,
    Loop,
    Outer,
    Plane,
    Prism,
    Ring3,
    Round,
    along_axis,
    anticlockwise,
    block,
)
from scantling.geometry.profile import equal_area_factor, sides_of_circle
from scantling.geometry.view import View
from scantling.piece.model import (
    TOUCH,
    Axis,
    Box,
    Face,
    Lean,
    Outline,
    OutlineKind,
    Section,
    Shape,
    Taper,
    Vec3,
)


def base_of(box: Box, shape: Shape, grain: Axis) -> tuple[Prism | Loft, tuple[Plane, ...]]:
    """The shaped stick or board before any machining, and the planes that cut its ends level."""
    if shape.outline is not None:
        return outlined(box, shape.outline), ()
    if shape.lean is not None:
        return _leaning(box, shape, shape.lean)
    if shape.taper is not None:
        return _lofted(box, shape, shape.taper.end.axis), ()
    return straight(box, shape.section, grain), ()


def straight(box: Box, section: Section, axis: Axis) -> Prism:
    """A stick of one section along `axis`."""
    if section in (Section.SQUARE, Section.LEVEL):
        return block(box)
    frame = along_axis(axis)
    u, v = Axis((axis + 1) % 3), Axis((axis + 2) % 3)
    middle = (box.centre[u], box.centre[v])
    half = (box.size(u) / 2, box.size(v) / 2)
    outer: Outer
    if section == Section.OCTAGON:
        outer = Loop(tuple((middle[0] + half[0] * a, middle[1] + half[1] * b, 0.0) for a, b in _octagon()))
    else:
        outer = Round(*middle, *half)
    return Prism(frame, outer, box.low[axis], box.high[axis])


def outline_frame(box: Box, seen_from: Face) -> tuple[Frame, float, float, float]:
    """The plane an outline is drawn in: frame at the lower left as seen, then across, up and through."""
    view = View.named(seen_from.word)
    corner = tuple(
        box.high[a] if (view.right[a] + view.up[a] + view.toward[a]) < 0 else box.low[a] for a in range(3)
    )
    frame = Frame((corner[0], corner[1], corner[2]), view.right, view.up, view.toward)
    across, up, through = (
        sum(abs(d) * size for d, size in zip(direction, box.sizes, strict=True))
        for direction in (view.right, view.up, view.toward)
    )
    return frame, across, up, through


def outlined(box: Box, outline: Outline) -> Prism:
    """A board whose silhouette, seen from a face, is the outline filling its box."""
    frame, across, up, through = outline_frame(box, outline.seen_from)
    outer, hole = _silhouette(outline, across, up)
    return Prism(frame, outer, 0.0, through, hole)


def _silhouette(outline: Outline, across: float, up: float) -> tuple[Outer, Outer | None]:
    a, b = across / 2, up / 2
    match outline.kind:
        case OutlineKind.ROUND | OutlineKind.OVAL:
            return Round(a, b, a, b), None
        case OutlineKind.RING:
            wall = outline.radius
            return Round(a, b, a, b), Round(a, b, a - wall, b - wall)
        case OutlineKind.CORNERS:
            return _rounded(across, up, min(outline.radius, a, b)), None
        case OutlineKind.PATH:
            return anticlockwise(tuple((p.across, p.up, p.bulge) for p in outline.path)), None


def _rounded(across: float, up: float, r: float) -> Loop:
    rise = r * (1 - 2**-0.5)
    rights, tops = across - r, up - r
    corners: tuple[Corner, ...] = (
        (r, 0.0, rise),
        (rights, 0.0, 0.0),
        (across, r, rise),
        (across, tops, 0.0),
        (rights, up, rise),
        (r, up, 0.0),
        (0.0, tops, rise),
        (0.0, r, 0.0),
    )
    return _without_doubles(corners)


def _without_doubles(corners: tuple[Corner, ...]) -> Loop:
    """Leave out straight sides of no length (a radius of half the width)."""
    kept = []
    for before, here in zip(corners[-1:] + corners[:-1], corners, strict=True):
        if here[2] or hypot(here[0] - before[0], here[1] - before[1]) > TOUCH:
            kept.append(here)
    return Loop(tuple(kept))


def _leaning(box: Box, shape: Shape, lean: Lean) -> tuple[Loft, tuple[Plane, ...]]:
    """A stick from a centre in one end's level to a shifted centre in the other's, ends cut level."""
    upright = _lofted(box, shape, Axis.HIGH)
    low, high = box.low[2], box.high[2]
    sign = -1.0 if lean.end == Face.BOTTOM else 1.0
    slope = (lean.shift[0] / (high - low) * sign, lean.shift[1] / (high - low) * sign)
    fixed = high if lean.end == Face.BOTTOM else low
    if shape.section == Section.LEVEL:
        return Loft(tuple(_sheared(ring, slope, fixed) for ring in upright.rings), upright.smooth), ()
    spread = 1.0 + hypot(*slope) * hypot(box.size(Axis.WIDE), box.size(Axis.DEEP))
    rings = _stretched(upright.rings, spread)
    middle = box.centre
    turned = tuple(_turned(ring, slope, (middle[0], middle[1], fixed)) for ring in rings)
    ends = (Plane((0.0, 0.0, low), (0.0, 0.0, -1.0)), Plane((0.0, 0.0, high), (0.0, 0.0, 1.0)))
    return Loft(turned, upright.smooth), ends


def _sheared(ring: Ring3, slope: tuple[float, float], fixed: float) -> Ring3:
    return tuple((x + slope[0] * (z - fixed), y + slope[1] * (z - fixed), z) for x, y, z in ring)


def _turned(ring: Ring3, slope: tuple[float, float], pivot: Vec3) -> Ring3:
    """An upright ring at height z moved onto the leaning axis and turned square to it.

    Shortest turn of (0, 0, 1) onto the axis d: the formula of Rodrigues with d's parts.
    """
    long = (1 + slope[0] ** 2 + slope[1] ** 2) ** 0.5
    dx, dy, dz = slope[0] / long, slope[1] / long, 1 / long
    rows = (
        (1 - dx * dx / (1 + dz), -dx * dy / (1 + dz), dx),
        (-dx * dy / (1 + dz), 1 - dy * dy / (1 + dz), dy),
        (-dx, -dy, dz),
    )
    out = []
    for x, y, z in ring:
        rise = z - pivot[2]
        p = (x - pivot[0], y - pivot[1], 0.0)
        a, b, c = (r[0] * p[0] + r[1] * p[1] for r in rows)
        out.append((pivot[0] + slope[0] * rise + a, pivot[1] + slope[1] * rise + b, z + c))
    return tuple(out)


def _stretched(rings: tuple[Ring3, ...], by: float) -> tuple[Ring3, ...]:
    """The first and last ring carried on outward along the stick, by `by` in height."""
    return (_beyond(rings[1], rings[0], by), *rings[1:-1], _beyond(rings[-2], rings[-1], by))


def _beyond(inner: Ring3, end: Ring3, by: float) -> Ring3:
    k = 1 + by / abs(end[0][2] - inner[0][2])
    return tuple(
        (a[0] + (b[0] - a[0]) * k, a[1] + (b[1] - a[1]) * k, a[2] + (b[2] - a[2]) * k)
        for a, b in zip(inner, end, strict=True)
    )


def _lofted(box: Box, shape: Shape, axis: Axis) -> Loft:
    """A stick along `axis` through its stations: both ends and where a taper begins."""
    spans = _stations(box, shape.taper, axis)
    smooth = shape.section in (Section.ROUND, Section.OVAL)
    unit = _unit_section(shape.section, max(box.size(a) for a in Axis if a != axis) / 2)
    frame = along_axis(axis)
    rings = tuple(
        tuple(
            frame.point((u1 + u2) / 2 + (u2 - u1) / 2 * a, (v1 + v2) / 2 + (v2 - v1) / 2 * b, at)
            for a, b in unit
        )
        for at, (u1, u2), (v1, v2) in spans
    )
    return Loft(rings, smooth)


Span = tuple[float, float]


def _stations(box: Box, taper: Taper | None, axis: Axis) -> list[tuple[float, Span, Span]]:
    u, v = Axis((axis + 1) % 3), Axis((axis + 2) % 3)
    full = {a: (box.low[a], box.high[a]) for a in (u, v)}
    low, high = box.low[axis], box.high[axis]
    if taper is None:
        return [(low, full[u], full[v]), (high, full[u], full[v])]
    small = {a: _tapered_span(full[a], a, taper) for a in (u, v)}
    ends = {low: full, high: full, box.face(taper.end): small}
    places = sorted({low, high, *([taper.start] if low + TOUCH < taper.start < high - TOUCH else [])})
    return [(at, ends.get(at, full)[u], ends.get(at, full)[v]) for at in places]


def _tapered_span(full: Span, axis: Axis, taper: Taper) -> Span:
    """Where the section ends on one axis at the tapered end."""
    cut = {face.sign for face in taper.faces if face.axis == axis}
    if taper.faces and not cut:
        return full
    if cut == {-1}:
        return (full[1] - taper.to, full[1])
    if cut == {1}:
        return (full[0], full[0] + taper.to)
    middle = (full[0] + full[1]) / 2
    return (middle - taper.to / 2, middle + taper.to / 2)


def _unit_section(section: Section, radius: float) -> list[tuple[float, float]]:
    """Corners of the section that fills the square from -1 to 1, anticlockwise."""
    match section:
        case Section.SQUARE | Section.LEVEL:
            return [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        case Section.OCTAGON:
            return _octagon()
        case Section.ROUND | Section.OVAL:
            n = sides_of_circle(radius)
            k = equal_area_factor(n)
            turns = [2 * pi * (i + 0.5) / n for i in range(n)]
            return [(k * cos(t), k * sin(t)) for t in turns]


def _octagon() -> list[tuple[float, float]]:
    c = 2**0.5 - 1
    return [(c, -1.0), (1.0, -c), (1.0, c), (c, 1.0), (-c, 1.0), (-1.0, c), (-1.0, -c), (-c, -1.0)]
