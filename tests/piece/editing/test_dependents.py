"""What depends on what: by hand, and by trying every size of every example."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece import resolve
from scantling.piece.editing import Question, dependents
from scantling.piece.editing.referring import part_path
from scantling.piece.model import Axis
from scantling.quantity.kinds import Kind


def told(document, *target):
    return {".".join(one.path): one for one in dependents(Question(document), target)}


def test_a_size_is_followed_through_parts_to_spaces_and_fittings(pieces):
    found = told(pieces["sewing-desk"], "sizes", "leg size")
    assert found["parts.leg.wide"].through == ()
    assert found["spaces.knee room.wide"].through == (("parts", "leg", "wide"),)
    assert "hardware.slide.length" in found
    assert "parts.leg.high" not in found
    assert "parts.fixed top.wide" not in found


def test_a_held_thing_makes_the_space_it_needs(pieces):
    found = told(pieces["sewing-desk"], "holds", "machine")
    assert (
        found["spaces.tray place.high"].words.text
        == "height of machine + tray drop down from bottom of lid board"
    )
    assert found["spaces.tray place.high"].through == ()
    assert "parts.tray.in" in found


def test_a_part_is_named_by_joints_fittings_movements_and_loads(pieces):
    found = told(pieces["hall-bench"], "parts", "lid")
    assert {one.section for one in found.values()} == {"joints", "hardware", "movements", "loads"}
    assert found["movements.lid.about"].words.text == "top back of board"


def test_what_only_carries_a_thing_is_not_measured_from_it(pieces):
    found = told(pieces["sewing-desk"], "parts", "tray")
    assert "holds.machine.on" in found
    assert "spaces.tray place.high" not in found


def test_choices_and_materials(pieces):
    assert "parts.drawer.corners" in told(pieces["chest-of-drawers"], "choices", "drawer corners")
    case = told(pieces["chest-of-drawers"], "materials", "case")
    assert case["parts.top"].words is None, "of the first material, unsaid"
    assert case["parts.top.high"].words.text == "thick down from top"
    assert "parts.back rail" not in case
    panels = told(pieces["sewing-desk"], "materials", "panels")
    assert {"joints.2.when", "joints.3.when", "parts.tray.bottom", "parts.back panel.of"} <= {*panels}


def test_one_span_of_a_part_is_asked_for_alone(pieces):
    wide = told(pieces["sewing-desk"], "parts", "leg", "wide")
    assert "parts.back panel.wide" in wide
    assert "parts.back panel.deep" not in wide


def test_a_pose_names_movements(pieces):
    found = told(pieces["sewing-desk"], "movements", "lid")
    assert {"poses.sewing.1", "poses.threading.lid", "movements.tray.after"} <= {*found}


def test_an_unworkable_piece_is_told(small):
    with pytest.raises(ReadError):
        dependents(Question(small("parts: {a: {wide: between x and y}}\n")), ("parts", "a"))


@pytest.mark.parametrize(
    "name", ["bed-with-slats", "hall-bench", "sewing-desk", "round-table", "chest-of-drawers", "wall-cabinet"]
)
def test_whatever_moves_with_a_size_was_told_to_depend_on_it(pieces, name):
    document = pieces[name]
    before = resolve(document)
    for size in before.sizes:
        if size.kind is not Kind.LENGTH:
            continue
        after = _with(document, before, size)
        if after is None:
            continue
        path = ("overall", size.name.split()[1]) if size.name.startswith("overall ") else ("sizes", size.name)
        keys = {part_path(one.path) for one in dependents(Question(document), path)}
        for part in after.parts:
            was = before.part_by_name.get(part.name)
            if was is not None and _resized(was, part):
                key = tuple(part.definition.split("/"))
                assert any(_is_key(known, key) for known in keys), (size.name, part.name)


def _with(document, piece, size):
    try:
        return resolve(document, settings={size.name: f"{size.value + 1.5} mm"})
    except ReadError:
        return None


def _resized(was, now):
    return any(abs(was.size(axis) - now.size(axis)) > 1e-6 for axis in Axis)


def _is_key(known, definition):
    names = tuple(name for name in known if name != "parts")
    return bool(names) and definition[: len(names)] == names
