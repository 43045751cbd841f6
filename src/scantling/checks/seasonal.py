"""Is solid wood held so that it cannot swell and shrink? Every rigid meeting across the grain.

The two parts of a meeting are compared by how differently they move along it. Sliding fasteners are
looked at in `sliding`, floating panels and drawers in `fit`. Movement: Wood Handbook ch. 13.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks.examined import Examined, few_of, grain_axis, panel_of, wood_of
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.holding import holding, is_rigid
from scantling.checks.rules import rule
from scantling.checks.yearly import board_width, yearly_change
from scantling.piece.model import Axis, Joint, Part
from scantling.quantity import LengthUnit, format_length

INTO_A_LEG = frozenset({"tenon", "through tenon", "loose tenon", "dowels", "bridle", "sliding dovetail"})
LITTLE, MUCH = 1.0, 2.0  # mm over the held length: below, the wood takes it up; above, it splits; judgement
SHEET_GIVES = 3.0  # mm: a back or a top of plywood or MDF, screwed or glued all round; common practice
GLUED_INCHES, GLUED_MM = 76.2, 100.0  # how much of a wide meeting may be glued: trade practice
ENDS = {"front": Axis.DEEP, "back": Axis.DEEP, "top": Axis.HIGH, "bottom": Axis.HIGH}
ENDS |= {"left": Axis.WIDE, "right": Axis.WIDE}


@dataclass(frozen=True, slots=True)
class Held:
    """A stretch of `joint` over which two parts are held together, and how differently they move."""

    joint: Joint
    length: float
    difference: float
    mover: Part
    keeper: Part
    axis: Axis
    into_end: bool  # the first part's end grain meets the second

    @property
    def is_rail(self) -> bool:
        return self.into_end and self.joint.method in INTO_A_LEG

    @property
    def least(self) -> float:
        """Movement below which the wood and the fasteners take it up. [mm]"""
        return SHEET_GIVES if panel_of(self.mover) is not None else LITTLE

    @property
    def limit(self) -> float:
        return rule("wide rail glued whole" if self.is_rail else "held across its grain").allowed

    @property
    def code(self) -> str:
        if self.is_rail and self.length <= 2 * self.limit:
            return "wide rail glued whole"
        return "held across its grain" if self.difference >= MUCH else "held a little across its grain"


def seasonal_movement(examined: Examined) -> Iterator[Finding]:
    """One finding a joint line for what is held across its grain; then about the air."""
    lines: dict[tuple[int, str, str], list[Held]] = defaultdict(list)
    for held in _held_meetings(examined):
        lines[held.joint.line, held.joint.method, held.code].append(held)
    for meetings in lines.values():
        yield _held_finding(examined, meetings)
    yield from _air_findings(examined)


def _held_meetings(examined: Examined) -> Iterator[Held]:
    parts = examined.piece.part_by_name
    for joint in examined.piece.joints:
        if is_rigid(joint.method) and joint.second in parts and joint.area is not None:
            held = max((_held(examined, joint, axis) for axis in Axis), key=lambda h: h.difference)
            if held.length > held.limit and held.difference >= held.least:
                yield held


def _held(examined: Examined, joint: Joint, axis: Axis) -> Held:
    assert joint.area is not None
    first, second = examined.piece.part(joint.first), examined.piece.part(joint.second)
    length = _glued_length(joint, joint.area.size(axis), axis)
    for part in (first, second):
        if grain_axis(part) != axis:
            length = min(length, board_width(part)) if board_width(part) < part.width else length
    whole = [yearly_change(examined, part, axis, length).whole for part in (first, second)]
    mover, keeper = (first, second) if whole[0] >= whole[1] else (second, first)
    meeting = min(Axis, key=joint.area.size)
    return Held(joint, length, abs(whole[0] - whole[1]), mover, keeper, axis, grain_axis(first) == meeting)


def _glued_length(joint: Joint, size: float, axis: Axis) -> float:
    glue = joint.settings.glue
    if glue is None or not holding(joint.method).glued or glue.extent == "all":
        return size
    if glue.extent == "none":
        return 0.0
    return min(size, glue.length) if ENDS.get(glue.where, axis) == axis else size


def _held_finding(examined: Examined, meetings: list[Held]) -> Finding:
    worst = max(meetings, key=lambda held: held.difference)
    movers = list(dict.fromkeys(held.mover.name for held in meetings))
    message = (
        f"{few_of(movers)}: held {_across(worst)} over {examined.length(worst.length)} "
        f"by {worst.joint.method} (to {worst.keeper.name}); over the year it wants to move "
        f"{examined.small(worst.difference)} there"
    )
    return rule(worst.code).found(
        message,
        dict.fromkeys(name for held in meetings for name in (held.mover.name, held.keeper.name)),
        worst.length,
        limit=worst.limit,
        mend=_mend(examined, worst),
        place=worst.joint.place,
        spot=worst.joint.area.centre if worst.joint.area else None,
    )


def _across(held: Held) -> str:
    return "across the grain" if panel_of(held.mover) is None else "fast"


def _mend(examined: Examined, held: Held) -> Mend:
    place = held.joint.place
    if held.joint.method == "glue" or not holding(held.joint.method).glued:
        slot = examined.length(examined.fine_step_up(held.difference))
        return Mend(
            f"use slotted screws with one line fixed; slots {slot} longer than the screw is thick",
            (Change("method", "slotted screws", place),),
        )
    side = {Axis.HIGH: "top", Axis.DEEP: "front", Axis.WIDE: "left"}[held.axis]
    glued = GLUED_INCHES if examined.piece.unit is LengthUnit.INCHES else GLUED_MM
    shown = format_length(glued, examined.style)
    slides = examined.length(examined.fine_step_up(held.difference))
    return Mend(
        f"glue only {shown.text} of it (write `glue: {side} {shown.number}`) "
        f"and leave the rest {slides} to slide",
        (Change("glue", f"{side} {shown.number}", place),),
    )


def _air_findings(examined: Examined) -> Iterator[Finding]:
    wide = [p for p in examined.piece.parts if wood_of(p) is not None and p.width > 100.0]
    if not wide:
        return
    moistures = examined.moistures
    if moistures.assumed:
        yield rule("air assumed").found(
            "no air is written for the room; seasonal movement is worked out for a heated house, 30 to 60 % "
            f"humidity (wood at {moistures.dry:.1f} to {moistures.damp:.1f} % moisture)",
            mend=Mend("write `room: {air: {dry: 30 %, damp: 60 %, at: 70 F}}` with your own numbers"),
        )
    beyond = max(moistures.dry - moistures.bench, moistures.bench - moistures.damp, 0.0)
    if beyond > rule("bench air differs").allowed:
        yield rule("bench air differs").found(
            f"wood lies at {moistures.bench:.1f} % at the bench but lives between {moistures.dry:.1f} and "
            f"{moistures.damp:.1f} %: let it lie in the room before fitting",
            number=beyond,
        )
