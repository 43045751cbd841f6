"""The keys of a piece file: one table for each place, with what every key holds.

The reader, the reference page and the schema for editors all come from these tables.
"""

from __future__ import annotations

from scantling.piece.language.kinds_of_value import (
    AXIS,
    BY,
    COATS,
    CONDITION,
    COUNTS,
    EDGE,
    FACE,
    FACES,
    FILE,
    FITTING,
    FORMULA,
    GLUE,
    LIMIT,
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

_NOTE = Key("note", TEXT, "free text")
_WHEN = Key("when", CONDITION, "only when this holds")
_ONLY = Key("only", FACE, "on this copy only: `left`")
_WORK = OneOrMore(Entries("work"))
_POINT = Either(list=ListOf(FORMULA), entries=Entries("curved point"))
_SPOT = Either(FORMULA, entries=Entries("spot"))

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
        _NOTE,
    ),
)

OVERALL = Table(
    "overall",
    "the box of the whole piece",
    (
        Key("wide", SIZE, "left to right"),
        Key("deep", SIZE, "front to back"),
        Key("high", SIZE, "floor to top"),
        _NOTE,
    ),
)

_SPANS = (
    Key("wide", SPAN, "its span from left to right"),
    Key("deep", SPAN, "its span from front to back"),
    Key("high", SPAN, "its span from floor to top"),
)

SPACE = Table(
    "space",
    "a named box with nothing in it",
    (
        *_SPANS,
        Key("in", NAME, "the space it stands in"),
        Key("split", Entries("split"), "divided into openings and the gaps between"),
        _WHEN,
        _NOTE,
    ),
)

_SHARES = ListOf(FORMULA)
_WAYS = ("down", "up", "right", "left", "back", "forward")
SPLIT = Table(
    "split",
    "how a space is divided: sizes in that direction, one of them `rest`",
    (
        *(
            Key(way, _SHARES, f"openings counted {way}")
            for way in ("down", "up", "right", "left", "back", "forward")
        ),
        Key("leaving", Named(FORMULA, "gap"), "the gaps between: a name and a size"),
        _NOTE,
    ),
)

_SECTIONS = ("square", "round", "octagon", "oval", "level")
_ROUNDS = Word("outline", ("round", "oval"))
_FACINGS = ("front", "left", "right", "back", "up")
PART = Table(
    "part",
    "a box given by three spans, then shaped; with `parts` a group, with `kit` filled from a kit",
    (
        Key("of", NAME, "its material; the first listed if not said"),
        *_SPANS,
        Key("grain", AXIS, "the way the grain runs; the longest if not said"),
        Key("rings", Word("rings", ("flat", "quarter", "rift")), "how the growth rings lie"),
        Key("show", FACES, "faces that are seen"),
        Key("built", Either(Word("built", ("one piece",)), entries=Entries("built")), "how it is glued up"),
        Key(
            "copies",
            Either(TEXT, entries=Entries("copies")),
            "`left and right`, `four corners`, a row, a ring",
        ),
        Key("foot", Entries("lean"), "how far, or how steep, its foot goes"),
        Key("head", Entries("lean"), "how far, or how steep, its head goes"),
        Key("tilt", TURN, "`top toward back 15 deg about bottom back`"),
        Key(
            "section",
            Word("section", ("square", "round", "octagon", "oval", "level")),
            "of a stick, along the grain",
        ),
        Key(
            "outline",
            Either(Word("outline", ("round", "oval")), entries=Entries("outline")),
            "of a board, its broad side",
        ),
        Key("taper", OneOrMore(Entries("taper")), "where it gets thinner"),
        Key("work", _WORK, "rabbets, grooves, chamfers, holes and other machining"),
        Key("in", NAME, "the space it stands in; one for each copy of it"),
        Key("parts", Named(Entries("part"), "part"), "makes it a group"),
        Key("kit", NAME, "filled from this kit; its other keys are the kit's settings"),
        Key(
            "facing",
            Word("facing", ("front", "left", "right", "back", "up")),
            "which way a group or kit looks",
        ),
        Key("shape file", FILE, "an outline drawing"),
        _WHEN,
        _NOTE,
    ),
)

