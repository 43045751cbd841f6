"""Shelf pins, knobs, catches, wall straps and casters."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Feature, Hole
from scantling.joinery.fittings import (
    Fitted,
    fitted,
    fitting_notice,
    marked_size,
    not_laid_out,
    said_place,
    size_of,
)
from scantling.joinery.made import counted
from scantling.joinery.spread import evenly
from scantling.piece.model import Axis, Face, Hardware, Part

_NEAR = 5.0  # mm: a shelf lies this near the sides that carry its pins
_EITHER_WAY = 2  # holes above and below the shelf's own


def shelf_pins(fitting: Hardware, bench: Bench) -> Fitted:
    """Rows of holes in the two parts beside the shelf; none where the holes are somebody's `work`."""
    shelf = bench.piece.part_by_name.get(fitting.under or "")
    diameter = marked_size(fitting, bench) or size_of(fitting, "diameter", 5.0)
    if shelf is None:
        message = "a shelf pin needs the shelf it carries"
        return not_laid_out(fitting, "pins under nothing", message, "write under: shelf")
    if not fitting.rows:
        return fitted(
            fitting, (), f"{counted(fitting.count, 'pin')} {bench.said(diameter)}", source="as drawn"
        )
    sides = _carriers(shelf, bench)
    features = tuple(
        (part.name, _pin_holes(fitting, shelf, part, face, (diameter, _pin_depth(part, face, bench))))
        for part, face in sides
    )
    rows = " and ".join(bench.said(row) for row in fitting.rows)
    words = (
        f"{counted(fitting.count, 'pin')} {bench.said(diameter)}, rows {rows}"
        f" from the front of the shelf, {bench.said(_spacing(fitting))} apart up and down"
    )
    message = f"{shelf.name} has {len(sides)} sides to carry it"
    alone = fitting_notice(fitting, "shelf not carried", message, must=True)
    notices = () if len(sides) == 2 else (alone,)
    return fitted(fitting, features, words, notices=notices, source=rules.source("shelf pin spacing"))


def _spacing(fitting: Hardware) -> float:
    return fitting.every or rules.number("shelf pin spacing")


def _carriers(shelf: Part, bench: Bench) -> tuple[tuple[Part, Face], ...]:
    """Parts beside the shelf's two ends along its grain, with the face that looks at it."""
    found = []
    for end in (f for f in Face if f.axis == shelf.grain):
        for part in bench.piece.parts:
            gap = end.sign * (part.box.face(end.opposite) - shelf.box.face(end))
            others = [a for a in Axis if a != end.axis]
            beside = all(
                min(part.box.high[a], shelf.box.high[a]) > max(part.box.low[a], shelf.box.low[a])
                for a in others
            )
            if part.placement.is_identity and -0.1 <= gap <= _NEAR and beside and part is not shelf:
                found.append((part, end.opposite))
                break
    return tuple(found)


def _pin_depth(part: Part, face: Face, bench: Bench) -> float:
    """As the rule says; in a divider bored from both sides 3 mm of wood stays between the holes. [mm]"""
    room = part.box.size(face.axis) - 3.0
    shelves = [bench.piece.part_by_name.get(h.under or "") for h in bench.piece.hardware if h.rows]
    carried = [each for shelf in shelves if shelf is not None for each in _carriers(shelf, bench)]
    both = any(other is part and at is face.opposite for other, at in carried)
    return min(rules.number("shelf pin deep"), room / 2 if both else room)


def _pin_holes(
    fitting: Hardware, shelf: Part, part: Part, face: Face, size: tuple[float, float]
) -> tuple[Feature, ...]:
    """On `face` in every row, at the shelf's underside and two steps either way; `size`: across, deep."""
    diameter, deep = size
    across = next(a for a in Axis if a not in (face.axis, Axis.HIGH))
    holes = []
    for row in fitting.rows:
        for step in range(-_EITHER_WAY, _EITHER_WAY + 1):
            at = [0.0, 0.0, shelf.box.low[Axis.HIGH] - diameter / 2 + step * _spacing(fitting)]
            at[face.axis], at[across] = part.box.face(face), shelf.box.low[across] + row
            if part.box.low[Axis.HIGH] + diameter < at[2] < part.box.high[Axis.HIGH] - diameter:
                spot = (at[0], at[1], at[2])
                holes.append(Hole(spot, face.opposite.normal, diameter, deep, "pin", fitting.name))
    return tuple(holes)


def knob(fitting: Hardware, bench: Bench) -> Fitted:
    """A hole through the part for each knob's screw, spread along its width, where `at` says if it does."""
    part = bench.piece.part_by_name.get(fitting.to or "")
    if part is None:
        return not_laid_out(fitting, "knob on nothing", "a knob needs a part", "write to: door")
    at = said_place(fitting, part, Face.FRONT)
    low, high = part.box.low[Axis.WIDE], part.box.high[Axis.WIDE]
    wides = evenly(low, high, fitting.count, (high - low) / 4) if fitting.count > 1 else (at[0],)
    deep, bore = part.box.size(Axis.DEEP), rules.number("knob hole")
    spots = [(wide, at[1], at[2]) for wide in wides]
    holes = tuple(Hole(s, Face.FRONT.opposite.normal, bore, deep, "screw", fitting.name, True) for s in spots)
    up = bench.said(at[2] - part.box.low[2])
    words = f"{counted(len(spots), 'knob')}, hole {bench.said(bore)} through, {up} above the lower edge"
    places = [part.placement.point(s) for s in spots]
    return fitted(fitting, ((part.name, holes),), words, at=places, source=rules.source("knob hole"))


def as_its_sheet_says(fitting: Hardware, bench: Bench) -> Fitted:
    """Catches, straps and the like: bought, counted, drilled from their own sheet."""
    words = f"{fitting.count} {fitting.kind}; drill from its own sheet"
    at = [bench.piece.part_by_name[n].box.centre for n in (fitting.to,) if n in bench.piece.part_by_name]
    return fitted(fitting, (), words, at=at, source="common practice, no source")


def wall_strap(fitting: Hardware, _bench: Bench) -> Fitted:
    """Into a stud at one end and solid wood at the other, near both ends of the part."""
    words = f"{counted(fitting.count, 'strap')} from solid wood into a stud; drill from the strap's own sheet"
    return fitted(fitting, (), words, source="common practice, no source; follow the strap's own sheet")


def caster(fitting: Hardware, bench: Bench) -> Fitted:
    """A stem hole up the middle of the foot it stands under."""
    part = bench.piece.part_by_name.get(fitting.to or fitting.under or "")
    if part is None:
        return as_its_sheet_says(fitting, bench)
    bore, deep = size_of(fitting, "diameter", rules.number("caster hole")), 40.0
    at = said_place(fitting, part, Face.BOTTOM)
    hole = Hole(at, (0.0, 0.0, 1.0), bore, deep, "bolt", fitting.name)
    words = f"{counted(fitting.count, 'caster')}, stem hole {bench.said(bore)} by {bench.said(deep)} deep"
    spot = part.placement.point(at)
    return fitted(fitting, ((part.name, (hole,)),), words, at=[spot], source=rules.source("caster hole"))
