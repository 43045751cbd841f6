"""Room for things, and the way of lids and trays."""

import pytest

from scantling.checks.contacts import contacts
from scantling.checks.holds import holds
from scantling.checks.loads import bearings
from scantling.checks.motion import motion
from scantling.piece.model import FLOOR, Axis, Box, Face, Hold, Movement, Room, Slide, Swing


def _machine_under_lid(make, over, clear=12.7, move=()):
    tray = make.part("tray", (0, 0, 0), (500, 300, 12), "birch plywood", Axis.WIDE)
    lid = make.part("lid", (0, 0, 312 + over), (500, 300, 330 + over), grain=Axis.WIDE)
    thing = Hold("machine", Box((50, 60, 12), (450, 240, 312)), 8.0, ("tray",), clear, make.place)
    return make.piece(tray, lid, holds=(thing,), movements=move)


def test_a_thing_with_its_clearance(make):
    assert make.ask(holds, _machine_under_lid(make, 12.7)) == ()


def test_a_thing_an_eighth_short(make):
    # source: exact; 9.5 under a lid that should be 12.7 over it is 3.2 short
    found = make.ask(holds, _machine_under_lid(make, 9.5))
    assert [f.code for f in found] == ["hold without clearance"]
    assert found[0].number == pytest.approx(9.5)
    assert found[0].limit == pytest.approx(12.7)
    assert "3.2 mm" in found[0].mend.text
    assert "lid up" in found[0].mend.text


def test_a_thing_that_stands_in_the_lid(make):
    found = make.ask(holds, _machine_under_lid(make, -20.0))
    assert [f.code for f in found] == ["hold out of place"]
    assert found[0].number == pytest.approx(-20.0)


def test_a_thing_on_nothing(make):
    piece = _machine_under_lid(make, 50.0)
    floating = make.renamed(piece.holds[0], box=Box((50, 60, 30), (450, 240, 312)))
    found = make.ask(holds, make.renamed(piece, holds=(floating,)))
    assert [f.code for f in found] == ["hold stands on nothing"]
    assert found[0].number == pytest.approx(18.0)


NO_ROOM = Room()


def _machine_before_rail(make, middle):
    """A tray 300 deep with a wall at its front and a rail behind; the thing is 100 deep."""
    tray = make.part("tray", (0, 0, 0), (500, 300, 12), "birch plywood", Axis.WIDE)
    wall = make.part("wall", (0, 0, 12), (500, 12, 80), grain=Axis.WIDE)
    rail = make.part("rail", (0, 205, 100), (500, 225, 250), grain=Axis.WIDE)
    thing = Hold(
        "machine", Box((50, middle - 50, 12), (450, middle + 50, 212)), 8.0, ("tray",), 12.7, make.place
    )
    return make.piece(tray, wall, rail, holds=(thing,))


def test_a_thing_that_can_be_set_forward(make):
    """5 mm before the rail in the middle of its tray, with 88 mm free in front: no redesign."""
    found = make.ask(holds, _machine_before_rail(make, 150))
    assert [f.code for f in found] == ["hold can be set better"]
    assert "8 mm" in found[0].mend.text
    assert "forward" in found[0].mend.text
    assert make.ask(holds, _machine_before_rail(make, 142)) == ()


def test_a_thing_with_no_room_either_way(make):
    piece = _machine_before_rail(make, 150)
    wall = make.part("wall", (0, 0, 12), (500, 80, 80), grain=Axis.WIDE)
    parts = tuple(wall if part.name == "wall" else part for part in piece.parts)
    assert [f.code for f in make.ask(holds, make.renamed(piece, parts=parts))] == ["hold without clearance"]


def _chest(make, room=NO_ROOM, angle=100.0, after=()):
    """A lid hinged at its upper back edge, 60 mm before the wall; a tray that slides forward through."""
    back = make.part("back", (0, 300, 0), (500, 320, 300), grain=Axis.WIDE)
    lid = make.part("lid", (0, 0, 300), (500, 280, 320), grain=Axis.WIDE)
    front = make.part("front", (0, 0, 100), (500, 20, 300), grain=Axis.WIDE)
    tray = make.part("tray", (20, 30, 150), (480, 280, 290), grain=Axis.WIDE)
    swing = Swing((0.0, 280.0, 320.0), (-1.0, 0.0, 0.0), angle)
    moves = (
        Movement("lid", frozenset({"lid"}), swing, make.place),
        Movement("tray", frozenset({"tray"}), Slide((0.0, -1.0, 0.0), 200.0), make.place, after=after),
    )
    return make.piece(back, lid, front, tray, movements=moves, room=room)


