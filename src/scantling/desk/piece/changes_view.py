"""In the worker: what a change did, in sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.packet.shown import Sizes, money
from scantling.quantity import Style, listed
from scantling.quantity.kinds import Kind

if TYPE_CHECKING:
    from scantling.piece.editing.effects import Effects
    from scantling.plan import Plan

MANY = 4


def told(found: Effects, was: Plan, now: Plan) -> tuple[str, ...]:
    """Sizes, parts, joints, findings, boards and money, each only where it changed."""
    sizes = Sizes(Style(now.piece.unit, now.shop.fraction))
    said = [
        *(_size(change, sizes) for change in found.sizes),
        _parts("new", found.added),
        _parts("gone", found.gone),
        _parts("of another size", [change.part for change in found.changed if change.sizes]),
        _parts("moved", [change.part for change in found.changed if change.moved and not change.sizes]),
        _parts("joints lost", found.joints_lost),
        _parts("joints gained", found.joints_gained),
        *_findings(was, now),
        _money(was, now),
    ]
    return tuple(filter(None, said))


def _size(change: object, sizes: Sizes) -> str:
    from scantling.piece.editing.effects import SizeChange

    assert isinstance(change, SizeChange)
    if change.kind is not Kind.LENGTH:
        return f"{change.name}: {change.before:g} → {change.after:g}"
    return f"{change.name}: {sizes.one(change.before)} → {sizes.one(change.after)}"


def _parts(what: str, names: tuple[str, ...] | list[str]) -> str:
    if not names:
        return ""
    shown = listed(list(names[:MANY]))
    more = f" and {len(names) - MANY} more" if len(names) > MANY else ""
    return f"{what}: {shown}{more}"


def _findings(was: Plan, now: Plan) -> list[str]:
    before, after = ({f.message for f in plan.must_fix} for plan in (was, now))
    fresh, mended = len(after - before), len(before - after)
    return [
        f"{fresh} more to fix" if fresh else "",
        f"{mended} mended" if mended else "",
    ]


def _money(was: Plan, now: Plan) -> str:
    before, after = was.build_plan.cost, now.build_plan.cost
    if abs(before.total - after.total) < 0.005:
        return ""
    return f"to spend: {money(before.total, before.currency)} → {money(after.total, after.currency)}"
