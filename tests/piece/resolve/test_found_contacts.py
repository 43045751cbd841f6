"""Contacts meant by the spans are there in the solids; every joined pair touches or overlaps in them."""

import pytest

from scantling.geometry import found_contacts, overlaps, scene_of
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import FLOOR, WALL

STRAIGHT = (
    "sewing-desk",
    "chest-of-drawers",
    "wall-cabinet",
    "bed-with-slats",
    "round-table",
    "bookcase",
    "wall-shelf",
    "hall-bench",
    "sliding-lid-box",
)


def pairs_of(found):
    return {frozenset((one.first, one.second)) for one in found}


@pytest.mark.parametrize("name", STRAIGHT)
def test_solids_agree(example, name):
    # source: independent; solids made and searched by the geometry folder, which knows no spans
    piece = example(name)
    scene = scene_of(MachinedPiece(piece, tuple(MachinedPart(part, part.box) for part in piece.parts)))
    found, within = pairs_of(found_contacts(scene)), pairs_of(overlaps(scene))
    joined = {frozenset((j.first, j.second)) for j in piece.joints if j.second not in (WALL, FLOOR)}
    assert {frozenset((c.part, c.other)) for c in piece.contacts} <= found
    assert joined <= found | within
    assert within <= joined


def test_a_piece_with_nothing_in_it_yet_resolves(small):
    piece = small("")
    assert (piece.parts, piece.joints, piece.notices) == ((), (), ())
