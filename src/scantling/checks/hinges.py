"""Are there hinges and stays enough, and can the lid hurt a child?

Hinge counts are trade practice; lid torque is statics: M = m g a cos(angle), most when level.
"""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import GRAVITY, Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.loads import is_flat
from scantling.checks.moving import fittings_of, is_door, is_lid, moved_box, own_mass
from scantling.checks.rules import rule
from scantling.piece.model import Axis, Box, Hardware, Movement, Swing, Vec3

LIDS = ((900.0, 2), (1250.0, 3))  # length to, hinges: common practice, no source
DOORS = ((600.0, 2), (900.0, 3))  # height to, hinges: published web guide
LIGHT_DOOR = 5.0  # kg: two hinges do; published web guide
MORE_EVERY = 700.0  # mm: one more hinge; common practice, no source
STAY_WORDS = ("stay", "strut", "chain", "lid support")


def hinges(examined: Examined) -> Iterator[Finding]:
    """Findings on every part that swings."""
    for movement in examined.piece.movements:
        if isinstance(movement.motion, Swing):
            yield from _count(examined, movement, movement.motion)
        if is_lid(movement):
            yield from _stays(examined, movement)
            yield from _chest(examined, movement)


def hinges_wanted(length: float, door: bool, mass: float = LIGHT_DOOR) -> int:
    """How many hinges a lid of that length, or a door of that height and mass, wants."""
    if door and mass < LIGHT_DOOR and length <= DOORS[-1][0]:
        return 2
    table = DOORS if door else LIDS
    for most, count in table:
        if length <= most:
            return count
    most, count = table[-1]
    return count + 1 + int((length - most) // MORE_EVERY)


def _count(examined: Examined, movement: Movement, swing: Swing) -> Iterator[Finding]:
    fitted = fittings_of(examined, movement, "hinge")
    if not fitted or any("continuous" in hinge.kind for hinge in fitted):
        return
    axis = max(Axis, key=lambda a: abs(swing.axis[a]))
    length = moved_box(examined, movement).size(axis)
    count, wanted = (
        sum(_laid_out(examined, hinge) for hinge in fitted),
        hinges_wanted(length, is_door(movement), own_mass(examined, movement)),
    )
    if count < wanted:
        yield rule("too few hinges").found(
            f"{movement.name} is {examined.length(length)} along its hinge line and hangs on {count}; "
            f"{wanted} are usual",
            fitted[0].joins or (),
            count,
            limit=wanted,
            mend=Mend(f"write `count: {wanted}`, or use a continuous hinge"),
            place=fitted[0].place,
        )


def _laid_out(examined: Examined, hinge: Hardware) -> int:
    """How many the layout sets: where the maker names no count it takes the usual number."""
    uses = examined.uses_of.get(hinge.name, ())
    found = (use.count for use in uses if use.kind.endswith("hinge") and use.parts == hinge.joins)
    return next(found, hinge.count)


def lid_torque(examined: Examined, movement: Movement) -> float:
    """Moment of the lid's weight about its hinge line when it lies level. [N m]"""
    assert isinstance(movement.motion, Swing)
    swing = movement.motion
    total = 0.0
    for name in movement.moves:
        arm = _arm(examined.scene.solids[name].centre, swing)
        total += examined.mass.by_part[name] * GRAVITY * arm / 1000.0
    return abs(total)


def _arm(at: Vec3, swing: Swing) -> float:
    """Level distance of a point from the hinge line, signed by side. [mm]"""
    x, y = at[0] - swing.about[0], at[1] - swing.about[1]
    return x * swing.axis[1] - y * swing.axis[0]


def _stays(examined: Examined, movement: Movement) -> Iterator[Finding]:
    mass, torque = own_mass(examined, movement), lid_torque(examined, movement)
    stays = [h for word in STAY_WORDS for h in fittings_of(examined, movement, word)]
    if not stays:
        if mass > rule("lid without a stay").allowed:
            yield rule("lid without a stay").found(
                f"{movement.name} weighs {examined.weight(mass)} and nothing holds it open",
                sorted(movement.moves)[:1],
                mass,
                mend=Mend(f"add a lid stay that holds {examined.moment(torque)} at any angle"),
                place=movement.place,
            )
        return
    yield from _stay_findings(examined, movement, stays)


def _stay_findings(examined: Examined, movement: Movement, stays: list[Hardware]) -> Iterator[Finding]:
    """Too heavy for what they are rated; else what to look for on the maker's sheet, which says moments."""
    mass, torque = own_mass(examined, movement), lid_torque(examined, movement)
    items = [(stay, examined.item_of(stay)) for stay in stays]
    rated = [stay.count * item.rating for stay, item in items if item is not None and item.rating is not None]
    if len(rated) == len(stays) and mass > sum(rated):
        yield rule("too heavy for its stays").found(
            f"{movement.name} weighs {examined.weight(mass)}; "
            f"its stays are rated {examined.weight(sum(rated))}",
            stays[0].joins or (),
            mass,
            limit=sum(rated),
            mend=Mend(f"use {int(mass / (sum(rated) / len(stays))) + 1} of them"),
            place=stays[0].place,
        )
        return
    count = sum(stay.count for stay in stays)
    each = "its stay" if count == 1 else f"each of {count} stays"
    yield rule("what the stay must hold").found(
        f"{movement.name}: {examined.moment(torque)} when level; {each} must hold "
        f"{examined.moment(torque / count)} or a little more",
        stays[0].joins or (),
        torque,
        place=stays[0].place,
    )


def _chest(examined: Examined, movement: Movement) -> Iterator[Finding]:
    volume = _closed_volume(examined, movement)
    if volume >= rule("lidded chest and children").allowed:
        yield rule("lidded chest and children").found(
            f"{movement.name} closes a box of about {volume:.0f} litres, large enough for a small child: the "
            "stay must hold it at any angle, no latch may lock by itself, and air must get in with it shut "
            "(two openings of 1 square inch (650 mm²) at least 6 in (150 mm) apart, or a gap as large)",
            sorted(movement.moves)[:1],
            volume,
            mend=Mend("fit a stay that needs no adjusting and cut the air openings; follow local rules"),
            place=movement.place,
        )


def _closed_volume(examined: Examined, movement: Movement) -> float:
    """Space between a level lid and the floor board under it, where walls stand on all sides. [dm³]"""
    lid = moved_box(examined, movement)
    fixed = [p.name for p in examined.piece.parts if p.name not in movement.moves]
    floors = [examined.bounds(n) for n in fixed if is_flat(examined, n) and _under(examined.bounds(n), lid)]
    if not floors:
        return 0.0
    floor = max(floors, key=lambda box: box.high[Axis.HIGH])
    walls = [examined.bounds(n) for n in fixed if _walls(examined.bounds(n), floor, lid)]
    sides = {(axis, _side(wall, floor, axis)) for wall in walls for axis in (Axis.WIDE, Axis.DEEP)}
    closed = {s for s in sides if s[1]} >= {(a, s) for a in (Axis.WIDE, Axis.DEEP) for s in (-1, 1)}
    height = lid.low[Axis.HIGH] - floor.high[Axis.HIGH]
    return floor.size(Axis.WIDE) * floor.size(Axis.DEEP) * height / 1e6 if closed else 0.0


def _under(box: Box, lid: Box) -> bool:
    below = box.high[Axis.HIGH] < lid.low[Axis.HIGH] - 50.0
    cover = [min(box.high[a], lid.high[a]) - max(box.low[a], lid.low[a]) for a in (Axis.WIDE, Axis.DEEP)]
    return below and all(c > 0.7 * lid.size(a) for c, a in zip(cover, (Axis.WIDE, Axis.DEEP), strict=True))


def _walls(box: Box, floor: Box, lid: Box) -> bool:
    """Whether a part stands as a wall from about the floor board to about the lid."""
    height = lid.low[Axis.HIGH] - floor.high[Axis.HIGH]
    upright = min(box.high[2], lid.low[2]) - max(box.low[2], floor.high[2])
    return upright > 0.8 * height


def _side(wall: Box, floor: Box, axis: Axis) -> int:
    """-1 or 1 where a wall runs along the low or high side of the floor board; 0 where it does not."""
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    long_enough = wall.size(cross) > 0.6 * floor.size(cross)
    if not long_enough or wall.size(axis) > 0.3 * floor.size(axis):
        return 0
    return -1 if wall.centre[axis] < floor.centre[axis] else 1
