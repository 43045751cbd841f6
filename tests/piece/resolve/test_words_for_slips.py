# ruff: noqa: E501 - a slip and its answer, one a line
"""What a maker slips at, and the very words that answer: what is wrong, where, and what to write instead."""

import pytest

from scantling.errors import ReadError
from scantling.piece import read_piece_text, resolve

HEAD = "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\n"
SIDE = "  side: {wide: thick inward from left, deep: front to back, high: floor to top, copies: left and right}\n"
SHELF = "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9}\n"
CASE = HEAD + "parts:\n" + SIDE

# what slipped, the file, line:character and the words
# source: by hand; lines and characters counted in the file, the words agreed on
# fmt: off
SLIPS = [
    ("misspelt copy", CASE + "  shelf: {wide: between left side and right sdie, deep: front to back, high: thick up from 9}\n", '7:39: shelf, wide: no part is called "right sdie" (nearest: "right side")'),
    ("misspelt key in between", CASE + "  shelf: {wide: between lft side and right side, deep: front to back, high: thick up from 9}\n", '7:25: shelf, wide: no part is called "lft side" (nearest: "left side")'),
    ("misspelt in face", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from top of sied}\n", '7:99: shelf, high: no part is called "sied" (nearest: "side")'),
    ("unknown unit", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: 2 furlongs up from 9}\n", '7:80: "furlongs" was not expected here (known units: in, ft, mm, cm, m; deg; pcs; %; lb, oz, kg, g; F, C; a span is `A to B`, `between X and Y`, `S up from A`, `S centred on P`, `same as X`, or a size alone)'),
    ("unit cms", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: 2 cms up from 9}\n", '7:80: "cms" was not expected here (write `cm`; a span is `A to B`, `between X and Y`, `S up from A`, `S centred on P`, `same as X`, or a size alone)'),
    ("metre", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: 2 metres up from 9}\n", '7:80: "metres" was not expected here (write `m`; a span is `A to B`, `between X and Y`, `S up from A`, `S centred on P`, `same as X`, or a size alone)'),
    ("count is a length", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: {row: up, count: 3 in, every: 8}}\n", "7:120: shelf, copies: a count of copies wants a count, but this is a length (write a plain number, such as `8`)"),
    ("count is a half", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: {row: up, count: 2.5, every: 8}}\n", "7:120: shelf, copies: a count is a whole number from 1 to 5000, not 2.5 (write `2`)"),
    ("every is a count", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: {row: up, count: 3, every: 8 pcs}}\n", "7:130: shelf, copies, every: this wants a length, but this is a count (write a size, such as `3 1/2` or `38 mm`)"),
    ("no every", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: {row: up, count: 3}}\n", "7:103: shelf, copies: a row wants `count` and `every`, or `spread`"),
    ("row word", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: {row: upward, count: 3, every: 8}}\n", '7:109: `row` cannot be "upward" (nearest: "up"; known: right, left, back, forward, up, down)'),
    ("copies typo", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: left an right}\n", '7:103: shelf, copies: "left an right" is no way of copying (nearest: "left and right")'),
    ("copies 4", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, copies: 4}\n", '7:103: shelf, copies: "4" is no way of copying (write `{row: right, count: 4, every: ...}`, or `four corners`)'),
    ("centered", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick centered on middle}\n", '7:78: shelf, high: no size is called "thick centered on middle" (write `centred on`)'),
    ("above", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick above 9}\n", '7:78: shelf, high: no size is called "thick above 9" (write `up from`)'),
    ("from without direction", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick from 9}\n", "7:84: `from` wants a direction before it (write `3 right from left`, `3 up from bottom`)"),
    ("directions wrong axis", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick right from left}\n", "7:78: shelf, high: `right` does not run along high (along high write `up` or `down`)"),
    ("axis wrong face", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from left}\n", "7:92: shelf, high: this is a place along wide, but high wants one along high (along high the faces are bottom or top)"),
    ("plus for and", CASE + "  shelf: {wide: between left side + right side, deep: front to back, high: thick up from 9}\n", "7:35: `between` stands before two parts, with nothing added (for places write `right of X to left of Y - 1/8`)"),
    ("missing and", CASE + "  shelf: {wide: between left side right side, deep: front to back, high: thick up from 9}\n", "7:45: `and` is wanted at the end (write `between X and Y`)"),
    ("between with of", CASE + "  shelf: {wide: between right of left side and left of right side, deep: front to back, high: thick up from 9}\n", "7:31: `between` stands before two parts, with nothing added (for places write `right of X to left of Y - 1/8`)"),
    ("upper", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick down from upper}\n", '7:94: shelf, high: no size is called "upper" (write `top`)'),
    ("down from bottom", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from botom}\n", '7:92: shelf, high: no size is called "botom" (nearest: "bottom")'),
    ("ceiling word", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick down from ceiling}\n", '7:94: shelf, high: no size is called "ceiling" (write `top`)'),
    ("wrong way", CASE + "  shelf: {wide: right side to left side, deep: front to back, high: thick up from 9}\n", '7:17: shelf, wide: "right side" is a thing, not a size (say which of its faces: `left of right side` or `right of right side`, or write `between X and Y`)'),
    ("part not face", CASE + "  shelf: {wide: left side to right side, deep: front to back, high: thick up from 9}\n", '7:17: shelf, wide: "left side" is a thing, not a size (say which of its faces: `left of left side` or `right of left side`, or write `between X and Y`)'),
    ("part as size", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: shelf up from 9}\n", '7:78: shelf, high: "shelf" is a thing, not a size (say which of its faces: `top of shelf` or `bottom of shelf`, or write `between X and Y`)'),
    ("number alone", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: 3/4}\n", "7:78: shelf, high: this says how big, 3/4 in (19.1 mm), but not where (write `3 up from bottom`, `3 centred on middle`, or spread it in a row)"),
    ("decimal comma", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9,5}\n", "7:94: unknown key `5`: a decimal comma? (write 9.5)"),
    ("two numbers", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9 5}\n", "7:94: two numbers stand side by side: 9 and 5 (put + or - between them)"),
    ("dash name", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from leg-size}\n", '7:92: shelf, high: no size is called "leg-size" (known: broad, depth, height, thick, width)'),
    ("undefined size", HEAD + "sizes: {foot height: 3}\nparts:\n" + SIDE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from foot heigth}\n", '8:92: shelf, high: no size is called "foot heigth" (nearest: "foot height")'),
    ("size eq", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick = 3}\n", "7:84: `=` has no meaning in a phrase (compare with `>`, `<`, or `is` for choices and materials)"),
    ("key width", CASE + "  shelf: {deep: front to back, high: thick up from 9, width: left to right}\n", '7:55: "width" is no key of a part (nearest: "wide")'),
    ("key height", CASE + "  shelf: {wide: between left side and right side, deep: front to back, height: 3}\n", '7:72: "height" is no key of a part (nearest: "high")'),
    ("key material", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, material: wood}\n", '7:95: "material" is no key of a part (nearest: "of")'),
    ("of unknown", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, of: wod}\n", '7:99: shelf, of: no material is called "wod" (nearest: "wood")'),
    ("grain words", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, grain: long}\n", '7:102: `grain` cannot be "long" (known: wide, deep, high)'),
    ("grain horizontal", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, grain: horizontal}\n", '7:102: `grain` cannot be "horizontal" (known: wide, deep, high)'),
    ("joint typo", CASE + SHELF + "joints: [{join: shelf, to: side, with: dadoe}]\n", '8:40: joint: no joint is called "dadoe" (nearest: "dado")'),
    ("joint unknown", CASE + SHELF + "joints: [{join: shelf, to: side, with: biscuit}]\n", '8:40: joint: no joint is called "biscuit" (nearest: "biscuits")'),
    ("joint screw", CASE + SHELF + "joints: [{join: shelf, to: side, with: screw}]\n", '8:40: joint: no joint is called "screw" (nearest: "screws")'),
    ("joint part", CASE + SHELF + "joints: [{join: shelves, to: side, with: dado}]\n", '8:17: joint, join: no part is called "shelves" (nearest: "shelf")'),
    ("joint key depth", CASE + SHELF + "joints: [{join: shelf, to: side, with: dado, depth: 1/4}]\n", '8:46: "depth" is no key of a joint (nearest: "deep")'),
    ("joint string", CASE + SHELF + "joints: shelf to side with dado\n", '8:9: `joints` wants a list, not "shelf to side with dado" (write `- {key: phrase}` lines)'),
    ("joint no with", CASE + SHELF + "joints: [{join: shelf, to: side}]\n", "8:10: joint: nothing says how they are joined (add `with: dowels`, or `wants: [strong, hidden]`)"),
    ("tab", CASE + "	shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9}\n", "7:1: a tab stands here (use spaces)"),
    ("bare # ", CASE + SHELF + "joints: [{join: shelf, to: side, with: screws, size: #8 x 1 1/4}]\n", "8:54: a space and `#` begin a comment: what follows it in this line is lost (write the number without `#`, as in `8 x 1 1/4`)"),
    ("no units", "piece: x\noverall: {wide: 3, deep: 3, high: 3}\n", "1:1: the file does not say its unit (write `units: inches` or `units: mm`)"),
    ("units cm", "piece: small\nunits: cm\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, '2:8: "cm" is no unit of this language (write inches or mm)'),
    ("units inch", "piece: small\nunits: inch\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, '2:8: "inch" is no unit of this language (write inches or mm)'),
    ("overall missing high", "piece: small\nunits: inches\noverall: {wide: 24, deep: 12}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, "3:10: the piece does not say how high it is over all (write `overall: {wide: ..., deep: ..., high: ...}`; high is wanted here)"),
    ("no overall", "piece: small\nunits: inches\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, "1:1: the piece does not say how wide it is over all (write `overall: {wide: ..., deep: ..., high: ...}`; wide is wanted here)"),
    ("no material", "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nparts:\n" + SIDE, "5:3: side: nothing says what it is made of (add `materials: {wood: cherry 3/4}`)"),
    ("species", "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: chery 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, '4:19: wood: no wood or sheet is called "chery" (nearest: cherry, cedar)'),
    ("kit unknown", CASE + "  door: {kit: paneled door}\n", '7:15: no kit is called "paneled door" (nearest: "panel door"; known: back boards, box, drawer, dust frame, face frame, leg frame, lid, panel door, plain door, plinth, shelf, slats, top, tray)'),
    ("kit setting", CASE + "  door: {kit: panel door, frame: wood, panel: ply, stile widht: 3}\n", '7:52: door: the kit "panel door" has no setting "stile widht" (nearest: "stile width")'),
    ("kit needs", CASE + "  door: {kit: panel door, frame: wood}\n", '7:3: door, panel: door is not told what "panel" is, in kits/panel-door.yaml:5:34 (add `panel: ...` where the kit is used)'),
    ("kit choice", CASE + "  door: {kit: panel door, frame: wood, panel: ply, hung on: lefft}\n", '7:61: "hung on" does not offer "lefft" (nearest: "left")'),
    ("in unknown", CASE + "  shelf: {in: bay}\n", '7:15: shelf, in: no space is called "bay" (name it: `spaces: {bay: {wide: ..., deep: ..., high: ...}}`)'),
    ("split whole", HEAD + "spaces: {opening: {wide: between left side and right side, deep: front to back, high: bottom to top, split: {up: [rest, rest], leaving: {gap: 3/4}}}}\nparts:\n" + SIDE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from bottom of opening}\n", "8:92: shelf, high: which opening? there are 2: opening 1, opening 2 (opening is divided: say `opening 1`, or name a space for the whole and split another `in` it)"),
    ("split whole between", HEAD + "spaces: {opening: {wide: between left side and right side, deep: front to back, high: bottom to top, split: {up: [rest, rest], leaving: {gap: 3/4}}}}\nparts:\n" + SIDE + "  shelf: {wide: between left side and right side, deep: front to back, high: between opening and top}\n", "8:86: shelf, high: which opening? there are 2: opening 1, opening 2 (opening is divided: say `opening 1`, or name a space for the whole and split another `in` it)"),
    ("split sum", HEAD + "spaces: {opening: {wide: between left side and right side, deep: front to back, high: bottom to top, split: {up: [14, 14], leaving: {gap: 3/4}}}}\nparts:\n" + SIDE + "  shelf: {in: gap}\n", "5:115: opening, split: the openings and gaps add up to 28 3/4 in (730.3 mm) but there is 30 in (762 mm) (make one of them `rest`)"),
    ("split rest typo", HEAD + "spaces: {opening: {wide: between left side and right side, deep: front to back, high: bottom to top, split: {up: [14, remainder], leaving: {gap: 3/4}}}}\nparts:\n" + SIDE + "  shelf: {in: gap}\n", '5:119: gap, split: no size is called "remainder" (what is left over is `rest`)'),
    ("mirror", CASE + "  rail: {wide: left to right, deep: 1 back from front, high: 2 up from bottom, copies: {mirror: top and bottom}}\n", '7:97: rail, copies: "top and bottom" is no way of copying (only left and right, front and back are mirrored: write two parts, or `{row: up, count: 2, every: ...}`)'),
    ("copies top and bottom", CASE + "  rail: {wide: left to right, deep: 1 back from front, high: 2 up from bottom, copies: top and bottom}\n", '7:88: rail, copies: "top and bottom" is no way of copying (only left and right, front and back are mirrored: write two parts, or `{row: up, count: 2, every: ...}`)'),
    ("written right", CASE + "  r: {wide: thick left from right, deep: 1 back from front, high: 2 up from bottom, copies: left and right}\n", "7:3: r, wide: as written this is the right one of the pair; its copy comes out left (write the left one: swap left and right in its `wide`)"),
    ("inward no copies", CASE + "  r: {wide: thick inward from left, deep: 1 back from front, high: 2 up from bottom}\n", "7:13: r, wide: `inward` is for paired copies, and this is not one of a pair along wide (write `right` or `left`, or add `copies:`)"),
    ("lid swing", CASE + SHELF + "movements: {lid: {moves: lid, swings: up 90 deg}}\n", '8:39: a face is wanted before "up" (write `front toward top 100 deg`)'),
    ("swing no about", CASE + SHELF + "movements: {s: {moves: shelf, swings: front toward top 90 deg}}\n", "8:39: s: about which edge? (add `about: top back of board`)"),
    ("slide", CASE + SHELF + "movements: {s: {moves: shelf, slides: forward 12}}\n", "8:47: a move ends with its direction (write `12 forward`: right, left, back, forward, up or down)"),
    ("slide out", CASE + SHELF + "movements: {s: {moves: shelf, slides: 12 out}}\n", "8:42: a move ends with its direction (`out` is `forward` here; write `12 forward`: right, left, back, forward, up or down)"),
    ("load", CASE + SHELF + "loads: [{rest: 40, on: shelf}]\n", "8:16: load, rest: `rest` wants a mass, but 40 says no unit (write a mass, such as `40 lb` or `18 kg`)"),
    ("load on typo", CASE + SHELF + "loads: [{rest: 40 lb, on: shlef}]\n", '8:27: load: no part is called "shlef" (nearest: "shelf")'),
    ("load no kind", CASE + SHELF + "loads: [{weight: 40 lb, on: shelf}]\n", '8:10: "weight" is no key of a load (nearest: "rest")'),
    ("load pounds", CASE + SHELF + "loads: [{rest: 40 pounds, on: shelf}]\n", '8:19: "pounds" was not expected here (write `lb`)'),
    ("holds on", CASE + SHELF + "holds: {m: {wide: 3, deep: 3, high: 3, on: shelv}}\n", '8:44: m, on: no part is called "shelv" (nearest: "shelf")'),
    ("held size", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: height of machin up from 9}\nholds: {machine: {wide: 3, deep: 3, high: 3, on: side}}\n", '7:88: shelf, high: nothing is called "machin" (nearest: "machine")'),
    ("work edge", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, work: [{roundover: every edge, size: 1/8}]}\n", '7:103: "roundover" is no key of `work` (nearest: "round-over")'),
    ("work chamfer", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, work: [{chamfer: all edges, size: 1/8}]}\n", '7:112: an edge is wanted before "all" (write `every edge`, `bottom`, `top back of board`)'),
    ("dup part", CASE + SHELF + SHELF, "8:3: `shelf` is written twice (first in line 7; keep one)"),
    ("reserved", CASE + "  x to y: {wide: 1 right from left, deep: 1 back from front, high: 1 up from bottom}\n", '7:3: a name is wanted before "x" (`x` is a word of the language and may not stand in a name)'),
    ("when", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, when: rear = open}\n", "7:106: `=` has no meaning in a phrase (compare with `>`, `<`, or `is` for choices and materials)"),
    ("when2", HEAD + "choices: {rear: open or boards}\nparts:\n" + SIDE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, when: rear is opn}\n", '8:109: shelf, when: "rear" has no choice "opn" (nearest: "open")'),
    ("style range", "piece: small\nunits: inches\noverall: {wide: 24 between 20 and 30, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, '3:20: "between" was not expected here (a size that may be moved is `38 within 34 to 42`)'),
    ("range bad", "piece: small\nunits: inches\noverall: {wide: 24 within 30 to 20, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, "3:17: overall wide: the range runs backward (write the smaller end first)"),
    ("range out", "piece: small\nunits: inches\noverall: {wide: 24 within 30 to 40, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4, ply: birch plywood 1/4}\nparts:\n" + SIDE, "3:17: overall wide: this lies below its own range (write 30, or widen the range)"),
    ("percent", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 50 %}\n", "7:92: shelf, high: a place along high is wanted, but this is a ratio (write `height * 50 %`)"),
    ("half", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from half height}\n", '7:92: shelf, high: no size is called "half height" (write `height / 2`, or `middle` for the place)'),
    ("place half", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from top / 2}\n", "7:92: shelf, high: a place cannot be multiplied or divided (take a size: `width of X`, or one place less another)"),
    ("min", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: min(3 4) up from 9}\n", "7:78: `min(` is not known (write `A at most B`)"),
    ("grain alike", CASE + "  b: {wide: 5 right from left, deep: 5 back from front, high: thick up from bottom}\n", "7:3: b: wide and deep are too alike to tell which way the grain runs (add `grain: wide` or `grain: deep`)"),
    ("foot", CASE + "  leg: {wide: 2 right from left, deep: 2 back from front, high: floor to top, foot: {left: nine deg}}\n", '7:92: leg, lean left: no size is called "nine deg" (known: broad, depth, height, thick, width)'),
    ("section", CASE + "  leg: {wide: 2 right from left, deep: 2 back from front, high: floor to top, section: circle}\n", '7:88: `section` cannot be "circle" (known: square, round, octagon, oval, level)'),
    ("pose", CASE + SHELF + "movements: {s: {moves: shelf, slides: 12 forward}}\nposes: {open: [shelf out]}\n", '9:16: pose open: no movement is called "shelf out" (known: s)'),
    ("hardware joins", CASE + SHELF + "hardware: {hinge: {kind: butt hinge 2, joins: shelf}}\n", '8:47: `joins` wants a list, not "shelf" (write `[one, two]`)'),
    ("tilt", CASE + "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 9, tilt: 15 deg}\n", '7:101: a face is wanted before "15 deg" (write `front toward top 100 deg`)'),
    ("passes", CASE + SHELF + "room: {passes: 29}\n", "8:16: room, passes: `passes` wants two sizes (write `29 x 78`)"),
    ("finish", CASE + SHELF + "finish: {oil: two coats}\n", '8:15: a whole number of coats is wanted before "two" (write `3 coats`)'),
]


# fmt: on


def answer(text):
    with pytest.raises(ReadError) as caught:
        resolve(read_piece_text(text, "small.yaml"))
    return str(caught.value)


@pytest.mark.parametrize(("text", "words"), [slip[1:] for slip in SLIPS], ids=[slip[0] for slip in SLIPS])
def test_the_answer_to_a_slip(text, words):
    assert answer(text) == f"small.yaml:{words}"


def test_enough_slips_are_tried():
    assert len(SLIPS) >= 40
