# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Hard cases of the language, each in the smallest piece that has it."""

import math

import pytest

from scantling.errors import ResolveError
from scantling.piece import read_piece, read_piece_text, resolve
from scantling.piece.model import Axis, Face

LEANING = """parts:
  leg: {wide: 1 centred on middle - 8, deep: 1 centred on middle - 4, high: floor to top, foot: {left: 2, front: 1}, copies: four corners}
"""


def test_a_flat_apron_between_legs_that_lean_both_ways(small, inches):
    # source: by hand; legs 30 high; at 25 up 5/30 of the lean is gone from the top: 1/3 left and 1/6 front.
    # square stick turned the shortest way: unit direction (2, 1, 30)/sqrt(905); half a width is
    # 0.5 / (1 - a²/(1 + c)), a = 2/30.0832, c = 30/30.0832
    apron = small(
        LEANING
        + "  apron: {wide: between left leg and right leg, deep: thick centred on middle of front leg, high: 2 centred on 25, copies: front and back}\n"
    ).part("front apron")
    long = math.sqrt(905)
    half = 0.5 / (1 - (2 / long) ** 2 / (1 + 30 / long))
    assert inches(apron.length) == (round(2 * (8 + 1 / 3 - half), 4),)
    assert inches(apron.box.low[1]) == (round(6 - 4 - 1 / 6 - 0.375, 4),)


def test_faces_outside_a_part_say_where_they_are_read(small, inches):
    piece = small(LEANING + "sizes: {clear: right of left leg at 10 - left of left leg at 10}\n")
    # source: by hand; level width of the leaning square stick, as above
    long = math.sqrt(905)
    assert inches(piece.size("clear").value) == (round(1 / (1 - (2 / long) ** 2 / (1 + 30 / long)), 4),)
    with pytest.raises(ResolveError, match="leans, tapers or curves: say where its face is read"):
        small(LEANING + "sizes: {clear: right of left leg - left of left leg}\n")


def test_a_head_leans_too(small):
    text = "parts: {post: {wide: 1 right from left + 3, deep: 1 back from front, high: floor to top, head: {right: 10 deg}}}\n"
    lean = small(text).part("post").shape.lean
    # source: by hand; 30 x tan 10 = 5.2898
    assert (lean.end, round(lean.shift[0] / 25.4, 4), lean.shift[1]) == (Face.TOP, 5.2898, 0)


def test_a_lean_inward_goes_by_the_side(small):
    text = "parts: {post: {wide: 1 right from left, deep: front to back, high: floor to top, grain: high, foot: {outside: 1}, copies: left and right}}\n"
    piece = small(text)
    assert piece.part("left post").shape.lean.shift[0] == -25.4
    assert piece.part("right post").shape.lean.shift[0] == pytest.approx(25.4)


def test_a_corner_leg_leans_outside_both_ways(small):
    text = "parts: {leg: {wide: 1 right from left + 4, deep: 1 back from front + 3, high: floor to top, foot: {outside: 2}, copies: {mirror: four corners}}}\n"
    piece = small(text)
    assert piece.part("left front leg").shape.lean.shift == pytest.approx((-50.8, -50.8))
    assert piece.part("right back leg").shape.lean.shift == pytest.approx((50.8, 50.8))


def test_a_tapered_face_is_read_where_the_rail_is(small, inches):
    # source: by hand; 2 wide above 20, 1 at the floor: at 5 it is 1 + 5/20 = 1 1/4, cut on the inside only
    text = """parts:
  leg: {wide: 2 inward from left, deep: 2 back from front, high: bottom to top, taper: {to: 1, faces: inside, start: 20}, copies: left and right}
  low rail: {wide: between left leg and right leg, deep: thick back from front, high: 2 centred on 5}
  top rail: {wide: between left leg and right leg, deep: thick back from front, high: 2 centred on 25}
"""
    piece = small(text)
    assert inches(piece.part("low rail").length, piece.part("top rail").length) == (21.5, 20.0)


def test_the_inner_wall_of_a_ring(small, inches):
    # source: by hand; a ring 20 across, wall 1: at 3 off the middle its inner wall stands sqrt(9² - 3²) = 8.4853
    head = "piece: p\nunits: inches\noverall: {wide: 24, deep: 24, high: 30}\nmaterials: {wood: cherry 3/4}\n"
    text = """parts:
  apron: {wide: 20 centred on middle, deep: 20 centred on middle, high: 3 down from top, outline: {ring: 1}}
  bearer: {wide: inside of apron to inside of apron, deep: 2 centred on middle + 3, high: same as apron}
  middle bearer: {wide: inside of apron to inside of apron, deep: 2 centred on middle - 3, high: 2 down from top}
joints: [{join: [bearer, middle bearer], to: apron, with: dowels}]
"""
    piece = small(text, head=head)
    assert inches(piece.part("bearer").length) == (round(2 * math.sqrt(72), 4),)
    assert len(piece.joints) == 2
    assert piece.joints[0].area is None


