"""Every method on parts of any size: never a crash, never an unmatched pair."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.joinery import methods_with_rules
from scantling.joinery.features import Hole
from scantling.piece.methods import METHODS, Meeting
from scantling.piece.model import Air, Axis, Face, Room

ROOM = Room(air=Air(0.3, 0.6, 20.0))
lengths = st.floats(3.0, 900.0)
thin = st.floats(3.0, 120.0)
PAIRED = {"dowels", "biscuits", "loose tenon", "finger joint", "dovetails", "sliding dovetail"}


@st.composite
def meetings(draw):
    """A rail of any section against a post of any section; grain any way."""
    post = (draw(thin), draw(lengths), draw(lengths))
    rail = (draw(lengths), min(draw(thin), post[1]), min(draw(lengths), post[2]))
    up = draw(st.floats(0.0, 1.0)) * (post[2] - rail[2])
    return post, rail, up, draw(st.sampled_from(list(Axis))), draw(st.sampled_from(list(Axis)))


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    meetings(),
    st.sampled_from(methods_with_rules()),
    st.booleans(),
    st.sampled_from(["none", "part", "all", None]),
)
def test_any_meeting_any_method(bench_of, meeting, method, sheet, glue):
    post, rail, up, post_grain, rail_grain = meeting
    material = bench_of.ply if sheet else bench_of.oak
    first = bench_of.part(
        "rail", (post[0], 0, up), (post[0] + rail[0], rail[1], up + rail[2]), rail_grain, material
    )
    second = bench_of.part("post", (0, 0, 0), post, post_grain)
    glued = bench_of.glue(glue, "middle", 50.0) if glue else None
    joint = bench_of.joint(first, second, method, face=Face.LEFT, glue=glued)
    made = bench_of.machined([first, second], [joint], room=ROOM)
    a, b = made.by_name["rail"], made.by_name["post"]
    assert len(made.layouts) == 1
    assert made.layouts[0].text
    assert all(n.message and n.place for n in made.notices)
    assert all(h.deep > 0 and h.diameter > 0 for part in (a, b) for h in part.holes)
    assert all(min(c.box.sizes) >= 0 for part in (a, b) for c in part.cuts)
    if METHODS[method] is Meeting.GOES_IN:
        grown = [a.cut_box.size(axis) - a.part.box.size(axis) for axis in Axis]
        assert grown[0] >= 0
    if method in PAIRED:
        assert _pieces(a) == _pieces(b)


def _pieces(part):
    holes = sum(isinstance(h, Hole) and h.purpose == "dowel" for h in part.holes)
    return holes + len(part.additions) + len(part.cuts) + len(part.shaped)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.floats(10.0, 80.0), st.floats(8.0, 60.0), st.floats(20.0, 300.0), st.sampled_from(methods_with_rules())
)
def test_mirrored_copies_are_mirror_images(bench_of, leg, thick, tall, method):
    """A rail between two legs, and the mirror image of its left end at its right."""
    thick = min(thick, leg)
    legs = [
        bench_of.part("left leg", (0, 0, 0), (leg, leg, 700), copy_words=("left",)),
        bench_of.part(
            "right leg", (1000 - leg, 0, 0), (1000, leg, 700), copy_words=("right",), mirrored=True
        ),
    ]
    low = (leg - thick) / 2
    rail = bench_of.part("rail", (leg, low, 650 - tall), (1000 - leg, low + thick, 650))
    ends = zip(legs, (Face.LEFT, Face.RIGHT), strict=True)
    joints = [bench_of.joint(rail, each, method, face=face) for each, face in ends]
    made = bench_of.machined([*legs, rail], joints, room=ROOM)
    left, right = made.by_name["left leg"], made.by_name["right leg"]

    def seen(part, sign, about):
        spots = [(about + sign * h.at[0], *h.at[1:]) for h in part.holes]
        spots += [(about + sign * c.box.centre[0], *c.box.centre[1:]) for c in part.cuts]
        return sorted(tuple(round(x + 0.0123, 1) for x in spot) for spot in spots)

    assert seen(left, -1, 1000) == seen(right, 1, 0)
