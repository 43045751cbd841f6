"""Joint notes: one line a kind, partners together, the other side in brackets."""

import re

from scantling.packet.joint_words import merged_notes, renamed

DOWELS = "4 dowels, holes 1 in deep in this part, 1 in deep in the other"


def test_partners_with_the_same_words_share_a_line():
    # source: by hand
    said = [("dowels", "1L leg", DOWELS), ("dowels", "1R leg", DOWELS)]
    assert merged_notes(said) == [("dowels", ["1L leg", "1R leg"], DOWELS)]


def test_the_other_side_stands_in_brackets():
    # source: by hand
    said = [
        ("screws", "4L side", "1 in from the left; two"),
        ("screws", "4R side", "1 in from the right; two"),
    ]
    assert merged_notes(said) == [
        ("screws", ["4L side", "4R side"], "1 in from the left (4R: right); two"),
    ]


def test_other_numbers_or_methods_stay_apart():
    # source: by hand
    said = [
        ("dowels", "1 leg", "4 of them"),
        ("dowels", "2 leg", "5 of them"),
        ("screws", "3 leg", "4 of them"),
    ]
    assert len(merged_notes(said)) == 3


def test_a_name_with_its_article_is_not_doubled():
    # source: by hand
    names = re.compile("front rail|leg")
    text = "haunched where the leg ends, flush with front rail"
    assert renamed(text, "leg", "front rail", names) == "haunched where this part ends, flush with the other"
    assert renamed(text, "front rail", "leg", names) == "haunched where the other ends, flush with this part"