def test_a_round_board_is_read_at_the_middle_of_the_part(small, inches):
    head = "piece: p\nunits: inches\noverall: {wide: 20, deep: 20, high: 30}\nmaterials: {wood: cherry 3/4}\n"
    text = """parts:
  top: {wide: left to right, deep: front to back, high: thick down from top, outline: round, grain: wide}
  batten: {wide: left of top to right of top, deep: 2 centred on middle + 6, high: thick down from bottom of top}
"""
    # source: by hand; chord at 6 off the middle of radius 10 is 2 x 8
    assert inches(small(text, head=head).part("batten").length) == (16.0,)


def test_mitre_and_rabbet_are_drawn_alike(example):
    # source: exact; mitre to rabbet changes no visible size
    mitre, rabbet = example("sliding-lid-box"), example("sliding-lid-box", corners="rabbet")
    assert [p.box for p in mitre.parts] == [p.box for p in rabbet.parts]
    assert {j.method for j in mitre.joints} - {j.method for j in rabbet.joints} == {"splined mitre"}


def test_a_breadboard_end(small):
    text = """parts:
  board: {wide: left + 3 to right - 3, deep: front to back, high: thick down from top, grain: wide}
  end: {wide: 3 right from left, deep: front to back, high: same as board, copies: left and right}
joints: [{join: board, to: end, with: tongue, glue: middle 3}]
"""
    joints = small(text).joints
    assert [(j.second, j.settings.glue.where) for j in joints] == [
        ("left end", "middle"),
        ("right end", "middle"),
    ]


def test_a_floating_frame_is_drawn_touching(example):
    joint = next(
        j
        for j in example("chest-of-drawers").joints
        if j.first == "frame 2 left runner" and "back" in j.second
    )
    assert joint.settings.stand_off == 3.175
    assert joint.settings.glue.extent == "none"


def test_each_file_keeps_its_own_unit(tmp_path):
    (tmp_path / "old.yaml").write_text(
        "piece: old\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\nsizes: {reach: 2}\nparts:\n  a: {wide: reach right from left, deep: front to back, high: bottom to top, grain: high}\n"
    )
    (tmp_path / "new.yaml").write_text(
        "piece: new\nunits: mm\nfollows: old.yaml\noverall: {deep: 300}\nparts:\n  b: {wide: 50 left from right, deep: front to back, high: bottom to top, grain: high}\n"
    )
    piece = resolve(read_piece(tmp_path / "new.yaml"))
    assert piece.overall.high == pytest.approx((609.6, 300, 762))
    assert piece.part("a").box.size(Axis.WIDE) == pytest.approx(50.8)
    assert piece.part("b").box.size(Axis.WIDE) == pytest.approx(50)
    assert piece.part("a").box.size(Axis.HIGH) == pytest.approx(762)


def test_a_kit_in_inches_in_a_piece_in_mm():
    text = "piece: p\nunits: mm\noverall: {wide: 600, deep: 400, high: 200}\nmaterials: {wood: cherry 19}\nspaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\nparts: {d: {kit: drawer, in: place, box: wood, front: wood, face: 20}}\n"
    piece = resolve(read_piece_text(text, "p.yaml"))
    assert piece.part("d front").box.size(Axis.DEEP) == pytest.approx(20)
    # its own 1/16 in at the side; the sides as thick as the cherry
    assert piece.part("d left side").box.low[0] == pytest.approx(1.5875)
    assert piece.part("d left side").box.size(Axis.WIDE) == pytest.approx(19)


def test_an_error_in_a_kit_names_the_use(small):
    text = "spaces: {place: {wide: left to right, deep: front to back, high: 1/4 up from bottom}}\nparts: {chest drawer: {kit: drawer, in: place, box: wood, front: wood}}\n"
    with pytest.raises(ResolveError) as caught:
        small(text)
    # source: by hand, counted in the file; the maker's line, though the phrase stands in the kit's
    assert (caught.value.place.file, caught.value.place.line, caught.value.place.character) == (
        "small.yaml",
        6,
        9,
    )
    assert caught.value.chain[0].startswith("chest drawer ")
    assert ", in kits/drawer.yaml:" in caught.value.message
    assert "make the space bigger" in caught.value.remedy