_LEANS = ("left", "right", "front", "back", "inside", "outside")
LEAN = Table(
    "lean",
    "how far (a size) or how steep (an angle) an end goes, toward a face",
    tuple(
        Key(face, FORMULA, f"toward the {face}")
        for face in ("left", "right", "front", "back", "inside", "outside")
    ),
)

COPIES = Table(
    "copies",
    "copies in a row or a ring, or mirrored about a line",
    (
        Key(
            "row",
            Word("direction", ("right", "left", "back", "forward", "up", "down")),
            "which way the row runs",
        ),
        Key("count", FORMULA, "how many"),
        Key("every", FORMULA, "from one to the next"),
        Key("spread", SPAN, "from where to where"),
        Key("gap", LIMIT, "between neighbours; `at most` takes the fewest"),
        Key("ends", Word("ends", ("open", "closed")), "whether a gap stands at each end"),
        Key("ring", FORMULA, "how many round the middle"),
        Key("mirror", TEXT, "`left and right`, `front and back`, `four corners`"),
        Key("about", FORMULA, "the middle of this instead of my box"),
        _NOTE,
    ),
)

BUILT = Table(
    "built",
    "limits on how a part is glued up",
    (
        Key("layers", COUNTS, "how many layers"),
        Key("stacked", AXIS, "the way the layers lie on each other"),
        Key("staves", COUNTS, "how many staves: `3 to 6`"),
        Key("edges", NAME, "how staves meet: `glue`, `tongue`"),
        Key("glue", GLUE, "`none` where staves move freely"),
        Key("coopered", COUNTS, "staves round"),
        Key("wall", FORMULA, "how thick the staves round are"),
        Key("bricks", COUNTS, "bricks in a course"),
        Key("courses", COUNTS, "courses of bricks"),
        Key("bent", COUNTS, "bent layers"),
        _NOTE,
    ),
)

OUTLINE = Table(
    "outline",
    "the silhouette of a board, seen facing its broad side",
    (
        Key("corners", FORMULA, "radius of rounded corners"),
        Key("ring", FORMULA, "how thick the wall of a ring is"),
        Key("path", ListOf(_POINT), "points across and up from the lower left"),
        Key("seen from", FACE, "the side it is seen from"),
        _NOTE,
    ),
)

CURVED_POINT = Table(
    "curved point",
    "a point reached by a curve",
    (
        Key("to", ListOf(FORMULA), "the point: across and up"),
        Key("round", FORMULA, "bulges outward by this"),
        Key("hollow", FORMULA, "bulges inward by this"),
    ),
    needs=("to",),
)

TAPER = Table(
    "taper",
    "a part that gets thinner toward one end",
    (
        Key("to", FORMULA, "the size it ends at"),
        Key("faces", FACES, "the faces that are cut; all if not said"),
        Key("start", FORMULA, "where it begins"),
        Key("end", FACE, "the end that is thin; the bottom if not said"),
        _ONLY,
        _NOTE,
    ),
    needs=("to",),
)

