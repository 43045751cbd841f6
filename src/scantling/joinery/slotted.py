"""Slotted screws: through a part of small depth, through a pocket in a tall rail, or not at all."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery import rules
from scantling.joinery.angled import SHANK, Pocket
from scantling.joinery.bench import Bench
from scantling.joinery.choosing import Screw, driven
from scantling.joinery.driving import Drive, by_part, head_hole, head_slot, pilot, thread_hole
from scantling.joinery.features import Cut, Feature, HardwareUse, JointLayout, Shaped
from scantling.joinery.made import Made, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.pockets import pocket_notices
from scantling.joinery.sides import inner_side
from scantling.joinery.spots import STILL, Spot, movement_axis, slack_of, spots_of, unknown_movement, use_of
from scantling.piece.model import Face, Notice

_DEEPEST_BORE = 80.0  # mm: a taller rail is screwed through a pocket, not through its height
_MARGIN = 4.0  # mm of wood beside a slot
_POCKET_SLOT_DEEP = 10.0  # mm: how far a pocket's mouth is reamed out below the top


def slotted_screws(m: Meeting, bench: Bench) -> Made:
    """Slots as long as the shank and the seasonal change; round holes on the fixed line.

    A top is never screwed from above: the screw comes up through what is under it.
    """
    if m.face is Face.TOP:
        return _from_below(m, bench)
    if m.face is not Face.BOTTOM:
        return _straight(m, bench)
    if m.second_end_grain and m.second_room > rules.number("screw thickest under head"):
        return _cannot_reach(m, m.second.name if m.second else "the wall")
    if m.second_room <= _DEEPEST_BORE:
        return _straight(m, bench, from_first=False)
    return _pocketed(m, bench)


def _straight(m: Meeting, bench: Bench, *, from_first: bool | None = None) -> Made:
    drive, screw = driven(m, bench, from_first=from_first)
    spots = spots_of(m, bench)
    deep = max(1.0, min(screw.length - drive.under, drive.into - rules.number("screw short of far face")))
    passed = [feature for spot in spots for feature in _head(m, drive, screw, spot)]
    bore = pilot(bench, drive.threaded, screw.gauge)
    threaded: list[Feature] = [thread_hole(drive, s.run, s.across, bore, deep, "pilot") for s in spots]
    first, second = by_part(drive, passed, threaded)
    sizes = (("diameter", screw.major), ("length", screw.length))
    uses = _uses(m, "wood screw", screw.name(bench), spots, sizes)
    slot = _slot_long(screw.clearance, spots)
    made = _layout(m, bench, ("screw", screw.name(bench)), spots, slot)
    notices = (*unknown_movement(m, bench, spots), *_slot_notices(m, bench, slot))
    return Made(first, second, made, uses, notices, slack_of(m))


def _layout(
    m: Meeting, bench: Bench, what: tuple[str, str], spots: tuple[Spot, ...], slot: float
) -> JointLayout:
    fixed = sum(not _has_slot(s) for s in spots)
    words = f"{counted(len(spots), what[0])} {what[1]}, {fixed} in round holes"
    if fixed < len(spots):
        words += f", {len(spots) - fixed} in slots up to {bench.said(slot)} long"
    travel = max((s.travel or 0.0 for s in spots if not s.is_fixed), default=0.0)
    numbers = (("count", float(len(spots))), ("fixed", float(fixed)), ("slot", slot), ("travel", travel))
    source = "seasonal change: Wood Handbook ch. 13; spacing " + rules.source("top fastener spacing")
    return layout(m, words, numbers, source=source)


def _has_slot(spot: Spot) -> bool:
    return not spot.is_fixed and spot.travel is not None and spot.travel >= STILL


def _slot_long(shank: float, spots: tuple[Spot, ...]) -> float:
    """Shank, the whole seasonal change of the farthest spot, and a little to spare."""
    travel = max((s.travel or 0.0 for s in spots if _has_slot(s)), default=0.0)
    return shank + (travel + rules.number("screw slot spare") if travel else 0.0)


def _uses(
    m: Meeting, kind: str, size: str, spots: tuple[Spot, ...], sizes: tuple[tuple[str, float], ...]
) -> tuple[HardwareUse, ...]:
    """Fixed screws and sliding ones. One whose travel is not known has a round hole, so it is fixed."""
    loose = tuple(s for s in spots if _has_slot(s))
    tight = tuple(s for s in spots if not _has_slot(s))
    most = max((s.travel or 0.0 for s in loose), default=0.0)
    uses = use_of(m, kind, size, tight, fixed=True) + use_of(
        m, kind, size, loose, travel=most / 2, fixed=False
    )
    return tuple(replace(use, sizes=sizes) for use in uses)


def _head(m: Meeting, drive: Drive, screw: Screw, spot: Spot) -> list[Feature]:
    found: list[Feature] = []
    if _has_slot(spot):
        long = _slot_long(screw.clearance, (spot,))
        found.append(head_slot(drive, spot.run, spot.across, movement_axis(m), long, screw.clearance))
    else:
        found.append(head_hole(drive, spot.run, spot.across, screw.clearance, drive.through, "clearance"))
    if drive.sunk:
        play = spot.travel or 0.0
        bore = max(rules.number("screw counterbore"), 2 * screw.major + play + 1.0)
        found.append(head_hole(drive, spot.run, spot.across, bore, drive.sunk, "counterbore"))
    return found


def _slot_notices(m: Meeting, bench: Bench, slot: float) -> tuple[Notice, ...]:
    if movement_axis(m) != m.across or slot <= m.thin - _MARGIN:
        return ()
    message = f"a slot {bench.said(slot)} long does not fit across a part {bench.said(m.thin)} thick"
    return (
        notice(m, "slot too long", message, number=slot, remedy="use figure eights, buttons or a batten"),
    )


def _pocketed(m: Meeting, bench: Bench) -> Made:
    """Pockets in the inner face of a tall rail, their mouths reamed out along the way the top moves."""
    pocket, spots = Pocket(m, inner_side(m), from_first=False), spots_of(m, bench)
    length = pocket.length(bench)
    seconds = [feature for s in spots for feature in (*pocket.holes(s.run), *_reamed(m, s))]
    firsts = tuple(pocket.pilot(s.run, pocket.bite(length)) for s in spots)
    slot = _slot_long(SHANK, spots)
    name = m.second.name if m.second else ""
    what = "pocket screw", f"{bench.said(length)} up through the {pocket.side.word} of {name}"
    uses = _uses(m, "pocket screw", bench.number(length), spots, (("length", length),))
    notices = (*unknown_movement(m, bench, spots), *pocket_notices(m, bench, pocket.left(length)))
    made = _layout(m, bench, what, spots, slot)
    return Made(firsts, tuple(seconds), made, uses, notices, slack_of(m))


def _reamed(m: Meeting, spot: Spot) -> tuple[Cut | Shaped, ...]:
    if not _has_slot(spot):
        return ()
    half, play = SHANK / 2, _slot_long(SHANK, (spot,)) / 2
    along, across = (play, half) if movement_axis(m) == m.run else (half, play)
    run, rows = (spot.run - along, spot.run + along), (m.middle - across, m.middle + across)
    return (m.second_cut(m.block(run, rows, (0.0, _POCKET_SLOT_DEEP)), "slot", round_ends=True),)


def _from_below(m: Meeting, bench: Bench) -> Made:
    """The first part stands under the second: up through it where it is shallow, never down from above."""
    if m.first_end_grain and m.first_room > rules.number("screw thickest under head"):
        return _cannot_reach(m, m.first.name)
    if m.first_room <= _DEEPEST_BORE:
        return _straight(m, bench, from_first=True)
    top = m.second.name if m.second else "the wall"
    words = f"{m.first.name} stands under {top} and is too tall to screw up through"
    found = notice(m, "bears only", words, remedy=f"write `join: {top}, to: {m.first.name}`")
    return Made((), (), layout(m, words, source="common practice, no source"), (), (found,))


def _cannot_reach(m: Meeting, name: str) -> Made:
    words = f"no screw can come up through the end grain of {name}; here the top only bears, held beside it"
    found = notice(m, "bears only", words, remedy="add a cleat, or use figure eights")
    return Made((), (), layout(m, words, source="common practice, no source"), (), (found,))
