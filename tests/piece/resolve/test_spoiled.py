"""What the build record says of parts that are to be made again."""

from scantling.piece import read_record_text


def record(lines):
    return read_record_text(f"build: one\n{lines}\n", "one.build.yaml")


PARTS = """parts:
  leg: {wide: 2 inward from left, deep: 2 back from front, high: bottom to top, copies: left and right}
  rail: {wide: between left leg and right leg, deep: thick back from front, high: 4 down from top}
joints: [{join: rail, to: leg, with: tenon}]
"""


def test_a_spoiled_part_loses_its_measured_size(small):
    planned = small(PARTS)
    again = small(PARTS, record=record("left leg: {wide: 1 7/8, cut: done, spoiled: 1}"))
    assert [part.box for part in again.parts] == [part.box for part in planned.parts]
    assert not again.part("left leg").fixed


def test_one_made_again_keeps_the_size_measured_on_it(small):
    lines = (
        "left leg: {wide: 1 7/8, cut: done, spoiled: 1}\n"
        "boards: {W1: {cut: {left leg: 30 x 3 x 2}}, W2: {cut: {left leg: 30 x 3 x 2}}}"
    )
    piece = small(PARTS, record=record(lines))
    assert piece.part("left leg").fixed
    assert round(piece.part("left leg").box.sizes[0] / 25.4, 4) == 1.875


def test_parts_are_noted_by_their_full_names(small):
    piece = small(PARTS, record=record("Left  Leg: {from: W3}"))
    assert [noted.part for noted in piece.record.measured] == ["left leg"]
    assert not [notice for notice in piece.notices if notice.code == "as built"]
