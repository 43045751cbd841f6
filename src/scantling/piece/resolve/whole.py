"""The whole of resolve: document, facts, record and settings in; the piece out."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language.document import Document, Scalar
from scantling.piece.language.expressions import Expression
from scantling.piece.model import (
    NO_RECORD,
    Axis,
    Box,
    BuildRecord,
    Face,
    Lean,
    Material,
    Outline,
    Piece,
    Section,
    Taper,
)
from scantling.piece.resolve import (
    choices,
    contacts,
    copies,
    evaluate,
    grain,
    hardware,
    joints,
    materials,
    moving,
    named,
    parts,
    setting,
    shapes,
    spans,
)
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.build import root_scope
from scantling.piece.resolve.common import Common
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.tree import Copy, Family, Reach, Scope, Thing
from scantling.piece.resolve.uses import uses_of
from scantling.piece.resolve.values import Value


class _Workings:
    """The modules the tree asks, in one place."""

    def value(self, asker: Asker, formula: Expression) -> Value:
        return evaluate.value_of(asker, formula)

    def expand(self, family: Family) -> tuple[Copy, ...]:
        return copies.expand(family)

    def reach(self, thing: Thing, axis: Axis) -> Reach:
        return spans.reach_of(thing, axis)

    def overall(self, scope: Scope, axis: Axis) -> Reach:
        return named.overall(scope, axis)

    def material(self, thing: Thing) -> Material:
        return materials.of_thing(thing)

    def thing_size(self, scope: Scope, name: str, size: str) -> float | None:
        held = setting.hold_size(scope, name, size)
        return held if held is not None else hardware.fitting_size(scope, name, size)

    def lean(self, thing: Thing) -> Lean | None:
        return shapes.lean_of(thing)

    def taper_axis(self, thing: Thing) -> Axis | None:
        return shapes.taper_axis(thing)

    def taper(self, thing: Thing) -> Taper | None:
        return shapes.taper_of(thing)

    def outline(self, thing: Thing) -> Outline | None:
        return shapes.outline_of(thing)

    def section(self, thing: Thing) -> Section:
        return shapes.section_of(thing)

    def grain(self, thing: Thing) -> Axis:
        return grain.grain_of(thing)


def resolve(
    document: Document,
    facts: ShopFacts = NO_FACTS,
    record: BuildRecord = NO_RECORD,
    settings: Mapping[str, str] | None = None,
) -> Piece:
    """The piece a document describes."""
    common = Common(facts, dict(settings or {}), _Workings())
    root = root_scope(common, document)
    leaves = parts.part_leaves(root)
    found = tuple(parts.part_of(seen) for seen in leaves)
    crowd = Crowd.of(tuple(Standing(part, seen) for part, seen in zip(found, leaves, strict=True)))
    sizes = [named.overall(root, axis).size for axis in Axis]
    overall = Box((0.0, 0.0, 0.0), (sizes[0], sizes[1], sizes[2]))
    uses = uses_of(root)
    room = setting.room_of(root)
    joined = joints.joints_of(uses, crowd, room.against or (Face.BACK,), overall)
    fittings = hardware.fittings_of(uses, crowd)
    movements = moving.movements_of(uses, crowd, joined, fittings)
    poses = moving.poses_of(uses, movements)
    for notice in contacts.unexplained_overlaps(crowd, joined, document.unit):
        common.notice(notice)
    for notice in contacts.loose_touches(crowd, joined, fittings):
        common.notice(notice)
    return Piece(
        name=_text(document, "piece"),
        unit=document.unit,
        overall=overall,
        parts=found,
        joints=joined,
        contacts=contacts.intended(crowd),
        sizes=named.resolved(root),
        choices=choices.resolved(root),
        materials=materials.resolved(root),
        spaces=setting.spaces_of(root),
        hardware=fittings,
        movements=movements,
        poses=poses,
        holds=setting.holds_of(uses, crowd),
        loads=setting.loads_of(uses, crowd, poses),
        room=room,
        finish=setting.finish_of(uses, crowd),
        notices=tuple(common.notices),
        note=_text(document, "note"),
    )


def _text(document: Document, key: str) -> str:
    node = document.get(key)
    return node.text if isinstance(node, Scalar) else ""
