"""OCP as an oracle for volumes, and STEP files opened again by it. Left out where it is not installed."""

from __future__ import annotations

import importlib.util
from math import cos, pi, radians, sin

import pytest

from scantling.errors import MissingTool
from scantling.geometry import StepFailed, scene_of, write_step
from scantling.joinery.features import Addition, Cope, Cut, Hole, Prism, Shaped, Trim
from scantling.piece.model import (
    ArchWork,
    Axis,
    Box,
    DishWork,
    Edge,
    EdgeKind,
    EdgeWork,
    Face,
    Lean,
    Outline,
    OutlineKind,
    PathPoint,
    Placement,
    Section,
    Shape,
    Taper,
)

installed = importlib.util.find_spec("OCP") is not None
needs_ocp = pytest.mark.skipif(not installed, reason="the extra `step` is not installed")


def volume_by_ocp(shape):
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found)
    return found.Mass(), (found.CentreOfMass().X(), found.CentreOfMass().Y(), found.CentreOfMass().Z())


def every_edge(kind, size):
    return EdgeWork(kind, Face.TOP, (Edge(Face.TOP, Face.FRONT), Edge(Face.TOP, Face.RIGHT)), size, size)


def samples(by_hand):
    p = by_hand.part
    slant = (cos(radians(9)), 0.0, sin(radians(9)))
    return {
        "rail": p(
            "rail",
            (0, 0, 0),
            (300, 22, 70),
            features={
                "additions": (Addition(Box((300, 6, 10), (330, 16, 60)), Face.RIGHT, "tenon", "a"),),
                "cuts": (Cut(Box((0, 8, 60), (300, 14, 70)), Face.TOP, "groove", "b"),),
                "holes": (
                    Hole((40, 0, 30), (0, 1, 0), 8, 15, "dowel", "c"),
                    Hole((200, 22, 20), (0.6, -0.8, 0), 7, 22, "pocket", "d"),
                ),
                "trims": (Trim((0, 11, 35), (-slant[0], 0, -slant[2]), Face.LEFT, "e"),),
            },
        ),
        "tails": p(
            "tails",
            (0, 0, 0),
            (200, 12, 90),
            features={
                "additions": (Addition(Box((200, 0, 0), (215, 12, 90)), Face.RIGHT, "tails", "a"),),
                "shaped": tuple(
                    Shaped(
                        Prism(1, 0, 12, ((200, z + 3), (215, z), (215, z + 16), (200, z + 13))),
                        Face.RIGHT,
                        "gap",
                        "a",
                    )
                    for z in (10, 40, 70)
                ),
            },
        ),
        "leaning leg": p(
            "leaning leg",
            (0, 0, 0),
            (40, 40, 500),
            shape=Shape(Lean(Face.BOTTOM, (-60, -50)), Taper(Face.BOTTOM, 22, 350, frozenset())),
            features={"cuts": (Cut(Box((15, 0, 400), (25, 18, 460)), Face.FRONT, "mortise", "a", True),)},
        ),
        "turned leg": p(
            "turned leg",
            (0, 0, 0),
            (40, 40, 500),
            shape=Shape(
                Lean(Face.BOTTOM, (-60, -50)), Taper(Face.BOTTOM, 22, 350, frozenset()), Section.ROUND
            ),
            features={"holes": (Hole((20, 0, 430), (0, 1, 0), 16, 20, "tenon", "a"),)},
        ),
        "oval leg": p(
            "oval leg",
            (0, 0, 0),
            (40, 30, 400),
            shape=Shape(taper=Taper(Face.TOP, 15, 100, frozenset({Face.LEFT})), section=Section.OVAL),
        ),
        "seat": p(
            "seat",
            (0, 0, 0),
            (330, 330, 38),
            grain=Axis.WIDE,
            shape=Shape(outline=Outline(OutlineKind.ROUND, Face.TOP)),
            work=(DishWork(Face.TOP, 9, 25), every_edge(EdgeKind.ROUND_OVER, 6)),
            features={"holes": (Hole((80, 165, 38), (-0.28, 0.0, -0.96), 25, 60, "tenon", "a", True),)},
        ),
        "tray": p(
            "tray",
            (0, 0, 0),
            (400, 300, 20),
            shape=Shape(outline=Outline(OutlineKind.OVAL, Face.TOP)),
            work=(every_edge(EdgeKind.RABBET, 6),),
        ),
        "stick": p("stick", (0, 0, 0), (30, 24, 500), shape=Shape(section=Section.OVAL)),
        "column": p("column", (0, 0, 0), (90, 90, 500), shape=Shape(section=Section.OCTAGON)),
        "round top": p(
            "round top",
            (0, 0, 0),
            (600, 600, 22),
            grain=Axis.WIDE,
            shape=Shape(outline=Outline(OutlineKind.ROUND, Face.TOP)),
            work=(every_edge(EdgeKind.CHAMFER, 4),),
        ),
        "apron": p(
            "apron",
            (0, 0, 0),
            (500, 500, 70),
            grain=Axis.WIDE,
            shape=Shape(outline=Outline(OutlineKind.RING, Face.TOP, 22)),
        ),
        "foot": p(
            "foot",
            (0, 0, 0),
            (30, 400, 200),
            shape=Shape(
                outline=Outline(
                    OutlineKind.PATH,
                    Face.RIGHT,
                    path=(
                        PathPoint(0, 80),
                        PathPoint(300, 0, -30),
                        PathPoint(400, 0),
                        PathPoint(400, 40),
                        PathPoint(0, 200, 40),
                    ),
                )
            ),
        ),
        "lid": p(
            "lid",
            (0, 0, 0),
            (500, 300, 18),
            shape=Shape(outline=Outline(OutlineKind.CORNERS, Face.TOP, 60)),
            work=(every_edge(EdgeKind.ROUND_OVER, 5), every_edge(EdgeKind.RABBET, 3)),
        ),
        "shelf": p(
            "shelf",
            (0, 0, 0),
            (600, 250, 18),
            work=(
                every_edge(EdgeKind.ROUND_OVER, 5),
                ArchWork(Face.FRONT, Axis.WIDE, 100, 500, 20),
                DishWork(Face.TOP, 4, 60),
            ),
        ),
    }


