"""What is bought wet or too thick, and pins that have nothing to stand in: slips seen too late."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined, few_of, wood_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.joinery.features import Hole
from scantling.piece.model import Hardware, MaterialKind, PinRowsWork
from scantling.wood import change_across


def bought_things(examined: Examined) -> Iterator[Finding]:
    """Shelf pins without holes; sticks of dressed lumber that have still to dry."""
    for hardware in examined.piece.hardware:
        if hardware.kind.split(" ")[:2] == ["shelf", "pin"] and not _has_holes(examined, hardware):
            yield rule("pins without holes").found(
                f"{hardware.name}: {hardware.count} pins are bought, and no holes are bored for them",
                (hardware.under,) if hardware.under else (),
                mend=Mend(
                    "say how far in the rows stand (`holes: [2, 8]`), or bore them in both sides "
                    "(`work: [{shelf pins: inside, ...}]`)"
                ),
                place=hardware.place,
            )
    yield from _planed_away(examined)
    yield from _wet_sticks(examined)


def _has_holes(examined: Examined, hardware: Hardware) -> bool:
    """Whether the fitting's own rows, or anybody's `work`, bore holes for pins."""
    if any(isinstance(work, PinRowsWork) for part in examined.piece.parts for work in part.work):
        return True
    holes: list[Hole] = [h for made in examined.machined.parts for h in made.holes]
    return any(hole.owner == hardware.name or hole.purpose == "pin" for hole in holes)


def _planed_away(examined: Examined) -> Iterator[Finding]:
    """Solid parts far thinner than the wood they name: mostly a material meant for another part."""
    least = rule("mostly planed away").allowed
    for part in examined.piece.parts:
        thick = part.material.thick
        solid = part.material.kind is MaterialKind.SOLID and part.shape.is_box
        if solid and thick is not None and part.thickness < least * thick:
            yield rule("mostly planed away").found(
                f"{part.name} is {examined.length(part.thickness)} thick and made of {part.material.text}",
                (part.name,),
                part.thickness / thick,
                mend=Mend("name a thinner wood (`of: ...`), or resaw it and use both halves"),
                place=part.place,
            )


def _wet_sticks(examined: Examined) -> Iterator[Finding]:
    sticks = [p for p in examined.piece.parts if p.material.kind is MaterialKind.LUMBER]
    if not sticks:
        return
    wet, dry = rule("sticks sold wet").allowed, examined.moistures.dry
    widest = max(sticks, key=lambda part: part.width)
    wood = wood_of(widest)
    assert wood is not None
    loss = -change_across(wood, widest.width, wet, dry, widest.rings.value)
    yield rule("sticks sold wet").found(
        f"{few_of(sorted({p.material.text for p in sticks}))}: dressed lumber is sold at up to {wet:g} % "
        f"moisture; in the room's driest air ({dry:.0f} %) a stick {examined.length(widest.width)} wide is "
        f"{examined.small(loss)} narrower, and gaps and joints open by as much",
        (widest.name,),
        wet,
        mend=Mend("stack it with air all round in the room for some weeks, and measure it before cutting"),
    )
