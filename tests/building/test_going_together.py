"""In which order pieces go together, on frames one can do in the head."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.building.assembly import Manner, assemblies, in_room, shop_joints, units
from scantling.building.closing import closings
from scantling.building.clusters import merged
from scantling.piece.model import Axis, Face


def _singles(piece):
    return tuple(frozenset({part.name}) for part in piece.parts)


def _sets(steps):
    return [sorted(step.after) for step in steps]


def test_ties_draw_clusters_together():
    clusters = tuple(frozenset({name}) for name in "abcde")
    assert merged(clusters, [("a", "c"), ("c", "e")]) == (frozenset("ace"), frozenset("b"), frozenset("d"))


def test_a_table_glues_its_end_frames_first(table_frame):
    # source: by hand; two flat ends 40 thick are less bulk than two fronts
    found = closings(_singles(table_frame), table_frame.joints, table_frame)
    assert [len(closing.joints) for closing in found] == [2, 2, 4]
    assert all(len(closing.after) == 3 for closing in found[:2])
    assert found[-1].after == frozenset(table_frame.part_by_name)


def test_a_panel_goes_in_as_its_frame_closes(door):
    found = closings(_singles(door), door.joints, door)
    # source: by hand: stiles squeeze rails and panel in one go
    assert len(found) == 1
    assert found[0].after == frozenset(door.part_by_name)
    assert len(found[0].joints) == 8
    assert len(found[0].before) == 5


def test_a_drawer_closes_from_both_sides(drawer):
    steps = assemblies(drawer)
    # source: geometry: tails along the sides lock front to back, so the sides come on sideways; the back is
    # dadoed into them the same way, the bottom lies in the front's groove before they close
    assert _sets(steps)[0] == ["back", "bottom", "front", "left side", "right side"]
    assert (steps[0].axis, len(steps[0].joints)) == (Axis.WIDE, 7)
    assert (steps[1].manner, steps[1].joints[0].method) == (Manner.FASTEN, "screws")
    assert [step.cures for step in steps] == [True, False]
    assert [step.last for step in steps] == [False, True]


def test_crossed_stretchers_are_lapped_first(make_part, make_joint, make_piece):
    parts = [
        make_part("long", (0, 90, 0), (200, 110, 20)),
        make_part("cross", (90, 0, 0), (110, 200, 20)),
        make_part("left post", (-40, 80, 0), (0, 120, 300)),
        make_part("front post", (80, -40, 0), (120, 0, 300)),
    ]
    joints = [
        make_joint("long", "left post", "tenon", Face.LEFT),
        make_joint("cross", "front post", "tenon", Face.FRONT),
        make_joint("long", "cross", "cross lap", Face.BOTTOM),
    ]
    assert _sets(assemblies(make_piece(parts, joints)))[0] == ["cross", "long"]


def test_groups_are_built_before_what_holds_them(make_part, make_joint, make_piece):
    parts = [
        make_part("post", (0, 0, 0), (40, 40, 700)),
        make_part("rail", (40, 10, 500), (300, 30, 560), groups=("frame",)),
        make_part("runner", (60, 30, 500), (90, 300, 520), groups=("frame",)),
    ]
    joints = [
        make_joint("rail", "post", "tenon", Face.LEFT),
        make_joint("runner", "rail", "tongue", Face.FRONT),
    ]
    assert _sets(assemblies(make_piece(parts, joints))) == [["rail", "runner"], ["post", "rail", "runner"]]


def test_glue_comes_before_screws_and_a_top_comes_last(make_part, make_joint, make_piece):
    parts = [
        make_part("top", (0, 0, 700), (500, 300, 720)),
        make_part("cleat", (20, 20, 640), (40, 280, 660)),
        make_part("left side", (0, 0, 0), (20, 300, 700), definition="side"),
        make_part("right side", (480, 0, 0), (500, 300, 700), definition="side"),
        make_part("shelf", (20, 0, 300), (480, 300, 320)),
    ]
    joints = [
        make_joint("top", "left side", "slotted screws", Face.BOTTOM),
        make_joint("top", "right side", "slotted screws", Face.BOTTOM),
        make_joint("cleat", "left side", "screws", Face.LEFT),
        make_joint("shelf", "left side", "dado", Face.LEFT),
        make_joint("shelf", "right side", "dado", Face.RIGHT),
    ]
    manners = [step.manner for step in assemblies(make_piece(parts, joints))]
    assert manners == [Manner.GLUE, Manner.FASTEN, Manner.SLIDE]


def test_a_bolted_bed_meets_in_the_room(make_part, make_joint, make_piece, dry):
    parts = [
        make_part("head", (0, 0, 0), (900, 40, 900)),
        make_part("foot", (0, 2000, 0), (900, 2040, 500)),
        make_part("rail", (0, 40, 200), (30, 2000, 350)),
        make_part("spine", (440, 40, 200), (470, 2000, 280)),
        make_part("prop", (440, 1000, 0), (470, 1030, 200)),
    ]
    joints = [
        make_joint("rail", "head", "bed bolts", Face.FRONT),
        make_joint("rail", "foot", "bed bolts", Face.BACK),
        make_joint("spine", "head", "dado", Face.FRONT, glue=dry),
        make_joint("spine", "foot", "dado", Face.BACK, glue=dry),
        make_joint("prop", "spine", "screws", Face.TOP),
    ]
    piece = make_piece(parts, joints)
    assert [sorted(unit) for unit in units(piece)] == [["head"], ["foot"], ["rail"], ["prop", "spine"]]
    assert {joint.id for joint in in_room(piece)} == {joint.id for joint in joints[:4]}


def test_what_slides_or_rests_is_no_part_of_a_unit(make_part, make_joint, make_piece):
    parts = [make_part("box", (0, 0, 0), (200, 100, 50)), make_part("lid", (0, 0, 40), (200, 100, 45))]
    for joint in (
        make_joint("lid", "box", "groove", Face.LEFT, runs=0.4),
        make_joint("lid", "box", "rests", Face.BOTTOM),
    ):
        piece = make_piece(parts, [joint])
        assert len(units(piece)) == 2
        assert assemblies(piece) == ()


METHODS = [
    "tenon",
    "dowels",
    "groove",
    "dado",
    "screws",
    "slotted screws",
    "bed bolts",
    "rests",
    "cross lap",
    "glue",
]


@st.composite
def heaps(draw):
    """Some parts, in groups or not, tied at random: sound or not, each joint must be dealt with once."""
    count = draw(st.integers(2, 8))
    groups = [draw(st.sampled_from([(), ("a",), ("b",), ("a", "c")])) for _ in range(count)]
    ties = draw(
        st.lists(
            st.tuples(
                st.integers(0, count - 1),
                st.integers(0, count - 1),
                st.sampled_from(METHODS),
                st.sampled_from([None, *Face]),
            ),
            max_size=14,
            unique_by=lambda tie: tie[:2],
        )
    )
    return groups, [tie for tie in ties if tie[0] != tie[1]]


@settings(max_examples=150, deadline=None)
@given(heaps())
def test_every_joint_of_any_heap_closes_once(make_part, make_joint, make_piece, heap):
    groups, ties = heap
    parts = [
        make_part(f"p{at}", (at * 10, at * 7, at * 3), (at * 10 + 30, at * 7 + 20, at * 3 + 90), groups=names)
        for at, names in enumerate(groups)
    ]
    joints = [make_joint(f"p{a}", f"p{b}", method, face) for a, b, method, face in ties]
    piece = make_piece(parts, joints)
    steps = assemblies(piece)
    closed = [joint.id for step in steps for joint in step.joints]
    assert sorted(closed) == sorted(joint.id for joint in shop_joints(piece))
    together = {frozenset({part.name}) for part in parts}
    for step in steps:
        assert set(step.before) <= together
        assert frozenset().union(*step.before) == step.after
        together = (together - set(step.before)) | {step.after}
    assert together == set(units(piece))
