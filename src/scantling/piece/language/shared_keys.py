"""Keys and values that several tables share."""

from __future__ import annotations

from scantling.piece.language.kinds_of_value import (
    CONDITION,
    FACE,
    FORMULA,
    SPAN,
    TEXT,
    Either,
    Entries,
    Key,
)

NOTE = Key("note", TEXT, "free text")
WHEN = Key("when", CONDITION, "only when this holds")
ONLY = Key("only", FACE, "on this copy only: `left`")
AT_SPOT = Either(FORMULA, entries=Entries("spot"))
WAYS = ("down", "up", "right", "left", "back", "forward")
SPANS = (
    Key("wide", SPAN, "its span from left to right"),
    Key("deep", SPAN, "its span from front to back"),
    Key("high", SPAN, "its span from floor to top"),
)
