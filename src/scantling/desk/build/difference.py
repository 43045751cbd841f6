"""In the worker: what a changed build record changes in the plan, told before it is kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from scantling.desk.build.looked_at import context
from scantling.desk.build.parts_view import size_nouns

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from scantling.building import Step
    from scantling.cutting.cut_plan import StockLayout
    from scantling.desk.working import Asked
    from scantling.packet.context import Context
    from scantling.piece.editing.effects import Effects, PartChange, SizeChange

MOST_LINES = 40
SHORT = 70  # letters that are read at a glance


@dataclass(frozen=True, slots=True)
class Change:
    """One line: what it is about, what it was and what it will be; `was` or `will` may be ""."""

    about: str
    was: str = ""
    will: str = ""

    @property
    def long(self) -> bool:
        """Whether before and after want a line each."""
        return len(self.was) + len(self.will) > SHORT


@dataclass(frozen=True, slots=True)
class Group:
    """Changes of one sort. `more`: how many are not listed."""

    head: str
    changes: tuple[Change, ...]
    more: int = 0


@dataclass(frozen=True, slots=True)
class Difference:
    """What changes, group by group; empty where nothing does. `must_fix`: new findings that stop it."""

    groups: tuple[Group, ...]
    must_fix: tuple[str, ...]


def difference(before: Asked, after: Asked) -> Difference:
    """What planning `after` instead of `before` changes. Raises ReadError where `after` cannot be planned."""
    from scantling.piece.editing.effects import effects

    new = context(after)
    old = context(before)
    told = effects(old.plan.piece, new.plan.piece)
    found = [
        _group("Parts", _parts(told, old, new)),
        _group("Sizes by name", _sizes(told.sizes, new)),
        _group("Joints", _joints(told)),
        _group("Boards and sheets", _boards(old, new)),
        _group("Money and time", _sums(old, new)),
        _group("Steps", _steps(old, new)),
    ]
    known = {finding.message for finding in old.plan.must_fix}
    return Difference(
        groups=tuple(group for group in found if group.changes),
        must_fix=tuple(f.message for f in new.plan.must_fix if f.message not in known),
    )


def _group(head: str, changes: Iterable[Change]) -> Group:
    listed = tuple(changes)
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


def _boards(old: Context, new: Context) -> Iterator[Change]:
    was, will = _by_stock(old), _by_stock(new)
    cut = {used.stock for used in new.plan.piece.record.stock}
    for name in dict.fromkeys([*was, *will]):
        if name not in will:
            yield Change(name, _gives(was[name], old), "noted as cut" if name in cut else "not cut")
        elif name not in was:
            yield Change(name, "to be bought" if will[name].bought else "not cut", _gives(will[name], new))
        elif _laid(was[name], old) != _laid(will[name], new):
            yield Change(name, _gives(was[name], old), _gives(will[name], new))


def _by_stock(seen: Context) -> Mapping[str, StockLayout]:
    return {layout.stock: layout for layout in seen.plan.cut_plan.layouts if layout.placed}


def _laid(layout: StockLayout, seen: Context) -> tuple[tuple[object, ...], ...]:
    """What lies where, to 0.1 mm: blanks are known by their parts and sizes, not by their numbers."""
    parts = {blank.id: blank.part for blank in seen.plan.cut_plan.blanks}
    return tuple(
        sorted(
            (parts[p.blank], round(p.x, 1), round(p.y, 1), round(p.length, 1), round(p.width, 1))
            for p in layout.placed
        )
    )


def _gives(layout: StockLayout, seen: Context) -> str:
    from scantling.building.naming import Names

    parts = {blank.id: blank.part for blank in seen.plan.cut_plan.blanks}
    return f"for {Names(seen.plan.piece).counted(parts[placed.blank] for placed in layout.placed)}"


def _sums(old: Context, new: Context) -> Iterator[Change]:
    from scantling.packet.shown import money, work_time

    was, will = old.plan.build_plan.cost, new.plan.build_plan.cost
    if round(was.total - will.total, 2):
        yield Change("To spend", money(was.total, was.currency), money(will.total, will.currency))
    before, after = (work_time(seen.plan.build_plan.active_minutes) for seen in (old, new))
    if before != after:
        yield Change("Work in all", before, after)


def _steps(old: Context, new: Context) -> Iterator[Change]:
    """Old steps found again in the new plan as ticks are: what is not the very same is told."""
    from scantling.building.ticks import step_keys, ticked

    before, after = old.plan.build_plan.steps, new.plan.build_plan.steps
    keys = step_keys(before)
    titles = {keys[step.number]: step for step in before}
    again = ticked(after, dict.fromkeys(titles, datetime.min.replace(tzinfo=UTC)))
    for step in after:
        tick = again.by_step.get(step.number)
        if tick is None:
            yield Change(f"{step.number} {step.title}", "", "new")
        elif tick.changed:
            yield Change(f"{step.number} {step.title}", *_otherwise(titles[tick.key], step))
    for gone in again.astray:
        yield Change(gone.words, "in the plan", "no longer needed")


def _otherwise(old: Step, new: Step) -> tuple[str, str]:
    """The settings that differ; the titles where only they do."""
    from scantling.packet.shown import bound

    lost, won = _only(old.settings, new.settings), _only(new.settings, old.settings)
    if lost or won:
        return bound("; ".join(lost)), bound("; ".join(won))
    return old.title, new.title


def _only(these: Sequence[str], others: Sequence[str]) -> list[str]:
    from scantling.building.ticks import same_words

    known = {same_words(words) for words in others}
    return [words for words in these if same_words(words) not in known]
