"""Is there room for each thing the piece must hold? Its way when a tray moves is looked at in `motion`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.piece.model import TOUCH, Axis, Box, Face, Hold, PartName, face_of

_WORDS = {
    Face.LEFT: "on its left",
    Face.RIGHT: "on its right",
    Face.FRONT: "in front of it",
    Face.BACK: "behind it",
    Face.TOP: "over it",
    Face.BOTTOM: "under it",
}


@dataclass(frozen=True, slots=True)
class Room:
    """The air between a held thing and one part: `gap` on the side `face`, negative if inside. [mm]"""

    part: PartName
    face: Face
    gap: float


def holds(examined: Examined) -> Iterator[Finding]:
    """Findings on every hold: what carries it and what is round it."""
    for hold in examined.piece.holds:
        yield from _standing(examined, hold)
        yield from _at_rest(examined, hold)


def room_beside(thing: Box, part: PartName, box: Box) -> Room:
    """On which side of the thing a part lies, and how far off."""
    best = Room(part, Face.TOP, float("-inf"))
    for axis in Axis:
        for sign, gap in ((1, box.low[axis] - thing.high[axis]), (-1, thing.low[axis] - box.high[axis])):
            if gap > best.gap:
                best = Room(part, face_of(axis, sign), gap)
    return best


def _standing(examined: Examined, hold: Hold) -> Iterator[Finding]:
    tops = {name: examined.bounds(name).high[Axis.HIGH] for name in examined.carriers(hold)}
    if not tops:
        return
    nearest = min(tops, key=lambda name: abs(hold.box.low[Axis.HIGH] - tops[name]))
    gap = abs(hold.box.low[Axis.HIGH] - tops[nearest])
    if gap > rule("hold stands on nothing").allowed:
        yield rule("hold stands on nothing").found(
            f"{hold.name} should stand on {nearest}, but is {examined.length(gap)} from its top",
            (nearest,),
            gap,
            mend=Mend(f"bring {nearest} to {examined.length(hold.box.low[Axis.HIGH])} high"),
            place=hold.place,
        )


def _at_rest(examined: Examined, hold: Hold) -> Iterator[Finding]:
    rooms = [
        room_beside(hold.box, part.name, examined.bounds(part.name))
        for part in examined.piece.parts
        if part.name not in hold.on
    ]
    for face in Face:
        tight = [room for room in rooms if room.face is face and room.gap < _wanted(hold, face) - TOUCH]
        if tight:
            worst = min(tight, key=lambda room: (room.gap, room.part))
            yield _shiftable(examined, hold, worst, rooms) or _tight(examined, hold, worst)


def _shiftable(examined: Examined, hold: Hold, tight: Room, rooms: list[Room]) -> Finding | None:
    """A thing that only has to be set over a little: its other side has the room to spare."""
    carriers = examined.carriers(hold)
    if tight.face.axis == Axis.HIGH or not carriers:
        return None
    short = hold.clear - tight.gap
    opposite = [room.gap for room in rooms if room.face is tight.face.opposite]
    carrier = min(_overhang(hold.box, examined.bounds(name), tight.face.opposite) for name in carriers)
    if min([*opposite, carrier + hold.clear], default=0.0) - hold.clear < short:
        return None
    by = examined.length(examined.fine_step_up(short))
    return rule("hold can be set better").found(
        f"{hold.name}, set in the middle, has {examined.small(tight.gap)} {_WORDS[tight.face]} "
        f"to {tight.part}; {examined.small(hold.clear)} is wanted",
        (tight.part,),
        tight.gap,
        limit=hold.clear,
        mend=Mend(f"stand it {by} farther {_away(tight.face.opposite)}: there is room"),
        place=hold.place,
    )


def _overhang(thing: Box, carrier: Box, face: Face) -> float:
    """How far a thing may be pushed toward `face` before it leaves what carries it. [mm]"""
    return face.sign * (carrier.face(face) - thing.face(face))


def _wanted(hold: Hold, face: Face) -> float:
    return 0.0 if face is Face.BOTTOM else hold.clear


def _tight(examined: Examined, hold: Hold, room: Room) -> Finding:
    wanted = _wanted(hold, room.face)
    short = examined.length(wanted - room.gap)
    if room.gap < 0:
        text = f"{hold.name} stands {examined.small(-room.gap)} in {room.part}"
        code = "hold out of place"
    else:
        text = f"{hold.name} has {examined.small(room.gap)} {_WORDS[room.face]} to {room.part}"
        code = "hold without clearance"
    return rule(code).found(
        f"{text}; {examined.length(wanted)} is wanted",
        (room.part,),
        room.gap,
        limit=wanted,
        mend=Mend(f"give it {short} more: move {room.part} {_away(room.face)}{_or_lower(hold, room.face)}"),
        spot=hold.box.centre,
        place=hold.place,
    )


def _or_lower(hold: Hold, face: Face) -> str:
    return f", or lower what {hold.name} stands on" if face is Face.TOP else ""


def _away(face: Face) -> str:
    return {Face.LEFT: "left", Face.RIGHT: "right", Face.FRONT: "forward", Face.BACK: "back"}.get(
        face, "up" if face is Face.TOP else "down"
    )
