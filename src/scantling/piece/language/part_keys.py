"""The keys of a part: how its box is shaped, repeated, glued up and machined."""

from __future__ import annotations

from scantling.piece.language.kinds_of_value import (
    AXIS,
    BY,
    COUNTS,
    EDGE,
    FACE,
    FACES,
    FILE,
    FORMULA,
    GLUE,
    LIMIT,
    NAME,
    OF_MATERIAL,
    SPAN,
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
from scantling.piece.language.shared_keys import AT_SPOT, NOTE, ONLY, SPANS, WHEN

_WORK = OneOrMore(Entries("work"))
_SECTIONS = ("square", "round", "octagon", "oval", "level")
_ROUNDS = Word("outline", ("round", "oval"))
_FACINGS = ("front", "left", "right", "back", "up")
PART = Table(
    "part",
    "a box given by three spans, then shaped; with `parts` a group, with `kit` filled from a kit",
    (
        Key("of", OF_MATERIAL, "its material, by name or as it is bought; the first listed if not said"),
        *SPANS,
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
        WHEN,
        NOTE,
    ),
)

KEYS_OF_A_USE = frozenset(
    ("kit", "in", "wide", "deep", "high", "facing", "copies", "tilt", "when", "note")
)  # beside `kit`; all others are the kit's settings

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
        NOTE,
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
        NOTE,
    ),
)

_POINT = Either(list=ListOf(FORMULA), entries=Entries("curved point"))
OUTLINE = Table(
    "outline",
    "the silhouette of a board, seen facing its broad side",
    (
        Key("corners", FORMULA, "radius of rounded corners"),
        Key("ring", FORMULA, "how thick the wall of a ring is"),
        Key("path", ListOf(_POINT), "points across and up from the lower left"),
        Key("seen from", FACE, "the side it is seen from"),
        NOTE,
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
        ONLY,
        NOTE,
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
        Key("at", AT_SPOT, "where: `{wide: right - 6, high: middle}`"),
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
        ONLY,
        WHEN,
        NOTE,
    ),
)

BLOCK = Table("block", "a block by its spans; all across where not said", SPANS)

SPOT = Table(
    "spot",
    "a point by its places",
    (
        Key("wide", FORMULA, "place from left to right"),
        Key("deep", FORMULA, "place from front to back"),
        Key("high", FORMULA, "place from floor to top"),
    ),
)

PART_TABLES = (PART, LEAN, COPIES, BUILT, OUTLINE, CURVED_POINT, TAPER, WORK, BLOCK, SPOT)
