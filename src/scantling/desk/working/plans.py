"""In the worker: the plan of what was asked, kept for the pages that look at it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.desk.working.asked import Asked
    from scantling.plan import Plan
    from scantling.shop import Shop


@lru_cache(maxsize=12)
def plan_of(asked: Asked) -> Plan:
    """The whole plan. Raises ReadError where the words cannot be worked out."""
    from scantling.piece import read_piece_text, read_record_text
    from scantling.piece.model import NO_RECORD
    from scantling.plan import make_plan

    document = read_piece_text(asked.text, asked.file, asked.folder)
    record = NO_RECORD if asked.record is None else read_record_text(asked.record, asked.record_file)
    return make_plan(document, shop_of(asked), record)


def shop_of(asked: Asked) -> Shop:
    """The shop that is meant: the folder's own, or the trade's usual one."""
    from scantling.shop import default_shop, read_shop_text

    return default_shop() if asked.shop is None else read_shop_text(asked.shop, asked.shop_file)


def warm() -> None:
    """Bring in what planning needs, so that the first question waits for nothing else."""
    import scantling.plan  # noqa: F401
