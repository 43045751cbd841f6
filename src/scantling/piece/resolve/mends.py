"""What a measured part leaves open: gaps where a contact was meant, and three ways to close each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from scantling.errors import ScantlingError
from scantling.piece.model import TOUCH, Axis, BuildRecord, Contact, NamedSize, Notice, Part
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, near_boxes
from scantling.quantity import Style, format_length
from scantling.quantity.kinds import Kind, LengthUnit

SizeAsPlanned = Callable[[Mapping[str, str]], float | None]
OpenBy = Callable[[Mapping[str, str]], float | None]
_STEP = 1.0  # mm: how far a size is tried, to see what it does
_LEAST_SLOPE = 1e-3  # mm that something moves for each mm of a size


def gaps(crowd: Crowd, meant: tuple[Contact, ...]) -> Iterator[tuple[Contact, float]]:
    """Contacts the spans meant that are open (above zero) or run into each other (below), with how far."""
    for contact in meant:
        gap = gap_at(crowd, contact)
        if gap is not None and abs(gap) > TOUCH:
            yield contact, gap


def gap_at(crowd: Crowd, contact: Contact) -> float | None:
    """How far a contact stands open (below zero: runs in); None if either part is not there. [mm]"""
    one, other = crowd.by_name.get(contact.part), crowd.by_name.get(contact.other)
    if one is None or other is None:
        return None
    a, b = near_boxes(one, other)
    return (b.face(contact.other_face) - a.face(contact.face)) * contact.face.sign


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
    sizes: tuple[NamedSize, ...], planned: SizeAsPlanned, open_by: OpenBy, unit: LengthUnit
) -> str:
    """`make overall deep 85 7/8`: the named size whose change, with all that is measured, closes the gap.

    `planned` tells which sizes the part follows at all, `open_by` how far the gap stands open as built.
    """
    size_now, gap_now = planned({}), open_by({})
    if size_now is None or gap_now is None:
        return ""
    for size in sizes:
        if size.kind is not Kind.LENGTH:
            continue
        near = {size.name: _in_mm(size.value + _STEP)}
        follows = _tried(planned, near)
        if follows is None or abs(follows - size_now) < _LEAST_SLOPE * _STEP:
            continue
        gap_near = _tried(open_by, near)
        slope = 0.0 if gap_near is None else (gap_near - gap_now) / _STEP
        if abs(slope) < _LEAST_SLOPE:
            continue
        words = _as_written(size.value - gap_now / slope, unit)
        left = _tried(open_by, {size.name: words})
        if left is not None and abs(left) <= TOUCH:
            return f"make {size.name} {words}"
    return ""


def _as_written(mm: float, unit: LengthUnit) -> str:
    """A size as a maker would write it, near enough to close a gap: a fraction, else millimetres."""
    plain = format_length(mm, Style(unit, 64))
    if abs(plain.error_mm) <= TOUCH / 2:
        return plain.number
    number = f"{mm:.2f}".rstrip("0").rstrip(".")
    return number if unit is LengthUnit.MM else f"{number} mm"


def _in_mm(mm: float) -> str:
    return f"{mm:.6f} mm"


def _tried(ask: SizeAsPlanned, changed: Mapping[str, str]) -> float | None:
    try:
        return ask(changed)
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
