"""Item numbers and hands: what may be laid on what."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery.features import Hole, MachinedPart, MachinedPiece
from scantling.packet.items import items_of
from scantling.packet.likeness import opposite, same
from scantling.piece.model import Face


def test_each_different_part_has_one_number(kit):
    items = items_of(kit.machined_bench()).items
    # source: by hand; top, side (two, handed), shelf, front rail, back panel, cleat (two, alike)
    assert [(i.name, i.quantity, i.handed) for i in items] == [
        ("top", 1, False),
        ("side", 2, True),
        ("shelf", 1, False),
        ("front rail", 1, False),
        ("back panel", 1, False),
        ("cleat", 2, False),
    ]


def test_marks_tell_the_hands_apart(kit):
    marks = items_of(kit.machined_bench()).marks
    assert marks["left side"] == "2L"
    assert marks["right side"] == "2R"
    assert marks["cleat 1"] == marks["cleat 2"] == "6"


def test_a_plain_mirrored_board_is_no_pair(kit):
    left, right = MachinedPart(kit.LEFT, kit.LEFT.box), MachinedPart(kit.RIGHT, kit.RIGHT.box)
    assert same(left, right)  # source: exact; a box is its own mirror image


def test_one_stopped_dado_makes_a_pair(kit):
    left, right = kit.side(kit.LEFT, Face.RIGHT), kit.side(kit.RIGHT, Face.LEFT)
    assert not same(left, right)
    assert opposite(left, right)


def test_a_hole_on_one_copy_only_gives_it_its_own_number(kit):
    machined = kit.machined_bench()
    odd = machined.by_name["cleat 2"]
    extra = Hole((odd.part.box.low[0], 200, odd.part.box.centre[2]), (1, 0, 0), 5, 10, "screw", "work")
    changed = replace(odd, holes=(*odd.holes, extra))
    parts = tuple(changed if p.name == "cleat 2" else p for p in machined.parts)
    names = [item.name for item in items_of(MachinedPiece(machined.piece, parts)).items]
    assert names[-2:] == ["cleat 1", "cleat 2"]


def test_another_timber_is_another_part(kit):
    left = MachinedPart(kit.LEFT, kit.LEFT.box)
    pine = replace(left, part=replace(kit.LEFT, material=replace(kit.LEFT.material, text="pine")))
    assert not same(left, pine)
