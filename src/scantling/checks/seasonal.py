"""Is solid wood held so that it cannot swell and shrink? Every meeting across the grain.

Joints that hold rigidly are compared by how differently the two parts move along the meeting; sliding
fasteners by their travel from the line that stays put. Movement: Wood Handbook ch. 13.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks.examined import Examined, frame_axis, grain_axis, panel_of, wood_of
from scantling.checks.finding import Change, Finding, Mend
from scantling.checks.holding import holding, is_rigid
from scantling.checks.rules import rule
from scantling.piece.model import Axis, Face, Joint, Part, PartName
from scantling.quantity import format_length
from scantling.wood import change_across

INTO_A_LEG = frozenset({"tenon", "through tenon", "loose tenon", "dowels", "bridle"})
DIFFERENCE_THAT_MATTERS = 1.0  # mm over the held length: less is taken up by the wood; judgement
GLUED_AT_MOST = 100.0  # mm of cross-grain glue: trade practice


@dataclass(frozen=True, slots=True)
class Swing:
    """How a size across the grain changes from the bench: to the driest, to the dampest air. [mm]"""

    shrinks: float
    swells: float

    @property
    def whole(self) -> float:
        return self.shrinks + self.swells

    @property
    def most(self) -> float:
        return max(self.shrinks, self.swells)


def seasonal_movement(examined: Examined) -> Iterator[Finding]:
    """All findings about wood that moves with the seasons."""
    yield from _rigid_findings(examined)
    yield from _sliding_findings(examined)
    yield from _air_findings(examined)


def swing_along(examined: Examined, part: Part, axis: Axis, size: float) -> Swing:
    """How `size` of a part along an axis of the piece changes over the year; zero along the grain."""
    moistures = examined.moistures
    panel = panel_of(part)
    if panel is not None:
        ease = panel.expansion * size
        return Swing(
            max(0.0, ease * (moistures.bench - moistures.dry)),
            max(0.0, ease * (moistures.damp - moistures.bench)),
        )
    wood = wood_of(part)
    if wood is None or grain_axis(part) == axis:
        return Swing(0.0, 0.0)
    thin = frame_axis(part, part.thickness_axis) == axis
    to_dry, to_damp = (
        change_across(wood, size, moistures.bench, end, part.rings.value, thickness=thin)
        for end in (moistures.dry, moistures.damp)
    )
    return Swing(max(0.0, -to_dry), max(0.0, to_damp))


def _rigid_findings(examined: Examined) -> Iterator[Finding]:
    for group in _same_meetings(examined):
        finding = _rigid_finding(examined, group)
        if finding is not None:
            yield finding


def _same_meetings(examined: Examined) -> Iterator[tuple[Joint, ...]]:
    """Rigid joints between two parts, those of mirrored copies of one line together."""
    groups: dict[tuple[int, str, str], list[Joint]] = defaultdict(list)
    parts = examined.piece.part_by_name
    for joint in examined.piece.joints:
        if is_rigid(joint.method) and joint.second in parts and joint.area is not None:
            key = (joint.line, parts[joint.first].definition, parts[joint.second].definition)
            groups[key].append(joint)
    return (tuple(group) for group in groups.values())


def _rigid_finding(examined: Examined, group: tuple[Joint, ...]) -> Finding | None:
    joint = group[0]
    parts = examined.piece.part_by_name
    first, second = parts[joint.first], parts[joint.second]
    worst = max((_held(examined, joint, first, second, axis) for axis in Axis), key=lambda h: h.difference)
    limit = _held_limit(joint, worst)
    if worst.length <= limit or worst.difference < DIFFERENCE_THAT_MATTERS:
        return None
    into_leg = joint.method in INTO_A_LEG and worst.length <= 2 * limit and worst.at_the_end
    words = f"{examined.length(worst.length)} of it"
    message = (
        f"{worst.mover.name}: {joint.method} hold {words} across its grain to {worst.keeper.name}; "
        f"over the year it wants to move {examined.length(worst.difference)} there"
    )
    return rule("wide rail glued whole" if into_leg else "held across its grain").found(
        message,
        tuple(dict.fromkeys(name for each in group for name in (each.first, each.second))),
        worst.length,
        limit=limit,
        mend=_mend_held(examined, joint, worst),
        place=joint.place,
        spot=joint.area.centre if joint.area else None,
    )


@dataclass(frozen=True, slots=True)
class _Held:
    """A stretch over which two parts are held together, and how differently they move along it."""

    length: float
    difference: float
    mover: Part
    keeper: Part
    axis: Axis
    at_the_end: bool


def _held(examined: Examined, joint: Joint, first: Part, second: Part, axis: Axis) -> _Held:
    assert joint.area is not None
    length = _glued_length(joint, joint.area.size(axis), axis)
    swings = [swing_along(examined, part, axis, length).whole for part in (first, second)]
    mover, keeper = (first, second) if swings[0] >= swings[1] else (second, first)
    meeting = min(Axis, key=lambda a: joint.area.size(a) if joint.area else 0.0)
    return _Held(length, abs(swings[0] - swings[1]), mover, keeper, axis, grain_axis(first) == meeting)


def _glued_length(joint: Joint, size: float, axis: Axis) -> float:
    glue = joint.settings.glue
    if glue is None or not holding(joint.method).glued:
        return size
    if glue.extent == "none":
        return 0.0
    runs = {"front": Axis.DEEP, "back": Axis.DEEP, "top": Axis.HIGH, "bottom": Axis.HIGH}
    along = runs.get(glue.where, Axis.WIDE if glue.where in ("left", "right") else axis)
    return min(size, glue.length) if glue.extent == "part" and along == axis else size


def _held_limit(joint: Joint, held: _Held) -> float:
    into_leg = joint.method in INTO_A_LEG and held.at_the_end
    return rule("wide rail glued whole" if into_leg else "held across its grain").allowed


def _mend_held(examined: Examined, joint: Joint, held: _Held) -> Mend:
    if not holding(joint.method).glued:
        travel = examined.step_up(held.difference / 2)
        return Mend(
            f"use slotted screws with one line fixed; each slot {examined.length(2 * travel)} "
            "longer than its screw is thick",
            (Change("method", "slotted screws", joint.place),),
        )
    side = {Axis.HIGH: "top", Axis.DEEP: "front", Axis.WIDE: "left"}[held.axis]
    glued = format_length(
        GLUED_AT_MOST - GLUED_AT_MOST % 25.4 if examined.style.unit.value == "inches" else GLUED_AT_MOST,
        examined.style,
    )
    return Mend(
        f"glue only {glued.text} of it (write `glue: {side} {glued.number}`) and let the rest slide "
        f"{examined.length(examined.step_up(held.difference))}, or make {held.mover.name} of plywood",
        (Change("glue", f"{side} {glued.number}", joint.place),),
    )


def _sliding_findings(examined: Examined) -> Iterator[Finding]:
    """Tops on sliding fasteners: travel against movement from the line that stays put."""
    told: set[tuple[int, PartName]] = set()
    parts = examined.piece.part_by_name
    for joint in examined.piece.joints:
        known = holding(joint.method).holds == "slides" and joint.second in parts and joint.area is not None
        if not known or (joint.line, joint.first) in told:
            continue
        finding = _sliding_finding(examined, joint)
        if finding is not None:
            told.add((joint.line, joint.first))
            yield finding


def _sliding_finding(examined: Examined, joint: Joint) -> Finding | None:
    parts = examined.piece.part_by_name
    mover, keeper = parts[joint.first], parts[joint.second]
    wood = wood_of(mover)
    if wood is None or joint.area is None:
        return None
    axis = _across_in(mover, joint)
    fixed = _fixed_line(examined, joint, axis)
    far = max(abs(joint.area.low[axis] - fixed), abs(joint.area.high[axis] - fixed))
    moves, gives = swing_along(examined, mover, axis, far), swing_along(examined, keeper, axis, far)
    wants = max(moves.shrinks - gives.shrinks, moves.swells - gives.swells, 0.0)
    travel = _travel(examined, joint)
    if wants <= 0.75 * travel:
        return None
    code = "fastener travel too small" if wants > travel else "fastener travel scant"
    message = (
        f"{mover.name}: {examined.length(far)} from the line that stays put ({_fixed_words(joint)}) it moves "
        f"{examined.length(wants)} either way; the {joint.method} on {keeper.name} give "
        f"{examined.length(travel)}"
    )
    return rule(code).found(
        message,
        (mover.name, keeper.name),
        wants,
        limit=travel,
        mend=_mend_travel(examined, joint, mover, axis, wants, travel),
        place=joint.place,
    )


def _across_in(part: Part, joint: Joint) -> Axis:
    """The axis in the meeting plane that runs across the part's grain."""
    assert joint.area is not None
    area = joint.area
    meeting = min(Axis, key=lambda a: area.size(a))
    choices = [a for a in Axis if a not in (meeting, grain_axis(part))]
    return max(choices, key=area.size)


