# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Materials, hardware, movements, poses, holds, loads, room, finish and work."""

import pytest

from scantling.errors import ResolveError
from scantling.piece.facts import HardwareFact, LumberFact, ShopFacts
from scantling.piece.model import (
    Axis,
    BuildKind,
    DishWork,
    EdgeKind,
    Face,
    MaterialKind,
    OutlineKind,
    PinRowsWork,
    Section,
)

BOARD = "wide: left to right, deep: front to back, high: thick up from bottom, grain: wide"


def board(small, more, **settings):
    return small(f"parts:\n  a: {{{BOARD}, {more}}}\n", **settings).part("a")


def test_materials(small):
    head = "piece: p\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: walnut 3/4, ply: birch plywood 1/4, stick: pine 2x4}\n"
    piece = small(f"parts: {{a: {{{BOARD}}}}}\n", head=head)
    walnut, ply, pine = piece.materials
    assert (walnut.kind, walnut.thick, walnut.species) == (
        MaterialKind.SOLID,
        pytest.approx(19.05),
        "walnut, black",
    )
    assert (ply.kind, ply.thick, ply.measured) == (MaterialKind.SHEET, pytest.approx(6.35), False)
    # source: published; PS 20 dressed dry 2x4 is 1 1/2 x 3 1/2 (from memory)
    assert (pine.kind, pine.thick, pine.broad) == (MaterialKind.LUMBER, 38.1, 88.9)
    assert [n.code for n in piece.notices] == ["usual size assumed"] * 2
    facts = ShopFacts(lumber=(LumberFact("pine", "2x4", 37, 88),))
    assert small(f"parts: {{a: {{{BOARD}}}}}\n", facts, head=head).materials[2].broad == 88


def test_unknown_wood(small):
    with pytest.raises(ResolveError, match="no wood or sheet is called"):
        small(
            f"parts: {{a: {{{BOARD}}}}}\n",
            head="piece: p\nunits: inches\noverall: {wide: 2, deep: 2, high: 2}\nmaterials: {wood: cheri 3/4}\n",
        )
    with pytest.raises(ResolveError, match=r'no material is called "wod" \(nearest: "wood"\)'):
        board(small, "of: wod")


def test_a_sheet_part_of_a_bare_number(small):
    head = "piece: p\nunits: mm\noverall: {wide: 600, deep: 300, high: 700}\nmaterials: {ply: birch plywood 18}\n"
    text = "parts: {a: {wide: left to right, deep: front to back, high: 18 up from bottom, grain: wide}}\n"
    assert "sheet part of bare number" in [n.code for n in small(text, head=head).notices]
    assert "sheet part of bare number" not in [
        n.code for n in small(text.replace("18 up", "thick up"), head=head).notices
    ]


SLIDE = ShopFacts(
    hardware=(
        HardwareFact("side slide 10", "side slide", {"length": 254.0, "clearance": 12.7}),
        HardwareFact("side slide 12", "side slide", {"length": 304.8, "clearance": 13.0}),
    )
)


def test_the_shop_gives_the_fitting(small):
    text = """parts:
  a: {wide: 2 right from left, deep: front to back, high: 4 up from bottom, grain: deep}
  b: {wide: clearance of slide right from right of a, deep: front to back, high: 4 up from bottom, grain: deep}
hardware: {slide: {kind: side slide, length: depth rounded down to 2, joins: [b, a]}}
"""
    slide = small(text, SLIDE).hardware[0]
    assert slide.item == "side slide 12"
    assert dict(slide.sizes) == {"clearance": 13.0, "length": pytest.approx(304.8)}
    assert small(text, SLIDE).part("b").box.size(Axis.WIDE) == pytest.approx(13.0)
    with pytest.raises(ResolveError, match='nothing says the clearance of "slide"'):
        small(text)
    other = small(text.replace("rounded down to 2", "- 4").replace("clearance of slide", "1/2"), SLIDE)
    assert other.hardware[0].item is None
    (missing,) = [n for n in other.notices if n.code.startswith("fitting")]
    assert missing.code == "fitting not in the shop"
    assert "side slide 12: 12 in (304.8 mm)" in missing.remedy  # with its unit: a bare 12 may be 12 mm


