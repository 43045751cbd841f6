# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Copies, spaces, groups and what names mean among them."""

import pytest

from scantling.errors import ResolveError
from scantling.piece.model import Axis, Face

LEG = "  leg: {wide: 2 inward from left, deep: 2 inward from front, high: bottom to top, copies: four corners}\n"
PAIR = "  side: {wide: thick inward from left, deep: front to back, high: bottom to top, grain: high, copies: left and right}\n"


def lows(piece, *names):
    return [tuple(round(x / 25.4, 4) for x in piece.part(n).box.low) for n in names]


def test_four_corners(small):
    piece = small("parts:\n" + LEG)
    names = [part.name for part in piece.parts]
    assert names == ["left front leg", "right front leg", "left back leg", "right back leg"]
    # source: by hand; 24 - 2 = 22 and 12 - 2 = 10
    assert lows(piece, *names) == [(0, 0, 0), (22, 0, 0), (0, 10, 0), (22, 10, 0)]
    assert [part.mirrored for part in piece.parts] == [False, True, True, False]


def test_own_side_is_meant(small):
    piece = small(
        "parts:\n"
        + LEG
        + "  panel: {wide: thick inward from outside of leg, deep: between front leg and back leg,"
        " high: bottom to top, grain: high, copies: left and right}\n"
    )
    # source: by hand; flush with the outside of the legs on both hands
    assert lows(piece, "left panel", "right panel") == [(0, 2, 0), (23.25, 2, 0)]
    assert {(c.part, c.other) for c in piece.contacts} == {
        (f"{s} panel", f"{s} {e} leg") for s in ("left", "right") for e in ("front", "back")
    }


def test_which_leg(small):
    text = (
        "parts:\n"
        + LEG
        + "  rail: {wide: left to right of leg, deep: 1 back from front + 3, high: 4 up from bottom}\n"
    )
    with pytest.raises(ResolveError, match="which leg\\? there are 4: left front leg, right front leg"):
        small(text)


def test_many_that_agree_are_one(small, inches):
    piece = small(
        "parts:\n"
        + LEG.replace("to top,", "to 20,")
        + "  top: {wide: left to right, deep: front to back, high: thick up from top of leg, grain: wide}\n"
    )
    assert inches(piece.part("top").box.low[2]) == (20.0,)


def test_words_may_stand_in_any_order(small):
    text = (
        "parts:\n"
        + LEG
        + "  rail: {wide: between leg front left and front right leg, deep: 1 back from front, high: 4 up from bottom}\n"
    )
    assert lows(small(text), "rail") == [(2, 0, 0)]


def test_a_key_is_not_part_of_another(small):
    text = "parts:\n  leg cleat: {wide: 1 right from left, deep: front to back, high: 3 up from bottom}\n  a: {wide: right of leg to right, deep: front to back, high: 1 up from bottom}\n"
    with pytest.raises(ResolveError, match='no part is called "leg"'):
        small(text)


def test_clash_of_names(small):
    text = "parts:\n  rail: {wide: left to right, deep: 1 back from front, high: 2 up from bottom, copies: front and back}\n  back rail: {wide: left to right, deep: 1 forward from back - 3, high: 2 up from bottom}\n"
    with pytest.raises(ResolveError) as caught:
        small(text)
    assert '"back rail" could also be a copy of "rail"' in str(caught.value)
    assert caught.value.place.line == 7


def test_a_size_and_a_part_may_not_share_a_name(small):
    with pytest.raises(ResolveError, match='a size and a part are both called "leg"'):
        small("sizes: {leg: 3}\nparts:\n" + LEG)


def test_written_for_the_wrong_hand(small):
    text = "parts:\n  side: {wide: thick left from right, deep: front to back, high: bottom to top, grain: high, copies: left and right}\n"
    with pytest.raises(ResolveError, match="as written this is the right one"):
        small(text)


def test_mirror_about_another_middle(small):
    text = "parts:\n  a: {wide: 1 right from left + 2, deep: front to back, high: bottom to top, grain: high, copies: {mirror: left and right, about: 6}}\n"
    # source: by hand; 2 to 3 mirrored about 6 is 9 to 10
    assert lows(small(text), "right a") == [(9, 0, 0)]


