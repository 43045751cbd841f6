"""Line drawings and shaded pictures: lengths and areas that can be worked out, and SVG that reads back."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from math import hypot, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import CrossSection, OpType

from scantling.geometry import View, line_drawing, scene_of, shaded_picture
from scantling.geometry.svg import loop_path, segment_path
from scantling.joinery.features import Cut, Hole
from scantling.piece.model import (
    Axis,
    Box,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Outline,
    OutlineKind,
    Placement,
    Section,
    Shape,
)


def length(segments):
    return sum(hypot(u2 - u1, v2 - v1) for u1, v1, u2, v2 in segments)


def total(drawing_side):
    return sum(length(segments) for segments in drawing_side.values())


def area(loops):
    out = 0.0
    for loop in loops:
        points = np.array(loop)
        then = np.roll(points, -1, 0)
        out += float((points[:, 0] * then[:, 1] - then[:, 0] * points[:, 1]).sum()) / 2
    return out


def test_box_from_the_front(by_hand):
    """Four edges seen; the four behind them lie on the same lines and are not drawn again."""
    # source: by hand; 2·(100 + 20)
    scene = scene_of(by_hand.piece(by_hand.part("a", (0, 0, 0), (100, 40, 20))))
    drawing = line_drawing(scene, View.named("front"))
    assert total(drawing.visible) == pytest.approx(240)
    assert drawing.hidden == {}
    assert (drawing.low, drawing.high) == ((0, 0), (100, 20))


def test_box_from_a_corner(by_hand):
    """Nine edges seen, three behind: three of each direction against one."""
    # source: exact; each axis is foreshortened by sqrt(1 - (axis·toward)²)
    view = View.turned(30, 20)
    scene = scene_of(by_hand.piece(by_hand.part("a", (0, 0, 0), (100, 40, 20))))
    drawing = line_drawing(scene, view)
    short = [size * (1 - view.toward[a] ** 2) ** 0.5 for a, size in enumerate((100, 40, 20))]
    assert total(drawing.visible) == pytest.approx(3 * sum(short), rel=1e-6)
    assert total(drawing.hidden) == pytest.approx(sum(short), rel=1e-3)


def test_post_before_a_rail(by_hand):
    """A post 40 wide hides 40 of the rail's two long edges; the rail hides nothing of the post."""
    # source: by hand
    rail = by_hand.part("rail", (0, 50, 100), (300, 70, 160))
    post = by_hand.part("post", (100, 0, 0), (140, 40, 300))
    drawing = line_drawing(scene_of(by_hand.piece(rail, post)), View.named("front"))
    assert length(drawing.visible["rail"]) == pytest.approx(2 * (300 - 40) + 2 * 60, abs=0.05)
    assert length(drawing.hidden["rail"]) == pytest.approx(80, abs=0.05)
    assert length(drawing.visible["post"]) == pytest.approx(2 * 300 + 2 * 40)
    assert "post" not in drawing.hidden


def test_only_some_parts_and_moved(by_hand, desk):
    """A single leg stands whole; pulled 500 forward it is before the front rail, not beside it."""
    # source: by hand
    scene = scene_of(desk)
    one = line_drawing(scene, View.named("front"), parts=["leg 1"])
    assert total(one.visible) == pytest.approx(2 * (720 + 40))
    moved = {"leg 1": Placement(shift=(100.0, -500.0, 0.0))}
    drawing = line_drawing(scene, View.named("front"), ["leg 1", "front rail"], moved)
    assert length(drawing.hidden["front rail"]) == pytest.approx(40, abs=0.05)  # the upper edges coincide


def test_touching_parts_share_a_line_once(by_hand):
    """Two boards edge to edge: the seam is one line, and long edges run on."""
    # source: by hand; outline 2·(100 + 40) and one seam of 100
    a, b = by_hand.part("a", (0, 0, 0), (100, 10, 20)), by_hand.part("b", (0, 0, 20), (100, 10, 40))
    drawing = line_drawing(scene_of(by_hand.piece(a, b)), View.named("front"))
    assert total(drawing.visible) == pytest.approx(2 * 140 + 100)


