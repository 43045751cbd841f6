"""Does the piece file say all it should? What resolve and the joint layout noticed, as findings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.piece.model import Notice

_WORTH_A_LOOK = frozenset({"touch without joint", "gap left by a fixed part", "sheet part of bare number"})


def carried_notices(examined: Examined) -> Iterator[Finding]:
    """Every notice once: those that stop a build as MUST, the rest by their kind."""
    told: set[tuple[str, str]] = set()
    for notice in examined.piece.notices + examined.machined.notices:
        if (notice.code, notice.message) not in told:
            told.add((notice.code, notice.message))
            yield _finding(notice)


def _finding(notice: Notice) -> Finding:
    carried = rule(_rule_code(notice)).found(
        notice.message,
        notice.parts,
        notice.number,
        mend=Mend(notice.remedy) if notice.remedy else None,
        place=notice.place,
    )
    return replace(carried, code=notice.code)


def _rule_code(notice: Notice) -> str:
    if notice.must:
        return "mend as read"
    return "look at as read" if notice.code in _WORTH_A_LOOK else "as read"
