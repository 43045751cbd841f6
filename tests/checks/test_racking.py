"""Tables that lean, cases without backs, fingers, pins without holes, wet sticks, parts under the floor."""

import pytest

from scantling.checks import Severity, check_piece
from scantling.checks.bought import bought_things
from scantling.checks.contacts import contacts
from scantling.checks.fingers import finger_gaps
from scantling.checks.machines import machines
from scantling.checks.openings import head_openings
from scantling.checks.racking import racking
from scantling.checks.room import room
from scantling.checks.tipping import tipping
from scantling.piece.model import (
    Axis,
    Face,
    Hardware,
    Load,
    Material,
    MaterialKind,
    Movement,
    Notice,
    Placement,
    Room,
    Slide,
)
from scantling.shop.model import Machine, MachineKind


def _legs(make):
    return [
        make.part(f"leg {i}", (x, y, 0), (x + 40, y + 40, 700), grain=Axis.HIGH, definition="leg")
        for i, (x, y) in enumerate(((0, 0), (760, 0), (0, 460), (760, 460)))
    ]


def _table(make, rail=None):
    """Four legs under a top; `rail` is the height of rails all round."""
    legs = _legs(make)
    top = make.part("top", (-20, -20, 700), (820, 520, 720), grain=Axis.WIDE)
    joints = [make.joint(leg, top, "tenon") for leg in legs]
    rails = []
    if rail:
        for name, y, pair in (("front", 10, (0, 1)), ("back", 470, (2, 3))):
            rails.append(make.part(name, (40, y, 700 - rail), (760, y + 20, 700), grain=Axis.WIDE))
            joints += [make.joint(rails[-1], legs[i], "tenon") for i in pair]
        for name, x, pair in (("left", 10, (0, 2)), ("right", 770, (1, 3))):
            rails.append(make.part(name, (x, 40, 700 - rail), (x + 20, 460, 700), grain=Axis.DEEP))
            joints += [make.joint(rails[-1], legs[i], "tenon") for i in pair]
    return make.piece(*legs, top, *rails, joints=tuple(joints))


def test_legs_held_by_their_ends_alone_lean(make):
    """A newcomer's table stood on four legs tenoned upward, and nothing was said."""
    found = make.ask(racking, _table(make))
    assert [(f.code, f.severity) for f in found] == [("legs lean sideways", Severity.SHOULD)]
    assert "sideways or to front and back" in found[0].message


@pytest.mark.parametrize(("rail", "count"), [(80.0, 0), (50.0, 1)])
def test_rails_of_60_mm_hold_them(make, rail, count):
    # source: common practice, no source: 60 mm is the least for side tables
    assert len(make.ask(racking, _table(make, rail))) == count


def test_a_stretcher_helps_a_shallow_rail(make):
    shallow = _table(make, 50.0)
    legs = [shallow.part(f"leg {i}") for i in range(4)]
    low = [
        make.part("low left", (10, 40, 150), (30, 460, 180), grain=Axis.DEEP),
        make.part("low right", (770, 40, 150), (790, 460, 180), grain=Axis.DEEP),
        make.part("low front", (40, 10, 150), (760, 30, 180), grain=Axis.WIDE),
    ]
    pairs = ((0, 0), (0, 2), (1, 1), (1, 3), (2, 0), (2, 1))
    joints = tuple(make.joint(low[i], legs[j], "tenon") for i, j in pairs)
    assert make.ask(racking, make.piece(*shallow.parts, *low, joints=shallow.joints + joints)) == ()


def _case(make, *more, joints=()):
    sides = [
        make.part(name, (x, 0, 0), (x + 18, 280, 1800), grain=Axis.HIGH, definition="side")
        for name, x in (("left side", 0), ("right side", 782))
    ]
    top = make.part("top", (18, 0, 1782), (782, 280, 1800), grain=Axis.WIDE)
    tied = [make.joint(top, side, "dado") for side in sides]
    tied += [make.joint(part, side, method) for part, method in joints for side in sides]
    return make.piece(*sides, top, *more, joints=tuple(tied))


