"""Round tenons: a turned or drilled-for end of a stick in a round hole, leaning with the stick."""

from __future__ import annotations

from math import cos, pi, radians, sqrt

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Addition
from scantling.joinery.made import Made, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Box, Face, Notice, Part, Vec3

_STEEPEST = 45.0


def round_tenon(m: Meeting, bench: Bench) -> Made:
    """A round tenon in a blind hole."""
    diameter = _diameter(m, bench)
    wish = m.settings.deep or bench.rounded(rules.number("round tenon length over diameter") * diameter)
    most = m.second_room - rules.number("tenon wood left") / 2
    return _made(m, bench, diameter, wish, _too_deep(m, bench, wish, most))


def round_through_tenon(m: Meeting, bench: Bench) -> Made:
    """A round tenon through the second part, flush (and wedged, if the maker says so)."""
    lean = abs(stick_direction(m.first, m.face)[m.face.axis])
    return _made(m, bench, _diameter(m, bench), m.second_room / max(lean, cos(radians(_STEEPEST))), ())


def _made(m: Meeting, bench: Bench, diameter: float, long: float, notices: tuple[Notice, ...]) -> Made:
    through = m.joint.method == "through tenon"
    direction = stick_direction(m.first, m.face)
    root = end_centre(m.first, m.face)
    rises = long * abs(direction[m.face.axis])
    addition = Addition(
        _root_box(m, root, diameter, rises), m.face, "round tenon", m.joint.id, diameter, direction
    )
    deep = long if through else long + rules.number("tenon glue space")
    at_end = m.first_hole(0.0, 0.0, diameter, deep, "tenon")
    hole = m.in_second(type(at_end)(root, direction, diameter, deep, "tenon", m.joint.id, through=through))
    wedge = f", wedged {m.settings.wedge}" if m.settings.wedge else ""
    words = (
        f"round tenon {bench.said(diameter)} across, {bench.said(long)} long"
        f"{' right through' if through else f'; hole {bench.said(deep)} deep'}{wedge}"
    )
    numbers = (("diameter", diameter), ("long", long), ("deep", deep), ("longer by", rises))
    made = layout(m, words, numbers, glued=pi * diameter * long, source=rules.source("round tenon thickness"))
    return Made((addition,), (hole,), made, (), (*notices, *_too_thick(m, bench, diameter)))


def _diameter(m: Meeting, bench: Bench) -> float:
    thin = min(m.first.box.size(m.run), m.first.box.size(m.across))
    return (
        m.settings.size[0] if m.settings.size else bench.rounded(thin * rules.number("round tenon thickness"))
    )


def _root_box(m: Meeting, root: Vec3, diameter: float, rises: float) -> Box:
    half, n = diameter / 2, m.face.axis
    low, high = [x - half for x in root], [x + half for x in root]
    tip = root[n] + m.face.sign * rises
    low[n], high[n] = min(root[n], tip), max(root[n], tip)
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _too_deep(m: Meeting, bench: Bench, wish: float, most: float) -> tuple[Notice, ...]:
    if wish <= most + 0.1 or m.second is None:
        return ()
    message = (
        f"round tenon {bench.said(wish)} long, but {m.second.name} is {bench.said(m.second_room)} thick;"
        f" at most {bench.said(max(0.0, most))} leaves {bench.said(rules.number('tenon wood left') / 2)}"
    )
    return (
        notice(
            m, "tenon too long", message, number=wish, remedy=f"write deep: {bench.number(most)}", must=True
        ),
    )


def _too_thick(m: Meeting, bench: Bench, diameter: float) -> tuple[Notice, ...]:
    thin = min(m.first.box.size(m.run), m.first.box.size(m.across))
    if diameter < thin + 0.1:
        return ()
    message = f"a round tenon {bench.said(diameter)} across cannot be cut on a stick {bench.said(thin)} thick"
    return (notice(m, "tenon too thick", message, number=diameter, remedy="write a smaller size", must=True),)


def end_centre(part: Part, face: Face) -> Vec3:
    """The middle of that end of a part, where its lean has moved it."""
    at = list(part.box.centre)
    at[face.axis] = part.box.face(face)
    lean = part.shape.lean
    if lean is not None and lean.end is face:
        at[0], at[1] = at[0] + lean.shift[0], at[1] + lean.shift[1]
    return (at[0], at[1], at[2])


def stick_direction(part: Part, face: Face) -> Vec3:
    """Unit vector out of that end along the stick: the face's normal, or along its lean."""
    lean = part.shape.lean
    if lean is None or lean.end.axis != face.axis:
        return face.normal
    out = 1.0 if lean.end is face else -1.0
    wide, deep = lean.shift[0] * out, lean.shift[1] * out
    high = part.box.size(face.axis) * face.sign
    long = sqrt(wide * wide + deep * deep + high * high)
    return (wide / long, deep / long, high / long)
