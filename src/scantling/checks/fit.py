"""Can solid panels swell in their grooves and drawers in their openings without sticking?

A panel that floats needs room to swell and enough in the groove when it shrinks; a loose part under
a fixed one needs air above it in the damp season. Movement: Wood Handbook ch. 13.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator

from scantling.checks.examined import Examined, frame_axis, grain_axis, wood_of
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.holding import holding
from scantling.checks.rules import rule
from scantling.checks.ties import groups_tied
from scantling.checks.yearly import yearly_change
from scantling.piece.model import Axis, Box, Joint, Part, PartName

SLACK_IN_DAMP = 0.3  # mm a drawer still wants above it; trade practice
CRUSH = 0.5  # mm a panel may press before it opens the frame; judgement
NEAR = 12.0  # mm: gaps above this are no fit


def groove_and_gap_fit(examined: Examined) -> Iterator[Finding]:
    """Floating panels first, then loose parts under fixed ones."""
    yield from _panel_findings(examined)
    yield from _sticking_findings(examined)


def _panel_findings(examined: Examined) -> Iterator[Finding]:
    floating: dict[PartName, list[Joint]] = {}
    for joint in examined.piece.joints:
        if holding(joint.method).holds == "floats" and joint.settings.runs is None:
            floating.setdefault(joint.first, []).append(joint)
    for name, joints in floating.items():
        part = examined.piece.part(name)
        if wood_of(part) is not None:
            yield from _panel_finding(examined, part, joints)


def _panel_finding(examined: Examined, part: Part, joints: list[Joint]) -> Iterator[Finding]:
    across = [j for j in joints if j.first_face and _axis(part, j) != grain_axis(part)]
    across = [j for j in across if _axis(part, j) != frame_axis(part, part.thickness_axis)]
    sides = {j.first_face: j for j in across}
    if len(sides) < 2:
        return
    axis = _axis(part, across[0])
    swing = yearly_change(examined, part, axis, examined.bounds(part.name).size(axis))
    gaps = [_number(examined, joint, "gap", joint.settings.gap) for joint in sides.values()]
    depths = [_number(examined, joint, "deep", joint.settings.deep) for joint in sides.values()]
    joint = across[0]
    if all(gap is not None for gap in gaps):
        yield from _swelling(examined, part, joint, swing.swells, sum(gap for gap in gaps if gap is not None))
    if all(deep is not None for deep in depths):
        held = min(deep for deep in depths if deep is not None) - swing.shrinks
        yield from _shrinking(examined, part, joint, held, swing.shrinks)


def _swelling(examined: Examined, part: Part, joint: Joint, swells: float, room: float) -> Iterator[Finding]:
    if swells <= room:
        return
    gap = examined.fine_step_up(swells / 2)
    code = "panel swells against its groove" if swells > room + CRUSH else "panel tight in its groove"
    yield rule(code).found(
        f"{part.name} swells {examined.small(swells)} in damp air; its grooves leave {examined.small(room)}",
        (part.name, joint.second),
        swells,
        limit=room,
        mend=Mend(
            f"leave {examined.length(gap)} at the bottom of each groove",
            (Change("gap", f"{gap:.4g} mm", joint.place),),
        ),
        place=joint.place,
    )


def _shrinking(
    examined: Examined, part: Part, joint: Joint, held: float, shrinks: float
) -> Iterator[Finding]:
    least = rule("panel shrinks out of its groove").allowed
    if held >= least:
        return
    deep = examined.fine_step_up(least + shrinks)
    yield rule("panel shrinks out of its groove").found(
        f"{part.name} shrinks {examined.small(shrinks)} in dry air; if it creeps to one side only "
        f"{examined.small(max(held, 0.0))} stays in the other groove",
        (part.name, joint.second),
        held,
        mend=Mend(
            f"make the grooves {examined.length(deep)} deep",
            (Change("deep", f"{deep:.4g} mm", joint.place),),
        ),
        place=joint.place,
    )


def _sticking_findings(examined: Examined) -> Iterator[Finding]:
    told: set[str] = set()
    for pairs in _gaps_between_groups(examined):
        finding = _sticking(examined, pairs)
        if finding is not None and finding.where[0] not in told:
            told.add(finding.where[0])
            yield finding


def _gaps_between_groups(examined: Examined) -> Iterator[list[tuple[PartName, PartName]]]:
    """For two tied groups at a time, the parts of one with a part of the other a little above."""
    group_of = {name: i for i, group in enumerate(groups_tied(examined)) for name in group}
    found: dict[tuple[int, int, bool], list[tuple[PartName, PartName]]] = {}
    for name, above in _a_little_above(examined, sorted(group_of, key=group_of.__getitem__)):
        low, high = group_of[name], group_of[above]
        if low != high:
            found.setdefault((min(low, high), max(low, high), low > high), []).append((name, above))
    return (found[key] for key in sorted(found))


def _a_little_above(examined: Examined, names: list[PartName]) -> Iterator[tuple[PartName, PartName]]:
    """Each part with those over it by less than a fit, found by their height alone first."""
    bounds = [examined.bounds(name) for name in names]
    order = sorted(range(len(names)), key=lambda i: bounds[i].low[Axis.HIGH])
    lows = [bounds[i].low[Axis.HIGH] for i in order]
    for name, box in zip(names, bounds, strict=True):
        top = box.high[Axis.HIGH]
        level = order[bisect_left(lows, top) : bisect_right(lows, top + NEAR)]
        for other in sorted(level):
            if _gap_above(box, bounds[other]) is not None:
                yield name, names[other]


def _sticking(examined: Examined, pairs: list[tuple[PartName, PartName]]) -> Finding | None:
    worst: Finding | None = None
    for name, above in pairs:
        part = examined.piece.part(name)
        if wood_of(part) is None or grain_axis(part) == Axis.HIGH:
            continue
        box = examined.bounds(name)
        gap = examined.bounds(above).low[Axis.HIGH] - box.high[Axis.HIGH]
        swells = yearly_change(examined, part, Axis.HIGH, box.size(Axis.HIGH)).swells
        if gap - swells >= SLACK_IN_DAMP:
            continue
        short = examined.fine_step_up(swells + SLACK_IN_DAMP - gap)
        worst = rule("swells shut").found(
            f"{name} has {examined.small(gap)} under {above} and swells {examined.small(swells)} in damp air",
            (name, above),
            gap - swells,
            limit=SLACK_IN_DAMP,
            mend=Mend(f"make it {examined.length(short)} lower"),
            place=part.place,
        )
    return worst


def _gap_above(lower: Box, upper: Box) -> float | None:
    """Air between a box and one over it, where they overlap in plan and one is not tall beside the other."""
    gap = upper.low[Axis.HIGH] - lower.high[Axis.HIGH]
    if not 0.05 < gap < NEAR:
        return None
    over = all(
        min(lower.high[a], upper.high[a]) - max(lower.low[a], upper.low[a]) > 1.0
        for a in (Axis.WIDE, Axis.DEEP)
    )
    return gap if over else None


def _axis(part: Part, joint: Joint) -> Axis:
    assert joint.first_face is not None
    return frame_axis(part, joint.first_face.axis)


def _number(examined: Examined, joint: Joint, name: str, said: float | None) -> float | None:
    if said is not None:
        return said
    layout = examined.layout_of.get(joint.id)
    return dict(layout.numbers).get(name) if layout else None