def test_row_by_steps(small):
    text = "parts:\n  shelf: {wide: left to right, deep: front to back, high: thick up from bottom + 4, grain: wide, copies: {row: up, count: 3, every: 8}}\n"
    piece = small(text)
    assert [p.name for p in piece.parts] == ["shelf 1", "shelf 2", "shelf 3"]
    assert [z for _, _, z in lows(piece, "shelf 1", "shelf 2", "shelf 3")] == [4, 12, 20]


ROW = "{wide: left to right, deep: front to back, high: thick up from bottom, grain: wide, copies: {row: WAY, count: 9, every: STEP}}\n"


@pytest.mark.parametrize(
    ("way", "step", "words"),
    [
        # source: by hand; 3/4 thick and 24 wide, each but 1/2 (or 1) from the next
        (
            "up",
            "1/2",
            "only 1/2 in (12.7 mm) from one to the next (make `every` longer than 3/4 in (19.1 mm), or",
        ),
        (
            "right",
            "1",
            "only 1 in (25.4 mm) from one to the next (make `every` longer than 24 in (609.6 mm), or",
        ),
        ("up", "0", "only 0 in (0 mm) from one to the next"),
    ],
)
def test_a_row_whose_copies_lie_in_each_other_is_refused(small, way, step, words):
    with pytest.raises(ResolveError) as caught:
        small("parts:\n  shelf: " + ROW.replace("WAY", way).replace("STEP", step))
    assert f"shelf 1 and shelf 2 stand in each other: they are {words}" in str(caught.value)
    assert (caught.value.place.line, caught.value.chain) == (6, ("shelf", "copies"))


def test_a_row_of_copies_that_touch_stands(small):
    assert len(small("parts:\n  shelf: " + ROW.replace("WAY", "up").replace("STEP", "3/4")).parts) == 9


def test_a_row_of_groups_in_each_other_is_refused(small):
    text = "parts:\n  ladder: {parts: {rung: {wide: 2 inward from left, deep: front to back, high: thick up from bottom, grain: deep, copies: left and right}}, copies: {row: right, count: 4, every: STEP}}\n"
    with pytest.raises(
        ResolveError, match=r"ladder 1 left rung and ladder 2 left rung stand in each other.*clear"
    ):
        small(text.replace("STEP", "1"))
    assert len(small(text.replace("STEP", "2")).parts) == 8


def test_tilted_slats_may_stand_closer_than_they_are_high(small):
    """A louvre: 4 high in its own frame, laid over by 60 degrees, one every 3."""
    text = "parts:\n  slat: {wide: left to right, deep: 1/4 back from front + 4, high: 4 up from bottom + 2, grain: wide, tilt: top toward back 60 deg about bottom front, copies: {row: up, count: 5, every: 3}}\n"
    assert len(small(text).parts) == 5


@pytest.mark.parametrize(
    ("row", "count", "first", "second"),
    [
        # source: by hand; 24 wide, slats of 2. open: (24 - 2n) / (n + 1) <= 1 -> n = 8, gap 8/9
        ("spread: left to right, gap: at most 1, ends: open", 8, 8 / 9, 8 / 9 * 2 + 2),
        # closed: (24 - 2n) / (n - 1) <= 1 -> n = 9 (25/3 = 8.33), gap 6/8
        ("spread: left to right, gap: at most 1, ends: closed", 9, 0, 2.75),
        # at least 1: the most that keep it: open n = 7 (23/3 = 7.67), gap 10/8
        ("spread: left to right, gap: at least 1, ends: open", 7, 1.25, 4.5),
        # five, closed: 24 - 10 = 14 in 4 gaps of 3.5
        ("spread: left to right, count: 5, ends: closed", 5, 0, 5.5),
        # an exact gap of 6: n = (24 + 6) / 8 = 3.75 would not do; gap 20 leaves two
        ("spread: left to right, gap: 20, ends: closed", 2, 0, 22),
    ],
)
def test_spread_rows(small, row, count, first, second):
    piece = small(
        f"parts:\n  slat: {{wide: 2, deep: front to back, high: thick up from bottom, grain: deep, copies: {{row: right, {row}}}}}\n"
    )
    assert len(piece.parts) == count
    assert lows(piece, "slat 1", "slat 2") == [(round(first, 4), 0, 0), (round(second, 4), 0, 0)]