def test_one_entry_for_each_pair(example):
    # source: by hand; the bench's two stays go one to each end rail; the chest has two knobs a drawer
    stays = [h for h in example("hall-bench").hardware if h.name == "stay"]
    assert [(h.joins, h.count) for h in stays] == [
        (("lid board", "left end rail"), 1),
        (("lid board", "right end rail"), 1),
    ]
    knobs = [h for h in example("chest-of-drawers").hardware if h.name == "knob"]
    assert [(h.to, h.count) for h in knobs] == [(f"drawer {n} front", 2) for n in range(1, 7)]
    strap = [h for h in example("chest-of-drawers").hardware if h.name == "strap"]
    assert strap[0].joins == ("back rail", "wall")


def test_places_of_hardware_and_pins(example):
    knob = next(h for h in example("wall-cabinet").hardware if h.name == "knob")
    # source: by hand; doorway 3/4 to 25 1/4, its middle 13
    assert [(axis, round(at / 25.4, 4)) for axis, at in knob.at] == [("high", 13.0)]
    pins = [h for h in example("bookcase").hardware if h.name == "pins"]
    # source: by hand; bay deep 280 - 10 - 6 = 264, shelf 4 less = 260; 260 - 37 = 223
    assert pins[0].under == "bay 1 shelf 1"
    assert [round(row, 3) for row in pins[0].rows] == [37, 223]
    assert pins[0].every == 32


MOVING = """parts:
  lid: {wide: left to right, deep: front to back, high: thick down from top, grain: wide}
  batten: {wide: 2 centred on middle, deep: front to back, high: thick down from bottom of lid}
  case: {wide: left to right, deep: front to back, high: bottom to bottom of batten, grain: wide}
"""


def test_what_is_fastened_moves_too(small):
    text = MOVING + "joints: [{join: batten, to: lid, with: screws}, {join: batten, to: case, with: rests}]\n"
    text += "movements: {lid: {moves: lid, swings: front toward top 90 deg, about: bottom back of lid}}\nposes: {open: [lid], half: {lid: 45 deg}}\n"
    piece = small(text)
    assert piece.movements[0].moves == {"lid", "batten"}
    assert [(p.name, [s.fraction for s in p.steps]) for p in piece.poses] == [
        ("at rest", []),
        ("open", [1.0]),
        ("half", [0.5]),
    ]


def test_nothing_may_be_left_behind(small):
    text = (
        MOVING + "joints: [{join: batten, to: lid, with: screws}, {join: batten, to: case, with: screws}]\n"
    )
    text += "movements: {lid: {moves: lid, swings: front toward top 90 deg, about: bottom back of lid}}\n"
    with pytest.raises(ResolveError, match='"lid" would leave behind'):
        small(text)


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (
            "movements: {lid: {moves: lid, swings: front toward back 9 deg, about: top back of lid}}",
            "is no turn",
        ),
        (
            "movements: {lid: {moves: lid, swings: front toward top 9 deg, about: left back of lid}}",
            "edge that runs wide",
        ),
        ("movements: {lid: {moves: lid, swings: front toward top 9 deg}}", "about which edge"),
        ("movements: {lid: {moves: lid}}", "a movement is one of"),
        (
            "movements: {lid: {moves: lid, slides: 3 up, after: lip}}",
            r'no movement is called "lip" \(nearest: "lid"\)',
        ),
        ("movements: {lid: {moves: lid, slides: 3 up, on: hinge}}", "no hardware is called"),
        ("poses: {open: [lid]}", "no movement is called"),
        ("loads: [{rest: 4 lb}]", "a load without `on`"),
        ("loads: [{on: lid}]", "a load is one of"),
        ("loads: [{rest: 4, on: lid}]", "but 4 says no unit"),
        ("loads: [{push: 4 lb, on: lid, in: open}]", "no pose is called"),
        ("holds: {pan: {wide: 3, deep: 3}}", "does not say how high"),
        ("room: {air: {dry: 70 %, damp: 60 %, at: 70 F}}", "dry air is damper"),
        ("room: {passes: 29}", "wants two sizes"),
        ("hardware: {h: {joins: [lid, case]}}", 'nothing says what "h" is'),
        ("hardware: {h: {kind: knob 1}}", "nothing says where"),
    ],
)
def test_wrong_settings_say_why(small, more, says):
    if says is None:
        assert small(MOVING + more + "\n").loads[0].amount == 4
        return
    with pytest.raises(ResolveError, match=says):
        small(MOVING + more + "\n")