def test_a_case_of_two_sides_and_a_top_leans(make):
    found = make.ask(racking, _case(make))
    assert [(f.code, f.severity) for f in found] == [("case leans sideways", Severity.SHOULD)]


def test_a_fixed_shelf_half_way_is_told_as_what_it_is(make):
    shelf = make.part("shelf", (18, 0, 900), (782, 280, 918), grain=Axis.WIDE)
    found = make.ask(racking, _case(make, shelf, joints=[(shelf, "dado")]))
    assert [(f.code, f.severity) for f in found] == [("stiff without a back", Severity.KNOW)]
    loose = make.ask(racking, _case(make, shelf, joints=[(shelf, "rests")]))
    assert [f.code for f in loose] == ["case leans sideways"]


def test_a_back_says_nothing(make):
    back = make.part("back", (18, 274, 0), (782, 280, 1782), "birch plywood", Axis.HIGH)
    assert make.ask(racking, _case(make, back, joints=[(back, "groove")])) == ()


def _tray(make, gap):
    side = make.part("side", (0, 0, 0), (18, 400, 300), grain=Axis.HIGH)
    front = make.part("tray front", (18 + gap, 0, 100), (400, 18, 180), grain=Axis.WIDE)
    move = Movement("tray", frozenset({"tray front"}), Slide((0.0, -1.0, 0.0), 250.0), make.place)
    return make.piece(side, front, movements=(move,))


@pytest.mark.parametrize(("gap", "told"), [(2.0, False), (7.9, False), (13.0, True), (26.0, False)])
def test_gaps_that_trap_a_finger(make, gap, told):
    # source: published summary of EN 14749: under 8 mm or over 25 mm beside what moves
    found = make.ask(finger_gaps, _tray(make, gap))
    assert [f.code for f in found] == (["finger gap"] if told else [])


def test_what_lies_behind_a_nearer_part_traps_nothing(make):
    tray = _tray(make, 13.0)
    strip = make.part("strip", (19, 0, 50), (30, 18, 250), grain=Axis.HIGH)
    assert make.ask(finger_gaps, make.piece(*tray.parts, strip, movements=tray.movements)) == ()


def test_pins_with_nothing_to_stand_in(make):
    """A newcomer's eight pins were bought, and no hole was bored anywhere."""
    shelf = make.part("shelf", (18, 0, 500), (600, 280, 518), grain=Axis.WIDE)
    side = make.part("side", (0, 0, 0), (18, 280, 800), grain=Axis.HIGH)
    pins = Hardware("pins", "shelf pin 5", 4, make.place, under="shelf")
    piece = make.piece(side, shelf, hardware=(pins,))
    assert [f.code for f in make.ask(bought_things, piece)] == ["pins without holes"]
    bored = {"side": [make.hole((18, 30, 495), (-1, 0, 0), 5, 10, "pin", "pins")]}
    assert make.ask(bought_things, piece, holes=bored) == ()


def test_sticks_are_sold_damper_than_the_room(make):
    stick = make.part("rail", (0, 0, 0), (1000, 38, 89), "spruce")
    lumber = Material("stick", "spruce 2x4", MaterialKind.LUMBER, "spruce")
    found = make.ask(bought_things, make.piece(make.renamed(stick, material=lumber)))
    # source: by hand; Wood Handbook Eq. 13-1 with 7.5 %: 89 x 12.8 / (3000 / 7.5 - 30 + 19) = 2.9 mm
    assert [f.code for f in found] == ["sticks sold wet"]
    assert "2.9 mm" in found[0].message
    assert make.ask(bought_things, make.piece(stick)) == ()


