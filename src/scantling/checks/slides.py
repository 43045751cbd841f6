"""Do drawer slides carry, fit and reach? Rating, length and side clearance."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.moving import carried_mass, fittings_of, moved_box, slide_axis
from scantling.checks.rules import rule
from scantling.piece.model import Axis, Hardware, Movement, Slide

USUAL_CLEARANCE = 12.7  # mm a side for side-mounted slides: common practice, no source
CLEARANCE_LESS, CLEARANCE_MORE = 0.2, 0.8  # mm: common practice, no source


def slides(examined: Examined) -> Iterator[Finding]:
    """Findings on every movement that runs on slides."""
    for movement in examined.piece.movements:
        pair = fittings_of(examined, movement, "slide")
        if pair and isinstance(movement.motion, Slide):
            yield from _rating(examined, movement, pair[0])
            yield from _length(examined, movement, movement.motion, pair[0])
            for each in pair:
                yield from _clearance(examined, movement.motion, each)


def _rating(examined: Examined, movement: Movement, slide: Hardware) -> Iterator[Finding]:
    mass, item = carried_mass(examined, movement), examined.item_of(slide)
    if item is None or item.rating is None:
        yield rule("no slide in the shop").found(
            f"{movement.name}: its pair of slides carries {examined.weight(mass)}; "
            f"nothing with a rating in the shop matches `{slide.kind}`",
            slide.joins or (),
            mass,
            mend=Mend(f"buy a pair rated {examined.weight(mass)} or more"),
            place=slide.place,
        )
    elif mass > item.rating:
        fit = [i for i in examined.shop.hardware if i.kind == item.kind and (i.rating or 0.0) >= mass]
        best = min(fit, key=lambda i: (i.rating or 0.0, i.price, i.id), default=None)
        instead = f"take {best.name}" if best else "take slides of a heavier class"
        yield rule("too heavy for its slides").found(
            f"{movement.name} carries {examined.weight(mass)}; "
            f"its slides are rated {examined.weight(item.rating)}",
            slide.joins or (),
            mass,
            limit=item.rating,
            mend=Mend(f"{instead}, or hold {examined.weight(mass - item.rating)} less"),
            place=slide.place,
        )


def _length(examined: Examined, movement: Movement, motion: Slide, slide: Hardware) -> Iterator[Finding]:
    length = dict(slide.sizes).get("length")
    if length is None or slide.joins is None:
        return
    axis = slide_axis(motion)
    depth = moved_box(examined, movement).size(axis)
    if length > depth + 1.0:
        yield rule("slide longer than its drawer").found(
            f"{movement.name}: the slide is {examined.length(length)} long, "
            f"what runs on it only {examined.length(depth)}",
            slide.joins,
            length,
            limit=depth,
            mend=Mend(f"take a slide of {examined.length(depth)} or less"),
            place=slide.place,
        )
    if motion.distance > length + 1.0:
        yield rule("slide too short").found(
            f"{movement.name} must go {examined.length(motion.distance)}; "
            f"its slide is {examined.length(length)} long and opens no farther",
            slide.joins,
            motion.distance,
            limit=length,
            mend=Mend(f"let it slide {examined.length(length)} at most"),
            place=movement.place,
        )


def _clearance(examined: Examined, motion: Slide, slide: Hardware) -> Iterator[Finding]:
    """Side-mounted slides: the gap between drawer and case is the slide's own thickness."""
    if slide.joins is None or "side" not in slide.kind or slide_axis(motion) == Axis.HIGH:
        return
    across = Axis.WIDE if slide_axis(motion) == Axis.DEEP else Axis.DEEP
    one, other = (examined.bounds(name) for name in slide.joins)
    gap = max(other.low[across] - one.high[across], one.low[across] - other.high[across])
    item = examined.item_of(slide)
    wanted = dict(item.sizes).get("clearance", USUAL_CLEARANCE) if item else USUAL_CLEARANCE
    if wanted - CLEARANCE_LESS <= gap <= wanted + CLEARANCE_MORE:
        return
    change = wanted - gap
    side = "narrower" if change > 0 else "wider"
    yield rule("slide clearance").found(
        f"{slide.joins[0]}: {examined.length(gap)} to {slide.joins[1]}; "
        f"the slide wants {examined.length(wanted)}",
        slide.joins,
        gap,
        limit=wanted,
        mend=Mend(f"make the drawer {examined.length(abs(change))} {side} on that side"),
        place=slide.place,
    )
