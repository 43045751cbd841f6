"""Contacts and overlaps of boxes that can be worked out in the head."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest

from scantling.geometry import found_contacts, mass_of, overlaps, scene_of
from scantling.joinery.features import Addition, Cut, Hole
from scantling.piece.model import Axis, Box, Face, Material, MaterialKind, Placement, Section, Shape
from scantling.wood import panel_named, species_named


def contact(found, first, second):
    return next(c for c in found if {c.first, c.second} == {first, second})


def test_table_of_nine_parts(desk):
    """Eight rail ends of 2,000 mm², four leg tops of 1,600, four rail tops: 16 contacts in all."""
    # source: by hand
    found = found_contacts(scene_of(desk))
    assert len(found) == 16
    assert contact(found, "front rail", "leg 1").area == pytest.approx(2000)
    assert contact(found, "leg 3", "top").area == pytest.approx(1600)
    assert contact(found, "front rail", "top").area == pytest.approx(920 * 20)
    joint = contact(found, "leg 1", "front rail")
    assert joint.normal == pytest.approx((1, 0, 0))
    assert joint.centre == pytest.approx((40, 20, 670))


def test_tenon_in_its_mortise(by_hand):
    """Shoulder less mortise, two cheeks, two edges and no bottom (2 mm of room): areas add up."""
    # source: by hand; 20·60 - 8·40; twice 40·20; twice 8·20; gap at the bottom touches nothing
    leg = by_hand.part(
        "leg",
        (0, -10, 0),
        (40, 30, 300),
        features={"cuts": (Cut(Box((18, 6, 210), (40, 14, 250)), Face.RIGHT, "mortise", "j"),)},
    )
    rail = by_hand.part(
        "rail",
        (40, 0, 200),
        (400, 20, 260),
        features={"additions": (Addition(Box((20, 6, 210), (40, 14, 250)), Face.LEFT, "tenon", "j"),)},
    )
    found = found_contacts(scene_of(by_hand.piece(leg, rail)))
    areas = sorted(round(c.area, 6) for c in found)
    assert areas == [160, 160, 800, 800, 20 * 60 - 8 * 40]
    assert overlaps(scene_of(by_hand.piece(leg, rail))) == ()


def test_bore_in_a_face_leaves_its_area_out(by_hand):
    # source: by hand; 100·40 - π·15²
    a = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 20),
        features={"holes": (Hole((50, 20, 20), (0, 0, -1), 30, 5, "cup", "j"),)},
    )
    b = by_hand.part("b", (0, 0, 20), (100, 40, 40))
    found = found_contacts(scene_of(by_hand.piece(a, b)))
    assert [c.area for c in found] == pytest.approx([4000 - pi * 225])


@pytest.mark.parametrize(("gap", "touches"), [(0.04, True), (0.06, False)])
def test_the_tolerance_is_five_hundredths(by_hand, gap, touches):
    # source: by hand; TOUCH
    a = by_hand.part("a", (0, 0, 0), (100, 40, 20))
    b = by_hand.part("b", (0, 0, 20 + gap), (100, 40, 40))
    assert bool(found_contacts(scene_of(by_hand.piece(a, b)))) == touches


def test_least_area_is_twenty_five(by_hand):
    # source: by hand; 5·4.9 and 5·5.1
    a = by_hand.part("a", (0, 0, 0), (100, 40, 20))
    for wide, count in ((4.9, 0), (5.1, 1)):
        b = by_hand.part("b", (0, 0, 20), (wide, 5, 60))
        assert len(found_contacts(scene_of(by_hand.piece(a, b)))) == count


def test_turned_parts_meet_on_a_slope(by_hand):
    """Two boards tilted alike by 15 degrees, one on the other, shifted half along: half the face."""
    # source: by hand; 50·40
    c, s = cos(radians(15)), sin(radians(15))
    tilt = ((c, 0.0, s), (0.0, 1.0, 0.0), (-s, 0.0, c))
    up = tuple(20 * row[2] + 50 * row[0] for row in tilt)
    a = by_hand.part("a", (0, 0, 0), (100, 40, 20), placement=Placement(tilt))
    b = by_hand.part("b", (0, 0, 0), (100, 40, 20), placement=Placement(tilt, up))
    found = found_contacts(scene_of(by_hand.piece(a, b)))
    assert [f.area for f in found] == pytest.approx([2000])
    assert found[0].normal == pytest.approx((s, 0, c))


def test_overlap_is_judged_by_depth(by_hand):
    """A slab 0.02 deep is a touch; a corner 10 x 10 x 10 is an overlap of 1,000 mm³."""
    # source: by hand; depth 2·V/A = 2·1000/600
    a = by_hand.part("a", (0, 0, 0), (100, 40, 20))
    thin = by_hand.part("b", (0, 0, 19.98), (100, 40, 40))
    deep = by_hand.part("b", (90, 30, 10), (200, 100, 40))
    assert overlaps(scene_of(by_hand.piece(a, thin))) == ()
    (found,) = overlaps(scene_of(by_hand.piece(a, deep)))
    assert (found.first, found.second) == ("a", "b")
    assert found.volume == pytest.approx(1000)
    assert found.depth == pytest.approx(2000 / 600)
    assert found.centre == pytest.approx((95, 35, 15))


def test_round_tenon_fits_its_hole(by_hand):
    """Polygons of one size laid differently are not an overlap."""
    # source: by hand
    post = by_hand.part(
        "post",
        (0, 0, 0),
        (40, 40, 200),
        features={"holes": (Hole((40, 20, 100), (-1, 0, 0), 16, 22, "socket", "j"),)},
    )
    rung = by_hand.part(
        "rung",
        (40, 10, 90),
        (300, 30, 110),
        shape=Shape(section=Section.ROUND),
        features={"additions": (Addition(Box((20, 12, 92), (40, 28, 108)), Face.LEFT, "tenon", "j", 16),)},
    )
    assert overlaps(scene_of(by_hand.piece(post, rung))) == ()


def test_mass_is_volume_times_density(by_hand):
    """A litre of cherry and half a litre of plywood beside it; the centre by the lever rule."""
    # source: by hand; densities from the handbook's own tables in wood/
    ply = Material("ply", "birch plywood 12", MaterialKind.SHEET, "birch plywood")
    a = by_hand.part("a", (0, 0, 0), (100, 100, 100), grain=Axis.WIDE)
    b = by_hand.part("b", (100, 0, 0), (150, 100, 100), grain=Axis.HIGH, material=ply)
    mass = mass_of(scene_of(by_hand.piece(a, b)))
    cherry, birch = species_named("cherry, black").density / 1000, panel_named("birch plywood").density / 2000
    assert mass.by_part == pytest.approx({"a": cherry, "b": birch})
    assert mass.total == pytest.approx(cherry + birch)
    assert mass.centre == pytest.approx(((cherry * 50 + birch * 125) / (cherry + birch), 50, 50))


def test_of_overlaps_that_are_alike_the_first_two_dozen_are_given(by_hand):
    """Two hundred equal copies in one place: 19,900 pairs, and one other part in all of them."""
    from time import process_time

    one = by_hand.part("stick 1", (0, 0, 0), (100, 20, 20))
    alike = [
        by_hand.replace(one, part=by_hand.replace(one.part, name=f"stick {n}", definition="stick"))
        for n in range(1, 201)
    ]
    post = by_hand.part("post", (40, 0, -50), (60, 20, 50))
    scene = scene_of(by_hand.piece(*alike, post))
    start = process_time()
    found = [(overlap.first, overlap.second) for overlap in overlaps(scene)]
    assert process_time() - start < 1
    # source: by hand; pairs in the order of the parts
    assert found[:2] == [("stick 1", "stick 2"), ("stick 1", "stick 3")]
    assert [sum(second == "post" for _, second in found), len(found)] == [24, 48]
