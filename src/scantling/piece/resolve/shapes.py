"""How a part departs from its box, worked out in the frame of its definition."""

from __future__ import annotations

import math
from collections.abc import Callable

from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode, as_mapping, as_scalar
from scantling.piece.language.parse import parse_expression, parse_face
from scantling.piece.language.phrases import Expression
from scantling.piece.model import (
    TOUCH,
    Axis,
    Face,
    Lean,
    Outline,
    OutlineKind,
    PathPoint,
    Section,
    Shape,
    Taper,
    face_of,
)
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import Answer
from scantling.piece.resolve.faces import FACE_OF_WORD, face_said
from scantling.piece.resolve.grain import grain_of
from scantling.piece.resolve.tree import PART, SIDES, Thing
from scantling.piece.resolve.wanting import place_at, size_in
from scantling.quantity.kinds import Kind


def shape_of(thing: Thing) -> Shape:
    """The shape of a part in its own frame. Raises ResolveError."""
    if thing.family.kind != PART or not thing.family.is_shaped:
        return Shape()
    return Shape(lean_of(thing), taper_of(thing), section_of(thing), outline_of(thing))


def section_of(thing: Thing) -> Section:
    """The section of a stick."""
    node = thing.family.node.get("section")
    return Section(node.text.strip().lower()) if isinstance(node, Scalar) else Section.SQUARE


def lean_of(thing: Thing) -> Lean | None:
    """How a stick leans, worked out once."""
    return _once(thing, "lean", ("foot", "head"), _lean)


def taper_of(thing: Thing) -> Taper | None:
    """How a part tapers, worked out once."""
    return _once(thing, "taper", ("taper",), lambda t: _taper(t, t.family.node.by_name["taper"].value))


def taper_axis(thing: Thing) -> Axis | None:
    """The way a taper runs, by words alone."""
    if thing.family.kind != PART or "taper" not in thing.family.node:
        return None
    return _taper_end(_taper_node(thing, thing.family.node.by_name["taper"].value)).axis


def outline_of(thing: Thing) -> Outline | None:
    """The silhouette of a board, worked out once."""
    return _once(
        thing, "outline", ("outline",), lambda t: _outline(t, t.family.node.by_name["outline"].value)
    )


def _once(
    thing: Thing, what: str, keys: tuple[str, ...], work: Callable[[Thing], Answer | None]
) -> Answer | None:
    if thing.family.kind != PART or not any(key in thing.family.node for key in keys):
        return None
    return thing.common.once(
        (what, id(thing)), f"{thing.label} {what}", thing.family.key, lambda: work(thing)
    )


def _lean(thing: Thing) -> Lean | None:
    ends = [(Face.BOTTOM, thing.family.node.get("foot")), (Face.TOP, thing.family.node.get("head"))]
    said = [(end, node) for end, node in ends if node is not None]
    if not said:
        return None
    if len(said) == 2:
        raise _at(thing, said[1][1]).error("a part leans by its foot or by its head, not by both")
    end, node = said[0]
    shift = {Axis.WIDE: 0.0, Axis.DEEP: 0.0}
    for entry in as_mapping(node, "a lean"):
        scalar = as_scalar(entry.value, f"`{entry.name}`")
        asker = Asker(thing.scope, scalar, thing, what=f"lean {entry.name}")
        size = _lean_size(thing, asker, parse_expression(scalar))
        for face in paired_faces(asker, entry.name):
            shift[face.axis] += face.sign * size
    return Lean(end, (shift[Axis.WIDE], shift[Axis.DEEP]))


def _lean_size(thing: Thing, asker: Asker, formula: Expression) -> float:
    """How far that end goes: a size, or an angle over the whole height."""
    value = asker.value(formula)
    if value.kind is Kind.ANGLE:
        if not -60 <= value.number <= 60:
            raise asker.error(f"a lean of {value.number:g} degrees is more than a stick can stand")
        return thing.reach(Axis.HIGH).size * math.tan(math.radians(value.number))
    return size_in(asker, formula)


def paired_faces(asker: Asker, word: str) -> list[Face]:
    """All faces a word means: `inside` of one of four corner legs is two."""
    if word in FACE_OF_WORD:
        return [FACE_OF_WORD[word]]
    if word not in ("inside", "outside"):
        raise asker.error(
            f"`{word}` is no face of a part", None, "write left, right, front, back, top, bottom"
        )
    sign = 1 if word == "outside" else -1
    faces = [face_of(axis, sign * SIDES[side][1]) for axis, side in sorted(asker.written_sides.items())]
    if not faces:
        raise asker.error(
            f"`{word}` has no meaning for a part that is not one of a pair",
            None,
            "name the face: left, right, front, back, top or bottom",
        )
    return faces


def _at(thing: Thing, node: Node) -> Asker:
    return Asker(thing.scope, Scalar("", node.place), thing)


def _taper_node(thing: Thing, node: Node) -> MappingNode:
    if isinstance(node, SequenceNode):
        if len(node) != 1:
            raise _at(thing, node).error("a part tapers once", None, "give one taper")
        node = node.items[0]
    return as_mapping(node, "`taper`")


