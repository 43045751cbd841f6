"""Defects drawn on boards, written as makers write them."""

from __future__ import annotations

from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import Conflict
from scantling.shop import read_shop_text
from scantling.shop.editing import add_defect, change_defect, defect_lines, remove_defect
from scantling.shop.model import BoardFace, Defect

SHOPS = sorted((files("scantling") / "examples" / "shops").iterdir(), key=lambda path: path.name)
INCH = 25.4


def defects(text: str, board: str):
    return next(b for b in read_shop_text(text, "shop.yaml").boards if b.id == board).defects


def test_a_drawn_defect_is_written_in_sixteenths(shed):
    drawn = Defect("knot", 30.02 * INCH, 32.49 * INCH, 1.99 * INCH, 4.03 * INCH, BoardFace.BEST)
    text = add_defect(shed, "W1", drawn)
    # source: by hand; 30.02 -> 30, 32.49 -> 32 1/2, 1.99 -> 2, 4.03 -> 4 (nearest 1/16)
    assert "twist 3/16, knot 30 to 32 1/2 x 2 to 4 on best\n" in text
    assert defect_lines(text, "W1") == ("knot 30 to 32 1/2 x 2 to 4 on best",)


def test_the_far_end_and_edge_are_said_in_words(shed):
    text = add_defect(shed, "W1", Defect("wane", 40 * INCH, 99 * INCH, 6 * INCH, 7.49 * INCH))
    assert "wane 40 to end x 6 to edge\n" in text


def test_millimetres_are_written_whole():
    before = "shop: a\nunits: mm\nboards:\n  birch:\n    B1: 900 x 100 x 25\n"
    text = add_defect(before, "B1", Defect("split", 10.4, 20.6, 3.2, 3.3))
    assert text.endswith("B1: 900 x 100 x 25, split 10 to 21 x 3 to 4\n")


def test_one_of_several_is_moved_or_taken_out():
    line = "B1: 900 x 100 x 25, knot 1 to 9 x 2 to 8, bow 3, hole 50 to 60 x 2 to 8\n"
    before = "shop: a\nunits: mm\nboards:\n  birch:\n    " + line
    text = change_defect(before, "B1", 2, Defect("hole", 70, 80, 2, 8), "hole 50 to 60 x 2 to 8")
    assert text == before.replace("50 to 60", "70 to 80")
    text = remove_defect(before, "B1", 1, "knot 1 to 9 x 2 to 8")
    assert text.endswith("B1: 900 x 100 x 25, bow 3, hole 50 to 60 x 2 to 8\n")
    with pytest.raises(Conflict):
        remove_defect(before, "B1", 2, "hole 50 to 61 x 2 to 8")
    with pytest.raises(Conflict):
        remove_defect(before, "B1", 3, "")


def test_lists_of_defects_are_kept_as_lists():
    before = (
        "shop: a\nunits: mm\nboards:\n  birch:\n    B1:\n      size: 900 x 100 x 25\n      defects:\n"
        "        - knot 1 to 9 x 2 to 8  # the loose one\n        - hole 50 to 60 x 2 to 8\n"
    )
    text = add_defect(before, "B1", Defect("check", 800, 900, 10, 20))
    assert text == before + "        - check 800 to end x 10 to 20\n"
    assert remove_defect(text, "B1", 3, "check 800 to end x 10 to 20") == before
    text = change_defect(before, "B1", 1, Defect("knot", 2, 9, 2, 8), "knot 1 to 9 x 2 to 8")
    assert text == before.replace("knot 1", "knot 2")
    text = remove_defect(
        remove_defect(before, "B1", 2, "hole 50 to 60 x 2 to 8"), "B1", 1, "knot 1 to 9 x 2 to 8"
    )
    assert "defects" not in text


def test_a_first_defect_begins_a_list():
    before = "shop: a\nunits: mm\nboards:\n  birch:\n    B1:\n      size: 900 x 100 x 25\n"
    text = add_defect(before, "B1", Defect("check", 800, 900, 10, 20))
    assert text == before + "      defects: [check 800 to end x 10 to 20]\n"


TEXTS = [path.read_text(encoding="utf-8") for path in SHOPS if "boards:" in path.read_text(encoding="utf-8")]
_share = st.floats(0, 1)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    along=st.tuples(_share, _share),
    across=st.tuples(_share, _share),
    number=st.integers(0, 100),
    data=st.data(),
)
def test_what_is_drawn_comes_back_within_the_rounding(along, across, number, data):
    text = data.draw(st.sampled_from(TEXTS))
    shop = read_shop_text(text, "shop.yaml")
    board = shop.boards[number % len(shop.boards)]
    low, high = sorted(share * board.length for share in along)
    left, right = sorted(share * board.width for share in across)
    kind = data.draw(st.sampled_from(["knot", "sound knot", "bark"]))
    face = data.draw(st.sampled_from(list(BoardFace)))
    after = read_shop_text(
        add_defect(text, board.id, Defect(kind, low, high, left, right, face)), "shop.yaml"
    )
    found = next(b for b in after.boards if b.id == board.id).defects[-1]
    step = INCH / 16 if shop.unit.value == "inches" else 1.0
    assert (found.kind, found.face) == (kind, face)
    assert found.from_end == pytest.approx(low, abs=step * 1.51)
    assert found.to_end == pytest.approx(high, abs=step * 1.51)
    assert found.from_edge == pytest.approx(left, abs=step * 1.51)
    assert found.to_edge == pytest.approx(right, abs=step * 1.51)