def _fixed_line(examined: Examined, joint: Joint, axis: Axis) -> float:
    box = examined.bounds(joint.first)
    place = joint.settings.fixed_at or "middle"
    face = next((f for f in Face if f.word == place), None)
    if face is None or face.axis != axis:
        return box.centre[axis]
    line = box.face(face)
    return _nearest_meeting(examined, joint, axis, line)


def _nearest_meeting(examined: Examined, joint: Joint, axis: Axis, edge: float) -> float:
    """The fastened line nearest that edge: what is fixed is a fastener, not the edge itself."""
    ends = [
        end
        for each in examined.piece.joints
        if each.line == joint.line and each.first == joint.first and each.area is not None
        for end in (each.area.low[axis], each.area.high[axis])
    ]
    return min(ends, key=lambda end: abs(end - edge))


def _fixed_words(joint: Joint) -> str:
    return joint.settings.fixed_at or "taken as its middle"


def _travel(examined: Examined, joint: Joint) -> float:
    known = [use.travel for use in examined.uses_of.get(joint.id, ()) if use.travel is not None]
    return min(known) if known else holding(joint.method).travel or 0.0


def _mend_travel(
    examined: Examined, joint: Joint, mover: Part, axis: Axis, wants: float, travel: float
) -> Mend:
    box = examined.bounds(mover.name)
    if joint.settings.fixed_at not in (None, "middle") and wants / 2 <= 0.75 * travel:
        half = examined.length(box.size(axis) / 2)
        return Mend(
            f"fix it at the middle instead: then nothing is more than {half} from the fixed line",
            (Change("fixed at", "middle", joint.place),),
        )
    slot = examined.length(examined.step_up(2 * wants))
    return Mend(
        f"use slotted screws, each slot {slot} longer than its screw is thick",
        (Change("method", "slotted screws", joint.place),),
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
