"""What a measured part leaves open: gaps where a contact was meant, and three ways to close each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from scantling.errors import ScantlingError
from scantling.piece.model import TOUCH, Axis, BuildRecord, Contact, NamedSize, Notice, Part
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, near_boxes
from scantling.quantity import Style, format_length
from scantling.quantity.kinds import Kind, LengthUnit

PlannedSize = Callable[[Mapping[str, str]], float | None]
_STEP = 1.0  # mm: how far a size is tried, to see what it does


def gaps(crowd: Crowd, meant: tuple[Contact, ...]) -> Iterator[tuple[Contact, float]]:
    """Contacts the spans meant that are open (above zero) or run into each other (below), with how far."""
    for contact in meant:
        one, other = crowd.by_name.get(contact.part), crowd.by_name.get(contact.other)
        if one is None or other is None:
            continue
        a, b = near_boxes(one, other)
        gap = (b.face(contact.other_face) - a.face(contact.face)) * contact.face.sign
        if abs(gap) > TOUCH:
            yield contact, gap


def gap_notice(contact: Contact, gap: float, unit: LengthUnit, part: Part, mend: str) -> Notice:
    """One lost contact, with recut, pad and the size that would close it."""
    far = shown(abs(gap), unit)
    state = f"stands {far} off" if gap > 0 else f"runs {far} into"
    recut = "recut it" if gap > 0 else f"take {far} off it"
    pad = f", pad its {contact.face.word} by {far}" if gap > 0 else ""
    return Notice(
        "gap left by a fixed part" if part.fixed else "lost contact",
        f"{contact.part} {state} {contact.other} at its {contact.face.word}, where they were meant to meet",
        contact.place,
        (contact.part, contact.other),
        gap,
        f"{recut}{pad}{f', or {mend}' if mend else ''}",
        must=True,
    )


def closing_size(
    sizes: tuple[NamedSize, ...], planned: PlannedSize, measured: float, unit: LengthUnit
) -> str:
    """`make overall deep 85 7/8`: the named size whose change makes the plan agree with the part."""
    now = planned({})
    if now is None:
        return ""
    for size in sizes:
        if size.kind is not Kind.LENGTH:
            continue
        moved = _tried(planned, size, size.value + _STEP)
        slope = 0.0 if moved is None else (moved - now) / _STEP
        if abs(slope) < 1e-3:
            continue
        value = size.value + (measured - now) / slope
        there = _tried(planned, size, value)
        if there is not None and abs(there - measured) <= TOUCH:
            return f"make {size.name} {format_length(value, Style(unit, 64)).number}"
    return ""


def _tried(planned: PlannedSize, size: NamedSize, value: float) -> float | None:
    try:
        return planned({size.name: f"{value:.6f} mm"})
    except ScantlingError:
        return None


def kept_sizes(record: BuildRecord, crowd: Crowd, planned: Crowd, unit: LengthUnit) -> Iterator[Notice]:
    """A part that keeps its measured size where the plan now says another."""
    for name in sorted(crowd.by_name):
        one, before = crowd.by_name[name].part, planned.by_name.get(name)
        if before is None or not _is_measured(record, name):
            continue
        for axis in Axis:
            apart = one.size(axis) - before.part.size(axis)
            if abs(apart) > TOUCH:
                yield Notice(
                    "as built",
                    f"{name} is {shown(one.size(axis), unit)} {axis.word} as measured; "
                    f"the plan says {shown(before.part.size(axis), unit)}",
                    one.place,
                    (name,),
                    apart,
                )


def _is_measured(record: BuildRecord, name: str) -> bool:
    words = sorted(name.split())
    return any(sorted(m.part.lower().split()) == words for m in record.measured)
