"""The modules the tree asks, gathered in one place: where the layers of resolve are joined."""

from __future__ import annotations

from scantling.piece.language.expressions import Expression
from scantling.piece.model import Axis, Lean, Material, Outline, Section, Taper
from scantling.piece.resolve import (
    as_built,
    copies,
    evaluate,
    grain,
    hardware,
    materials,
    named,
    reaching,
    setting,
    shapes,
)
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.tree import Copy, Family, Reach, Scope, Thing
from scantling.piece.resolve.values import Value


class PieceWorkings:
    """See `common.Workings`."""

    def value(self, asker: Asker, formula: Expression) -> Value:
        return evaluate.value_of(asker, formula)

    def expand(self, family: Family) -> tuple[Copy, ...]:
        return copies.expand(family)

    def reach(self, thing: Thing, axis: Axis) -> Reach:
        return reaching.reach_of(thing, axis)

    def copy_reach(self, copy: Copy, axis: Axis) -> Reach:
        return as_built.copy_reach(copy, axis)

    def row_start(self, thing: Thing, axis: Axis | None) -> float | None:
        return copies.row_start(thing, axis)

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
