"""Can this shop make it? Methods without a machine, parts beyond planer and clamps."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from scantling.checks.examined import Examined, few_of, wood_of
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.holding import holding
from scantling.checks.rules import rule
from scantling.checks.ties import groups_rigid_when_taken_apart, is_glued
from scantling.piece.model import Axis, Box, Joint, Part
from scantling.shop import facts_of
from scantling.shop.model import MachineKind


def machines(examined: Examined) -> Iterator[Finding]:
    """Findings on what the shop's machines and clamps allow."""
    yield from _methods(examined)
    yield from _planer(examined)
    yield from _clamps(examined)


def _methods(examined: Examined) -> Iterator[Finding]:
    if not examined.shop.machines:
        return
    makes = facts_of(examined.shop).methods
    lines: dict[tuple[int, str], list[Joint]] = defaultdict(list)
    for joint in examined.piece.joints:
        if joint.method not in makes:
            lines[joint.line, joint.method].append(joint)
    if "pocket screws" not in makes:
        yield from _pockets(examined)
    for (_, method), joints in lines.items():
        instead = _instead(method, makes)
        pairs = [name for joint in joints for name in (joint.first, joint.second)]
        yield rule("no machine for it").found(
            f"nothing in this shop makes {method}",
            tuple(dict.fromkeys(pairs)),
            mend=Mend(f"use {instead} here", (Change("method", instead, joints[0].place),))
            if instead
            else None,
            place=joints[0].place,
        )


def _pockets(examined: Examined) -> Iterator[Finding]:
    """Joints of other names that the layout drives through pockets, as screws up through a tall rail are."""
    bored = {h.owner for made in examined.machined.parts for h in made.holes if h.purpose == "pocket"}
    lines: dict[int, list[Joint]] = defaultdict(list)
    for joint in examined.piece.joints:
        if joint.id in bored and joint.method != "pocket screws":
            lines[joint.line].append(joint)
    for joints in lines.values():
        first = joints[0]
        yield rule("no machine for it").found(
            f"{first.first} to {first.second}: the {first.method} go in through pockets, and this shop lists "
            "no pocket jig",
            tuple(dict.fromkeys(name for joint in joints for name in (joint.first, joint.second))),
            mend=Mend("bore them along a guide block clamped on, or use buttons or figure eights"),
            place=first.place,
        )


def _instead(method: str, makes: tuple[str, ...]) -> str | None:
    """The shop's best-liked method that holds like the one it cannot make."""
    wanted = holding(method)
    alike = [m for m in makes if holding(m).holds == wanted.holds and holding(m).glued == wanted.glued]
    return alike[0] if alike else None


def _planer(examined: Examined) -> Iterator[Finding]:
    planer = examined.shop.machine(MachineKind.PLANER)
    if planer is None:
        return
    solid = [part for part in examined.piece.parts if wood_of(part) is not None]
    widest, shortest = planer.most_width, planer.least_length
    if widest is not None:
        wide = [part for part in solid if part.width > widest]
        if wide:
            most = max(part.width for part in wide)
            yield rule("wider than the planer").found(
                f"{_names(wide)}: wider than the planer's {examined.length(widest)} once glued up; "
                "plane the staves before, keep the joint lines level, finish by hand plane and sander",
                tuple(part.name for part in wide),
                most,
                limit=widest,
            )
    if shortest is not None:
        short = [p for p in solid if _cut_length(examined, p) < shortest]
        if short:
            yield rule("shorter than the machine takes").found(
                f"{_names(short)}: shorter than the {examined.length(shortest)} the planer takes; "
                "plane them as one longer blank and crosscut last",
                tuple(part.name for part in short),
                min(_cut_length(examined, part) for part in short),
                limit=shortest,
            )


def _cut_length(examined: Examined, part: Part) -> float:
    return examined.machined.by_name[part.name].overall_length


def _names(parts: list[Part]) -> str:
    return few_of([*dict.fromkeys(part.definition.replace("/", " ") for part in parts)])


def _clamps(examined: Examined) -> Iterator[Finding]:
    opens = max((clamp.opens for clamp in examined.shop.clamps), default=None)
    if opens is None:
        return
    pulls = [
        (_extent(examined, group, axis), axis, group)
        for group in groups_rigid_when_taken_apart(examined)
        for axis in _pulled(examined, group)
    ]
    wants, axis, group = max(pulls, default=(0.0, Axis.WIDE, ()))
    if wants > opens:
        yield rule("wider than the clamps").found(
            f"glued up it must be squeezed over {examined.length(wants)} {_way(axis)}; "
            f"the longest clamp here opens {examined.length(opens)}",
            group[:4],
            wants,
            limit=opens,
            mend=Mend(
                "join two clamps end to end, use a strap or wedges against blocks, "
                f"or borrow clamps that open {examined.length(examined.step_up(wants))}"
            ),
        )


def _pulled(examined: Examined, group: tuple[str, ...]) -> list[Axis]:
    """Axes along which clamps must pull: across the glued meetings of the group."""
    members = set(group)
    areas = [
        joint.area
        for joint in examined.piece.joints
        if joint.area is not None and is_glued(joint) and {joint.first, joint.second} <= members
    ]
    return sorted({_thinnest(area) for area in areas})


def _thinnest(box: Box) -> Axis:
    return min(Axis, key=box.size)


def _extent(examined: Examined, group: tuple[str, ...], axis: Axis) -> float:
    boxes = [examined.bounds(name) for name in group]
    return max(b.high[axis] for b in boxes) - min(b.low[axis] for b in boxes)


def _way(axis: Axis) -> str:
    return {Axis.WIDE: "from side to side", Axis.DEEP: "from front to back", Axis.HIGH: "from top to bottom"}[
        axis
    ]