def test_doors_hang_on_either_side(small):
    text = "spaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\nparts: {door: {kit: plain door, in: place, board: wood, hung on: HAND}}\n"
    left = small(text.replace("HAND", "left")).movements
    right = small(text.replace("HAND", "right")).movements
    assert [m.name for m in (*left, *right)] == ["door", "door"]
    # source: by hand; right (1,0,0) toward front (0,-1,0) turns about (0,0,-1), left toward front about (0,0,1)
    assert left[0].motion.axis == (0.0, 0.0, -1.0)
    assert right[0].motion.axis == (0.0, 0.0, 1.0)
    assert round(right[0].motion.about[0] / 25.4, 4) == 23.9375


def test_holds_loads_room_finish(example):
    desk = example("sewing-desk")
    machine = desk.holds[0]
    # source: by hand; 18 lb x 0.45359237; it stands on the tray bottom, 25 7/8 high
    assert round(machine.mass, 4) == 8.1647
    assert round(machine.box.low[2] / 25.4, 4) == 25.875
    assert [round(s / 25.4, 4) for s in machine.box.sizes] == [16, 7, 10.5]
    push = desk.loads[1]
    # source: by hand; 30 lb is 30 x 4.4482216 N
    assert round(push.amount, 3) == 133.447
    assert (push.on, push.toward, push.pose) == (("lid lip",), Face.BOTTOM, "sewing")
    assert round(desk.room.air.temperature, 3) == 21.111
    assert desk.room.against == (Face.BACK,)
    assert (desk.finish[0].finish, desk.finish[0].coats, desk.finish[0].over) == (
        "wiping varnish",
        3,
        ("all",),
    )
    fill = example("bookcase").loads[0]
    assert fill.spaces == ("bay 1", "bay 2")
    edge = example("round-table").loads[0]
    assert edge.edge
    assert edge.on == ("top",)


def test_edge_work(small):
    work = board(
        small,
        "work: [{chamfer: bottom, size: 1/8}, {round-over: front top, size: 1/4}, {bevel: every edge, size: 1/16, angle: 30 deg}]",
    ).work
    assert [(w.kind, w.face, len(w.edges)) for w in work] == [
        (EdgeKind.CHAMFER, Face.BOTTOM, 4),
        (EdgeKind.ROUND_OVER, Face.FRONT, 1),
        (EdgeKind.BEVEL, Face.TOP, 12),
    ]
    assert (work[0].size, work[2].angle) == (3.175, 30)


def test_details_leave_an_edge(example):
    work = example("sewing-desk").part("lid board").work[0]
    assert {edge.second for edge in work.edges} == {Face.LEFT, Face.RIGHT, Face.FRONT}
    assert (work.kind, work.size, work.drop) == (EdgeKind.RABBET, 6.35, 6.35)


def test_cuts(small):
    work = board(
        small,
        "work: [{groove: top, wide: 1/4, deep: 3/8, at: {deep: back - 1}}, {hole: 1/2, through: top, at: {wide: 3, deep: middle}},"
        " {slot: 2 x 1/4, through: top}, {notch: {wide: left to left + 1, deep: 2 back from front}}, {arch: front, rise: 1}, {dish: top, deep: 3/8, rim: 1}]",
    ).work
    groove, hole, slot, notch, arch, dish = work
    # source: by hand; a 1/4 groove about a line 1 from the back of 12: 10 7/8 to 11 1/8
    assert [round(x / 25.4, 4) for x in (groove.low, groove.high, groove.deep)] == [10.875, 11.125, 0.375]
    assert groove.along is Axis.WIDE
    assert [round(x / 25.4, 4) for x in hole.at] == [3, 6, 0.75]
    assert (slot.along, round(slot.long / 25.4, 4)) == (Axis.WIDE, 2)
    assert [round(s / 25.4, 4) for s in notch.box.sizes] == [1, 2, 0.75]
    assert (arch.face, arch.along, round(arch.stop / 25.4)) == (Face.FRONT, Axis.WIDE, 24)
    assert dish == DishWork(Face.TOP, 9.525, 25.4)


def test_pins_inside_a_pair(example):
    piece = example("wall-cabinet")
    left, right = piece.part("left side").work[0], piece.part("right side").work[0]
    assert isinstance(left, PinRowsWork)
    assert (left.face, right.face) == (Face.RIGHT, Face.LEFT)
    # source: by hand; rows 1 3/4 and 8 - 2 1/2; from 6 to 26 - 6 = 20 every 1 1/4: 11 holes and a bit
    assert [round(r / 25.4, 4) for r in left.rows] == [1.75, 5.5]
    assert len(left.places) == 12
    assert left.rows == right.rows