def test_what_a_kit_makes_is_placed_at_its_use(small):
    text = "spaces: {place: {wide: left to right, deep: front to back, high: 12 down from top}}\nparts:\n  lid: {kit: lid, in: place, board: wood, batten: wood, opens: 90 deg}\n  door: {kit: panel door, in: place, frame: wood, panel: wood}\n"
    piece = small(text)
    # source: by hand, counted in the file
    assert {str(piece.part(name).place) for name in ("lid board", "lid left batten")} == {"small.yaml:7:3"}
    assert {str(j.place) for j in piece.joints if j.first.startswith("lid")} == {"small.yaml:7:3"}
    assert [(m.name, str(m.place), m.setting) for m in piece.movements] == [
        ("lid", "small.yaml:7:3", "opens"),
        ("door", "small.yaml:8:3", "opens"),
    ]
    assert {str(c.place) for c in piece.contacts} == {"small.yaml:7:3", "small.yaml:8:3"}


def test_a_makers_own_kit_keeps_its_places(tmp_path):
    (tmp_path / "rack.yaml").write_text(
        "piece: rack\nunits: inches\nmaterials: {board: given}\nparts:\n  board: {of: board, wide: left to right, deep: front to back, high: thick up from bottom}\n"
    )
    (tmp_path / "mine.yaml").write_text(
        "piece: mine\nunits: inches\noverall: {wide: 20, deep: 10, high: 30}\nmaterials: {wood: cherry 3/4}\nkits: {rack: rack.yaml}\nspaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\nparts: {it: {kit: rack, in: place, board: wood}}\n"
    )
    piece = resolve(read_piece(tmp_path / "mine.yaml"))
    assert str(piece.part("it board").place).endswith("rack.yaml:5:3")


def test_two_kits_each_with_a_movement(small):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: bottom to top, split: {up: [10, rest]}}}
parts: {drawer: {kit: drawer, in: place, box: wood, front: wood}}
poses: {both out: [drawer 1, drawer 2]}
"""
    piece = small(text)
    assert [m.name for m in piece.movements] == ["drawer 1", "drawer 2"]
    assert piece.poses[1].steps[1].movement == "drawer 2"


def test_a_pieces_own_movement_wins_over_the_kits(small):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}
parts: {drawer: {kit: drawer, in: place, box: wood, front: wood}}
movements: {drawer: {moves: drawer, slides: 3 forward}}
"""
    (movement,) = small(text).movements
    assert round(movement.motion.distance / 25.4, 4) == 3


def test_what_is_left_to_the_tool_is_said_so(small):
    head = "piece: p\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: any of cherry 3/4 or walnut 3/4}\nchoices: {rail joint: any of tenon or dowels, hand: left or right}\n"
    piece = small(
        "parts: {a: {wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}}\n",
        head=head,
    )
    assert [(c.name, c.taken, c.free) for c in piece.choices] == [
        ("rail joint", "tenon", True),
        ("hand", "left", False),
    ]
    assert piece.materials[0].free
    assert piece.materials[0].alternatives == ("cherry 3/4", "walnut 3/4")


def test_a_group_in_a_copied_space_stands_once_in_each(small, inches):
    text = """spaces: {bay: {wide: left to right, deep: front to back, high: bottom to top, split: {right: [rest, rest, rest]}}}
parts:
  unit:
    in: bay
    parts:
      base: {wide: left to right, deep: front to back, high: thick up from bottom, grain: deep}
      post: {wide: 1 centred on middle, deep: 1 centred on middle, high: top of base to top}
joints: [{join: post, to: base, with: tenon}]
"""
    piece = small(text)
    assert [p.name for p in piece.parts][:3] == ["unit 1 base", "unit 1 post", "unit 2 base"]
    # source: by hand; bays of 8; the third runs 16 to 24, its middle 20
    assert inches(piece.part("unit 3 post").box.low[0]) == (19.5,)
    assert [(j.first, j.second) for j in piece.joints] == [
        (f"unit {n} post", f"unit {n} base") for n in (1, 2, 3)
    ]


def test_a_tilted_group_moves_as_one(small):
    text = """parts:
  back:
    tilt: top toward back 15 deg about bottom back
    parts:
      post: {wide: 1 inward from left, deep: 1 back from front, high: bottom to top, copies: left and right}
      rail: {wide: between left post and right post, deep: 1 back from front, high: 2 down from top}
joints: [{join: rail, to: post, with: tenon}]
"""
    piece = small(text)
    assert len({p.placement for p in piece.parts}) == 1
    assert len(piece.joints) == 2
    assert piece.joints[0].first_face is Face.LEFT