NAMES = ["rail", "tails", "leaning leg", "turned leg", "oval leg", "stick", "column", "seat", "tray"]
NAMES += ["round top", "apron", "foot", "lid", "shelf"]


@needs_ocp
@pytest.mark.parametrize("name", NAMES)
def test_volume_and_centre_agree_with_ocp(by_hand, name):
    """The same recipe built with true cylinders and arcs by another kernel."""
    # source: independent; OCP 8 mass properties
    from scantling.geometry.exact import exact_solid

    solid = scene_of(by_hand.piece(samples(by_hand)[name])).solids[name]
    volume, centre = volume_by_ocp(exact_solid(solid.body.recipe))
    assert solid.volume == pytest.approx(volume, rel=2e-5)
    assert solid.centre == pytest.approx(centre, abs=0.01)


@needs_ocp
def test_coped_end_agrees_with_ocp(by_hand):
    # source: independent; OCP 8
    from scantling.geometry.exact import exact_solid

    leg = by_hand.part("leg", (40, -20, 0), (80, 20, 300), shape=Shape(section=Section.ROUND))
    rail = by_hand.part(
        "rail", (-100, -10, 100), (40, 10, 120), features={"copes": (Cope(Face.RIGHT, "leg", "j"),)}
    )
    solid = scene_of(by_hand.piece(leg, rail)).solids["rail"]
    assert solid.volume == pytest.approx(volume_by_ocp(exact_solid(solid.body.recipe))[0], rel=2e-4)


@needs_ocp
def test_step_file_reads_back(by_hand, tmp_path):
    """Names, colours, places and volumes survive the file; a turned part stands turned."""
    # source: independent; the file read by OCP's own reader
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    turned = Placement(((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), (500.0, 0.0, 0.0))
    rail = samples(by_hand)["rail"]
    plain = by_hand.part("über slat", (0, 0, 200), (300, 60, 218), placement=turned)
    scene = scene_of(by_hand.piece(rail, plain))
    path = write_step(scene, tmp_path / "piece.step", colours={"rail": (200, 100, 50)})

    assert "AP242" in path.read_text(encoding="latin-1")
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    found = read_back(shapes)
    assert set(found) == {"rail", "über slat"}
    for name, (volume, centre) in found.items():
        assert volume == pytest.approx(scene.solids[name].volume, rel=1e-6)
        assert centre == pytest.approx(scene.solids[name].centre, abs=0.01)


def read_back(shapes):
    from OCP.collections import Sequence_TDF_Label
    from OCP.TDataStd import TDataStd_Name
    from OCP.XCAFDoc import XCAFDoc_ShapeTool

    labels = Sequence_TDF_Label()
    shapes.GetFreeShapes(labels)
    out = {}
    for i in range(1, labels.Length() + 1):
        name = TDataStd_Name()
        assert labels.Value(i).FindAttribute(TDataStd_Name.GetID_s(), name)
        out[name.Get().ToExtString()] = volume_by_ocp(XCAFDoc_ShapeTool.GetShape_s(labels.Value(i)))
    return out


def test_without_ocp_it_says_what_to_install(by_hand, tmp_path, monkeypatch):
    """No OCP: the error names the extra and what still works."""
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    scene = scene_of(by_hand.piece(by_hand.part("a", (0, 0, 0), (9, 9, 9), grain=Axis.WIDE)))
    with pytest.raises(MissingTool, match=r"scantling\[step\]"):
        write_step(scene, tmp_path / "piece.step")


@needs_ocp
def test_a_slow_step_file_is_left_out(by_hand, tmp_path):
    """The child is ended in time, and the message says that nothing else is missing."""
    scene = scene_of(by_hand.piece(by_hand.part("a", (0, 0, 0), (9, 9, 9), grain=Axis.WIDE)))
    with pytest.raises(StepFailed, match=r"not ready within 0.05 seconds.*complete without it"):
        write_step(scene, tmp_path / "piece.step", seconds=0.05)


def test_circle_of_the_apron(by_hand, solid_of_part):
    """The apron of the samples by formula, so that the oracle itself is checked once."""
    # source: by hand; π(250² - 228²)·70
    assert solid_of_part(samples(by_hand)["apron"]).volume == pytest.approx(pi * (250**2 - 228**2) * 70)