def test_nothing_stands_below_the_floor(make):
    """A board tilted through the floor by 1.8 in went unsaid."""
    foot = make.part("foot", (0, 0, 0), (100, 100, 200), grain=Axis.HIGH)
    low = make.part("low", (100, 0, -45), (300, 100, 100), grain=Axis.WIDE)
    piece = make.piece(foot, low, joints=(make.joint(low, foot, "dowels"),), overall=foot.box)
    found = [f for f in make.ask(contacts, piece) if f.code == "below the floor"]
    # source: by hand
    assert [(f.number, f.must_fix) for f in found] == [(45.0, True)]
    assert "raise it by 45 mm" in found[0].mend.text


def test_a_tilted_part_in_another_is_told_no_distance(make):
    """A board tilted by 20 degrees had to rise 3.7 in; it was told 11/32."""
    turn = ((0.9397, 0.0, -0.3420), (0.0, 1.0, 0.0), (0.3420, 0.0, 0.9397))
    foot = make.part("foot", (0, 0, 0), (50, 100, 200), grain=Axis.HIGH)
    board = make.part("board", (0, 0, 150), (400, 100, 170), placement=Placement(turn))
    found = [f for f in make.ask(contacts, make.piece(foot, board)) if f.code == "parts in one another"]
    assert len(found) == 1
    assert "by" not in found[0].message
    assert "move one of them apart" in found[0].mend.text


def test_a_weight_at_the_back_works_over_the_depth(make):
    """The mend divided by the width of the piece also where it tips to the front: 9.6 lb for 12.8."""
    case = make.part("case", (0, 0, 0), (600, 300, 900), grain=Axis.HIGH)
    push = Load("push", ("case",), make.place, amount=110.0, toward=Face.FRONT)
    (found,) = make.ask(tipping, make.piece(case, loads=(push,)))
    # source: by hand; 1.5 x 110 N x 900 mm less 890 N x 150 mm = 15.0 N m: over 300 mm 50 N, 5.1 kg
    assert "low down at the back" in found.mend.text
    assert "add 5.5 kg" in found.mend.text


def test_like_findings_are_one_with_the_others_named(make):
    """Three drawers, one slip: one line, and it says which."""
    floor = make.part("floor", (0, 0, 0), (900, 300, 18), grain=Axis.WIDE)
    low = [
        make.part(f"peg {i}", (100 * i, 0, -30), (100 * i + 50, 300, 0), grain=Axis.DEEP, definition="peg")
        for i in (1, 2, 3)
    ]
    joints = tuple(make.joint(peg, floor, "glue") for peg in low)
    examined = make.examined(make.piece(floor, *low, joints=joints, overall=floor.box))
    found = [f for f in check_piece(examined.machined, examined.scene, make.shop()) if "floor" in f.code]
    assert len(found) == 1
    assert "(the same: peg 2 and peg 3)" in found[0].message


def test_the_room_in_a_doorway_and_the_size_to_change(make):
    """A wardrobe was told 70.2 of 25 mm, and to make its second size less."""
    block = make.part("case", (0, 0, 0), (1100, 760, 1900), grain=Axis.HIGH)
    piece = make.piece(block, room=Room(passes=(740.0, 1980.0)))
    (found,) = [f for f in make.ask(room, piece) if f.code == "does not pass"]
    # source: by hand; on its way 1100 goes up and 760 through 740: -20 where 25 is wanted; 715 passes
    assert (found.number, found.limit) == (-20.0, 25.0)
    assert "make the piece 715 mm" in found.mend.text
    assert "deep at most" in found.mend.text


def test_screws_through_pockets_want_a_jig(make):
    """Slotted screws up through a tall rail are bored as pockets; the shop without a jig said nothing."""
    rail = make.part("rail", (0, 0, 0), (800, 20, 150), grain=Axis.WIDE)
    top = make.part("top", (0, 0, 150), (800, 300, 170), grain=Axis.WIDE)
    joint = make.joint(top, rail, "slotted screws")
    pocket = {"rail": [make.hole((400, 0, 120), (0, 0.26, 0.966), 9.5, 30, "pocket", joint.id)]}
    drill = Machine("drill", MachineKind.DRILL, make.place)
    jig = Machine("pocket jig", MachineKind.POCKET_JIG, make.place)
    piece = make.piece(rail, top, joints=(joint,))
    found = make.ask(machines, piece, shop=make.shop(machines=(drill,)), holes=pocket)
    assert [f.code for f in found] == ["no machine for it"]
    assert "pockets" in found[0].message
    assert make.ask(machines, piece, shop=make.shop(machines=(drill, jig)), holes=pocket) == ()


