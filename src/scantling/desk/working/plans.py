"""In the worker: the plan of what was asked, kept for the pages that look at it."""

from __future__ import annotations

import gc
from dataclasses import replace
from functools import lru_cache
from time import perf_counter
from typing import TYPE_CHECKING
from weakref import WeakValueDictionary

from scantling.errors import ScantlingError

if TYPE_CHECKING:
    from scantling.cutting.cut_plan import CutPlan
    from scantling.desk.working.asked import Asked
    from scantling.piece import BuildRecord, Document
    from scantling.plan import Plan
    from scantling.shop import Shop


SELDOM = (50_000, 20, 50)  # allocations and rounds between collections
_made: WeakValueDictionary[Asked, Plan] = WeakValueDictionary()


def plan_if_made(asked: Asked) -> Plan | None:
    """The plan, where it is at hand; it is not worked out for this."""
    return _made.get(asked)


def plan_of(asked: Asked) -> Plan:
    """The whole plan. Raises ReadError where the words cannot be worked out.

    What is not cut yet stays on the boards it was laid out on before anything was built, as far as it can.
    """
    return timed_plan_of(asked)[0]


@lru_cache(maxsize=12)
def timed_plan_of(asked: Asked) -> tuple[Plan, float]:
    """The same, and the seconds it took to work it out."""
    from scantling.plan import make_plan

    begun = perf_counter()
    plan = make_plan(document_of(asked), shop_of(asked), record_of(asked), before=_before_building(asked))
    _made[asked] = plan
    return plan, perf_counter() - begun


def _before_building(asked: Asked) -> CutPlan | None:
    if asked.record is None:
        return None
    try:
        return plan_of(replace(asked, record=None)).cut_plan
    except ScantlingError:
        return None


@lru_cache(maxsize=12)
def document_of(asked: Asked) -> Document:
    """The piece file as read, with all it follows. Raises ReadError."""
    from scantling.piece import read_piece_text
    from scantling.piece.language import reread

    document = read_piece_text(asked.text, asked.file, asked.folder)
    return reread(document, dict(asked.others)) if asked.others else document


def record_of(asked: Asked) -> BuildRecord:
    """What has been built. Raises ReadError."""
    from scantling.piece import read_record_text
    from scantling.piece.model import NO_RECORD

    return NO_RECORD if asked.record is None else read_record_text(asked.record, asked.record_file)


@lru_cache(maxsize=4)
def _shop_read(text: str, file: str) -> Shop:
    from scantling.shop import read_shop_text

    return read_shop_text(text, file)


def shop_of(asked: Asked) -> Shop:
    """The shop that is meant: the folder's own, or the trade's usual one."""
    from scantling.shop import default_shop

    return default_shop() if asked.shop is None else _shop_read(asked.shop, asked.shop_file)


def warm() -> None:
    """Bring in what planning needs, so that the first question waits for nothing else."""
    import scantling.plan  # noqa: F401

    gc.freeze()  # what is there now stays: looking through it again and again costs a tenth of a plan
    gc.set_threshold(*SELDOM)