def test_a_tray_behind_a_front_cannot_come_out(make):
    found = make.ask(motion, _chest(make))
    assert [f.code for f in found] == ["movement blocked"]
    assert found[0].where == ("tray", "front")
    assert found[0].number == pytest.approx(10.0, abs=0.01)


def test_a_front_that_drops_first_is_found_as_the_mend(make):
    piece = _chest(make)
    drop = Movement("front", frozenset({"front"}), Slide((0.0, 0.0, -1.0), 200.0), make.place)
    piece = make.renamed(
        piece, movements=(*piece.movements, drop), overall=Box((0, 0, -100), (500, 320, 320))
    )
    found = [f for f in make.ask(motion, piece) if f.where[0] == "tray"]
    assert found[0].mend.changes[0].to == "front"
    waiting = make.renamed(piece.movements[1], after=("front",))
    piece = make.renamed(piece, movements=(piece.movements[0], waiting, drop))
    assert [f for f in make.ask(motion, piece) if f.where[0] == "tray"] == []


def test_a_lid_that_meets_the_wall(make):
    """280 deep about an edge 40 mm from the wall: past upright the wall stops it."""
    found = make.ask(motion, _chest(make, Room(against=(Face.BACK,)), angle=115.0))
    wall = next(f for f in found if f.code == "swings into the room")
    # source: by hand; the far edge reaches 280 sin(a) past the hinge at 90 + a: sin a = 40/280, a = 8.2
    assert wall.number == pytest.approx(98.2, abs=0.1)
    assert wall.must_fix


def test_a_lid_with_room_behind(make):
    found = make.ask(motion, _chest(make, Room(against=(Face.BACK,)), angle=97.0))
    assert "swings into the room" not in [f.code for f in found]


def test_a_thing_in_a_tray_meets_the_front(make):
    """The tray passes under the front, what stands on it does not."""
    tray = make.part("tray", (20, 30, 50), (480, 280, 62), grain=Axis.WIDE)
    front = make.part("front", (0, 0, 100), (500, 20, 300), grain=Axis.WIDE)
    thing = Hold("machine", Box((100, 60, 62), (400, 240, 250)), 8.0, ("tray",), 0.0, make.place)
    slide = Movement("tray", frozenset({"tray"}), Slide((0.0, -1.0, 0.0), 200.0), make.place)
    bottom = make.part("bottom", (0, 0, 0), (500, 300, 12), grain=Axis.WIDE)
    found = make.ask(motion, make.piece(tray, front, bottom, holds=(thing,), movements=(slide,)))
    assert [f.code for f in found] == ["movement blocked"]
    assert "machine meets front" in found[0].message
    assert found[0].number == pytest.approx(40.0, abs=0.01)


def test_two_parts_in_one_place(make):
    one = make.part("one", (0, 0, 0), (100, 50, 20))
    two = make.part("two", (90, 0, 0), (200, 50, 20))
    found = make.ask(contacts, make.piece(one, two))
    assert found[0].code == "parts in one another"
    assert found[0].must_fix


def test_a_joint_across_a_gap(make):
    rail = make.part("rail", (0, 0, 0), (500, 20, 60))
    leg = make.part("leg", (500, 0, 0), (540, 40, 700))
    joint = make.joint(rail, leg, "tenon")
    short = make.part("rail", (0, 0, 0), (496.8, 20, 60))
    found = make.ask(contacts, make.piece(short, leg, joints=(joint,)))
    assert [f.code for f in found] == ["joint across a gap"]
    assert found[0].number == pytest.approx(3.2)
    assert make.ask(contacts, make.piece(rail, leg, joints=(joint,))) == ()


def test_a_touch_that_nothing_explains(make):
    rail = make.part("rail", (0, 0, 0), (500, 20, 60))
    leg = make.part("leg", (500, 0, 0), (540, 40, 700))
    found = make.ask(contacts, make.piece(rail, leg))
    assert [f.code for f in found] == ["touch without joint"]


def test_a_part_in_the_air(make):
    base = make.part("base", (0, 0, 0), (500, 300, 20))
    lost = make.part("lost", (0, 0, 100), (500, 20, 120))
    other = make.part("other", (0, 100, 20), (500, 120, 60))
    found = make.ask(contacts, make.piece(base, other, lost, joints=(make.joint(other, base, "glue"),)))
    assert [f.code for f in found] == ["loose part"]
    assert found[0].where == ("lost",)


def test_a_thing_on_the_floor_stands_and_weighs_on_no_part(make):
    piece = _machine_under_lid(make, 12.7)
    on_floor = make.renamed(piece.holds[0], on=(FLOOR,), clear=0.0)
    whole = make.renamed(piece, holds=(on_floor,))
    assert make.ask(holds, whole) == ()
    assert bearings(make.examined(whole)) == ()
