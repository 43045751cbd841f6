"""What the desk sends for a picture: shapes, words and numbers."""

from __future__ import annotations

import json
import pickle
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.desk.picture.pieces import HOSTILE, fixed, lidded, plan_of, riding

from scantling.desk.piece.picture import description, drawing_of, picture_of
from scantling.piece.model import Face, Lean, Placement, Shape
from scantling.quantity.kinds import LengthUnit


def part(plan, name):
    return next(one for one in description(plan)["parts"] if one["name"] == name)


def test_a_picture_goes_from_one_process_to_another():
    picture = picture_of(lidded())
    assert pickle.loads(pickle.dumps(picture)) == picture


def test_equal_shapes_have_one_digest_and_others_another():
    one, same, other = picture_of(lidded()), picture_of(lidded()), picture_of(lidded(side=1.0))
    assert one.digest == same.digest != other.digest
    assert json.loads(one.description)["digest"] == one.digest


def test_findings_and_movements_do_not_change_the_shape():
    full = lidded()
    assert picture_of(plan_of(*full.machined.parts)).digest == picture_of(full).digest


def test_the_text_is_safe_inside_a_script_element():
    text = picture_of(lidded(tray=HOSTILE)).description
    assert "<" not in text
    assert HOSTILE in [one["name"] for one in json.loads(text)["parts"]]


def test_sizes_are_said_in_the_trades_words_and_both_units():
    # source: by hand; 20 mm is 25.197/32 in, 160 mm is 6.299 in = 6 9.57/32
    sizes = {size["trade"]: size for size in part(lidded(), "left side")["sizes"]}
    assert sizes["thickness"]["both"] == "25/32\u00a0in (20\u00a0mm)"
    assert sizes["width"]["words"] == "6\u00a05/16\u00a0in"
    assert sizes["length"]["axis"] == "deep"


def test_equal_parts_share_a_number_and_handed_ones_say_so():
    labels = {one["name"]: one["label"] for one in description(lidded())["parts"]}
    assert labels["bottom"] == "1 bottom"
    assert labels["left side"].split()[0].rstrip("LR") == labels["right side"].split()[0].rstrip("LR") == "2"


@pytest.mark.parametrize(
    ("unit", "step"),
    [
        (LengthUnit.INCHES, {"mm": 1.5875, "whole": 16, "unit": "in", "one": "1/16 in"}),
        (LengthUnit.MM, {"mm": 1.0, "whole": 1, "unit": "mm", "one": "1 mm", "words": [""]}),
    ],
)
def test_a_drag_counts_in_sixteenths_or_millimetres(unit, step):
    told = description(lidded(unit=unit))["step"]
    assert told | step == told
    assert len(told["words"]) == told["whole"]


def test_sixteenths_are_said_as_fractions():
    words = description(lidded())["step"]["words"]
    assert words[:5] == ["", "1/16", "1/8", "3/16", "1/4"]
    assert words[12] == "3/4"


def test_movements_stand_in_the_order_in_which_they_may_be_done():
    assert [one["name"] for one in description(lidded())["movements"]] == ["lid", "tray"]


def test_a_movement_takes_its_riders_along():
    moves = {one["name"]: one["moves"] for one in description(riding())["movements"]}
    assert moves["lift"] == ["flap", "frame", "slide"]
    assert moves["slide"] == ["flap", "slide"]


def test_poses_begin_at_rest_and_say_their_steps_in_order():
    poses = {one["name"]: one["steps"] for one in description(lidded())["poses"]}
    assert list(poses) == ["at rest", "open", "ajar"]
    assert poses["open"] == [["lid", 1.0], ["tray", 0.5]]


def test_what_is_held_rides_on_the_movement_of_what_carries_it():
    held = description(lidded())["held"][0]
    assert (held["name"], held["on"], held["ridesOn"]) == ("kettle", ["tray"], "tray")


def test_findings_are_numbered_as_they_come():
    found = description(lidded())["findings"]
    assert [(one["number"], one["severity"]) for one in found] == [
        (1, "must fix"),
        (2, "should look"),
        (3, "good to know"),
    ]
    assert found[0]["spot"] == [200.0, 0.0, 10.0]
    assert found[1]["pose"] == "open"


def test_every_face_of_a_part_can_be_moved_until_it_is_cut():
    free = part(lidded(), "lid")["faces"]
    assert {face["face"]: face["out"] for face in free}["front"] == [0.0, -1.0, 0.0]
    assert len(free) == 6
    assert part(fixed(lidded(), "lid"), "lid")["faces"] == []


def test_faces_of_a_tilted_part_point_along_the_part():
    # source: by hand; a quarter turn about the upright axis brings right to back
    turned = Placement(((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), (500.0, 0.0, 0.0))
    plan = lidded()
    last = plan.machined.parts[-1]
    tilted = plan_of(replace(last, part=replace(last.part, placement=turned)))
    told = part(tilted, "lid")
    assert {face["face"]: face["out"] for face in told["faces"]}["right"] == [0.0, 1.0, 0.0]
    assert told["shift"] == [500.0, 0.0, 0.0]


def test_the_box_of_a_leaning_stick_leans_with_it():
    # source: by hand; the foot, 180 below the end that stays, goes 36 to the right and 18 forward
    last = lidded().machined.parts[1]
    leaning = Shape(lean=Lean(Face.BOTTOM, (36.0, -18.0)))
    told = part(plan_of(replace(last, part=replace(last.part, shape=leaning))), "left side")
    turn, shift = np.array(told["turn"]), np.array(told["shift"])
    np.testing.assert_allclose(turn @ [0, 0, 180] + shift, [0, 0, 180], atol=1e-3)
    np.testing.assert_allclose(turn @ [0, 0, 20] + shift, [36, -18, 20], atol=1e-3)


def test_the_flat_drawing_names_its_parts_and_moves_with_the_pose():
    rest, moved = drawing_of(lidded()), drawing_of(lidded(), "open")
    names = {path.get("data-part") for path in ElementTree.fromstring(rest)}
    assert {"lid", "right side", "bottom"} <= names
    assert rest != moved
    with pytest.raises(ValueError, match="no pose called 'upside down'"):
        drawing_of(lidded(), "upside down")
