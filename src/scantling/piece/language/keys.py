"""The keys of a piece file: one table for each place, with what every key holds.

The reader, the reference page and the schema for editors all come from these tables.
"""

from __future__ import annotations

from scantling.piece.language.kinds_of_value import (
    BY,
    COATS,
    EDGE,
    FACE,
    FACES,
    FILE,
    FITTING,
    FORMULA,
    GLUE,
    MATERIAL,
    MOVE,
    NAME,
    NAMES,
    OPTIONS,
    SIZE,
    SPAN,
    TARGET,
    TEXT,
    TURN,
    Either,
    Entries,
    Key,
    ListOf,
    Named,
    OneOrMore,
    Table,
    Word,
)
from scantling.piece.language.part_keys import PART, PART_TABLES
from scantling.piece.language.record_keys import BOARD_CUT, MEASURED, RECORD
from scantling.piece.language.shared_keys import AT_SPOT, NOTE, ONLY, SPANS, WHEN

__all__ = ["BOARD_CUT", "MEASURED", "PART", "PIECE_TABLES", "RECORD", "TABLES", "TOP"]

TOP = Table(
    "top level",
    "what a piece file holds",
    (
        Key("piece", TEXT, "its name"),
        Key("style", TEXT, "the name of a style: a file other pieces follow"),
        Key("units", Word("unit", ("inches", "mm")), "of bare numbers in this file"),
        Key("follows", FILE, "a file to start from: a style, or another piece"),
        Key("leave out", NAMES, "names of the followed file that are dropped"),
        Key("overall", Entries("overall"), "size of the whole"),
        Key("sizes", Named(SIZE, "size"), "named sizes, angles, counts, shares"),
        Key("choices", Named(OPTIONS, "choice"), "named choices; the first is taken"),
        Key("materials", Named(MATERIAL, "material"), "names for timbers and sheets"),
        Key("details", Named(Entries("work"), "detail"), "named edge work, used by name"),
        Key("spaces", Named(Entries("space"), "space"), "named boxes with nothing in them"),
        Key("parts", Named(Entries("part"), "part"), "parts, groups and kits"),
        Key("joints", ListOf(Entries("joint")), "who is joined to whom, and how"),
        Key("hardware", Named(Entries("hardware"), "fitting"), "hinges, slides, knobs, bolts, straps"),
        Key("movements", Named(Entries("movement"), "movement"), "what swings, slides, turns or lifts"),
        Key("poses", Named(Either(NAME, ListOf(NAME), Named(FORMULA, "movement")), "pose"), "named states"),
        Key("holds", Named(Entries("hold"), "thing held"), "things it must hold"),
        Key("loads", ListOf(Entries("load")), "what it must bear"),
        Key("room", Entries("room"), "wall, doorway, skirting, studs, yearly air"),
        Key("finish", Entries("finish"), "coats, and where"),
        Key("kits", Named(FILE, "kit"), "names for the maker's own kit files"),
        NOTE,
    ),
)

OVERALL = Table(
    "overall",
    "the box of the whole piece",
    (
        Key("wide", SIZE, "left to right"),
        Key("deep", SIZE, "front to back"),
        Key("high", SIZE, "floor to top"),
        NOTE,
    ),
)

SPACE = Table(
    "space",
    "a named box with nothing in it",
    (
        *SPANS,
        Key("in", NAME, "the space it stands in"),
        Key("split", Entries("split"), "divided into openings and the gaps between"),
        WHEN,
        NOTE,
    ),
)

_SHARES = ListOf(FORMULA)
SPLIT = Table(
    "split",
    "how a space is divided: sizes in that direction, one of them `rest`",
    (
        *(
            Key(way, _SHARES, f"openings counted {way}")
            for way in ("down", "up", "right", "left", "back", "forward")
        ),
        Key("leaving", Named(FORMULA, "gap"), "the gaps between: a name and a size"),
        NOTE,
    ),
)

JOINT = Table(
    "joint",
    "who is joined to whom, and how",
    (
        Key("join", NAMES, "goes into, or is fastened to, the other"),
        Key("to", NAMES, "the other; `wall` and `floor` too"),
        Key("with", NAME, "the method, or a choice"),
        Key("wants", OneOrMore(TEXT), "qualities wanted; the tool ranks the methods"),
        Key("size", BY, "of the fastener, tenon or dowel: `3/8 x 2`"),
        Key("deep", FORMULA, "how far it goes in"),
        Key("count", FORMULA, "how many"),
        Key("every", FORMULA, "from one to the next"),
        Key("glue", GLUE, "`none`, `all`, `front 3`"),
        Key("gap", FORMULA, "left at the bottom"),
        Key("stand off", FORMULA, "left at the shoulder"),
        Key("fixed at", FACE, "the line that does not move"),
        Key("tails on", NAME, "the part that carries the tails"),
        Key("runs", FORMULA, "clearance for a part that slides"),
        Key("through", Word("yes", ("yes", "no")), "may show at an end"),
        Key("wedge", TEXT, "how a through tenon is wedged"),
        ONLY,
        WHEN,
        NOTE,
    ),
    needs=("join", "to"),
)

