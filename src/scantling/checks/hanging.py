"""Do screws into the wall find the studs, and hold what hangs on them?

A hung piece pulls its upper screws outward by its weight times half its depth over their height above
the lowest wood that bears on the wall; a wood
screw in a stud holds a fifth of its ultimate withdrawal (Wood Handbook Eq. 8-10).
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import GRAVITY, Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.loads import bearings
from scantling.checks.rules import rule
from scantling.checks.ties import is_hung
from scantling.joinery.features import HardwareUse
from scantling.joinery.made import counted
from scantling.piece.model import WALL, Axis, Joint
from scantling.wood import WORKING_SHARE, screw_withdrawal

ON_WALL = 3.0  # mm: nearer parts bear on the wall
LEAST_ARM = 10.0  # mm: a screw in the lowest wood still has half a cleat below it
PLASTER = 12.7  # mm a screw passes before it meets the stud; usual board, from memory
STUD_GRAVITY = 0.42  # lodgepole pine and its like, Wood Handbook Table 5-3a


def wall_fixings(examined: Examined) -> Iterator[Finding]:
    """Findings on screws into the wall, and on what a piece that hangs asks of them."""
    fixed = [joint for joint in examined.piece.joints if joint.second == WALL]
    for joint in fixed:
        yield from _stud_misses(examined, joint)
    if is_hung(examined):
        yield from _hanging(examined, fixed)


def _stud_misses(examined: Examined, joint: Joint) -> Iterator[Finding]:
    setting = examined.piece.room
    if setting.studs is None:
        return
    first, near = setting.first_stud or 0.0, rule("screw misses the stud").allowed
    places = [at[Axis.WIDE] for use in examined.uses_of.get(joint.id, ()) for at in use.at]
    misses = [abs((x - first + setting.studs / 2) % setting.studs - setting.studs / 2) for x in places]
    if misses and min(misses) > near:
        worst = min(misses)
        yield rule("screw misses the stud").found(
            f"{joint.first}: no screw comes within {examined.length(near)} of a stud; "
            f"the nearest is {examined.length(worst)} off",
            (joint.first,),
            worst,
            mend=Mend(f"move it {examined.length(worst)} sideways"),
            place=joint.place,
        )


def _hanging(examined: Examined, fixed: list[Joint]) -> Iterator[Finding]:
    uses = [(joint, use) for joint in fixed for use in examined.uses_of.get(joint.id, ())]
    count = sum(use.count for _, use in uses)
    if not count:
        return
    mass = examined.mass.total + sum(b.mass for b in bearings(examined) if b.lasting)
    down, outward = mass * GRAVITY / count, _outward(examined, fixed, mass) / count
    yield rule("wall fixings").found(
        f"filled, it hangs {examined.weight(mass)} on {counted(count, 'screw')}: "
        f"{examined.force(down)} down and about {examined.force(outward)} outward on each; they must bite in "
        "studs or masonry plugs",
        tuple(dict.fromkeys(joint.first for joint in fixed))[:4],
        mass * GRAVITY,
        place=fixed[0].place,
    )
    yield from _pull_out(examined, uses, outward)


def _outward(examined: Examined, fixed: list[Joint], mass: float) -> float:
    """Pull on the upper fixings: half the depth over their height above the lowest wood on the wall. [N]"""
    overall = examined.piece.overall
    high = max(examined.bounds(joint.first).centre[Axis.HIGH] for joint in fixed)
    arm = high - _lowest_on_wall(examined)
    return mass * GRAVITY * overall.size(Axis.DEEP) / 2.0 / max(arm, LEAST_ARM)


def _lowest_on_wall(examined: Examined) -> float:
    """Where the piece bears on the wall as it tips away from it. [mm]"""
    back = examined.piece.overall.high[Axis.DEEP]
    boxes = [examined.bounds(part.name) for part in examined.piece.parts]
    touching = [b.low[Axis.HIGH] for b in boxes if b.high[Axis.DEEP] > back - ON_WALL]
    return min(touching, default=examined.piece.overall.low[Axis.HIGH])


def _pull_out(examined: Examined, uses: list[tuple[Joint, HardwareUse]], outward: float) -> Iterator[Finding]:
    """The first wall screw that holds less than the pull, taken as a wood screw in a pine stud."""
    for joint, use in uses:
        sizes = dict(use.sizes)
        if {"length", "diameter"} <= sizes.keys():
            before_stud = examined.bounds(joint.first).size(Axis.DEEP) + PLASTER
            bite = max(sizes["length"] - before_stud, 0.0)
            per_mm = WORKING_SHARE * screw_withdrawal(STUD_GRAVITY, sizes["diameter"], 1.0)
            if outward > per_mm * bite:
                longer = examined.length(examined.step_up(outward / per_mm + before_stud))
                yield rule("wall screws pull out").found(
                    f"{joint.first}: screws {examined.length(sizes['length'])} long bite "
                    f"{examined.length(bite)} into a stud behind plasterboard and hold "
                    f"{examined.force(per_mm * bite)}; {examined.force(outward)} pull on each",
                    (joint.first,),
                    outward,
                    limit=per_mm * bite,
                    mend=Mend(f"use screws {longer} long, or more of them"),
                    place=joint.place,
                )
                return
