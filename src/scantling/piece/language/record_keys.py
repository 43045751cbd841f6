"""The keys of a build record."""

from __future__ import annotations

from scantling.piece.language.kinds_of_value import (
    TEXT,
    Either,
    Entries,
    Key,
    ListOf,
    Named,
    OneOrMore,
    Phrase,
    Table,
    Word,
)
from scantling.piece.language.record_sizes import parse_blank_size, parse_offcut, parse_times
from scantling.piece.language.shared_keys import NOTE

_STOCK = Phrase("board or sheet", None, "W3")
_TIMES = Phrase("times", parse_times, "1")
_BLANK = Phrase("long x wide x thick", parse_blank_size, "29 1/8 x 2 1/4 x 7/8")
_OFFCUT = Phrase("offcut", parse_offcut, "31 x 4 1/2 at 62 x 0")

RECORD = Table(
    "build record",
    "what was measured, wished and done while building one piece",
    (
        Key("build", TEXT, "which one this is"),
        Key("units", Word("unit", ("inches", "mm")), "of bare numbers in this record"),
        Key(
            "boards",
            Named(Either(words=Word("board", ("leave", "cut")), entries=Entries("board cut")), "board"),
            "boards, sheets and sticks: `leave` for something else, or cut up, and what that gave",
        ),
        NOTE,
    ),
    Named(Entries("measured"), "part"),
)

MEASURED = Table(
    "measured",
    "one part as built, and what is wished of it",
    (
        Key("wide", TEXT, "measured left to right"),
        Key("deep", TEXT, "measured front to back"),
        Key("high", TEXT, "measured floor to top"),
        Key("cut", Word("cut", ("done",)), "it can no longer change"),
        Key("from", OneOrMore(_STOCK), "the board or sheet it is to come from, or those it may come from"),
        Key("spoiled", _TIMES, "how many times it was made and lost; it is planned again"),
        Key("grain", Word("grain", ("stays", "may turn")), "whether it may lie across a sheet"),
        NOTE,
    ),
)

BOARD_CUT = Table(
    "board cut",
    "what cutting up one board, sheet or stick gave",
    (
        Key("cut", Named(_BLANK, "blank"), "its blanks as cut: long x wide, and how thick to be milled"),
        Key("left", ListOf(_OFFCUT), "its offcuts: long x wide, and `at` how far from its end and edge"),
        NOTE,
    ),
)