HARDWARE = Table(
    "hardware",
    "a named fitting",
    (
        Key("kind", FITTING, "what it is, and the size it is sold by"),
        Key("joins", ListOf(NAME), "the moving or first part, then the carrying or second"),
        Key("to", NAMES, "the part it sits on"),
        Key("under", NAMES, "the part it carries"),
        Key("count", FORMULA, "how many for each pair or part"),
        Key("length", FORMULA, "its length"),
        Key("width", FORMULA, "its width"),
        Key("thick", FORMULA, "its thickness"),
        Key("at", AT_SPOT, "where it sits"),
        Key("holes", Entries("pin holes"), "rows of holes for pins"),
        WHEN,
        NOTE,
    ),
)

PIN_HOLES = Table(
    "pin holes",
    "rows of holes for shelf pins",
    (
        Key("rows", ListOf(FORMULA), "places of the rows"),
        Key("from", FORMULA, "lowest hole"),
        Key("to", FORMULA, "highest hole"),
        Key("every", FORMULA, "from hole to hole"),
    ),
)

MOVEMENT = Table(
    "movement",
    "what moves, and how",
    (
        Key("moves", NAMES, "the parts or group that move; `all` of a kit"),
        Key("swings", TURN, "`front toward top 100 deg`"),
        Key("slides", MOVE, "`12 forward`"),
        Key("lifts", MOVE, "`2 up`"),
        Key("turns", FORMULA, "`90 deg` round its middle"),
        Key("about", EDGE, "the edge it swings about"),
        Key("on", NAME, "the hardware it runs on"),
        Key("after", NAMES, "movements done before it"),
        Key("rides on", NAME, "the movement that carries it"),
        WHEN,
        NOTE,
    ),
)

HOLD = Table(
    "hold",
    "a thing the piece must hold",
    (
        Key("wide", SPAN, "its width, in the middle of what carries it; or `16 right from left of tray + 1`"),
        Key("deep", SPAN, "its depth, in the middle; or `7 back from front of tray + 3`"),
        Key("high", FORMULA, "how tall it is"),
        Key("mass", FORMULA, "`18 lb`"),
        Key("on", NAMES, "what it stands on"),
        Key("clear", FORMULA, "space wanted round it"),
        WHEN,
        NOTE,
    ),
)

LOAD = Table(
    "load",
    "what the piece must bear",
    (
        Key("fill", NAMES, "spaces or parts to be filled"),
        Key("rest", FORMULA, "a mass resting: `40 lb`"),
        Key("sit", FORMULA, "a person sitting"),
        Key("stand", FORMULA, "a person standing"),
        Key("push", FORMULA, "a push: `30 lb`"),
        Key("with", TEXT, "what it is filled with: `books`"),
        Key("on", OneOrMore(TARGET), "the thing, or its face"),
        Key("toward", FACE, "which way a push goes"),
        Key("in", NAME, "the pose it acts in"),
        WHEN,
        NOTE,
    ),
)

ROOM = Table(
    "room",
    "where the piece will stand",
    (
        Key("against", FACES, "faces that stand against a wall"),
        Key("wide", FORMULA, "the room's width there"),
        Key("deep", FORMULA, "the room's depth there"),
        Key("ceiling", FORMULA, "height of the ceiling"),
        Key("passes", BY, "the doorway it must pass: `29 x 78`"),
        Key("skirting", BY, "thick x high"),
        Key("studs", FORMULA, "from stud to stud"),
        Key("first stud", FORMULA, "from the left of the piece"),
        Key("air", Entries("air"), "driest and dampest of the year"),
        NOTE,
    ),
)

AIR = Table(
    "air",
    "the air of a year",
    (
        Key("dry", FORMULA, "driest: `25 %`"),
        Key("damp", FORMULA, "dampest: `60 %`"),
        Key("at", FORMULA, "temperature: `70 F`"),
    ),
)

FINISH = Table(
    "finish",
    "a finish by its name, with how many coats",
    (Key("over", OneOrMore(TEXT), "`all`, `outside`, or parts"), NOTE),
    Named(COATS, "finish"),
)

PIECE_TABLES = (
    *(TOP, OVERALL, SPACE, SPLIT, *PART_TABLES),
    *(JOINT, HARDWARE, PIN_HOLES, MOVEMENT, HOLD, LOAD, ROOM, AIR, FINISH),
)
TABLES = {table.name: table for table in (*PIECE_TABLES, RECORD, MEASURED, BOARD_CUT)}
