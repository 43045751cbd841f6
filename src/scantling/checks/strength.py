"""Do leg joints hold when the piece is pushed sideways?

A push at the top turns every leg-to-rail joint: moment = force x height / joints that resist (feet free
to turn). Dowels pull out on one side over 0.8 of the rail's depth; tenons shear in their glue lines.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks.examined import Examined, grain_axis, wood_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.checks.standing import floor_parts
from scantling.checks.ties import is_hung
from scantling.piece.model import Axis, Joint, Load
from scantling.wood import dowel_withdrawal_by_area, tenon_moment

LEVER = 0.8  # of the rail's depth between the dowel in tension and the pressed edge; derived
SIDEWAYS = 300.0  # N on a seat: EN 12520 outline, from memory
USUAL_SHEAR = 8.0  # MPa where the table has none; low hardwood of Table 5-3a
TENONS = frozenset({"tenon", "through tenon"})


@dataclass(frozen=True, slots=True)
class SidePush:
    """A level force at a height above the floor. [N, mm]"""

    force: float
    height: float
    axis: Axis
    words: str
    load: Load


def strength(examined: Examined) -> Iterator[Finding]:
    """The weakest answer to the pushes of each level direction, where every joint that resists is known."""
    if is_hung(examined):
        return
    for axis in (Axis.WIDE, Axis.DEEP):
        pushes = [push for push in _pushes(examined) if push.axis == axis]
        joints = _resisting(examined, axis)
        capacities = [joint_moment(examined, joint) for joint in joints]
        if pushes and joints and all(capacity is not None for capacity in capacities):
            worst = max(pushes, key=lambda push: push.force * push.height)
            total = sum(capacity for capacity in capacities if capacity is not None)
            yield from _finding(examined, worst, joints, total)


def joint_moment(examined: Examined, joint: Joint) -> float | None:
    """Moment at which a leg joint breaks; None for methods without a formula. [N mm]"""
    assert joint.area is not None
    layout = examined.layout_of.get(joint.id)
    numbers = dict(layout.numbers) if layout else {}
    if joint.method == "dowels" and {"count", "diameter", "length"} <= numbers.keys():
        pull = dowel_withdrawal_by_area(numbers["diameter"], numbers["length"] / 2.0)
        return numbers["count"] / 2.0 * pull * LEVER * joint.area.size(Axis.HIGH)
    if joint.method == "loose tenon" and {"wide", "length", "count"} <= numbers.keys():
        each = tenon_moment(numbers["wide"], numbers["length"] / 2.0, _shear(examined, joint))
        return numbers["count"] * each
    if joint.method in TENONS:
        return _tenon(examined, joint)
    return None


def _tenon(examined: Examined, joint: Joint) -> float | None:
    meeting = min(Axis, key=joint.area.size) if joint.area else Axis.WIDE
    tenons = [a.box for a in examined.machined.by_name[joint.first].additions if a.owner == joint.id]
    tenons = [box for box in tenons if box.size(meeting) > 5.0 and box.size(Axis.HIGH) > 5.0]
    if not tenons:
        return None
    strength = _shear(examined, joint)
    return sum(tenon_moment(box.size(Axis.HIGH), box.size(meeting), strength) for box in tenons)


def _shear(examined: Examined, joint: Joint) -> float:
    woods = [wood_of(examined.piece.part(name)) for name in (joint.first, joint.second)]
    return min((w.shear_parallel for w in woods if w is not None and w.shear_parallel), default=USUAL_SHEAR)


def _resisting(examined: Examined, axis: Axis) -> list[Joint]:
    """Joints of legs whose meeting faces along the push."""
    legs = {n for n in floor_parts(examined) if grain_axis(examined.piece.part(n)) == Axis.HIGH}
    return [
        joint
        for joint in examined.piece.joints
        if joint.area is not None
        and joint.method != "rests"
        and ({joint.first, joint.second} & legs)
        and min(Axis, key=joint.area.size) == axis
    ]


def _pushes(examined: Examined) -> Iterator[SidePush]:
    floor = examined.piece.overall.low[Axis.HIGH]
    for load in examined.piece.loads:
        height = max((examined.bounds(n).high[Axis.HIGH] for n in load.on), default=floor) - floor
        if load.kind == "push" and load.amount and load.toward and load.toward.axis != Axis.HIGH:
            yield SidePush(
                load.amount, height, load.toward.axis, f"{examined.force(load.amount)} sideways", load
            )
        if load.kind == "sit":
            for axis in (Axis.WIDE, Axis.DEEP):
                yield SidePush(
                    SIDEWAYS, height, axis, f"someone who shifts on it, {examined.force(SIDEWAYS)},", load
                )


def _finding(examined: Examined, push: SidePush, joints: list[Joint], total: float) -> Iterator[Finding]:
    limit = rule("joint weaker than its load").allowed
    ratio = total / (push.force * push.height)
    if ratio >= limit:
        return
    each = push.force * push.height / len(joints) / 1000.0
    deeper = examined.length(examined.step_up(limit / ratio * _least_depth(joints)))
    yield rule("joint weaker than its load").found(
        f"{push.words} at {examined.length(push.height)} puts {examined.moment(each)} on each of "
        f"{len(joints)} leg joints; they break at {ratio:.1f} times that",
        dict.fromkeys(joint.first for joint in joints),
        ratio,
        mend=Mend(f"make the rails {deeper} deep, add fasteners, or add a stretcher lower down"),
        place=push.load.place,
    )


def _least_depth(joints: list[Joint]) -> float:
    return min(joint.area.size(Axis.HIGH) for joint in joints if joint.area is not None)
