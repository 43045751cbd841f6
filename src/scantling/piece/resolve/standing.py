"""Parts where they stand: each part with the way it was seen, and its faces near another part."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from scantling.piece.model import TOUCH, Axis, Box, OutlineKind, Part, Section, Vec3
from scantling.piece.resolve.reading import span_at
from scantling.piece.resolve.steps import along, axis_inside
from scantling.piece.resolve.tree import Seen, Thing


@dataclass(frozen=True, eq=False)
class Standing:
    part: Part
    seen: Seen

    @property
    def name(self) -> str:
        return self.part.name

    @cached_property
    def is_plain(self) -> bool:
        """A box as far as its faces go: neither leaning, tapered nor curved."""
        shape = self.part.shape
        return shape.is_box or (
            shape.lean is None
            and shape.taper is None
            and shape.section is Section.SQUARE
            and (shape.outline is None or shape.outline.kind is OutlineKind.CORNERS)
        )

    @cached_property
    def bends(self) -> bool:
        """Whether its side faces depend on where they are read."""
        return self.part.shape.lean is not None or self.part.shape.taper is not None

    def box_near(self, point: Vec3) -> Box:
        """Its box with the faces of a leaning or tapered stick read at `point`."""
        box = self.part.box
        steps = self.seen.steps

        def where(inner: Axis) -> float:
            outer = next(a for a in Axis if axis_inside(steps, a)[0] is inner)
            return along(steps, outer).inside(min(max(point[outer], box.low[outer]), box.high[outer]))

        for axis in Axis:
            way = along(steps, axis)
            low, high = way.span(*span_at(self.seen.thing, way.axis, where))
            box = box.with_span(axis, low, high)
        return box


@dataclass(frozen=True, eq=False)
class Crowd:
    """All parts where they stand, by name and by the definition they are copies of."""

    all: tuple[Standing, ...]
    by_name: dict[str, Standing] = field(default_factory=dict)
    by_thing: dict[int, list[Standing]] = field(default_factory=dict)

    @staticmethod
    def of(standing: tuple[Standing, ...]) -> Crowd:
        crowd = Crowd(standing)
        for one in standing:
            crowd.by_name[one.name] = one
            crowd.by_thing.setdefault(id(one.seen.thing), []).append(one)
        return crowd

    def copies_of(self, thing: Thing) -> list[Standing]:
        return self.by_thing.get(id(thing), [])


def apart(a: Box, b: Box) -> bool:
    """Whether two boxes do not even touch; asked of every pair, so it is written out."""
    (a0, a1, a2), (a3, a4, a5) = a.low, a.high
    (b0, b1, b2), (b3, b4, b5) = b.low, b.high
    return (
        a0 > b3 + TOUCH
        or b0 > a3 + TOUCH
        or a1 > b4 + TOUCH
        or b1 > a4 + TOUCH
        or a2 > b5 + TOUCH
        or b2 > a5 + TOUCH
    )


def near_boxes(a: Standing, b: Standing) -> tuple[Box, Box]:
    """Both boxes, each read where the other is."""
    first = a.box_near(b.part.box.centre) if a.bends else a.part.box
    second = b.box_near(a.part.box.centre) if b.bends else b.part.box
    return first, second
