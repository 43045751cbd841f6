"""Fasteners that let a solid top or panel move: slotted screws, figure eights, buttons, clips."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians, sin

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import Drive, by_part, drive_of, head_hole, head_slot, pilot, thread_hole
from scantling.joinery.features import Cut, Feature, HardwareUse, Shaped
from scantling.joinery.made import Made, both_parts, layout, notice
from scantling.joinery.meeting import Meeting, end_faces
from scantling.joinery.screws import Screw, screw_for
from scantling.joinery.spread import count_at_most, evenly, every
from scantling.piece.model import Axis, Face, Notice, Part

_DEEPEST_BORE = 80.0  # mm: a taller rail is screwed through a pocket, not through its height
_STILL = 0.5  # mm of seasonal change that needs no slot
_MARGIN = 4.0  # mm of wood beside a slot


@dataclass(frozen=True, slots=True)
class Spot:
    """One fastener. `travel`: seasonal change between it and the fixed line; None: not known. [mm]"""

    run: float
    across: float
    travel: float | None

    @property
    def is_fixed(self) -> bool:
        return self.travel is not None and self.travel < _STILL


def moving_part(m: Meeting) -> Part:
    """The wide panel of the two: the first, but for a batten under a board."""
    second = m.second or m.first
    broad = sorted(m.first.box.sizes)[1], sorted(second.box.sizes)[1]
    return second if broad[1] > broad[0] else m.first


def spots_of(m: Meeting, bench: Bench) -> tuple[Spot, ...]:
    """Places along the run with the travel each needs; the fixed line is the middle unless said."""
    first = min(rules.number("top fastener first"), m.length / 4)
    if m.settings.every is not None:
        runs = every(m.low, m.high, m.settings.every, first)
    else:
        usual = count_at_most(m.low, m.high, rules.number("top fastener spacing"), first)
        runs = evenly(m.low, m.high, m.settings.count or (1 if m.length < 3 * first else usual), first)
    axis = movement_axis(m)
    line = _fixed_line(m, axis)
    return tuple(
        Spot(run, m.middle, bench.travel(moving_part(m), axis, (run if axis == m.run else m.middle) - line))
        for run in runs
    )


def movement_axis(m: Meeting) -> Axis:
    """The axis across the moving part's grain in the meeting plane (of its broad faces)."""
    panel = moving_part(m)
    return (
        next(a for a in (m.run, m.across) if a != panel.grain) if panel.grain in (m.run, m.across) else m.run
    )


def _fixed_line(m: Meeting, axis: Axis) -> float:
    panel, said = m.other if moving_part(m) is m.second else m.first.box, m.settings.fixed_at
    for face in end_faces(axis):
        if said == face.word:
            return panel.face(face)
    return panel.centre[axis]


def _unknown(m: Meeting, bench: Bench, spots: tuple[Spot, ...]) -> tuple[Notice, ...]:
    if all(spot.travel is not None for spot in spots):
        return ()
    if bench.piece.room.air is None:
        message = "how far it moves is not known: the piece says nothing of the room's air"
        return (
            notice(
                m, "movement unknown", message, remedy="write room: {air: {dry: 30 %, damp: 60 %, at: 70 F}}"
            ),
        )
    message = f"how far it moves is not known: no change coefficient for {moving_part(m).material.species}"
    return (notice(m, "movement unknown", message, remedy="name a wood of the handbook"),)


def _use(
    m: Meeting, kind: str, size: str, spots: tuple[Spot, ...], *, travel: float | None = None, fixed: bool
) -> tuple[HardwareUse, ...]:
    at = tuple(m.in_piece(m.at(s.run, s.across)) for s in spots)
    if not spots:
        return ()
    return (
        HardwareUse(kind, size, len(spots), m.joint.id, both_parts(m), (), at, fixed=fixed, travel=travel),
    )


