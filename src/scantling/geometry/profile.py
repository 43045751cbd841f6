"""Circles and arcs as polygons that keep their area, so that volumes and centres stay true."""

from __future__ import annotations

from math import acos, atan2, ceil, cos, hypot, pi, sin, sqrt

from scantling.geometry.primitives import Corner, Loop, Outer, Round

CHORD = 0.05  # mm: how far a chord may leave its arc
DRILLED = 0.2  # mm: the same for drilled holes too small to be drawn; their area and middle stay true
DRAWN = 0.25  # mm: the same where a solid is only drawn; less than a line's width at half size
FEWEST = 12  # sides of a full circle

Points = list[tuple[float, float]]


def flattened(outer: Outer, chord: float = CHORD) -> tuple[Points, list[int]]:
    """Points anticlockwise, and for each the surface of the side that *leaves* it.

    All chords of one arc share a surface. The polygon's area equals the shape's. Arcs in loops are always
    fine: where they run into flats without a line, coarse chords would show one.
    """
    if isinstance(outer, Round):
        points = ellipse_points(outer, sides_of_circle(max(outer.radius_u, outer.radius_v), chord))
        return points, [0] * len(points)
    return _loop(outer)


def area_of(outer: Outer) -> float:
    """What an outline encloses. [mm²]"""
    if isinstance(outer, Round):
        return pi * outer.radius_u * outer.radius_v
    points = flattened(outer)[0]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)) / 2


def sides_of_circle(radius: float, chord: float = CHORD) -> int:
    """Sides of a circle's polygon: a multiple of 4, enough to stay within the chord tolerance."""
    wanted = pi / acos(max(0.0, 1 - chord / max(radius, chord)))
    return max(FEWEST, 4 * ceil(wanted / 4))


def equal_area_factor(sides: int) -> float:
    """Radius of the regular polygon with a unit circle's area."""
    return sqrt((2 * pi / sides) / sin(2 * pi / sides))


def ellipse_points(shape: Round, n: int) -> Points:
    """An ellipse as a polygon of `n` sides with its area."""
    factor = equal_area_factor(n)
    a, b = shape.radius_u * factor, shape.radius_v * factor
    # Half a step round, so that flats and not corners lie at the box's faces.
    turns = [2 * pi * (i + 0.5) / n for i in range(n)]
    return [(shape.u + a * cos(t), shape.v + b * sin(t)) for t in turns]


def _loop(loop: Loop) -> tuple[Points, list[int]]:
    points: Points = []
    surfaces: list[int] = []
    corners = loop.corners
    for i, here in enumerate(corners):
        then = corners[(i + 1) % len(corners)]
        points.append((here[0], here[1]))
        surfaces.append(i)
        if then[2]:
            between = _arc_points(here, then)
            points.extend(between)
            surfaces.extend([i] * len(between))
    return points, surfaces


def _arc(across: float, rise: float) -> tuple[float, float]:
    """Radius and angle [rad] of the arc over a line `across` long with that rise."""
    radius = (across * across / 4 + rise * rise) / (2 * rise)
    return radius, 4 * atan2(rise, across / 2)


def _arc_points(here: Corner, then: Corner) -> Points:
    """Points strictly between two corners on the arc that bulges to the right of the way."""
    across = hypot(then[0] - here[0], then[1] - here[1])
    radius, angle = _arc(across, abs(then[2]))
    n = max(3, ceil(sides_of_circle(radius) * angle / (2 * pi)))
    side = 1.0 if then[2] > 0 else -1.0
    along = ((then[0] - here[0]) / across, (then[1] - here[1]) / across)
    outward = (along[1] * side, -along[0] * side)
    middle = ((here[0] + then[0]) / 2, (here[1] + then[1]) / 2)
    back = radius - abs(then[2])
    centre = (middle[0] - outward[0] * back, middle[1] - outward[1] * back)
    reach = radius * inner_factor(angle / n, n)
    turns = [-angle / 2 + angle * i / n for i in range(1, n)]
    return [
        (
            centre[0] + reach * (cos(t) * outward[0] + sin(t) * along[0]),
            centre[1] + reach * (cos(t) * outward[1] + sin(t) * along[1]),
        )
        for t in turns
    ]


def inner_factor(step: float, n: int) -> float:
    """How much further out the inner points go, with both ends kept, for the fan to keep the area.

    (n - 2)·k² + 2·k = n·step/sin(step), by hand from the triangles of the fan.
    """
    right = n * step / sin(step)
    return (sqrt(1 + (n - 2) * right) - 1) / (n - 2)


def quarter_points(size: float, chord: float) -> Points:
    """(inward, down) points strictly within a round-over of `size`; the fan of chords keeps its area."""
    chords = max(3, sides_of_circle(size, chord) // 4)
    step = pi / 2 / chords
    reach = size * inner_factor(step, chords)
    return [(size - reach * sin(i * step), size - reach * cos(i * step)) for i in range(1, chords)]
