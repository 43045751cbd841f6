"""Parts as measured: a pinned copy keeps the face its phrase names first; what is not yet cut follows it.

Two trees are worked out, the piece as planned and the piece as built. A mirrored copy follows its own
neighbours where, as planned, reading its phrase in a looking-glass gives just its mirror image.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from scantling.errors import ResolveError
from scantling.piece.language.document import Scalar
from scantling.piece.language.parse import parse_span
from scantling.piece.language.phrases import Centred, Measured
from scantling.piece.model import TOUCH, Axis, BuildRecord
from scantling.piece.model import Measured as MeasuredPart
from scantling.piece.resolve import names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.directions import DIRECTIONS
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.spans import read_span
from scantling.piece.resolve.steps import Mirror, axis_inside
from scantling.piece.resolve.tree import PART, SIDES, Copy, Reach, Scope, Seen, Thing, leaves, members
from scantling.quantity import MM_PER_INCH, LengthUnit

_FAR_OFF = 4.0  # times: a size measured that far from the plan is a slip


@dataclass(eq=False)
class AsBuilt:
    """What is pinned and fixed, and the copies of the piece as planned by the way that leads to them."""

    planned: dict[str, Copy]
    record: BuildRecord  # its parts by their full names; what must be made again has no size
    pins: dict[str, dict[Axis, float]] = field(default_factory=dict)  # way -> size by inside axis
    fixed: set[str] = field(default_factory=set)

    @property
    def is_as_planned(self) -> bool:
        """Whether nothing is measured or cut: what the record says else changes no size."""
        return not self.fixed and not any(self.pins.values())

    def is_measured(self, copy: Copy) -> bool:
        """Whether a size of this copy is measured."""
        return bool(self.pins.get(way_of(copy)))


def as_built(planned_root: Scope, record: BuildRecord) -> AsBuilt:
    """The record read against the piece as planned. Raises ResolveError for parts it does not have."""
    named = [(_part_named(planned_root, measured), measured) for measured in record.measured]
    whole = replace(
        record, measured=tuple(_standing(measured, seen.name, record) for seen, measured in named)
    )
    built = AsBuilt(dict(_ways(planned_root, "")), whole)
    for (seen, _), measured in zip(named, whole.measured, strict=True):
        pins = built.pins.setdefault(way_of(seen.copy), {})
        for axis, _ in measured.sizes:
            inside, _ = axis_inside(seen.steps, axis)
            pins[inside] = _size_of(measured, axis, planned_root.document.unit)
            _refuse_slip(measured, axis, pins[inside], seen, planned_root.document.unit)
        if measured.cut:
            built.fixed.add(seen.name)
    return built


def _standing(measured: MeasuredPart, part: str, record: BuildRecord) -> MeasuredPart:
    """Under the part's full name; a size measured on a part that was spoiled, and not made since, is void."""
    if measured.spoiled and not record.standing(part, measured.spoiled):
        return replace(measured, part=part, sizes=(), cut=False)
    return replace(measured, part=part)


def _size_of(measured: MeasuredPart, axis: Axis, unit: LengthUnit) -> float:
    """A measured size; a number without unit is in the unit of the piece. [mm]"""
    size = dict(measured.sizes)[axis]
    return size / MM_PER_INCH if axis in measured.bare and unit is LengthUnit.MM else size


def _refuse_slip(measured: MeasuredPart, axis: Axis, size: float, seen: Seen, unit: LengthUnit) -> None:
    """No saw is that far off: the unit was another, or the part."""
    planned = seen.thing.reach(axis_inside(seen.steps, axis)[0]).size
    if planned / _FAR_OFF <= size <= planned * _FAR_OFF:
        return
    raise ResolveError(
        f"{seen.name} is {shown(size, unit)} {axis.word} here, but {shown(planned, unit)} in the plan",
        measured.place,
        "say the unit, as in `29 mm`, or look for a slip",
    )