def test_rows_count_in_their_direction(small):
    piece = small(
        "parts:\n  slat: {wide: 2, deep: front to back, high: thick up from bottom, grain: deep, copies: {row: left, spread: left to right, count: 3, ends: closed}}\n"
    )
    assert lows(piece, "slat 1") == [(22, 0, 0)]


def test_an_exact_gap_must_fit(small):
    with pytest.raises(ResolveError, match="no whole number leaves just this gap"):
        small(
            "parts:\n  slat: {wide: 2, deep: front to back, high: thick up from bottom, grain: deep, copies: {row: right, spread: left to right, gap: 6, ends: closed}}\n"
        )


def test_ring_at_an_angle(small):
    text = "parts:\n  foot: {wide: 1 centred on middle, deep: middle + 2 to middle + 5, high: 2 up from bottom, grain: deep, copies: {ring: 3}}\n"
    piece = small(text)
    first, second = piece.part("foot 1"), piece.part("foot 2")
    assert first.placement.is_identity
    assert second.box == first.box
    # source: by hand; a point 5 behind the middle, turned 120 deg anticlockwise seen from above, stands
    # 5 x sin 120 = 4.3301 to the left and 2.5 in front of it
    at = second.placement.point((12 * 25.4, 11 * 25.4, 0.0))
    assert [round(x / 25.4, 4) for x in at] == [round(12 - 4.330127, 4), 3.5, 0]
    with pytest.raises(ResolveError, match="stands at an angle in its ring"):
        small(
            text
            + "  peg: {wide: 1 right from right of foot 2, deep: 1 back from front, high: 5 up from bottom}\n"
        )


def test_split_spaces_and_the_gaps_between(small):
    text = """spaces:
  bay: {wide: left + 1 to right - 1, deep: front to back, high: bottom to top, split: {down: [4, 6, rest], leaving: {frame place: 1}}}
parts:
  frame: {in: frame place, grain: wide}
  shelf: {in: bay, wide: left to right, deep: front to back, high: thick up from bottom, grain: wide, copies: {row: up, count: 2, every: 1}}
"""
    piece = small(text)
    spaces = {s.name: (round(s.box.low[2] / 25.4, 4), round(s.box.high[2] / 25.4, 4)) for s in piece.spaces}
    # source: by hand; 30 - 4 - 1 - 6 - 1 = 18 for the rest
    assert spaces == {
        "bay 1": (26, 30),
        "bay 2": (19, 25),
        "bay 3": (0, 18),
        "frame place 1": (25, 26),
        "frame place 2": (18, 19),
    }
    assert lows(piece, "frame 1", "frame 2", "bay 3 shelf 2") == [(1, 0, 25), (1, 0, 18), (1, 0, 1)]


def test_split_that_does_not_add_up(small):
    text = "spaces: {bay: {wide: left to right, deep: front to back, high: bottom to top, split: {down: [10, 10, 9 1/2]}}}\nparts: {a: {in: bay, grain: wide}}\n"
    with pytest.raises(ResolveError) as caught:
        small(text)
    assert "add up to 29 1/2 in (749.3 mm) but there is 30 in (762 mm) (make one of them `rest`)" in str(
        caught.value
    )
    assert caught.value.place.line == 5


def test_my_own_space_is_meant(small):
    text = """spaces:
  bay: {wide: left to right, deep: front to back, high: bottom to top, split: {up: [10, rest]}}
parts:
  board: {in: bay, wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}
  lip: {in: bay, wide: left to right, deep: thick back from front, high: 2 up from top of board}
"""
    piece = small(text)
    assert lows(piece, "lip 1", "lip 2") == [(0, 0, 0.75), (0, 0, 10.75)]
    with pytest.raises(ResolveError, match=r"which board\? there are 2"):
        small(
            text + "  peg: {wide: 1 right from left, deep: 1 back from front, high: 3 up from top of board}\n"
        )