def test_only_one_copy(small):
    text = "parts:\n  a: {wide: thick inward from left, deep: front to back, high: bottom to top, grain: high, copies: left and right, work: [{hole: 1, through: inside, only: left}]}\n"
    piece = small(text)
    assert len(piece.part("left a").work) == 1
    assert piece.part("right a").work == ()


def test_shapes_and_builds(example):
    table = example("round-table")
    assert table.part("top").shape.outline.kind is OutlineKind.ROUND
    assert table.part("apron").shape.outline.radius == pytest.approx(22.225)
    assert table.part("column").shape.section is Section.OCTAGON
    assert table.part("apron").built.kind is BuildKind.BRICKS
    assert (table.part("apron").built.least, table.part("apron").built.courses) == (8, 3)
    desk = example("sewing-desk").part("left front leg").built
    assert (desk.kind, desk.least, desk.most, desk.stacked) == (BuildKind.LAYERS, 2, 2, Axis.WIDE)
    staves = example("chest-of-drawers").part("back").built
    assert (staves.least, staves.most, staves.edges, staves.glue) == (3, 5, "tongue", "none")


def test_a_path_seen_from_the_right_turns_with_the_ring(example):
    foot = example("round-table").part("foot 1").shape.outline
    assert foot.seen_from is Face.RIGHT
    assert [(round(p.across / 25.4, 3), round(p.up / 25.4, 3)) for p in foot.path] == [
        # source: by hand; the foot is 21 1/2 - 2 1/2 = 19 long and 9 high
        (0, 4),
        (12, 0),
        (19, 0),
        (19, 2),
        (0, 9),
    ]
    third = example("round-table").part("foot 3").shape.outline
    assert third.seen_from is Face.LEFT
    assert [(round(p.across, 6), round(p.up, 6), p.bulge) for p in third.path] == [
        (round(p.across, 6), round(p.up, 6), p.bulge) for p in foot.path
    ]


@pytest.mark.parametrize("air", ["damp: 60 %, at: 1000 F", "damp: 60 %, at: -40 C", "damp: 99.5 %, at: 20 C"])
def test_air_the_handbook_does_not_know_is_refused_where_it_stands(small, air):
    # source: published; Wood Handbook Table 4-2 runs from 30 F to 270 F (here -2 to 130 °C), below 100 %
    with pytest.raises(ResolveError, match="wood is reckoned in air of 0 to 99% and -2 to 130 °C") as caught:
        small(f"room: {{air: {{dry: 25 %, {air}}}}}\n")
    assert caught.value.place.line == 5


TABLE = """parts:
  top: {wide: left to right, deep: front to back, high: 1 down from top}
  leg: {wide: 2 inward from left, deep: 2 inward from front, high: floor to bottom of top, copies: four corners}
  rail: {wide: between left front leg and right front leg, deep: 1 back from front, high: depth of pan down from bottom of top}
joints: [{join: leg, to: top, with: dowels}, {join: rail, to: leg, with: dowels}]
holds: {pan: {wide: WIDE, deep: DEEP, high: 3, on: top}}
"""


@pytest.mark.parametrize(
    ("wide", "deep", "low"),
    [
        # source: by hand; the top is 24 x 12, so a pan of 6 x 4 stands 9 and 4 from its left and front by itself
        ("6", "4", (9, 4, 30)),
        ("6", "4 back from front of top + 1", (9, 1, 30)),
        ("6 left from right of rail - 1", "4 centred on back - 3", (15, 7, 30)),
    ],
)
def test_a_held_thing_stands_where_its_span_says(small, inches, wide, deep, low):
    piece = small(TABLE.replace("WIDE", wide).replace("DEEP", deep))
    assert inches(*piece.holds[0].box.low) == low
    assert inches(*piece.holds[0].box.sizes) == (6, 4, 3)
    # its size may be asked for by what its place depends on
    assert inches(piece.part("rail").box.size(Axis.HIGH)) == (4,)


def test_a_held_thing_has_its_own_size(small):
    with pytest.raises(ResolveError, match="a held thing has a size of its own") as caught:
        small(TABLE.replace("WIDE", "left of top to right of top").replace("DEEP", "4"))
    assert (caught.value.place.line, caught.value.place.character) == (10, 21)
