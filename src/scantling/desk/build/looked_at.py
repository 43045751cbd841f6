"""In the worker: a plan with its item numbers, words and pictures, kept for the pages that look at it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from scantling.desk.working.plans import plan_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.packet.context import Context


@lru_cache(maxsize=4)
def context(asked: Asked) -> Context:
    """What every view of the build looks things up in. Raises ReadError where it cannot be planned."""
    from scantling.packet.context import context_of

    return context_of(plan_of(asked))
