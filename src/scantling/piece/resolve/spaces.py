"""Spaces divided by `split`: openings and the gaps between them, numbered in the direction of the split."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scantling.errors import ResolveError
from scantling.piece.language.document import (
    Entry,
    MappingNode,
    Scalar,
    as_mapping,
    as_name,
    as_scalar,
    as_sequence,
)
from scantling.piece.language.parse import parse_expression
from scantling.piece.model import TOUCH, Axis
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.directions import DIRECTIONS
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.tree import SPACE, Family, Reach, Thing
from scantling.piece.resolve.wanting import size_in

REST = "rest"


@dataclass(frozen=True, slots=True)
class Split:
    """A split as written: the way it runs, its openings, and the gap's name and size (if it says any)."""

    axis: Axis
    sign: int
    openings: tuple[Scalar, ...]
    gap: Entry | None
    node: MappingNode


def split_of(family: Family) -> Split | None:
    """How the space of this family (or the one its gaps come from) is divided."""
    if family.kind != SPACE:
        return None
    source = family.split_from or family
    node = source.node.get("split")
    return None if node is None else _split(as_mapping(node, "`split`"))


def _split(node: MappingNode) -> Split:
    ways = [entry for entry in node if entry.name in DIRECTIONS]
    if len(ways) != 1:
        raise ResolveError("a split runs one way", node.place, "write `split: {down: [4, 5, rest]}`")
    axis, sign = DIRECTIONS[ways[0].name]
    items = as_sequence(ways[0].value, f"`{ways[0].name}`")
    openings = tuple(as_scalar(item, "an opening") for item in items)
    if not openings:
        raise ResolveError("a split of nothing", items.place, "list the openings: `[4, 5, rest]`")
    return Split(axis, sign, openings, gap_entry(node), node)


def openings(family: Family) -> tuple[Scalar, ...]:
    """The openings of a split space, as written."""
    split = split_of(family)
    return split.openings if split else ()


def gap_entry(split: MappingNode) -> Entry | None:
    """The name and size of the gaps under `leaving`."""
    leaving = split.get("leaving")
    if leaving is None:
        return None
    entries = as_mapping(leaving, "`leaving`").entries
    if len(entries) != 1:
        raise ResolveError(
            "`leaving` names one kind of gap", leaving.place, "write `leaving: {frame place: 3/4}`"
        )
    return entries[0]


def numbers(family: Family) -> tuple[int | None, ...]:
    """The numbers a split gives: openings, or the gaps between them. One alone has no number."""
    split = split_of(family)
    if split is None:
        return (None,)
    count = len(split.openings) - (1 if family.split_from else 0)
    if count == 1:
        return (None,)
    return tuple(range(1, count + 1))


def splits_along(thing: Thing, axis: Axis) -> bool:
    """Whether the space this thing is cut from is divided along an axis."""
    split = split_of(thing.family)
    return split is not None and split.axis is axis


def split_reach(thing: Thing, axis: Axis, whole_of: Callable[[Thing, Axis], Reach]) -> Reach:
    """The part of the divided space that this opening or gap takes."""
    split = split_of(thing.family)
    assert split is not None
    whole = whole_of(thing, axis)
    sizes, gap = _sizes(thing, split, whole.size)
    index = (thing.number or 1) - 1
    before = sum(sizes[:index]) + gap * index
    size = sizes[index]
    if thing.family.split_from is not None:
        before, size = before + sizes[index], gap
    return _from_side(whole, split, before, size)


def _from_side(whole: Reach, split: Split, before: float, size: float) -> Reach:
    first, last = before <= TOUCH, before + size >= whole.size - TOUCH
    if split.sign > 0:
        low_faces = whole.low_faces if first else frozenset()
        high_faces = whole.high_faces if last else frozenset()
        return Reach(whole.low + before, whole.low + before + size, low_faces, high_faces)
    low_faces = whole.low_faces if last else frozenset()
    high_faces = whole.high_faces if first else frozenset()
    return Reach(whole.high - before - size, whole.high - before, low_faces, high_faces)


def _sizes(thing: Thing, split: Split, whole: float) -> tuple[list[float], float]:
    """The openings' sizes in order, and the gap; `rest` shares what is left over."""
    gap = _gap(thing, split)
    said = [None if is_rest(o) else _size(thing, o) for o in split.openings]
    left = whole - gap * (len(said) - 1) - sum(size for size in said if size is not None)
    rests = said.count(None)
    if rests == 0 and abs(left) > TOUCH:
        raise _does_not_add_up(thing, split, whole, whole - left)
    if rests and left < rests * TOUCH:
        raise _does_not_add_up(thing, split, whole, whole - left)
    return [left / rests if size is None else size for size in said], gap


def is_rest(scalar: Scalar) -> bool:
    """Whether an opening takes what is left over."""
    return scalar.text.strip().lower() == REST


def near_rest(scalar: Scalar) -> bool:
    """Whether an opening is called by another word for what is left over."""
    return as_name(scalar.text) in ("remainder", "remaining", "rests", "the rest", "auto", "equal", "even")


def _size(thing: Thing, scalar: Scalar) -> float:
    asker = Asker(thing.scope, scalar, thing, what="split")
    if near_rest(scalar):
        raise asker.error(f'no size is called "{scalar.text.strip()}"', None, "what is left over is `rest`")
    size = size_in(asker, parse_expression(scalar))
    if size <= TOUCH:
        raise asker.error("an opening wants a size above zero")
    return size


def _gap(thing: Thing, split: Split) -> float:
    if split.gap is None:
        return 0.0
    scalar = as_scalar(split.gap.value, "a gap")
    size = size_in(Asker(thing.scope, scalar, thing, what=split.gap.name), parse_expression(scalar))
    if size < 0:
        raise Asker(thing.scope, scalar, thing, what=split.gap.name).error("a gap may not be below zero")
    return size


def _does_not_add_up(thing: Thing, split: Split, whole: float, total: float) -> ResolveError:
    unit = split.openings[0].unit
    there = f"but there is {shown(whole, unit)}"
    name = (thing.family.split_from or thing.family).name
    rests = any(is_rest(o) for o in split.openings)
    remedy = "leave more room, or make one smaller" if rests else "make one of them `rest`"
    return ResolveError(
        f"the openings and gaps add up to {shown(total, unit)} {there}",
        split.openings[0].place,
        remedy,
        (name, "split"),
    )
