"""Does anything keep legs and cases from leaning sideways? Rails, stretchers, backs and fixed shelves.

Trade rules, not statics: a leg wants a rail or two far-apart joints in each level direction; a case wants
a back, a frame or a fixed shelf half way up. Pieces held by the wall are left alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined, few_of, grain_axis
from scantling.checks.finding import Finding, Mend
from scantling.checks.holding import holding
from scantling.checks.rules import rule
from scantling.checks.standing import floor_parts
from scantling.checks.ties import is_fixed_to_wall
from scantling.piece.model import Axis, Box, Joint, PartName

SLENDER = 120.0  # mm: a broader upright is a side, not a leg
LOW = 250.0  # mm: shorter legs and cases do not lean
LAP = 20.0  # mm: a rail that lies on the leg this broadly holds it both ways
CASE = 600.0  # mm: lower cases are stiff enough by their corners; judgement
DEEP_RAIL = 75.0  # mm: a rail this deep resists turning; common practice, no source
HALF_WAY = (0.25, 0.75)  # of the height: where a fixed shelf stiffens a case
LEVEL = {Axis.WIDE: "sideways", Axis.DEEP: "to front and back"}


def racking(examined: Examined) -> Iterator[Finding]:
    """Legs first, in both level directions; then sides of cases."""
    if is_fixed_to_wall(examined):
        return
    uprights = [n for n in floor_parts(examined) if _is_upright(examined, n)]
    legs = [n for n in uprights if _is_slender(examined.bounds(n))]
    if len(legs) >= 3:
        yield from _legs(examined, legs)
    yield from _case(examined, [n for n in uprights if _is_side(examined.bounds(n))])


def _is_upright(examined: Examined, name: PartName) -> bool:
    part = examined.piece.part(name)
    straight = part.shape.lean is None and part.placement.is_identity
    return straight and grain_axis(part) == Axis.HIGH and examined.bounds(name).size(Axis.HIGH) > LOW


def _is_slender(box: Box) -> bool:
    return max(box.size(Axis.WIDE), box.size(Axis.DEEP)) <= SLENDER


def _is_side(box: Box) -> bool:
    return box.size(Axis.HIGH) >= CASE and box.size(Axis.WIDE) <= 50.0 and box.size(Axis.DEEP) > SLENDER


def _legs(examined: Examined, legs: list[PartName]) -> Iterator[Finding]:
    limit = rule("legs lean sideways").allowed
    arms = {axis: max(_arm(examined, leg, axis) for leg in legs) for axis in LEVEL}
    free = [axis for axis in LEVEL if arms[axis] < limit]
    if free:
        arm = min(arms.values())
        held = "only their ends are held" if arm <= 0 else f"their joints reach {examined.length(arm)}"
        yield rule("legs lean sideways").found(
            f"nothing keeps {few_of(legs)} from leaning {' or '.join(LEVEL[axis] for axis in free)}: {held} "
            f"that way; {examined.length(limit)} up and down is the least",
            legs,
            arm,
            mend=Mend(
                f"join them with rails {examined.length(limit)} deep or more, "
                "with stretchers lower down, or with corner braces"
            ),
            place=examined.piece.part(legs[0]).place,
        )


def _arm(examined: Examined, leg: PartName, axis: Axis) -> float:
    """From the lowest to the highest of what meets the leg from that direction. [mm]"""
    areas = [j.area for j in examined.joints_of.get(leg, ()) if _holds_along(j, axis)]
    heights = [(a.low[Axis.HIGH], a.high[Axis.HIGH]) for a in areas if a is not None]
    return max(h for _, h in heights) - min(low for low, _ in heights) if heights else 0.0


def _holds_along(joint: Joint, axis: Axis) -> bool:
    """A firm joint with a face upright: end against the leg along the axis, or lying on it along the axis."""
    if joint.area is None or holding(joint.method).holds in ("rests", "slides"):
        return False
    flat = min(Axis, key=joint.area.size)
    return flat == axis or (flat != Axis.HIGH and joint.area.size(axis) >= LAP)


def _case(examined: Examined, sides: list[PartName]) -> Iterator[Finding]:
    if len(sides) < 2 or _has_back(examined, sides):
        return
    held = _keeper(examined, sides)
    code = "stiff without a back" if held else "case leans sideways"
    by = f"only {held} keeps" if held else "no back, no deep rail and no fixed shelf half way up keeps"
    yield rule(code).found(
        f"{by} {few_of(sides)} from leaning sideways",
        sides,
        mend=Mend("a back of 1/4 in (6 mm) plywood fixed all round is the stiffest, or tie it to the wall"),
        place=examined.piece.part(sides[0]).place,
    )


def _has_back(examined: Examined, sides: list[PartName]) -> bool:
    """Whether something thin from front to back closes half the height and most of the width."""
    low = min(examined.bounds(n).low[Axis.WIDE] for n in sides)
    high = max(examined.bounds(n).high[Axis.WIDE] for n in sides)
    tall = max(examined.bounds(n).size(Axis.HIGH) for n in sides)
    upright = [
        examined.bounds(part.name)
        for part in examined.piece.parts
        if part.name not in examined.movement_of
        and examined.bounds(part.name).size(Axis.DEEP) <= 40.0
        and examined.bounds(part.name).size(Axis.HIGH) >= 0.5 * tall
    ]
    return sum(box.size(Axis.WIDE) for box in upright) >= 0.6 * (high - low)


def _keeper(examined: Examined, sides: list[PartName]) -> PartName | None:
    """A part fixed to a side about half way up, or over a depth that resists turning."""
    for name in sides:
        for joint in examined.joints_of.get(name, ()):
            if joint.area is not None and _resists(joint.area, examined.bounds(name), joint):
                return joint.first if joint.second == name else joint.second
    return None


def _resists(area: Box, side: Box, joint: Joint) -> bool:
    at = (area.centre[Axis.HIGH] - side.low[Axis.HIGH]) / side.size(Axis.HIGH)
    half_way = HALF_WAY[0] <= at <= HALF_WAY[1]
    across = min(Axis, key=area.size) == Axis.WIDE and holding(joint.method).holds == "rigid"
    return across and (half_way or area.size(Axis.HIGH) >= DEEP_RAIL)
