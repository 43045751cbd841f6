"""In the worker: what a changed build record changes in the plan, told before it is kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.build.boards_changed import boards_changed
from scantling.desk.build.changes import Change
from scantling.desk.build.looked_at import context
from scantling.desk.build.parts_view import size_nouns
from scantling.desk.build.steps_changed import steps_changed

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from scantling.desk.working import Asked
    from scantling.packet.context import Context
    from scantling.piece.editing.effects import Effects, PartChange, SizeChange

MOST_LINES = 40


@dataclass(frozen=True, slots=True)
class Group:
    """Changes of one sort. `more`: how many are not listed."""

    head: str
    changes: tuple[Change, ...]
    more: int = 0


@dataclass(frozen=True, slots=True)
class Difference:
    """What changes, group by group; empty where nothing does. `must_fix`: new findings that stop it.

    `boards`: those that are cut otherwise.
    """

    groups: tuple[Group, ...]
    must_fix: tuple[str, ...]
    boards: tuple[str, ...]


def difference(before: Asked, after: Asked) -> Difference:
    """What planning `after` instead of `before` changes. Raises ReadError where `after` cannot be planned."""
    from scantling.piece.editing.effects import effects

    new = context(after)
    old = context(before)
    told = effects(old.plan.piece, new.plan.piece)
    boards = tuple(boards_changed(old, new))
    found = [
        _group("Parts", _parts(told, old, new)),
        _group("Sizes by name", _sizes(told.sizes, new)),
        _group("Joints", _joints(told)),
        _group("Boards and sheets", boards),
        _group("Money and time", _sums(old, new)),
        _group("Steps", steps_changed(old, new)),
    ]
    known = {finding.message for finding in old.plan.must_fix}
    return Difference(
        groups=tuple(group for group in found if group.changes),
        must_fix=tuple(f.message for f in new.plan.must_fix if f.message not in known),
        boards=tuple(change.about for change in boards),
    )


def _group(head: str, changes: Iterable[Change]) -> Group:
    listed = tuple(change for change in changes if not change.was or change.was != change.will)
    return Group(head, listed[:MOST_LINES], max(0, len(listed) - MOST_LINES))


def _parts(told: Effects, old: Context, new: Context) -> Iterator[Change]:
    """Parts under the marks they have on the labels by now."""
    for name in told.added:
        yield Change(name, "", "new")
    for name in told.gone:
        yield Change(old.named(name), "in the plan", "no longer made")
    for change in told.changed:
        yield from _part(change, old, new)


def _part(change: PartChange, old: Context, new: Context) -> Iterator[Change]:
    nouns = size_nouns(new.plan.piece.part(change.part))
    for size in change.sizes:
        yield Change(f"{old.named(change.part)}, {nouns[size.name]}", *_lengths(size, new))
    if change.other:
        yield Change(old.named(change.part), "", "of another shape or wood")
    elif change.moved and not change.sizes:
        yield Change(old.named(change.part), "", "stands elsewhere, its sizes as they were")


def _sizes(changes: Iterable[SizeChange], new: Context) -> Iterator[Change]:
    from scantling.quantity import Kind

    for change in changes:
        if change.kind is Kind.LENGTH:
            yield Change(change.name, *_lengths(change, new))
        else:
            yield Change(change.name, f"{change.before:g}", f"{change.after:g}")


def _lengths(change: SizeChange, new: Context) -> tuple[str, str]:
    from scantling.packet.shown import bound

    return bound(new.sizes.both(change.before)), bound(new.sizes.both(change.after))


def _joints(told: Effects) -> Iterator[Change]:
    for joint in told.joints_lost:
        yield Change(joint, "cut", "gone")
    for joint in told.joints_gained:
        yield Change(joint, "", "new")


def _sums(old: Context, new: Context) -> Iterator[Change]:
    from scantling.packet.shown import money, work_time

    was, will = old.plan.build_plan.cost, new.plan.build_plan.cost
    if round(was.total - will.total, 2):
        yield Change("To spend", money(was.total, was.currency), money(will.total, will.currency))
    before, after = (work_time(seen.plan.build_plan.active_minutes) for seen in (old, new))
    if before != after:
        yield Change("Work in all", before, after)
