"""Mitre and splined mitre: the first part lengthened to the outer corner, both cut on the diagonal."""

from __future__ import annotations

from math import hypot

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.corners import Corner, corner_of, not_a_corner
from scantling.joinery.features import Addition, Feature, HardwareUse, Prism, Shaped, Trim
from scantling.joinery.frames import face_through
from scantling.joinery.made import Made, both_parts, layout, notice
from scantling.joinery.meeting import Meeting, end_faces, touches_end
from scantling.piece.model import Notice, Vec3

_FROM_INSIDE = 0.35  # a spline lies nearer the inner corner, where the wood is deepest


def mitre(m: Meeting, bench: Bench) -> Made:
    """A plain mitre: glue alone on near end grain."""
    corner = corner_of(m)
    message = "a plain mitre is glued on near end grain"
    weak = notice(m, "weak mitre", message, remedy="use a splined mitre, or keys")
    words = f"mitred corner, {bench.said(_diagonal(corner))} long on the slope"
    return _made(m, bench, corner, (), (), words, (), (weak,))


def splined_mitre(m: Meeting, bench: Bench) -> Made:
    """A mitre with a slip of wood across it, its grain across the joint."""
    corner = corner_of(m)
    thick = m.settings.size[0] if m.settings.size else rules.number("spline thickness")
    deep = m.settings.deep or rules.number("spline over mitre") * min(corner.first_thick, corner.second_thick)
    slot = _slot(corner, thick, deep)
    first, second = m.first_shaped(slot, "slot"), m.second_shaped(slot, "slot")
    size = f"{bench.number(thick)} x {bench.number(2 * deep)} x {bench.number(m.length)}"
    sizes = (("thick", thick), ("wide", 2 * deep), ("length", m.length))
    use = HardwareUse("spline", size, 1, m.joint.id, both_parts(m), sizes, (m.in_piece(m.area.centre),))
    words = (
        f"mitred corner with a spline {bench.said(thick)} thick, {bench.said(deep)} into each part;"
        " its grain runs across the joint"
    )
    return _made(m, bench, corner, (first,), (second,), words, (use,), ())


def _made(
    m: Meeting,
    bench: Bench,
    corner: Corner,
    first: tuple[Feature, ...],
    second: tuple[Feature, ...],
    words: str,
    uses: tuple[HardwareUse, ...],
    notices: tuple[Notice, ...],
) -> Made:
    block = m.block(m.along, (corner.inside, corner.outside), (0.0, corner.second_thick))
    longer = Addition(block, m.face, "long mitre", m.joint.id)
    numbers = (("longer by", corner.second_thick), ("long", _diagonal(corner)))
    glued = _diagonal(corner) * m.length
    made = layout(m, words, numbers, glued=glued, source="geometry: both faces on the corner's diagonal")
    found = (*not_a_corner(corner, bench), *notices)
    return Made((longer, _first_trim(corner), *first), (_second_cut(corner), *second), made, uses, found)


def _diagonal(corner: Corner) -> float:
    return hypot(corner.first_thick, corner.second_thick)


def _first_trim(corner: Corner) -> Trim:
    """Off the first part: what lies beyond the diagonal on the inside of the corner."""
    m = corner.meeting
    return Trim(m.at(m.low, corner.inside), _normal(corner, 1.0), m.face, m.joint.id)


def _normal(corner: Corner, way: float) -> Vec3:
    """Unit normal of the diagonal: `way` +1 out of the first part, -1 out of the second."""
    m, length = corner.meeting, _diagonal(corner)
    normal = [0.0, 0.0, 0.0]
    normal[m.face.axis] = way * m.face.sign * corner.first_thick / length
    normal[m.across] = -way * corner.outer.sign * corner.second_thick / length
    return (normal[0], normal[1], normal[2])


def _second_cut(corner: Corner) -> Trim | Shaped:
    """Off the second part: the triangle outside the diagonal; a whole end cut if it is as long."""
    m = corner.meeting
    if all(touches_end(m.area, m.other, face) for face in end_faces(m.run)):
        at, normal = m.motion.point(m.at(m.low, corner.inside)), m.motion.direction(_normal(corner, -1.0))
        return Trim(at, normal, face_through(corner.outer, m.motion), m.joint.id)
    points = [
        m.at(0, corner.inside, 0),
        m.at(0, corner.outside, 0),
        m.at(0, corner.outside, corner.second_thick),
    ]
    return m.second_shaped(m.prism(m.run, m.along, points), "mitre")


def _slot(corner: Corner, thick: float, deep: float) -> Prism:
    """A rectangle square to the diagonal, `deep` to both sides of it."""
    m, normal, length = corner.meeting, _normal(corner, 1.0), _diagonal(corner)
    across = corner.inside + _FROM_INSIDE * (corner.outside - corner.inside)
    centre = m.at(0, across, _FROM_INSIDE * corner.second_thick)
    along = [0.0, 0.0, 0.0]
    along[m.face.axis] = m.face.sign * corner.second_thick / length
    along[m.across] = corner.outer.sign * corner.first_thick / length
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    points = [
        tuple(centre[i] + a * deep * normal[i] + b * thick / 2 * along[i] for i in range(3))
        for a, b in corners
    ]
    return m.prism(m.run, m.along, [(p[0], p[1], p[2]) for p in points])
