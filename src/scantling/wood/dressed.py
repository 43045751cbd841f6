"""Dressed softwood lumber by its nominal size."""

from __future__ import annotations

from functools import cache

from scantling.quantity.kinds import MM_PER_INCH
from scantling.wood.tables import table


def dressed_section(nominal: str) -> tuple[float, float] | None:
    """Thickness and width of dry dressed lumber, None for an unusual size. [mm]

    Source: PS 20, minimum dressed sizes, dry; `data/dressed.csv` says which are from memory.

    >>> dressed_section("2x4")
    (38.1, 88.9)
    """
    thickness, _, width = nominal.partition("x")
    sizes = _sizes()
    thick, broad = sizes.get(("thickness", thickness.strip())), sizes.get(("width", width.strip()))
    return None if thick is None or broad is None else (thick, broad)


def dressed_widths() -> tuple[str, ...]:
    """Nominal widths in the table, as they are written."""
    return tuple(nominal for kind, nominal in _sizes() if kind == "width")


@cache
def _sizes() -> dict[tuple[str, str], float]:
    return {(r["kind"], r["nominal"]): round(float(r["dry_in"]) * MM_PER_INCH, 6) for r in table("dressed")}
