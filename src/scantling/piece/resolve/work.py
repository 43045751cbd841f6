"""Machining a maker asks for, worked out in the frame of the definition."""

from __future__ import annotations

from scantling.piece.model import Work
from scantling.piece.resolve.tree import Thing


def work_of(thing: Thing, words: tuple[str, ...]) -> tuple[Work, ...]:
    return ()
