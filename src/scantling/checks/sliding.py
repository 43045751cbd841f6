"""Can tops and battens on sliding fasteners move as far as the seasons want?

From the line that stays put, the wood moves one way or the other; the fastener's travel must be as much.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks.examined import Examined
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.holding import holding
from scantling.checks.rules import rule
from scantling.checks.yearly import board_width, yearly_change
from scantling.piece.model import Axis, Face, Joint, Part

FREE_ALONG = frozenset({"buttons", "clips"})  # their slots run on along the rail
PLAY = 0.5  # mm a screw has in its slot besides; judgement
COMFORTABLE = 0.75  # of the travel; beyond it a finding says it is scant; judgement


@dataclass(frozen=True, slots=True)
class Sliding:
    """One meeting on sliding fasteners: what it wants either way at `far` from the fixed line. [mm]"""

    joint: Joint
    mover: Part
    keeper: Part
    axis: Axis
    far: float
    wants: float
    travel: float
    measured: bool  # the layout says the travel; else it is what such fasteners usually have
    whole: float = 0.0  # from the driest to the dampest air [mm]
    swells: bool = False  # more than it shrinks, from the bench

    @property
    def comfortable(self) -> float:
        """What it takes without a word: a slot its whole length and a little, others three quarters. [mm]"""
        slotted = self.measured and self.joint.method == "slotted screws"
        return self.travel + PLAY if slotted else COMFORTABLE * self.travel

    @property
    def fits_off_middle(self) -> bool:
        """A slot long enough for the whole year, if its screw is not driven in the middle."""
        slotted = self.measured and self.joint.method == "slotted screws"
        return slotted and self.whole <= 2 * self.travel + PLAY


def sliding_fasteners(examined: Examined) -> Iterator[Finding]:
    """The worst meeting of each joint line whose travel is too small."""
    worst: dict[tuple[int, str], Sliding] = {}
    for joint in examined.piece.joints:
        known = joint.second in examined.piece.part_by_name and joint.area is not None
        if known and holding(joint.method).holds == "slides":
            tried = [each for axis in _held_axes(joint) for each in _slidings(examined, joint, axis)]
            if not tried:
                continue
            found = max(tried, key=lambda each: each.wants - each.travel)
            key = (joint.line, found.mover.definition)
            if key not in worst or found.wants - found.travel > worst[key].wants - worst[key].travel:
                worst[key] = found
    for each in worst.values():
        if each.wants > each.comfortable:
            yield _finding(examined, each)


def _held_axes(joint: Joint) -> list[Axis]:
    """The axes in the plane of the meeting along which its fasteners have an end to their travel."""
    assert joint.area is not None
    meeting = min(Axis, key=joint.area.size)
    level = [axis for axis in Axis if axis != meeting]
    run = max(level, key=joint.area.size)
    return [axis for axis in level if axis != run or joint.method not in FREE_ALONG]


def _slidings(examined: Examined, joint: Joint, axis: Axis) -> list[Sliding]:
    """Each fastener by itself where the layout says its place and travel, else the farthest end."""
    assert joint.area is not None
    first, second = examined.piece.part(joint.first), examined.piece.part(joint.second)
    whole = [yearly_change(examined, part, axis, 100.0).whole for part in (first, second)]
    mover, keeper = (first, second) if whole[0] >= whole[1] else (second, first)
    fixed = _fixed_line(examined, joint, mover, axis)
    ends = max(abs(joint.area.low[axis] - fixed), abs(joint.area.high[axis] - fixed))
    uses = examined.uses_of.get(joint.id, ())
    placed = [(abs(at[axis] - fixed), use.travel) for use in uses if use.travel for at in use.at]
    usual = holding(joint.method).travel or 0.0
    found = []
    for far, travel in placed or [(ends, usual)]:
        alone = min(far, board_width(mover) / 2) if board_width(mover) < mover.width else far
        moves = yearly_change(examined, mover, axis, alone)
        gives = yearly_change(examined, keeper, axis, _kept_along(examined, keeper, axis, fixed, alone))
        yearly, swells = abs(moves.whole - gives.whole), moves.swells > moves.shrinks
        wants = moves.beyond(gives)
        found.append(Sliding(joint, mover, keeper, axis, alone, wants, travel, bool(placed), yearly, swells))
    return found


def _kept_along(examined: Examined, keeper: Part, axis: Axis, fixed: float, far: float) -> float:
    """How much of the keeper lies between the line that stays put and the fastener. [mm]

    A rail that stands off that line is carried by its neighbours, whose length does not change.
    """
    box = examined.bounds(keeper.name)
    on_it = box.low[axis] <= fixed <= box.high[axis]
    return min(far, max(fixed - box.low[axis], box.high[axis] - fixed)) if on_it else 0.0


def _fixed_line(examined: Examined, joint: Joint, mover: Part, axis: Axis) -> float:
    box = examined.bounds(mover.name)
    face = next((f for f in Face if f.word == joint.settings.fixed_at and f.axis == axis), None)
    return box.centre[axis] if face is None else _nearest_fastened(examined, joint, axis, box.face(face))


def _nearest_fastened(examined: Examined, joint: Joint, axis: Axis, edge: float) -> float:
    """The fastened place nearest that edge: what stays put is a fastener, not the edge itself."""
    ends = [
        end
        for each in examined.piece.joints
        if each.line == joint.line and each.area is not None and joint.first in (each.first, each.second)
        for end in (each.area.low[axis], each.area.high[axis])
    ]
    return min(ends, key=lambda end: abs(end - edge))


def _finding(examined: Examined, each: Sliding) -> Finding:
    small = each.wants > each.travel and not each.fits_off_middle
    code = "fastener travel too small" if small else "fastener travel scant"
    fixed = each.joint.settings.fixed_at or "its middle, since nothing else is said"
    return rule(code).found(
        f"{each.mover.name} moves {examined.small(each.wants)} either way where it lies on "
        f"{each.keeper.name}, {examined.length(each.far)} from the line that stays put ({fixed}); "
        f"the {each.joint.method} give {examined.small(each.travel)}",
        (each.mover.name, each.keeper.name),
        each.wants,
        limit=each.travel,
        mend=_mend(examined, each),
        place=each.joint.place,
    )


def _mend(examined: Examined, each: Sliding) -> Mend:
    place = each.joint.place
    if each.fits_off_middle:
        off = examined.length(each.wants - each.travel)
        way = "nearer to" if each.swells else "farther from"
        return Mend(f"drive each screw {off} off the middle of its slot, {way} the line that stays put")
    if each.joint.settings.fixed_at not in (None, "middle") and each.wants / 2 <= COMFORTABLE * each.travel:
        half = examined.length(examined.bounds(each.mover.name).size(each.axis) / 2)
        return Mend(
            f"fix it at the middle: then nothing lies more than {half} from the fixed line",
            (Change("fixed at", "middle", place),),
        )
    slot = examined.length(examined.fine_step_up(2 * each.wants))
    return Mend(
        f"use slotted screws, each slot {slot} longer than its screw is thick",
        (Change("method", "slotted screws", place),),
    )