@pytest.mark.parametrize(("gap", "told"), [(60.0, False), (66.0, True), (220.0, True), (240.0, False)])
def test_openings_that_catch_a_head(make, gap, told):
    # source: common practice, no source: 65 to 230 mm (2 1/2 to 9 in)
    slats = [
        make.part(f"slat {i}", (i * (50 + gap), 0, 0), (i * (50 + gap) + 50, 20, 600), definition="slat")
        for i in range(4)
    ]
    found = make.ask(head_openings, make.piece(*slats))
    assert [(f.code, f.judgement) for f in found] == ([("head opening", True)] if told else [])


def test_openings_that_a_panel_closes_catch_nothing(make):
    slats = [
        make.part(f"slat {i}", (i * 150, 0, 0), (i * 150 + 50, 20, 600), definition="slat") for i in range(4)
    ]
    panel = make.part("panel", (0, 20, 0), (500, 26, 600), "birch plywood", Axis.HIGH)
    assert make.ask(head_openings, make.piece(*slats, panel)) == ()


@pytest.mark.parametrize(("thick", "told"), [(15.0, True), (40.0, False)])
def test_a_thin_part_of_thick_wood(make, thick, told):
    """A slat of 15 mm took the 90 mm oak listed first; a word would have caught it."""
    slat = make.part("slat", (0, 0, 0), (600, 60, thick), grain=Axis.WIDE)
    wood = Material("wood", "white oak 90", MaterialKind.SOLID, "white oak", thick=90.0, label=90.0)
    found = make.ask(bought_things, make.piece(make.renamed(slat, material=wood)))
    assert [f.code for f in found] == (["mostly planed away"] if told else [])


def test_one_slip_is_told_once(make):
    """Slats laid on a rail without a joint: resolve told it of two slats, the checks again of a third."""
    rail = make.part("rail", (0, 0, 0), (600, 40, 60), grain=Axis.WIDE)
    leg = make.part("leg", (-40, 0, 0), (0, 40, 60), grain=Axis.HIGH)
    slats = [
        make.part(f"slat {i}", (i * 150, -50, 60), (i * 150 + 60, 90, 80), grain=Axis.DEEP, definition="slat")
        for i in range(3)
    ]
    tied = (make.joint(rail, leg, "tenon"),)
    told = Notice("touch without joint", "slat 0 touches rail", make.place, ("slat 0", "rail"))
    said = make.ask(contacts, make.piece(rail, leg, *slats, joints=tied, notices=(told,)))
    assert [f.code for f in said] == []
    unsaid = make.ask(contacts, make.piece(rail, leg, *slats, joints=tied))
    assert {f.code for f in unsaid} == {"touch without joint"}


def test_unlike_numbers_are_not_told_as_one(make):
    """Four drawers of tools, 22 to 75 kg: all were told to take slides for 22 kg."""
    floor = make.part("floor", (0, 0, 0), (900, 300, 18), grain=Axis.WIDE)
    pegs = [
        make.part(
            f"peg {i}", (100 * i, 0, -30 * i), (100 * i + 50, 300, 0), grain=Axis.DEEP, definition="peg"
        )
        for i in (1, 2)
    ]
    joints = tuple(make.joint(peg, floor, "glue") for peg in pegs)
    examined = make.examined(make.piece(floor, *pegs, joints=joints, overall=floor.box))
    found = [f for f in check_piece(examined.machined, examined.scene, make.shop()) if "floor" in f.code]
    assert [f.number for f in found] == [30.0, 60.0]
