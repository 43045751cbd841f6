"""What a joint line says beyond who and how, as numbers."""

from __future__ import annotations

from scantling.piece.language.document import MappingNode, Scalar
from scantling.piece.language.parse import parse_by, parse_expression, parse_face, parse_glue
from scantling.piece.language.phrases import Number
from scantling.piece.model import Glue, JointSettings
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.tree import Scope
from scantling.piece.resolve.wanting import size_in
from scantling.quantity.kinds import Kind, LengthUnit

_SCREWED = ("screws", "pocket screws", "slotted screws", "buttons", "clips", "figure eights", "brackets")
_LEAST_GAUGE = 2


def settings_of(scope: Scope, line: MappingNode, method: str) -> JointSettings:
    """The settings of one joint line. `tails on` is settled pair by pair."""
    size, gauge = _size(scope, line, method)
    return JointSettings(
        size=size,
        gauge=gauge,
        deep=_length(scope, line, "deep"),
        count=_count(scope, line),
        every=_length(scope, line, "every"),
        glue=_glue(scope, line),
        gap=_length(scope, line, "gap"),
        stand_off=_length(scope, line, "stand off"),
        fixed_at=_face(line, "fixed at"),
        runs=_length(scope, line, "runs"),
        through=_text(line, "through") == "yes",
        wedge=_text(line, "wedge"),
    )


def _size(scope: Scope, line: MappingNode, method: str) -> tuple[tuple[float, ...], bool]:
    node = line.get("size")
    if not isinstance(node, Scalar):
        return (), False
    asker = Asker(scope, node, what="joint, size")
    formulas = parse_by(node).sizes
    first = formulas[0]
    gauge = (
        method in _SCREWED
        and node.unit is LengthUnit.INCHES
        and isinstance(first, Number)
        and first.kind is None
        and first.plain == int(first.plain)
        and first.plain >= _LEAST_GAUGE
    )
    sizes = [size_in(asker, formula) for formula in formulas]
    if gauge and isinstance(first, Number):
        sizes[0] = first.plain
    if min(sizes) <= 0:
        raise asker.error("a size must be above zero")
    return tuple(sizes), gauge


def _length(scope: Scope, line: MappingNode, key: str) -> float | None:
    node = line.get(key)
    if not isinstance(node, Scalar):
        return None
    asker = Asker(scope, node, what=f"joint, {key}")
    size = size_in(asker, parse_expression(node))
    if size < 0:
        raise asker.error(f"`{key}` may not be below zero")
    return size


def _count(scope: Scope, line: MappingNode) -> int | None:
    node = line.get("count")
    if not isinstance(node, Scalar):
        return None
    asker = Asker(scope, node, what="joint, count")
    count = size_in(asker, parse_expression(node), Kind.COUNT)
    if count != int(count) or count < 1:
        raise asker.error(f"a count is a whole number from 1, not {count:g}")
    return int(count)


def _glue(scope: Scope, line: MappingNode) -> Glue | None:
    node = line.get("glue")
    if not isinstance(node, Scalar):
        return None
    glue = parse_glue(node)
    if glue.where in ("all", "none"):
        return Glue(glue.where)
    if glue.length_glued is None:
        raise Asker(scope, node, what="joint, glue").error(
            f"how much at the {glue.where}?", glue, f"write `{glue.where} 3`"
        )
    return Glue("part", glue.where, size_in(Asker(scope, node, what="joint, glue"), glue.length_glued))


def _face(line: MappingNode, key: str) -> str | None:
    node = line.get(key)
    return parse_face(node) if isinstance(node, Scalar) else None


def _text(line: MappingNode, key: str) -> str | None:
    node = line.get(key)
    return " ".join(node.text.split()) if isinstance(node, Scalar) else None
