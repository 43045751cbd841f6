"""What differs between two resolved pieces: parts, their sizes and places, joints, named sizes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.piece.editing.alike import alike
from scantling.piece.model import TOUCH, Axis, Joint, Part, Piece
from scantling.quantity.kinds import Kind

_SAME = 1e-6  # mm, deg


@dataclass(frozen=True, slots=True)
class SizeChange:
    """A size before and after: `wide`, `deep` or `high` of a part, or a named size. [mm, deg]"""

    name: str
    before: float
    after: float
    kind: Kind = Kind.LENGTH


@dataclass(frozen=True, slots=True)
class PartChange:
    """One part: its sizes that changed; `moved`: it stands elsewhere; `other`: of another shape or wood."""

    part: str
    sizes: tuple[SizeChange, ...]
    moved: bool
    other: bool


@dataclass(frozen=True, slots=True)
class Effects:
    """Parts by full names; joints as `left end rail to left front leg: tenon`."""

    added: tuple[str, ...]
    gone: tuple[str, ...]
    changed: tuple[PartChange, ...]
    joints_lost: tuple[str, ...]
    joints_gained: tuple[str, ...]
    sizes: tuple[SizeChange, ...]


def effects(before: Piece, after: Piece) -> Effects:
    """What the change from one piece to the other does."""
    was, now = before.part_by_name, after.part_by_name
    return Effects(
        tuple(name for name in now if name not in was),
        tuple(name for name in was if name not in now),
        tuple(_part_changes(before, after)),
        joints_lost(before, after),
        joints_lost(after, before),
        tuple(_size_changes(before, after)),
    )


def joints_lost(before: Piece, after: Piece) -> tuple[str, ...]:
    """Pairs that were joined and are not, or no longer in that way."""
    kept = {joint_told(joint) for joint in after.joints}
    return tuple(dict.fromkeys(told for joint in before.joints if (told := joint_told(joint)) not in kept))


def joint_told(joint: Joint) -> str:
    """A joint in words."""
    return f"{joint.first} to {joint.second}: {joint.method}"


def _part_changes(before: Piece, after: Piece) -> Iterator[PartChange]:
    for part in after.parts:
        old = before.part_by_name.get(part.name)
        if old is None:
            continue
        sizes = tuple(
            SizeChange(axis.word, old.size(axis), part.size(axis))
            for axis in Axis
            if abs(old.size(axis) - part.size(axis)) > _SAME
        )
        moved, other = _moved(old, part), _is_other(old, part)
        if sizes or moved or other:
            yield PartChange(part.name, sizes, moved, other)


def _moved(old: Part, new: Part) -> bool:
    """Whether both of its faces along some axis lie elsewhere."""
    lows = [abs(a - b) > TOUCH for a, b in zip(old.box.low, new.box.low, strict=True)]
    highs = [abs(a - b) > TOUCH for a, b in zip(old.box.high, new.box.high, strict=True)]
    return any(low and high for low, high in zip(lows, highs, strict=True))


def _is_other(old: Part, new: Part) -> bool:
    looks = [(p.material, p.grain, p.rings, p.shape, p.work, p.built) for p in (old, new)]
    return not alike(*looks)


def _size_changes(before: Piece, after: Piece) -> Iterator[SizeChange]:
    was = {size.name: size.value for size in before.sizes}
    for size in after.sizes:
        if size.name in was and abs(was[size.name] - size.value) > _SAME:
            yield SizeChange(size.name, was[size.name], size.value, size.kind)
