"""What every part of the packet needs at hand: the plan, item numbers, and how sizes are written."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from scantling.building import build_plan
from scantling.joinery.features import JointLayout
from scantling.packet.items import Items, items_of
from scantling.packet.pictures import Gallery
from scantling.packet.shown import Sizes
from scantling.packet.ways import WayShown, ways_of
from scantling.piece.model import Joint, PartName
from scantling.quantity import Style
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan


@dataclass(frozen=True)
class Context:
    """One plan, seen through one unit."""

    plan: Plan
    sizes: Sizes
    items: Items

    @cached_property
    def gallery(self) -> Gallery:
        return Gallery(self.plan.scene)

    @cached_property
    def ways(self) -> tuple[WayShown, ...]:
        """Ways to come by the wood."""
        return ways_of(self.plan)

    @cached_property
    def layout_by_joint(self) -> dict[str, JointLayout]:
        return {layout.joint: layout for layout in self.plan.machined.layouts}

    @cached_property
    def joint_by_id(self) -> dict[str, Joint]:
        return {joint.id: joint for joint in self.plan.piece.joints}

    @property
    def foreign(self) -> str:
        """What to know when the packet leads with another unit than the piece file; else empty."""
        own = self.plan.piece.unit
        if own is self.sizes.style.unit:
            return ""
        words = "inches" if own is LengthUnit.INCHES else "millimetres"
        return f"Notes on joints and findings lead with {words}, the unit of the piece file."

    @cached_property
    def any_part_name(self) -> re.Pattern[str]:
        """Finds whole names of parts in a text, the longest first: "tray side" before "tray"."""
        names = sorted((part.name for part in self.plan.piece.parts), key=len, reverse=True)
        return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, names))})(?!\w)")

    def named(self, part: PartName) -> str:
        """A part with its item number: "2L left side"."""
        mark = self.items.marks.get(part)
        return f"{mark} {part}" if mark else part

    def marks(self, parts: Iterable[PartName]) -> list[str]:
        """Item marks, each once, in the order of the parts list."""
        wanted = {self.items.marks[part] for part in parts if part in self.items.marks}
        return [mark for mark in dict.fromkeys(self.items.marks.values()) if mark in wanted]

    def owner(self, owner: str, part: PartName) -> str:
        """What a joint id or fitting is called on the sheet of `part`."""
        joint = self.joint_by_id.get(owner)
        if joint is None:
            return "as drawn" if owner == "work" else owner
        other = joint.second if joint.first == part else joint.first
        return f"{joint.method} with {self.items.marks.get(other, other)}"


def context_of(plan: Plan, units: LengthUnit | None = None) -> Context:
    """`units` None: as the piece file is written."""
    unit = units or plan.piece.unit
    style = Style(unit, plan.shop.fraction)
    return Context(_steps_in(plan, unit), Sizes(style), items_of(plan.machined))


def _steps_in(plan: Plan, unit: LengthUnit) -> Plan:
    """With the steps said in `unit`. Joints keep the file's unit, in which their sizes were chosen."""
    if plan.shop.unit is unit:
        return plan
    said = build_plan(plan.machined, plan.cut_plan, replace(plan.shop_as_left, unit=unit))
    return replace(plan, build_plan=said)