def test_groups_gather_and_are_seen_from_outside(small):
    text = """parts:
  lid:
    parts:
      board: {wide: left to right, deep: front to back, high: thick down from top, grain: wide}
      lip: {wide: left to right, deep: thick back from front, high: 3 down from bottom of board}
  post: {wide: 1 right from left, deep: 1 back from front + 1, high: bottom to bottom of lip}
"""
    piece = small(text)
    assert [p.name for p in piece.parts] == ["lid board", "lid lip", "post"]
    assert round(piece.part("post").box.high[2] / 25.4, 4) == 26.25
    assert piece.part("lid lip").groups == ("lid",)


def test_two_groups_with_one_inner_name(small):
    group = (
        "{parts: {board: {wide: left to right, deep: front to back, high: thick down from top, grain: wide}}}"
    )
    low = group.replace("down from top", "up from bottom")
    text = f"parts:\n  lid: {group}\n  floor piece: {low}\n  a: {{wide: 1 right from left, deep: 1 back from front, high: 3 up from top of board}}\n"
    with pytest.raises(ResolveError, match='"lid" and "floor piece" both hold "board"'):
        small(text)


def test_facing_left_turns_a_kit(small):
    text = """spaces: {place: {wide: 10 right from left, deep: front + 2 to back - 2, high: 6 up from bottom}}
parts: {drawer: {kit: drawer, in: place, box: wood, front: wood, facing: left}}
"""
    piece = small(text)
    front = piece.part("drawer front")
    # source: by hand; its front looks left: face 3/4 at the left, across the depth 2 to 10 less the gaps
    assert [round(x / 25.4, 4) for x in (*front.box.low[:2], *front.box.high[:2])] == [
        0,
        2.0625,
        0.75,
        9.9375,
    ]
    assert front.grain is Axis.DEEP
    slide = next(m for m in piece.movements if m.name == "drawer").motion
    assert slide.direction == (-1.0, 0.0, 0.0)
    # its own left is at the back of the piece: facing left, the left hand points backward
    assert lows(piece, "drawer left side")[0][1] == round(10 - 1 / 16 - 0.75, 4)


def test_facing_up_lays_a_door_flat(small):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: 3 down from top}}
parts: {lid: {kit: panel door, in: place, frame: wood, panel: wood, facing: up}}
"""
    stile = small(text).part("lid left stile")
    # source: by hand; its front looks up: 3/4 down from the top; its height runs front to back
    assert [round(x / 25.4, 4) for x in stile.box.low] == [0.0625, 0.0625, 29.25]
    assert stile.grain is Axis.DEEP


def test_a_kit_sees_only_its_settings(small):
    text = "spaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\nparts: {door: {kit: panel door, in: place, frame: wood, panel: wood, stil width: 3}}\n"
    with pytest.raises(ResolveError, match=r'has no setting "stil width" \(nearest: "stile width"\)'):
        small(text)
    with pytest.raises(ResolveError, match='not told what "panel" is'):
        small(text.replace(", panel: wood, stil width: 3", ""))
    with pytest.raises(ResolveError, match='"hung on" does not offer "top"'):
        small(text.replace("stil width: 3", "hung on: top"))


def test_sizes_of_a_kit_from_outside(small, inches):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: 8 up from bottom}}
parts:
  drawer: {kit: drawer, in: place, box: wood, front: wood, rise: 1/2}
  post: {wide: rise of drawer right from left, deep: 1 back from front, high: 9 to top}
"""
    assert inches(small(text).part("post").box.size(Axis.WIDE)) == (0.5,)


def test_back_of_a_door_is_what_was_built(small, inches):
    text = """spaces: {doorway: {wide: left to right, deep: front to back - 1, high: bottom to top}}
parts:
  door: {kit: panel door, in: doorway, frame: wood, panel: wood}
  shelf: {wide: left to right, deep: back of door + 1/8 to back of doorway, high: thick up from bottom + 9, grain: wide}
"""
    shelf = small(text).part("shelf")
    # source: by hand; 3/4 + 1/8 to 12 - 1
    assert inches(shelf.box.low[1], shelf.box.high[1]) == (0.875, 11.0)


def test_left_out_by_a_choice(small):
    text = """choices: {rear: none or panel}
parts:
  panel: {wide: left to right, deep: thick forward from back, high: bottom to top, grain: high, when: rear is panel}
  shelf: {wide: left to right, deep: front to front of panel, high: thick up from bottom + 9, grain: wide}
joints: [{join: panel, to: shelf, with: screws}]
"""
    with pytest.raises(ResolveError, match='"panel" is left out here \\("rear is panel", line 7\\)'):
        small(text)
    assert len(small(text, rear="panel").joints) == 1
    dropped = small(text.replace("front to front of panel", "front to back"))
    assert dropped.joints == ()


