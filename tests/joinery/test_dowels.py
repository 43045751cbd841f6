"""Dowels into a leg and a case side, by hand."""

from __future__ import annotations

import pytest

from scantling.quantity import LengthUnit
from scantling.shop.model import HardwareItem, Shop


@pytest.fixture
def rail_and_leg(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (45, 45, 700))
    rail = bench_of.part("rail", (45, 10, 600), (445, 30, 690))
    return leg, rail


def test_rail_to_leg_takes_the_usual_dowels(bench_of, rail_and_leg):
    leg, rail = rail_and_leg
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels")])
    numbers = dict(made.layouts[0].numbers)
    # source: by hand: 20 mm rail, half is 10; 3 x 10 = 30 into each; 45 - 30 leaves 15
    assert numbers["diameter"] == 10.0
    assert numbers["length"] == 60.0
    assert numbers["deep in first"] == numbers["deep in second"] == 31.5
    # source: by hand: 90 mm of rail, first 2 d = 20 in, 50 between, at most 40 apart -> 3 at 25
    assert numbers["count"] == 3
    assert numbers["spacing"] == pytest.approx(25.0)
    holes = made.by_name["leg"].holes
    assert sorted(h.at for h in holes) == [(45, 20, 620), (45, 20, 645), (45, 20, 670)]
    assert {h.direction for h in holes} == {(-1.0, 0.0, 0.0)}
    assert {h.direction for h in made.by_name["rail"].holes} == {(1.0, 0.0, 0.0)}
    assert made.hardware[0].count == 3
    assert not made.notices


def test_the_length_said_is_shared_out_where_a_face_is_thin(bench_of):
    side = bench_of.part("side", (0, 0, 0), (18, 300, 700))
    shelf = bench_of.part("shelf", (18, 0, 300), (618, 300, 318))
    joint = bench_of.joint(shelf, side, "dowels", size=(8.0, 40.0))
    made = bench_of.machined([side, shelf], [joint])
    numbers = dict(made.layouts[0].numbers)
    # source: by hand: 18 - 5 left - 1.5 glue space = 11.5 into the side, the rest of 40 into the shelf
    assert numbers["deep in second"] == pytest.approx(13.0)
    assert numbers["deep in first"] == pytest.approx(40 - 11.5 + 1.5)
    # source: by hand: 40 from both ends of 300, 220 between at most 82 apart -> 4 at 73.3
    assert numbers["count"] == 4


def test_dowels_on_hand_are_taken(bench_of, rail_and_leg):
    item = HardwareItem(
        "d", "dowel", "3/8 x 2", 6.0, bench_of.place, sizes=(("diameter", 9.525), ("length", 50.8))
    )
    leg, rail = rail_and_leg
    shop = Shop("shed", LengthUnit.INCHES, hardware=(item,))
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels")], shop, unit=LengthUnit.INCHES)
    assert (made.hardware[0].size, made.hardware[0].item) == ("3/8 x 2", "d")  # source: exact, the only dowel


def test_every_sets_the_spacing_and_centres_the_row(bench_of, rail_and_leg):
    leg, rail = rail_and_leg
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels", every=50.0)])
    # source: by hand: two at 50 about the middle of 600 to 690
    assert sorted(h.at[2] for h in made.by_name["leg"].holes) == [620.0, 670.0]


def test_a_dowel_wider_than_the_part_is_a_must_notice(bench_of, rail_and_leg):
    leg, rail = rail_and_leg
    made = bench_of.machined([leg, rail], [bench_of.joint(rail, leg, "dowels", size=(22.0, 60.0))])
    notice = next(n for n in made.notices if n.code == "dowel too thick")
    assert notice.must
    assert "22 mm" in notice.message
    assert len(made.by_name["leg"].holes) == len(made.by_name["rail"].holes) > 0


def test_dowels_from_two_faces_of_a_leg_are_kept_apart(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700))
    front = bench_of.part("front", (40, 12, 200), (440, 30, 700))
    side = bench_of.part("side", (12, 40, 200), (30, 440, 700))
    joints = [
        bench_of.joint(front, leg, "dowels", every=75.0),
        bench_of.joint(side, leg, "dowels", line=2, every=75.0),
    ]
    made = bench_of.machined([leg, front, side], joints)
    assert not [n for n in made.notices if n.code == "joints clash"]
    mine = [h for h in made.by_name["leg"].holes if h.owner == joints[0].id]
    theirs = [h for h in made.by_name["leg"].holes if h.owner == joints[1].id]
    # source: brief and trade notes: 3 mm of wood between; bores cross at right angles 20 mm in
    least = min(abs(a.at[2] - b.at[2]) for a in mine for b in theirs)
    assert least >= (mine[0].diameter + theirs[0].diameter) / 2 + 3.0
    # both parts of the shifted joint still agree
    assert sorted(h.at[2] for h in theirs) == sorted(h.at[2] for h in made.by_name["side"].holes)


def test_dry_dowels_outside_the_glued_stretch_stand_in_slots(bench_of):
    from scantling.piece.model import Air, Axis, Room

    leg = bench_of.part("leg", (0, 0, 0), (45, 45, 700))
    panel = bench_of.part("panel", (45, 10, 200), (845, 30, 700), grain=Axis.WIDE)
    joint = bench_of.joint(panel, leg, "dowels", glue=bench_of.glue("part", "top", 80.0))
    made = bench_of.machined([leg, panel], [joint], room=Room(air=Air(0.25, 0.60, 21.0)))
    slots = sorted((c.box for c in made.by_name["leg"].cuts), key=lambda box: box.low[2])
    assert len(slots) + len(made.by_name["leg"].holes) == len(made.by_name["panel"].holes)
    assert made.by_name["leg"].holes[0].at[2] > 620.0  # the glued one
    lengths = [box.size(Axis.HIGH) for box in slots]
    assert lengths == sorted(lengths, reverse=True)  # longest at the bottom, farthest from the glue
    assert "dry" in made.layouts[0].text


@pytest.mark.parametrize(
    ("thick", "size", "must", "words"),
    [
        (12.0, None, False, None),  # source: by hand; 6 leaves 3 each side
        (11.0, None, False, "`rabbet`"),  # source: by hand; 6 leaves 2.5, no thinner is sold
        (8.0, None, True, "12"),  # source: by hand; 6 leaves 1; 6 + 2 x 3 = 12 thick would do
        (12.0, 8.0, True, "at most 6"),  # source: by hand; 8 leaves 2, 6 leaves 3
    ],
)
def test_a_thin_meeting_is_refused_only_where_a_mend_helps(bench_of, thick, size, must, words):
    side = bench_of.part("side", (0, 0, 0), (18, 300, 300))
    front = bench_of.part("front", (18, 0, 0), (418, thick, 300))
    said = {} if size is None else {"size": (size,)}
    made = bench_of.machined([side, front], [bench_of.joint(front, side, "dowels", **said)])
    found = [n for n in made.notices if n.code == "dowel too thick"]
    assert [n.must for n in found] == ([] if words is None else [must])
    assert all(words in n.remedy for n in found)