def slotted_screws(m: Meeting, bench: Bench) -> Made:
    """Screws in slots as long as the shank and the seasonal change; round holes on the fixed line."""
    drive = _drive(m)
    if drive is None:
        return _cannot_reach(m)
    screw = screw_for(m, bench, drive)
    spots = spots_of(m, bench)
    deep = max(1.0, min(screw.length - drive.under, drive.into - rules.number("screw short of far face")))
    passed = [feature for spot in spots for feature in _head(m, drive, screw, spot)]
    bore = pilot(bench, drive.threaded, screw.gauge)
    threaded: list[Feature] = [thread_hole(drive, s.run, s.across, bore, deep, "pilot") for s in spots]
    first, second = by_part(drive, passed, threaded)
    loose = tuple(s for s in spots if not s.is_fixed)
    most = max((s.travel or 0.0 for s in spots), default=0.0)
    fixed = tuple(s for s in spots if s.is_fixed)
    uses = _use(m, "wood screw", screw.name(bench), fixed, fixed=True)
    uses += _use(m, "wood screw", screw.name(bench), loose, travel=most, fixed=False)
    uses = tuple(replace(u, sizes=(("diameter", screw.major), ("length", screw.length))) for u in uses)
    slot = _slot_long(screw, most)
    words = (
        f"{len(spots)} screws {screw.name(bench)}, {len(spots) - len(loose)} in round holes,"
        f" {len(loose)} in slots up to {bench.said(slot)} long"
    )
    numbers = (("count", float(len(spots))), ("fixed", float(len(fixed))), ("slot", slot), ("travel", most))
    made = layout(
        m,
        words,
        numbers,
        source="seasonal change: Wood Handbook ch. 13; " + rules.source("top fastener spacing"),
    )
    return Made(first, second, made, uses, (*_unknown(m, bench, spots), *_slot_notices(m, bench, slot)))


def _drive(m: Meeting) -> Drive | None:
    """Through the part under a top, through the first part otherwise; None where neither is reached."""
    if m.face is Face.BOTTOM:
        if m.second_room > _DEEPEST_BORE or (
            m.second_end_grain and m.second_room > rules.number("screw thickest under head")
        ):
            return None
        return drive_of(m, from_first=False)
    drive = drive_of(m)
    return drive if drive.through <= _DEEPEST_BORE else None


def _slot_long(screw: Screw, travel: float) -> float:
    """Shank and whole seasonal change, and a little to spare."""
    return screw.clearance + (travel + rules.number("screw slot spare") if travel >= _STILL else 0.0)


def _head(m: Meeting, drive: Drive, screw: Screw, spot: Spot) -> list[Feature]:
    found: list[Feature] = []
    if spot.travel is None or spot.is_fixed:
        found.append(head_hole(drive, spot.run, spot.across, screw.clearance, drive.through, "clearance"))
    else:
        long = _slot_long(screw, spot.travel)
        found.append(head_slot(drive, spot.run, spot.across, movement_axis(m), long, screw.clearance))
    if drive.sunk:
        bore = max(rules.number("screw counterbore"), 2 * screw.major + (spot.travel or 0.0) + 1.0)
        found.append(head_hole(drive, spot.run, spot.across, bore, drive.sunk, "counterbore"))
    return found


def _slot_notices(m: Meeting, bench: Bench, slot: float) -> tuple[Notice, ...]:
    if movement_axis(m) != m.across or slot <= m.thin - _MARGIN:
        return ()
    message = f"a slot {bench.said(slot)} long does not fit across a part {bench.said(m.thin)} thick"
    return (
        notice(m, "slot too long", message, number=slot, remedy="use figure eights, buttons or a batten"),
    )


def _cannot_reach(m: Meeting) -> Made:
    name = m.second.name if m.second else "the wall"
    words = f"no screw can reach through {name} from below; here it only bears, held by its neighbours"
    found = notice(m, "bears only", words, remedy="add a cleat, or use figure eights")
    return Made((), (), layout(m, words, source="common practice, no source"), (), (found,))