def test_holes_only_when_wanted(by_hand):
    """A hole of 10 adds its circle only when asked for; a cord hole of 50 is always there."""
    # source: exact; π·d, by a polygon
    part = by_hand.part(
        "a",
        (0, 0, 0),
        (100, 40, 80),
        features={"holes": (Hole((70, 0, 40), (0, 1, 0), 10, 10, "dowel", "j"),)},
    )
    scene = scene_of(by_hand.piece(part))
    plain = total(line_drawing(scene, View.named("front")).visible)
    assert plain == pytest.approx(360)
    drilled = total(line_drawing(scene, View.named("front"), holes=True).visible)
    assert drilled - plain == pytest.approx(10 * pi, rel=2e-2)
    cord = Hole((35, 0, 40), (0, 1, 0), 50, 40, "cord", "work", True)
    wide = by_hand.replace(part, holes=(*part.holes, cord))
    bored = total(line_drawing(scene_of(by_hand.piece(wide)), View.named("front")).visible)
    assert bored - plain == pytest.approx(50 * pi, rel=5e-3)


def test_round_stick_has_two_sides(by_hand):
    """A cylinder from the front: two silhouettes and two ends, no facets."""
    # source: by hand; 2·300 + 2·20, the polygon of 16 sides being narrower by 0.13
    part = by_hand.part("a", (0, 0, 0), (20, 20, 300), shape=Shape(section=Section.ROUND))
    drawing = line_drawing(scene_of(by_hand.piece(part)), View.named("front"), hidden=False)
    assert total(drawing.visible) == pytest.approx(640, abs=0.3)


def test_rounded_corner_draws_no_line_where_it_is_smooth(by_hand):
    """Tangent arcs run into the flats: from the front only the outline of the box."""
    # source: by hand
    shape = Shape(outline=Outline(OutlineKind.CORNERS, Face.TOP, 30))
    part = by_hand.part("a", (0, 0, 0), (300, 200, 20), shape=shape)
    assert total(line_drawing(scene_of(by_hand.piece(part)), View.named("front")).visible) == pytest.approx(
        640
    )


def silhouette(scene, view):
    """Area of all triangles thrown on the paper and united."""
    eye = np.array([view.right, view.up])
    shapes = []
    for solid in scene.solids.values():
        mesh, place = solid.body.plain_mesh, solid.placement
        flat = (mesh.verts @ np.array(place.turn).T + np.array(place.shift)) @ eye.T
        for triangle in flat[mesh.tris]:
            u, v = triangle[1] - triangle[0], triangle[2] - triangle[0]
            turn = u[0] * v[1] - u[1] * v[0]
            if abs(turn) > 1e-9:
                shapes.append(CrossSection([triangle if turn > 0 else triangle[::-1]]))
    return CrossSection.batch_boolean(shapes, OpType.Add).area()


@pytest.mark.parametrize("name", ["front", "left", "top", "corner"])
def test_regions_fill_the_silhouette(desk, name):
    """Areas of the regions sum to the area of the shadow of all parts."""
    # source: independent; union of all projected triangles
    scene, view = scene_of(desk), View.named(name)
    picture = shaded_picture(scene, view)
    assert sum(area(region.loops) for region in picture.regions) == pytest.approx(
        silhouette(scene, view), rel=1e-6
    )


def test_box_from_a_corner_shows_three_faces(by_hand):
    # source: exact; each face times its cosine to the eye
    view = View.turned(30, 20)
    picture = shaded_picture(scene_of(by_hand.piece(by_hand.part("a", (0, 0, 0), (100, 40, 20)))), view)
    areas = sorted(area(region.loops) for region in picture.regions)
    faces = [size * abs(t) for size, t in zip((800, 2000, 4000), view.toward, strict=True)]
    assert areas == pytest.approx(sorted(faces))


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.floats(-180, 180), st.floats(-80, 80))
def test_crossing_boxes_from_anywhere(by_hand, seed, azimuth, elevation):
    """Boxes thrown together, some in each other: regions still fill the silhouette and no more."""
    # source: independent; union of all projected triangles
    rng = np.random.default_rng(seed)
    lows, sizes = rng.uniform(0, 150, (5, 3)), rng.uniform(10, 90, (5, 3))
    parts = [
        by_hand.part(f"p{i}", low.tolist(), (low + size).tolist(), grain=Axis.WIDE)
        for i, (low, size) in enumerate(zip(lows, sizes, strict=True))
    ]
    scene, view = scene_of(by_hand.piece(*parts)), View.turned(azimuth, elevation)
    regions = shaded_picture(scene, view, lines=False).regions
    assert sum(area(region.loops) for region in regions) == pytest.approx(silhouette(scene, view), rel=2e-3)


def test_tones(by_hand, desk):
    """A named part takes the tone it is given, shaded by its faces; others are cherry."""
    # source: by hand; `marked` is redder than cherry
    picture = shaded_picture(
        scene_of(desk), View.named("front"), tones={"front rail": (0, 0, 250), "top": "faded"}
    )
    rail = next(region for region in picture.regions if region.part == "front rail")
    assert rail.colour[:2] == (0, 0)
    assert rail.colour[2] > 150
    with pytest.raises(ValueError, match="marked"):
        shaded_picture(scene_of(desk), View.named("front"), tones={"top": "bright"})