WORK = Table(
    "work",
    "one piece of machining: its kind with where, then its sizes",
    (
        Key("rabbet", FACES, "along the edges of this face"),
        Key("groove", FACE, "in this face"),
        Key("chamfer", OneOrMore(EDGE), "on these edges"),
        Key("round-over", OneOrMore(EDGE), "on these edges"),
        Key("bevel", OneOrMore(EDGE), "on these edges"),
        Key("notch", Either(FACE, entries=Entries("block")), "a block taken out, by its three spans"),
        Key("hole", FORMULA, "its diameter"),
        Key("slot", BY, "long x wide"),
        Key("arch", FACE, "an arc cut into this edge"),
        Key("dish", FACE, "a hollow in this face"),
        Key("band", FACES, "a lipping on these faces"),
        Key("shelf pins", FACE, "rows of holes in this face"),
        Key("detail", NAME, "a named detail"),
        Key("size", BY, "across, or across x deep"),
        Key("wide", FORMULA, "width of a groove"),
        Key("deep", FORMULA, "depth from the planed face"),
        Key("angle", FORMULA, "of a bevel"),
        Key("rise", FORMULA, "of an arch, over its middle"),
        Key("rim", FORMULA, "the flat left round a dish"),
        Key("through", FACE, "the face a hole or slot goes through"),
        Key("at", _SPOT, "where: `{wide: right - 6, high: middle}`"),
        Key("along", AXIS, "the way a groove or slot runs"),
        Key("start", FORMULA, "where it begins"),
        Key("stop", FORMULA, "where it stops"),
        Key("leave", FACES, "edges left plain"),
        Key("thick", FORMULA, "of a lipping"),
        Key("of", TEXT, "material of a lipping"),
        Key("rows", ListOf(FORMULA), "places of the rows of pins"),
        Key("from", FORMULA, "lowest pin"),
        Key("to", FORMULA, "highest pin"),
        Key("every", FORMULA, "from pin to pin"),
        _ONLY,
        _WHEN,
        _NOTE,
    ),
)

BLOCK = Table("block", "a block by its spans; all across where not said", _SPANS)

SPOT = Table(
    "spot",
    "a point by its places",
    (
        Key("wide", FORMULA, "place from left to right"),
        Key("deep", FORMULA, "place from front to back"),
        Key("high", FORMULA, "place from floor to top"),
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
        _ONLY,
        _WHEN,
        _NOTE,
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
        Key("at", _SPOT, "where it sits"),
        Key("holes", Entries("pin holes"), "rows of holes for pins"),
        _WHEN,
        _NOTE,
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
        _WHEN,
        _NOTE,
    ),
)

HOLD = Table(
    "hold",
    "a thing the piece must hold",
    (
        Key("wide", FORMULA, "left to right"),
        Key("deep", FORMULA, "front to back"),
        Key("high", FORMULA, "how tall it is"),
        Key("mass", FORMULA, "`18 lb`"),
        Key("on", NAMES, "what it stands on"),
        Key("clear", FORMULA, "space wanted round it"),
        _WHEN,
        _NOTE,
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
        _WHEN,
        _NOTE,
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
        _NOTE,
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
    (Key("over", OneOrMore(TEXT), "`all`, `outside`, or parts"), _NOTE),
    Named(COATS, "finish"),
)

RECORD = Table(
    "build record",
    "what was measured while building one piece",
    (
        Key("build", TEXT, "which one this is"),
        Key("units", Word("unit", ("inches", "mm")), "of bare numbers in this record"),
        _NOTE,
    ),
    Named(Entries("measured"), "part"),
)

MEASURED = Table(
    "measured",
    "one part as built",
    (
        Key("wide", TEXT, "measured left to right"),
        Key("deep", TEXT, "measured front to back"),
        Key("high", TEXT, "measured floor to top"),
        Key("cut", Word("cut", ("done",)), "it can no longer change"),
        _NOTE,
    ),
)

PIECE_TABLES = (
    TOP,
    OVERALL,
    SPACE,
    SPLIT,
    PART,
    COPIES,
    LEAN,
    BUILT,
    OUTLINE,
    CURVED_POINT,
    TAPER,
    WORK,
    BLOCK,
    SPOT,
    JOINT,
    HARDWARE,
    PIN_HOLES,
    MOVEMENT,
    HOLD,
    LOAD,
    ROOM,
    AIR,
    FINISH,
)
TABLES = {table.name: table for table in (*PIECE_TABLES, RECORD, MEASURED)}
