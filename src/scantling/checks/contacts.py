"""Does everything meet that should, and nothing that should not, at rest?

Solids in one another, joined parts with air between them, touching parts that nothing ties, loose parts.
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined, few_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.checks.ties import groups_on_anything
from scantling.geometry import Overlap, found_contacts, overlaps
from scantling.piece.model import Axis, Box, Joint, PartName

RESTS_WITHIN = 3.0  # mm: a drawer stands this near above its runner


def contacts(examined: Examined) -> Iterator[Finding]:
    """Findings at rest; pairs that resolve has already noticed are left to it."""
    noticed = {frozenset(notice.parts) for notice in examined.piece.notices if len(notice.parts) > 1}
    yield from _below_the_floor(examined)
    yield from _overlaps(examined, noticed)
    yield from _gaps(examined, noticed)
    yield from _untied(examined, noticed)
    yield from _loose(examined, noticed)


def _below_the_floor(examined: Examined) -> Iterator[Finding]:
    floor, limit = examined.piece.overall.low[Axis.HIGH], rule("below the floor").allowed
    for part in examined.piece.parts:
        below = floor - examined.bounds(part.name).low[Axis.HIGH]
        if below > limit:
            yield rule("below the floor").found(
                f"{part.name} reaches {examined.length(below)} below the floor",
                (part.name,),
                below,
                mend=Mend(f"raise it by {examined.length(examined.step_up(below))}, or tilt it less"),
                place=part.place,
            )


def _overlaps(examined: Examined, noticed: set[frozenset[str]]) -> Iterator[Finding]:
    joined = {frozenset((joint.first, joint.second)): joint for joint in examined.piece.joints}
    told: set[tuple[str, str]] = set()
    for overlap in overlaps(examined.scene):
        pair = frozenset((overlap.first, overlap.second))
        like = (examined.piece.part(overlap.first).definition, examined.piece.part(overlap.second).definition)
        if pair in noticed or like in told:
            continue
        if pair not in joined:
            told.add(like)
            yield _in_one_another(examined, overlap)
        elif overlap.depth > rule("joint does not fit").allowed:
            told.add(like)
            yield _does_not_fit(examined, overlap, joined[pair])


def _in_one_another(examined: Examined, overlap: Overlap) -> Finding:
    pair = (overlap.first, overlap.second)
    by, away = "", "apart"
    if all(_is_straight(examined, name) for name in pair):
        by = f" by {examined.small(overlap.depth)}"
        away = examined.length(examined.fine_step_up(overlap.depth))
    return rule("parts in one another").found(
        f"{overlap.first} and {overlap.second} are in each other{by}",
        pair,
        overlap.depth,
        mend=Mend(f"move one of them {away}, or join them with a notch or a cross lap"),
        spot=overlap.centre,
        place=examined.piece.part(overlap.first).place,
    )


def _is_straight(examined: Examined, name: PartName) -> bool:
    """Whether it stands square, so that the depth of an overlap is the way out of it."""
    part = examined.piece.part(name)
    return part.placement.is_identity and part.shape.lean is None


def _does_not_fit(examined: Examined, overlap: Overlap, joint: Joint) -> Finding:
    return rule("joint does not fit").found(
        f"{overlap.first} and {overlap.second}: as laid out, the {joint.method} leaves "
        f"{examined.small(overlap.depth)} of one in the other",
        (overlap.first, overlap.second),
        overlap.depth,
        mend=Mend("fit it by hand at the bench, or write other sizes in its joint line"),
        spot=overlap.centre,
        place=joint.place,
    )


def _gaps(examined: Examined, noticed: set[frozenset[str]]) -> Iterator[Finding]:
    limit = rule("joint across a gap").allowed
    for joint in examined.piece.joints:
        pair = (joint.first, joint.second)
        allowed = limit + (joint.settings.stand_off or 0.0) + (joint.settings.runs or 0.0)
        if joint.second not in examined.piece.part_by_name or frozenset(pair) in noticed:
            continue
        gap = _apart(examined.bounds(joint.first), examined.bounds(joint.second))
        if gap > allowed:
            yield rule("joint across a gap").found(
                f"{joint.first} is joined to {joint.second} with {joint.method}, "
                f"but {examined.small(gap)} of air is between them",
                pair,
                gap,
                mend=Mend(f"make {joint.first} {examined.length(gap)} longer on that side"),
                place=joint.place,
            )


def _apart(one: Box, other: Box) -> float:
    """Greatest gap between two boxes along any axis; negative where they overlap in all. [mm]"""
    return max(max(other.low[a] - one.high[a], one.low[a] - other.high[a]) for a in Axis)


def _untied(examined: Examined, noticed: set[frozenset[str]]) -> Iterator[Finding]:
    """Touching parts of groups that no joint, rest, span or fitting brings together."""
    groups = groups_on_anything(examined)
    if len(groups) < 2:
        return
    group_of = {name: i for i, group in enumerate(groups) for name in group}
    told = {like for pair in noticed for like in _likes(examined, pair)}
    for contact in found_contacts(examined.scene):
        tied = group_of[contact.first] == group_of[contact.second]
        first, second = (examined.piece.part(name).definition for name in (contact.first, contact.second))
        if tied or (first, second) in told or frozenset((contact.first, contact.second)) in noticed:
            continue
        told.add((first, second))
        yield rule("touch without joint").found(
            f"{contact.first} touches {contact.second} and nothing says how they are held",
            (contact.first, contact.second),
            contact.area,
            mend=Mend(f"add a joint line for {contact.first} and {contact.second}, or `with: rests`"),
            spot=contact.centre,
            place=examined.piece.part(contact.first).place,
        )


def _likes(examined: Examined, pair: frozenset[str]) -> tuple[tuple[str, str], ...]:
    """Definitions of a pair, either way round; () where it is not of two parts."""
    known = examined.piece.part_by_name
    if len(pair) != 2 or not pair <= known.keys():
        return ()
    first, second = (known[name].definition for name in sorted(pair))
    return ((first, second), (second, first))


def _loose(examined: Examined, noticed: set[frozenset[str]]) -> Iterator[Finding]:
    touched = {name for pair in noticed for like in _likes(examined, pair) for name in like}
    groups = groups_on_anything(examined)
    held = {h.under for h in examined.piece.hardware} | set(examined.movement_of)
    biggest = max(groups, key=len, default=())
    told: set[str] = set()
    for group in groups:
        loose = group != biggest and not held & set(group) and not _stands(examined, group)
        definition = examined.piece.part(group[0]).definition
        if loose and definition not in told and definition not in touched:
            told.add(definition)
            yield rule("loose part").found(
                f"nothing holds {few_of(group)}",
                group,
                mend=Mend("add a joint line, or say what it rests on (`with: rests`)"),
                place=examined.piece.part(group[0]).place,
            )


def _stands(examined: Examined, group: tuple[PartName, ...]) -> bool:
    """Whether the group stands on the floor or a hair above another part."""
    members = set(group)
    floor = examined.piece.overall.low[Axis.HIGH]
    for name in group:
        box = examined.bounds(name)
        if box.low[Axis.HIGH] <= floor + RESTS_WITHIN:
            return True
        for other in examined.scene.solids:
            if other not in members and _just_under(examined.bounds(other), box):
                return True
    return False


def _just_under(lower: Box, upper: Box) -> bool:
    gap = upper.low[Axis.HIGH] - lower.high[Axis.HIGH]
    level = (Axis.WIDE, Axis.DEEP)
    return -0.1 <= gap <= RESTS_WITHIN and all(
        min(lower.high[a], upper.high[a]) > max(lower.low[a], upper.low[a]) for a in level
    )