def figure_eights(m: Meeting, bench: Bench) -> Made:
    """Discs let into the second part's edge near its inner face, the other end under the top."""
    inner, thick = _inner(m), rules.number("figure eight thick")
    spots = spots_of(m, bench)
    arm, disc = rules.number("figure eight arm"), rules.number("figure eight diameter")
    centre = m.other.face(inner) - inner.sign * min(5.0, m.thin / 2)
    seconds: list[Feature] = []
    firsts: list[Feature] = []
    for spot in spots:
        seconds.append(m.second_hole(spot.run, centre, disc, thick, "counterbore"))
        seconds.append(m.second_hole(spot.run, centre, pilot(bench, m.second, 8), thick + 13.0, "pilot"))
        firsts.append(
            m.first_hole(spot.run, centre + inner.sign * arm, pilot(bench, m.first, 8), 12.0, "pilot")
        )
    travel = arm * sin(radians(rules.number("figure eight swing")))
    uses = _use(m, "figure eight", bench.number(disc), spots, travel=travel, fixed=False)
    words = (
        f"{len(spots)} figure eights, recess {bench.said(disc)} across, {bench.said(thick)} deep, its centre"
        f" {bench.said(min(5.0, m.thin / 2))} from the {inner.word}; each swings {bench.said(travel)} a way"
    )
    numbers = (("count", float(len(spots))), ("travel", travel))
    made = layout(m, words, numbers, source=rules.source("figure eight widest top"))
    return Made(tuple(firsts), tuple(seconds), made, uses, _too_far(m, bench, spots, travel))


def buttons(m: Meeting, bench: Bench) -> Made:
    """Wooden buttons: a mortise in the inner face of the second part, a screw up into the top."""
    sizes = (rules.number("button groove deep"), rules.number("button groove thick"), 40.0)
    return _hooked(m, bench, "button", sizes, 10.0, rules.number("button travel"))


def clips(m: Meeting, bench: Bench) -> Made:
    """Metal clips in a saw kerf of the second part, set so that they pull."""
    sizes = (rules.number("clip slot deep"), rules.number("clip slot thick"), 25.0)
    return _hooked(m, bench, "clip", sizes, rules.number("clip offset"), rules.number("clip travel"))


def _hooked(
    m: Meeting, bench: Bench, kind: str, sizes: tuple[float, float, float], down: float, travel: float
) -> Made:
    """`sizes`: of the slot, deep, thick, long; `down`: its upper side below the meeting plane. [mm]"""
    inner, spots = _inner(m), spots_of(m, bench)
    seconds = tuple(_side_slot(m, s, inner, sizes, down) for s in spots)
    reach = m.other.face(inner) + inner.sign * 15.0
    bore = pilot(bench, m.first, 8)
    firsts = tuple(m.first_hole(s.run, reach, bore, min(12.0, m.first_room - 4.0), "pilot") for s in spots)
    along_run = movement_axis(m) == m.run
    gives = "runs along it" if along_run else f"gives {bench.said(travel)} either way"
    words = (
        f"{len(spots)} {kind}s in slots {bench.said(sizes[1])} wide, {bench.said(sizes[0])} deep,"
        f" {bench.said(down)} below the top; each {gives}"
    )
    numbers = (("count", float(len(spots))), ("travel", travel), ("down", down))
    made = layout(m, words, numbers, source=rules.source(f"{kind} travel"))
    far = () if along_run else _too_far(m, bench, spots, travel)
    return Made(firsts, seconds, made, _use(m, kind, "", spots, travel=travel, fixed=False), far)


def _side_slot(
    m: Meeting, spot: Spot, inner: Face, sizes: tuple[float, float, float], down: float
) -> Cut | Shaped:
    deep, thick, long = sizes
    face = m.other.face(inner)
    across = sorted((face, face - inner.sign * min(deep, m.thin - 4.0)))
    block = m.block((spot.run - long / 2, spot.run + long / 2), (across[0], across[1]), (down, down + thick))
    return m.second_cut(block, "slot", face=inner)


def _inner(m: Meeting) -> Face:
    """The side of the second part that looks toward the middle of the first."""
    low, high = end_faces(m.across)
    return high if m.first.box.centre[m.across] > m.middle else low


def _too_far(m: Meeting, bench: Bench, spots: tuple[Spot, ...], travel: float) -> tuple[Notice, ...]:
    found = list(_unknown(m, bench, spots))
    most = max((s.travel or 0.0 for s in spots), default=0.0)
    if most > 2 * travel:
        gives = bench.said(2 * travel)
        message = f"the top moves {bench.said(most)} here, and the {m.joint.method} give {gives} in all"
        found.append(notice(m, "top moves too far", message, number=most, remedy="use slotted screws"))
    return tuple(found)