def test_a_pair_that_is_tilted_is_mirrored_after(small):
    text = "parts: {arm: {wide: 1 right from left + 4, deep: front to back, high: 20 up from bottom, grain: high, tilt: top toward left 10 deg about bottom left, copies: left and right}}\n"
    piece = small(text)
    left, right = piece.part("left arm"), piece.part("right arm")
    top_left = left.placement.point((left.box.low[0], 0.0, left.box.high[2]))
    top_right = right.placement.point((right.box.high[0], 0.0, right.box.high[2]))
    # source: by hand; 4 - 20 sin 10 = 0.5270 and 24 less that; 20 cos 10 = 19.6962 high
    assert [round(x / 25.4, 4) for x in top_left] == [0.527, 0, 19.6962]
    assert [round(x / 25.4, 4) for x in top_right] == [23.473, 0, 19.6962]


def test_pieces_with_too_many_copies_are_refused(small):
    text = "parts: {a: {wide: 1 right from left, deep: front to back, high: bottom to top, grain: high, copies: {row: right, count: 9000, every: 1}}}\n"
    with pytest.raises(ResolveError, match="whole number from 1 to 5000"):
        small(text)


def test_deep_nesting_of_groups_resolves(small):
    inner = "{wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}"
    for n in range(6):
        inner = f"{{parts: {{g{n}: {inner}}}}}"
    assert len(small(f"parts: {{all in: {inner}}}\n").parts) == 1


CURVED = """parts:
  board: {wide: 8 right from left, deep: thick back from front, high: 12 up from bottom, grain: high, outline: OUTLINE}
  peg: {wide: right of board to right, deep: thick back from front, high: 2 centred on AT}
"""


@pytest.mark.parametrize(
    ("outline", "at", "face"),
    [
        # source: by hand; a triangle 8 wide at the floor, a point at 12: at 3 it is 6 wide
        ("{path: [[0, 0], [8, 0], [0, 12]]}", 3, 6),
        # the same seen from behind: across runs left, so the slope is on the left and the right face stays
        ("{seen from: back, path: [[0, 0], [8, 0], [0, 12]]}", 3, 8),
        # the right side bulges 1 past its chord from (7, 0) to (7, 12): at mid height 8
        ("{path: [[0, 0], [7, 0], {to: [7, 12], round: 1}, [0, 12]]}", 6, 8),
        # hollow by 1: 7 there
        ("{path: [[0, 0], [8, 0], {to: [8, 12], hollow: 1}, [0, 12]]}", 6, 7),
        # corners of 4: at 2 up the corner stands back 4 - sqrt(16 - 4) = 0.5359
        ("{corners: 4}", 2, 8 - (4 - math.sqrt(12))),
        ("{corners: 4}", 6, 8),
        # an oval 8 x 12: at 9 up, 4 x sqrt(1 - 1/4) beyond the middle
        ("oval", 9, 4 + 4 * math.sqrt(0.75)),
    ],
)
def test_a_curved_edge_is_read_where_the_part_is(small, outline, at, face):
    peg = small(CURVED.replace("OUTLINE", outline).replace("AT", str(at))).part("peg")
    assert peg.box.low[0] / 25.4 == pytest.approx(face, abs=0.01)


def test_a_path_keeps_its_form_through_every_image(small):
    # source: by hand; a board with one corner cut off at its right front, mirrored and laid facing up
    text = """spaces: {place: {wide: left to right, deep: front to back, high: 6 up from bottom}}
parts:
  unit:
    in: place
    facing: up
    parts:
      board: {wide: 8 right from left, deep: thick back from front, high: 3 up from bottom, grain: wide, outline: {path: [[0, 0], [6, 0], [8, 3], [0, 3]]}, copies: left and right}
"""
    piece = small(text)
    left = piece.part("unit left board").shape.outline
    right = piece.part("unit right board").shape.outline
    assert (left.seen_from, right.seen_from) == (Face.TOP, Face.TOP)
    inch = [(round(p.across / 25.4, 4), round(p.up / 25.4, 4)) for p in left.path]
    assert sorted(inch) == [(0, 0), (0, 3), (6, 0), (8, 3)]
    mirrored = [(round(p.across / 25.4, 4), round(p.up / 25.4, 4)) for p in right.path]
    assert sorted(mirrored) == [(0, 3), (2, 0), (8, 0), (8, 3)]


@pytest.mark.parametrize("start", ["floor", "bottom", "top + 1"])
def test_a_taper_begins_on_the_part(small, start):
    text = "parts: {leg: {wide: 2 right from left, deep: 2 back from front, high: floor to 20, taper: {to: 1, start: START}}}\n"
    with pytest.raises(ResolveError, match="begins outside the part"):
        small(text.replace("START", start))


def test_a_leaning_part_is_not_laid_flat(small):
    text = "spaces: {place: {wide: left to right, deep: front to back, high: 6 up from bottom}}\nparts: {g: {in: place, facing: up, parts: {post: {wide: 1 right from left, deep: 1 back from front, high: bottom to top, foot: {left: 1}}}}}\n"
    with pytest.raises(ResolveError, match="a leaning part cannot be laid on its side"):
        small(text)