def _taper_end(entries: MappingNode) -> Face:
    node = entries.get("end")
    return face_said(as_scalar(node, "`end`"), "end") if node else Face.BOTTOM


def _taper(thing: Thing, node: Node) -> Taper:
    entries = _taper_node(thing, node)
    end = _taper_end(entries)
    scalar = as_scalar(entries.by_name["to"].value, "`to`")
    size = size_in(Asker(thing.scope, scalar, thing, own=True, what="taper, to"), parse_expression(scalar))
    return Taper(end, size, _taper_start(thing, entries, end), _taper_faces(thing, entries, end))


def _taper_start(thing: Thing, entries: MappingNode, end: Face) -> float:
    node = entries.get("start")
    if node is None:
        run = thing.reach(end.axis)
        return run.high if end.sign < 0 else run.low
    scalar = as_scalar(node, "`start`")
    asker = Asker(thing.scope, scalar, thing, end.axis, own=True, what="taper, start")
    start = place_at(asker, parse_expression(scalar), end.axis).number
    run = thing.reach(end.axis)
    last = run.low if end.sign < 0 else run.high
    if (last - start) * end.sign <= TOUCH or abs(last - start) > run.size + TOUCH:
        raise asker.error(
            f"this taper begins outside the part, or at its {end.word}",
            None,
            f"begin it short of its {end.word}",
        )
    return start


def _taper_faces(thing: Thing, entries: MappingNode, end: Face) -> frozenset[Face]:
    node = entries.get("faces")
    if node is None:
        return frozenset()
    items = node.items if isinstance(node, SequenceNode) else (node,)
    faces: set[Face] = set()
    for item in items:
        scalar = as_scalar(item, "`faces`")
        asker = Asker(thing.scope, scalar, thing, own=True, what="taper, faces")
        faces.update(paired_faces(asker, parse_face(scalar)))
    return frozenset(face for face in faces if face.axis is not end.axis)


def _outline(thing: Thing, node: Node) -> Outline:
    if isinstance(node, Scalar):
        return Outline(OutlineKind(node.text.strip().lower()), _seen_from(thing, None))
    entries = as_mapping(node, "`outline`")
    seen_from = _seen_from(thing, entries.get("seen from"))
    for key, kind in (("ring", OutlineKind.RING), ("corners", OutlineKind.CORNERS)):
        scalar = entries.get(key)
        if isinstance(scalar, Scalar):
            asker = Asker(thing.scope, scalar, thing, own=True, what=f"outline, {key}")
            return Outline(kind, seen_from, size_in(asker, parse_expression(scalar)))
    path = entries.get("path")
    if not isinstance(path, SequenceNode):
        raise _at(thing, node).error(
            "this outline says no form", None, "write `round`, `corners`, `ring`, `path`"
        )
    return Outline(OutlineKind.PATH, seen_from, path=_path(thing, path, seen_from))


def _seen_from(thing: Thing, node: Node | None) -> Face:
    if node is not None:
        return face_said(as_scalar(node, "`seen from`"), "seen from")
    grain = grain_of(thing)
    thin = min((a for a in Axis if a is not grain), key=lambda a: (round(thing.reach(a).size, 3), a))
    return {Axis.WIDE: Face.RIGHT, Axis.DEEP: Face.FRONT, Axis.HIGH: Face.TOP}[thin]


def _path(thing: Thing, path: SequenceNode, seen_from: Face) -> tuple[PathPoint, ...]:
    points = tuple(_path_point(thing, item, seen_from) for item in path)
    if len(points) < 3:
        raise _at(thing, path).error("an outline wants three points or more")
    return points


def _path_point(thing: Thing, item: Node, seen_from: Face) -> PathPoint:
    if isinstance(item, SequenceNode):
        across, up = _pair(thing, item, seen_from)
        return PathPoint(across, up)
    entries = as_mapping(item, "a curved point")
    to = entries.get("to")
    if not isinstance(to, SequenceNode):
        raise _at(thing, item).error("a curved point wants `to: [across, up]`")
    across, up = _pair(thing, to, seen_from)
    bulge = 0.0
    for key, sign in (("round", 1), ("hollow", -1)):
        scalar = entries.get(key)
        if isinstance(scalar, Scalar):
            asker = _outline_asker(thing, scalar, seen_from)
            bulge += sign * size_in(asker, parse_expression(scalar))
    return PathPoint(across, up, bulge)


def _pair(thing: Thing, node: SequenceNode, seen_from: Face) -> tuple[float, float]:
    if len(node) != 2:
        raise _at(thing, node).error("a point is `[across, up]`")
    across, up = (
        size_in(_outline_asker(thing, scalar, seen_from), parse_expression(scalar))
        for scalar in (as_scalar(item, "a point") for item in node)
    )
    return across, up


def _outline_asker(thing: Thing, scalar: Scalar, seen_from: Face) -> Asker:
    return Asker(thing.scope, scalar, thing, own=True, what="outline", seen_from=seen_from)