def _part_named(root: Scope, measured: MeasuredPart) -> Seen:
    found = names.find(root, tuple(measured.part.lower().split()), measured.place)
    parts = [leaf for seen in found.seen for leaf in leaves(seen)]
    if len(parts) != 1:
        listed = ", ".join(part.name for part in parts[:6])
        raise ResolveError(
            f'which "{measured.part}"? there are {len(parts)}: {listed}', measured.place, "name one part"
        )
    return parts[0]


def _ways(scope: Scope, way: str) -> Iterator[tuple[str, Copy]]:
    """Every copy with its way from the top: equal in two trees of one document."""
    for seen in members(scope):
        own = f"{way}/{seen.copy.called}"
        yield own, seen.copy
        if seen.thing.contents is not None and seen.thing.family.kind != PART:
            yield from _ways(seen.thing.contents, own)


def way_of(copy: Copy) -> str:
    """The way of keys that leads to a copy."""
    owner = copy.thing.scope.owner
    outer = way_of(owner.copies[0]) if owner is not None else ""
    return f"{outer}/{copy.called}"


def copy_reach(copy: Copy, axis: Axis) -> Reach:
    """The span of one copy in its definition's frame: planned, following its neighbours, or as measured."""
    common = copy.thing.common
    built = common.built
    if built is None or copy.thing.family.kind != PART:
        return copy.thing.reach(axis)
    key = ("copy reach", id(copy), axis)
    words = copy.thing.family.key
    return common.once(key, f"{copy.called} {axis.word}", words, lambda: _copy_reach(copy, axis, built))


def _copy_reach(copy: Copy, axis: Axis, built: AsBuilt) -> Reach:
    reach = _following(copy, axis, built)
    size = built.pins.get(way_of(copy), {}).get(axis)
    return reach if size is None else _resized(copy.thing, axis, reach, size)


def _following(copy: Copy, axis: Axis, built: AsBuilt) -> Reach:
    """The copy's own reading of its phrase, if as planned that is its mirror image."""
    mirrors = tuple(step for step in copy.steps if isinstance(step, Mirror))
    node = copy.thing.family.node.get(axis.word)
    planned = built.planned.get(way_of(copy))
    if not mirrors or len(mirrors) != len(copy.steps) or not isinstance(node, Scalar) or planned is None:
        return copy.thing.reach(axis)
    try:
        as_planned = _read(planned, node, axis)
    except ResolveError:
        return copy.thing.reach(axis)
    image = planned.thing.reach(axis)
    if abs(as_planned.low - image.low) > TOUCH or abs(as_planned.high - image.high) > TOUCH:
        return copy.thing.reach(axis)
    return _read(copy, node, axis)


def _read(copy: Copy, node: Scalar, axis: Axis) -> Reach:
    mirrors = tuple(step for step in copy.steps if isinstance(step, Mirror))
    asker = Asker(copy.thing.scope, node, copy.thing, axis, mirrors=mirrors, words=copy.words)
    return read_span(asker, parse_span(node))


def _resized(thing: Thing, axis: Axis, reach: Reach, size: float) -> Reach:
    """The measured size from the face that the phrase names first."""
    anchor = _anchor(thing, axis)
    if anchor == 0:
        return Reach(reach.middle - size / 2, reach.middle + size / 2)
    if anchor < 0:
        return Reach(reach.low, reach.low + size, reach.low_faces, reach.high_faces)
    return Reach(reach.high - size, reach.high, reach.low_faces, reach.high_faces)


def _anchor(thing: Thing, axis: Axis) -> int:
    """-1: the low face stays, 1: the high face, 0: the middle."""
    node = thing.family.node.get(axis.word)
    span = parse_span(node) if isinstance(node, Scalar) else None
    if isinstance(span, Centred):
        return 0
    if not isinstance(span, Measured):
        return -1
    if span.direction in DIRECTIONS:
        return -DIRECTIONS[span.direction][1]
    side = next((SIDES[w][1] for w in thing.copies[0].words if SIDES[w][0] is axis), -1)
    return side if span.direction == "inward" else -side
