"""In the worker: which boards a piece is cut from as it is planned now."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.desk.working.plans import plan_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked

Used = tuple[tuple[str, tuple[str, ...]], ...]


def stock_used(asked: Asked) -> Used:
    """Each board, sheet or stick that is cut, with the parts that come from it. Raises ReadError."""
    cuts = plan_of(asked).cut_plan
    parts = {blank.id: str(blank.part) for blank in cuts.blanks}
    return tuple(
        (layout.stock, tuple(dict.fromkeys(parts[placed.blank] for placed in layout.placed)))
        for layout in cuts.layouts
    )
