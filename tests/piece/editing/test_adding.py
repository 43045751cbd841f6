"""Adding by name from lists, with first words that resolve at once; taking out."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece import resolve
from scantling.piece.editing import (
    Question,
    Refused,
    Write,
    add_hardware,
    add_hold,
    add_joint,
    add_load,
    add_material,
    add_part,
    add_size,
    add_work,
    effects,
    kit_settings,
    offers,
    remove,
    suggest_hold,
    suggest_kit,
    suggest_load,
    suggest_method,
    suggest_part,
    suggest_work,
)
from scantling.piece.editing.offering import EDGE_WORK, LOADS
from scantling.piece.facts import HardwareFact, ShopFacts
from scantling.piece.language import house_kit_names, reread
from scantling.piece.methods import METHODS

CASE = """\
spaces:
  bay: {wide: between left side and right side, deep: front to back, high: bottom to top}
parts:
  side: {wide: thick inward from left, deep: front to back, high: floor to top, copies: left and right}
  # the shelf
  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 10}
joints:
  - {join: shelf, to: side, with: dado}
"""


def after(document, write):
    assert isinstance(write, Write), write
    ((_, text),) = write.files
    others = [line for line in document.text.splitlines() if line not in text.splitlines()]
    assert len(others) <= 1, "no more than the one line that was added to is another"
    return resolve(reread(document, dict(write.files)))


def test_a_part_is_added_in_the_style_of_its_neighbours(small):
    document = small(CASE)
    spans = {"wide": "left to right", "deep": "3/4 forward from back", "high": "2 to top"}
    write = add_part(document, "Back", {**spans, "grain": "high"})
    line = "  back: {wide: left to right, deep: 3/4 forward from back, high: 2 to top, grain: high}\n"
    assert write.files[0][1] == document.text.replace("joints:", line + "joints:")
    assert write.what == "back is added"
    assert "back" in after(document, write).part_by_name


def test_a_name_that_is_taken_is_refused(small):
    with pytest.raises(ReadError, match='"shelf" is there already'):
        add_part(small(CASE), "shelf", {"in": "bay"})
    with pytest.raises(ReadError, match="no key of a part"):
        add_part(small(CASE), "door", {"wade": "left to right"})


def test_a_new_part_fills_the_space_it_is_put_in(small):
    document = small(CASE)
    said = suggest_part(Question(document), "bay")
    assert said == {"of": "wood", "in": "bay", "grain": "high"}
    board = after(document, add_part(document, "board", said)).part("board")
    assert board.box.sizes == pytest.approx((22.5 * 25.4, 12 * 25.4, 30 * 25.4))


def test_or_lies_at_the_bottom_of_the_whole(pieces):
    for name, document in pieces.items():
        said = suggest_part(Question(document))
        piece = after(document, add_part(document, "new board", said))
        assert "new board" in piece.part_by_name, name


def test_a_joint_line_and_its_default_method(small):
    document = small(CASE)
    write = add_joint(document, ("shelf",), ("left side", "right side"), "screws", {"size": "8 x 1 1/4"})
    added = "  - {join: shelf, to: [left side, right side], with: screws, size: 8 x 1 1/4}\n"
    assert write.files[0][1] == document.text + added
    assert write.what == "shelf joined to left side, right side with screws"
    assert {joint.method for joint in after(document, write).joints} == {"screws"}
    assert suggest_method(Question(document)) == "dowels"
    assert suggest_method(Question(document, ShopFacts(methods=("tenon",)))) == "tenon"


@pytest.mark.parametrize("kit", house_kit_names())
def test_every_kit_stands_in_a_space_with_what_must_be_said(small, kit):
    document = small(CASE.replace("shelf: {", "thin shelf: {").replace("join: shelf", "join: thin shelf"))
    said = suggest_kit(Question(document), kit, "bay")
    must = {setting.name for setting in kit_settings(document, kit) if setting.must}
    assert {*said} == {"kit", "in", *must}
    piece = after(document, add_part(document, "thing", said))
    assert any(part.groups for part in piece.parts)


def test_the_settings_of_a_kit_come_from_its_own_file(pieces):
    found = {one.name: one for one in kit_settings(pieces["sewing-desk"], "drawer")}
    assert (found["box"].must, found["box"].group, found["box"].words) == (True, "materials", "")
    assert (found["rise"].words, found["rise"].group) == ("3/8", "sizes")
    assert found["corners"].options == ("half-blind dovetails", "rabbet", "dowels")
    assert [one.name for one in kit_settings(pieces["sewing-desk"], "drawer")][:2] == ["box", "front"]
    with pytest.raises(KeyError):
        kit_settings(pieces["sewing-desk"], "nothing of the kind")


def test_hardware_holds_loads_sizes_and_materials(small):
    document = small(CASE)
    hinge = add_hardware(document, "hinge", "butt hinge 2", {"joins": ("shelf", "left side"), "count": "2"})
    assert "hardware: {hinge: {kind: butt hinge 2, joins: [shelf, left side], count: 2}}" in hinge.files[0][1]
    assert after(document, hinge).hardware[0].count == 2
    hold = add_hold(document, "lamp", suggest_hold(Question(document), "shelf"))
    assert after(document, hold).holds[0].on == ("shelf",)
    for kind in LOADS:
        load = add_load(document, suggest_load(Question(document), kind, "shelf"))
        assert after(document, load).loads[0].kind == kind
    assert after(document, add_size(document, "reveal", "1/8")).size("reveal").value == pytest.approx(3.175)
    assert len(after(document, add_material(document, "ply", "birch plywood 1/4")).materials) == 2


def test_work_is_added_to_the_list_or_begins_it(small):
    document = small(CASE)
    for kind in EDGE_WORK:
        write = add_work(document, ("parts", "shelf"), suggest_work(Question(document), kind))
        assert len(after(document, write).part("shelf").work) == 1
    one = reread(document, dict(write.files))
    two = add_work(one, ("parts", "shelf"), {"chamfer": "bottom", "size": "1/16"})
    assert "work: [{rabbet: top, size: 1/8 x 1/8}, {chamfer: bottom, size: 1/16}]" in two.files[0][1]
    alone = small(CASE.replace("up from 10}", "up from 10, work: {chamfer: top, size: 1/8}}"))
    both = add_work(alone, ("parts", "shelf"), {"chamfer": "bottom", "size": "1/16"})
    assert "work: [{chamfer: top, size: 1/8}, {chamfer: bottom, size: 1/16}]}" in both.files[0][1]


def test_a_refit_begins_its_own_lists(pieces):
    document = pieces["sewing-desk-refit"]
    work = add_work(document, ("parts", "leg"), {"chamfer": "top", "size": "1/8"})
    assert "parts: {leg: {work: [{chamfer: top, size: 1/8}]}}" in work.files[0][1]
    assert len(resolve(reread(document, dict(work.files))).part("left front leg").work) == 2
    joint = add_joint(document, ("lip",), ("lid board",), "screws", {})
    assert joint.files[0][1].rstrip().endswith("{join: lip, to: lid board, with: screws}]")


def test_what_can_be_offered(pieces):
    facts = ShopFacts(hardware=(HardwareFact("knob a", "knob"),), methods=("screws",))
    found = offers(Question(pieces["chest-of-drawers"], facts))
    assert {"top", "frame", "drawer front"} <= {*found.parts}
    assert not {*found.parts} & {*found.spaces}
    assert found.spaces[:3] == ("opening", "frame place", "bottom place")
    assert "opening 6" in found.spaces
    assert found.methods[0] == "screws"
    assert {*found.methods} == {*METHODS}
    assert (found.hardware, found.details) == (("knob",), ())
    assert {*house_kit_names()} <= {*found.kits}
    assert offers(Question(pieces["bookcase"])).details == ("lipping",)
    assert offers(Question(pieces["sewing-desk"])).poses == ("at rest", "sewing", "threading")


def test_a_part_goes_with_the_lines_that_name_only_it(small):
    document = small(CASE)
    write = remove(Question(document), ("parts", "shelf"))
    assert write.files[0][1] == document.text.replace(
        "  shelf: {wide: between left side and right side, deep: front to back, high: thick up from 10}\n", ""
    ).replace("joints:\n  - {join: shelf, to: side, with: dado}\n", "")
    assert write.what == "shelf is taken out, and where it was named"
    assert write.lost == ("shelf to left side: dado", "shelf to right side: dado")


def test_names_in_lists_go_alone(pieces):
    document = pieces["sewing-desk"]
    write = remove(Question(document), ("parts", "fold rail"))
    left = "{join: fixed top, to: [side panel, back panel], with: figure eights, fixed at: front}"
    assert left in write.files[0][1]
    gone = effects(resolve(document), resolve(reread(document, dict(write.files)))).gone
    assert gone == ("fold rail",)
    lid = remove(Question(document), ("movements", "lid"))
    assert "poses: {sewing: [tray]}" in lid.files[0][1]


def test_what_others_are_measured_from_stays(pieces):
    refused = remove(Question(pieces["sewing-desk"]), ("parts", "leg"))
    assert isinstance(refused, Refused)
    assert refused.why.startswith("leg is named by others: tray place, deep; knee room, wide;")
    assert "is named by others" in remove(Question(pieces["sewing-desk"]), ("sizes", "seam")).why
    assert 'no "nothing"' in remove(Question(pieces["sewing-desk"]), ("parts", "nothing")).why


def test_a_thing_of_a_followed_file_is_left_out(pieces):
    document = pieces["sewing-desk-refit"]
    write = remove(Question(document), ("hardware", "stay"))
    assert "\nleave out: [stay]\n" in write.files[0][1]
    again = reread(document, dict(write.files))
    assert "stay" not in {fitting.name for fitting in resolve(again).hardware}
    line = remove(Question(document), ("joints", "1"))
    assert line.why == "line 1 of joints stands in a followed file"
    own = remove(Question(document), ("joints", "9"))
    assert "joints" not in own.files[0][1]


def test_every_entry_of_every_example_is_taken_out_or_refused(pieces):
    for name in ("hall-bench", "bookcase", "wall-cabinet"):
        document = pieces[name]
        for section in ("parts", "hardware", "movements", "materials", "details", "joints", "loads"):
            node = document.root.get(section)
            names = [] if node is None else [e.name for e in node] if hasattr(node, "entries") else ["1"]
            for key in names:
                answer = remove(Question(document), (section, key))
                if isinstance(answer, Write):
                    left = reread(document, dict(answer.files)).root.get(section)
                    assert left is None or section in ("joints", "loads") or left.get(key) is None
                else:
                    assert answer.why


def test_the_only_part_is_taken_out_and_the_first_is_added(small):
    document = small("parts: {a: {wide: left to right, deep: front to back, high: 1 to 2, grain: wide}}\n")
    empty = remove(Question(document), ("parts", "a"))
    assert "parts" not in empty.files[0][1]
    bare = reread(document, dict(empty.files))
    first = add_part(bare, "a", suggest_part(Question(bare)))
    assert list(after(bare, first).part_by_name) == ["a"]
    assert offers(Question(bare)).parts == ()