def test_taper_faces_go_by_the_side(small):
    piece = small("parts:\n" + LEG.replace("copies", "taper: {to: 1, faces: inside, start: 20}, copies"))
    assert piece.part("left front leg").shape.taper.faces == {Face.RIGHT, Face.BACK}
    assert piece.part("right back leg").shape.taper.faces == {Face.LEFT, Face.FRONT}
    assert piece.part("right back leg").shape.taper.start == pytest.approx(508)


def test_tilt_turns_about_an_edge(small):
    text = "parts:\n  back: {wide: left to right, deep: thick forward from back, high: bottom to top, grain: high, tilt: top toward back 15 deg about bottom back}\n"
    part = small(text).part("back")
    low = part.placement.point((0.0, 12 * 25.4, 0.0))
    high = part.placement.point((0.0, 12 * 25.4, 30 * 25.4))
    # source: by hand; the edge stays; 30 up goes 30 x sin 15 = 7.7646 back and stands 28.9778 high
    assert [round(x / 25.4, 4) for x in low] == [0, 12, 0]
    assert [round(x / 25.4, 4) for x in high] == [0, 19.7646, 28.9778]


def test_a_mirrored_group(small):
    text = """parts:
  bracket:
    copies: left and right
    parts:
      post: {wide: 1 inward from left + 2, deep: 2 forward from back, high: bottom to top}
      arm: {wide: 1 inward from outside of post, deep: front to front of post, high: 2 down from top}
joints: [{join: arm, to: post, with: tenon}]
"""
    piece = small(text)
    assert [p.name for p in piece.parts] == [
        "left bracket post",
        "left bracket arm",
        "right bracket post",
        "right bracket arm",
    ]
    # source: by hand; 24 - 2 - 1 = 21
    assert lows(piece, "left bracket arm", "right bracket arm") == [(2, 0, 28), (21, 0, 28)]
    assert [(j.first, j.second) for j in piece.joints] == [
        ("left bracket arm", "left bracket post"),
        ("right bracket arm", "right bracket post"),
    ]


def test_two_doors_hang_on_their_own_sides(small):
    text = """spaces: {place: {wide: 12 right from left, deep: front to back, high: bottom to top}}
parts: {door: {kit: plain door, in: place, board: wood, copies: {mirror: left and right, about: 12}}}
"""
    piece = small(text)
    assert [m.name for m in piece.movements] == ["left door", "right door"]
    left, right = (m.motion for m in piece.movements)
    # source: by hand; the left one hangs at 1/16, its image at 24 less that; they open away from each other
    assert (round(left.about[0] / 25.4, 4), round(right.about[0] / 25.4, 4)) == (0.0625, 23.9375)
    assert (left.axis, right.axis) == ((0.0, 0.0, -1.0), (0.0, 0.0, 1.0))


def test_one_thing_in_one_opening_has_no_number(small):
    text = """spaces: {place: {wide: left to right, deep: front to back, high: bottom to top, split: {down: [8, rest]}}}
parts:
  drawer: {kit: drawer, in: place 1, box: wood, front: wood}
  door: {kit: plain door, in: place 2, board: wood}
"""
    piece = small(text)
    assert [p.name for p in piece.parts][-2:] == ["drawer bottom", "door board"]
    assert [m.name for m in piece.movements] == ["drawer", "door"]
    # source: by hand; the door's place is 22 high, less 1/16 above and below
    assert round(piece.part("door board").box.sizes[2] / 25.4, 4) == 21.875


def test_a_group_inside_a_group_stands_in_a_space_named_outside(small):
    piece = small(
        "spaces: {bay: {wide: 1 to 23, deep: 1 to 11, high: 2 to 20}}\n"
        "parts:\n  set:\n    parts:\n      tub: {in: bay, parts: {floor: {wide: left to right, deep: front to back,\n"
        "        high: thick up from bottom, grain: wide}}}\n"
    )
    assert piece.part("set tub floor").box.low == pytest.approx((25.4, 25.4, 50.8))
