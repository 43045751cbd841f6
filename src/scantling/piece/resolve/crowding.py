"""Copies in a row that stand closer than they are big: refused before anything is made of them."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ResolveError
from scantling.piece.resolve.copies import row_of
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.touching import overlap
from scantling.piece.resolve.tree import PART, Thing
from scantling.quantity.kinds import LengthUnit


def refuse_rows_in_each_other(crowd: Crowd, unit: LengthUnit) -> None:
    """Each copy in a row must end before the next begins. Leaning and curved parts are left to the solids."""
    before: dict[tuple[int, ...], Standing] = {}
    for one in crowd.all:
        if not one.is_plain:
            continue
        for row, key in _rows(one):
            last = before.get(key)
            if last is not None and overlap(last, one) is not None:
                raise _too_close(row, last, one, unit)
            before[key] = one


def _rows(one: Standing) -> Iterator[tuple[Thing, tuple[int, ...]]]:
    """The rows a part stands in, by itself or in a group, each with what is the same all along it."""
    path = one.seen.path
    for at, copy in enumerate(path):
        if copy.row_number is not None and copy.thing.in_row:
            others = (id(other) for other in path[:at] + path[at + 1 :])
            yield copy.thing, (id(copy.thing), *others)


def _too_close(row: Thing, one: Standing, other: Standing, unit: LengthUnit) -> ResolveError:
    node = row.family.node.by_name["copies"].value
    axis = row_of(row).axis
    size = row.reach(axis).size if row.family.kind == PART else None
    over = f"than {shown(size, unit)}" if size is not None else "until they stand clear"
    return ResolveError(
        f"{one.name} and {other.name} stand in each other: they are only "
        f"{shown(abs(row_of(row).pitch()), unit)} from one to the next",
        row.scope.shown_place(node.place),
        f"make `every` longer {over}, or give the row another direction",
        (row.label, "copies"),
    )
