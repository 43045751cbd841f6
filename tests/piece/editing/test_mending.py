"""Mends of findings written into their files, and what differs between two texts."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import ReadError
from scantling.piece import resolve
from scantling.piece.editing import LineKind, Mending, Question, difference, mend
from scantling.piece.language import reread


def test_a_size_is_mended_and_keeps_its_range(pieces):
    desk = pieces["sewing-desk"]
    write = mend(Question(desk), [Mending("overall wide", "39")])
    assert write.files == (("sewing-desk.yaml", desk.text.replace("wide: 38 within", "wide: 39 within")),)
    assert (write.what, write.freed) == (
        'overall wide: "38 within 34 to 42" is now "39 within 34 to 42"',
        ("overall wide",),
    )
    beyond = mend(Question(desk), [Mending("overall wide", "43")])
    assert "overall: {wide: 43, deep: 17," in beyond.files[0][1], "a range it lies outside of is dropped"


def test_a_key_of_a_joint_line_is_changed_or_added(pieces):
    bench = pieces["hall-bench"]
    joints = {joint.method: joint.place for joint in resolve(bench).joints}
    deeper = mend(Question(bench), [Mending("deep", "7/8", joints["tenon"])])
    assert "{join: every rail, to: leg, with: tenon, deep: 7/8}" in deeper.files[0][1]
    other = mend(Question(bench), [Mending("method", "screws", joints["groove"])])
    assert "{join: floor, to: every rail, with: screws, deep: 1/4}" in other.files[0][1]
    both = mend(
        Question(bench),
        [Mending("gap", "1/32", joints["tenon"]), Mending("glue", "front 3", joints["groove"])],
    )
    (file,) = both.files
    assert "with: tenon, deep: 1, gap: 1/32}" in file[1]
    assert "deep: 1/4, glue: front 3}" in file[1]


def test_a_method_takes_the_place_of_wishes(pieces):
    desk = pieces["sewing-desk"]
    lip = next(joint for joint in resolve(desk).joints if joint.wants)
    write = mend(Question(desk), [Mending("method", "screws", lip.place)])
    assert "  - {join: lip, to: lid board, with: screws}\n" in write.files[0][1]


def test_a_movement_comes_after_one_more(pieces):
    desk = pieces["sewing-desk"]
    places = {movement.name: movement.place for movement in resolve(desk).movements}
    first = mend(Question(desk), [Mending("on", "hinge", places["lid"])])
    assert first.files[0][1] == desk.text
    write = mend(Question(desk), [Mending("after", "lid", places["tray"])])
    assert "after: [lid, lid]" in write.files[0][1]
    begun = mend(Question(desk), [Mending("after", "tray", places["lid"])])
    assert "on: hinge, after: tray}" in begun.files[0][1]


def test_every_file_of_a_mend_is_written_once(pieces):
    refit = pieces["sewing-desk-refit"]
    joint = next(joint for joint in resolve(refit).joints if joint.first == "left spacer")
    write = mend(Question(refit), [Mending("seam", "1/8"), Mending("glue", "none", joint.place)])
    assert [file for file, _ in write.files] == ["sewing-desk-refit.yaml", "sewing-desk.yaml"]
    again = reread(refit, dict(write.files))
    assert resolve(again).size("seam").value == pytest.approx(3.175)
    assert refit.files["sewing-desk.yaml"].text != dict(write.files)["sewing-desk.yaml"]


def test_what_is_not_there_is_told(pieces):
    with pytest.raises(ReadError, match='no size is called "nothing"'):
        mend(Question(pieces["sewing-desk"]), [Mending("nothing", "1")])
    kit = pieces["sewing-desk"].kits["tray"]
    inside = kit.root.get("joints").items[0].place
    with pytest.raises(ReadError, match="not changed"):
        mend(Question(pieces["sewing-desk"]), [Mending("deep", "1", inside)])
    at_use = next(j for j in resolve(pieces["sewing-desk"]).joints if j.first == "tray bottom").place
    with pytest.raises(ReadError, match="inside the kit `tray`"):
        mend(Question(pieces["sewing-desk"]), [Mending("deep", "1", at_use)])
    walls = mend(Question(pieces["sewing-desk"]), [Mending("walls", "5/8", at_use)])
    assert "walls: 5/8, long" in walls.files[0][1]


def test_lines_that_differ_stand_in_pairs_with_their_characters():
    lines = difference("a\nb: 12\nc\nd\ne\nf\ng: 1\n", "a\nb: 13\nc\nd\ne\nf\nnew\ng: 1\n")
    assert [(line.kind.value, line.number, line.text, line.marks) for line in lines] == [
        ("same", 1, "a", ()),
        ("removed", 2, "b: 12", ((4, 5),)),
        ("added", 2, "b: 13", ((4, 5),)),
        ("same", 3, "c", ()),
        ("gap", 0, "", ()),
        ("same", 6, "f", ()),
        ("added", 7, "new", ()),
        ("same", 8, "g: 1", ()),
    ]
    assert difference("a\n", "a\n") == ()


@given(st.lists(st.sampled_from("abc"), max_size=8), st.lists(st.sampled_from("abd"), max_size=8))
@settings(max_examples=60)
def test_the_later_text_is_made_of_what_is_the_same_and_added(before, after):
    lines = difference("\n".join(before), "\n".join(after), around=20)
    if lines:
        kept = [line.text for line in lines if line.kind in (LineKind.SAME, LineKind.ADDED)]
        was = [line.text for line in lines if line.kind in (LineKind.SAME, LineKind.REMOVED)]
        assert (kept, was) == (after, before)
    else:
        assert before == after
