"""Does it get into the room, stand up in it, and fit the wall with its skirting?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations
from math import hypot

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.checks.ties import groups_rigid_when_taken_apart
from scantling.piece.model import Axis, Face, PartName

FOLLOWS = 0.8  # of an overall size: what measures more is taken to shrink with it


def room(examined: Examined) -> Iterator[Finding]:
    """Findings on doorway, ceiling, wall and skirting."""
    yield from _doorway(examined)
    yield from _ceiling(examined)
    yield from _wall_width(examined)
    yield from _skirting(examined)


def _doorway(examined: Examined) -> Iterator[Finding]:
    passes = examined.piece.room.passes
    if passes is None:
        return
    spare = rule("does not pass").allowed
    whole = _sizes(examined, tuple(part.name for part in examined.piece.parts))
    if _short(whole, passes, spare) <= 0:
        return
    groups = groups_rigid_when_taken_apart(examined)
    worst = max(groups, key=lambda group: _short(_sizes(examined, group), passes, spare))
    short = _short(_sizes(examined, worst), passes, spare)
    door = f"{examined.length(passes[0])} by {examined.length(passes[1])}"
    if short <= 0:
        yield rule("passes taken apart").found(
            f"put together it does not go through a doorway of {door}; undo its screws and bolts and it does",
            mend=Mend("put it together in its room"),
            place=examined.piece.room.place,
        )
    else:
        yield _does_not_pass(examined, worst, passes)


def _does_not_pass(examined: Examined, group: tuple[PartName, ...], passes: tuple[float, float]) -> Finding:
    """With the one size that must shrink least, by its own name."""
    sizes, spare = _sizes(examined, group), rule("does not pass").allowed
    short = _short(sizes, passes, spare)
    axis, most = _size_to_shrink(sizes, passes, spare)
    door = f"{examined.length(passes[0])} by {examined.length(passes[1])}"
    measured = " x ".join(examined.length(size) for size in sizes)
    overall = examined.piece.overall.size(axis)
    follows = sizes[axis] > FOLLOWS * overall
    over_all = overall - sizes[axis] + most if follows else most
    what = "the piece" if follows else "that"
    return rule("does not pass").found(
        f"what is glued together measures {measured} (wide, deep, high) and does not go through a doorway of "
        f"{door} with {examined.length(spare)} to spare",
        group[:4],
        spare - short,
        limit=spare,
        mend=Mend(
            f"make {what} {examined.length_at_most(over_all)} {axis.word} at most, or join it with bolts",
            examined.overall_change(axis, over_all) if follows else (),
        ),
        place=examined.piece.room.place,
    )


def _size_to_shrink(
    sizes: tuple[float, ...], passes: tuple[float, float], spare: float
) -> tuple[Axis, float]:
    """The size that lacks least on the best way through, and what it may be. [mm]"""
    ways = [((wide, passes[0] - spare), (high, passes[1] - spare)) for wide, high in permutations(Axis, 2)]
    best = min(ways, key=lambda way: max(sizes[axis] - most for axis, most in way))
    return max(best, key=lambda each: sizes[each[0]] - each[1])


def _sizes(examined: Examined, names: tuple[PartName, ...]) -> tuple[float, ...]:
    boxes = [examined.bounds(name) for name in names]
    return tuple(max(b.high[a] for b in boxes) - min(b.low[a] for b in boxes) for a in Axis)


def _short(sizes: tuple[float, ...], passes: tuple[float, float], spare: float) -> float:
    """By how much the best way round fails to go through; negative when it goes. [mm]"""
    return min(
        max(wide - (passes[0] - spare), high - (passes[1] - spare)) for wide, high in permutations(sizes, 2)
    )


def _ceiling(examined: Examined) -> Iterator[Finding]:
    ceiling = examined.piece.room.ceiling
    if ceiling is None:
        return
    box = examined.piece.overall
    high, deep = box.size(Axis.HIGH), min(box.size(Axis.DEEP), box.size(Axis.WIDE))
    if high > ceiling:
        yield rule("higher than the room").found(
            f"it is {examined.length(high)} high; the ceiling is at {examined.length(ceiling)}",
            number=high - ceiling,
            mend=Mend(
                f"make it {examined.length(high - ceiling)} lower",
                examined.overall_change(Axis.HIGH, ceiling),
            ),
            place=examined.piece.room.place,
        )
        return
    slant, spare = hypot(high, deep), rule("cannot be stood up").allowed
    if slant > ceiling - spare:
        most = max(ceiling - spare, 0.0) ** 2 - deep**2
        lower = examined.length(most**0.5)
        yield rule("cannot be stood up").found(
            f"lying down it cannot be tilted upright: its side measures {examined.length(slant)} corner to "
            f"corner under a ceiling of {examined.length(ceiling)}",
            number=ceiling - slant,
            mend=Mend(
                f"carry it in upright, put it together standing, or make it {lower} high",
                examined.overall_change(Axis.HIGH, most**0.5),
            ),
            place=examined.piece.room.place,
        )


def _wall_width(examined: Examined) -> Iterator[Finding]:
    wall, wide = examined.piece.room.wide, examined.piece.overall.size(Axis.WIDE)
    if wall is not None and wide > wall:
        yield rule("wider than its wall").found(
            f"it is {examined.length(wide)} wide; the wall is {examined.length(wall)}",
            number=wide - wall,
            mend=Mend(
                f"make it {examined.length(wide - wall)} narrower", examined.overall_change(Axis.WIDE, wall)
            ),
            place=examined.piece.room.place,
        )


def _skirting(examined: Examined) -> Iterator[Finding]:
    skirting, overall = examined.piece.room.skirting, examined.piece.overall
    if skirting is None or Face.BACK not in examined.piece.room.against:
        return
    thick, high = skirting
    hits = [
        (overall.high[Axis.DEEP] - box.high[Axis.DEEP], part.name)
        for part in examined.piece.parts
        for box in (examined.bounds(part.name),)
        if box.low[Axis.HIGH] < overall.low[Axis.HIGH] + high
        and box.high[Axis.DEEP] > overall.high[Axis.DEEP] - thick
    ]
    if hits:
        gap, name = min(hits)
        yield rule("stands off the skirting").found(
            f"{name} meets the skirting: the back stands {examined.length(thick - gap)} off the wall",
            tuple(part for _, part in hits)[:4],
            thick - gap,
            limit=0.0,
            mend=Mend(
                f"set the parts below {examined.length(high)} forward by {examined.length(thick - gap)}, "
                "or notch them round the skirting"
            ),
            place=examined.piece.room.place,
        )