def test_shadow_of_a_plate(by_hand):
    """A plate 50 above a floor throws a shadow of its own size, shifted as the sun stands."""
    # source: by hand; shift 50·(.35, .75)/.55 = (31.8, 68.2), less what the plate itself covers
    floor = by_hand.part("floor", (0, 0, 0), (400, 400, 10), grain=Axis.WIDE)
    plate = by_hand.part("plate", (150, 150, 60), (250, 250, 70), grain=Axis.WIDE)
    scene = scene_of(by_hand.piece(floor, plate))
    picture = shaded_picture(scene, View.named("top"), shadows=True)
    dark = sum(area(region.loops) for region in picture.regions if not region.lit)
    top, bottom = (60, 50)  # the shadow of a plate 10 thick reaches from its upper to its lower edges
    long, short = (0.35 / 0.55, 0.75 / 0.55)
    thrown = 100 * 100 + 10 * (100 * long + 100 * short)
    hidden = (100 - bottom * long) * (100 - bottom * short)
    assert dark == pytest.approx(thrown - hidden, rel=1e-3)
    assert top == bottom + 10
    whole = sum(area(region.loops) for region in picture.regions)
    assert whole == pytest.approx(400 * 400)


def test_svg_is_sound_and_to_scale(desk):
    """One path a weight, real millimetres of paper, up turned over; ids when asked for."""
    # source: by hand; 1040 x 740 at 1:10 and 2 mm round it
    drawing = line_drawing(scene_of(desk), View.named("front"))
    root = ET.fromstring(drawing.svg(0.1))
    assert root.get("viewBox") == "-4 -76 108 78"
    assert root.get("width") == "108mm"
    paths = root.findall("{http://www.w3.org/2000/svg}path")
    assert len(paths) == 2
    numbers = [float(n) for n in re.findall(r"-?\d*\.?\d+", paths[-1].get("d"))]
    assert max(map(abs, numbers)) <= 108
    named = ET.fromstring(drawing.svg(0.1, ids=True)).findall("{http://www.w3.org/2000/svg}path")
    assert {path.get("data-part") for path in named} >= {"leg 1", "top"}


def test_path_data():
    """Segments that meet are one run; a loop is closed; what vanishes on the paper is left out."""
    # source: by hand
    assert segment_path([(0, 0, 10, 0), (10, 5, 10, 0)], 1.0) == "M0 0l10 0 0 -5"
    assert segment_path([(0, 0, 0.001, 0)], 1.0) == ""
    assert loop_path([(0, 0), (10, 0), (10, 5)], 0.1) == "M0 0l1 0 0 -.5z"
    assert loop_path([(0, 0), (0.01, 0), (0.01, 0.01)], 0.1) == ""


def test_same_input_same_picture(desk, by_hand):
    # source: by hand
    once = shaded_picture(scene_of(desk), View.named("corner")).svg(0.2)
    assert shaded_picture(scene_of(by_hand.replace(desk)), View.named("corner")).svg(0.2) == once


def test_rabbet_and_notch_are_drawn(by_hand):
    """A notch 200 wide, 30 high in a rail's lower edge shows its three sides; a rabbet shows one line."""
    # source: by hand; outline 2·(400 + 60) + 2·30 for the notch; rabbet line 400
    part = by_hand.part(
        "rail",
        (0, 0, 0),
        (400, 20, 60),
        features={"cuts": (Cut(Box((100, 0, 0), (300, 20, 30)), Face.BOTTOM, "notch", "j"),)},
    )
    assert total(line_drawing(scene_of(by_hand.piece(part)), View.named("front")).visible) == pytest.approx(
        980
    )
    work = (EdgeWork(EdgeKind.RABBET, Face.TOP, (Edge(Face.TOP, Face.FRONT),), 6, 10),)
    part = by_hand.part("rail", (0, 0, 0), (400, 20, 60), work=work)
    assert total(line_drawing(scene_of(by_hand.piece(part)), View.named("front")).visible) == pytest.approx(
        1320
    )


def test_views_are_right_handed():
    # source: by hand; right x up = toward
    for name in ("front", "back", "left", "right", "top", "bottom", "corner"):
        view = View.named(name)
        assert np.cross(view.right, view.up) == pytest.approx(view.toward)
    with pytest.raises(ValueError, match="corner"):
        View.named("side")
