"""A part's box and shape as primitives: lean, taper, section, outline. Part's own frame, mm."""

from __future__ import annotations

from math import hypot

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
    Stick,
    along_axis,
    anticlockwise,
    block,
)
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


def base_of(box: Box, shape: Shape, grain: Axis) -> tuple[Prism | Loft | Stick, tuple[Plane, ...]]:
    """The shaped stick or board before any machining, and the planes that cut its ends level."""
    if shape.outline is not None:
        return outlined(box, shape.outline), ()
    if shape.lean is not None:
        return _leaning(box, shape, shape.lean)
    if shape.taper is not None:
        axis = shape.taper.end.axis
        return _through(_stations(box, shape.taper, axis), along_axis(axis), shape.section), ()
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


def _leaning(box: Box, shape: Shape, lean: Lean) -> tuple[Loft | Stick, tuple[Plane, ...]]:
    """A stick from a centre in one end's level to a shifted centre in the other's, ends cut level."""
    low, high = box.low[2], box.high[2]
    sign = -1.0 if lean.end == Face.BOTTOM else 1.0
    slope = (lean.shift[0] / (high - low) * sign, lean.shift[1] / (high - low) * sign)
    fixed = high if lean.end == Face.BOTTOM else low
    if shape.section == Section.LEVEL:
        upright = _lofted(box, shape, Axis.HIGH)
        return Loft(tuple(_sheared(ring, slope, fixed) for ring in upright.rings)), ()
    spread = 1.0 + hypot(*slope) * hypot(box.size(Axis.WIDE), box.size(Axis.DEEP))
    middle = box.centre
    frame, long = _leaning_frame(slope, (middle[0], middle[1], fixed))
    stations = [
        ((at - fixed) * long, _shifted(u, -middle[0]), _shifted(v, -middle[1]))
        for at, u, v in _carried_on(_stations(box, shape.taper, Axis.HIGH), spread)
    ]
    ends = (Plane((0.0, 0.0, low), (0.0, 0.0, -1.0)), Plane((0.0, 0.0, high), (0.0, 0.0, 1.0)))
    return _through(stations, frame, shape.section), ends


def _sheared(ring: Ring3, slope: tuple[float, float], fixed: float) -> Ring3:
    return tuple((x + slope[0] * (z - fixed), y + slope[1] * (z - fixed), z) for x, y, z in ring)


def _leaning_frame(slope: tuple[float, float], pivot: Vec3) -> tuple[Frame, float]:
    """The upright frame at `pivot` turned the shortest way onto the leaning axis d, and length per rise.

    The formula of Rodrigues for the turn of (0, 0, 1) onto d, with d's parts.
    """
    long = (1 + slope[0] ** 2 + slope[1] ** 2) ** 0.5
    dx, dy, dz = slope[0] / long, slope[1] / long, 1 / long
    u = (1 - dx * dx / (1 + dz), -dx * dy / (1 + dz), -dx)
    v = (-dx * dy / (1 + dz), 1 - dy * dy / (1 + dz), -dy)
    return Frame(pivot, u, v, (dx, dy, dz)), long


def _lofted(box: Box, shape: Shape, axis: Axis) -> Loft:
    """A stick of flat sides along `axis` through its stations: both ends and where a taper begins."""
    return _loft_through(_stations(box, shape.taper, axis), along_axis(axis), shape.section)


def _through(stations: list[Station], frame: Frame, section: Section) -> Loft | Stick:
    if section not in (Section.ROUND, Section.OVAL):
        return _loft_through(stations, frame, section)
    return Stick(
        frame,
        tuple(
            (at, Round((u1 + u2) / 2, (v1 + v2) / 2, (u2 - u1) / 2, (v2 - v1) / 2))
            for at, (u1, u2), (v1, v2) in stations
        ),
    )


def _loft_through(stations: list[Station], frame: Frame, section: Section) -> Loft:
    unit = _octagon() if section == Section.OCTAGON else _SQUARE
    return Loft(
        tuple(
            tuple(
                frame.point((u1 + u2) / 2 + (u2 - u1) / 2 * a, (v1 + v2) / 2 + (v2 - v1) / 2 * b, at)
                for a, b in unit
            )
            for at, (u1, u2), (v1, v2) in stations
        )
    )


Span = tuple[float, float]
Station = tuple[float, Span, Span]  # where along the stick, and its section there
_SQUARE = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))


def _stations(box: Box, taper: Taper | None, axis: Axis) -> list[Station]:
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


def _carried_on(stations: list[Station], by: float) -> list[Station]:
    """The first and last station moved outward along the stick, by `by`."""
    first = _beyond(stations[1], stations[0], by)
    return [first, *stations[1:-1], _beyond(stations[-2], stations[-1], by)]


def _beyond(inner: Station, end: Station, by: float) -> Station:
    k = 1 + by / abs(end[0] - inner[0])

    def on(a: float, b: float) -> float:
        return a + (b - a) * k

    (at, u, v), (far, p, q) = inner, end
    return on(at, far), (on(u[0], p[0]), on(u[1], p[1])), (on(v[0], q[0]), on(v[1], q[1]))


def _shifted(span: Span, by: float) -> Span:
    return span[0] + by, span[1] + by


def _octagon() -> list[tuple[float, float]]:
    c = 2**0.5 - 1
    return [(c, -1.0), (1.0, -c), (1.0, c), (c, 1.0), (-c, 1.0), (-1.0, c), (-1.0, -c), (-c, -1.0)]
